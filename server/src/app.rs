//! Everything a request needs, and the router: one line for each slice.

use std::collections::HashMap;
use std::sync::{Arc, Mutex};

use anyhow::Context as _;
use axum::Router;
use hmac::{Hmac, Mac as _};
use sha2::Sha256;
use shared_types::id::TicketId;
use shared_types::key::PortalKey;
use shared_types::moment::Moment;
use shared_types::paths;
use shared_types::ticket::Ticket;
use tokio::sync::{Notify, Semaphore};

use crate::clock::{Clock, random};
use crate::config::Config;
use crate::db::Db;
use crate::mail::Mailer;
use crate::staff::throttle::Throttle;
use crate::{
    assets, bench, counter, guard, notices, photos, plan, portal, pricebook, record, rules, scope,
    shop, staff, today,
};

/// The program's state; cheap to clone.
#[derive(Clone, Debug)]
pub struct App(Arc<Parts>);

/// What the state is made of.
#[derive(Debug)]
pub struct Parts {
    /// The records.
    pub db: Db,
    /// The time.
    pub clock: Clock,
    /// How the program is run.
    pub config: Config,
    /// Who takes letters.
    pub mailer: Mailer,
    /// Rung when a letter was written.
    pub outbox: Notify,
    secret: [u8; 32],
    /// Hashing a password takes 19 MiB and a core: two at a time.
    pub(crate) hashing: Semaphore,
    /// Decoding a picture takes many more: one at a time.
    pub(crate) decoding: Semaphore,
    pub(crate) sign_ins: Mutex<Throttle>,
    /// The one-time set-up code, while there is no owner.
    pub(crate) setup: Mutex<Option<String>>,
    /// Islands are read once.
    pub(crate) islands: HashMap<&'static str, Vec<u8>>,
}

impl std::ops::Deref for App {
    type Target = Parts;

    fn deref(&self) -> &Parts {
        &self.0
    }
}

impl App {
    /// Opens the database and makes everything ready.
    pub async fn build(config: Config, clock: Clock) -> anyhow::Result<Self> {
        let db = Db::open(&config.database)
            .await
            .context("the database can't be opened")?;
        record::renew_briefs(&db).await?;
        let secret = link_secret(&config)?;
        let mailer = Mailer::new(config.smtp.as_deref())?;
        let islands = assets::read_islands(config.islands.as_deref());
        Ok(Self(Arc::new(Parts {
            db,
            clock,
            config,
            mailer,
            outbox: Notify::new(),
            secret,
            hashing: Semaphore::new(2),
            decoding: Semaphore::new(1),
            sign_ins: Mutex::default(),
            setup: Mutex::default(),
            islands,
        })))
    }

    /// The present moment.
    pub fn now(&self) -> Moment {
        self.clock.now()
    }

    /// The key of a ticket's link: derived, so that a letter or a reprinted code can carry it
    /// although the database has only its digest.
    pub fn portal_key(&self, ticket: TicketId, generation: u32) -> PortalKey {
        #[expect(
            clippy::expect_used,
            reason = "HMAC takes keys of any length (RFC 2104)"
        )]
        let mut mac =
            Hmac::<Sha256>::new_from_slice(&self.secret).expect("a key of any length fits");
        mac.update(format!("lastword/link/v1/{ticket}/{generation}").as_bytes());
        PortalKey::from_bytes(mac.finalize().into_bytes().into())
    }

    /// The key of the link that is alive; nothing if it was stopped, or was made with another
    /// secret than this machine has.
    pub fn key_of(&self, ticket: &Ticket) -> Option<PortalKey> {
        let link = ticket.link()?;
        let key = self.portal_key(ticket.id, link.generation);
        (key.digest() == link.digest).then_some(key)
    }

    /// The address of the customer's page.
    pub fn link_of(&self, ticket: &Ticket) -> Option<String> {
        let key = self.key_of(ticket)?;
        Some(self.absolute(&paths::ticket(key)))
    }

    /// A path as a whole address.
    pub fn absolute(&self, path: &str) -> String {
        format!("{}{path}", self.config.public_url)
    }

    /// All routes.
    pub fn router(&self) -> Router {
        let routes = Router::new()
            .merge(assets::routes())
            .merge(portal::routes())
            .merge(staff::routes())
            .merge(today::routes())
            .merge(plan::routes())
            .merge(counter::routes())
            .merge(bench::routes())
            .merge(scope::routes())
            .merge(photos::routes())
            .merge(notices::routes())
            .merge(pricebook::routes())
            .merge(rules::routes())
            .merge(shop::routes());
        guard::around(routes, self).with_state(self.clone())
    }
}

/// The secret from which links are made: a file of its own, so that a copy of the database opens
/// no customer's page.
fn link_secret(config: &Config) -> anyhow::Result<[u8; 32]> {
    let path = config.data.join("link-secret");
    let stored = match std::fs::read(&path) {
        Ok(stored) => stored,
        Err(error) if error.kind() == std::io::ErrorKind::NotFound => {
            let fresh: [u8; 32] = random();
            write_private(&path, &fresh)
                .with_context(|| format!("{} can't be written", path.display()))?;
            return Ok(fresh);
        }
        Err(error) => {
            return Err(error).with_context(|| format!("{} can't be read", path.display()));
        }
    };
    stored
        .try_into()
        .map_err(|_| anyhow::anyhow!("{} is not 32 bytes long; restore it", path.display()))
}

fn write_private(path: &std::path::Path, bytes: &[u8]) -> std::io::Result<()> {
    use std::io::Write as _;
    let mut options = std::fs::OpenOptions::new();
    options.write(true).create_new(true);
    #[cfg(unix)]
    std::os::unix::fs::OpenOptionsExt::mode(&mut options, 0o600);
    let mut file = options.open(path)?;
    file.write_all(bytes)?;
    file.sync_all()
}

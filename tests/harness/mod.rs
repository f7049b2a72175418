//! The shop in which every journey starts: a server of its own, set up through its own pages.
//!
//! - [`TestApp`]: the running server, its clock, and the three people who work there
//! - [`visitor`]: what a browser does, without a browser; [`page`]: what it got back
//! - [`form`]: what is typed and sent; [`ticket`]: what happens to a pair, step by step
//! - [`database`]: a fresh database on either engine
//! - [`smtp_peer`]: a mail server to which letters go

pub(crate) mod database;
pub(crate) mod form;
pub(crate) mod page;
pub(crate) mod shop;
pub(crate) mod smtp_peer;
pub(crate) mod ticket;
pub(crate) mod visitor;

use std::path::PathBuf;

use anyhow::{Context as _, Result, ensure};
use server::app::App;
use server::clock::{Clock, TurnedClock};
use server::config::Config;
use server::listen;
use server::mail::worker;
use server::record::verify;
use shared_types::moment::Moment;
use tempfile::TempDir;
use time::Duration;
use time::macros::datetime;
use tokio::net::TcpListener;
use tokio::sync::oneshot;
use tokio::task::JoinHandle;

use database::Database;
pub(crate) use database::Engine;
use shop::Book;
use visitor::Visitor;

/// Runs each of these journeys once on each engine; `with a mail server` gives them one.
macro_rules! on_both_engines {
    (with a mail server: $($journey:ident),+ $(,)?) => {
        mod sqlite { $( on_both_engines!(@mail Sqlite $journey); )+ }
        mod postgres { $( on_both_engines!(@mail Postgres $journey); )+ }
    };
    (@mail $engine:ident $journey:ident) => {
        #[tokio::test(flavor = "multi_thread", worker_threads = 2)]
        async fn $journey() -> anyhow::Result<()> {
            let mut peer = $crate::harness::smtp_peer::SmtpPeer::start()?;
            let engine = $crate::harness::Engine::$engine;
            let app = $crate::harness::TestApp::start_with(engine, Some(peer.address())).await?;
            super::$journey(&app, &mut peer).await?;
            app.ends().await
        }
    };
    (@plain $engine:ident $journey:ident) => {
        #[tokio::test(flavor = "multi_thread", worker_threads = 2)]
        async fn $journey() -> anyhow::Result<()> {
            let app = $crate::harness::TestApp::start($crate::harness::Engine::$engine).await?;
            super::$journey(&app).await?;
            app.ends().await
        }
    };
    ($($journey:ident),+ $(,)?) => {
        mod sqlite { $( on_both_engines!(@plain Sqlite $journey); )+ }
        mod postgres { $( on_both_engines!(@plain Postgres $journey); )+ }
    };
}

/// What `cargo xtask test` hands to the tests.
pub(crate) fn handed(name: &str) -> Result<String> {
    std::env::var(name).with_context(|| format!("{name} is not set; run cargo xtask test"))
}

/// A running shop.
pub(crate) struct TestApp {
    pub(crate) app: App,
    pub(crate) clock: TurnedClock,
    pub(crate) origin: String,
    pub(crate) owner: Visitor,
    pub(crate) counter: Visitor,
    pub(crate) bench: Visitor,
    pub(crate) book: Book,
    database: Database,
    stop: oneshot::Sender<()>,
    served: JoinHandle<Result<()>>,
    data: TempDir,
}

impl TestApp {
    /// Tuesday 1 December 2026, 10:00 in Denver: the shop has been open for an hour.
    pub(crate) const OPENED: Moment =
        Moment::from_micros(datetime!(2026-12-01 17:00 UTC).unix_timestamp() * 1_000_000);

    /// A shop set up as Juniper Row is, without a mail server.
    pub(crate) async fn start(engine: Engine) -> Result<Self> {
        Self::start_with(engine, None).await
    }

    /// The same, whose letters go to this mail server.
    pub(crate) async fn start_with(engine: Engine, smtp: Option<String>) -> Result<Self> {
        let data = tempfile::tempdir()?;
        let database = Database::create(engine, data.path()).await?;
        let listener = TcpListener::bind("127.0.0.1:0").await?;
        let origin = format!("http://{}", listener.local_addr()?);
        let clock = TurnedClock::at(Self::OPENED);
        let config = Config {
            database: database.address().to_owned(),
            public_url: origin.clone(),
            smtp,
            data: data.path().to_owned(),
            islands: std::env::var_os("LASTWORD_ISLANDS").map(PathBuf::from),
        };
        let app = App::build(config, Clock::Turned(clock.clone())).await?;
        let (stop, stopped) = oneshot::channel::<()>();
        let router = app.router();
        let served = tokio::spawn(listen::serve(listener, router, async {
            let _ = stopped.await;
        }));
        let setup = server::setup_path(&app).await?;
        let setup = setup.context("a new shop has a set-up page")?;
        let (owner, book) = shop::set_up(&origin, &setup).await?;
        let shop = Self {
            counter: Visitor::new(&origin)?,
            bench: Visitor::new(&origin)?,
            app,
            clock,
            origin,
            owner,
            book,
            database,
            stop,
            served,
            data,
        };
        shop.everybody_signs_in().await?;
        Ok(shop)
    }

    /// Somebody who has nothing but a browser.
    pub(crate) fn stranger(&self) -> Result<Visitor> {
        Visitor::new(&self.origin)
    }

    /// Where pictures and secrets are kept.
    pub(crate) fn data(&self) -> &std::path::Path {
        self.data.path()
    }

    /// Lets so much time pass; whoever was signed in for too long signs in again.
    pub(crate) async fn time_passes(&self, span: Duration) -> Result<()> {
        self.clock.advance(span);
        if span >= Duration::hours(5) {
            self.everybody_signs_in().await?;
        }
        Ok(())
    }

    pub(crate) async fn everybody_signs_in(&self) -> Result<()> {
        for (visitor, name) in [
            (&self.owner, shop::OWNER),
            (&self.counter, shop::COUNTER),
            (&self.bench, shop::BENCH),
        ] {
            shop::sign_in(visitor, name).await?;
        }
        Ok(())
    }

    /// Looks for due reminders as the program does now and then, and says how many there were.
    pub(crate) async fn reminders_fall_due(&self) -> Result<usize> {
        worker::remind(&self.app).await
    }

    /// Delivers all letters that are due, and says how many tries that took.
    pub(crate) async fn delivers_letters(&self) -> Result<usize> {
        let mut tries = 0;
        while worker::deliver_next(&self.app).await? {
            tries += 1;
            ensure!(
                tries < 1_000,
                "the same letters are delivered over and over"
            );
        }
        Ok(tries)
    }

    /// One whole number from the database.
    pub(crate) async fn number(&self, sql: &'static str) -> Result<i64> {
        Database::number(&self.app.db, sql).await
    }

    /// How many entries all records have together.
    pub(crate) async fn entries(&self) -> Result<i64> {
        self.number("select count(*) from entry").await
    }

    /// How much of everything there is that a request could change.
    pub(crate) async fn holdings(&self) -> Result<Vec<i64>> {
        let mut holdings = Vec::new();
        for sql in [
            "select count(*) from entry",
            "select count(*) from letter",
            "select count(*) from letter where state = 'waiting'",
            "select count(*) from draft",
            "select count(*) from customer",
            "select count(*) from portal_link where revoked_at is null",
            "select count(*) from service where retired_at is null",
            "select count(*) from supply where retired_at is null",
            "select count(*) from shop_cost",
            "select count(*) from staff where disabled_at is null",
            "select changed_at from shop",
            "select coalesce(max(revision), 0) from rules",
        ] {
            holdings.push(self.number(sql).await?);
        }
        Ok(holdings)
    }

    /// Subjects of the letters that this notice caused, oldest first.
    pub(crate) async fn letters(&self, notice: &str) -> Result<Vec<String>> {
        Database::letters(&self.app.db, notice).await
    }

    /// Every journey ends with all records sound, and leaves nothing behind.
    pub(crate) async fn ends(self) -> Result<()> {
        let verdict = verify::verify(&self.app.db).await?;
        ensure!(verdict.troubles.is_empty(), "{:?}", verdict.troubles);
        let left = self.closes().await?;
        left.database.remove().await
    }

    /// Stops the server and gives what it leaves on its disks.
    pub(crate) async fn closes(self) -> Result<Left> {
        let _ = self.stop.send(());
        drop((self.owner, self.counter, self.bench));
        self.served.await??;
        self.app.db.close().await;
        Ok(Left {
            database: self.database,
            data: self.data,
        })
    }
}

/// What a shop leaves on its disks.
pub(crate) struct Left {
    pub(crate) database: Database,
    pub(crate) data: TempDir,
}

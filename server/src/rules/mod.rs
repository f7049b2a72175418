//! The rules between services: the shipped ones as the shop changed them, and its own.

mod pages;
mod queries;

use std::collections::{BTreeMap, BTreeSet};

use axum::Router;
use axum::routing::get;
use shared_types::id::ServiceId;
use shared_types::paths;
use shared_types::pricebook::Offered;
use shared_types::scope::rules::edits::Edits;
use shared_types::scope::rules::trouble::RuleTrouble;
use shared_types::scope::rules::{RuleSet, shipped};

use crate::app::App;
use crate::db::{Conn, DbError};
use crate::error::AppError;
use crate::pricebook;

pub(crate) fn routes() -> Router<App> {
    Router::new()
        .route(paths::RULES, get(pages::list))
        .route(paths::NEW_RULE, get(pages::new).post(pages::add))
        .route(paths::RULE, get(pages::show).post(pages::change))
}

/// The shop's rules.
pub(crate) async fn of_shop(conn: &mut Conn) -> Result<RuleSet, DbError> {
    let (edits, _) = queries::edits(conn).await?;
    Ok(edits.over(shipped::rules()))
}

/// The rules with all that is known about them.
struct Rulebook {
    edits: Edits,
    revision: i64,
    services: Vec<Offered>,
    /// Also of services that have left the price book.
    titles: BTreeMap<ServiceId, String>,
}

impl Rulebook {
    async fn load(conn: &mut Conn) -> Result<Self, DbError> {
        let (edits, revision) = queries::edits(conn).await?;
        let services = pricebook::offered(conn).await?;
        let mut titles = pricebook::titles_of_retired(conn).await?;
        let offered = services.iter().map(|one| (one.id, one.title.to_string()));
        titles.extend(offered);
        Ok(Self {
            edits,
            revision,
            services,
            titles,
        })
    }

    fn rules(&self) -> RuleSet {
        self.edits.over(shipped::rules())
    }

    fn offered(&self) -> BTreeSet<ServiceId> {
        self.services.iter().map(|service| service.id).collect()
    }

    fn troubles(&self, edits: &Edits) -> Vec<RuleTrouble> {
        let offered = self.offered();
        let rules = edits.over(shipped::rules()).among(&offered);
        rules.check(&offered).err().unwrap_or_default()
    }

    /// What an edit would bring that is not wrong already, in words.
    fn new_troubles(&self, edits: &Edits) -> Vec<String> {
        let before = self.troubles(&self.edits);
        let rules = edits.over(shipped::rules());
        let title = |id| self.title(id);
        let troubles = self.troubles(edits).into_iter();
        troubles
            .filter(|trouble| !before.contains(trouble))
            .map(|trouble| trouble.message(&rules, &title))
            .collect()
    }

    fn title(&self, id: ServiceId) -> String {
        let known = self.titles.get(&id).cloned();
        known.unwrap_or_else(|| "work that is not in the price book".to_owned())
    }
}

/// How often two owners may change the rules in the same instant.
const ROUNDS: usize = 8;

/// What came of an edit.
enum Edited {
    /// It is stored.
    Stored,
    /// With it the rules would not go together, for these reasons.
    Refused(Vec<String>),
    /// The rule that it is about is not there.
    NoSuchRule,
}

/// Decides an edit on the rules as they stand, checks the whole set and stores it; decides again
/// if somebody else was faster.
async fn edit(
    app: &App,
    decide: impl Fn(&Rulebook, &mut Edits) -> Option<()>,
) -> Result<Edited, AppError> {
    for _ in 0..ROUNDS {
        let mut conn = app.db.write().await?;
        let book = Rulebook::load(&mut conn).await?;
        let mut edits = book.edits.clone();
        if decide(&book, &mut edits).is_none() {
            return Ok(Edited::NoSuchRule);
        }
        let troubles = book.new_troubles(&edits);
        if !troubles.is_empty() {
            return Ok(Edited::Refused(troubles));
        }
        if queries::save(&mut conn, &edits, (book.revision, app.now())).await? {
            conn.commit().await?;
            return Ok(Edited::Stored);
        }
    }
    Err(AppError::Stale)
}

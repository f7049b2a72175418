//! The owner's pages of the rules.

use std::collections::{BTreeSet, HashMap};

use axum::extract::{Query, State};
use axum::http::StatusCode;
use axum::response::Response;
use frontend::back_office::rules::form::{Pickable, RuleForm};
use frontend::back_office::rules::one::{NewRule, NewRulePage, RulePage, RuleView};
use frontend::back_office::rules::{Origin, RuleRow, Rules, RulesPage, Wrong};
use frontend::document::Flash;
use leptos::prelude::*;
use shared_types::form::rule::{self, RuleAct, RuleField};
use shared_types::form::{Fields, FormErrors, Problem};
use shared_types::id::ServiceId;
use shared_types::paths;
use shared_types::scope::rules::wording::Kind;
use shared_types::scope::rules::{Rule, RuleId, Standing, shipped};
use shared_types::staff::Permission;
use uuid::Uuid;

use super::{Edited, Rulebook, edit};
use crate::app::App;
use crate::clock::new_id;
use crate::error::{AppError, AppResult};
use crate::page::{self, Done};
use crate::request::{At, Said, Typed};
use crate::staff::session::SignedIn;

/// Longer lists are cut in the list of all rules.
const FEW: usize = 4;

pub(super) async fn list(
    State(app): State<App>,
    staff: SignedIn,
    said: Said,
    Query(query): Query<HashMap<String, String>>,
) -> AppResult {
    staff.require(Permission::RunTheShop)?;
    let book = Rulebook::load(&mut app.db.read().await?).await?;
    let about = query.get("service").and_then(|id| id.parse().ok());
    let rules = book.rules();
    let is_about = |rule: &Rule| about.is_none_or(|id| rule.claim.services().contains(&id));
    let rows = rules.rules.iter().filter(|(_, rule)| is_about(rule));
    let rows = rows.map(|(id, rule)| book.row(id, rule, FEW)).collect();
    let title = |id| book.title(id);
    let wrong = book.troubles(&book.edits).into_iter().map(|trouble| {
        let named = trouble.rules().iter();
        Wrong {
            words: trouble.message(&rules, &title),
            rules: named
                .filter_map(|id| Some((id.clone(), rules.rules.get(id)?.name(&title))))
                .collect(),
        }
    });
    let services = book.services.iter();
    let props = Rules {
        desk: staff.desk(said.0),
        rows,
        wrong: wrong.collect(),
        services: services
            .map(|one| (one.id, one.title.to_string()))
            .collect(),
        about,
    };
    Ok(page::render(
        StatusCode::OK,
        move || view! { <RulesPage props=props /> },
    ))
}

impl Rulebook {
    fn row(&self, id: &RuleId, rule: &Rule, most: usize) -> RuleRow {
        let offered = self.offered();
        let named = rule.claim.services();
        let change = self.edits.shipped.get(id);
        RuleRow {
            id: id.clone(),
            kind: rule.claim.kind(),
            words: rule.claim.in_words(&|id| self.title(id), most),
            case: rule.case.in_words(),
            standing: rule.standing,
            reason: rule.reason.clone(),
            origin: if self.edits.own.contains_key(id) {
                Origin::Own
            } else if change.is_some_and(|change| change.reason.is_some()) {
                Origin::Reworded
            } else {
                Origin::Shipped
            },
            absent: named
                .difference(&offered)
                .map(|id| self.title(*id))
                .collect(),
            rests: rule.claim.rests(&offered),
        }
    }

    /// The form of a rule; what it names can be picked even if it has left the price book.
    fn form(&self, kind: Kind, fields: Fields, errors: FormErrors<RuleField>) -> RuleForm {
        let offered = self.offered();
        let mut services: Vec<Pickable> = self
            .services
            .iter()
            .map(|service| Pickable {
                id: service.id,
                title: service.title.to_string(),
                stage: Some(service.stage),
            })
            .collect();
        for id in named_in(&fields).difference(&offered) {
            services.push(Pickable {
                id: *id,
                title: self.title(*id),
                stage: None,
            });
        }
        RuleForm {
            kind,
            services,
            fields,
            errors,
        }
    }
}

/// The services that are picked in a form.
fn named_in(fields: &Fields) -> BTreeSet<ServiceId> {
    let places = (0..rule::PLACES).map(RuleField::Place);
    let fixed = [RuleField::These, RuleField::Those, RuleField::Also];
    let names = fixed.into_iter().chain(places).map(RuleField::name);
    let mut named = BTreeSet::new();
    for name in names {
        named.extend(
            fields
                .all(&name)
                .filter_map(|id| id.parse::<ServiceId>().ok()),
        );
    }
    named
}

pub(super) async fn new(
    State(app): State<App>,
    staff: SignedIn,
    At(kind): At<Kind>,
    Query(query): Query<HashMap<String, String>>,
) -> AppResult {
    staff.require(Permission::RunTheShop)?;
    let book = Rulebook::load(&mut app.db.read().await?).await?;
    let like = query.get("like").and_then(|id| RuleId::parse(id).ok());
    let rules = book.rules();
    let like = like.and_then(|id| rules.rules.get(&id));
    let like = like.filter(|rule| rule.claim.kind() == kind);
    let fields = like.map_or_else(Fields::default, rule::fields_of);
    let again = (fields, FormErrors::default());
    Ok(new_page(&staff, &book, StatusCode::OK, (kind, again)))
}

fn new_page(
    staff: &SignedIn,
    book: &Rulebook,
    status: StatusCode,
    (kind, (fields, errors)): (Kind, (Fields, FormErrors<RuleField>)),
) -> Response {
    let props = NewRule {
        desk: staff.desk(None),
        form: book.form(kind, fields, errors),
    };
    page::render(status, move || view! { <NewRulePage props=props /> })
}

/// Adds a rule, if all rules go together with it.
pub(super) async fn add(
    State(app): State<App>,
    staff: SignedIn,
    At(kind): At<Kind>,
    typed: Typed,
) -> AppResult {
    staff.require(Permission::RunTheShop)?;
    let errors = match rule::read(kind, &typed.fields) {
        Ok(rule) => {
            let id = own_id(&app)?;
            let add = |_: &Rulebook, edits: &mut shared_types::scope::rules::edits::Edits| {
                edits.own.insert(id.clone(), rule.clone());
                Some(())
            };
            match edit(&app, add).await? {
                Edited::Stored => return Ok(page::see_done(&paths::rules(), Done::Saved)),
                Edited::Refused(troubles) => clash(&troubles),
                Edited::NoSuchRule => return Err(AppError::NotFound),
            }
        }
        Err(errors) => errors,
    };
    let book = Rulebook::load(&mut app.db.read().await?).await?;
    let status = StatusCode::UNPROCESSABLE_ENTITY;
    Ok(new_page(
        &staff,
        &book,
        status,
        (kind, (typed.fields, errors)),
    ))
}

/// A name that no shipped rule has.
fn own_id(app: &App) -> Result<RuleId, AppError> {
    let id = Uuid::from_bytes(new_id(app.now()));
    RuleId::parse(&format!("own-{id}")).map_err(|error| AppError::Internal(error.into()))
}

fn clash(troubles: &[String]) -> FormErrors<RuleField> {
    let mut errors = FormErrors::default();
    errors.add(RuleField::Whole, Problem::RulesClash(troubles.join(" ")));
    errors
}

pub(super) async fn show(
    State(app): State<App>,
    staff: SignedIn,
    At(id): At<RuleId>,
    said: Said,
) -> AppResult {
    staff.require(Permission::RunTheShop)?;
    let book = Rulebook::load(&mut app.db.read().await?).await?;
    one_page(&staff, (&book, &id), StatusCode::OK, (said.0, None))
}

/// What must be shown again: a line, and what was typed with what is wrong with it.
type Again = (Option<Flash>, Option<(Fields, FormErrors<RuleField>)>);

fn one_page(
    staff: &SignedIn,
    (book, id): (&Rulebook, &RuleId),
    status: StatusCode,
    (flash, typed): Again,
) -> AppResult<Response> {
    let rules = book.rules();
    let rule = rules.rules.get(id).ok_or(AppError::NotFound)?;
    let (fields, errors) = match typed {
        Some(typed) => typed,
        None => (rule::fields_of(rule), FormErrors::default()),
    };
    let row = book.row(id, rule, usize::MAX);
    let shipped = shipped::rules().rules.remove(id);
    let props = RuleView {
        desk: staff.desk(flash),
        form: book.form(row.kind, fields, errors),
        shipped: shipped
            .filter(|_| row.origin == Origin::Reworded)
            .map(|rule| rule.reason),
        row,
    };
    Ok(page::render(
        status,
        move || view! { <RulePage props=props /> },
    ))
}

/// Switches a rule, rewords it, changes or removes one of the shop's own.
pub(super) async fn change(
    State(app): State<App>,
    staff: SignedIn,
    At(id): At<RuleId>,
    typed: Typed,
) -> AppResult {
    staff.require(Permission::RunTheShop)?;
    let book = Rulebook::load(&mut app.db.read().await?).await?;
    let known = book.rules().rules.remove(&id).ok_or(AppError::NotFound)?;
    let own = book.edits.own.contains_key(&id);
    let act = RuleAct::of(&typed.fields);
    let mut errors = FormErrors::default();
    let (mut rule, mut reason) = (None, None);
    if act == RuleAct::Save {
        if own {
            match rule::read(known.claim.kind(), &typed.fields) {
                Ok(read) => rule = Some(read),
                Err(found) => errors = found,
            }
        } else {
            reason = rule::read_reason(&typed.fields, &mut errors);
        }
    }
    if !errors.is_empty() {
        let again = (None, Some((typed.fields, errors)));
        return one_page(
            &staff,
            (&book, &id),
            StatusCode::UNPROCESSABLE_ENTITY,
            again,
        );
    }
    let decide = |book: &Rulebook, edits: &mut shared_types::scope::rules::edits::Edits| {
        let before = book.rules().rules.remove(&id)?;
        match act {
            RuleAct::SwitchOn => edits.switch(&id, Standing::On),
            RuleAct::SwitchOff => edits.switch(&id, Standing::Off),
            RuleAct::AsShipped => edits.reword(&id, None),
            RuleAct::Remove => {
                edits.own.remove(&id)?;
            }
            RuleAct::Save => {
                if let Some(rule) = &rule {
                    let standing = before.standing;
                    let rule = Rule {
                        standing,
                        ..rule.clone()
                    };
                    *edits.own.get_mut(&id)? = rule;
                }
                if let Some(reason) = &reason {
                    let shipped = shipped::rules().rules.remove(&id)?;
                    let ours = (*reason != shipped.reason).then(|| reason.clone());
                    edits.reword(&id, ours);
                }
            }
        }
        Some(())
    };
    match edit(&app, decide).await? {
        Edited::Stored => Ok(page::see_done(&paths::rules(), Done::Saved)),
        Edited::NoSuchRule => Err(AppError::NotFound),
        Edited::Refused(troubles) => {
            let status = StatusCode::UNPROCESSABLE_ENTITY;
            let again = if act == RuleAct::Save {
                (None, Some((typed.fields, clash(&troubles))))
            } else {
                (Some(Flash::Refused(troubles.join(" "))), None)
            };
            one_page(&staff, (&book, &id), status, again)
        }
    }
}

//! Changing an agreed scope with the customer's word: always a new revision.

use axum::extract::State;
use axum::http::StatusCode;
use axum::response::Response;
use frontend::back_office::edit_scope::{EditScope, EditScopePage};
use frontend::document::Flash;
use leptos::prelude::*;
use shared_types::form::advice::PickedFor;
use shared_types::form::basis::carry_over;
use shared_types::form::offer::{ACT_RECORD, EditField, read_edit};
use shared_types::form::scope::{self, ScopeField};
use shared_types::form::{Fields, FormErrors, Problem, mend};
use shared_types::id::PairId;
use shared_types::paths;
use shared_types::pricebook::Service;
use shared_types::scope::rules::RuleSet;
use shared_types::scope::sheet::{Agreement, Matter};
use shared_types::scope::{Scope, Work};
use shared_types::staff::Permission;
use shared_types::ticket::{Pair, Ticket};

use super::advice::Advice;
use super::days::InPlan;
use super::{next_sheet, pair_of, ticket_of};
use crate::app::App;
use crate::error::AppResult;
use crate::page::{self, Done, see_done};
use crate::request::{At, Typed};
use crate::staff::session::SignedIn;
use crate::{pricebook, record, rules};

pub(super) async fn show(State(app): State<App>, staff: SignedIn, At(id): At<PairId>) -> AppResult {
    staff.require(Permission::EditScope)?;
    let ticket = ticket_of(&mut app.db.read().await?, id).await?;
    let mut fields = Fields::default();
    let pair = pair_of(&ticket, id)?;
    for place in 0..pair.agreed().lines.len() {
        fields.push(EditField::Work(ScopeField::Keep).name(), place.to_string());
    }
    carried_over(&mut fields, pair);
    scope::push_terms(&mut fields, "", &pair.agreed().terms);
    let again = (None, fields, FormErrors::default());
    edit_page(&app, &staff, (ticket, id), StatusCode::OK, again).await
}

/// Carries the ticks over to what is agreed now; says whether that had moved.
fn carried_over(fields: &mut Fields, pair: &Pair) -> bool {
    carry_over(fields, &EditField::Basis.name(), &[String::new()], pair)
}

async fn edit_page(
    app: &App,
    staff: &SignedIn,
    (ticket, id): (Ticket, PairId),
    status: StatusCode,
    (flash, fields, errors): (Option<Flash>, Fields, FormErrors<EditField>),
) -> AppResult<Response> {
    let mut conn = app.db.read().await?;
    let services = pricebook::for_pair(&mut conn, pair_of(&ticket, id)?).await?;
    let rules = rules::of_shop(&mut conn).await?;
    let in_plan = InPlan::load(&mut conn, staff, (&ticket, pair_of(&ticket, id)?)).await?;
    let costs = pricebook::costs(&mut conn, staff).await?;
    drop(conn);
    let pair = pair_of(&ticket, id)?;
    let advice = advice(rules.clone(), pair, &services, staff);
    let book = (services.as_slice(), pair.agreed().lines.as_slice());
    let (currency, mut unread) = (staff.shop.currency(), FormErrors::default());
    let work = Work {
        lines: scope::read(&fields, "", book, currency, &mut unread),
        terms: scope::read_terms(&fields, "", currency, &mut unread),
    };
    let advised = advice.advise("", &work.lines, PickedFor::AnAgreement);
    let open = in_plan.open.laid_out();
    let worked_out = if work.lines.is_empty() {
        None
    } else {
        Some(in_plan.scope(work).await?)
    };
    let scope = worked_out
        .as_ref()
        .and_then(|outcome| outcome.as_ref().ok());
    let margin = costs
        .zip(scope)
        .and_then(|(costs, scope)| costs.margin(scope, &staff.shop.prices));
    let props = EditScope {
        desk: staff.desk(flash),
        pair: id,
        services,
        fields,
        errors,
        worked_out,
        margin,
        advised,
        rules,
        open,
        ticket,
    };
    Ok(page::render(
        status,
        move || view! { <EditScopePage props=props /> },
    ))
}

const HAS_MOVED: &str = "What is agreed has changed since this page was opened, so nothing was \
                         recorded. The ticks follow their lines, and what was agreed since is \
                         kept. Look at it again, then record it.";

/// What the rules say, with what the last offer said of the teardown.
fn advice<'a>(
    rules: RuleSet,
    pair: &'a Pair,
    services: &'a [Service],
    staff: &SignedIn,
) -> Advice<'a> {
    let found = pair.discoveries();
    Advice::new(rules, found, (pair, services), staff.shop.prices)
}

/// Records a changed scope as a new revision, or works its price out.
pub(super) async fn save(
    State(app): State<App>,
    staff: SignedIn,
    At(id): At<PairId>,
    mut typed: Typed,
) -> AppResult {
    staff.require(Permission::EditScope)?;
    let mut conn = app.db.read().await?;
    let ticket = ticket_of(&mut conn, id).await?;
    let services = pricebook::for_pair(&mut conn, pair_of(&ticket, id)?).await?;
    let rules = rules::of_shop(&mut conn).await?;
    let in_plan = InPlan::load(&mut conn, &staff, (&ticket, pair_of(&ticket, id)?)).await?;
    drop(conn);
    let pair = pair_of(&ticket, id)?;
    if carried_over(&mut typed.fields, pair) {
        let flash = Flash::Refused(HAS_MOVED.to_owned());
        let again = (Some(flash), typed.fields, FormErrors::default());
        return edit_page(&app, &staff, (ticket, id), StatusCode::CONFLICT, again).await;
    }
    let act = typed.fields.one(&EditField::Act.name()).to_owned();
    if let Some((_, mend)) = mend::pressed(&act) {
        mend::apply(&mut typed.fields, "", &mend, &pair.agreed().lines);
    }
    if typed.fields.one(&EditField::Act.name()) != ACT_RECORD {
        let again = (None, typed.fields, FormErrors::default());
        return edit_page(&app, &staff, (ticket, id), StatusCode::OK, again).await;
    }
    let book = (services.as_slice(), pair.agreed().lines.as_slice());
    let cautions = pair.about.rating.cautions();
    let currency = staff.shop.currency();
    let edited = match read_edit(&typed.fields, book, currency, !cautions.is_empty()) {
        Ok(edited) => edited,
        Err(errors) => {
            let again = (None, typed.fields, errors);
            let status = StatusCode::UNPROCESSABLE_ENTITY;
            return edit_page(&app, &staff, (ticket, id), status, again).await;
        }
    };
    let before = edited.before;
    let lines = advice(rules, pair, &services, &staff).with_reasons(edited.work.lines);
    let lines = lines.map_err(|problem| (ScopeField::Service, problem));
    let scope = match lines {
        Ok(lines) => {
            let work = Work {
                lines,
                ..edited.work
            };
            let scope = in_plan.scope(work).await?;
            let scope = scope.and_then(Scope::refuse_discount_beyond);
            scope.map_err(|problem| (ScopeField::of(&problem), Problem::Scope(problem)))
        }
        Err(refused) => Err(refused),
    };
    let scope = match scope {
        Ok(scope) => scope,
        Err((field, problem)) => {
            let mut errors = FormErrors::default();
            errors.add(EditField::Work(field), problem);
            let again = (None, typed.fields, errors);
            let status = StatusCode::UNPROCESSABLE_ENTITY;
            return edit_page(&app, &staff, (ticket, id), status, again).await;
        }
    };
    let agreement = Agreement {
        given: edited.given,
        words: Some(edited.words),
        cautions,
        deposit: None,
    };
    let mut sheet = next_sheet(&ticket, pair, &staff, (scope, Matter::Agreement(agreement)))?;
    // The page's revision, not the latest: whoever typed this has not seen a later one.
    sheet.before = Some(before);
    let digest = sheet.digest()?;
    let decide = |ticket: &Ticket, now| {
        let event = ticket.make_sheet(id, sheet.clone(), digest, now);
        event.map(|event| vec![event])
    };
    match record::change(&app, ticket.id, staff.actor(), decide).await? {
        Ok(_) => Ok(see_done(&paths::pair(id), Done::ScopeChanged)),
        Err(broken) => {
            let flash = Some(Flash::Refused(broken.to_string()));
            let again = (flash, typed.fields, FormErrors::default());
            edit_page(&app, &staff, (ticket, id), StatusCode::CONFLICT, again).await
        }
    }
}

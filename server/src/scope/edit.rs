//! Changing an agreed scope with the customer's word: always a new revision.

use axum::extract::State;
use axum::http::StatusCode;
use axum::response::Response;
use frontend::back_office::edit_scope::{EditScope, EditScopePage};
use frontend::document::Flash;
use leptos::prelude::*;
use shared_types::form::offer::{ACT_RECORD, EditField, read_edit};
use shared_types::form::scope::{self, ScopeField};
use shared_types::form::{Fields, FormErrors, Problem};
use shared_types::id::PairId;
use shared_types::paths;
use shared_types::scope::sheet::{Agreement, Matter};
use shared_types::scope::{Scope, Work};
use shared_types::staff::Permission;
use shared_types::ticket::Ticket;

use super::{next_sheet, pair_of, queue, ticket_of, work_out};
use crate::app::App;
use crate::error::AppResult;
use crate::page::{self, Done, see_done};
use crate::request::{At, Typed};
use crate::staff::session::SignedIn;
use crate::{pricebook, record};

pub(super) async fn show(State(app): State<App>, staff: SignedIn, At(id): At<PairId>) -> AppResult {
    staff.require(Permission::EditScope)?;
    let ticket = ticket_of(&mut app.db.read().await?, id).await?;
    let mut fields = Fields::default();
    let pair = pair_of(&ticket, id)?;
    for place in 0..pair.agreed().lines.len() {
        fields.push(EditField::Work(ScopeField::Keep).name(), place.to_string());
    }
    scope::push_terms(&mut fields, "", &pair.agreed().terms);
    let again = (None, fields, FormErrors::default());
    edit_page(&app, &staff, (ticket, id), StatusCode::OK, again).await
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
    let queue = queue(&mut conn, Some(id), staff.shop.hands).await?;
    let costs = pricebook::costs(&mut conn, staff).await?;
    drop(conn);
    let pair = pair_of(&ticket, id)?;
    let book = (services.as_slice(), pair.agreed().lines.as_slice());
    let (currency, mut unread) = (staff.shop.currency(), FormErrors::default());
    let work = Work {
        lines: scope::read(&fields, "", book, currency, &mut unread),
        terms: scope::read_terms(&fields, "", currency, &mut unread),
    };
    let worked_out = (!work.lines.is_empty()).then(|| work_out(pair, work, staff, queue));
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
        ticket,
    };
    Ok(page::render(
        status,
        move || view! { <EditScopePage props=props /> },
    ))
}

/// Records a changed scope as a new revision, or works its price out.
pub(super) async fn save(
    State(app): State<App>,
    staff: SignedIn,
    At(id): At<PairId>,
    typed: Typed,
) -> AppResult {
    staff.require(Permission::EditScope)?;
    let mut conn = app.db.read().await?;
    let ticket = ticket_of(&mut conn, id).await?;
    let services = pricebook::for_pair(&mut conn, pair_of(&ticket, id)?).await?;
    let queue = queue(&mut conn, Some(id), staff.shop.hands).await?;
    drop(conn);
    let pair = pair_of(&ticket, id)?;
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
    let scope =
        match work_out(pair, edited.work, &staff, queue).and_then(Scope::refuse_discount_beyond) {
            Ok(scope) => scope,
            Err(problem) => {
                let mut errors = FormErrors::default();
                errors.add(
                    EditField::Work(ScopeField::of(&problem)),
                    Problem::Scope(problem),
                );
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

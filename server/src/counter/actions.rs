//! Money, handing over, the customer's link and contact.

use axum::extract::State;
use axum::http::StatusCode;
use axum::response::Response;
use frontend::document::Flash;
use shared_types::contact::{Customer, CustomerName, Email, Phone};
use shared_types::form::Fields;
use shared_types::id::{PairId, TicketId};
use shared_types::money::Money;
use shared_types::paths;
use shared_types::staff::Permission;
use shared_types::text::Line;
use shared_types::ticket::Ticket;
use shared_types::ticket::commands::RuleBroken;
use shared_types::ticket::event::{Event, PaymentMethod};

use super::ticket::ticket_page;
use crate::app::App;
use crate::error::{AppError, AppResult};
use crate::page::{Done, see_done};
use crate::request::{At, Typed};
use crate::staff::session::SignedIn;
use crate::{customers, record};

/// The ticket's page again, with the reason on top and what was typed.
async fn again(
    app: &App,
    staff: &SignedIn,
    id: TicketId,
    status: StatusCode,
    (reason, typed): (String, Fields),
) -> AppResult<Response> {
    let flash = Some(Flash::Refused(reason));
    ticket_page(app, staff, id, status, (flash, typed)).await
}

/// Records what `decide` makes of the ticket, if the ticket is still as the page showed it: money
/// must not be recorded twice by two presses of one button.
async fn on_the_page(
    app: &App,
    staff: &SignedIn,
    id: TicketId,
    (typed, done): (Fields, Done),
    decide: impl Fn(&Ticket) -> Result<Event, RuleBroken>,
) -> AppResult {
    let shown: Option<u32> = typed.one("length").parse().ok();
    let decide = |ticket: &Ticket, _| {
        if shown == Some(ticket.length) {
            decide(ticket).map(|event| vec![event])
        } else {
            Err(RuleBroken::PageTooOld)
        }
    };
    match record::change(app, id, staff.actor(), decide).await? {
        Ok(_) => Ok(see_done(&paths::shop_ticket(id), done)),
        Err(broken) => {
            again(
                app,
                staff,
                id,
                StatusCode::CONFLICT,
                (broken.to_string(), typed),
            )
            .await
        }
    }
}

pub(super) async fn pay(
    State(app): State<App>,
    staff: SignedIn,
    At(id): At<TicketId>,
    typed: Typed,
) -> AppResult {
    staff.require(Permission::TakeMoney)?;
    let fields = typed.fields;
    let amount = Money::parse(fields.one("amount"), staff.shop.currency());
    let method = PaymentMethod::from_code(fields.one("method"));
    let (amount, method) = match (amount, method) {
        (Ok(amount), Some(method)) => (amount, method),
        (amount, _) => {
            let reason = amount.err().map_or_else(
                || "Choose how it was paid.".to_owned(),
                |problem| problem.to_string(),
            );
            let status = StatusCode::UNPROCESSABLE_ENTITY;
            return again(&app, &staff, id, status, (reason, fields)).await;
        }
    };
    let rules = staff.shop.prices;
    on_the_page(&app, &staff, id, (fields, Done::Paid), |ticket| {
        ticket.pay(amount, method, &rules)
    })
    .await
}

pub(super) async fn give_back(
    State(app): State<App>,
    staff: SignedIn,
    At(id): At<TicketId>,
    typed: Typed,
) -> AppResult {
    staff.require(Permission::TakeMoney)?;
    let Some(method) = PaymentMethod::from_code(typed.fields.one("method")) else {
        let reason = "Choose how it was given back.".to_owned();
        let status = StatusCode::UNPROCESSABLE_ENTITY;
        return again(&app, &staff, id, status, (reason, typed.fields)).await;
    };
    on_the_page(
        &app,
        &staff,
        id,
        (typed.fields, Done::GivenBack),
        |ticket| ticket.give_back(method),
    )
    .await
}

pub(super) async fn hand_over(
    State(app): State<App>,
    staff: SignedIn,
    At(id): At<TicketId>,
    typed: Typed,
) -> AppResult {
    staff.require(Permission::TakeMoney)?;
    let pairs: Result<Vec<PairId>, _> = typed.fields.all("pair").map(str::parse).collect();
    let pairs = pairs.map_err(|_| AppError::NotFound)?;
    let Ok(to) = Line::parse(typed.fields.one("to")) else {
        let reason = "Write down who collects.".to_owned();
        let status = StatusCode::UNPROCESSABLE_ENTITY;
        return again(&app, &staff, id, status, (reason, typed.fields)).await;
    };
    let decide = |ticket: &Ticket, _| {
        // The same form sent twice.
        if ticket.has_handed_over(&pairs) {
            return Ok(Vec::new());
        }
        let event = ticket.hand_over(pairs.clone(), to.clone());
        event.map(|event| vec![event])
    };
    match record::change(&app, id, staff.actor(), decide).await? {
        Ok(_) => Ok(see_done(&paths::shop_ticket(id), Done::HandedOver)),
        Err(broken) => {
            let typed = (broken.to_string(), typed.fields);
            again(&app, &staff, id, StatusCode::CONFLICT, typed).await
        }
    }
}

pub(super) async fn renew_link(
    State(app): State<App>,
    staff: SignedIn,
    At(id): At<TicketId>,
    typed: Typed,
) -> AppResult {
    staff.require(Permission::TakeIn)?;
    // A second press must not make the link of the first letter a dead one.
    let renewals = typed.fields.one("renewals").to_owned();
    let decide = |ticket: &Ticket, _| -> Result<Vec<Event>, std::convert::Infallible> {
        if renewals != ticket.links.len().to_string() {
            return Ok(Vec::new());
        }
        let key = app.portal_key(id, ticket.next_generation());
        Ok(ticket.renew_link(key.digest()))
    };
    let Ok(_) = record::change(&app, id, staff.actor(), decide).await?;
    Ok(see_done(&paths::shop_ticket(id), Done::LinkRenewed))
}

pub(super) async fn revoke_link(
    State(app): State<App>,
    staff: SignedIn,
    At(id): At<TicketId>,
) -> AppResult {
    staff.require(Permission::TakeIn)?;
    let decide = |ticket: &Ticket, _| -> Result<Vec<Event>, std::convert::Infallible> {
        Ok(ticket.revoke_link().into_iter().collect())
    };
    let Ok(_) = record::change(&app, id, staff.actor(), decide).await?;
    Ok(see_done(&paths::shop_ticket(id), Done::LinkStopped))
}

pub(super) async fn contact(
    State(app): State<App>,
    staff: SignedIn,
    At(id): At<TicketId>,
    typed: Typed,
) -> AppResult {
    staff.require(Permission::TakeIn)?;
    let ticket = record::load(&mut app.db.read().await?, id).await?;
    let customer = ticket.ok_or(AppError::NotFound)?.customer;
    let fields = typed.fields;
    let read = || {
        Ok(Customer {
            id: customer,
            name: CustomerName::parse(fields.one("name"))?,
            email: Email::parse_optional(fields.one("email"))?,
            phone: Phone::parse_optional(fields.one("phone"))?,
        })
    };
    let changed: Result<Customer, shared_types::form::Problem> = read();
    match changed {
        Ok(customer) => {
            let mut conn = app.db.write().await?;
            customers::change(&mut conn, &customer).await?;
            conn.commit().await?;
            Ok(see_done(&paths::shop_ticket(id), Done::ContactChanged))
        }
        Err(problem) => {
            let status = StatusCode::UNPROCESSABLE_ENTITY;
            again(&app, &staff, id, status, (problem.to_string(), fields)).await
        }
    }
}

//! Words told to the shop, and offers that it withdraws.

use axum::extract::State;
use axum::http::StatusCode;
use shared_types::form::offer::read_told;
use shared_types::id::PairId;
use shared_types::paths;
use shared_types::scope::offer::{Refused, Via};
use shared_types::staff::Permission;
use shared_types::text::Words;
use shared_types::ticket::Ticket;
use shared_types::ticket::commands::{WordGiven, WordOutcome};

use super::ticket_of;
use crate::app::App;
use crate::bench::pages::{self, Again};
use crate::error::AppResult;
use crate::page::{Done, see_done};
use crate::record;
use crate::request::{At, Typed};
use crate::staff::session::SignedIn;

/// Writes down a word that the customer gave at the counter or by telephone.
pub(super) async fn record_word(
    State(app): State<App>,
    staff: SignedIn,
    At(id): At<PairId>,
    typed: Typed,
) -> AppResult {
    staff.require(Permission::EditScope)?;
    let told = match read_told(&typed.fields) {
        Ok(told) => told,
        Err(told_errors) => {
            let again = Again {
                told: typed.fields,
                told_errors,
                ..Again::default()
            };
            return pages::show(&app, &staff, id, StatusCode::UNPROCESSABLE_ENTITY, again).await;
        }
    };
    let given = WordGiven {
        sheet: told.sheet,
        turn: told.turn,
        read_at: None,
        word: told.word,
        via: Via::Told {
            given: told.given,
            said_by: told.said_by,
        },
        acknowledged: told.acknowledged,
    };
    let ticket = ticket_of(&mut app.db.read().await?, id).await?.id;
    let decide = |ticket: &Ticket, now| -> Result<_, Refused> {
        Ok(match ticket.give_word(given.clone(), now)? {
            WordOutcome::Record(event) => vec![event],
            WordOutcome::StandsAlready => Vec::new(),
        })
    };
    match record::change(&app, ticket, staff.actor(), decide).await? {
        Ok(_) => Ok(see_done(&paths::pair(id), Done::WordWritten)),
        Err(refused) => {
            let again = Again {
                told: typed.fields,
                ..Again::refused(&refused)
            };
            pages::show(&app, &staff, id, StatusCode::CONFLICT, again).await
        }
    }
}

/// Withdraws the open offer.
pub(super) async fn withdraw(
    State(app): State<App>,
    staff: SignedIn,
    At(id): At<PairId>,
    typed: Typed,
) -> AppResult {
    staff.require(Permission::EditScope)?;
    let reason = match Words::parse_optional(typed.fields.one("reason")) {
        Ok(reason) => reason,
        Err(problem) => {
            let status = StatusCode::UNPROCESSABLE_ENTITY;
            return pages::show(&app, &staff, id, status, Again::refused(&problem)).await;
        }
    };
    let ticket = ticket_of(&mut app.db.read().await?, id).await?.id;
    let decide = |ticket: &Ticket, now| {
        let event = ticket.withdraw_offer(id, reason.clone(), now);
        event.map(|event| vec![event])
    };
    match record::change(&app, ticket, staff.actor(), decide).await? {
        Ok(_) => Ok(see_done(&paths::pair(id), Done::Withdrawn)),
        Err(broken) => {
            pages::show(
                &app,
                &staff,
                id,
                StatusCode::CONFLICT,
                Again::refused(&broken),
            )
            .await
        }
    }
}

//! Moving, holding, starting, noting.

use axum::extract::State;
use axum::http::StatusCode;
use shared_types::id::{NoteId, PairId, TicketId};
use shared_types::paths;
use shared_types::staff::Permission;
use shared_types::stage::{Hold, Stage};
use shared_types::text::{Line, Words};
use shared_types::ticket::Ticket;
use shared_types::ticket::commands::{NewNote, RuleBroken};
use shared_types::ticket::event::{Audience, Event};

use super::pages::{self, Again};
use crate::app::App;
use crate::clock::new_id;
use crate::error::{AppError, AppResult};
use crate::page::{Done, see_done};
use crate::photos::{self, NotKept};
use crate::record;
use crate::request::{At, Typed};
use crate::staff::session::SignedIn;

pub(super) async fn move_stage(
    State(app): State<App>,
    staff: SignedIn,
    At(id): At<PairId>,
    typed: Typed,
) -> AppResult {
    staff.require(Permission::WorkOnPairs)?;
    let to = Stage::from_code(typed.fields.one("to")).ok_or(AppError::NotFound)?;
    change(&app, &staff, id, Done::Moved, |ticket| {
        ticket.move_stage(id, to)
    })
    .await
}

pub(super) async fn set_hold(
    State(app): State<App>,
    staff: SignedIn,
    At(id): At<PairId>,
    typed: Typed,
) -> AppResult {
    staff.require(Permission::WorkOnPairs)?;
    let hold = Hold::from_code(typed.fields.one("hold"));
    let done = if hold.is_some() {
        Done::Held
    } else {
        Done::Lifted
    };
    change(&app, &staff, id, done, |ticket| ticket.set_hold(id, hold)).await
}

pub(super) async fn start_work(
    State(app): State<App>,
    staff: SignedIn,
    At(id): At<PairId>,
) -> AppResult {
    staff.require(Permission::WorkOnPairs)?;
    change(&app, &staff, id, Done::Started, |ticket| {
        ticket.start_work(id)
    })
    .await
}

async fn change(
    app: &App,
    staff: &SignedIn,
    id: PairId,
    done: Done,
    decide: impl Fn(&Ticket) -> Result<Event, RuleBroken>,
) -> AppResult {
    let ticket = ticket_of(app, id).await?;
    let decide = |ticket: &Ticket, _| decide(ticket).map(|event| vec![event]);
    match record::change(app, ticket, staff.actor(), decide).await? {
        Ok(_) => Ok(see_done(&paths::pair(id), done)),
        Err(broken) => {
            pages::show(
                app,
                staff,
                id,
                StatusCode::CONFLICT,
                Again::refused(&broken),
            )
            .await
        }
    }
}

async fn ticket_of(app: &App, id: PairId) -> Result<TicketId, AppError> {
    let ticket = record::by_pair(&mut app.db.read().await?, id).await?;
    Ok(ticket.ok_or(AppError::NotFound)?.id)
}

/// Posts a note with its pictures; a picture that can't be used keeps the words on the page.
pub(super) async fn post_note(
    State(app): State<App>,
    staff: SignedIn,
    At(id): At<PairId>,
    mut typed: Typed,
) -> AppResult {
    staff.require(Permission::PostNotes)?;
    let ticket = ticket_of(&app, id).await?;
    let text = typed.fields.one("words").to_owned();
    let words = Words::parse_optional(&text);
    let shows = Line::parse_optional(typed.fields.one("shows"));
    let audience = match typed.fields.one("audience") {
        "customer" => Audience::Customer,
        "reply" => Audience::Reply,
        _ => Audience::Shop,
    };
    let again = |reason: String| Again {
        note: text.clone(),
        ..Again::refused(&reason)
    };
    let (words, shows) = match (words, shows) {
        (Ok(words), Ok(shows)) => (words, shows),
        (Err(problem), _) | (_, Err(problem)) => {
            let status = StatusCode::UNPROCESSABLE_ENTITY;
            return pages::show(&app, &staff, id, status, again(problem.to_string())).await;
        }
    };
    let pictures = match photos::keep_pictures(&app, &mut typed, "photo", shows.as_ref()).await {
        Ok(pictures) => pictures,
        Err(NotKept::Failed(error)) => return Err(error),
        Err(NotKept::Unusable(problem)) => {
            let status = StatusCode::UNPROCESSABLE_ENTITY;
            return pages::show(&app, &staff, id, status, again(problem.to_string())).await;
        }
    };
    let note = NewNote {
        id: NoteId::from_bytes(new_id(staff.now)),
        audience,
        words,
        pictures,
    };
    let decide = |ticket: &Ticket, _| -> Result<Vec<Event>, RuleBroken> {
        Ok(ticket.note(id, note.clone())?.into_iter().collect())
    };
    match record::change(&app, ticket, staff.actor(), decide).await? {
        Ok(_) => Ok(see_done(&paths::pair(id), Done::Noted)),
        Err(broken) => {
            let status = StatusCode::UNPROCESSABLE_ENTITY;
            pages::show(&app, &staff, id, status, again(broken.to_string())).await
        }
    }
}

//! What the customer does: gives a word, takes it back, asks.

use axum::extract::State;
use axum::http::StatusCode;
use axum::response::Response;
use frontend::document::Flash;
use frontend::elements::question::Unasked;
use shared_types::digest::Digest;
use shared_types::form::Problem;
use shared_types::id::{NoteId, PairId};
use shared_types::moment::Moment;
use shared_types::paths;
use shared_types::scope::offer::{Refused, Via, Word};
use shared_types::text::Words;
use shared_types::ticket::Ticket;
use shared_types::ticket::commands::{NewNote, WordGiven, WordOutcome};
use shared_types::ticket::event::{Actor, Audience, Event};

use super::{Door, pages};
use crate::app::App;
use crate::clock::new_id;
use crate::error::{AppError, AppResult};
use crate::page::{Done, see_done, see_other};
use crate::record;
use crate::request::{At, Typed};

/// Records the customer's word on exactly what the page showed; a second tap finds the same
/// receipt, and whatever changed meanwhile is refused with how things stand.
pub(super) async fn give_word(
    State(app): State<App>,
    door: Door,
    At(sheet): At<Digest>,
    typed: Typed,
) -> AppResult {
    let word = Word::from_code(typed.fields.one("word"));
    let turn = typed.fields.one("turn").parse();
    let (Some(word), Ok(turn)) = (word, turn) else {
        return Err(AppError::Unreadable(
            "Your answer did not arrive whole, so nothing was recorded. Open the page again and choose there.",
        ));
    };
    let given = WordGiven {
        sheet,
        turn,
        read_at: Moment::try_from(typed.fields.one("read-at").to_owned()).ok(),
        word,
        via: Via::Link {
            link: door.key.digest(),
        },
        acknowledged: typed.fields.has("acknowledged", "yes"),
    };
    let decide =
        |ticket: &Ticket, now| match still_open(ticket, &door)?.give_word(given.clone(), now)? {
            WordOutcome::Record(event) => Ok(vec![event]),
            WordOutcome::StandsAlready => Ok(Vec::new()),
        };
    match record::change(&app, door.ticket.id, Actor::Customer, decide).await? {
        Ok(_) => Ok(see_other(&paths::word(&door.key, sheet))),
        Err(refused) => refuse(&app, door, sheet, refused).await,
    }
}

/// The ticket, if the link through which this came is still alive in the record itself.
fn still_open<'a>(ticket: &'a Ticket, door: &Door) -> Result<&'a Ticket, Refused> {
    let alive = ticket
        .link()
        .is_some_and(|link| link.digest == door.key.digest());
    if alive {
        Ok(ticket)
    } else {
        Err(Refused::Unknown)
    }
}

pub(super) async fn take_back(
    State(app): State<App>,
    door: Door,
    At(sheet): At<Digest>,
    typed: Typed,
) -> AppResult {
    let Ok(turn) = typed.fields.one("turn").parse() else {
        return Err(AppError::Unreadable(
            "This did not arrive whole, so nothing was changed. Open the page again and press the button there.",
        ));
    };
    let via = Via::Link {
        link: door.key.digest(),
    };
    let decide = |ticket: &Ticket, now| match still_open(ticket, &door)?.take_back(
        sheet,
        turn,
        via.clone(),
        now,
    )? {
        WordOutcome::Record(event) => Ok(vec![event]),
        WordOutcome::StandsAlready => Ok(Vec::new()),
    };
    match record::change(&app, door.ticket.id, Actor::Customer, decide).await? {
        Ok(_) => Ok(see_done(&paths::offer(&door.key, sheet), Done::TakenBack)),
        Err(refused) => refuse(&app, door, sheet, refused).await,
    }
}

/// Shows how things stand now, with the reason on top.
async fn refuse(app: &App, door: Door, sheet: Digest, refused: Refused) -> AppResult {
    let id = door.ticket.id;
    let ticket = record::load(&mut app.db.read().await?, id).await?;
    let ticket = ticket.ok_or(AppError::NotFound)?.for_customer();
    let door = Door {
        ticket,
        now: app.now(),
        ..door
    };
    let flash = Some(Flash::Refused(refused.to_string()));
    let status = match refused {
        Refused::CautionNotAcknowledged => StatusCode::UNPROCESSABLE_ENTITY,
        Refused::Unknown => StatusCode::NOT_FOUND,
        Refused::Superseded
        | Refused::Withdrawn
        | Refused::Lapsed
        | Refused::AlreadyAnswered
        | Refused::PageTooOld
        | Refused::DayMoved
        | Refused::NothingToTakeBack
        | Refused::TakeBackOver
        | Refused::BenchStarted => StatusCode::CONFLICT,
    };
    let has_offer = door
        .ticket
        .revision(sheet)
        .is_some_and(|(_, revision)| revision.sheet.offer().is_some());
    if has_offer {
        pages::offer_page(status, door, sheet, flash)
    } else {
        Ok(pages::ticket_page(status, door, flash, None))
    }
}

/// Puts the customer's question into the journal of a pair.
pub(super) async fn ask(State(app): State<App>, door: Door, typed: Typed) -> AppResult<Response> {
    let text = typed.fields.one("words").to_owned();
    let pair = pair_asked_about(&typed, &door.ticket);
    let again = |door, status, flash, problem: Option<String>| {
        let unasked = Unasked {
            pair,
            words: text.clone(),
            problem,
        };
        pages::ticket_page(status, door, flash, Some(unasked))
    };
    let unusable = |door, problem: Problem| {
        let status = StatusCode::UNPROCESSABLE_ENTITY;
        Ok(again(door, status, None, Some(problem.to_string())))
    };
    let words = match Words::parse(&text) {
        Ok(words) => words,
        Err(problem) => return unusable(door, problem),
    };
    let Some(pair) = pair else {
        return unusable(door, Problem::NotChosen);
    };
    let note = NewNote {
        id: NoteId::from_bytes(new_id(door.now)),
        audience: Audience::Question,
        words: Some(words),
        pictures: Vec::new(),
    };
    let decide = |ticket: &Ticket, _| -> Result<Vec<Event>, String> {
        let ticket = still_open(ticket, &door).map_err(|refused| refused.to_string())?;
        let event = ticket.note(pair, note.clone());
        event
            .map(|event| event.into_iter().collect())
            .map_err(|broken| broken.to_string())
    };
    match record::change(&app, door.ticket.id, Actor::Customer, decide).await? {
        Ok(_) => {
            let back = typed.fields.one("back");
            let page = paths::ticket(&door.key);
            // Back to the page on which it was asked, if that is one of this ticket's.
            let back = if back.starts_with(&page) && !back.contains(['?', '\\']) {
                back
            } else {
                &page
            };
            Ok(see_done(back, Done::Asked))
        }
        Err(words) => {
            let flash = Some(Flash::Refused(words));
            Ok(again(door, StatusCode::CONFLICT, flash, None))
        }
    }
}

/// The pair that a question is about: the one that was chosen, or the only one if none was.
fn pair_asked_about(typed: &Typed, ticket: &Ticket) -> Option<PairId> {
    let chosen = typed.fields.one("pair");
    if let ("", [pair]) = (chosen, ticket.pairs.as_slice()) {
        return Some(pair.id);
    }
    let chosen = chosen.parse::<PairId>().ok()?;
    ticket.pair(chosen).map(|pair| pair.id)
}

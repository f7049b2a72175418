//! What the customer sees.

use axum::extract::State;
use axum::http::{HeaderValue, StatusCode, header};
use axum::response::{IntoResponse as _, Response};
use frontend::document::Flash;
use frontend::elements::question::Unasked;
use frontend::portal::home::{Home, HomePage};
use frontend::portal::offer::{OfferPage, OfferView};
use frontend::portal::receipt::{Receipt, ReceiptPage};
use frontend::portal::ticket::{TicketPage, TicketView};
use frontend::portal::word::{WordPage, WordReceipt};
use leptos::prelude::*;
use shared_types::digest::Digest;
use shared_types::paths;

use super::Door;
use crate::app::App;
use crate::error::{AppError, AppResult};
use crate::request::{At, Said};
use crate::{customers, page, photos, shop};

pub(super) async fn home(State(app): State<App>) -> AppResult {
    let shop = shop::current(&mut app.db.read().await?).await?;
    Ok(page::render(StatusCode::OK, move || {
        let props = Home { shop };
        view! { <HomePage props=props /> }
    }))
}

pub(super) async fn ticket(door: Door, said: Said) -> Response {
    ticket_page(StatusCode::OK, door, said.0, None)
}

/// The customer's page; `question` is one that could not be taken, with the reason.
pub(super) fn ticket_page(
    status: StatusCode,
    door: Door,
    flash: Option<Flash>,
    question: Option<Unasked>,
) -> Response {
    page::render(status, move || {
        let props = TicketView {
            shop: door.shop,
            key: door.key,
            ticket: door.ticket,
            now: door.now,
            flash,
            question,
        };
        view! { <TicketPage props=props /> }
    })
}

pub(super) async fn offer(door: Door, At(sheet): At<Digest>, said: Said) -> AppResult {
    offer_page(StatusCode::OK, door, sheet, said.0)
}

/// An offer as it stands.
pub(super) fn offer_page(
    status: StatusCode,
    door: Door,
    sheet: Digest,
    flash: Option<Flash>,
) -> AppResult {
    let (pair, revision) = door.ticket.revision(sheet).ok_or(AppError::NotFound)?;
    let state = pair
        .offer_state(revision, door.now)
        .ok_or(AppError::NotFound)?;
    let props = OfferView {
        shop: door.shop,
        key: door.key,
        pair: pair.id,
        revision: revision.clone(),
        state,
        now: door.now,
        flash,
    };
    Ok(page::render(
        status,
        move || view! { <OfferPage props=props /> },
    ))
}

pub(super) async fn word(door: Door, At(sheet): At<Digest>, said: Said) -> AppResult {
    let (pair, revision) = door.ticket.revision(sheet).ok_or(AppError::NotFound)?;
    let state = pair
        .offer_state(revision, door.now)
        .ok_or(AppError::NotFound)?;
    let Some(answer) = revision.standing() else {
        // Taken back meanwhile: the offer says how things stand.
        return Ok(page::see_other(&paths::offer(&door.key, sheet)));
    };
    let props = WordReceipt {
        answer: answer.clone(),
        revision: revision.clone(),
        shop: door.shop,
        key: door.key,
        state,
        now: door.now,
        flash: said.0,
    };
    Ok(page::render(
        StatusCode::OK,
        move || view! { <WordPage props=props /> },
    ))
}

pub(super) async fn receipt(State(app): State<App>, door: Door) -> AppResult {
    let customer = customers::get(&mut app.db.read().await?, door.ticket.customer).await?;
    let props = Receipt {
        shop: door.shop,
        customer: customer.ok_or(AppError::NotFound)?.name,
        ticket: door.ticket,
        now: door.now,
        back: paths::ticket(&door.key),
    };
    Ok(page::render(
        StatusCode::OK,
        move || view! { <ReceiptPage props=props /> },
    ))
}

/// A picture, if this ticket shows it to its customer.
pub(super) async fn photo(State(app): State<App>, door: Door, At(digest): At<Digest>) -> AppResult {
    let is_shown = door.ticket.pairs.iter().any(|pair| {
        let noted = pair.notes.iter().flat_map(|note| &note.pictures);
        let offers = pair
            .revisions
            .iter()
            .filter_map(|revision| revision.sheet.offer());
        let offered = offers.flat_map(|offer| &offer.pictures);
        noted.chain(offered).any(|picture| picture.digest == digest)
    });
    if !is_shown {
        return Err(AppError::NotFound);
    }
    photos::file(&app, digest).await
}

/// The pickup as a calendar entry, while something is there to collect.
pub(super) async fn pickup(door: Door) -> AppResult {
    if door.ticket.ready_pairs().next().is_none() {
        return Err(AppError::NotFound);
    }
    let entry = crate::notices::calendar::pickup(&door.shop, &door.ticket, door.now);
    let kind = HeaderValue::from_static("text/calendar; charset=utf-8");
    let entry = entry.ok_or(AppError::NotFound)?;
    Ok(([(header::CONTENT_TYPE, kind)], entry).into_response())
}

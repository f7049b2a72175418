//! Letters to customers: their words, and the list of them that staff read.

pub(crate) mod calendar;
mod letters;
mod pages;
mod stationery;

use axum::Router;
use axum::routing::{get, post};
use shared_types::id::LetterId;
use shared_types::notice::Notice;
use shared_types::paths;
use shared_types::shop::Shop;
use shared_types::ticket::Ticket;
use shared_types::ticket::event::Event;

use crate::app::App;
use crate::clock::new_id;
use crate::customers;
use crate::db::Conn;
use crate::error::AppError;
use crate::mail::message::{self, Draft};
use crate::mail::outbox::{self, NewLetter};

pub(crate) fn routes() -> Router<App> {
    Router::new()
        .route(paths::LETTERS, get(pages::letters))
        .route(paths::LETTER, get(pages::letter))
        .route(paths::RETRY_LETTER, post(pages::retry))
}

/// Writes the letter that an event causes, if it causes one and the customer has an address.
pub(crate) async fn enqueue(
    app: &App,
    conn: &mut Conn,
    shop: &Shop,
    ticket: &Ticket,
    event: &Event,
) -> Result<(), AppError> {
    let Some(notice) = Notice::caused_by(event) else {
        return Ok(());
    };
    let customer = customers::get(conn, ticket.customer).await?;
    let customer = customer.ok_or(AppError::NotFound)?;
    let Some(email) = customer.email.as_ref() else {
        return Ok(());
    };
    let now = app.now();
    let about = letters::About {
        shop,
        ticket,
        customer: &customer,
        key: app.key_of(ticket),
        origin: &app.config.public_url,
        now,
    };
    let Some(letter) = letters::write(&about, &notice)? else {
        return Ok(());
    };
    let id = LetterId::from_bytes(new_id(now));
    let bytes = message::finish(Draft {
        id,
        from: (shop.name.as_str(), &shop.email),
        to: (customer.name.as_str(), email),
        subject: &letter.subject,
        text: letter.text(shop),
        html: letter.html(shop),
        calendar: letter.calendar.clone(),
        at: now,
    })?;
    let letter = NewLetter {
        id,
        ticket: ticket.id,
        notice: notice.code(),
        sender: &shop.email,
        recipient: email,
        subject: &letter.subject,
        message: &bytes,
    };
    outbox::add(conn, letter, now).await?;
    Ok(())
}

//! A pair's scope: composing and sending offers, words told to the shop, agreed changes, and the
//! history of revisions.

pub(crate) mod advice;
mod compose;
mod days;
mod edit;
mod queries;
mod revisions;
mod told;

use axum::Router;
use axum::extract::DefaultBodyLimit;
use axum::routing::{get, post};
use shared_types::form::Problem;
use shared_types::id::PairId;
use shared_types::paths;
use shared_types::scope::Scope;
use shared_types::scope::sheet::{Matter, Sheet};
use shared_types::text::Line;
use shared_types::ticket::{Pair, Ticket};

use crate::app::App;
use crate::db::{Conn, DbError};
use crate::error::AppError;
use crate::record;
use crate::request::UPLOAD_LIMIT;
use crate::staff::session::SignedIn;

pub(crate) fn routes() -> Router<App> {
    let compose = get(compose::show).post(compose::save);
    Router::new()
        .route(
            paths::COMPOSE,
            compose.layer(DefaultBodyLimit::max(UPLOAD_LIMIT)),
        )
        .route(paths::PREVIEW, get(compose::preview))
        .route(paths::SEND_OFFER, post(compose::send))
        .route(paths::WITHDRAW, post(told::withdraw))
        .route(paths::TOLD_WORD, post(told::record_word))
        .route(paths::EDIT_SCOPE, get(edit::show).post(edit::save))
        .route(paths::REVISIONS, get(revisions::show))
}

/// Whether an offer has been prepared for this pair and not been sent.
pub(crate) async fn has_prepared(conn: &mut Conn, pair: PairId) -> Result<bool, DbError> {
    let draft = queries::draft(conn, pair).await?;
    Ok(draft.is_some_and(|draft| draft.sheet.is_some()))
}

/// A ticket and one of its pairs.
async fn ticket_of(conn: &mut Conn, id: PairId) -> Result<Ticket, AppError> {
    record::by_pair(conn, id).await?.ok_or(AppError::NotFound)
}

/// The pair of a ticket that was found by it.
fn pair_of(ticket: &Ticket, id: PairId) -> Result<&Pair, AppError> {
    ticket.pair(id).ok_or(AppError::NotFound)
}

/// The next revision of a pair's scope.
fn next_sheet(
    ticket: &Ticket,
    pair: &Pair,
    staff: &SignedIn,
    (agreed, matter): (Scope, Matter),
) -> Result<Sheet, AppError> {
    let title = title_line(pair).map_err(|problem| AppError::Internal(problem.into()))?;
    Ok(Sheet::next(
        &staff.shop,
        (ticket.number, pair.tag, title),
        pair.revisions.last(),
        (agreed, matter),
        staff.now,
    ))
}

/// The pair in words, cut to a line.
pub(crate) fn title_line(pair: &Pair) -> Result<Line, Problem> {
    let title: String = pair.about.title().chars().take(Line::LIMIT).collect();
    Line::parse(&title)
}

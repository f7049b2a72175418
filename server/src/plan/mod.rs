//! The shop's plan: all open work as it stands, planned and asked about. Nothing here is stored.

mod evening;
mod pages;
mod what_if;

use axum::Router;
use axum::routing::get;
use shared_types::moment::Moment;
use shared_types::paths;
use shared_types::promise::new_pair::NewPairs;
use shared_types::promise::open_work::OpenWork;
use shared_types::shop::Shop;

use crate::app::App;
use crate::db::{Conn, DbError};
use crate::error::AppError;
use crate::{pricebook, record};

pub(crate) use evening::EveningWork;

pub(crate) fn routes() -> Router<App> {
    Router::new()
        .route(paths::PLAN, get(pages::plan))
        .route(paths::WHAT_IF, get(what_if::what_if))
}

/// All open pairs in order of their promises, with how the price book's work is planned: two
/// queries, whatever is asked of it afterwards.
pub(crate) async fn open_work(
    conn: &mut Conn,
    shop: &Shop,
    now: Moment,
) -> Result<OpenWork, DbError> {
    let pairs = record::briefs_still_here(conn).await?;
    let services = pricebook::services_ever(conn).await?;
    Ok(OpenWork::new(shop, &services, &pairs, now))
}

/// Works something out for pairs that are about to be taken in.
pub(crate) async fn of_new_pairs<T: Send + 'static>(
    open: OpenWork,
    ask: impl FnOnce(&mut NewPairs<'_>, &OpenWork) -> T + Send + 'static,
) -> Result<T, AppError> {
    worked_out(move || {
        let board = open.board().ok();
        ask(&mut NewPairs::of(&open.practice, board.as_ref()), &open)
    })
    .await
}

/// Works something out on a thread where it keeps no request waiting: with hundreds of open pairs a
/// forecast takes tenths of a second.
pub(crate) async fn worked_out<T: Send + 'static>(
    work: impl FnOnce() -> T + Send + 'static,
) -> Result<T, AppError> {
    let done = tokio::task::spawn_blocking(work).await;
    done.map_err(|error| AppError::Internal(error.into()))
}

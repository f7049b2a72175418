//! The bench: the queue, a pair with its stage, holds and notes, and its bench sheet.

mod actions;
pub(crate) mod pages;
mod sheet;

use axum::Router;
use axum::extract::DefaultBodyLimit;
use axum::routing::{get, post};
use shared_types::paths;

use crate::app::App;
use crate::request::UPLOAD_LIMIT;

pub(crate) fn routes() -> Router<App> {
    let note = post(actions::post_note).layer(DefaultBodyLimit::max(UPLOAD_LIMIT));
    Router::new()
        .route(paths::BENCH, get(pages::bench))
        .route(paths::PAIR, get(pages::pair))
        .route(paths::MOVE_STAGE, post(actions::move_stage))
        .route(paths::SET_HOLD, post(actions::set_hold))
        .route(paths::START_WORK, post(actions::start_work))
        .route(paths::POST_NOTE, note)
        .route(paths::BENCH_SHEET, get(sheet::show))
        .route(paths::BENCH_PAPER, get(sheet::paper))
        .route(paths::MEASURE, get(sheet::form).post(sheet::keep))
}

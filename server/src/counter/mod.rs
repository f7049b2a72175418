//! The counter: taking in, finding, the claim ticket, money, handing over, the customer's link.

mod actions;
mod find;
pub(crate) mod intake;
mod ticket;

use axum::Router;
use axum::extract::DefaultBodyLimit;
use axum::routing::{get, post};
use shared_types::paths;

use crate::app::App;
use crate::request::UPLOAD_LIMIT;

pub(crate) fn routes() -> Router<App> {
    let intake = get(intake::show).post(intake::submit);
    Router::new()
        .route(paths::FIND, get(find::find))
        .route(
            paths::INTAKE,
            intake.layer(DefaultBodyLimit::max(UPLOAD_LIMIT)),
        )
        .route(paths::SHOP_TICKET, get(ticket::show))
        .route(paths::CLAIM, get(ticket::claim))
        .route(paths::PAY, post(actions::pay))
        .route(paths::GIVE_BACK, post(actions::give_back))
        .route(paths::HAND_OVER, post(actions::hand_over))
        .route(paths::RENEW_LINK, post(actions::renew_link))
        .route(paths::REVOKE_LINK, post(actions::revoke_link))
        .route(paths::CONTACT, post(actions::contact))
}

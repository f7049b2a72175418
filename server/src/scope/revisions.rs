//! The history of a pair's scope.

use axum::extract::State;
use axum::http::StatusCode;
use frontend::back_office::revisions::{Revisions, RevisionsPage};
use leptos::prelude::*;
use shared_types::id::PairId;
use shared_types::staff::Permission;

use super::ticket_of;
use crate::app::App;
use crate::error::AppResult;
use crate::request::At;
use crate::staff::session::SignedIn;
use crate::{page, staff as people};

pub(super) async fn show(State(app): State<App>, staff: SignedIn, At(id): At<PairId>) -> AppResult {
    staff.require(Permission::SeeTickets)?;
    let mut conn = app.db.read().await?;
    let ticket = ticket_of(&mut conn, id).await?;
    let names = people::names(&mut conn).await?;
    drop(conn);
    let desk = staff.desk(None);
    Ok(page::render(StatusCode::OK, move || {
        let props = Revisions {
            desk,
            ticket,
            pair: id,
            names,
        };
        view! { <RevisionsPage props=props /> }
    }))
}

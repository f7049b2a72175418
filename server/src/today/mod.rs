//! Today: what needs someone.

use axum::Router;
use axum::extract::State;
use axum::http::StatusCode;
use axum::routing::get;
use frontend::back_office::today::{Today, TodayPage};
use leptos::prelude::*;
use shared_types::paths;
use shared_types::staff::Permission;

use crate::app::App;
use crate::error::AppResult;
use crate::mail::outbox;
use crate::page;
use crate::plan::{EveningWork, worked_out};
use crate::request::Said;
use crate::staff::session::SignedIn;

pub(crate) fn routes() -> Router<App> {
    Router::new().route(paths::TODAY, get(today))
}

async fn today(State(app): State<App>, staff: SignedIn, said: Said) -> AppResult {
    staff.require(Permission::SeeTickets)?;
    let mut conn = app.db.read().await?;
    let work = EveningWork::read(&mut conn, &staff.shop, staff.now).await?;
    let may_see = staff.staff.role.may(Permission::SeeLetters);
    let troubled_letters = if may_see {
        outbox::troubled(&mut conn).await?
    } else {
        Vec::new()
    };
    drop(conn);
    let desk = staff.desk(said.0);
    let (pairs, days) = worked_out(move || {
        let days = work.days().map(|(days, _)| days);
        (work.pairs, days)
    })
    .await?;
    Ok(page::render(StatusCode::OK, move || {
        let props = Today {
            desk,
            pairs,
            days,
            troubled_letters,
        };
        view! { <TodayPage props=props /> }
    }))
}

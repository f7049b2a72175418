//! People who work in the shop: accounts, signing in, the one-time set-up.

mod pages;
pub(crate) mod password;
mod queries;
pub(crate) mod session;
pub(crate) mod throttle;

use std::collections::BTreeMap;

use axum::Router;
use axum::routing::{get, post};
use frontend::back_office::Names;
use shared_types::form::people::NewPerson;
use shared_types::id::StaffId;
use shared_types::paths;
use shared_types::text::Line;

use crate::app::App;
use crate::clock::{new_id, random};
use crate::db::{Conn, DbError};
use crate::error::AppError;

pub(crate) fn routes() -> Router<App> {
    Router::new()
        .route(paths::SETUP, get(pages::setup).post(pages::set_up))
        .route(paths::SIGN_IN, get(pages::sign_in).post(pages::enter))
        .route(paths::SIGN_OUT, post(pages::leave))
        .route(paths::PEOPLE, get(pages::people).post(pages::add))
        .route(paths::PERSON, post(pages::change))
}

/// Names of all who ever worked here.
pub(crate) async fn names(conn: &mut Conn) -> Result<Names, DbError> {
    let people = queries::everyone(conn).await?;
    let names: BTreeMap<StaffId, Line> = people
        .into_iter()
        .map(|(staff, _)| (staff.id, staff.name))
        .collect();
    Ok(names)
}

/// Names of those who may sign in.
pub(crate) async fn names_here(conn: &mut Conn) -> Result<Vec<Line>, DbError> {
    let people = queries::everyone(conn).await?;
    let here = people.into_iter().filter(|(_, left_at)| left_at.is_none());
    Ok(here.map(|(staff, _)| staff.name).collect())
}

/// Adds someone; the name must not be taken.
pub(crate) async fn add(app: &App, person: NewPerson) -> Result<StaffId, AppError> {
    let hash = password::hash(app, person.password).await?;
    let id = StaffId::from_bytes(new_id(app.now()));
    let mut conn = app.db.write().await?;
    queries::add(&mut conn, id, (&person.name, person.role), &hash, app.now()).await?;
    conn.commit().await?;
    Ok(id)
}

/// While there is no owner: the path of the one-time set-up page, made anew at each start.
pub async fn setup_path(app: &App) -> anyhow::Result<Option<String>> {
    if queries::has_owner(&mut app.db.read().await?).await? {
        return Ok(None);
    }
    let code = data_encoding::BASE64URL_NOPAD.encode(&random::<24>());
    let path = paths::setup(&code);
    *app.setup
        .lock()
        .unwrap_or_else(std::sync::PoisonError::into_inner) = Some(code);
    Ok(Some(path))
}

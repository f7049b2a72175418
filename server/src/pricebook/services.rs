//! The owner's pages of the price book.

use axum::extract::State;
use axum::http::StatusCode;
use axum::response::Response;
use frontend::back_office::prices::{Prices, PricesPage, ServicePage, ServiceView};
use frontend::document::Flash;
use leptos::prelude::*;
use shared_types::bench::take_off::TakeOffs;
use shared_types::form::service::{self, ServiceField};
use shared_types::form::{Fields, FormErrors};
use shared_types::id::ServiceId;
use shared_types::paths;
use shared_types::pricebook::{self, Supplies};
use shared_types::staff::Permission;
use shared_types::supply::kept::Supply;
use shared_types::ticket::Construction;

use super::{entries, kept, offered, queries};
use crate::app::App;
use crate::clock::new_id;
use crate::db::{Conn, DbError};
use crate::error::{AppError, AppResult};
use crate::page::{self, Done};
use crate::request::{At, Said, Typed};
use crate::staff::session::SignedIn;

pub(super) async fn show(State(app): State<App>, staff: SignedIn, said: Said) -> AppResult {
    staff.require(Permission::RunTheShop)?;
    let untouched = (said.0, Fields::default(), FormErrors::default());
    list(&app, &staff, StatusCode::OK, untouched).await
}

async fn list(
    app: &App,
    staff: &SignedIn,
    status: StatusCode,
    (flash, fields, errors): (Option<Flash>, Fields, FormErrors<ServiceField>),
) -> AppResult {
    let mut conn = app.db.read().await?;
    let offered = offered(&mut conn).await?;
    let supplies = kept(&mut conn).await?;
    drop(conn);
    let usual = TakeOffs::of_size(None, Construction::Unknown);
    let services = pricebook::for_pair(&offered, &usual);
    let services = services.map_err(|problem| AppError::Internal(problem.into()))?;
    let desk = staff.desk(flash);
    Ok(page::render(status, move || {
        let props = Prices {
            desk,
            services,
            supplies,
            fields,
            errors,
        };
        view! { <PricesPage props=props /> }
    }))
}

pub(super) async fn add(State(app): State<App>, staff: SignedIn, typed: Typed) -> AppResult {
    staff.require(Permission::RunTheShop)?;
    let id = ServiceId::from_bytes(new_id(app.now()));
    let mut conn = app.db.write().await?;
    let supplies = to_use(&mut conn).await?;
    match service::read(&typed.fields, id, &supplies, staff.shop.currency()) {
        Ok(entry) => {
            queries::put(&mut conn, &entry).await?;
            conn.commit().await?;
            Ok(page::see_done(&paths::prices(), Done::Saved))
        }
        Err(errors) => {
            drop(conn);
            let status = StatusCode::UNPROCESSABLE_ENTITY;
            list(&app, &staff, status, (None, typed.fields, errors)).await
        }
    }
}

async fn to_use(conn: &mut Conn) -> Result<Supplies, DbError> {
    let kept = kept(conn).await?;
    Ok(kept.into_iter().map(|supply| (supply.id, supply)).collect())
}

pub(super) async fn show_one(
    State(app): State<App>,
    staff: SignedIn,
    At(id): At<ServiceId>,
) -> AppResult {
    staff.require(Permission::RunTheShop)?;
    let mut conn = app.db.read().await?;
    let entries = entries(&mut conn).await?;
    let supplies = kept(&mut conn).await?;
    drop(conn);
    let entry = entries.into_iter().find(|entry| entry.id == id);
    let fields = service::fields_of(&entry.ok_or(AppError::NotFound)?);
    let untouched = (fields, FormErrors::default());
    Ok(one(&staff, StatusCode::OK, (id, supplies), untouched))
}

fn one(
    staff: &SignedIn,
    status: StatusCode,
    (id, supplies): (ServiceId, Vec<Supply>),
    (fields, errors): (Fields, FormErrors<ServiceField>),
) -> Response {
    let desk = staff.desk(None);
    page::render(status, move || {
        let props = ServiceView {
            desk,
            id,
            supplies,
            fields,
            errors,
        };
        view! { <ServicePage props=props /> }
    })
}

pub(super) async fn change(
    State(app): State<App>,
    staff: SignedIn,
    At(id): At<ServiceId>,
    typed: Typed,
) -> AppResult {
    staff.require(Permission::RunTheShop)?;
    let mut conn = app.db.write().await?;
    let known = queries::in_the_book(&mut conn).await?;
    if !known.iter().any(|entry| entry.id == id) {
        return Err(AppError::NotFound);
    }
    if typed.fields.one("act") == "retire" {
        queries::retire(&mut conn, id, app.now()).await?;
    } else {
        let supplies = to_use(&mut conn).await?;
        match service::read(&typed.fields, id, &supplies, staff.shop.currency()) {
            Ok(entry) => queries::put(&mut conn, &entry).await?,
            Err(errors) => {
                let status = StatusCode::UNPROCESSABLE_ENTITY;
                let supplies = kept(&mut conn).await?;
                let again = (typed.fields, errors);
                return Ok(one(&staff, status, (id, supplies), again));
            }
        }
    }
    conn.commit().await?;
    Ok(page::see_done(&paths::prices(), Done::Saved))
}

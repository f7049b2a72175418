//! The price book. A service is never removed, only retired: what was agreed names it.

mod queries;
pub(crate) mod starter;

use axum::Router;
use axum::extract::State;
use axum::http::StatusCode;
use axum::response::Response;
use axum::routing::get;
use frontend::back_office::prices::{Prices, PricesPage, ServicePage, ServiceView};
use frontend::document::Flash;
use leptos::prelude::*;
use shared_types::form::settings::{self, ServiceField};
use shared_types::form::{Fields, FormErrors};
use shared_types::id::ServiceId;
use shared_types::money::{Currency, Money};
use shared_types::paths;
use shared_types::pricebook::Service;
use shared_types::staff::Permission;

use crate::app::App;
use crate::clock::new_id;
use crate::db::{Conn, DbError};
use crate::error::{AppError, AppResult};
use crate::page::{self, Done};
use crate::request::{At, Said, Typed};
use crate::staff::session::SignedIn;

pub(crate) fn routes() -> Router<App> {
    Router::new()
        .route(paths::PRICES, get(show).post(add))
        .route(paths::SERVICE, get(show_service).post(change))
}

/// The services that are in the book, by stage, then title.
pub(crate) async fn services(conn: &mut Conn) -> Result<Vec<Service>, DbError> {
    let mut services = queries::in_the_book(conn).await?;
    services.sort_by(|one, other| (one.stage, &one.title).cmp(&(other.stage, &other.title)));
    Ok(services)
}

/// Puts a service into the book, in the caller's transaction.
pub(crate) async fn put(conn: &mut Conn, service: &Service) -> Result<(), DbError> {
    queries::put(conn, service).await
}

/// Writes the materials' prices in another currency, with the same figures where it has as many
/// decimals and nothing where it has not: the owner sets them anew.
pub(crate) async fn change_currency(conn: &mut Conn, currency: Currency) -> Result<(), DbError> {
    for mut service in queries::in_the_book(conn).await? {
        service.material = Money::parse(&service.material.figure(), currency)
            .unwrap_or_else(|_| Money::zero(currency));
        queries::put(conn, &service).await?;
    }
    Ok(())
}

async fn show(State(app): State<App>, staff: SignedIn, said: Said) -> AppResult {
    staff.require(Permission::RunTheShop)?;
    list(
        &app,
        &staff,
        StatusCode::OK,
        (said.0, Fields::default(), FormErrors::default()),
    )
    .await
}

async fn list(
    app: &App,
    staff: &SignedIn,
    status: StatusCode,
    (flash, fields, errors): (Option<Flash>, Fields, FormErrors<ServiceField>),
) -> AppResult {
    let services = services(&mut app.db.read().await?).await?;
    let desk = staff.desk(flash);
    Ok(page::render(status, move || {
        let props = Prices {
            desk,
            services,
            fields,
            errors,
        };
        view! { <PricesPage props=props /> }
    }))
}

async fn add(State(app): State<App>, staff: SignedIn, typed: Typed) -> AppResult {
    staff.require(Permission::RunTheShop)?;
    let id = ServiceId::from_bytes(new_id(app.now()));
    match settings::read_service(&typed.fields, id, staff.shop.currency()) {
        Ok(service) => {
            let mut conn = app.db.write().await?;
            queries::put(&mut conn, &service).await?;
            conn.commit().await?;
            Ok(page::see_done(&paths::prices(), Done::Saved))
        }
        Err(errors) => {
            let status = StatusCode::UNPROCESSABLE_ENTITY;
            list(&app, &staff, status, (None, typed.fields, errors)).await
        }
    }
}

async fn show_service(State(app): State<App>, staff: SignedIn, At(id): At<ServiceId>) -> AppResult {
    staff.require(Permission::RunTheShop)?;
    let services = services(&mut app.db.read().await?).await?;
    let service = services.into_iter().find(|service| service.id == id);
    let fields = settings::fields_of_service(&service.ok_or(AppError::NotFound)?);
    Ok(one(
        &staff,
        StatusCode::OK,
        id,
        (fields, FormErrors::default()),
    ))
}

fn one(
    staff: &SignedIn,
    status: StatusCode,
    id: ServiceId,
    (fields, errors): (Fields, FormErrors<ServiceField>),
) -> Response {
    let desk = staff.desk(None);
    page::render(status, move || {
        let props = ServiceView {
            desk,
            id,
            fields,
            errors,
        };
        view! { <ServicePage props=props /> }
    })
}

async fn change(
    State(app): State<App>,
    staff: SignedIn,
    At(id): At<ServiceId>,
    typed: Typed,
) -> AppResult {
    staff.require(Permission::RunTheShop)?;
    let mut conn = app.db.write().await?;
    let known = queries::in_the_book(&mut conn).await?;
    if !known.iter().any(|service| service.id == id) {
        return Err(AppError::NotFound);
    }
    if typed.fields.one("act") == "retire" {
        queries::retire(&mut conn, id, app.now()).await?;
    } else {
        match settings::read_service(&typed.fields, id, staff.shop.currency()) {
            Ok(service) => queries::put(&mut conn, &service).await?,
            Err(errors) => {
                let status = StatusCode::UNPROCESSABLE_ENTITY;
                return Ok(one(&staff, status, id, (typed.fields, errors)));
            }
        }
    }
    conn.commit().await?;
    Ok(page::see_done(&paths::prices(), Done::Saved))
}

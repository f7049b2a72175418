//! The shop's settings: read with every request, changed by the owner.

mod hands;
mod queries;

use axum::Router;
use axum::extract::State;
use axum::http::StatusCode;
use axum::response::Response;
use axum::routing::get;
use frontend::back_office::settings::{Settings, SettingsPage};
use frontend::document::Flash;
use leptos::prelude::*;
use shared_types::contact::Email;
use shared_types::form::settings::{self, ShopField};
use shared_types::form::{Fields, FormErrors, Problem};
use shared_types::moment::Moment;
use shared_types::paths;
use shared_types::shop::Shop;
use shared_types::staff::Permission;
use shared_types::text::{Line, Words};

use crate::app::App;
use crate::db::{Conn, DbError, corrupt};
use crate::error::AppResult;
use crate::page::{self, Done};
use crate::request::{Said, Typed};
use crate::staff::session::SignedIn;
use crate::{pricebook, record};

pub(crate) fn routes() -> Router<App> {
    Router::new()
        .route(paths::SETTINGS, get(show).post(save))
        .route(paths::HANDS, get(hands::show).post(hands::save))
}

/// The shop as it is set; before the set-up, one without a name of its own.
pub(crate) async fn current(conn: &mut Conn) -> Result<Shop, DbError> {
    match queries::settings(conn).await? {
        Some(shop) => Ok(shop),
        None => unnamed().map_err(|error| corrupt("shop", "before the set-up", error)),
    }
}

fn unnamed() -> Result<Shop, Problem> {
    Ok(Shop::new(
        Line::parse("Boot and shoe repair")?,
        Words::parse("The shop's address is not set yet.")?,
        Email::parse("shop@example.invalid")?,
    ))
}

/// Stores the settings, in the caller's transaction.
pub(crate) async fn store(conn: &mut Conn, shop: &Shop, now: Moment) -> Result<(), DbError> {
    queries::save(conn, shop, now).await
}

async fn show(State(app): State<App>, staff: SignedIn, said: Said) -> AppResult {
    staff.require(Permission::RunTheShop)?;
    let shop = current(&mut app.db.read().await?).await?;
    let fields = settings::fields_of(&shop);
    Ok(page(
        &staff,
        StatusCode::OK,
        said.0,
        fields,
        FormErrors::default(),
    ))
}

fn page(
    staff: &SignedIn,
    status: StatusCode,
    flash: Option<Flash>,
    fields: Fields,
    errors: FormErrors<ShopField>,
) -> Response {
    let desk = staff.desk(flash);
    page::render(status, move || {
        let props = Settings {
            desk,
            fields,
            errors,
        };
        view! { <SettingsPage props=props /> }
    })
}

async fn save(State(app): State<App>, staff: SignedIn, typed: Typed) -> AppResult {
    staff.require(Permission::RunTheShop)?;
    let shop = match settings::read(&typed.fields, &staff.shop) {
        Ok(shop) => shop,
        Err(errors) => {
            let status = StatusCode::UNPROCESSABLE_ENTITY;
            return Ok(page(&staff, status, None, typed.fields, errors));
        }
    };
    let mut conn = app.db.write().await?;
    let before = current(&mut conn).await?;
    if before.currency() != shop.currency() {
        if !record::briefs_still_here(&mut conn).await?.is_empty() {
            let words = "The currency can't change while pairs are here: their prices were agreed \
                         in it. Change it when every pair is handed over.";
            let flash = Some(Flash::Refused(words.to_owned()));
            let status = StatusCode::CONFLICT;
            return Ok(page(
                &staff,
                status,
                flash,
                typed.fields,
                FormErrors::default(),
            ));
        }
        pricebook::change_currency(&mut conn, shop.currency()).await?;
    }
    queries::save(&mut conn, &shop, app.now()).await?;
    conn.commit().await?;
    Ok(page::see_done(&paths::settings(), Done::Saved))
}

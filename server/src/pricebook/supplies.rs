//! The owner's pages of the supplies, and of what an hour at the bench costs.

use axum::extract::State;
use axum::http::StatusCode;
use axum::response::Response;
use frontend::back_office::supplies::{SuppliesPage, SuppliesView, SupplyPage, SupplyView};
use frontend::document::Flash;
use leptos::prelude::*;
use shared_types::form::supply::{self, SupplyField};
use shared_types::form::{Fields, FormErrors};
use shared_types::id::SupplyId;
use shared_types::money::Money;
use shared_types::paths;
use shared_types::staff::Permission;

use super::{entries, kept, queries};
use crate::app::App;
use crate::clock::new_id;
use crate::error::{AppError, AppResult};
use crate::page::{self, Done};
use crate::request::{At, Said, Typed};
use crate::staff::session::SignedIn;

type Again = (Option<Flash>, Fields, FormErrors<SupplyField>);

pub(super) async fn show(State(app): State<App>, staff: SignedIn, said: Said) -> AppResult {
    staff.require(Permission::RunTheShop)?;
    let untouched = (said.0, Fields::default(), FormErrors::default());
    list(&app, &staff, StatusCode::OK, untouched).await
}

async fn list(
    app: &App,
    staff: &SignedIn,
    status: StatusCode,
    (flash, mut fields, errors): Again,
) -> AppResult {
    let mut conn = app.db.read().await?;
    let supplies = kept(&mut conn).await?;
    let hour = queries::bench_hour(&mut conn).await?;
    drop(conn);
    let name = SupplyField::BenchHour.name();
    if errors.at(&SupplyField::BenchHour).is_none() {
        fields.set(name, hour.map_or_else(String::new, Money::figure));
    }
    let desk = staff.desk(flash);
    Ok(page::render(status, move || {
        let props = SuppliesView {
            desk,
            supplies,
            fields,
            errors,
        };
        view! { <SuppliesPage props=props /> }
    }))
}

pub(super) async fn add(State(app): State<App>, staff: SignedIn, typed: Typed) -> AppResult {
    staff.require(Permission::RunTheShop)?;
    let id = SupplyId::from_bytes(new_id(app.now()));
    match supply::read(&typed.fields, id, staff.shop.currency()) {
        Ok(supply) => {
            let mut conn = app.db.write().await?;
            queries::put_supply(&mut conn, &supply).await?;
            conn.commit().await?;
            Ok(page::see_done(&paths::supplies(), Done::Saved))
        }
        Err(errors) => {
            let status = StatusCode::UNPROCESSABLE_ENTITY;
            list(&app, &staff, status, (None, typed.fields, errors)).await
        }
    }
}

pub(super) async fn set_bench_hour(
    State(app): State<App>,
    staff: SignedIn,
    typed: Typed,
) -> AppResult {
    staff.require(Permission::RunTheShop)?;
    match supply::read_bench_hour(&typed.fields, staff.shop.currency()) {
        Ok(hour) => {
            let mut conn = app.db.write().await?;
            queries::put_bench_hour(&mut conn, hour).await?;
            conn.commit().await?;
            Ok(page::see_done(&paths::supplies(), Done::Saved))
        }
        Err(errors) => {
            let status = StatusCode::UNPROCESSABLE_ENTITY;
            list(&app, &staff, status, (None, typed.fields, errors)).await
        }
    }
}

pub(super) async fn show_one(
    State(app): State<App>,
    staff: SignedIn,
    At(id): At<SupplyId>,
) -> AppResult {
    staff.require(Permission::RunTheShop)?;
    let supplies = kept(&mut app.db.read().await?).await?;
    let supply = supplies.into_iter().find(|supply| supply.id == id);
    let fields = supply::fields_of(&supply.ok_or(AppError::NotFound)?);
    let untouched = (None, fields, FormErrors::default());
    Ok(one(&staff, StatusCode::OK, id, untouched))
}

fn one(
    staff: &SignedIn,
    status: StatusCode,
    id: SupplyId,
    (flash, fields, errors): Again,
) -> Response {
    let desk = staff.desk(flash);
    page::render(status, move || {
        let props = SupplyView {
            desk,
            id,
            fields,
            errors,
        };
        view! { <SupplyPage props=props /> }
    })
}

pub(super) async fn change(
    State(app): State<App>,
    staff: SignedIn,
    At(id): At<SupplyId>,
    typed: Typed,
) -> AppResult {
    staff.require(Permission::RunTheShop)?;
    let mut conn = app.db.write().await?;
    let known = kept(&mut conn).await?;
    let Some(known) = known.into_iter().find(|supply| supply.id == id) else {
        return Err(AppError::NotFound);
    };
    let entries = entries(&mut conn).await?;
    let users = entries
        .iter()
        .filter(|entry| entry.uses.iter().any(|used| used.supply == id));
    let users: Vec<String> = users.map(|entry| entry.title.to_string()).collect();
    let refused = |words: &str| {
        let words = format!("{words}: {}. Change them first.", users.join("; "));
        Some(Flash::Refused(words))
    };
    if typed.fields.one("act") == "retire" {
        if !users.is_empty() {
            let flash = refused("These services still use it");
            let again = (flash, supply::fields_of(&known), FormErrors::default());
            return Ok(one(&staff, StatusCode::CONFLICT, id, again));
        }
        queries::retire_supply(&mut conn, id, app.now()).await?;
    } else {
        match supply::read(&typed.fields, id, staff.shop.currency()) {
            Ok(fresh) if fresh.unit != known.unit && !users.is_empty() => {
                let flash = refused("These services count it by its unit");
                let again = (flash, typed.fields, FormErrors::default());
                return Ok(one(&staff, StatusCode::CONFLICT, id, again));
            }
            Ok(fresh) => queries::put_supply(&mut conn, &fresh).await?,
            Err(errors) => {
                let status = StatusCode::UNPROCESSABLE_ENTITY;
                return Ok(one(&staff, status, id, (None, typed.fields, errors)));
            }
        }
    }
    conn.commit().await?;
    Ok(page::see_done(&paths::supplies(), Done::Saved))
}

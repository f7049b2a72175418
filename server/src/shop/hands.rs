//! The owner's page of hands and stations.

use axum::extract::State;
use axum::http::StatusCode;
use axum::response::Response;
use frontend::back_office::hands::{Hands, HandsPage, Span};
use frontend::document::Flash;
use leptos::prelude::*;
use shared_types::form::hands::{self, HandsField};
use shared_types::form::{Fields, FormErrors};
use shared_types::paths;
use shared_types::promise::open_work::OpenWork;
use shared_types::promise::outlook::outlook;
use shared_types::promise::practice::missing_stations;
use shared_types::shop::Shop;
use shared_types::staff::Permission;
use shared_types::text::Line;

use super::{current, queries};
use crate::app::App;
use crate::error::AppResult;
use crate::page::{self, Done};
use crate::request::{Said, Typed};
use crate::staff::session::SignedIn;
use crate::{plan, pricebook, staff};

pub(super) async fn show(State(app): State<App>, staff: SignedIn, said: Said) -> AppResult {
    staff.require(Permission::RunTheShop)?;
    let today = staff.shop.calendar.zone.day(staff.now);
    let fields = hands::fields_of(&staff.shop, today);
    let typed = (fields, FormErrors::default());
    render(&app, &staff, StatusCode::OK, said.0, typed).await
}

pub(super) async fn save(State(app): State<App>, staff: SignedIn, typed: Typed) -> AppResult {
    staff.require(Permission::RunTheShop)?;
    let today = staff.shop.calendar.zone.day(staff.now);
    let mut conn = app.db.write().await?;
    let before = current(&mut conn).await?;
    let bench = match hands::read(&typed.fields, &before, today) {
        Ok(bench) => bench,
        Err(errors) => {
            drop(conn);
            let status = StatusCode::UNPROCESSABLE_ENTITY;
            return render(&app, &staff, status, None, (typed.fields, errors)).await;
        }
    };
    pricebook::rename_stations(&mut conn, &bench.renamed).await?;
    let shop = Shop {
        hands: bench.hands,
        stations: bench.stations,
        chance: bench.chance,
        ..before
    };
    queries::save(&mut conn, &shop, app.now()).await?;
    conn.commit().await?;
    Ok(page::see_done(&paths::hands(), Done::Saved))
}

async fn render(
    app: &App,
    staff: &SignedIn,
    status: StatusCode,
    flash: Option<Flash>,
    (fields, errors): (Fields, FormErrors<HandsField>),
) -> AppResult<Response> {
    let mut conn = app.db.read().await?;
    let services = pricebook::entries(&mut conn).await?;
    let missing = missing_stations(&services, &staff.shop);
    let names = staff::names_here(&mut conn).await?;
    let work = plan::open_work(&mut conn, &staff.shop, staff.now).await?;
    drop(conn);
    let props = Hands {
        desk: staff.desk(flash),
        fields,
        errors,
        names,
        missing: missing.into_iter().map(Line::to_string).collect(),
        span: plan::worked_out(move || span(&work)).await?,
    };
    Ok(page::render(
        status,
        move || view! { <HandsPage props=props /> },
    ))
}

/// How long all open work keeps these hands.
fn span(work: &OpenWork) -> Span {
    let board = match work.board() {
        Ok(board) => board,
        Err(misfit) => return Span::Unplanned(misfit.to_string()),
    };
    let forecasts = outlook(&board, work.practice.draws);
    let days = forecasts
        .iter()
        .map(|forecast| forecast.by(work.practice.chance));
    match days.max().flatten() {
        Some(last) => Span::Until {
            pairs: forecasts.len(),
            last,
        },
        None => Span::Clear,
    }
}

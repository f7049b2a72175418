//! The queue and a pair.

use axum::extract::State;
use axum::http::StatusCode;
use axum::response::Response;
use frontend::back_office::bench::{Bench, BenchPage};
use frontend::back_office::pair::{PairPage, PairView};
use frontend::document::Flash;
use leptos::prelude::*;
use shared_types::brief::in_order_of_work;
use shared_types::form::offer::ToldField;
use shared_types::form::{Fields, FormErrors};
use shared_types::id::PairId;
use shared_types::staff::Permission;
use shared_types::ticket::Pair;

use crate::app::App;
use crate::error::{AppError, AppResult};
use crate::request::{At, Said};
use crate::staff::session::SignedIn;
use crate::{customers, page, pricebook, record, rules, scope, staff};

pub(super) async fn bench(State(app): State<App>, staff: SignedIn, said: Said) -> AppResult {
    staff.require(Permission::SeeTickets)?;
    let pairs = record::briefs_still_here(&mut app.db.read().await?).await?;
    let pairs = in_order_of_work(pairs, staff.now);
    let desk = staff.desk(said.0);
    Ok(page::render(StatusCode::OK, move || {
        let props = Bench { desk, pairs };
        view! { <BenchPage props=props /> }
    }))
}

pub(super) async fn pair(
    State(app): State<App>,
    staff: SignedIn,
    At(id): At<PairId>,
    said: Said,
) -> AppResult {
    staff.require(Permission::SeeTickets)?;
    show(
        &app,
        &staff,
        id,
        StatusCode::OK,
        Again {
            flash: said.0,
            ..Again::default()
        },
    )
    .await
}

/// What a pair's page must show again, after a form on it that was not taken.
#[derive(Default)]
pub(crate) struct Again {
    pub(crate) flash: Option<Flash>,
    pub(crate) note: String,
    pub(crate) told: Fields,
    pub(crate) told_errors: FormErrors<ToldField>,
}

impl Again {
    /// With nothing but a reason on top.
    pub(crate) fn refused(reason: &impl ToString) -> Self {
        Self {
            flash: Some(Flash::Refused(reason.to_string())),
            ..Self::default()
        }
    }
}

/// A pair's page.
pub(crate) async fn show(
    app: &App,
    staff: &SignedIn,
    id: PairId,
    status: StatusCode,
    again: Again,
) -> AppResult<Response> {
    let mut conn = app.db.read().await?;
    let ticket = record::by_pair(&mut conn, id)
        .await?
        .ok_or(AppError::NotFound)?;
    let customer = customers::get(&mut conn, ticket.customer).await?;
    let costs = pricebook::costs(&mut conn, staff).await?;
    let agreed = ticket.pair(id).map(Pair::agreed);
    let margin = costs
        .zip(agreed)
        .and_then(|(costs, agreed)| costs.margin(agreed, &staff.shop.prices));
    let rules = rules::of_shop(&mut conn).await?;
    let pair = ticket.pair(id).ok_or(AppError::NotFound)?;
    // Rules that can't be worked through explain nothing, and hinder nobody from work.
    let why = scope::advice::why_each_line(rules, pair).unwrap_or_default();
    let props = PairView {
        desk: staff.desk(again.flash),
        customer: customer.ok_or(AppError::NotFound)?,
        ticket,
        pair: id,
        names: staff::names(&mut conn).await?,
        note: again.note,
        told: again.told,
        told_errors: again.told_errors,
        has_draft: scope::has_prepared(&mut conn, id).await?,
        margin,
        why,
    };
    drop(conn);
    Ok(page::render(
        status,
        move || view! { <PairPage props=props /> },
    ))
}

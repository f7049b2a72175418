//! A pair's bench sheet, on the page and to prop up, and the form in which the bench measures.

use axum::extract::State;
use axum::http::StatusCode;
use axum::response::Response;
use frontend::back_office::bench_sheet::paper::BenchPaperPage;
use frontend::back_office::bench_sheet::{BenchSheetPage, BenchSheetView};
use frontend::back_office::measure::{Measure, MeasurePage};
use frontend::document::Flash;
use leptos::prelude::*;
use shared_types::form::measure::{self, MeasureField};
use shared_types::form::{Fields, FormErrors};
use shared_types::id::PairId;
use shared_types::paths;
use shared_types::staff::Permission;
use shared_types::ticket::Ticket;

use crate::app::App;
use crate::error::{AppError, AppResult};
use crate::page::{Done, see_done};
use crate::request::{At, Said, Typed};
use crate::staff::session::SignedIn;
use crate::{page, record, staff as people};

pub(super) async fn show(
    State(app): State<App>,
    staff: SignedIn,
    At(id): At<PairId>,
    said: Said,
) -> AppResult {
    staff.require(Permission::SeeTickets)?;
    let props = view_of(&app, &staff, id, said.0).await?;
    Ok(page::render(
        StatusCode::OK,
        move || view! { <BenchSheetPage props=props /> },
    ))
}

pub(super) async fn paper(
    State(app): State<App>,
    staff: SignedIn,
    At(id): At<PairId>,
) -> AppResult {
    staff.require(Permission::SeeTickets)?;
    let props = view_of(&app, &staff, id, None).await?;
    Ok(page::render(
        StatusCode::OK,
        move || view! { <BenchPaperPage props=props /> },
    ))
}

async fn view_of(
    app: &App,
    staff: &SignedIn,
    id: PairId,
    flash: Option<Flash>,
) -> AppResult<BenchSheetView> {
    let mut conn = app.db.read().await?;
    let ticket = record::by_pair(&mut conn, id).await?;
    Ok(BenchSheetView {
        desk: staff.desk(flash),
        ticket: ticket.ok_or(AppError::NotFound)?,
        pair: id,
        names: people::names(&mut conn).await?,
    })
}

/// The form, with what was measured last.
pub(super) async fn form(State(app): State<App>, staff: SignedIn, At(id): At<PairId>) -> AppResult {
    staff.require(Permission::WorkOnPairs)?;
    let ticket = ticket_of(&app, id).await?;
    let pair = ticket.pair(id).ok_or(AppError::NotFound)?;
    let lines = &pair.agreed().lines;
    let fields = measure::filled(&pair.about, pair.measured.as_ref(), lines);
    let typed = (fields, FormErrors::default());
    Ok(form_page(&staff, ticket, id, StatusCode::OK, None, typed))
}

/// Keeps what was measured; what can't be right comes back as it was typed.
pub(super) async fn keep(
    State(app): State<App>,
    staff: SignedIn,
    At(id): At<PairId>,
    typed: Typed,
) -> AppResult {
    staff.require(Permission::WorkOnPairs)?;
    let ticket = ticket_of(&app, id).await?;
    let fields = typed.fields;
    let pair = ticket.pair(id).ok_or(AppError::NotFound)?;
    let measurements = match measure::read(&fields, &pair.about, &pair.agreed().lines) {
        Ok(measurements) => measurements,
        Err(errors) => {
            let status = StatusCode::UNPROCESSABLE_ENTITY;
            return Ok(form_page(
                &staff,
                ticket,
                id,
                status,
                None,
                (fields, errors),
            ));
        }
    };
    let seen = measure::seen(&fields);
    let decide = |ticket: &Ticket, _| {
        let event = ticket.measure(id, measurements.clone(), seen)?;
        Ok::<_, shared_types::ticket::commands::RuleBroken>(event.into_iter().collect())
    };
    match record::change(&app, ticket.id, staff.actor(), decide).await? {
        Ok(_) => Ok(see_done(&paths::bench_sheet(id), Done::Measured)),
        Err(broken) => {
            let flash = Some(Flash::Refused(broken.to_string()));
            let typed = (fields, FormErrors::default());
            Ok(form_page(
                &staff,
                ticket,
                id,
                StatusCode::CONFLICT,
                flash,
                typed,
            ))
        }
    }
}

async fn ticket_of(app: &App, id: PairId) -> AppResult<Ticket> {
    let ticket = record::by_pair(&mut app.db.read().await?, id).await?;
    ticket.ok_or(AppError::NotFound)
}

fn form_page(
    staff: &SignedIn,
    ticket: Ticket,
    id: PairId,
    status: StatusCode,
    flash: Option<Flash>,
    (fields, errors): (Fields, FormErrors<MeasureField>),
) -> Response {
    let props = Measure {
        desk: staff.desk(flash),
        ticket,
        pair: id,
        fields,
        errors,
    };
    page::render(status, move || view! { <MeasurePage props=props /> })
}

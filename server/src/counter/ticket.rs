//! A ticket at the counter, and its claim ticket on paper.

use axum::extract::State;
use axum::http::StatusCode;
use axum::response::Response;
use frontend::back_office::claim::{Claim, ClaimPage};
use frontend::back_office::ticket::{ShopTicket, ShopTicketPage};
use frontend::document::Flash;
use leptos::prelude::*;
use shared_types::form::Fields;
use shared_types::id::TicketId;
use shared_types::staff::Permission;

use crate::app::App;
use crate::error::{AppError, AppResult};
use crate::mail::outbox;
use crate::request::{At, Said};
use crate::staff::session::SignedIn;
use crate::{customers, page, record, staff as people};

pub(super) async fn show(
    State(app): State<App>,
    staff: SignedIn,
    At(id): At<TicketId>,
    said: Said,
) -> AppResult {
    staff.require(Permission::SeeTickets)?;
    ticket_page(
        &app,
        &staff,
        id,
        StatusCode::OK,
        (said.0, Fields::default()),
    )
    .await
}

/// The ticket's page; `typed` is what must be shown again.
pub(super) async fn ticket_page(
    app: &App,
    staff: &SignedIn,
    id: TicketId,
    status: StatusCode,
    (flash, typed): (Option<Flash>, Fields),
) -> AppResult<Response> {
    let mut conn = app.db.read().await?;
    let ticket = record::load(&mut conn, id)
        .await?
        .ok_or(AppError::NotFound)?;
    let customer = customers::get(&mut conn, ticket.customer).await?;
    let letters = if staff.staff.role.may(Permission::SeeLetters) {
        outbox::of_ticket(&mut conn, id).await?
    } else {
        Vec::new()
    };
    let names = people::names(&mut conn).await?;
    drop(conn);
    let may_share = staff.staff.role.may(Permission::TakeIn);
    let props = ShopTicket {
        desk: staff.desk(flash),
        customer: customer.ok_or(AppError::NotFound)?,
        link: app.link_of(&ticket).filter(|_| may_share),
        letters,
        names,
        typed,
        ticket,
    };
    Ok(page::render(
        status,
        move || view! { <ShopTicketPage props=props /> },
    ))
}

/// The claim ticket, with the code that opens the customer's page.
pub(super) async fn claim(
    State(app): State<App>,
    staff: SignedIn,
    At(id): At<TicketId>,
) -> AppResult {
    staff.require(Permission::TakeIn)?;
    let mut conn = app.db.read().await?;
    let ticket = record::load(&mut conn, id)
        .await?
        .ok_or(AppError::NotFound)?;
    let customer = customers::get(&mut conn, ticket.customer).await?;
    drop(conn);
    let link = app.link_of(&ticket);
    let code = link.as_deref().map(code).transpose()?;
    let props = Claim {
        may_take: staff.staff.role.may(Permission::TakeMoney),
        shop: staff.shop,
        customer: customer.ok_or(AppError::NotFound)?.name,
        link,
        code,
        ticket,
    };
    Ok(page::render(
        StatusCode::OK,
        move || view! { <ClaimPage props=props /> },
    ))
}

/// A QR code (ISO/IEC 18004) as SVG, with the quiet zone of four modules that readers need.
fn code(link: &str) -> anyhow::Result<String> {
    let code = qrcode::QrCode::with_error_correction_level(link, qrcode::EcLevel::M)?;
    let drawn = code
        .render::<qrcode::render::svg::Color<'_>>()
        .min_dimensions(200, 200)
        .quiet_zone(true)
        .build();
    // The declaration of an XML file has no place inside a page.
    let start = drawn.find("<svg").unwrap_or(0);
    Ok(drawn[start..].to_owned())
}

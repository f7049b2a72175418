//! The price book and the supplies that its services use. Neither is ever removed, only retired:
//! what was agreed names it.
//!
//! Other slices get services with prices of sale; what supplies cost stays in here, but for
//! [`costs`], which only pages of the owner may ask for.

mod queries;
mod services;
pub(crate) mod starter;
mod supplies;

use std::collections::BTreeMap;

use axum::Router;
use axum::routing::{get, post};
use shared_types::id::ServiceId;
use shared_types::margin::Costs;
use shared_types::money::{Currency, Money};
use shared_types::paths;
use shared_types::pricebook::{self, BookEntry, Offered, Service, Supplies};
use shared_types::staff::Permission;
use shared_types::supply::kept::Supply;
use shared_types::text::Line;
use shared_types::ticket::Pair;

use self::starter::Stock;
use crate::app::App;
use crate::db::{Conn, DbError, corrupt};
use crate::error::AppError;
use crate::staff::session::SignedIn;

pub(crate) fn routes() -> Router<App> {
    Router::new()
        .route(paths::PRICES, get(services::show).post(services::add))
        .route(
            paths::SERVICE,
            get(services::show_one).post(services::change),
        )
        .route(paths::SUPPLIES, get(supplies::show).post(supplies::add))
        .route(
            paths::SUPPLY,
            get(supplies::show_one).post(supplies::change),
        )
        .route(paths::BENCH_HOUR, post(supplies::set_bench_hour))
}

/// The services that are in the book with their prices of sale, by stage, then title.
pub(crate) async fn offered(conn: &mut Conn) -> Result<Vec<Offered>, DbError> {
    let supplies = all_supplies(conn).await?;
    entries(conn)
        .await?
        .iter()
        .map(|entry| {
            let offered = entry.offered(&supplies);
            offered.map_err(|problem| corrupt("service", &entry.id.to_string(), problem))
        })
        .collect()
}

/// The services worked out for a pair that is here.
pub(crate) async fn for_pair(conn: &mut Conn, pair: &Pair) -> Result<Vec<Service>, AppError> {
    let offered = offered(conn).await?;
    let services = pricebook::for_pair(&offered, &pair.at_the_bench().take_offs());
    services.map_err(|problem| AppError::Internal(problem.into()))
}

/// What services that have left the book are called.
pub(crate) async fn titles_of_retired(
    conn: &mut Conn,
) -> Result<BTreeMap<ServiceId, String>, DbError> {
    let retired = queries::retired(conn).await?.into_iter();
    Ok(retired
        .map(|service| (service.id, service.title.to_string()))
        .collect())
}

/// All services that a line may name, retired ones too.
pub(crate) async fn services_ever(conn: &mut Conn) -> Result<Vec<BookEntry>, DbError> {
    queries::ever(conn).await
}

/// Gives the services of stations that have got another name their new one, in the caller's
/// transaction.
pub(crate) async fn rename_stations(
    conn: &mut Conn,
    renamed: &[(Line, Line)],
) -> Result<(), DbError> {
    for mut service in queries::ever(conn).await? {
        let found = renamed
            .iter()
            .find(|(was, _)| Some(was) == service.station.as_ref());
        if let Some((_, name)) = found {
            service.station = Some(name.clone());
            queries::put(conn, &service).await?;
        }
    }
    Ok(())
}

/// What the shop pays, for whoever runs it; nothing for anybody else.
pub(crate) async fn costs(conn: &mut Conn, staff: &SignedIn) -> Result<Option<Costs>, DbError> {
    if !staff.staff.role.may(Permission::RunTheShop) {
        return Ok(None);
    }
    Ok(Some(Costs {
        hour: queries::bench_hour(conn).await?,
        supplies: all_supplies(conn).await?,
    }))
}

/// Puts the first supplies and services into an empty book, in the caller's transaction.
pub(crate) async fn stock(conn: &mut Conn, stock: &Stock) -> Result<(), DbError> {
    for supply in &stock.supplies {
        queries::put_supply(conn, supply).await?;
    }
    for entry in &stock.services {
        queries::put(conn, entry).await?;
    }
    queries::put_bench_hour(conn, stock.bench_hour).await
}

/// Writes all prices and costs in another currency, with the same figures where it has as many
/// decimals and nothing where it has not: the owner sets them anew.
pub(crate) async fn change_currency(conn: &mut Conn, currency: Currency) -> Result<(), DbError> {
    let same = |money: Money| Money::parse(&money.figure(), currency).ok();
    for mut entry in queries::in_the_book(conn).await? {
        entry.material = same(entry.material).unwrap_or(Money::zero(currency));
        entry.set_price = entry.set_price.and_then(same);
        queries::put(conn, &entry).await?;
    }
    for mut supply in queries::supplies(conn).await? {
        supply.supply.cost = same(supply.supply.cost).unwrap_or(Money::zero(currency));
        queries::put_supply(conn, &supply.supply).await?;
    }
    let hour = queries::bench_hour(conn).await?;
    queries::put_bench_hour(conn, hour.and_then(same)).await
}

/// The services as they stand in the book, by stage, then title.
pub(crate) async fn entries(conn: &mut Conn) -> Result<Vec<BookEntry>, DbError> {
    let mut entries = queries::in_the_book(conn).await?;
    entries.sort_by(|one, other| (one.stage, &one.title).cmp(&(other.stage, &other.title)));
    Ok(entries)
}

/// The supplies that the shop keeps, by name.
async fn kept(conn: &mut Conn) -> Result<Vec<Supply>, DbError> {
    let all = queries::supplies(conn).await?;
    let kept = all.into_iter().filter(|shelved| shelved.is_kept);
    let mut kept: Vec<Supply> = kept.map(|shelved| shelved.supply).collect();
    kept.sort_by(|one, other| one.name.cmp(&other.name));
    Ok(kept)
}

/// Those that it keeps and those that it no longer does.
async fn all_supplies(conn: &mut Conn) -> Result<Supplies, DbError> {
    let all = queries::supplies(conn).await?;
    Ok(all
        .into_iter()
        .map(|shelved| (shelved.supply.id, shelved.supply))
        .collect())
}

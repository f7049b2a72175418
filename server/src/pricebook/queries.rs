//! Services, supplies, and what an hour at the bench costs.

use serde::Serialize;
use serde::de::DeserializeOwned;
use shared_types::id::{ServiceId, SupplyId};
use shared_types::moment::Moment;
use shared_types::money::Money;
use shared_types::pricebook::BookEntry;
use shared_types::supply::kept::Supply;
use sqlx::FromRow;

use crate::db::{Conn, DbError, all, corrupt, one, run};

#[derive(FromRow)]
struct ServiceRow {
    service_id: String,
    body: String,
}

pub(super) async fn in_the_book(conn: &mut Conn) -> Result<Vec<BookEntry>, DbError> {
    let rows = all!(
        conn,
        ServiceRow,
        "select service_id, body
         from service
         where retired_at is null"
    )?;
    rows.into_iter()
        .map(|row| read("service", &row.service_id, &row.body))
        .collect()
}

pub(super) async fn retired(conn: &mut Conn) -> Result<Vec<BookEntry>, DbError> {
    let rows = all!(
        conn,
        ServiceRow,
        "select service_id, body
         from service
         where retired_at is not null"
    )?;
    rows.into_iter()
        .map(|row| read("service", &row.service_id, &row.body))
        .collect()
}

/// Those that are in the book, and those that were: agreed lines name them.
pub(super) async fn ever(conn: &mut Conn) -> Result<Vec<BookEntry>, DbError> {
    let rows = all!(
        conn,
        ServiceRow,
        "select service_id, body
         from service"
    )?;
    rows.into_iter()
        .map(|row| read("service", &row.service_id, &row.body))
        .collect()
}

pub(super) async fn put(conn: &mut Conn, entry: &BookEntry) -> Result<(), DbError> {
    let id = entry.id.to_string();
    let body = written("service", &id, entry)?;
    run!(
        conn,
        "insert into service (service_id, body)
         values ($1, $2)
         on conflict (service_id) do update
         set body = excluded.body",
        id,
        body
    )?;
    Ok(())
}

pub(super) async fn retire(conn: &mut Conn, id: ServiceId, now: Moment) -> Result<(), DbError> {
    run!(
        conn,
        "update service
         set retired_at = $2
         where service_id = $1",
        id.to_string(),
        now.as_micros()
    )?;
    Ok(())
}

#[derive(FromRow)]
struct SupplyRow {
    supply_id: String,
    body: String,
    retired_at: Option<i64>,
}

/// A supply, and whether the shop still keeps it.
pub(super) struct Shelved {
    pub(super) supply: Supply,
    pub(super) is_kept: bool,
}

pub(super) async fn supplies(conn: &mut Conn) -> Result<Vec<Shelved>, DbError> {
    let rows = all!(
        conn,
        SupplyRow,
        "select supply_id, body, retired_at
         from supply"
    )?;
    rows.into_iter()
        .map(|row| {
            Ok(Shelved {
                supply: read("supply", &row.supply_id, &row.body)?,
                is_kept: row.retired_at.is_none(),
            })
        })
        .collect()
}

pub(super) async fn put_supply(conn: &mut Conn, supply: &Supply) -> Result<(), DbError> {
    let id = supply.id.to_string();
    let body = written("supply", &id, supply)?;
    run!(
        conn,
        "insert into supply (supply_id, body)
         values ($1, $2)
         on conflict (supply_id) do update
         set body = excluded.body",
        id,
        body
    )?;
    Ok(())
}

pub(super) async fn retire_supply(
    conn: &mut Conn,
    id: SupplyId,
    now: Moment,
) -> Result<(), DbError> {
    run!(
        conn,
        "update supply
         set retired_at = $2
         where supply_id = $1",
        id.to_string(),
        now.as_micros()
    )?;
    Ok(())
}

#[derive(FromRow)]
struct CostRow {
    body: String,
}

pub(super) async fn bench_hour(conn: &mut Conn) -> Result<Option<Money>, DbError> {
    let row = one!(
        conn,
        CostRow,
        "select body
         from shop_cost
         where shop_id = 1"
    )?;
    row.map_or(Ok(None), |row| read("shop_cost", "1", &row.body))
}

pub(super) async fn put_bench_hour(conn: &mut Conn, hour: Option<Money>) -> Result<(), DbError> {
    let body = written("shop_cost", "1", &hour)?;
    run!(
        conn,
        "insert into shop_cost (shop_id, body)
         values (1, $1)
         on conflict (shop_id) do update
         set body = excluded.body",
        body
    )?;
    Ok(())
}

fn read<T: DeserializeOwned>(table: &'static str, id: &str, body: &str) -> Result<T, DbError> {
    serde_json::from_str(body).map_err(|error| corrupt(table, id, error))
}

fn written<T: Serialize>(table: &'static str, id: &str, value: &T) -> Result<String, DbError> {
    serde_json::to_string(value).map_err(|error| corrupt(table, id, error))
}

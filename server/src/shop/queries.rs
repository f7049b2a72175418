//! The one row of settings.

use shared_types::moment::Moment;
use shared_types::shop::Shop;
use sqlx::FromRow;

use crate::db::{Conn, DbError, corrupt, one, run};

#[derive(FromRow)]
struct ShopRow {
    settings: String,
}

pub(super) async fn settings(conn: &mut Conn) -> Result<Option<Shop>, DbError> {
    let row = one!(
        conn,
        ShopRow,
        "select settings
         from shop
         where shop_id = 1"
    )?;
    row.map(|row| serde_json::from_str(&row.settings))
        .transpose()
        .map_err(|error| corrupt("shop", "1", error))
}

pub(super) async fn save(conn: &mut Conn, shop: &Shop, now: Moment) -> Result<(), DbError> {
    let settings = serde_json::to_string(shop).map_err(|error| corrupt("shop", "1", error))?;
    run!(
        conn,
        "insert into shop (shop_id, settings, changed_at)
         values (1, $1, $2)
         on conflict (shop_id) do update
         set settings = excluded.settings,
             changed_at = excluded.changed_at",
        settings,
        now.as_micros()
    )?;
    Ok(())
}

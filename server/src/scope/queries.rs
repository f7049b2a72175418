//! Offers that are being composed or have been prepared.

use shared_types::form::Fields;
use shared_types::id::PairId;
use shared_types::moment::Moment;
use shared_types::scope::sheet::Sheet;
use sqlx::FromRow;

use crate::db::{Conn, DbError, corrupt, one, run};

/// An offer that is not sent yet.
#[derive(Debug)]
pub(super) struct Draft {
    /// What was typed.
    pub(super) fields: Fields,
    /// As it was prepared, if it was.
    pub(super) sheet: Option<Sheet>,
}

#[derive(FromRow)]
struct DraftRow {
    fields: String,
    sheet: Option<String>,
}

pub(super) async fn draft(conn: &mut Conn, pair: PairId) -> Result<Option<Draft>, DbError> {
    let row = one!(
        conn,
        DraftRow,
        "select fields, sheet
         from draft
         where pair_id = $1",
        pair.to_string()
    )?;
    row.map(|row| {
        let read = || -> anyhow::Result<Draft> {
            Ok(Draft {
                fields: serde_json::from_str(&row.fields)?,
                sheet: row.sheet.as_deref().map(serde_json::from_str).transpose()?,
            })
        };
        read().map_err(|error| corrupt("draft", &pair.to_string(), error))
    })
    .transpose()
}

pub(super) async fn save_draft(
    conn: &mut Conn,
    pair: PairId,
    draft: &Draft,
    now: Moment,
) -> Result<(), DbError> {
    let write = || -> anyhow::Result<(String, Option<String>)> {
        let sheet = draft
            .sheet
            .as_ref()
            .map(serde_json::to_string)
            .transpose()?;
        Ok((serde_json::to_string(&draft.fields)?, sheet))
    };
    let (fields, sheet) = write().map_err(|error| corrupt("draft", &pair.to_string(), error))?;
    run!(
        conn,
        "insert into draft (pair_id, fields, sheet, changed_at)
         values ($1, $2, $3, $4)
         on conflict (pair_id) do update
         set fields = excluded.fields,
             sheet = excluded.sheet,
             changed_at = excluded.changed_at",
        pair.to_string(),
        fields,
        sheet,
        now.as_micros()
    )?;
    Ok(())
}

pub(super) async fn remove_draft(conn: &mut Conn, pair: PairId) -> Result<(), DbError> {
    run!(
        conn,
        "delete from draft
         where pair_id = $1",
        pair.to_string()
    )?;
    Ok(())
}

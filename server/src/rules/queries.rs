//! What the shop changed about the rules.

use shared_types::moment::Moment;
use shared_types::scope::rules::edits::Edits;
use sqlx::FromRow;

use crate::db::{Conn, DbError, corrupt, one, run};

#[derive(FromRow)]
struct EditsRow {
    edits: String,
    revision: i64,
}

/// The changes, and how often they were changed.
pub(super) async fn edits(conn: &mut Conn) -> Result<(Edits, i64), DbError> {
    let row = one!(
        conn,
        EditsRow,
        "select edits, revision
         from rules
         where shop_id = 1"
    )?;
    let Some(row) = row else {
        return Ok((Edits::default(), 0));
    };
    let edits =
        serde_json::from_str(&row.edits).map_err(|error| corrupt("rules", "the shop's", error))?;
    Ok((edits, row.revision))
}

/// Stores changes that were decided on this revision; not if there is a later one by now.
pub(super) async fn save(
    conn: &mut Conn,
    edits: &Edits,
    (revision, now): (i64, Moment),
) -> Result<bool, DbError> {
    let text =
        serde_json::to_string(edits).map_err(|error| corrupt("rules", "the shop's", error))?;
    let written = run!(
        conn,
        "insert into rules (shop_id, edits, revision, changed_at)
         values (1, $1, $2, $3)
         on conflict (shop_id) do update
         set edits = excluded.edits,
             revision = excluded.revision,
             changed_at = excluded.changed_at
         where rules.revision = $4",
        text,
        revision + 1,
        now.as_micros(),
        revision
    )?;
    Ok(written == 1)
}

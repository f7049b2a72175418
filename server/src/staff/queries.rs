//! Staff and their sessions.

use shared_types::digest::Digest;
use shared_types::id::StaffId;
use shared_types::moment::Moment;
use shared_types::staff::{Role, Staff};
use shared_types::text::Line;
use sqlx::FromRow;

use crate::db::{Conn, DbError, all, corrupt, one, run};

#[derive(FromRow)]
struct StaffRow {
    staff_id: String,
    name: String,
    role: String,
    password_hash: String,
    disabled_at: Option<i64>,
}

impl StaffRow {
    fn read(&self) -> Result<Staff, DbError> {
        let read = || -> anyhow::Result<Staff> {
            Ok(Staff {
                id: self.staff_id.parse()?,
                name: Line::parse(&self.name)?,
                role: Role::from_code(&self.role)
                    .ok_or_else(|| anyhow::anyhow!("no role {:?}", self.role))?,
            })
        };
        read().map_err(|error| corrupt("staff", &self.staff_id, error))
    }
}

/// The name as it is compared: without case and outer blanks.
fn key(name: &str) -> String {
    name.trim().to_lowercase()
}

pub(super) async fn has_owner(conn: &mut Conn) -> Result<bool, DbError> {
    let everyone = everyone(conn).await?;
    Ok(everyone.iter().any(|(staff, _)| staff.role == Role::Owner))
}

/// Everyone, with the time since which they may no longer sign in.
pub(super) async fn everyone(conn: &mut Conn) -> Result<Vec<(Staff, Option<Moment>)>, DbError> {
    let rows = all!(
        conn,
        StaffRow,
        "select staff_id, name, role, password_hash, disabled_at
         from staff
         order by name_key"
    )?;
    rows.iter()
        .map(|row| Ok((row.read()?, row.disabled_at.map(Moment::from_micros))))
        .collect()
}

/// Who may sign in with this name, and the hash of their password.
pub(super) async fn by_name(
    conn: &mut Conn,
    name: &str,
) -> Result<Option<(Staff, String)>, DbError> {
    let row = one!(
        conn,
        StaffRow,
        "select staff_id, name, role, password_hash, disabled_at
         from staff
         where name_key = $1
           and disabled_at is null",
        key(name)
    )?;
    row.map(|row| Ok((row.read()?, row.password_hash.clone())))
        .transpose()
}

pub(super) async fn add(
    conn: &mut Conn,
    id: StaffId,
    (name, role): (&Line, Role),
    hash: &str,
    now: Moment,
) -> Result<(), DbError> {
    run!(
        conn,
        "insert into staff (staff_id, name, name_key, role, password_hash, added_at)
         values ($1, $2, $3, $4, $5, $6)",
        id.to_string(),
        name.as_str(),
        key(name.as_str()),
        role.code(),
        hash,
        now.as_micros()
    )?;
    Ok(())
}

pub(super) async fn set_password(conn: &mut Conn, id: StaffId, hash: &str) -> Result<u64, DbError> {
    run!(
        conn,
        "update staff
         set password_hash = $2
         where staff_id = $1",
        id.to_string(),
        hash
    )
}

pub(super) async fn set_disabled(
    conn: &mut Conn,
    id: StaffId,
    since: Option<Moment>,
) -> Result<u64, DbError> {
    run!(
        conn,
        "update staff
         set disabled_at = $2
         where staff_id = $1",
        id.to_string(),
        since.map(Moment::as_micros)
    )
}

pub(super) async fn begin_session(
    conn: &mut Conn,
    digest: Digest,
    id: StaffId,
    now: Moment,
) -> Result<(), DbError> {
    run!(
        conn,
        "insert into session (digest, staff_id, begun_at, seen_at)
         values ($1, $2, $3, $3)",
        digest.to_string(),
        id.to_string(),
        now.as_micros()
    )?;
    Ok(())
}

pub(super) async fn end_session(conn: &mut Conn, digest: Digest) -> Result<(), DbError> {
    run!(
        conn,
        "delete from session
         where digest = $1",
        digest.to_string()
    )?;
    Ok(())
}

pub(super) async fn end_sessions_of(conn: &mut Conn, id: StaffId) -> Result<(), DbError> {
    run!(
        conn,
        "delete from session
         where staff_id = $1",
        id.to_string()
    )?;
    Ok(())
}

#[derive(FromRow)]
struct SessionRow {
    #[sqlx(flatten)]
    staff: StaffRow,
    seen_at: i64,
}

/// Whose session this is and when it was last used, if it is neither too old nor idle too long.
pub(super) async fn session(
    conn: &mut Conn,
    digest: Digest,
    (begun_after, seen_after): (Moment, Moment),
) -> Result<Option<(Staff, Moment)>, DbError> {
    let row = one!(
        conn,
        SessionRow,
        "select staff.staff_id, staff.name, staff.role, staff.password_hash, staff.disabled_at,
                session.seen_at
         from session
         join staff on staff.staff_id = session.staff_id
         where session.digest = $1
           and session.begun_at > $2
           and session.seen_at > $3
           and staff.disabled_at is null",
        digest.to_string(),
        begun_after.as_micros(),
        seen_after.as_micros()
    )?;
    row.map(|row| Ok((row.staff.read()?, Moment::from_micros(row.seen_at))))
        .transpose()
}

pub(super) async fn touch_session(
    conn: &mut Conn,
    digest: Digest,
    now: Moment,
) -> Result<(), DbError> {
    run!(
        conn,
        "update session
         set seen_at = $2
         where digest = $1",
        digest.to_string(),
        now.as_micros()
    )?;
    Ok(())
}

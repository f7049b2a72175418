//! A fresh database for one test, on either engine.

use std::path::Path;
use std::sync::atomic::{AtomicU32, Ordering};

use anyhow::{Context as _, Result};
use server::db::Db;
use sqlx::{AssertSqlSafe, Connection as _, Executor as _, PgConnection};

use super::handed;

/// Which database keeps the records.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Engine {
    Sqlite,
    Postgres,
}

/// A database that nobody else uses.
pub(crate) struct Database {
    address: String,
    on_server: Option<(String, String)>,
}

static NEXT: AtomicU32 = AtomicU32::new(0);

impl Database {
    /// Makes one; a file goes into this folder.
    pub(crate) async fn create(engine: Engine, folder: &Path) -> Result<Self> {
        match engine {
            Engine::Sqlite => Ok(Self {
                address: folder.join("lastword.db").display().to_string(),
                on_server: None,
            }),
            Engine::Postgres => {
                let server = handed("LASTWORD_TEST_POSTGRES")?;
                let place = NEXT.fetch_add(1, Ordering::Relaxed);
                let name = format!("journey_{}_{place}", std::process::id());
                on(&server, format!("create database {name}")).await?;
                let (host, _) = server.rsplit_once('/').context("a PostgreSQL address")?;
                Ok(Self {
                    address: format!("{host}/{name}"),
                    on_server: Some((server, name)),
                })
            }
        }
    }

    /// Its address as the program takes it.
    pub(crate) fn address(&self) -> &str {
        &self.address
    }

    /// Removes it from its server; a file goes with its folder.
    pub(crate) async fn remove(self) -> Result<()> {
        if let Some((server, name)) = self.on_server {
            on(&server, format!("drop database {name} with (force)")).await?;
        }
        Ok(())
    }

    /// One whole number.
    pub(crate) async fn number(db: &Db, sql: &'static str) -> Result<i64> {
        let number = match db {
            Db::Sqlite { read, .. } => sqlx::query_scalar(sql).fetch_one(read).await?,
            Db::Postgres(pool) => sqlx::query_scalar(sql).fetch_one(pool).await?,
        };
        Ok(number)
    }

    /// Subjects of the letters that this notice caused, oldest first.
    pub(crate) async fn letters(db: &Db, notice: &str) -> Result<Vec<String>> {
        let sql = "select subject from letter where notice = $1 order by letter_id";
        let subjects = match db {
            Db::Sqlite { read, .. } => sqlx::query_scalar(sql).bind(notice).fetch_all(read).await?,
            Db::Postgres(pool) => sqlx::query_scalar(sql).bind(notice).fetch_all(pool).await?,
        };
        Ok(subjects)
    }

    /// Runs a statement behind the program's back, and says how it went.
    pub(crate) async fn tamper(db: &Db, sql: &'static str) -> Result<(), sqlx::Error> {
        match db {
            Db::Sqlite { write, .. } => sqlx::raw_sql(sql).execute(write).await.map(drop),
            Db::Postgres(pool) => sqlx::raw_sql(sql).execute(pool).await.map(drop),
        }
    }
}

async fn on(server: &str, sql: String) -> Result<()> {
    let mut conn = PgConnection::connect(server).await?;
    conn.execute(AssertSqlSafe(sql)).await?;
    conn.close().await?;
    Ok(())
}

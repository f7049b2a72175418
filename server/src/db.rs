//! Two engines behind one door: an embedded SQLite file, or PostgreSQL.
//!
//! A query is one SQL text with `$n` placeholders that both understand; the macros at the end
//! run it on whichever engine the connection has. Reads use [`Db::read`]; every write uses
//! [`Db::write`] and ends with [`Conn::commit`].

use std::path::Path;
use std::str::FromStr;
use std::time::Duration;

use sqlx::pool::PoolConnection;
use sqlx::postgres::{PgConnectOptions, PgPool, PgPoolOptions};
use sqlx::sqlite::{
    SqliteConnectOptions, SqliteJournalMode, SqlitePool, SqlitePoolOptions, SqliteSynchronous,
};
use sqlx::{Connection as _, Database, Executor as _, Postgres, Sqlite};

/// What failed in the database, for the log.
#[derive(Debug, thiserror::Error)]
pub enum DbError {
    /// A row that must be unique exists already; the query that can cause it says what it means.
    #[error("a unique row exists already")]
    Taken,
    /// A row does not say what the program wrote.
    #[error("table {table}, row {row}: {source}")]
    Corrupt {
        /// Which table.
        table: &'static str,
        /// Which row.
        row: String,
        /// What is wrong with it.
        source: anyhow::Error,
    },
    /// The engine failed.
    #[error(transparent)]
    Engine(sqlx::Error),
}

impl From<sqlx::Error> for DbError {
    fn from(error: sqlx::Error) -> Self {
        let cause = error.as_database_error();
        if cause.is_some_and(sqlx::error::DatabaseError::is_unique_violation) {
            Self::Taken
        } else {
            Self::Engine(error)
        }
    }
}

/// Names the row in which something impossible stood.
pub(crate) fn corrupt(table: &'static str, row: &str, source: impl Into<anyhow::Error>) -> DbError {
    DbError::Corrupt {
        table,
        row: row.to_owned(),
        source: source.into(),
    }
}

/// The database.
#[derive(Clone, Debug)]
pub enum Db {
    /// One file; one connection writes, several read.
    Sqlite {
        /// Of one connection.
        write: SqlitePool,
        /// Opened `query_only`.
        read: SqlitePool,
    },
    /// A server.
    Postgres(PgPool),
}

/// A connection, perhaps inside a transaction.
#[derive(Debug)]
pub enum Conn {
    /// To the file.
    Sqlite(Held<Sqlite>),
    /// To the server.
    Postgres(Held<Postgres>),
}

/// A pooled connection that knows whether it is inside a transaction.
///
/// Dropped inside one, it is closed instead of going back to the pool: the engine then rolls back
/// for certain, also after a full disk, when a rollback of its own can fail.
#[derive(Debug)]
pub struct Held<D: Database> {
    pub(crate) conn: PoolConnection<D>,
    in_transaction: bool,
}

impl<D: Database> Drop for Held<D> {
    fn drop(&mut self) {
        if self.in_transaction {
            self.conn.close_on_drop();
        }
    }
}

impl Db {
    /// Opens a database by its address: `postgres://…`, or the path of a file, which is made if it
    /// is not there. Applies what is missing of the schema.
    pub async fn open(address: &str) -> anyhow::Result<Self> {
        if address.starts_with("postgres://") || address.starts_with("postgresql://") {
            let options = PgConnectOptions::from_str(address)?;
            let pool = PgPoolOptions::new()
                .max_connections(8)
                .test_before_acquire(false)
                .acquire_timeout(Duration::from_secs(10))
                .connect_with(options)
                .await?;
            sqlx::migrate!("../migrations/postgres").run(&pool).await?;
            return Ok(Self::Postgres(pool));
        }
        Self::open_file(Path::new(address.trim_start_matches("sqlite:"))).await
    }

    async fn open_file(path: &Path) -> anyhow::Result<Self> {
        let options = SqliteConnectOptions::new()
            .filename(path)
            .create_if_missing(true)
            .journal_mode(SqliteJournalMode::Wal)
            // The log is on disk before an answer leaves: what was said to be recorded is.
            .synchronous(SqliteSynchronous::Full)
            .foreign_keys(true)
            .busy_timeout(Duration::from_secs(5))
            .pragma("trusted_schema", "off")
            .pragma("cell_size_check", "on")
            .pragma("journal_size_limit", "67108864");
        let write = SqlitePoolOptions::new()
            .max_connections(1)
            .test_before_acquire(false)
            .connect_with(options.clone())
            .await?;
        let sound: String = sqlx::query_scalar("pragma quick_check")
            .fetch_one(&write)
            .await?;
        anyhow::ensure!(
            sound == "ok",
            "the database file is damaged ({sound}); restore the last backup"
        );
        sqlx::migrate!("../migrations/sqlite").run(&write).await?;
        let read = SqlitePoolOptions::new()
            .max_connections(4)
            .test_before_acquire(false)
            .connect_with(options.pragma("query_only", "on"))
            .await?;
        Ok(Self::Sqlite { write, read })
    }

    /// A connection to read with.
    pub async fn read(&self) -> Result<Conn, DbError> {
        Ok(match self {
            Self::Sqlite { read, .. } => Conn::Sqlite(Held {
                conn: read.acquire().await?,
                in_transaction: false,
            }),
            Self::Postgres(pool) => Conn::Postgres(Held {
                conn: pool.acquire().await?,
                in_transaction: false,
            }),
        })
    }

    /// A transaction to write in; it is undone unless [`Conn::commit`] ends it.
    ///
    /// SQLite takes its write lock at once: a read that turns into a write would otherwise fail
    /// whenever two meet.
    pub async fn write(&self) -> Result<Conn, DbError> {
        Ok(match self {
            Self::Sqlite { write, .. } => {
                let mut held = Held {
                    conn: write.acquire().await?,
                    in_transaction: true,
                };
                held.conn.execute("begin immediate").await?;
                Conn::Sqlite(held)
            }
            Self::Postgres(pool) => {
                let mut held = Held {
                    conn: pool.acquire().await?,
                    in_transaction: true,
                };
                held.conn.execute("begin").await?;
                Conn::Postgres(held)
            }
        })
    }

    /// Closes all connections; SQLite then folds its log into the file.
    pub async fn close(&self) {
        match self {
            Self::Sqlite { write, read } => {
                read.close().await;
                write.close().await;
            }
            Self::Postgres(pool) => pool.close().await,
        }
    }
}

impl Conn {
    /// Ends the transaction: from here on it is recorded.
    pub async fn commit(self) -> Result<(), DbError> {
        match self {
            Self::Sqlite(mut held) => {
                held.conn.execute("commit").await?;
                held.in_transaction = false;
            }
            Self::Postgres(mut held) => {
                held.conn.execute("commit").await?;
                held.in_transaction = false;
            }
        }
        Ok(())
    }

    /// Whether the database answers.
    pub async fn ping(&mut self) -> Result<(), DbError> {
        match self {
            Self::Sqlite(held) => held.conn.ping().await?,
            Self::Postgres(held) => held.conn.ping().await?,
        }
        Ok(())
    }
}

/// Runs `$sql` with its arguments and gives all rows as `$row`.
macro_rules! all {
    ($conn:expr, $row:ty, $sql:expr $(, $arg:expr)* $(,)?) => {
        match $conn {
            $crate::db::Conn::Sqlite(held) => sqlx::query_as::<_, $row>($sql)
                $(.bind($arg))*.fetch_all(&mut *held.conn).await,
            $crate::db::Conn::Postgres(held) => sqlx::query_as::<_, $row>($sql)
                $(.bind($arg))*.fetch_all(&mut *held.conn).await,
        }.map_err($crate::db::DbError::from)
    };
}

/// Runs `$sql` with its arguments and gives the row as `$row`, if there is one.
macro_rules! one {
    ($conn:expr, $row:ty, $sql:expr $(, $arg:expr)* $(,)?) => {
        match $conn {
            $crate::db::Conn::Sqlite(held) => sqlx::query_as::<_, $row>($sql)
                $(.bind($arg))*.fetch_optional(&mut *held.conn).await,
            $crate::db::Conn::Postgres(held) => sqlx::query_as::<_, $row>($sql)
                $(.bind($arg))*.fetch_optional(&mut *held.conn).await,
        }.map_err($crate::db::DbError::from)
    };
}

/// Runs `$sql` with its arguments and gives the number of rows that it touched.
macro_rules! run {
    ($conn:expr, $sql:expr $(, $arg:expr)* $(,)?) => {
        match $conn {
            $crate::db::Conn::Sqlite(held) => sqlx::query($sql)
                $(.bind($arg))*.execute(&mut *held.conn).await.map(|done| done.rows_affected()),
            $crate::db::Conn::Postgres(held) => sqlx::query($sql)
                $(.bind($arg))*.execute(&mut *held.conn).await.map(|done| done.rows_affected()),
        }.map_err($crate::db::DbError::from)
    };
}

pub(crate) use {all, one, run};

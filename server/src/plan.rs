//! The shop's plan: all open work as it stands, ready to be planned and asked about.

use shared_types::moment::Moment;
use shared_types::promise::open_work::OpenWork;
use shared_types::shop::Shop;

use crate::db::{Conn, DbError};
use crate::error::AppError;
use crate::{pricebook, record};

/// All open pairs in order of their promises, with how the price book's work is planned: two
/// queries, whatever is asked of it afterwards.
pub(crate) async fn open_work(
    conn: &mut Conn,
    shop: &Shop,
    now: Moment,
) -> Result<OpenWork, DbError> {
    let pairs = record::briefs_still_here(conn).await?;
    let services = pricebook::services_ever(conn).await?;
    Ok(OpenWork::new(shop, &services, &pairs, now))
}

/// Works something out on a thread where it keeps no request waiting: with hundreds of open pairs a
/// forecast takes tenths of a second.
pub(crate) async fn worked_out<T: Send + 'static>(
    work: impl FnOnce() -> T + Send + 'static,
) -> Result<T, AppError> {
    let done = tokio::task::spawn_blocking(work).await;
    done.map_err(|error| AppError::Internal(error.into()))
}

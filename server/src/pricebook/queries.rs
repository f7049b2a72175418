//! Services.

use shared_types::id::ServiceId;
use shared_types::moment::Moment;
use shared_types::pricebook::Service;
use sqlx::FromRow;

use crate::db::{Conn, DbError, all, corrupt, run};

#[derive(FromRow)]
struct ServiceRow {
    service_id: String,
    body: String,
}

impl ServiceRow {
    fn read(self) -> Result<Service, DbError> {
        serde_json::from_str(&self.body)
            .map_err(|error| corrupt("service", &self.service_id, error))
    }
}

pub(super) async fn in_the_book(conn: &mut Conn) -> Result<Vec<Service>, DbError> {
    let rows = all!(
        conn,
        ServiceRow,
        "select service_id, body
         from service
         where retired_at is null"
    )?;
    rows.into_iter().map(ServiceRow::read).collect()
}

pub(super) async fn put(conn: &mut Conn, service: &Service) -> Result<(), DbError> {
    let body = serde_json::to_string(service)
        .map_err(|error| corrupt("service", &service.id.to_string(), error))?;
    run!(
        conn,
        "insert into service (service_id, body)
         values ($1, $2)
         on conflict (service_id) do update
         set body = excluded.body",
        service.id.to_string(),
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

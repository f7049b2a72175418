//! Entries, and what is made from them.

use shared_types::brief::PairBrief;
use shared_types::contact::CustomerName;
use shared_types::digest::Digest;
use shared_types::id::{CustomerId, PairId, TicketId};
use shared_types::moment::Moment;
use shared_types::ticket::chain::StoredEntry;
use shared_types::ticket::{Ticket, TicketNumber};
use sqlx::FromRow;

use crate::db::{Conn, DbError, all, corrupt, one, run};

#[derive(FromRow)]
struct EntryRow {
    seq: i64,
    at: i64,
    actor: String,
    body: String,
    before: String,
    link: String,
}

impl TryFrom<EntryRow> for StoredEntry {
    type Error = anyhow::Error;

    fn try_from(row: EntryRow) -> anyhow::Result<Self> {
        Ok(Self {
            seq: row.seq.try_into()?,
            at: Moment::from_micros(row.at),
            actor: serde_json::from_str(&row.actor)?,
            body: row.body,
            before: row.before.parse()?,
            link: row.link.parse()?,
        })
    }
}

pub(super) async fn entries(conn: &mut Conn, id: TicketId) -> Result<Vec<StoredEntry>, DbError> {
    let rows = all!(
        conn,
        EntryRow,
        "select seq, at, actor, body, before, link
         from entry
         where ticket_id = $1
         order by seq",
        id.to_string()
    )?;
    let entries = rows.into_iter().map(StoredEntry::try_from);
    let entries: anyhow::Result<Vec<StoredEntry>> = entries.collect();
    entries.map_err(|error| corrupt("entry", &id.to_string(), error))
}

pub(super) async fn add_entry(
    conn: &mut Conn,
    id: TicketId,
    entry: &StoredEntry,
) -> Result<(), DbError> {
    let actor = serde_json::to_string(&entry.actor)
        .map_err(|error| corrupt("entry", &id.to_string(), error))?;
    run!(
        conn,
        "insert into entry (ticket_id, seq, at, actor, body, before, link)
         values ($1, $2, $3, $4, $5, $6, $7)",
        id.to_string(),
        i64::from(entry.seq),
        entry.at.as_micros(),
        actor,
        &entry.body,
        entry.before.to_string(),
        entry.link.to_string()
    )?;
    Ok(())
}

#[derive(FromRow)]
struct IdRow {
    ticket_id: String,
}

impl IdRow {
    fn read(self) -> Result<TicketId, DbError> {
        let id = self.ticket_id.parse();
        id.map_err(|error: shared_types::id::NotAnId| corrupt("ticket", &self.ticket_id, error))
    }
}

pub(super) async fn ticket_of_link(
    conn: &mut Conn,
    link: Digest,
) -> Result<Option<TicketId>, DbError> {
    let row = one!(
        conn,
        IdRow,
        "select ticket_id
         from portal_link
         where digest = $1
           and revoked_at is null",
        link.to_string()
    )?;
    row.map(IdRow::read).transpose()
}

pub(super) async fn ticket_of_pair(
    conn: &mut Conn,
    pair: PairId,
) -> Result<Option<TicketId>, DbError> {
    let row = one!(
        conn,
        IdRow,
        "select ticket_id
         from pair
         where pair_id = $1",
        pair.to_string()
    )?;
    row.map(IdRow::read).transpose()
}

pub(super) async fn add_link(conn: &mut Conn, link: Digest, id: TicketId) -> Result<(), DbError> {
    run!(
        conn,
        "insert into portal_link (digest, ticket_id)
         values ($1, $2)",
        link.to_string(),
        id.to_string()
    )?;
    Ok(())
}

pub(super) async fn revoke_links(
    conn: &mut Conn,
    id: TicketId,
    now: Moment,
) -> Result<(), DbError> {
    run!(
        conn,
        "update portal_link
         set revoked_at = $2
         where ticket_id = $1
           and revoked_at is null",
        id.to_string(),
        now.as_micros()
    )?;
    Ok(())
}

#[derive(FromRow)]
struct NumberRow {
    number: Option<i64>,
}

pub(super) async fn last_number(conn: &mut Conn) -> Result<Option<TicketNumber>, DbError> {
    let row = one!(
        conn,
        NumberRow,
        "select max(number) as number
         from ticket"
    )?;
    let number = row.and_then(|row| row.number);
    number
        .map(|number| u32::try_from(number).map(TicketNumber::new))
        .transpose()
        .map_err(|error| corrupt("ticket", "max(number)", error))
}

pub(super) async fn add_ticket(
    conn: &mut Conn,
    (id, customer): (TicketId, CustomerId),
    number: TicketNumber,
    now: Moment,
) -> Result<(), DbError> {
    run!(
        conn,
        "insert into ticket (ticket_id, number, customer_id, opened_at)
         values ($1, $2, $3, $4)",
        id.to_string(),
        i64::from(number.get()),
        customer.to_string(),
        now.as_micros()
    )?;
    Ok(())
}

pub(super) async fn save_briefs(conn: &mut Conn, ticket: &Ticket) -> Result<(), DbError> {
    for pair in &ticket.pairs {
        let brief = serde_json::to_string(&PairBrief::of(ticket, pair))
            .map_err(|error| corrupt("pair", &pair.id.to_string(), error))?;
        run!(
            conn,
            "insert into pair (pair_id, ticket_id, brief, handed_over_at)
             values ($1, $2, $3, $4)
             on conflict (pair_id) do update
             set brief = excluded.brief,
                 handed_over_at = excluded.handed_over_at",
            pair.id.to_string(),
            ticket.id.to_string(),
            brief,
            pair.handed_over.as_ref().map(|(at, _)| at.as_micros())
        )?;
    }
    Ok(())
}

/// Where the record of a ticket ends now.
pub(super) async fn save_end(conn: &mut Conn, ticket: &Ticket, now: Moment) -> Result<(), DbError> {
    run!(
        conn,
        "update ticket
         set closed_at = $2,
             entries = $3,
             head = $4
         where ticket_id = $1",
        ticket.id.to_string(),
        ticket.is_closed().then_some(now.as_micros()),
        i64::from(ticket.length),
        ticket.head.to_string()
    )?;
    Ok(())
}

#[derive(FromRow)]
struct BriefRow {
    brief: String,
}

impl BriefRow {
    fn read(self) -> Result<PairBrief, DbError> {
        serde_json::from_str(&self.brief).map_err(|error| corrupt("pair", "its brief", error))
    }
}

/// Tickets whose pairs are still here with a brief of another form than today's.
pub(super) async fn tickets_of_old_briefs(conn: &mut Conn) -> Result<Vec<TicketId>, DbError> {
    let rows = all!(
        conn,
        IdRow,
        "select distinct ticket_id
         from pair
         where handed_over_at is null
           and brief not like $1",
        // Inside a text of the brief the quotes would have a backslash before them.
        format!("%\"form\":{},%", PairBrief::FORM)
    )?;
    rows.into_iter().map(IdRow::read).collect()
}

/// Keeps others from writing to a ticket until the transaction ends.
pub(super) async fn hold(conn: &mut Conn, id: TicketId) -> Result<(), DbError> {
    run!(
        conn,
        "update ticket
         set number = number
         where ticket_id = $1",
        id.to_string()
    )?;
    Ok(())
}

/// Pairs that are not with their owners, oldest ticket first.
pub(crate) async fn briefs_still_here(conn: &mut Conn) -> Result<Vec<PairBrief>, DbError> {
    let rows = all!(
        conn,
        BriefRow,
        "select pair.brief
         from pair
         join ticket on ticket.ticket_id = pair.ticket_id
         where pair.handed_over_at is null
         order by ticket.number, pair.pair_id"
    )?;
    rows.into_iter().map(BriefRow::read).collect()
}

#[derive(FromRow)]
struct FoundRow {
    brief: String,
    name: String,
}

impl FoundRow {
    fn read(self) -> Result<(PairBrief, CustomerName), DbError> {
        let brief = BriefRow { brief: self.brief }.read()?;
        let name = CustomerName::parse(&self.name)
            .map_err(|error| corrupt("customer", &brief.ticket.to_string(), error))?;
        Ok((brief, name))
    }
}

/// The pairs of the ticket with this claim number.
pub(crate) async fn briefs_of_number(
    conn: &mut Conn,
    number: TicketNumber,
) -> Result<Vec<(PairBrief, CustomerName)>, DbError> {
    let rows = all!(
        conn,
        FoundRow,
        "select pair.brief, customer.name
         from ticket
         join pair on pair.ticket_id = ticket.ticket_id
         join customer on customer.customer_id = ticket.customer_id
         where ticket.number = $1
         order by pair.pair_id",
        i64::from(number.get())
    )?;
    rows.into_iter().map(FoundRow::read).collect()
}

/// The latest hundred pairs of customers whose name, address or number contains this text.
pub(crate) async fn briefs_of_customers(
    conn: &mut Conn,
    text: &str,
) -> Result<Vec<(PairBrief, CustomerName)>, DbError> {
    let rows = all!(
        conn,
        FoundRow,
        "select pair.brief, customer.name
         from customer
         join ticket on ticket.customer_id = customer.customer_id
         join pair on pair.ticket_id = ticket.ticket_id
         where customer.search like $1 escape '!'
         order by ticket.number desc, pair.pair_id
         limit 100",
        crate::customers::containing(text)
    )?;
    rows.into_iter().map(FoundRow::read).collect()
}

/// The latest thirty pairs.
pub(crate) async fn latest_briefs(
    conn: &mut Conn,
) -> Result<Vec<(PairBrief, CustomerName)>, DbError> {
    let rows = all!(
        conn,
        FoundRow,
        "select pair.brief, customer.name
         from ticket
         join pair on pair.ticket_id = ticket.ticket_id
         join customer on customer.customer_id = ticket.customer_id
         order by ticket.number desc, pair.pair_id
         limit 30"
    )?;
    rows.into_iter().map(FoundRow::read).collect()
}

/// Tickets with a pair on the pickup shelf.
pub(crate) async fn tickets_ready(conn: &mut Conn) -> Result<Vec<TicketId>, DbError> {
    let mut tickets: Vec<TicketId> = briefs_still_here(conn)
        .await?
        .into_iter()
        .filter(|brief| brief.ready_at.is_some())
        .map(|brief| brief.ticket)
        .collect();
    tickets.dedup();
    Ok(tickets)
}

#[derive(FromRow)]
struct EndRow {
    ticket_id: String,
    entries: i64,
    head: Option<String>,
}

/// Every ticket with where its record ends: how many entries, and the link of the last.
pub(super) async fn ends(conn: &mut Conn) -> Result<Vec<(TicketId, i64, Option<String>)>, DbError> {
    let rows = all!(
        conn,
        EndRow,
        "select ticket_id, entries, head
         from ticket
         order by number"
    )?;
    let read = |row: EndRow| {
        let id = IdRow {
            ticket_id: row.ticket_id,
        };
        Ok((id.read()?, row.entries, row.head))
    };
    rows.into_iter().map(read).collect()
}

//! A ticket's record: the only place that writes entries.
//!
//! A change goes: load, decide (pure, in `shared-types`), then in one transaction the entries, the
//! lines for lists made from them, and the letters that they cause. Two changes at the same
//! instant want the same place in the record; one gets it, the other decides again on what now
//! stands.

mod queries;
pub mod verify;

use shared_types::digest::Digest;
use shared_types::id::{CustomerId, PairId, TicketId};
use shared_types::moment::Moment;
use shared_types::ticket::chain;
use shared_types::ticket::event::{Actor, Event};
use shared_types::ticket::{Ticket, TicketNumber};

use crate::app::App;
use crate::db::{Conn, Db, DbError, corrupt};
use crate::error::AppError;
use crate::{notices, shop};

/// How often a change that others overtake is decided again.
const ROUNDS: usize = 8;

/// The ticket with this id.
pub(crate) async fn load(conn: &mut Conn, id: TicketId) -> Result<Option<Ticket>, DbError> {
    let entries = queries::entries(conn, id).await?;
    if entries.is_empty() {
        return Ok(None);
    }
    let ticket = Ticket::replay(id, &entries);
    ticket
        .map(Some)
        .map_err(|error| corrupt("entry", &id.to_string(), error))
}

/// The ticket that the link with this digest opens.
pub(crate) async fn by_link(conn: &mut Conn, link: Digest) -> Result<Option<Ticket>, DbError> {
    match queries::ticket_of_link(conn, link).await? {
        Some(id) => load(conn, id).await,
        None => Ok(None),
    }
}

/// The ticket to which this pair belongs.
pub(crate) async fn by_pair(conn: &mut Conn, pair: PairId) -> Result<Option<Ticket>, DbError> {
    match queries::ticket_of_pair(conn, pair).await? {
        Some(id) => load(conn, id).await,
        None => Ok(None),
    }
}

/// Pairs that are still in the shop, and those of closed tickets that a search finds.
pub(crate) use queries::{
    briefs_of_customers, briefs_of_number, briefs_still_here, latest_briefs, tickets_ready,
};

/// Makes the lines for lists anew that an older version of the program has written; each ticket in
/// a transaction of its own, so that nobody waits for all of them.
pub async fn renew_briefs(db: &Db) -> anyhow::Result<()> {
    let old = queries::tickets_of_old_briefs(&mut db.read().await?).await?;
    for id in old {
        let mut conn = db.write().await?;
        // Whoever writes to this ticket now waits until its lines are made, or comes first.
        queries::hold(&mut conn, id).await?;
        if let Some(ticket) = load(&mut conn, id).await? {
            queries::save_briefs(&mut conn, &ticket).await?;
            conn.commit().await?;
        }
    }
    Ok(())
}

/// Opens a ticket in the transaction that the caller commits: the next claim number, and the
/// events that `events` makes for it.
pub(crate) async fn open(
    app: &App,
    conn: &mut Conn,
    (id, customer): (TicketId, CustomerId),
    (actor, now): (Actor, Moment),
    events: impl FnOnce(TicketNumber) -> Result<Vec<Event>, AppError>,
) -> Result<Ticket, AppError> {
    let number = queries::last_number(conn)
        .await?
        .map_or(TicketNumber::FIRST, TicketNumber::next);
    queries::add_ticket(conn, (id, customer), number, now).await?;
    let events = events(number)?;
    append(app, conn, (id, 0, Digest::ZERO), (actor, now), &events).await
}

/// Changes a ticket by what `decide` makes of it; no events means that nothing is to change.
///
/// Gives the ticket as it stands afterwards, or the reason for which `decide` refused.
pub(crate) async fn change<E>(
    app: &App,
    id: TicketId,
    actor: Actor,
    decide: impl Fn(&Ticket, Moment) -> Result<Vec<Event>, E>,
) -> Result<Result<Ticket, E>, AppError> {
    for _ in 0..ROUNDS {
        let now = app.now();
        let ticket = load(&mut app.db.read().await?, id).await?;
        let ticket = ticket.ok_or(AppError::NotFound)?;
        let events = match decide(&ticket, now) {
            Ok(events) if events.is_empty() => return Ok(Ok(ticket)),
            Ok(events) => events,
            Err(refused) => return Ok(Err(refused)),
        };
        let mut conn = app.db.write().await?;
        let place = (id, ticket.length, ticket.head);
        match append(app, &mut conn, place, (actor, now), &events).await {
            Ok(changed) => {
                conn.commit().await?;
                app.outbox.notify_one();
                return Ok(Ok(changed));
            }
            Err(AppError::Stale) => {}
            Err(error) => return Err(error),
        }
    }
    Err(AppError::Stale)
}

async fn append(
    app: &App,
    conn: &mut Conn,
    (id, first, head): (TicketId, u32, Digest),
    (actor, now): (Actor, Moment),
    events: &[Event],
) -> Result<Ticket, AppError> {
    let mut before = head;
    for (seq, event) in (first..).zip(events) {
        let entry = chain::link(id, (seq, before), now, actor, event)?;
        match queries::add_entry(conn, id, &entry).await {
            Err(DbError::Taken) => return Err(AppError::Stale),
            done => done?,
        }
        before = entry.link;
        if let Event::LinkIssued { digest, .. } = event {
            queries::add_link(conn, *digest, id).await?;
        } else if let Event::LinkRevoked { .. } = event {
            queries::revoke_links(conn, id, now).await?;
        }
    }
    let ticket = load(conn, id).await?.ok_or(AppError::NotFound)?;
    queries::save_briefs(conn, &ticket).await?;
    queries::save_end(conn, &ticket, now).await?;
    let shop = shop::current(conn).await?;
    for event in events {
        notices::enqueue(app, conn, &shop, &ticket, event).await?;
    }
    Ok(ticket)
}

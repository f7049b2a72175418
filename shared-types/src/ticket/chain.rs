//! The chain: each entry's link is a digest over the entry and the link before it.
//!
//! What it shows: an entry that was changed, removed, inserted or moved. What it can't show by
//! itself: a tail that was cut off (the ticket's row says where the record ends), or a whole chain
//! that was built anew by someone who may write the database (letters to customers carry heads).

use serde::{Deserialize, Serialize};

use crate::digest::{Digest, canonical_json};
use crate::id::TicketId;
use crate::moment::Moment;
use crate::ticket::event::{Actor, Event};

/// One entry of a ticket's record as it is stored.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StoredEntry {
    /// Counts from 0.
    pub seq: u32,
    /// When.
    pub at: Moment,
    /// Who.
    pub actor: Actor,
    /// The event's canonical JSON.
    pub body: String,
    /// The link of the entry before it; [`Digest::ZERO`] for the first.
    pub before: Digest,
    /// This entry's own link.
    pub link: Digest,
}

/// What a link is taken over, as canonical JSON (RFC 8785).
#[derive(Serialize, Deserialize)]
struct Linked {
    ticket: TicketId,
    seq: u32,
    at: Moment,
    actor: Actor,
    body: Digest,
    before: Digest,
}

/// Where a chain is broken, and how.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum BrokenChain {
    /// An entry is missing, doubled or out of place.
    #[error("entry {seq} is not where it should be: one is missing, doubled or moved")]
    OutOfPlace {
        /// The place at which the walk stopped.
        seq: u32,
    },
    /// An entry does not follow from the one before.
    #[error("entry {seq} does not follow from the entry before it")]
    NotLinked {
        /// Which entry.
        seq: u32,
    },
    /// An entry is not what was written.
    #[error("entry {seq} was changed after it was written")]
    Changed {
        /// Which entry.
        seq: u32,
    },
}

/// Makes the entry that follows `before`.
pub fn link(
    ticket: TicketId,
    (seq, before): (u32, Digest),
    at: Moment,
    actor: Actor,
    event: &Event,
) -> Result<StoredEntry, serde_json::Error> {
    let body = canonical_json(event)?;
    let mut entry = StoredEntry {
        seq,
        at,
        actor,
        body,
        before,
        link: Digest::ZERO,
    };
    entry.link = link_of(ticket, &entry)?;
    Ok(entry)
}

fn link_of(ticket: TicketId, entry: &StoredEntry) -> Result<Digest, serde_json::Error> {
    let linked = canonical_json(&Linked {
        ticket,
        seq: entry.seq,
        at: entry.at,
        actor: entry.actor,
        body: Digest::of(entry.body.as_bytes()),
        before: entry.before,
    })?;
    Ok(Digest::of(linked.as_bytes()))
}

/// Walks a ticket's chain and gives the link of its last entry.
pub fn verify(ticket: TicketId, entries: &[StoredEntry]) -> Result<Digest, BrokenChain> {
    let mut before = Digest::ZERO;
    for (seq, entry) in (0_u32..).zip(entries) {
        if entry.seq != seq {
            return Err(BrokenChain::OutOfPlace { seq });
        }
        if entry.before != before {
            return Err(BrokenChain::NotLinked { seq });
        }
        if link_of(ticket, entry).ok() != Some(entry.link) {
            return Err(BrokenChain::Changed { seq });
        }
        before = entry.link;
    }
    Ok(before)
}

//! A ticket from its record: each event changes one thing.

use crate::digest::Digest;
use crate::id::{PairId, TicketId};
use crate::moment::Moment;
use crate::money::Currency;
use crate::scope::offer::{Answer, Revision};
use crate::stage::{Hold, Stage};
use crate::ticket::chain::StoredEntry;
use crate::ticket::event::{Actor, Event, PairTakenIn};
use crate::ticket::{Link, Note, Pair, PairMeasured, Payment, Ticket};

/// The record does not add up to a ticket.
#[derive(Debug, thiserror::Error)]
pub enum BrokenRecord {
    /// An entry's text is not one of our events.
    #[error("entry {seq} can't be read: {source}")]
    Unreadable {
        /// Which entry.
        seq: u32,
        /// What the reader said.
        source: serde_json::Error,
    },
    /// The record does not begin with pairs that were taken in and their first scope.
    #[error("the record does not begin with a pair that was taken in and its agreed scope")]
    NoBeginning,
    /// An entry speaks of something that is not on this ticket.
    #[error("entry {seq} speaks of a pair or an offer that is not on this ticket")]
    Stray {
        /// Which entry.
        seq: u32,
    },
}

impl Ticket {
    /// Adds up a whole record, oldest entry first.
    pub fn replay(id: TicketId, entries: &[StoredEntry]) -> Result<Self, BrokenRecord> {
        let mut ticket = Self::empty(id);
        for entry in entries {
            let event: Event =
                serde_json::from_str(&entry.body).map_err(|source| BrokenRecord::Unreadable {
                    seq: entry.seq,
                    source,
                })?;
            ticket
                .apply(entry.at, entry.actor, event)
                .ok_or(BrokenRecord::Stray { seq: entry.seq })?;
            ticket.head = entry.link;
        }
        let begun =
            !ticket.pairs.is_empty() && ticket.pairs.iter().all(|pair| !pair.revisions.is_empty());
        begun.then_some(ticket).ok_or(BrokenRecord::NoBeginning)
    }

    fn empty(id: TicketId) -> Self {
        Self {
            id,
            number: super::TicketNumber::new(0),
            customer: crate::id::CustomerId::from_bytes([0; 16]),
            currency: Currency::USD,
            taken_in_at: Moment::from_micros(0),
            pairs: Vec::new(),
            payments: Vec::new(),
            links: Vec::new(),
            reminders: Vec::new(),
            length: 0,
            head: Digest::ZERO,
        }
    }

    /// Applies one event; nothing if it speaks of something that is not here.
    fn apply(&mut self, at: Moment, actor: Actor, event: Event) -> Option<()> {
        self.length += 1;
        match event {
            Event::TakenIn {
                number,
                customer,
                pairs,
            } => {
                self.number = number;
                self.customer = customer;
                self.taken_in_at = at;
                self.pairs = pairs
                    .into_iter()
                    .map(|taken| Pair::taken_in(taken, at))
                    .collect();
            }
            Event::LinkIssued { generation, digest } => self.links.push(Link {
                generation,
                digest,
                issued_at: at,
                revoked_at: None,
            }),
            Event::LinkRevoked { generation } => {
                let mut links = self.links.iter_mut();
                links.find(|link| link.generation == generation)?.revoked_at = Some(at);
            }
            Event::Paid {
                amount,
                taken,
                method,
            } => self.payments.push(Payment {
                at,
                actor,
                amount,
                taken,
                method,
            }),
            Event::HandedOver { pairs, to } => {
                for id in pairs {
                    let pair = self.pair_mut(id)?;
                    pair.stage = Stage::Collected;
                    pair.stage_since = at;
                    pair.hold = None;
                    pair.handed_over = Some((at, to.clone()));
                }
            }
            Event::Reminded { .. } => self.reminders.push(at),
            Event::SheetMade { pair, .. }
            | Event::OfferWithdrawn { pair, .. }
            | Event::WordGiven { pair, .. }
            | Event::WordTakenBack { pair, .. }
            | Event::WorkStarted { pair }
            | Event::StageMoved { pair, .. }
            | Event::HoldPlaced { pair, .. }
            | Event::HoldLifted { pair }
            | Event::Measured { pair, .. }
            | Event::Noted { pair, .. } => self.pair_mut(pair)?.apply(at, actor, event)?,
        }
        Some(())
    }

    fn pair_mut(&mut self, id: PairId) -> Option<&mut Pair> {
        self.pairs.iter_mut().find(|pair| pair.id == id)
    }
}

impl Pair {
    fn taken_in(taken: PairTakenIn, at: Moment) -> Self {
        Self {
            id: taken.id,
            tag: taken.tag,
            about: taken.about,
            stage: Stage::TakenIn,
            stage_since: at,
            hold: None,
            rests: Vec::new(),
            revisions: Vec::new(),
            notes: Vec::new(),
            measured: None,
            worked_at: None,
            ready_at: None,
            handed_over: None,
        }
    }

    /// Applies one event of this pair's; nothing if it speaks of a revision that is not here.
    fn apply(&mut self, at: Moment, actor: Actor, event: Event) -> Option<()> {
        match event {
            Event::SheetMade { sheet, digest, .. } => self.revisions.push(Revision {
                sheet: *sheet,
                digest,
                made_by: actor,
                answers: Vec::new(),
                withdrawn: None,
            }),
            Event::OfferWithdrawn { sheet, reason, .. } => {
                self.revision_mut(sheet)?.withdrawn = Some((at, reason));
            }
            Event::WordGiven {
                sheet,
                turn,
                word,
                via,
                acknowledged,
                ..
            } => self.revision_mut(sheet)?.answers.push(Answer {
                turn,
                word,
                via,
                actor,
                at,
                acknowledged,
                taken_back_at: None,
            }),
            Event::WordTakenBack { sheet, .. } => {
                let answer = self.revision_mut(sheet)?.answers.last_mut()?;
                answer.taken_back_at = Some(at);
            }
            Event::WorkStarted { .. } => self.worked_at = Some(at),
            Event::StageMoved { to, .. } => {
                self.stage = to;
                self.stage_since = at;
                self.worked_at = Some(at);
                self.hold = None;
                self.rests.clear();
                self.ready_at = (to == Stage::Ready).then_some(at);
            }
            Event::HoldPlaced { hold, .. } => {
                self.hold = Some(hold);
                if hold == Hold::Drying {
                    self.rests.push(at);
                }
            }
            Event::HoldLifted { .. } => self.hold = None,
            Event::Measured { measurements, .. } => {
                self.measured = Some(PairMeasured {
                    measurements: *measurements,
                    actor,
                    at,
                });
            }
            Event::Noted {
                note,
                audience,
                words,
                pictures,
                ..
            } => self.notes.push(Note {
                id: note,
                actor,
                at,
                words,
                pictures,
                audience,
            }),
            Event::TakenIn { .. }
            | Event::LinkIssued { .. }
            | Event::LinkRevoked { .. }
            | Event::Paid { .. }
            | Event::HandedOver { .. }
            | Event::Reminded { .. } => return None,
        }
        Some(())
    }

    fn revision_mut(&mut self, sheet: Digest) -> Option<&mut Revision> {
        self.revisions
            .iter_mut()
            .find(|revision| revision.digest == sheet)
    }
}

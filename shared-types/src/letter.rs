//! A letter in the outbox, as staff see it.

use crate::contact::Email;
use crate::id::{LetterId, TicketId};
use crate::moment::Moment;
use crate::ticket::TicketNumber;

/// Where a letter is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum LetterState {
    /// It waits to be sent.
    Waiting {
        /// When it is tried next.
        next_at: Moment,
        /// How often it was tried.
        tries: u32,
        /// What the mail server said last.
        trouble: Option<String>,
    },
    /// The mail server took it.
    Sent {
        /// When.
        at: Moment,
    },
    /// No mail server is set up, so it is kept here to read.
    Kept {
        /// Since when.
        at: Moment,
    },
    /// It was given up; someone should ring.
    GivenUp {
        /// When.
        at: Moment,
        /// What the mail server said.
        trouble: String,
    },
}

/// A letter in one line.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LetterBrief {
    /// Which letter.
    pub id: LetterId,
    /// On which ticket.
    pub ticket: TicketId,
    /// Its claim number.
    pub number: TicketNumber,
    /// To whom.
    pub to: Email,
    /// Its subject.
    pub subject: String,
    /// When it was written.
    pub written_at: Moment,
    /// Where it is.
    pub state: LetterState,
}

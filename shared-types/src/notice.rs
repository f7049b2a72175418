//! Which letters exist, and which event causes which. A new letter is one variant here and its
//! words in the server's `notices` slice.

use crate::digest::Digest;
use crate::id::{NoteId, PairId};
use crate::stage::Stage;
use crate::ticket::event::{Audience, Event};

/// A letter to the customer.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Notice {
    /// The pairs were taken in; here is your link.
    TakenIn,
    /// The link was renewed; here is the new one.
    LinkRenewed,
    /// Something was found; please give your word.
    OfferMade {
        /// Which pair.
        pair: PairId,
        /// The offer.
        sheet: Digest,
    },
    /// The offer no longer stands.
    OfferWithdrawn {
        /// Which pair.
        pair: PairId,
    },
    /// Your word, as recorded.
    WordRecorded {
        /// Which pair.
        pair: PairId,
        /// The offer.
        sheet: Digest,
    },
    /// Your word was taken back.
    WordTakenBack {
        /// Which pair.
        pair: PairId,
        /// The offer.
        sheet: Digest,
    },
    /// The scope was changed as agreed at the counter or by telephone.
    ScopeChanged {
        /// Which pair.
        pair: PairId,
        /// The sheet.
        sheet: Digest,
    },
    /// The shop replied to a question.
    Replied {
        /// Which pair.
        pair: PairId,
        /// The reply.
        note: NoteId,
    },
    /// The pair is ready, with what is due, hours and a calendar entry.
    Ready {
        /// Which pair.
        pair: PairId,
    },
    /// It still waits.
    Reminder {
        /// Counts from 1.
        ordinal: u32,
    },
    /// Handed over: the receipt.
    HandedOver,
}

impl Notice {
    /// The letter's name, as staff see it in the list of letters and as it is stored.
    pub const fn code(&self) -> &'static str {
        match self {
            Self::TakenIn => "taken-in",
            Self::LinkRenewed => "link-renewed",
            Self::OfferMade { .. } => "offer-made",
            Self::OfferWithdrawn { .. } => "offer-withdrawn",
            Self::WordRecorded { .. } => "word-recorded",
            Self::WordTakenBack { .. } => "word-taken-back",
            Self::ScopeChanged { .. } => "scope-changed",
            Self::Replied { .. } => "replied",
            Self::Ready { .. } => "ready",
            Self::Reminder { .. } => "reminder",
            Self::HandedOver => "handed-over",
        }
    }

    /// The letter that an event causes. The first sheet of a pair is part of taking it in.
    pub fn caused_by(event: &Event) -> Option<Self> {
        match event {
            Event::TakenIn { .. } => Some(Self::TakenIn),
            Event::LinkIssued { generation, .. } => (*generation > 1).then_some(Self::LinkRenewed),
            Event::SheetMade {
                pair,
                sheet,
                digest,
            } => {
                let (pair, digest) = (*pair, *digest);
                if sheet.offer().is_some() {
                    Some(Self::OfferMade {
                        pair,
                        sheet: digest,
                    })
                } else {
                    (sheet.revision > 1).then_some(Self::ScopeChanged {
                        pair,
                        sheet: digest,
                    })
                }
            }
            Event::OfferWithdrawn { pair, .. } => Some(Self::OfferWithdrawn { pair: *pair }),
            Event::WordGiven { pair, sheet, .. } => Some(Self::WordRecorded {
                pair: *pair,
                sheet: *sheet,
            }),
            Event::WordTakenBack { pair, sheet, .. } => Some(Self::WordTakenBack {
                pair: *pair,
                sheet: *sheet,
            }),
            Event::StageMoved { pair, to, .. } => {
                (*to == Stage::Ready).then_some(Self::Ready { pair: *pair })
            }
            Event::Noted {
                pair,
                note,
                audience,
                ..
            } => (*audience == Audience::Reply).then_some(Self::Replied {
                pair: *pair,
                note: *note,
            }),
            Event::HandedOver { .. } => Some(Self::HandedOver),
            Event::Reminded { ordinal } => Some(Self::Reminder { ordinal: *ordinal }),
            Event::LinkRevoked { .. }
            | Event::WorkStarted { .. }
            | Event::HoldPlaced { .. }
            | Event::HoldLifted { .. }
            | Event::Measured { .. }
            | Event::Paid { .. } => None,
        }
    }
}

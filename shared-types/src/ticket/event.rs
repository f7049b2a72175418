//! What can happen to a ticket. Each event is one entry of its record, never changed afterwards.
//!
//! Names and addresses are not in here: a customer can be forgotten without breaking the chain.

use serde::{Deserialize, Serialize};

use crate::bench::measurements::Measurements;
use crate::digest::Digest;
use crate::id::{CustomerId, NoteId, PairId, StaffId};
use crate::money::Money;
use crate::scope::offer::{Via, Word};
use crate::scope::sheet::{Picture, Sheet};
use crate::stage::{Hold, Stage};
use crate::text::{Line, Words};
use crate::ticket::{PairAbout, Tag, TicketNumber};

/// Who made something happen.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", tag = "who", content = "id")]
pub enum Actor {
    /// The customer, by a link or in person.
    Customer,
    /// Someone of the shop.
    Staff(StaffId),
    /// The program itself, as with a reminder that fell due.
    Program,
}

/// What a journal entry is and who may read it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Audience {
    /// For the shop only.
    Shop,
    /// For the customer to read on their page.
    Customer,
    /// The shop's reply to a question; it is mailed as well.
    Reply,
    /// The customer's question.
    Question,
}

impl Audience {
    /// Whether the customer's page shows it.
    pub const fn is_for_customer(self) -> bool {
        !matches!(self, Self::Shop)
    }
}

/// How money changed hands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum PaymentMethod {
    /// Coins and notes.
    Cash,
    /// A card at the counter.
    Card,
    /// By bank transfer or otherwise.
    Other,
}

impl PaymentMethod {
    /// All methods.
    pub const ALL: [Self; 3] = [Self::Card, Self::Cash, Self::Other];

    /// Its stored code.
    pub const fn code(self) -> &'static str {
        match self {
            Self::Cash => "cash",
            Self::Card => "card",
            Self::Other => "other",
        }
    }

    /// Finds a method by its code.
    pub fn from_code(code: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|method| method.code() == code)
    }

    /// Its name for people.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Cash => "Cash",
            Self::Card => "Card",
            Self::Other => "Other",
        }
    }
}

/// A pair as it was taken in.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct PairTakenIn {
    /// Which pair.
    pub id: PairId,
    /// Its tag.
    pub tag: Tag,
    /// What it is.
    pub about: PairAbout,
}

/// Something that happened to a ticket.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", tag = "event")]
pub enum Event {
    /// The pairs were taken in; always the first entry. The first sheet of each pair follows it.
    TakenIn {
        /// The claim number.
        number: TicketNumber,
        /// Whose pairs.
        customer: CustomerId,
        /// The pairs.
        pairs: Vec<PairTakenIn>,
    },
    /// A link was given to the customer.
    LinkIssued {
        /// Counts from 1.
        generation: u32,
        /// SHA-256 of its key.
        digest: Digest,
    },
    /// The link stopped opening anything.
    LinkRevoked {
        /// Which.
        generation: u32,
    },
    /// A revision of a pair's scope was made: an agreement, or an offer that was sent.
    SheetMade {
        /// Which pair.
        pair: PairId,
        /// The sheet.
        sheet: Box<Sheet>,
        /// SHA-256 over its canonical JSON.
        digest: Digest,
    },
    /// The shop withdrew an offer.
    OfferWithdrawn {
        /// Which pair.
        pair: PairId,
        /// The offer's digest.
        sheet: Digest,
        /// Why.
        reason: Option<Words>,
    },
    /// The customer's word on an offer: the decision.
    WordGiven {
        /// Which pair.
        pair: PairId,
        /// The digest of what was shown.
        sheet: Digest,
        /// Counts the words on this offer from 0.
        turn: u32,
        /// The word.
        word: Word,
        /// How it came.
        via: Via,
        /// Whether the sheet's cautions were acknowledged.
        acknowledged: bool,
    },
    /// The word was taken back; the offer is open again.
    WordTakenBack {
        /// Which pair.
        pair: PairId,
        /// The digest of what was shown.
        sheet: Digest,
        /// The turn of the word that is taken back.
        turn: u32,
        /// How it came.
        via: Via,
    },
    /// The bench started on what is agreed.
    WorkStarted {
        /// Which pair.
        pair: PairId,
    },
    /// A pair moved to another stage.
    StageMoved {
        /// Which pair.
        pair: PairId,
        /// From.
        from: Stage,
        /// To.
        to: Stage,
    },
    /// Something holds a pair.
    HoldPlaced {
        /// Which pair.
        pair: PairId,
        /// What.
        hold: Hold,
    },
    /// Nothing holds the pair any more.
    HoldLifted {
        /// Which pair.
        pair: PairId,
    },
    /// A journal entry: a progress note, a question or a reply.
    Noted {
        /// Which pair.
        pair: PairId,
        /// Which note.
        note: NoteId,
        /// Who may read it.
        audience: Audience,
        /// The words.
        words: Option<Words>,
        /// Pictures.
        pictures: Vec<Picture>,
    },
    /// The bench measured a pair; the latest measurements count.
    Measured {
        /// Which pair.
        pair: PairId,
        /// All that is measured or chosen now.
        measurements: Box<Measurements>,
    },
    /// Money was taken, or given back where the amounts are negative.
    Paid {
        /// What it counts towards the price.
        amount: Money,
        /// What changed hands, after cash rounding.
        taken: Money,
        /// How.
        method: PaymentMethod,
    },
    /// Pairs were handed over.
    HandedOver {
        /// Which pairs.
        pairs: Vec<PairId>,
        /// Who collected them.
        to: Line,
    },
    /// A pickup reminder fell due.
    Reminded {
        /// Counts from 1.
        ordinal: u32,
    },
}

//! A ticket: what one customer left at one time, and everything that happened to it.
//!
//! The record of a ticket is a chain of [`event`]s. [`Ticket`] is what they add up to
//! ([`replay`]), [`commands`] decide which events may come next, and [`chain`] links them by
//! digest so that a later change to any of them is found. What the bench sheet needs of a pair is
//! put together in `at_the_bench`.

mod at_the_bench;
pub mod chain;
pub mod commands;
pub mod deposit;
pub mod event;
pub mod progress;
pub mod replay;
#[cfg(test)]
pub(crate) mod tests;

use std::collections::BTreeSet;
use std::fmt;

use serde::{Deserialize, Serialize};
use time::Date;

use crate::bench::measurements::Measurements;
use crate::digest::Digest;
use crate::id::{CustomerId, NoteId, PairId, TicketId};
use crate::moment::Moment;
use crate::money::{Currency, Money, MoneyProblem};
use crate::scope::Scope;
use crate::scope::discovery::Discovery;
use crate::scope::offer::{Answer, OfferState, Revision};
use crate::scope::sheet::{Matter, Picture};
use crate::size::ShoeSize;
use crate::stage::{Hold, Stage};
use crate::text::{Line, Words};
use event::{Actor, Audience, PaymentMethod};

pub use at_the_bench::{Assumption, AtTheBench, at_the_counter};

/// The claim number on the paper ticket.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(transparent)]
pub struct TicketNumber(u32);

impl TicketNumber {
    /// The first number of a new shop.
    pub const FIRST: Self = Self(1001);

    /// Wraps a number.
    pub const fn new(number: u32) -> Self {
        Self(number)
    }

    /// The number.
    pub const fn get(self) -> u32 {
        self.0
    }

    /// The next one.
    #[must_use]
    pub const fn next(self) -> Self {
        Self(self.0.saturating_add(1))
    }
}

impl fmt::Display for TicketNumber {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.0)
    }
}

/// The letter on a pair's tag: A for the first pair of a ticket.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(try_from = "char", into = "char")]
pub struct Tag(char);

impl Tag {
    /// The most pairs on one ticket.
    pub const MOST: usize = 12;

    /// The tag of the pair at this place, counted from 0; nothing beyond [`Tag::MOST`].
    pub fn at(place: usize) -> Option<Self> {
        let letter = u8::try_from(place).ok().filter(|_| place < Self::MOST)?;
        Some(Self(char::from(b'A' + letter)))
    }
}

impl fmt::Display for Tag {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.0)
    }
}

impl From<Tag> for char {
    fn from(tag: Tag) -> Self {
        tag.0
    }
}

/// The letter is not one of a tag.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error("a tag is a letter from A")]
pub struct NotATag;

impl TryFrom<char> for Tag {
    type Error = NotATag;

    fn try_from(letter: char) -> Result<Self, NotATag> {
        ('A'..='L')
            .contains(&letter)
            .then_some(Self(letter))
            .ok_or(NotATag)
    }
}

/// How a pair is built.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Construction {
    /// Welt from heel breast to heel breast.
    Welt270,
    /// Welt all the way round.
    Welt360,
    /// Welted by hand to a carved rib.
    HandWelted,
    /// Sole sewn through the insole.
    BlakeStitched,
    /// Upper turned out and sewn to the sole.
    StitchDown,
    /// Sole held by cement alone.
    Cemented,
    /// Sole moulded on as one unit.
    Moulded,
    /// To be seen at teardown.
    Unknown,
}

impl Construction {
    /// All constructions, in the order in which a form lists them.
    pub const ALL: [Self; 8] = [
        Self::Welt270,
        Self::Welt360,
        Self::HandWelted,
        Self::BlakeStitched,
        Self::StitchDown,
        Self::Cemented,
        Self::Moulded,
        Self::Unknown,
    ];

    /// Its stored code.
    pub const fn code(self) -> &'static str {
        match self {
            Self::Welt270 => "welt-270",
            Self::Welt360 => "welt-360",
            Self::HandWelted => "hand-welted",
            Self::BlakeStitched => "blake-stitched",
            Self::StitchDown => "stitch-down",
            Self::Cemented => "cemented",
            Self::Moulded => "moulded",
            Self::Unknown => "unknown",
        }
    }

    /// Finds a construction by its code.
    pub fn from_code(code: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|one| one.code() == code)
    }

    /// Its name for people.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Welt270 => "Welted, heel to heel (270)",
            Self::Welt360 => "Welted, all round (360)",
            Self::HandWelted => "Welted by hand",
            Self::BlakeStitched => "Sewn through the insole (Blake)",
            Self::StitchDown => "Stitch-down",
            Self::Cemented => "Cemented",
            Self::Moulded => "Moulded unit sole",
            Self::Unknown => "Not known yet",
        }
    }

    /// Whether the welt is drawn all the way round.
    pub const fn is_all_round(self) -> bool {
        matches!(self, Self::Welt360 | Self::StitchDown)
    }
}

/// Whether a pair carries a mark of protection that repair can end.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Rating {
    /// Everyday footwear.
    Ordinary,
    /// Safety-rated, electrical-hazard or antistatic footwear.
    Protective,
}

impl Rating {
    /// What a customer is told before agreeing to work on a pair with this rating.
    ///
    /// The wording is ours; the reason is in 29 CFR 1910.136 with ASTM F2413, and in Article 12
    /// of Regulation (EU) 2016/425, both cited from memory.
    pub fn cautions(self) -> Vec<Words> {
        let text = "This pair carries a safety mark. Replacing soles, heels, insoles or stitching \
                    can change the protection that it was tested for, and we can't certify it \
                    again. After our work please treat the mark as no longer valid unless the \
                    maker confirms it in writing. If your work requires rated footwear, ask your \
                    employer before you agree.";
        match self {
            Self::Ordinary => Vec::new(),
            Self::Protective => Words::parse(text).into_iter().collect(),
        }
    }
}

/// What a pair is, as it was taken in.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct PairAbout {
    /// What kind: `lace-up work boots`.
    pub kind: Line,
    /// Its colour.
    pub colour: Line,
    /// The size stamped in it, if it can be read.
    pub size: Option<ShoeSize>,
    /// How it is built.
    pub construction: Construction,
    /// Whether it carries a mark of protection.
    pub rating: Rating,
    /// What is wrong, in the customer's words.
    pub wrong: Words,
}

impl PairAbout {
    /// The pair in words: `dark green lace-up work boots, EU 44`.
    pub fn title(&self) -> String {
        match self.size {
            Some(size) => format!("{} {}, {size}", self.colour, self.kind),
            None => format!("{} {}", self.colour, self.kind),
        }
    }
}

/// A ticket as its record adds up.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Ticket {
    /// Which ticket.
    pub id: TicketId,
    /// Its claim number.
    pub number: TicketNumber,
    /// Whose it is.
    pub customer: CustomerId,
    /// The currency of its first agreed scope.
    pub currency: Currency,
    /// When the pairs were taken in.
    pub taken_in_at: Moment,
    /// The pairs, by tag.
    pub pairs: Vec<Pair>,
    /// Money taken and given back.
    pub payments: Vec<Payment>,
    /// The customer's links, oldest first; at most the last is alive.
    pub links: Vec<Link>,
    /// When reminders went out.
    pub reminders: Vec<Moment>,
    /// How many entries the record has.
    pub length: u32,
    /// The digest of the last entry.
    pub head: Digest,
}

/// A pair as its record adds up.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Pair {
    /// Which pair.
    pub id: PairId,
    /// Its tag.
    pub tag: Tag,
    /// What it is.
    pub about: PairAbout,
    /// Where it is.
    pub stage: Stage,
    /// Since when.
    pub stage_since: Moment,
    /// Why nobody works on it.
    pub hold: Option<Hold>,
    /// When the bench let it rest in its stage, oldest first.
    pub rests: Vec<Moment>,
    /// Revisions of its scope, oldest first; never empty.
    pub revisions: Vec<Revision>,
    /// The journal, oldest first.
    pub notes: Vec<Note>,
    /// What the bench measured last; without it a pair has only its size and how it is built.
    pub measured: Option<PairMeasured>,
    /// When the bench last started on agreed work or moved the pair.
    pub worked_at: Option<Moment>,
    /// When the pair last became ready.
    pub ready_at: Option<Moment>,
    /// When it was handed over, and to whom.
    pub handed_over: Option<(Moment, Line)>,
}

/// What was measured on a pair.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PairMeasured {
    /// The measurements.
    pub measurements: Measurements,
    /// Who measured.
    pub actor: Actor,
    /// When.
    pub at: Moment,
}

/// One entry of a pair's journal.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Note {
    /// Which note.
    pub id: NoteId,
    /// Who wrote it.
    pub actor: Actor,
    /// When.
    pub at: Moment,
    /// The words, if any.
    pub words: Option<Words>,
    /// Pictures.
    pub pictures: Vec<Picture>,
    /// What it is and who may read it.
    pub audience: Audience,
}

/// Money taken, or given back where it is negative.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Payment {
    /// When.
    pub at: Moment,
    /// Who took it.
    pub actor: Actor,
    /// What it counts towards the price.
    pub amount: Money,
    /// What changed hands, after cash rounding.
    pub taken: Money,
    /// How.
    pub method: PaymentMethod,
}

/// A link that was given to the customer.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Link {
    /// Counts a ticket's links from 1; the key is derived from it.
    pub generation: u32,
    /// SHA-256 of its key.
    pub digest: Digest,
    /// When it was given.
    pub issued_at: Moment,
    /// When it stopped opening anything.
    pub revoked_at: Option<Moment>,
}

impl Ticket {
    /// The pair with this id.
    pub fn pair(&self, id: PairId) -> Option<&Pair> {
        self.pairs.iter().find(|pair| pair.id == id)
    }

    /// The pair whose record has a sheet with this digest, and that revision.
    pub fn revision(&self, digest: Digest) -> Option<(&Pair, &Revision)> {
        self.pairs.iter().find_map(|pair| {
            let revision = pair.revisions.iter().find(|one| one.digest == digest)?;
            Some((pair, revision))
        })
    }

    /// The link that is alive.
    pub fn link(&self) -> Option<&Link> {
        self.links.last().filter(|link| link.revoked_at.is_none())
    }

    /// What all pairs cost as agreed.
    pub fn total(&self) -> Result<Money, MoneyProblem> {
        self.cost_of(|_| true)
    }

    /// What some of the pairs cost as agreed.
    pub(crate) fn cost_of(&self, which: impl Fn(&Pair) -> bool) -> Result<Money, MoneyProblem> {
        let pairs = self.pairs.iter().filter(|pair| which(pair));
        Money::sum(pairs.map(|pair| pair.agreed().total()), self.currency)
    }

    /// What was paid so far, less what was given back.
    pub fn paid(&self) -> Result<Money, MoneyProblem> {
        let amounts = self.payments.iter().map(|payment| payment.amount);
        Money::sum(amounts, self.currency)
    }

    /// What is still due; negative where more was paid than is agreed now.
    pub fn due(&self) -> Result<Money, MoneyProblem> {
        self.total()?.minus(self.paid()?)
    }

    /// What is due to collect the pairs that are ready while others are still worked on; nothing
    /// where that is the whole ticket, or no pair is ready.
    pub fn due_for_ready(&self) -> Result<Option<Money>, MoneyProblem> {
        let some = self.ready_pairs().next().is_some();
        let all = self.pairs.iter().all(|pair| pair.stage >= Stage::Ready);
        if !some || all {
            return Ok(None);
        }
        let due = self.cost_of(|pair| pair.stage >= Stage::Ready)?;
        let due = due.minus(self.paid()?)?;
        Ok(Some(if due.is_positive() {
            due
        } else {
            Money::zero(self.currency)
        }))
    }

    /// The ticket without what is for the shop only.
    #[must_use]
    pub fn for_customer(mut self) -> Self {
        for pair in &mut self.pairs {
            pair.notes.retain(|note| note.audience.is_for_customer());
            pair.measured = None;
        }
        self
    }

    /// Whether every pair is with its owner again.
    pub fn is_closed(&self) -> bool {
        self.pairs.iter().all(|pair| pair.handed_over.is_some())
    }

    /// Whether all of these pairs, and at least one, have been handed over.
    pub fn has_handed_over(&self, pairs: &[PairId]) -> bool {
        let gone = |id: &PairId| {
            let pair = self.pair(*id);
            pair.is_some_and(|pair| pair.handed_over.is_some())
        };
        !pairs.is_empty() && pairs.iter().all(gone)
    }

    /// Pairs that wait on the pickup shelf.
    pub fn ready_pairs(&self) -> impl Iterator<Item = &Pair> {
        self.pairs.iter().filter(|pair| pair.stage == Stage::Ready)
    }
}

impl Pair {
    /// The scope that stands agreed: that of the last agreement or accepted choice.
    pub fn agreed(&self) -> &Scope {
        let mut revisions = self.revisions.iter().rev();
        revisions
            .find_map(|revision| match &revision.sheet.matter {
                Matter::Agreement(_) => Some(&revision.sheet.agreed),
                Matter::Offer(_) => revision.accepted().map(|choice| &choice.scope),
            })
            .unwrap_or(&self.revisions[0].sheet.agreed)
    }

    /// What the teardown showed, as the last offer said it.
    pub fn discoveries(&self) -> BTreeSet<Discovery> {
        let mut revisions = self.revisions.iter().rev();
        let last = revisions.find_map(|revision| revision.sheet.offer());
        last.map_or_else(BTreeSet::new, |offer| offer.discoveries.clone())
    }

    /// Where the offer of this revision stands; nothing if it is not an offer.
    pub fn offer_state(&self, revision: &Revision, now: Moment) -> Option<OfferState> {
        let offer = revision.sheet.offer()?;
        let is_last = self
            .revisions
            .last()
            .is_some_and(|last| last.digest == revision.digest);
        if let Some(answer) = revision.standing() {
            let until = answer
                .at
                .plus(time::Duration::minutes(i64::from(offer.take_back.get())));
            let started = self.worked_at.is_some_and(|at| at >= answer.at);
            let open = is_last && !started && now < until && revision.withdrawn.is_none();
            return Some(OfferState::Answered {
                word: answer.word,
                at: answer.at,
                take_back_until: open.then_some(until),
            });
        }
        Some(if revision.withdrawn.is_some() {
            OfferState::Withdrawn
        } else if !is_last {
            OfferState::Superseded
        } else if now >= offer.answer_by {
            OfferState::Lapsed {
                answer_by: offer.answer_by,
            }
        } else {
            OfferState::Open {
                answer_by: offer.answer_by,
            }
        })
    }

    /// The last revision if it is an offer, with where it stands.
    pub fn last_offer(&self, now: Moment) -> Option<(&Revision, OfferState)> {
        let revision = self.revisions.last()?;
        Some((revision, self.offer_state(revision, now)?))
    }

    /// The offer that waits for the customer's word.
    pub fn open_offer(&self, now: Moment) -> Option<&Revision> {
        match self.last_offer(now)? {
            (revision, OfferState::Open { .. }) => Some(revision),
            _ => None,
        }
    }

    /// A word that was given and that the bench has not acted on yet.
    pub fn fresh_word(&self) -> Option<(&Revision, &Answer)> {
        let revision = self.revisions.last()?;
        let answer = revision.standing()?;
        let acted = self.worked_at.is_some_and(|at| at >= answer.at);
        (!acted).then_some((revision, answer))
    }

    /// A question of the customer's that nobody has replied to.
    pub fn open_question(&self) -> Option<&Note> {
        self.notes
            .iter()
            .rev()
            .take_while(|note| note.audience != Audience::Reply)
            .find(|note| note.audience == Audience::Question)
    }

    /// The day that was promised: by the last agreement, or by the last word on an offer.
    pub fn promise(&self) -> Date {
        let mut revisions = self.revisions.iter().rev();
        revisions
            .find_map(|revision| match &revision.sheet.matter {
                Matter::Agreement(_) => Some(revision.sheet.agreed.ready_by),
                Matter::Offer(_) => {
                    let answer = revision.standing()?;
                    Some(revision.sheet.ready_after(answer.word, answer.at))
                }
            })
            .unwrap_or_else(|| self.agreed().ready_by)
    }

    /// The agreed scope with the day that was promised last: what a new offer starts from.
    pub fn standing_scope(&self) -> Scope {
        Scope {
            ready_by: self.promise(),
            ..self.agreed().clone()
        }
    }
}

//! A pair in one line, as lists of the shop show it; kept beside the record and made from it.

pub mod left;

use serde::{Deserialize, Serialize};
use time::Date;

use left::Left;

use crate::id::{PairId, TicketId};
use crate::minutes::Minutes;
use crate::moment::Moment;
use crate::scope::offer::{OfferState, Word};
use crate::stage::{Hold, Stage};
use crate::text::Line;
use crate::ticket::{Pair, Rating, Tag, Ticket, TicketNumber};

/// A pair in one line.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct PairBrief {
    /// In which form it is written: one that is older than [`PairBrief::FORM`] is made anew when the
    /// program starts.
    #[serde(default)]
    pub form: u32,
    /// Which ticket.
    pub ticket: TicketId,
    /// Which pair.
    pub pair: PairId,
    /// The claim number.
    pub number: TicketNumber,
    /// The tag.
    pub tag: Tag,
    /// What it is: `dark green lace-up work boots, EU 44`.
    pub title: String,
    /// Where it is.
    pub stage: Stage,
    /// Since when.
    pub stage_since: Moment,
    /// What holds it.
    pub hold: Option<Hold>,
    /// Whether its welt is drawn all round.
    pub all_round: bool,
    /// Whether it carries a safety mark.
    pub rating: Rating,
    /// The promised day.
    pub promise: Date,
    /// Agreed bench minutes still to do.
    pub minutes: Minutes,
    /// The same work, as the plan needs it.
    #[serde(default)]
    pub left: Left,
    /// Where the customer's word stands.
    pub word: PairWord,
    /// When the customer asked something that nobody has replied to, and what.
    pub question: Option<(Moment, String)>,
    /// When it became ready.
    pub ready_at: Option<Moment>,
    /// Reminders sent for the ticket.
    pub reminders: u32,
}

/// Where the customer's word on a pair stands.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", tag = "state")]
pub enum PairWord {
    /// Nothing is asked, or it has been acted on.
    Nothing,
    /// An offer was sent; after `answer_by` it has lapsed.
    Asked {
        /// Since when.
        sent_at: Moment,
        /// Until when.
        answer_by: Moment,
    },
    /// A word was given and the bench has not acted on it yet.
    Given {
        /// When.
        at: Moment,
        /// The title of the accepted choice; nothing if declined.
        accepted: Option<Line>,
    },
}

impl PairBrief {
    /// Counts up whenever a brief tells more of the record than before.
    pub const FORM: u32 = 2;

    /// The line of one pair.
    pub fn of(ticket: &Ticket, pair: &Pair) -> Self {
        let left = Left::of(pair);
        Self {
            form: Self::FORM,
            ticket: ticket.id,
            pair: pair.id,
            number: ticket.number,
            tag: pair.tag,
            title: pair.about.title(),
            stage: pair.stage,
            stage_since: pair.stage_since,
            hold: pair.hold,
            all_round: pair.about.construction.is_all_round(),
            rating: pair.about.rating,
            promise: pair.promise(),
            minutes: left.lines.iter().map(|line| line.minutes).sum(),
            left,
            word: word_of(pair),
            question: pair.open_question().map(|note| {
                let words = note.words.as_ref().map_or("", |words| words.as_str());
                (note.at, words.chars().take(300).collect())
            }),
            ready_at: pair.ready_at,
            reminders: u32::try_from(ticket.reminders.len()).unwrap_or(u32::MAX),
        }
    }

    /// Whether an offer waits for a word and can still be answered.
    pub fn waits_for_word(&self, now: Moment) -> bool {
        matches!(self.word, PairWord::Asked { answer_by, .. } if now < answer_by)
    }

    /// Whether an offer lapsed without a word.
    pub fn has_lapsed(&self, now: Moment) -> bool {
        matches!(self.word, PairWord::Asked { answer_by, .. } if now >= answer_by)
    }

    /// Whether somebody at the bench can work on it now.
    pub fn is_workable(&self, now: Moment) -> bool {
        self.stage.is_open() && self.hold.is_none() && !self.waits_for_word(now)
    }
}

fn word_of(pair: &Pair) -> PairWord {
    // Lapsing needs a clock; whoever shows the line has one.
    let Some((revision, state)) = pair.last_offer(Moment::from_micros(i64::MIN)) else {
        return PairWord::Nothing;
    };
    match state {
        OfferState::Open { answer_by } | OfferState::Lapsed { answer_by } => PairWord::Asked {
            sent_at: revision.sheet.made_at,
            answer_by,
        },
        OfferState::Answered { word, at, .. } if pair.fresh_word().is_some() => PairWord::Given {
            at,
            accepted: match word {
                Word::Accept(key) => revision
                    .sheet
                    .choice(key)
                    .map(|choice| choice.title.clone()),
                Word::Decline => None,
            },
        },
        OfferState::Answered { .. } | OfferState::Superseded | OfferState::Withdrawn => {
            PairWord::Nothing
        }
    }
}

/// Orders open pairs as the bench should take them: what can be worked on before what is held,
/// then by promised day, then what is further along, then by claim number.
pub fn in_order_of_work(mut pairs: Vec<PairBrief>, now: Moment) -> Vec<PairBrief> {
    pairs.retain(|pair| pair.stage.is_open());
    pairs.sort_by_key(|pair| (!pair.is_workable(now), rank(pair)));
    pairs
}

/// Orders open pairs as the plan takes them: as the bench does, with what is held in the place that
/// it has when it goes on again.
pub fn in_order_of_promise(mut pairs: Vec<&PairBrief>) -> Vec<&PairBrief> {
    pairs.retain(|pair| pair.stage.is_open());
    pairs.sort_by_key(|pair| rank(pair));
    pairs
}

fn rank(pair: &PairBrief) -> (Date, std::cmp::Reverse<Stage>, TicketNumber, Tag) {
    let furthest = std::cmp::Reverse(pair.stage);
    (pair.promise, furthest, pair.number, pair.tag)
}

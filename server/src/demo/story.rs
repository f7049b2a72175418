//! What a story of the demo is made of: a ticket in plain data, and when each thing happened.

use shared_types::moment::Moment;
use shared_types::promise::calendar::{Calendar, Shift};
use shared_types::scope::Side;
use shared_types::scope::discovery::Discovery;
use shared_types::scope::offer::Word;
use shared_types::scope::sheet::Given;
use shared_types::stage::{Hold, Stage};
use shared_types::ticket::event::{Audience, PaymentMethod};
use shared_types::ticket::{Construction, Rating};
use time::Duration;

use super::pictures::Shot;

/// A ticket from its intake on.
#[derive(Clone, Copy, Debug)]
pub(super) struct Story<'a> {
    /// The ticket's id, the same in every demo.
    pub(super) id: [u8; 16],
    pub(super) customer: Person,
    pub(super) taken_in: When,
    pub(super) pairs: &'a [Boots],
    pub(super) then: &'a [Step],
}

/// A customer; nothing is written as an empty text.
#[derive(Clone, Copy, Debug)]
pub(super) struct Person {
    pub(super) name: &'static str,
    pub(super) email: &'static str,
    pub(super) phone: &'static str,
}

/// A pair as it comes over the counter.
#[derive(Clone, Copy, Debug)]
pub(super) struct Boots {
    pub(super) colour: &'static str,
    pub(super) kind: &'static str,
    /// `eu 44`, or nothing if the stamp can't be read.
    pub(super) size: &'static str,
    pub(super) construction: Construction,
    pub(super) rating: Rating,
    pub(super) wrong: &'static str,
    pub(super) work: &'static [Work],
    pub(super) terms: Besides,
    pub(super) photos: &'static [Shot],
}

/// What is agreed besides the work.
#[derive(Clone, Copy, Debug)]
pub(super) enum Besides {
    /// Nothing.
    Nothing,
    /// It goes before others.
    Rush,
    /// Something is taken off, `10 %` or `15.00`, with the reason.
    Off(&'static str, &'static str),
}

/// A service of the price book on a pair.
#[derive(Clone, Copy, Debug)]
pub(super) struct Work {
    pub(super) title: &'static str,
    /// Why, if there is more to say than the price book does.
    pub(super) reason: &'static str,
    pub(super) side: Side,
}

/// A service on both shoes.
pub(super) const fn work(title: &'static str) -> Work {
    Work {
        title,
        reason: "",
        side: Side::Pair,
    }
}

impl Work {
    /// Says why it is needed.
    pub(super) const fn since(self, reason: &'static str) -> Self {
        Self { reason, ..self }
    }

    /// On one shoe only.
    pub(super) const fn on(self, side: Side) -> Self {
        Self { side, ..self }
    }
}

/// Something that happens to a ticket's pair, counted from 0.
#[derive(Clone, Copy, Debug)]
pub(super) struct Step(pub(super) When, pub(super) usize, pub(super) Act);

/// What happens.
#[derive(Clone, Copy, Debug)]
pub(super) enum Act {
    /// The pair moves on.
    Move(Stage),
    /// Something holds it, or no longer does.
    Hold(Option<Hold>),
    /// The bench starts on what is agreed.
    Start,
    /// A journal entry.
    Note(Audience, &'static str, &'static [Shot]),
    /// The bench measures the pair: what it types into the form, by the names of its fields.
    Measure(&'static [(&'static str, &'static str)]),
    /// Added scope is offered.
    Offer(&'static Choices),
    /// The customer answers on their page, with the caution ticked if there is one.
    Word(Word),
    /// The customer takes the word back on their page.
    TakeBack,
    /// The customer tells the shop, which writes it down.
    Told(Word, Given),
    /// Money is taken.
    Pay(Sum, PaymentMethod),
    /// Every ready pair is handed over.
    HandOver,
}

/// How much money is taken.
#[derive(Clone, Copy, Debug)]
pub(super) enum Sum {
    /// So many minor units.
    Minor(i64),
    /// The deposit that was asked for.
    Deposit,
    /// All that is due.
    Due,
}

/// An offer of added scope.
#[derive(Debug)]
pub(super) struct Choices {
    pub(super) found: &'static str,
    /// What of it the rules know.
    pub(super) discoveries: &'static [Discovery],
    pub(super) shots: &'static [Shot],
    pub(super) ways: &'static [Way],
    pub(super) if_declined: &'static str,
}

/// One way to go on: the agreed work, less some of it, with some more.
#[derive(Debug)]
pub(super) struct Way {
    pub(super) title: &'static str,
    pub(super) words: &'static str,
    pub(super) without: &'static [&'static str],
    pub(super) with: &'static [Work],
}

/// When something happened, as seen from the day on which the demo starts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum When {
    /// So many open days before the last whole one, so far into its open hours in hundredths.
    Day(usize, i32),
    /// So many minutes ago; what customers do on their own pages at any hour.
    Ago(i64),
}

/// The days on which the shop was open, latest first, and now.
#[derive(Debug)]
pub(super) struct Almanac {
    now: Moment,
    shifts: Vec<Shift>,
}

impl Almanac {
    /// The last two years.
    pub(super) fn new(calendar: &Calendar, now: Moment) -> Self {
        let start = now.plus(Duration::days(-2 * 365));
        let middle = now.plus(Duration::days(-365));
        let (first, second) = (calendar.shifts(start), calendar.shifts(middle));
        let mut shifts: Vec<Shift> = first
            .chain(second)
            .filter(|shift| shift.closes <= now)
            .collect();
        shifts.sort_by_key(|shift| std::cmp::Reverse(shift.opens));
        shifts.dedup();
        Self { now, shifts }
    }

    /// The moment; nothing if it is before these two years.
    pub(super) fn moment(&self, when: When) -> Option<Moment> {
        match when {
            When::Ago(minutes) => Some(self.now.plus(Duration::minutes(-minutes))),
            When::Day(ago, hundredths) => {
                let shift = self.shifts.get(ago)?;
                let open = shift.closes.since(shift.opens);
                Some(shift.opens.plus(open * hundredths / 100))
            }
        }
    }
}

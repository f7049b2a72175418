//! From the shop's records to a plan: its hands and stations, its price book and the briefs of its
//! open pairs make a [`Workshop`].
//!
//! - A pair's steps are its agreed lines that are still to do, in the order of the stages, as the
//!   shop's [`Practice`] plans them.
//! - A pair whose owner is asked stays in the plan with what is agreed, from the moment on at which
//!   the offer lapses: then at the latest it goes on, and its minutes are never given to pairs
//!   behind it. What is offered on top is planned when it is agreed.
//! - A pair that waits for material keeps its minutes from now on: nobody knows when the material
//!   comes, so its own day is the earliest, and is said to be.
//! - A pair that rests goes on when its rest ends by the price book.
//! - Pairs on the pickup shelf are no longer in it.

use crate::brief::{PairBrief, PairWord, in_order_of_promise};
use crate::moment::Moment;
use crate::pricebook::Service;
use crate::promise::board::Board;
use crate::promise::laid_out::LaidOut;
use crate::promise::practice::Practice;
use crate::promise::workshop::{Begins, Misfit, Pair, Tag, Workshop};
use crate::shop::Shop;
use crate::stage::Hold;
use crate::text::Line;
use crate::ticket::{self, TicketNumber};

/// All open work of a shop at a moment, ready to be planned and asked about.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OpenWork {
    /// The shop with its open pairs, in order of their promises.
    pub workshop: Workshop,
    /// The moment for which it stands.
    pub now: Moment,
    /// How the shop plans.
    pub practice: Practice,
}

impl OpenWork {
    /// From the settings, all services that a line may name, and the briefs of the pairs that are
    /// still here.
    pub fn new<U>(shop: &Shop, services: &[Service<U>], pairs: &[PairBrief], now: Moment) -> Self {
        let practice = Practice::new(shop, services, now);
        let hands = shop.hands.iter().map(|hand| hand.in_plan(&shop.calendar));
        let pairs = in_order_of_promise(pairs.iter().collect());
        let pairs = pairs.into_iter().map(|brief| Pair {
            tag: tag_of(brief.number, brief.tag),
            promised: Some(brief.promise),
            begins: begins(brief, now),
            waits_for: Vec::new(),
            steps: practice.steps_of(&brief.left.lines),
        });
        Self {
            workshop: Workshop {
                pairs: pairs.collect(),
                calendar: shop.calendar.clone(),
                hands: hands.collect(),
                stations: shop.stations.iter().map(Line::to_string).collect(),
            },
            now,
            practice,
        }
    }

    /// Lays everything out, ready to plan.
    pub fn board(&self) -> Result<Board, Misfit> {
        Board::new(&self.workshop, self.now)
    }

    /// The same for where no time zones are known, as in a browser.
    pub fn laid_out(&self) -> LaidOut {
        LaidOut::new(self)
    }
}

/// What the plan calls a pair.
pub fn tag_of(number: TicketNumber, tag: ticket::Tag) -> Tag {
    Tag(format!("{number}\u{a0}{tag}"))
}

fn begins(brief: &PairBrief, now: Moment) -> Begins {
    match (&brief.word, brief.hold, brief.left.rests_until) {
        (PairWord::Asked { answer_by, .. }, _, until) if now < *answer_by => {
            Begins::WordBy(until.map_or(*answer_by, |until| until.max(*answer_by)))
        }
        (_, Some(Hold::Material), _) => Begins::AfterMaterial,
        (_, _, Some(until)) if now < until => Begins::At(until),
        _ => Begins::Now,
    }
}

//! From the shop's records to a plan: its hands and stations, its price book and the briefs of its
//! open pairs make a [`Workshop`].
//!
//! - A pair's steps are its agreed lines that are still to do, in the order of the stages, and the
//!   final check. Minutes are those of the line; how far they may be exceeded and at which station
//!   they are worked off, the price book says.
//! - A pair whose owner is asked stays in the plan with what is agreed, from the moment on at which
//!   the offer lapses: then at the latest it goes on, and its minutes are never given to pairs
//!   behind it. What is offered on top is planned when it is agreed.
//! - A pair that waits for material keeps its minutes from now on: nobody knows when the material
//!   comes, so its own day is the earliest, and is said to be.
//! - A pair that rests goes on when its rest ends by the price book.
//! - Pairs on the pickup shelf are no longer in it.

use std::collections::{BTreeMap, BTreeSet};

use crate::brief::left::LeftLine;
use crate::brief::{PairBrief, PairWord, in_order_of_promise};
use crate::id::ServiceId;
use crate::minutes::Minutes;
use crate::moment::Moment;
use crate::pricebook::Service;
use crate::promise::board::Board;
use crate::promise::chance::{Chance, Draws};
use crate::promise::labour::Labour;
use crate::promise::workshop::{Begins, Misfit, Pair, Step, Tag, Workshop};
use crate::scope::ScopeLine;
use crate::shop::Shop;
use crate::stage::Hold;
use crate::text::Line;
use crate::ticket::{self, TicketNumber};

/// What looking a pair over takes before it goes onto the pickup shelf (common practice, no source).
pub const FINAL_CHECK: Minutes = Minutes::new(10);

/// All open work of a shop at a moment, ready to be planned and asked about.
#[derive(Clone, Debug)]
pub struct OpenWork {
    /// The shop with its open pairs, in order of their promises.
    pub workshop: Workshop,
    /// The moment for which it stands.
    pub now: Moment,
    /// The chance with which the shop gives its promises.
    pub chance: Chance,
    /// The luck of its forecasts: always the same, so that the same records give the same days.
    pub draws: Draws,
    ways: BTreeMap<ServiceId, Way>,
}

/// How a service is planned.
#[derive(Clone, Debug)]
struct Way {
    usual: Minutes,
    p90: Option<Minutes>,
    /// Only if the shop has it.
    station: Option<String>,
}

impl OpenWork {
    /// From the settings, all services that a line may name, and the briefs of the pairs that are
    /// still here.
    pub fn new<U>(shop: &Shop, services: &[Service<U>], pairs: &[PairBrief], now: Moment) -> Self {
        let ways = services.iter().map(|service| {
            let way = Way {
                usual: service.minutes,
                p90: service.p90,
                station: station_of(service, shop).map(Line::to_string),
            };
            (service.id, way)
        });
        let hands = shop.hands.iter().map(|hand| hand.in_plan(&shop.calendar));
        let mut work = Self {
            workshop: Workshop {
                calendar: shop.calendar.clone(),
                hands: hands.collect(),
                stations: shop.stations.iter().map(Line::to_string).collect(),
                pairs: Vec::new(),
            },
            now,
            chance: shop.chance,
            draws: Draws::default(),
            ways: ways.collect(),
        };
        let pairs = in_order_of_promise(pairs.iter().collect());
        work.workshop.pairs = pairs.into_iter().map(|pair| work.pair(pair)).collect();
        work
    }

    /// Lays everything out, ready to plan.
    pub fn board(&self) -> Result<Board, Misfit> {
        Board::new(&self.workshop, self.now)
    }

    /// The steps of work that is agreed, offered or about to be taken in; the caller leaves out
    /// what is done ([`ticket::Pair::to_do`]).
    pub fn steps(&self, lines: &[ScopeLine]) -> Vec<Step> {
        let mut ordered: Vec<&ScopeLine> = lines.iter().collect();
        ordered.sort_by_key(|line| line.stage);
        let lines: Vec<LeftLine> = ordered.into_iter().map(LeftLine::from).collect();
        self.steps_of(&lines)
    }

    /// The steps of services of the price book and of work besides, for a job that is only tried.
    pub fn steps_of_services<U>(
        &self,
        services: &[&Service<U>],
        besides: Option<Step>,
    ) -> Vec<Step> {
        let mut ordered = services.to_vec();
        ordered.sort_by_key(|service| service.stage);
        let lines: Vec<LeftLine> = ordered.into_iter().map(LeftLine::from).collect();
        let mut steps = self.steps_of(&lines);
        if let Some(step) = besides {
            steps.insert(lines.len(), step);
        }
        steps
    }

    fn pair(&self, brief: &PairBrief) -> Pair {
        Pair {
            tag: tag_of(brief.number, brief.tag),
            promised: Some(brief.promise),
            begins: begins(brief, self.now),
            waits_for: Vec::new(),
            steps: self.steps_of(&brief.left.lines),
        }
    }

    fn steps_of(&self, lines: &[LeftLine]) -> Vec<Step> {
        let check = Step::new("final check", Labour::sure(FINAL_CHECK));
        let steps = lines.iter().map(|line| self.step(line));
        steps.chain([check]).collect()
    }

    fn step(&self, line: &LeftLine) -> Step {
        let way = line.service.and_then(|service| self.ways.get(&service));
        let step = Step::new(line.title.as_str(), labour(line.minutes, way)).resting(line.rest);
        match way.and_then(|way| way.station.as_deref()) {
            Some(station) => step.at(station),
            None => step,
        }
    }
}

/// What the plan calls a pair.
pub fn tag_of(number: TicketNumber, tag: ticket::Tag) -> Tag {
    Tag(format!("{number}\u{a0}{tag}"))
}

/// The station at which a service is done, if the shop has it.
pub fn station_of<'a, U>(service: &'a Service<U>, shop: &Shop) -> Option<&'a Line> {
    let station = service.station.as_ref()?;
    shop.stations.contains(station).then_some(station)
}

/// Stations that services name and the shop has not: they are planned as if they needed none.
pub fn missing_stations<'a, U>(services: &'a [Service<U>], shop: &Shop) -> BTreeSet<&'a Line> {
    let named = services
        .iter()
        .filter_map(|service| service.station.as_ref());
    named.filter(|name| !shop.stations.contains(name)).collect()
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

/// A line may have other minutes than its service: then its spread grows alike.
fn labour(minutes: Minutes, way: Option<&Way>) -> Labour {
    let p90 = way.and_then(|way| {
        let p90 = u64::from(way.p90?.get()) * u64::from(minutes.get());
        let p90 = p90.div_ceil(u64::from(way.usual.get()).max(1));
        u32::try_from(p90).ok().map(Minutes::new)
    });
    let spread = p90.and_then(|p90| Labour::new(minutes, p90).ok());
    spread.unwrap_or_else(|| Labour::usual(minutes))
}

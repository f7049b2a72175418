//! How a shop plans work: what the lines of a scope become at the bench, and how sure its promises
//! are.
//!
//! Minutes are those of the line; how far they may be exceeded, at which station they are worked off,
//! and whether cement has to be joined in the middle of them, the price book says. What no day at the
//! bench has room for together is planned without its break. Every pair ends with the final check.

use std::collections::{BTreeMap, BTreeSet};

use serde::{Deserialize, Serialize};

use crate::brief::left::LeftLine;
use crate::cement::Cement;
use crate::id::ServiceId;
use crate::minutes::Minutes;
use crate::moment::Moment;
use crate::pricebook::Service;
use crate::promise::chance::{Chance, Draws};
use crate::promise::labour::Labour;
use crate::promise::workshop::Step;
use crate::scope::ScopeLine;
use crate::shop::Shop;
use crate::text::Line;

/// What looking a pair over takes before it goes onto the pickup shelf (common practice, no source).
pub const FINAL_CHECK: Minutes = Minutes::new(10);

/// How a shop plans work.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Practice {
    /// The chance with which it gives its promises.
    pub chance: Chance,
    /// The luck of its forecasts: always the same, so that the same records give the same days.
    pub draws: Draws,
    /// The longest time that anybody is at the bench without a break.
    longest: Minutes,
    ways: BTreeMap<ServiceId, Way>,
}

/// How a service is planned.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
struct Way {
    usual: Minutes,
    p90: Option<Minutes>,
    /// Only if the shop has it.
    station: Option<String>,
    cement: Option<Cement>,
}

impl Practice {
    /// From the settings, and all services that a line may name, as they are `now`.
    pub fn new<U>(shop: &Shop, services: &[Service<U>], now: Moment) -> Self {
        let ways = services.iter().map(|service| {
            let way = Way {
                usual: service.minutes,
                p90: service.p90,
                station: station_of(service, shop).map(Line::to_string),
                cement: service.cement,
            };
            (service.id, way)
        });
        Self {
            chance: shop.chance,
            draws: Draws::default(),
            longest: longest_at_the_bench(shop, now),
            ways: ways.collect(),
        }
    }

    /// The steps of work that is agreed, offered or about to be taken in; the caller leaves out
    /// what is done ([`Pair::to_do`]).
    ///
    /// [`Pair::to_do`]: crate::ticket::Pair::to_do
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
        steps.splice(steps.len() - 1..steps.len() - 1, besides);
        steps
    }

    /// The steps of what is left on a pair, the final check last.
    pub(super) fn steps_of(&self, lines: &[LeftLine]) -> Vec<Step> {
        let check = Step::new("final check", Labour::sure(FINAL_CHECK));
        let steps = lines.iter().flat_map(|line| self.steps_of_line(line));
        steps.chain([check]).collect()
    }

    /// One step, or two if cement has to dry in between.
    fn steps_of_line(&self, line: &LeftLine) -> impl Iterator<Item = Step> + use<> {
        let way = line.service.and_then(|service| self.ways.get(&service));
        let cement = way.and_then(|way| way.cement);
        let parts = cement.and_then(|cement| {
            let (coats, joining) = cement.parts_of(line.minutes).ok()?;
            let together = coats.plus(cement.dries()).plus(joining);
            (together <= self.longest).then_some((cement, coats, joining))
        });
        let (coats, work) = match parts {
            Some((cement, coats, joining)) => {
                let name = format!("{}: cement", line.title);
                let coats = Step::new(&name, labour(coats, way));
                let coats = coats.resting_between(cement.dries(), cement.open());
                (Some(coats), joining)
            }
            None => (None, line.minutes),
        };
        let step = Step::new(line.title.as_str(), labour(work, way)).resting(line.rest);
        let step = match way.and_then(|way| way.station.as_deref()) {
            Some(station) => step.at(station),
            None => step,
        };
        coats.into_iter().chain([step])
    }
}

/// The longest stretch of minutes that anybody is at the bench on any day of the coming year.
fn longest_at_the_bench(shop: &Shop, now: Moment) -> Minutes {
    let hands: Vec<_> = shop
        .hands
        .iter()
        .map(|hand| hand.in_plan(&shop.calendar))
        .collect();
    let stretches = shop.calendar.shifts(now).flat_map(|shift| {
        let left = shift.closes.since(shift.opens.max(now)).whole_minutes();
        let left = Minutes::new(u32::try_from(left).unwrap_or(0));
        hands
            .iter()
            .map(move |hand| hand.minutes_on(shift.day).min(left))
    });
    stretches.max().unwrap_or(Minutes::ZERO)
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

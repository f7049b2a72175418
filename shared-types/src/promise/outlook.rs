//! The outlook: on which day each pair will be ready, with which chance.
//!
//! The whole plan is played through many times, each time with other luck for every step, on the
//! real calendar: closed days and long rests make the days jump, which no formula follows. In
//! every draw the pairs are placed in the shop's order, so a pair that is added at the end changes
//! no day of those before it.

use serde::{Deserialize, Serialize};
use time::Date;

use crate::promise::board::Board;
use crate::promise::chance::{Chance, Draws, Odds};
use crate::promise::luck::Luck;
use crate::promise::place::{Course, Table};
use crate::promise::plan::Plan;
use crate::promise::reason::Reason;
use crate::promise::workshop::Tag;

/// In how many draws a pair is ready on which day.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub struct Forecast {
    /// The days in order, each with the draws in which the pair is ready on that day.
    pub days: Vec<(Date, u32)>,
    /// All draws, with those in which no day is in sight.
    pub draws: u32,
}

impl Forecast {
    /// The day by which it is ready with this chance, if one is in sight.
    pub fn by(&self, chance: Chance) -> Option<Date> {
        let mut kept = 0;
        let reached = |(_, count): &&(Date, u32)| {
            kept += count;
            let odds = Odds {
                kept,
                draws: self.draws,
            };
            odds.reach(chance)
        };
        let (day, _) = self.days.iter().find(reached)?;
        Some(*day)
    }

    /// How sure it is that the pair is ready by this day.
    pub fn odds(&self, by: Date) -> Odds {
        let in_time = self.days.iter().filter(|(day, _)| *day <= by);
        Odds {
            kept: in_time.map(|(_, count)| count).sum(),
            draws: self.draws,
        }
    }

    /// Counts the pickup periods of all draws, which it puts in order.
    pub(super) fn count(board: &Board, periods: &mut [u32]) -> Self {
        periods.sort_unstable();
        let days = periods
            .chunk_by(|one, next| one == next)
            .filter_map(|same| {
                let period = usize::try_from(*same.first()?).ok()?;
                let count = u32::try_from(same.len()).ok()?;
                Some((*board.days.get(period)?, count))
            });
        Self {
            days: days.collect(),
            draws: u32::try_from(periods.len()).unwrap_or(u32::MAX),
        }
    }
}

/// The period in which a pair that is finished at `clock` can be collected; beyond all days if
/// there is none.
pub(super) fn pickup(board: &Board, clock: u32) -> u32 {
    let period = board.pickup(clock);
    period
        .and_then(|period| u32::try_from(period).ok())
        .unwrap_or(u32::MAX)
}

/// The forecast of every open pair, in the shop's order.
pub fn outlook(board: &Board, draws: Draws) -> Vec<Forecast> {
    let mut table = Table::new(board);
    // One row for each draw, one column for each pair.
    let mut rows: Vec<Vec<u32>> = (0..draws.count)
        .map(|_| Vec::with_capacity(board.pairs.len()))
        .collect();
    for (draw, row) in (0..).zip(&mut rows) {
        let course = Course::Drawn(Luck::of(draws.seed, draw));
        table.seat_all_before(board, board.pairs.len(), course);
        row.extend(table.finished.iter().map(|finish| pickup(board, *finish)));
    }
    let mut periods = Vec::with_capacity(rows.len());
    (0..board.pairs.len())
        .map(|pair| {
            periods.clear();
            periods.extend(rows.iter().map(|row| row[pair]));
            Forecast::count(board, &mut periods)
        })
        .collect()
}

/// A promise that is less sure than it should be, and why.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub struct AtRisk {
    /// The pair.
    pub tag: Tag,
    /// The day that was given.
    pub promised: Date,
    /// How sure it is.
    pub odds: Odds,
    /// The day that could be given with the wished chance, if one is in sight.
    pub instead: Option<Date>,
    /// Where its time goes: waits before all else, the longest first.
    pub reasons: Vec<Reason>,
}

/// The given promises that fall short of this chance, in the shop's order; and those of pairs that
/// wait for material, whose odds hold only if it came now.
pub fn at_risk(plan: &Plan, forecasts: &[Forecast], chance: Chance) -> Vec<AtRisk> {
    let pairs = plan.pairs.iter().zip(forecasts);
    pairs
        .filter_map(|(pair, forecast)| {
            let promised = pair.promised?;
            let odds = forecast.odds(promised);
            let is_unsure = odds.fall_short_of(chance) || pair.reasons.contains(&Reason::Material);
            is_unsure.then(|| AtRisk {
                tag: pair.tag.clone(),
                promised,
                odds,
                instead: forecast.by(chance),
                reasons: pair.reasons.clone(),
            })
        })
        .collect()
}

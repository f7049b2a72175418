//! Who works at the bench and what stands there, as the owner sets it.

use std::collections::BTreeSet;

use serde::{Deserialize, Deserializer, Serialize};
use time::Date;

use crate::minutes::Minutes;
use crate::promise::calendar::Calendar;
use crate::promise::workshop::Hand;
use crate::text::Line;

/// Somebody at the bench.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct BenchHand {
    /// What the shop calls them; no two have the same name.
    pub name: Line,
    /// Bench minutes on each weekday, Monday first, from opening on; none means as long as the shop
    /// is open.
    pub week: [Option<Minutes>; 7],
    /// Days on which they are not there.
    #[serde(default, skip_serializing_if = "BTreeSet::is_empty")]
    pub away: BTreeSet<Date>,
}

impl BenchHand {
    /// The most hands that a shop may have.
    pub const MOST: usize = 50;

    /// Somebody who is at the bench as long as the shop is open.
    pub const fn all_day(name: Line) -> Self {
        Self {
            name,
            week: [None; 7],
            away: BTreeSet::new(),
        }
    }

    /// So many hands without names, who are at the bench as long as the shop is open.
    pub fn numbered(count: u32) -> Vec<Self> {
        let names = (1..=count).map(|number| Line::parse(&format!("Hand {number}")));
        names.flatten().map(Self::all_day).collect()
    }

    /// Bench minutes on a weekday counted from Monday, never more than the shop is open.
    pub fn minutes_on(&self, weekday: usize, calendar: &Calendar) -> Minutes {
        let open = calendar.open_minutes(weekday);
        let set = self.week.get(weekday).copied().flatten();
        set.map_or(open, |minutes| minutes.min(open))
    }

    /// The hand as the plan wants it.
    pub fn in_plan(&self, calendar: &Calendar) -> Hand {
        Hand {
            name: self.name.to_string(),
            week: std::array::from_fn(|weekday| self.minutes_on(weekday, calendar)),
            away: self.away.clone(),
        }
    }
}

/// The form in which settings hold the hands: version 0.1.0 knew only how many there are.
#[derive(Deserialize)]
#[serde(untagged)]
enum Written {
    Count(u32),
    Hands(Vec<BenchHand>),
}

pub(crate) fn read<'de, D: Deserializer<'de>>(from: D) -> Result<Vec<BenchHand>, D::Error> {
    Ok(match Written::deserialize(from)? {
        Written::Count(count) => BenchHand::numbered(count),
        Written::Hands(hands) => hands,
    })
}

/// What only one pair can use at a time, in a shop whose owner has not said what there is.
pub fn shipped_stations() -> Vec<Line> {
    let names = [OUTSOLE_STITCHER, FINISHER].map(Line::parse);
    names.into_iter().flatten().collect()
}

/// The machine that sews soles on.
pub const OUTSOLE_STITCHER: &str = "outsole stitcher";

/// The machine that trims, sands and burnishes.
pub const FINISHER: &str = "finisher";

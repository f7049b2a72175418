//! The file that describes a shop, as people write it.

use std::collections::{BTreeMap, BTreeSet};

use anyhow::{Context as _, Result, ensure};
use serde::Deserialize;
use shared_types::minutes::Minutes;
use shared_types::moment::{Moment, Zone};
use shared_types::promise::calendar::{Calendar, Hours};
use shared_types::promise::chance::{Chance, Draws};
use shared_types::promise::what_if::Change;
use shared_types::promise::workshop::{Hand, Pair, Step, Tag, Workshop};
use time::{Date, PrimitiveDateTime};

/// A shop with its open pairs, and what is asked about it.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub(super) struct PlanFile {
    #[serde(default)]
    pub(super) shop: String,
    /// `2026-03-10 09:00`, on the shop's clock.
    now: String,
    zone: Zone,
    /// `"9:00-17:30"` for each weekday on which the shop is open.
    hours: BTreeMap<Weekday, String>,
    #[serde(default)]
    closed: BTreeSet<Date>,
    hands: Vec<BenchHand>,
    #[serde(default)]
    stations: Vec<String>,
    #[serde(default = "four_in_five")]
    pub(super) chance: Chance,
    #[serde(default)]
    pub(super) draws: Draws,
    /// In the order of the work.
    pairs: Vec<Pair>,
    #[serde(default)]
    pub(super) offers: Vec<Offer>,
    #[serde(default)]
    pub(super) what_if: Vec<Question>,
}

fn four_in_five() -> Chance {
    Chance::EIGHTY
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum Weekday {
    Monday,
    Tuesday,
    Wednesday,
    Thursday,
    Friday,
    Saturday,
    Sunday,
}

impl Weekday {
    const ALL: [Self; 7] = [
        Self::Monday,
        Self::Tuesday,
        Self::Wednesday,
        Self::Thursday,
        Self::Friday,
        Self::Saturday,
        Self::Sunday,
    ];
}

/// Somebody at the bench: so many minutes on every open day, or on the days named.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
struct BenchHand {
    name: String,
    minutes: BenchMinutes,
    #[serde(default)]
    away: BTreeSet<Date>,
}

#[derive(Debug, Deserialize)]
#[serde(untagged)]
enum BenchMinutes {
    EveryDay(Minutes),
    OnDays(BTreeMap<Weekday, Minutes>),
}

/// A pair that waits for a word, or a new one, with what may be done to it.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub(super) struct Offer {
    pub(super) tag: Tag,
    pub(super) choices: Vec<Choice>,
}

/// All that is left to do if this choice is taken.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub(super) struct Choice {
    pub(super) name: String,
    pub(super) steps: Vec<Step>,
}

/// Changes to be tried together.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub(super) struct Question {
    pub(super) question: String,
    pub(super) changes: Vec<Change>,
}

impl PlanFile {
    /// The moment at which the plan begins.
    pub(super) fn now(&self) -> Result<Moment> {
        let format = time::macros::format_description!("[year]-[month]-[day] [hour]:[minute]");
        let now = PrimitiveDateTime::parse(&self.now, format)
            .context("write “now” as 2026-03-10 09:00, on the shop's clock")?;
        Ok(self.zone.moment(now))
    }

    /// The shop as the plan wants it.
    pub(super) fn workshop(&self) -> Result<Workshop> {
        ensure!(self.draws.count > 0, "a forecast needs at least one draw");
        Ok(Workshop {
            calendar: Calendar {
                zone: self.zone.clone(),
                week: self.week()?,
                closed: self.closed.clone(),
            },
            hands: self.hands.iter().map(BenchHand::hand).collect(),
            stations: self.stations.clone(),
            pairs: self.pairs.clone(),
        })
    }

    fn week(&self) -> Result<[Option<Hours>; 7]> {
        let mut week = [None; 7];
        for (day, weekday) in week.iter_mut().zip(Weekday::ALL) {
            let Some(hours) = self.hours.get(&weekday) else {
                continue;
            };
            let (opens, closes) = hours.split_once(['-', '–']).unwrap_or((hours, ""));
            *day = Hours::parse(opens, closes).with_context(|| hours.clone())?;
        }
        Ok(week)
    }
}

impl BenchHand {
    fn hand(&self) -> Hand {
        let week = match &self.minutes {
            BenchMinutes::EveryDay(minutes) => [*minutes; 7],
            BenchMinutes::OnDays(days) => {
                Weekday::ALL.map(|day| days.get(&day).copied().unwrap_or_default())
            }
        };
        Hand {
            name: self.name.clone(),
            week,
            away: self.away.clone(),
        }
    }
}

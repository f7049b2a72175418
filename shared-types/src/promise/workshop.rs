//! What a plan is made from: the shop's hours, its hands and stations, and its open pairs in the
//! order in which they are worked on.

use std::collections::BTreeSet;
use std::fmt;

use serde::{Deserialize, Serialize};
use time::Date;

use crate::minutes::Minutes;
use crate::moment::Moment;
use crate::promise::calendar::Calendar;
use crate::promise::labour::Labour;

/// A shop with all that it has to do.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub struct Workshop {
    /// When the shop is open; pairs are handed out in these hours.
    pub calendar: Calendar,
    /// Who works at the bench.
    pub hands: Vec<Hand>,
    /// Names of what only one pair can use at a time, such as the outsole stitcher.
    pub stations: Vec<String>,
    /// The open pairs, in the shop's order: the first is never delayed for a later one.
    pub pairs: Vec<Pair>,
}

/// Somebody at the bench.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub struct Hand {
    /// What the shop calls them.
    pub name: String,
    /// Bench minutes on each weekday, Monday first, from opening on; what is left of the opening
    /// hours is for the counter. None on days off.
    pub week: [Minutes; 7],
    /// Days on which they are not there.
    #[serde(default)]
    pub away: BTreeSet<Date>,
}

impl Hand {
    /// Somebody with the same bench minutes on every day on which the shop is open.
    pub fn every_day(name: &str, minutes: Minutes) -> Self {
        Self {
            name: name.to_owned(),
            week: [minutes; 7],
            away: BTreeSet::new(),
        }
    }

    /// Bench minutes on a day.
    pub fn minutes_on(&self, day: Date) -> Minutes {
        if self.away.contains(&day) {
            return Minutes::ZERO;
        }
        let weekday = usize::from(day.weekday().number_days_from_monday());
        self.week.get(weekday).copied().unwrap_or(Minutes::ZERO)
    }
}

/// What the shop calls a pair; no two open pairs have the same.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Tag(pub String);

impl fmt::Display for Tag {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

/// An open pair with the work that is left on it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub struct Pair {
    /// Its name.
    pub tag: Tag,
    /// The ready-by day that was given.
    #[serde(default)]
    pub promised: Option<Date>,
    /// From when it can be worked on.
    #[serde(default)]
    pub begins: Begins,
    /// Pairs before it in the order that must be finished first: one last for both, or a colour to
    /// be matched.
    #[serde(default)]
    pub waits_for: Vec<Tag>,
    /// What is left to do, in order.
    pub steps: Vec<Step>,
}

/// From when a pair can be worked on.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Begins {
    /// At once.
    #[default]
    Now,
    /// When material comes, or when a rest ends that has begun.
    At(Moment),
    /// When its owner has answered, and nobody knows when: the pair is left out of the plan.
    AfterTheWord,
    /// When its owner has answered, and then at the latest: the pair is planned from then on.
    WordBy(Moment),
    /// When material comes, and nobody knows when: the pair is planned from now on, so that its
    /// time is not given to those behind it, and its own day is the earliest.
    AfterMaterial,
}

/// One step of work, and the rest that follows it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub struct Step {
    /// What is done.
    pub name: String,
    /// Bench minutes, only in open hours.
    pub labour: Labour,
    /// The station that it occupies, if any.
    #[serde(default)]
    pub station: Option<String>,
    /// How long the pair rests after it.
    #[serde(default)]
    pub rest: Rest,
    /// Whether it must be done in one go; other work may stop at closing and go on at opening.
    #[serde(default)]
    pub one_sitting: bool,
}

impl Step {
    /// A step at no station, without rest, that may be split.
    pub fn new(name: &str, labour: Labour) -> Self {
        Self {
            name: name.to_owned(),
            labour,
            station: None,
            rest: Rest::default(),
            one_sitting: false,
        }
    }

    /// The same step at a station.
    #[must_use]
    pub fn at(self, station: &str) -> Self {
        Self {
            station: Some(station.to_owned()),
            ..self
        }
    }

    /// The same step with at least so long a rest after it.
    #[must_use]
    pub fn resting(self, at_least: Minutes) -> Self {
        Self {
            rest: Rest {
                at_least,
                at_most: None,
            },
            ..self
        }
    }

    /// The same step, and the next one within these clock minutes in the same open period.
    #[must_use]
    pub fn resting_between(self, at_least: Minutes, at_most: Minutes) -> Self {
        Self {
            rest: Rest {
                at_least,
                at_most: Some(at_most),
            },
            ..self
        }
    }

    /// The same step, done in one go.
    #[must_use]
    pub fn in_one_sitting(self) -> Self {
        Self {
            one_sitting: true,
            ..self
        }
    }
}

/// Clock minutes that run through the night and over closed days.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub struct Rest {
    /// So long the pair must rest before the next step.
    #[serde(default)]
    pub at_least: Minutes,
    /// So long it may rest at most, as cement does not stay open: then this step and the next are
    /// each done in one sitting, and both in one open period of the shop.
    #[serde(default)]
    pub at_most: Option<Minutes>,
}

/// Why no plan can be made.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum Misfit {
    /// Nobody is ever at the bench in open hours.
    #[error("nobody is at the bench in the shop's open hours")]
    NobodyIn,
    /// Two hands, stations or open pairs share a name.
    #[error("the name {name} stands here twice; give each its own")]
    NameTwice {
        /// The name.
        name: String,
    },
    /// A step wants a station that the shop does not have.
    #[error("{tag}: the step “{step}” needs {station}, which is not among the shop's stations")]
    NoSuchStation {
        /// The pair.
        tag: Tag,
        /// Its step.
        step: String,
        /// What it asks for.
        station: String,
    },
    /// A pair waits for one that does not stand before it.
    #[error("{tag} waits for {other}, which does not stand before it in the order")]
    NotBefore {
        /// The pair.
        tag: Tag,
        /// What it waits for.
        other: Tag,
    },
    /// The longest rest is shorter than the shortest.
    #[error("{tag}: after “{step}” the longest rest is shorter than the shortest")]
    RestUpsideDown {
        /// The pair.
        tag: Tag,
        /// Its step.
        step: String,
    },
    /// No open period is long enough.
    #[error("{tag}: no open period has room for “{step}”, which must be done in one sitting")]
    NeverInOneSitting {
        /// The pair.
        tag: Tag,
        /// Its step.
        step: String,
    },
    /// A question about a pair that is not in the order.
    #[error("there is no open pair {tag}")]
    NoSuchPair {
        /// What was asked for.
        tag: Tag,
    },
    /// A question about somebody who does not work here.
    #[error("nobody called {name} is at the bench")]
    NoSuchHand {
        /// Who was asked for.
        name: String,
    },
}

//! What scope lines require, exclude, make pointless and make better done together.
//!
//! - [`RuleSet`]: the rules as data that the shop edits; [`trouble`]: what is wrong with them
//! - [`condition`]: what work relies on, and what a discovery breaks
//! - [`consistency`]: what does not hang together in a scope, and what would mend it
//! - [`propose`]: the cheapest sound scope, the best one, and the pair as it is
//! - [`explain`]: why a line is there; [`together`]: what is cheaper done now
//! - [`mend`]: what is said about a scope that does not hang together, and mends it at one tap
//! - [`shipped`]: the rules of a new shop; [`edits`]: what the shop changed about them;
//!   [`wording`]: rules in plain words
//! - [`ties`], [`search`], [`bits`]: the rules as they bind one pair, searched exactly;
//!   [`situation`]: the rules that can be in force at once
//!
//! Rules are conditions on the agreed set of lines, never on the order of work: two services may
//! require each other. What rests on time (dwell, sequence) belongs to the plan of the bench.

pub mod condition;
pub mod consistency;
pub mod edits;
pub mod explain;
pub mod mend;
pub mod propose;
pub mod shipped;
pub mod together;
pub mod trouble;
pub mod wording;

mod bits;
mod search;
mod situation;
#[cfg(test)]
mod tests;
mod ties;

use std::collections::{BTreeMap, BTreeSet};
use std::fmt;
use std::str::FromStr;

use serde::{Deserialize, Serialize};

use crate::id::ServiceId;
use crate::minutes::Minutes;
use crate::money::Money;
use crate::scope::discovery::Discovery;
use crate::scope::rules::bits::Bits;
use crate::scope::rules::condition::Condition;
use crate::text::Words;
use crate::ticket::{Construction, PairAbout, Rating};

/// The stable name of a rule: `stitched-sole-needs-welt`.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
pub struct RuleId(String);

/// The text cannot name a rule.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error("A rule's name has 1 to 60 small letters, digits and hyphens.")]
pub struct NotARuleId;

impl RuleId {
    /// Accepts 1 to 60 small letters, digits and hyphens.
    pub fn parse(text: &str) -> Result<Self, NotARuleId> {
        let fits = |byte: u8| byte.is_ascii_lowercase() || byte.is_ascii_digit() || byte == b'-';
        if (1..=60).contains(&text.len()) && text.bytes().all(fits) {
            Ok(Self(text.to_owned()))
        } else {
            Err(NotARuleId)
        }
    }

    /// The name.
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

impl fmt::Display for RuleId {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

impl FromStr for RuleId {
    type Err = NotARuleId;

    fn from_str(text: &str) -> Result<Self, NotARuleId> {
        Self::parse(text)
    }
}

impl From<RuleId> for String {
    fn from(id: RuleId) -> Self {
        id.0
    }
}

impl TryFrom<String> for RuleId {
    type Error = NotARuleId;

    fn try_from(text: String) -> Result<Self, NotARuleId> {
        Self::parse(&text)
    }
}

/// Whether a rule is in force.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Standing {
    /// In force.
    #[default]
    On,
    /// Switched off by the shop.
    Off,
}

/// When a rule holds; all that is named must fit.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct Case {
    /// On pairs built in one of these ways; on all if none is named.
    pub constructions: BTreeSet<Construction>,
    /// On pairs with this rating; on all if none is named.
    pub rating: Option<Rating>,
    /// If one of these was discovered; always if none is named.
    pub discoveries: BTreeSet<Discovery>,
}

impl Case {
    /// Whether it is the case for a pair.
    pub fn fits(&self, found: &AsFound) -> bool {
        let built =
            self.constructions.is_empty() || self.constructions.contains(&found.construction);
        let rated = self.rating.is_none_or(|rating| rating == found.rating);
        let shown =
            self.discoveries.is_empty() || !self.discoveries.is_disjoint(&found.discoveries);
        built && rated && shown
    }
}

/// A pair as the bench found it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct AsFound {
    /// How it is built.
    pub construction: Construction,
    /// Whether it carries a mark of protection.
    pub rating: Rating,
    /// What the teardown showed.
    pub discoveries: BTreeSet<Discovery>,
}

impl AsFound {
    /// A pair by what it is and what is known of its inside; at the counter that is nothing yet.
    pub const fn new(about: &PairAbout, discoveries: BTreeSet<Discovery>) -> Self {
        Self {
            construction: about.construction,
            rating: about.rating,
            discoveries,
        }
    }

    /// The conditions that the discoveries break.
    pub fn broken(&self) -> BTreeSet<Condition> {
        let breaks = self.discoveries.iter().flat_map(|one| one.breaks());
        breaks.copied().collect()
    }
}

/// One way to meet a requirement.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Need {
    /// This service is done too.
    Line(ServiceId),
    /// This holds: nothing was discovered against it, or a service that mends it is done too.
    Sound(Condition),
}

/// What a rule says.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(
    rename_all = "kebab-case",
    rename_all_fields = "kebab-case",
    tag = "says"
)]
pub enum Claim {
    /// Each of `these` needs at least one of `any-of`.
    Requires {
        /// The services that need something.
        these: BTreeSet<ServiceId>,
        /// The alternatives.
        any_of: BTreeSet<Need>,
    },
    /// At most one of `these` is done.
    OneOf {
        /// The alternatives.
        these: BTreeSet<ServiceId>,
    },
    /// None of `these` is done with any of `those`.
    Excludes {
        /// The ones.
        these: BTreeSet<ServiceId>,
        /// The others.
        those: BTreeSet<ServiceId>,
    },
    /// Any of `done` serves what each of `spared` is for, which makes it pointless.
    Spares {
        /// What serves.
        done: BTreeSet<ServiceId>,
        /// What it takes the place of.
        spared: BTreeSet<ServiceId>,
    },
    /// None of `these` may be done.
    Unfit {
        /// The services.
        these: BTreeSet<ServiceId>,
    },
    /// Any of these makes the condition hold again; the best comes first.
    Mends {
        /// What holds again.
        condition: Condition,
        /// The remedies.
        best_first: Vec<ServiceId>,
    },
    /// Alternatives among which the best comes first.
    Prefers {
        /// The alternatives.
        best_first: Vec<ServiceId>,
    },
    /// While one of `during` is done, `also` costs only itself; later it takes `later-with` too.
    Together {
        /// What is done anyway.
        during: BTreeSet<ServiceId>,
        /// What is better done now.
        also: ServiceId,
        /// What has to be done again to come to it later.
        later_with: BTreeSet<ServiceId>,
    },
}

impl Claim {
    /// The services that it names.
    pub fn services(&self) -> BTreeSet<ServiceId> {
        let line = |need: &Need| match need {
            Need::Line(service) => Some(*service),
            Need::Sound(_) => None,
        };
        match self {
            Self::Requires { these, any_of } => {
                let lines = any_of.iter().filter_map(line);
                these.iter().copied().chain(lines).collect()
            }
            Self::OneOf { these } | Self::Unfit { these } => these.clone(),
            Self::Excludes { these, those } => these | those,
            Self::Spares { done, spared } => done | spared,
            Self::Mends { best_first, .. } | Self::Prefers { best_first } => {
                best_first.iter().copied().collect()
            }
            Self::Together {
                during,
                also,
                later_with,
            } => {
                let mut named = during | later_with;
                named.insert(*also);
                named
            }
        }
    }
}

/// Why a rule holds, in plain words.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Reason {
    /// For the bench.
    pub bench: Words,
    /// For the customer, without jargon: `the new sole is stitched, …`.
    pub customer: Words,
}

/// One rule.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Rule {
    /// Whether it is in force.
    #[serde(default)]
    pub standing: Standing,
    /// When it holds.
    #[serde(default)]
    pub case: Case,
    /// What it says.
    pub claim: Claim,
    /// Why.
    pub reason: Reason,
}

/// How a pair that was opened goes home without further repair.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct PutBack {
    /// The service that opens a pair.
    pub opened_by: ServiceId,
    /// The one that closes it again.
    pub closed_by: ServiceId,
}

/// The shop's rules, by name; neither their order nor that of edits means anything.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RuleSet {
    /// The rules.
    pub rules: BTreeMap<RuleId, Rule>,
    /// How an opened pair goes home as it is.
    pub put_back: Option<PutBack>,
}

/// What a service takes, worked out by the caller with the shop's price rules.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Effort {
    /// Bench minutes.
    pub minutes: Minutes,
    /// Its price as a line.
    pub price: Money,
}

/// What each service of the price book takes. A service that is not here is never proposed.
pub type Efforts = BTreeMap<ServiceId, Effort>;

/// Gives a service its title, for messages.
pub type Titles<'a> = &'a dyn Fn(ServiceId) -> String;

/// The rules are too many, or hang together in too many ways, to be worked through.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, thiserror::Error)]
pub enum TooTangled {
    /// More services than a scope is worked out with.
    #[error(
        "The rules name more than {} services. Switch rules off that this shop doesn't need.",
        Bits::MOST
    )]
    TooManyServices,
    /// The search came to its bound.
    #[error(
        "These rules leave too many ways to combine the work. Leave fewer alternatives, or \
         exclude those that never go together."
    )]
    TooManyWays,
}

//! How a shipped rule is written down: its name, when it holds, what it says, and why.

use crate::scope::discovery::Discovery;
use crate::scope::rules::condition::Condition;
use crate::scope::rules::shipped::service;
use crate::scope::rules::{Case, Claim, Need, Reason, Rule, RuleId, Standing};
use crate::text::Words;
use crate::ticket::{Construction, Rating};

/// Built on a welt.
pub(super) const WELTED: &[Construction] = &[
    Construction::Welt270,
    Construction::Welt360,
    Construction::HandWelted,
];

/// Sole and shoe are sewn together.
pub(super) const SEWN: &[Construction] = &[
    Construction::Welt270,
    Construction::Welt360,
    Construction::HandWelted,
    Construction::BlakeStitched,
    Construction::StitchDown,
];

/// One rule; services by their numbers.
#[derive(Clone, Copy)]
pub(super) struct Row {
    pub(super) id: &'static str,
    pub(super) on: On,
    pub(super) says: Says,
    pub(super) bench: &'static str,
    pub(super) customer: &'static str,
}

/// When it holds.
#[derive(Clone, Copy)]
pub(super) enum On {
    Every,
    Built(&'static [Construction]),
    Protective,
    Found(&'static [Discovery]),
    BuiltAndFound(&'static [Construction], &'static [Discovery]),
}

/// What it says.
#[derive(Clone, Copy)]
pub(super) enum Says {
    /// Each of these needs one of those.
    NeedsLine(&'static [u8], &'static [u8]),
    /// Each of these needs that.
    NeedsSound(&'static [u8], Condition),
    OneOf(&'static [u8]),
    Excludes(&'static [u8], &'static [u8]),
    Spares(&'static [u8], &'static [u8]),
    Unfit(&'static [u8]),
    /// The best comes first.
    Mends(Condition, &'static [u8]),
    /// While these are done, that is cheaper than later with those.
    Together(&'static [u8], u8, &'static [u8]),
}

/// Writes a rule down.
pub(super) const fn row(
    id: &'static str,
    on: On,
    says: Says,
    bench: &'static str,
    customer: &'static str,
) -> Row {
    Row {
        id,
        on,
        says,
        bench,
        customer,
    }
}

impl Row {
    /// The rule with its name.
    pub(super) fn rule(&self) -> (RuleId, Rule) {
        let words = |text| Words::parse(text).expect("a shipped reason is neither empty nor long");
        let rule = Rule {
            standing: Standing::On,
            case: self.on.case(),
            claim: self.says.claim(),
            reason: Reason {
                bench: words(self.bench),
                customer: words(self.customer),
            },
        };
        let id = RuleId::parse(self.id).expect("a shipped name fits");
        (id, rule)
    }
}

impl On {
    fn case(self) -> Case {
        let (constructions, rating, discoveries): (&[Construction], _, &[Discovery]) = match self {
            Self::Every => (&[], None, &[]),
            Self::Built(ways) => (ways, None, &[]),
            Self::Protective => (&[], Some(Rating::Protective), &[]),
            Self::Found(discoveries) => (&[], None, discoveries),
            Self::BuiltAndFound(ways, discoveries) => (ways, None, discoveries),
        };
        Case {
            constructions: constructions.iter().copied().collect(),
            rating,
            discoveries: discoveries.iter().copied().collect(),
        }
    }
}

impl Says {
    fn claim(self) -> Claim {
        let set = |numbers: &[u8]| numbers.iter().copied().map(service).collect();
        let list = |numbers: &[u8]| numbers.iter().copied().map(service).collect();
        match self {
            Self::NeedsLine(these, those) => Claim::Requires {
                these: set(these),
                any_of: those.iter().copied().map(service).map(Need::Line).collect(),
            },
            Self::NeedsSound(these, condition) => Claim::Requires {
                these: set(these),
                any_of: [Need::Sound(condition)].into(),
            },
            Self::OneOf(these) => Claim::OneOf { these: set(these) },
            Self::Excludes(these, those) => Claim::Excludes {
                these: set(these),
                those: set(those),
            },
            Self::Spares(done, spared) => Claim::Spares {
                done: set(done),
                spared: set(spared),
            },
            Self::Unfit(these) => Claim::Unfit { these: set(these) },
            Self::Mends(condition, best_first) => Claim::Mends {
                condition,
                best_first: list(best_first),
            },
            Self::Together(during, also, later_with) => Claim::Together {
                during: set(during),
                also: service(also),
                later_with: set(later_with),
            },
        }
    }
}

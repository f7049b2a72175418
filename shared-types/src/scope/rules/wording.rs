//! Rules in plain words, for the owner's page and for what is said about them.

use std::collections::BTreeSet;
use std::str::FromStr;

use crate::id::ServiceId;
use crate::scope::rules::explain::listed;
use crate::scope::rules::{Case, Claim, Need, Rule, Titles};
use crate::ticket::Rating;

/// The kinds of rules, as they are grouped and written.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Kind {
    /// Needs other work.
    NeedsWork,
    /// Needs something sound.
    NeedsSound,
    /// Only one of these.
    OneOf,
    /// These don't go with those.
    Excludes,
    /// Makes other work pointless.
    Spares,
    /// Not on such a pair.
    Unfit,
    /// What mends something.
    Mends,
    /// Which is better.
    Prefers,
    /// Better done together.
    Together,
}

impl Kind {
    /// All kinds, in the order of the page.
    pub const ALL: [Self; 9] = [
        Self::NeedsWork,
        Self::NeedsSound,
        Self::OneOf,
        Self::Excludes,
        Self::Spares,
        Self::Unfit,
        Self::Mends,
        Self::Prefers,
        Self::Together,
    ];

    /// Its code in addresses.
    pub const fn code(self) -> &'static str {
        match self {
            Self::NeedsWork => "needs-work",
            Self::NeedsSound => "needs-sound",
            Self::OneOf => "one-of",
            Self::Excludes => "excludes",
            Self::Spares => "spares",
            Self::Unfit => "unfit",
            Self::Mends => "mends",
            Self::Prefers => "prefers",
            Self::Together => "together",
        }
    }

    /// Finds a kind by its code.
    pub fn from_code(code: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|kind| kind.code() == code)
    }

    /// Its name above a group.
    pub const fn label(self) -> &'static str {
        match self {
            Self::NeedsWork => "Needs other work",
            Self::NeedsSound => "Needs something sound",
            Self::OneOf => "Only one of several",
            Self::Excludes => "Does not go together",
            Self::Spares => "Makes other work pointless",
            Self::Unfit => "Not on such a pair",
            Self::Mends => "What mends it",
            Self::Prefers => "Which is better",
            Self::Together => "Better done together",
        }
    }

    /// What a rule of this kind does, in a sentence.
    pub const fn about(self) -> &'static str {
        match self {
            Self::NeedsWork => "Work that can’t be agreed without other work.",
            Self::NeedsSound => {
                "Work that relies on a part. If the teardown showed that part broken, it can only \
                 be agreed together with what mends it."
            }
            Self::OneOf => "Alternatives, of which a pair gets one.",
            Self::Excludes => "Work that spoils or forbids other work.",
            Self::Spares => "Work that serves for other work too, which would then be wasted.",
            Self::Unfit => "Work that is never done on pairs of some kind.",
            Self::Mends => "The remedies for a broken part, the best first.",
            Self::Prefers => "An order among alternatives, the best first.",
            Self::Together => "Work that costs less now, because the pair is open anyway.",
        }
    }
}

impl FromStr for Kind {
    type Err = NotAKind;

    fn from_str(text: &str) -> Result<Self, NotAKind> {
        Self::from_code(text).ok_or(NotAKind)
    }
}

/// The text names no kind of rule.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error("There is no such kind of rule.")]
pub struct NotAKind;

impl Claim {
    /// What kind of rule makes it.
    pub fn kind(&self) -> Kind {
        match self {
            Self::Requires { any_of, .. } => {
                let is_line = |need: &Need| matches!(need, Need::Line(_));
                if any_of.iter().all(is_line) {
                    Kind::NeedsWork
                } else {
                    Kind::NeedsSound
                }
            }
            Self::OneOf { .. } => Kind::OneOf,
            Self::Excludes { .. } => Kind::Excludes,
            Self::Spares { .. } => Kind::Spares,
            Self::Unfit { .. } => Kind::Unfit,
            Self::Mends { .. } => Kind::Mends,
            Self::Prefers { .. } => Kind::Prefers,
            Self::Together { .. } => Kind::Together,
        }
    }

    /// What it says, without a stop at the end: `“Rubber soles” needs “Top lifts”`. Long lists are
    /// cut to `most` and what is left is counted.
    pub fn in_words(&self, title: Titles<'_>, most: usize) -> String {
        let all = |of: &BTreeSet<ServiceId>, joint| {
            few_listed(of.iter().map(|one| quoted(title, *one)), most, joint)
        };
        let ordered =
            |of: &[ServiceId]| few_listed(of.iter().map(|one| quoted(title, *one)), most, "then");
        let is_one = |of: &BTreeSet<ServiceId>| of.len() == 1;
        let verb = |of, one: &str, several: &str| {
            if is_one(of) {
                one.to_owned()
            } else {
                several.to_owned()
            }
        };
        match self {
            Self::Requires { these, any_of } => {
                let need = |need: &Need| match need {
                    Need::Line(service) => quoted(title, *service),
                    Need::Sound(condition) => condition.holds().to_owned(),
                };
                format!(
                    "{} {} {}",
                    all(these, "and"),
                    verb(these, "needs", "each need"),
                    few_listed(any_of.iter().map(need), most, "or")
                )
            }
            Self::OneOf { these } => format!("Only one of {}", all(these, "and")),
            Self::Excludes { these, those } => format!(
                "{} {} with {}",
                all(these, "and"),
                verb(these, "does not go", "do not go"),
                all(those, "or")
            ),
            Self::Spares { done, spared } => format!(
                "{} {} {} pointless",
                all(done, "or"),
                verb(done, "makes", "make"),
                all(spared, "and")
            ),
            Self::Unfit { these } => {
                format!(
                    "{} {} done",
                    all(these, "and"),
                    verb(these, "is not", "are not")
                )
            }
            Self::Mends {
                condition,
                best_first,
            } => format!("If {}: {}", condition.broken(), ordered(best_first)),
            Self::Prefers { best_first } => format!("Best first: {}", ordered(best_first)),
            Self::Together {
                during,
                also,
                later_with,
            } => {
                let later = if later_with.is_empty() {
                    String::new()
                } else {
                    format!("; later it takes {} as well", all(later_with, "and"))
                };
                format!(
                    "With {}, “{}” is better done now{later}",
                    all(during, "or"),
                    title(*also)
                )
            }
        }
    }
}

impl Case {
    /// When a rule holds, as clauses: `on pairs that are cemented`; none for one that always holds.
    pub fn in_words(&self) -> Vec<String> {
        let mut clauses = Vec::new();
        if !self.constructions.is_empty() {
            let ways = self.constructions.iter().map(|way| way.label().to_owned());
            clauses.push(format!("on pairs built so: {}", few_listed(ways, 9, "or")));
        }
        match self.rating {
            Some(Rating::Protective) => clauses.push("on pairs with a safety mark".to_owned()),
            Some(Rating::Ordinary) => clauses.push("on pairs without a safety mark".to_owned()),
            None => {}
        }
        if !self.discoveries.is_empty() {
            let shown = self
                .discoveries
                .iter()
                .map(|one| one.for_bench().to_owned());
            clauses.push(format!(
                "if the teardown showed: {}",
                few_listed(shown, 9, "or")
            ));
        }
        clauses
    }
}

impl Rule {
    /// The rule as it is named where something is said about it.
    pub fn name(&self, title: Titles<'_>) -> String {
        let says = self.claim.in_words(title, 3);
        match self.case.in_words().as_slice() {
            [] => says,
            clauses => format!("{says} ({})", clauses.join(", ")),
        }
    }
}

fn quoted(title: Titles<'_>, service: ServiceId) -> String {
    listed(&[service], title, "")
}

/// `a, b and c`, or `a, b, c and 4 more`.
fn few_listed(all: impl Iterator<Item = String>, most: usize, joint: &str) -> String {
    let all: Vec<String> = all.collect();
    match all.as_slice() {
        [] => String::new(),
        [only] => only.clone(),
        [first @ .., last] if all.len() <= most => format!("{} {joint} {last}", first.join(", ")),
        all => {
            let (shown, rest) = all.split_at(most.min(all.len()));
            format!("{} and {} more", shown.join(", "), rest.len())
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::scope::rules::{RuleId, shipped};

    #[test]
    fn every_shipped_rule_reads_as_a_sentence() {
        let title = |id: ServiceId| id.to_string()[34..].to_owned();
        let rules = shipped::rules();
        let words = |id: &str| rules.rules[&RuleId::parse(id).unwrap()].name(&title);
        assert_eq!(
            words("base-needs-top-lifts"),
            "“18”, “19” and “1a” each need “17”"
        );
        assert_eq!(words("filler-needs-shank"), "“0e” needs a firm shank");
        assert_eq!(
            words("shank-remedies"),
            "If the shank no longer carries: “0c”"
        );
        assert_eq!(
            words("filler-while-open"),
            "With “10”, “11” or “12”, “0e” is better done now; later it takes “01” and “02” as \
             well (if the teardown showed: Filler pressed hollow)"
        );
        assert!(words("open-first").contains("and 16 more each need “01”"));
        for kind in Kind::ALL {
            assert_eq!(Kind::from_code(kind.code()), Some(kind));
        }
    }
}

//! What does not hang together in a scope. A scope with any inconsistency may be kept as a draft
//! and is never sent.

use std::collections::BTreeSet;

use crate::id::ServiceId;
use crate::scope::rules::bits::Bits;
use crate::scope::rules::condition::Condition;
use crate::scope::rules::explain::listed;
use crate::scope::rules::ties::{Clash, Ties, in_force};
use crate::scope::rules::{AsFound, RuleId, RuleSet, Titles, TooTangled};

/// Something that does not hang together.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Inconsistency {
    /// A line lacks what it needs.
    Lacks {
        /// The line.
        line: ServiceId,
        /// The rule that says so.
        rule: RuleId,
        /// The conditions that do not hold.
        broken: Vec<Condition>,
        /// Any of these would mend it.
        mended_by: Vec<ServiceId>,
    },
    /// Two lines exclude each other.
    Clash {
        /// One.
        line: ServiceId,
        /// The other.
        other: ServiceId,
        /// The rule that says so.
        rule: RuleId,
    },
    /// One line makes another pointless.
    Pointless {
        /// The line that would be wasted.
        line: ServiceId,
        /// The line that serves in its place.
        other: ServiceId,
    },
    /// A line must not be done on this pair.
    Unfit {
        /// The line.
        line: ServiceId,
        /// The rule that says so.
        rule: RuleId,
    },
}

/// Finds all that does not hang together among these services on this pair, sorted.
///
/// `offered` is the price book, from which what is missing could be added. Lines that came from no
/// service, and the side that a line is about, do not come into it.
pub fn check_scope(
    rules: &RuleSet,
    found: &AsFound,
    lines: &BTreeSet<ServiceId>,
    offered: &BTreeSet<ServiceId>,
) -> Result<Vec<Inconsistency>, TooTangled> {
    let ties = Ties::bind(&in_force(rules, found), &found.broken(), lines)?;
    let done = ties.bits(lines);
    let addable = ties.addable(ties.bits(offered));
    let mut all = BTreeSet::new();
    for tie in &ties.needs {
        if tie.any_of.meets(done) {
            continue;
        }
        for line in ties.services(tie.these & done) {
            all.insert(Inconsistency::Lacks {
                line,
                rule: tie.rule.clone(),
                broken: tie.lacking.iter().copied().collect(),
                mended_by: ties.services(tie.any_of & addable),
            });
        }
    }
    for clash in &ties.clashes {
        all.extend(clashing(clash, &ties, done));
    }
    // Of two lines that exclude each other anyway, it is said only once.
    let said: BTreeSet<_> = all.iter().map(Inconsistency::lines).collect();
    for position in done.positions() {
        let line = ties.services[position];
        for other in ties.services(ties.spared_by[position] & done) {
            if !said.contains(&(line.min(other), Some(line.max(other)))) {
                all.insert(Inconsistency::Pointless { line, other });
            }
        }
    }
    for (rule, these) in &ties.unfit {
        for line in ties.services(*these & done) {
            all.insert(Inconsistency::Unfit {
                line,
                rule: (*rule).clone(),
            });
        }
    }
    Ok(all.into_iter().collect())
}

fn clashing(clash: &Clash<'_>, ties: &Ties<'_>, done: Bits) -> Vec<Inconsistency> {
    let mut pairs = BTreeSet::new();
    for one in (clash.these & done).positions() {
        let others = clash.those.unwrap_or(clash.these - Bits::one(one)) & done;
        for other in others.positions() {
            pairs.insert((one.min(other), one.max(other)));
        }
    }
    let clash = |(line, other): (usize, usize)| Inconsistency::Clash {
        line: ties.services[line],
        other: ties.services[other],
        rule: clash.rule.clone(),
    };
    pairs.into_iter().map(clash).collect()
}

impl Inconsistency {
    /// The lines that it is about: the one that is wrong, and the other one if there are two.
    pub const fn lines(&self) -> (ServiceId, Option<ServiceId>) {
        match self {
            Self::Lacks { line, .. } | Self::Unfit { line, .. } => (*line, None),
            Self::Clash { line, other, .. } | Self::Pointless { line, other } => {
                (*line, Some(*other))
            }
        }
    }

    /// In words for the bench: which lines, why, and what would mend it.
    pub fn message(&self, rules: &RuleSet, title: Titles<'_>) -> String {
        self.message_about(&[self.lines().0], rules, title)
    }

    /// The same about all lines that lack the same thing.
    pub(super) fn message_about(
        &self,
        among: &[ServiceId],
        rules: &RuleSet,
        title: Titles<'_>,
    ) -> String {
        let reason = |rule: &RuleId| match rules.rules.get(rule) {
            Some(rule) => rule.reason.bench.as_str(),
            None => "",
        };
        match self {
            Self::Lacks {
                rule,
                broken,
                mended_by,
                ..
            } => {
                let lines = listed(among, title, "and");
                let broken: Vec<_> = broken.iter().map(|one| one.broken()).collect();
                let but = match broken.as_slice() {
                    [] => String::new(),
                    broken => format!(" But {}.", broken.join(", and ")),
                };
                let mend = match mended_by.as_slice() {
                    [] => format!("Nothing in the price book would mend that: take {lines} out."),
                    some => {
                        let some = listed(some, title, "or");
                        format!("Add {some}, or take {lines} out.")
                    }
                };
                format!("{lines} can't stand alone. {}{but} {mend}", reason(rule))
            }
            Self::Clash { line, other, rule } => format!(
                "“{}” and “{}” don't go together. {} Take one of them out.",
                title(*line),
                title(*other),
                reason(rule)
            ),
            Self::Pointless { line, other } => format!(
                "With “{}”, there is no point in “{}”. Take “{}” out.",
                title(*other),
                title(*line),
                title(*line)
            ),
            Self::Unfit { line, rule } => format!(
                "“{}” can't be done on this pair. {} Take it out.",
                title(*line),
                reason(rule)
            ),
        }
    }
}

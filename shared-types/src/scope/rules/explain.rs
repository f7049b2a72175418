//! Why a line is in a scope, for bench and customer.

use std::collections::BTreeSet;

use crate::id::ServiceId;
use crate::scope::discovery::Discovery;
use crate::scope::rules::condition::Condition;
use crate::scope::rules::ties::{Ties, in_force};
use crate::scope::rules::{AsFound, Reason, RuleId, RuleSet, Titles, TooTangled};

/// One reason for a line.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Why {
    /// It was agreed before.
    Agreed,
    /// It takes the place of a line that was agreed before.
    InPlaceOf {
        /// The line that was agreed.
        agreed: ServiceId,
        /// The rule, if a single one says so.
        rule: Option<(RuleId, Reason)>,
    },
    /// Other lines need it.
    NeededBy {
        /// Those lines.
        lines: Vec<ServiceId>,
        /// The rule that says so.
        rule: RuleId,
        /// Why.
        reason: Reason,
    },
    /// It mends what was discovered.
    Mends {
        /// What holds again.
        condition: Condition,
        /// What had been found.
        discoveries: Vec<Discovery>,
    },
}

/// Why this line is among these lines, on a pair where `agreed` was agreed before; most telling
/// first, and empty for a line that no rule has anything to do with.
pub fn explain(
    line: ServiceId,
    lines: &BTreeSet<ServiceId>,
    agreed: &BTreeSet<ServiceId>,
    rules: &RuleSet,
    found: &AsFound,
) -> Result<Vec<Why>, TooTangled> {
    let broken = found.broken();
    let concerned = lines | agreed;
    let ties = Ties::bind(&in_force(rules, found), &broken, &concerned)?;
    let mut reasons = Vec::new();
    let Some(position) = ties.position(line) else {
        return Ok(reasons);
    };
    if agreed.contains(&line) {
        reasons.push(Why::Agreed);
    }
    let done = ties.bits(lines);
    for missing in agreed.difference(lines) {
        let served = ties.position(*missing);
        if served.is_some_and(|served| ties.spared_by[served].has(position)) {
            let rule = ties.spares.iter().find(|spare| {
                spare.done.has(position) && served.is_some_and(|served| spare.spared.has(served))
            });
            reasons.push(Why::InPlaceOf {
                agreed: *missing,
                rule: rule.and_then(|spare| reason_of(rules, spare.rule)),
            });
        }
    }
    for tie in &ties.needs {
        let by = tie.these & done;
        if tie.any_of.has(position)
            && !by.is_empty()
            && let Some((rule, reason)) = reason_of(rules, tie.rule)
        {
            reasons.push(Why::NeededBy {
                lines: ties.services(by),
                rule,
                reason,
            });
        }
    }
    for condition in broken {
        if ties.mending(condition).has(position) {
            let breaks = |one: &&Discovery| one.breaks().contains(&condition);
            let discoveries = found.discoveries.iter().filter(breaks).copied().collect();
            reasons.push(Why::Mends {
                condition,
                discoveries,
            });
        }
    }
    Ok(reasons)
}

fn reason_of(rules: &RuleSet, id: &RuleId) -> Option<(RuleId, Reason)> {
    let rule = rules.rules.get(id)?;
    Some((id.clone(), rule.reason.clone()))
}

impl Why {
    /// In a sentence for the bench.
    pub fn for_bench(&self, title: Titles<'_>) -> String {
        match self {
            Self::Agreed => "Agreed before.".to_owned(),
            Self::InPlaceOf { agreed, rule } => {
                let place = format!("In place of “{}”.", title(*agreed));
                match rule {
                    Some((_, reason)) => format!("{place} {}", reason.bench),
                    None => place,
                }
            }
            Self::NeededBy { lines, reason, .. } => {
                format!("For {}: {}", listed(lines, title, "and"), reason.bench)
            }
            Self::Mends {
                condition,
                discoveries,
            } => {
                let titles: Vec<_> = discoveries.iter().map(|one| one.for_bench()).collect();
                format!("{}: gives {} again.", titles.join("; "), condition.holds())
            }
        }
    }

    /// In sentences for the customer.
    pub fn for_customer(&self, title: Titles<'_>) -> String {
        match self {
            Self::Agreed => "You agreed to it before.".to_owned(),
            Self::InPlaceOf { agreed, rule } => {
                let place = format!("It takes the place of “{}”.", title(*agreed));
                match rule {
                    Some((_, reason)) => format!("{place} {}", reason.customer),
                    None => place,
                }
            }
            Self::NeededBy { reason, .. } => reason.customer.to_string(),
            Self::Mends { discoveries, .. } => {
                let found: Vec<_> = discoveries.iter().map(|one| one.for_customer()).collect();
                found.join(" ")
            }
        }
    }
}

/// Titles in a row: `“A”, “B” and “C”`.
pub(super) fn listed(services: &[ServiceId], title: Titles<'_>, joint: &str) -> String {
    let quoted = |service: &ServiceId| format!("“{}”", title(*service));
    match services {
        [] => String::new(),
        [only] => quoted(only),
        [first @ .., last] => {
            let first: Vec<_> = first.iter().map(quoted).collect();
            format!("{} {joint} {}", first.join(", "), quoted(last))
        }
    }
}

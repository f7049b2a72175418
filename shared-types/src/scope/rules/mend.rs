//! What to say about work that does not hang together, and what would mend it at one tap.

use std::collections::{BTreeMap, BTreeSet};

use crate::id::ServiceId;
use crate::scope::rules::consistency::{Inconsistency, check_scope};
use crate::scope::rules::propose::propose;
use crate::scope::rules::{AsFound, Efforts, RuleId, RuleSet, Titles, TooTangled};

/// A change to what is picked.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Mend {
    /// These are done too.
    Add(Vec<ServiceId>),
    /// This one is not done.
    TakeOut(ServiceId),
}

/// Something that does not hang together, in words, with what would mend it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Objection {
    /// Which lines, why, and what would mend it.
    pub words: String,
    /// Each of these would.
    pub mends: Vec<Mend>,
}

/// More alternatives than these are named and not offered as buttons.
const MOST_ALTERNATIVES: usize = 5;

/// All that stands against agreeing to these services on this pair. Lines that lack the same thing
/// by the same rule are named together.
pub fn objections(
    rules: &RuleSet,
    found: &AsFound,
    lines: &BTreeSet<ServiceId>,
    offered: &BTreeSet<ServiceId>,
    title: Titles<'_>,
) -> Result<Vec<Objection>, TooTangled> {
    let mut lacking: BTreeMap<RuleId, Vec<ServiceId>> = BTreeMap::new();
    let all = check_scope(rules, found, lines, offered)?;
    for one in &all {
        if let Inconsistency::Lacks { line, rule, .. } = one {
            lacking.entry(rule.clone()).or_default().push(*line);
        }
    }
    let mut objections = Vec::new();
    for one in &all {
        let among = match one {
            Inconsistency::Lacks { rule, .. } => match lacking.remove(rule) {
                Some(lines) => lines,
                None => continue,
            },
            Inconsistency::Clash { .. }
            | Inconsistency::Pointless { .. }
            | Inconsistency::Unfit { .. } => Vec::new(),
        };
        objections.push(Objection {
            words: one.message_about(&among, rules, title),
            mends: mends(one, &among),
        });
    }
    Ok(objections)
}

fn mends(one: &Inconsistency, among: &[ServiceId]) -> Vec<Mend> {
    match one {
        Inconsistency::Lacks { mended_by, .. } => {
            let added = mended_by.iter().take(MOST_ALTERNATIVES);
            let added = added.map(|service| Mend::Add(vec![*service]));
            // Taking out many lines one by one is no way out of it.
            let out = among.iter().filter(|_| among.len() <= 2);
            added.chain(out.copied().map(Mend::TakeOut)).collect()
        }
        Inconsistency::Clash { line, other, .. } => {
            vec![Mend::TakeOut(*line), Mend::TakeOut(*other)]
        }
        Inconsistency::Pointless { line, .. } | Inconsistency::Unfit { line, .. } => {
            vec![Mend::TakeOut(*line)]
        }
    }
}

/// All that has to be added so that these services hang together, at the lowest cost; nothing if
/// they do already, or if adding alone does not help.
pub fn completion(
    rules: &RuleSet,
    found: &AsFound,
    lines: &BTreeSet<ServiceId>,
    efforts: &Efforts,
) -> Result<Option<Mend>, TooTangled> {
    let cheapest = propose(rules, found, lines, efforts)?.cheapest;
    let whole = cheapest.filter(|whole| whole.dropped.is_empty());
    let added = whole.map(|whole| {
        let added = whole.lines.into_iter().filter(|one| !lines.contains(one));
        added.collect::<Vec<_>>()
    });
    Ok(added.filter(|added| !added.is_empty()).map(Mend::Add))
}

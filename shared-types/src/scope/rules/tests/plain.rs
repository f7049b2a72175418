//! The rules, read once more and plainly, with nothing in common with the search.

use std::collections::BTreeSet;

use super::Lines;
use crate::id::ServiceId;
use crate::scope::rules::condition::Condition;
use crate::scope::rules::{AsFound, Claim, Need, RuleSet};

pub(super) struct Plain {
    claims: Vec<Claim>,
    pub(super) broken: BTreeSet<Condition>,
    /// What serves, and what it spares, through every chain.
    spares: BTreeSet<(ServiceId, ServiceId)>,
}

impl Plain {
    pub(super) fn read(rules: &RuleSet, found: &AsFound) -> Self {
        let claims: Vec<Claim> = rules
            .rules
            .values()
            .filter(|rule| rule.case.fits(found))
            .map(|rule| rule.claim.clone())
            .collect();
        let mut spares = BTreeSet::new();
        for claim in &claims {
            if let Claim::Spares { done, spared } = claim {
                spares.extend(done.iter().flat_map(|a| spared.iter().map(|b| (*a, *b))));
            }
        }
        loop {
            let longer: BTreeSet<_> = spares
                .iter()
                .flat_map(|(a, b)| {
                    let next = spares.iter().filter(move |(from, _)| from == b);
                    next.map(|(_, c)| (*a, *c))
                })
                .collect();
            if longer.is_subset(&spares) {
                break;
            }
            spares.extend(longer);
        }
        Self {
            claims,
            broken: found.broken(),
            spares,
        }
    }

    fn mends(&self, condition: Condition, set: &Lines) -> bool {
        self.claims.iter().any(|claim| {
            matches!(claim, Claim::Mends { condition: mended, best_first }
                if *mended == condition && best_first.iter().any(|one| set.contains(one)))
        })
    }

    fn meets(&self, need: &Need, set: &Lines) -> bool {
        match need {
            Need::Line(line) => set.contains(line),
            Need::Sound(condition) => {
                !self.broken.contains(condition) || self.mends(*condition, set)
            }
        }
    }

    pub(super) fn allows(&self, set: &Lines) -> bool {
        let pointless = self
            .spares
            .iter()
            .any(|(a, b)| set.contains(a) && set.contains(b));
        !pointless
            && self.claims.iter().all(|claim| match claim {
                Claim::Requires { these, any_of } => {
                    these.is_disjoint(set) || any_of.iter().any(|need| self.meets(need, set))
                }
                Claim::OneOf { these } => these.intersection(set).count() <= 1,
                Claim::Excludes { these, those } => !these
                    .iter()
                    .any(|a| those.iter().any(|b| set.contains(a) && set.contains(b))),
                Claim::Unfit { these } => these.is_disjoint(set),
                Claim::Spares { .. }
                | Claim::Mends { .. }
                | Claim::Prefers { .. }
                | Claim::Together { .. } => true,
            })
    }

    pub(super) fn honours(&self, agreed: &Lines, set: &Lines) -> bool {
        agreed.iter().all(|wish| {
            set.contains(wish) || set.iter().any(|one| self.spares.contains(&(*one, *wish)))
        })
    }

    pub(super) fn mended(&self, set: &Lines) -> usize {
        self.broken
            .iter()
            .filter(|one| self.mends(**one, set))
            .count()
    }

    pub(super) fn demerit(&self, set: &Lines) -> usize {
        let ranks = self.claims.iter().map(|claim| match claim {
            Claim::Mends { best_first, .. } | Claim::Prefers { best_first } => {
                let ranked = best_first.iter().enumerate();
                ranked
                    .filter(|(_, one)| set.contains(one))
                    .map(|(rank, _)| rank)
                    .sum()
            }
            Claim::Requires { .. }
            | Claim::OneOf { .. }
            | Claim::Excludes { .. }
            | Claim::Spares { .. }
            | Claim::Unfit { .. }
            | Claim::Together { .. } => 0,
        });
        ranks.sum()
    }
}

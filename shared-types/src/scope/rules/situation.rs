//! The rules that can be in force at once on some kind of pair, and what is wrong among them.

use std::collections::BTreeSet;

use crate::id::ServiceId;
use crate::scope::rules::bits::{Bits, closed};
use crate::scope::rules::condition::Condition;
use crate::scope::rules::search::{Aim, Goal, Quest, Strength};
use crate::scope::rules::ties::{InForce, Ties, core};
use crate::scope::rules::trouble::RuleTrouble;
use crate::scope::rules::{Claim, Need, RuleId, TooTangled};

/// Rules that are in force at once.
pub(super) struct Situation<'a> {
    pub(super) rules: Vec<InForce<'a>>,
    pub(super) offered: &'a BTreeSet<ServiceId>,
}

impl<'a> Situation<'a> {
    pub(super) fn troubles(&self) -> Result<BTreeSet<RuleTrouble>, TooTangled> {
        let fit = self.without(|claim| matches!(claim, Claim::Unfit { .. }));
        let ties = fit.bind(&BTreeSet::new())?;
        let mut troubles = BTreeSet::new();
        let mut circular = BTreeSet::new();
        for circle in circles(&ties.spared_by) {
            let services = ties.services(circle);
            circular.extend(services.iter().copied());
            let rules = self.naming_two(&services, |claim| matches!(claim, Claim::Spares { .. }));
            troubles.insert(RuleTrouble::PointlessCircle { services, rules });
        }
        for circle in circles(&closed(self.better(&ties))) {
            let services = ties.services(circle);
            let rules = self.naming_two(&services, |claim| {
                matches!(claim, Claim::Mends { .. } | Claim::Prefers { .. })
            });
            troubles.insert(RuleTrouble::OrderCircle { services, rules });
        }
        for (id, rule) in &self.rules {
            if let Claim::Together { during, also, .. } = &rule.claim
                && during.is_subset(self.offered)
                && self.offered.contains(also)
            {
                let mut ever = false;
                for service in during {
                    ever = ever || fit.allows(&ties, &[*service, *also])?;
                }
                if !ever {
                    let rule = (*id).clone();
                    troubles.insert(RuleTrouble::NeverTogether { rule });
                }
            }
        }
        for service in self.offered.difference(&circular) {
            if !fit.allows(&ties, &[*service])? {
                let service = *service;
                let rules = fit.core(service)?;
                troubles.insert(RuleTrouble::Contradiction { service, rules });
            }
        }
        Ok(troubles)
    }

    /// The rules of a kind that name at least two of these, and so lead from one to another.
    fn naming_two(&self, services: &[ServiceId], of: impl Fn(&Claim) -> bool) -> Vec<RuleId> {
        let leads = |claim: &Claim| {
            let named = claim.services();
            of(claim) && services.iter().filter(|one| named.contains(one)).count() > 1
        };
        let rules = self.rules.iter().filter(|(_, rule)| leads(&rule.claim));
        rules.map(|(id, _)| (*id).clone()).collect()
    }

    fn without(&self, left_out: impl Fn(&Claim) -> bool) -> Self {
        let mut rules = self.rules.clone();
        rules.retain(|(_, rule)| !left_out(&rule.claim));
        Self { rules, ..*self }
    }

    pub(super) fn bind(&self, broken: &BTreeSet<Condition>) -> Result<Ties<'a>, TooTangled> {
        Ties::bind(&self.rules, broken, self.offered)
    }

    /// Whether a sound scope could hold all of these.
    pub(super) fn allows(
        &self,
        ties: &Ties<'_>,
        services: &[ServiceId],
    ) -> Result<bool, TooTangled> {
        let must = |position: usize| Bits::one(position);
        self.meets(ties, ties.bits(services).positions().map(must).collect())
    }

    /// Whether a sound scope could hold this one, or what takes its place.
    pub(super) fn serves(&self, ties: &Ties<'_>, service: ServiceId) -> Result<bool, TooTangled> {
        let serving = |position: usize| Bits::one(position) | ties.spared_by[position];
        self.meets(
            ties,
            ties.position(service).map(serving).into_iter().collect(),
        )
    }

    fn meets(&self, ties: &Ties<'_>, goals: Vec<Bits>) -> Result<bool, TooTangled> {
        let all: Bits = (0..ties.services.len()).collect();
        let quest = Quest {
            ties,
            goals: goals
                .into_iter()
                .map(|any| Goal {
                    any,
                    strength: Strength::Must,
                })
                .collect(),
            wishes: Bits::NONE,
            barred: (all - ties.bits(self.offered)) | ties.all_unfit(),
            costs: vec![0; ties.services.len()],
            aim: Aim::Possible,
        };
        Ok(quest.solve()?.is_some())
    }

    /// A smallest set of rules that leaves no way to do this service.
    pub(super) fn core(&self, service: ServiceId) -> Result<Vec<RuleId>, TooTangled> {
        core(self.rules.clone(), |rules| {
            let fewer = Situation {
                rules: rules.to_vec(),
                offered: self.offered,
            };
            fewer.allows(&fewer.bind(&BTreeSet::new())?, &[service])
        })
    }

    /// Each service with each condition that it relies on and that something mends.
    pub(super) fn relying(&self) -> BTreeSet<(ServiceId, Condition)> {
        let mends = |condition: &Condition| {
            self.rules.iter().any(|(_, rule)| {
                matches!(&rule.claim, Claim::Mends { condition: mended, best_first }
                    if mended == condition
                        && best_first.iter().any(|service| self.offered.contains(service)))
            })
        };
        let mut relying = BTreeSet::new();
        for (_, rule) in &self.rules {
            if let Claim::Requires { these, any_of } = &rule.claim {
                for need in any_of {
                    if let Need::Sound(condition) = need
                        && mends(condition)
                    {
                        let these = these.intersection(self.offered);
                        relying.extend(these.map(|service| (*service, *condition)));
                    }
                }
            }
        }
        relying
    }

    /// By position, what stands directly before it in some order.
    fn better(&self, ties: &Ties<'_>) -> Vec<Bits> {
        let mut better = vec![Bits::NONE; ties.services.len()];
        for (_, rule) in &self.rules {
            if let Claim::Mends { best_first, .. } | Claim::Prefers { best_first } = &rule.claim {
                for pair in best_first.windows(2) {
                    if let [before, after] = pair
                        && let Some(position) = ties.position(*after)
                    {
                        better[position] |= ties.bits([before]);
                    }
                }
            }
        }
        better
    }
}

/// Groups of positions that lead to each other in a closed relation.
fn circles(relation: &[Bits]) -> BTreeSet<Bits> {
    let leads = |from: usize, to: usize| relation.get(from).is_some_and(|bits| bits.has(to));
    let circular = (0..relation.len()).filter(|position| leads(*position, *position));
    circular
        .map(|one| {
            let others = (0..relation.len()).filter(|to| leads(one, *to) && leads(*to, one));
            others.collect()
        })
        .collect()
}

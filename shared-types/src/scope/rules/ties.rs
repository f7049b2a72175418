//! The rules as they bind one pair: which services need, forbid and spare each other.

use std::collections::{BTreeMap, BTreeSet};

use crate::id::ServiceId;
use crate::scope::rules::bits::{Bits, closed};
use crate::scope::rules::condition::Condition;
use crate::scope::rules::{AsFound, Claim, Need, Rule, RuleId, RuleSet, Standing, TooTangled};

/// A rule in force, with its name.
pub(super) type InForce<'a> = (&'a RuleId, &'a Rule);

/// The rules in force on this pair.
pub(super) fn in_force<'a>(rules: &'a RuleSet, found: &AsFound) -> Vec<InForce<'a>> {
    let holds = |(_, rule): &InForce<'_>| rule.standing == Standing::On && rule.case.fits(found);
    rules.rules.iter().filter(holds).collect()
}

/// Leaves out rule after rule while there is still no way: what remains leaves no way together, and
/// would leave one without any single rule of it. Remedies stay in force and are never in the way.
pub(super) fn core(
    mut rules: Vec<InForce<'_>>,
    has_way: impl Fn(&[InForce<'_>]) -> Result<bool, TooTangled>,
) -> Result<Vec<RuleId>, TooTangled> {
    let is_remedy = |rule: &Rule| matches!(rule.claim, Claim::Mends { .. });
    // A rule that spares a line also lets another serve for it, so that one round may free others.
    loop {
        let before = rules.len();
        for (id, rule) in rules.clone() {
            let mut fewer = rules.clone();
            fewer.retain(|(other, _)| *other != id);
            if !is_remedy(rule) && !has_way(&fewer)? {
                rules = fewer;
            }
        }
        if rules.len() == before {
            break;
        }
    }
    rules.retain(|(_, rule)| !is_remedy(rule));
    Ok(rules.into_iter().map(|(id, _)| id.clone()).collect())
}

/// Each of `these` needs one of `any_of`.
pub(super) struct Tie<'a> {
    pub(super) rule: &'a RuleId,
    pub(super) these: Bits,
    pub(super) any_of: Bits,
    /// The conditions among the alternatives; none of them holds by itself.
    pub(super) lacking: BTreeSet<Condition>,
}

/// Services that are not done together: any two of `these`, or one of `these` and one of `those`.
pub(super) struct Clash<'a> {
    pub(super) rule: &'a RuleId,
    pub(super) these: Bits,
    pub(super) those: Option<Bits>,
}

/// What one rule says of one service or one set of services.
pub(super) struct Spare<'a> {
    pub(super) rule: &'a RuleId,
    pub(super) done: Bits,
    pub(super) spared: Bits,
}

/// All that binds one pair.
pub(super) struct Ties<'a> {
    /// The services concerned, sorted; a service's position here is its bit.
    pub(super) services: Vec<ServiceId>,
    pub(super) needs: Vec<Tie<'a>>,
    pub(super) clashes: Vec<Clash<'a>>,
    pub(super) spares: Vec<Spare<'a>>,
    pub(super) unfit: Vec<(&'a RuleId, Bits)>,
    /// By position, what cannot be done with it, pointless lines included.
    pub(super) forbids: Vec<Bits>,
    /// By position, all that makes it pointless, by one rule or by several in a row.
    pub(super) spared_by: Vec<Bits>,
    /// What mends each condition.
    pub(super) mends: BTreeMap<Condition, Bits>,
    /// By position, how far it stands from the best of its alternatives.
    pub(super) demerits: Vec<u32>,
}

impl<'a> Ties<'a> {
    /// Binds these rules for a pair on which `broken` does not hold, with `more` services that
    /// may not be named by any rule.
    pub(super) fn bind(
        rules: &[InForce<'a>],
        broken: &BTreeSet<Condition>,
        more: &BTreeSet<ServiceId>,
    ) -> Result<Self, TooTangled> {
        let mut services = more.clone();
        for (_, rule) in rules {
            services.extend(rule.claim.services());
        }
        if services.len() > Bits::MOST {
            return Err(TooTangled::TooManyServices);
        }
        let count = services.len();
        let mut bound = Self {
            services: services.into_iter().collect(),
            needs: Vec::new(),
            clashes: Vec::new(),
            spares: Vec::new(),
            unfit: Vec::new(),
            forbids: vec![Bits::NONE; count],
            spared_by: vec![Bits::NONE; count],
            mends: BTreeMap::new(),
            demerits: vec![0; count],
        };
        for (_, rule) in rules {
            bound.add_remedies(&rule.claim);
        }
        for (id, rule) in rules {
            bound.add_ties(id, &rule.claim, broken);
        }
        bound.close_spares();
        bound.close_forbids();
        Ok(bound)
    }

    /// The set of those that are concerned at all.
    pub(super) fn bits<'s>(&self, services: impl IntoIterator<Item = &'s ServiceId>) -> Bits {
        services
            .into_iter()
            .filter_map(|one| self.position(*one))
            .collect()
    }

    /// Where a service stands.
    pub(super) fn position(&self, service: ServiceId) -> Option<usize> {
        self.services.binary_search(&service).ok()
    }

    /// The services of a set.
    pub(super) fn services(&self, bits: Bits) -> Vec<ServiceId> {
        bits.positions()
            .filter_map(|position| self.services.get(position).copied())
            .collect()
    }

    /// All that may not be done on this pair.
    pub(super) fn all_unfit(&self) -> Bits {
        self.unfit
            .iter()
            .fold(Bits::NONE, |all, (_, these)| all | *these)
    }

    /// What mends a condition.
    pub(super) fn mending(&self, condition: Condition) -> Bits {
        self.mends.get(&condition).copied().unwrap_or_default()
    }

    /// Those of the services on offer that something could be mended with: neither unfit, nor in
    /// need of what is not to be had.
    pub(super) fn addable(&self, offered: Bits) -> Bits {
        let mut addable = offered - self.all_unfit();
        loop {
            let stuck = self.needs.iter().filter(|tie| !tie.any_of.meets(addable));
            let fewer = stuck.fold(addable, |left, tie| left - tie.these);
            if fewer == addable {
                return addable;
            }
            addable = fewer;
        }
    }

    fn add_remedies(&mut self, claim: &Claim) {
        let best_first = match claim {
            Claim::Mends {
                condition,
                best_first,
            } => {
                let remedies = self.bits(best_first);
                *self.mends.entry(*condition).or_default() |= remedies;
                best_first
            }
            Claim::Prefers { best_first } => best_first,
            Claim::Requires { .. }
            | Claim::OneOf { .. }
            | Claim::Excludes { .. }
            | Claim::Spares { .. }
            | Claim::Unfit { .. }
            | Claim::Together { .. } => return,
        };
        for (rank, service) in (0..).zip(best_first) {
            if let Some(position) = self.position(*service) {
                self.demerits[position] += rank;
            }
        }
    }

    fn add_ties(&mut self, rule: &'a RuleId, claim: &Claim, broken: &BTreeSet<Condition>) {
        match claim {
            Claim::Requires { these, any_of } => self.add_requirement(rule, these, any_of, broken),
            Claim::OneOf { these } => self.clashes.push(Clash {
                rule,
                these: self.bits(these),
                those: None,
            }),
            Claim::Excludes { these, those } => self.clashes.push(Clash {
                rule,
                these: self.bits(these),
                those: Some(self.bits(those)),
            }),
            Claim::Spares { done, spared } => self.spares.push(Spare {
                rule,
                done: self.bits(done),
                spared: self.bits(spared),
            }),
            Claim::Unfit { these } => self.unfit.push((rule, self.bits(these))),
            Claim::Mends { .. } | Claim::Prefers { .. } | Claim::Together { .. } => {}
        }
    }

    fn add_requirement(
        &mut self,
        rule: &'a RuleId,
        these: &BTreeSet<ServiceId>,
        any_of: &BTreeSet<Need>,
        broken: &BTreeSet<Condition>,
    ) {
        let mut alternatives = Bits::NONE;
        let mut lacking = BTreeSet::new();
        for need in any_of {
            match need {
                Need::Line(service) => alternatives |= self.bits([service]),
                Need::Sound(condition) if broken.contains(condition) => {
                    alternatives |= self.mending(*condition);
                    lacking.insert(*condition);
                }
                // It holds by itself, and so does the requirement.
                Need::Sound(_) => return,
            }
        }
        // A service that is an alternative itself needs no other.
        let these = self.bits(these) - alternatives;
        self.needs.push(Tie {
            rule,
            these,
            any_of: alternatives,
            lacking,
        });
    }

    /// What serves in place of a service serves in place of all that it would have spared.
    fn close_spares(&mut self) {
        for spare in &self.spares {
            for position in spare.spared.positions() {
                self.spared_by[position] |= spare.done;
            }
        }
        self.spared_by = closed(std::mem::take(&mut self.spared_by));
    }

    fn close_forbids(&mut self) {
        let mut pairs: Vec<(usize, Bits)> = Vec::new();
        for clash in &self.clashes {
            for position in clash.these.positions() {
                let others = clash.those.unwrap_or(clash.these - Bits::one(position));
                pairs.push((position, others));
            }
        }
        pairs.extend(self.spared_by.iter().copied().enumerate());
        for (position, others) in pairs {
            self.forbids[position] |= others;
            for other in others.positions() {
                self.forbids[other] |= Bits::one(position);
            }
        }
    }
}

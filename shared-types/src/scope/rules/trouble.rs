//! What is wrong with a set of rules, found when it is saved.
//!
//! A contradiction is found by its effect: a service that no sound scope could ever hold on some
//! kind of pair, whatever the chain of rules between. What a shop rules out by saying so
//! ([`Claim::Unfit`]) is no contradiction. Two services that merely require each other are none
//! either: both are done, or neither.

use std::collections::{BTreeMap, BTreeSet};

use crate::id::ServiceId;
use crate::scope::discovery::Discovery;
use crate::scope::rules::condition::Condition;
use crate::scope::rules::explain::listed;
use crate::scope::rules::situation::Situation;
use crate::scope::rules::ties::{InForce, in_force};
use crate::scope::rules::{
    AsFound, Claim, Need, Rule, RuleId, RuleSet, Standing, Titles, TooTangled,
};
use crate::ticket::{Construction, Rating};

/// Something wrong with a set of rules.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum RuleTrouble {
    /// The rule has too few services or alternatives to say anything.
    SaysNothing {
        /// The rule.
        rule: RuleId,
    },
    /// The rule names a service twice among its alternatives, or as better done with itself.
    NamesTwice {
        /// The rule.
        rule: RuleId,
        /// The service.
        service: ServiceId,
    },
    /// These rules contradict each other: together they leave no way to do this service.
    Contradiction {
        /// The service.
        service: ServiceId,
        /// The rules, none of which could be left out of the contradiction.
        rules: Vec<RuleId>,
    },
    /// Once the condition is broken, whatever mends it rules out this service, which needs it.
    NoRemedy {
        /// The service.
        service: ServiceId,
        /// The condition.
        condition: Condition,
        /// The rules that say what it needs and what mends that.
        rules: Vec<RuleId>,
    },
    /// Each of these services makes the next pointless, and the last the first.
    PointlessCircle {
        /// The services.
        services: Vec<ServiceId>,
        /// The rules that say so.
        rules: Vec<RuleId>,
    },
    /// Each of these services is better than the next by one rule, and the last than the first.
    OrderCircle {
        /// The services.
        services: Vec<ServiceId>,
        /// The rules that say so.
        rules: Vec<RuleId>,
    },
    /// What is said to be better done together can never be done together.
    NeverTogether {
        /// The rule.
        rule: RuleId,
    },
    /// A pair could not be put back as it was.
    NoWayBack,
    /// The rules could not be worked through.
    Tangled(TooTangled),
}

impl RuleSet {
    /// Finds what is wrong with the rules in force, for a shop with these services.
    pub fn check(&self, offered: &BTreeSet<ServiceId>) -> Result<(), Vec<RuleTrouble>> {
        let mut troubles = self.misspoken();
        for rules in self.situations() {
            let found = Situation { rules, offered }.troubles();
            troubles.extend(found.unwrap_or_else(|tangle| [RuleTrouble::Tangled(tangle)].into()));
        }
        // What follows would only say again what is wrong already.
        if troubles.is_empty() {
            let ever = self.never_possible(offered);
            troubles.extend(ever.unwrap_or_else(|tangle| [RuleTrouble::Tangled(tangle)].into()));
        }
        if troubles.is_empty() {
            Ok(())
        } else {
            Err(troubles.into_iter().collect())
        }
    }

    /// Rules that say nothing, or name something twice.
    fn misspoken(&self) -> BTreeSet<RuleTrouble> {
        let on = |(_, rule): &InForce<'_>| rule.standing == Standing::On;
        let mut troubles = BTreeSet::new();
        for (id, rule) in self.rules.iter().filter(on) {
            let (fewest, named) = match &rule.claim {
                Claim::Requires { these, any_of } => (1, these.len().min(any_of.len())),
                Claim::OneOf { these } => (2, these.len()),
                Claim::Excludes { these, those } => (1, these.len().min(those.len())),
                Claim::Spares { done, spared } => (1, done.len().min(spared.len())),
                Claim::Unfit { these } => (1, these.len()),
                Claim::Mends { best_first, .. } => (1, best_first.len()),
                Claim::Prefers { best_first } => (2, best_first.len()),
                Claim::Together { during, .. } => (1, during.len()),
            };
            if named < fewest {
                troubles.insert(RuleTrouble::SaysNothing { rule: id.clone() });
            }
            for service in named_twice(&rule.claim) {
                let rule = id.clone();
                troubles.insert(RuleTrouble::NamesTwice { rule, service });
            }
        }
        troubles
    }

    /// The different sets of rules that can be in force at once: one for each kind of pair, alone
    /// and with each discovery that a rule asks for.
    fn situations(&self) -> Vec<Vec<InForce<'_>>> {
        let asked: BTreeSet<Discovery> = self
            .rules
            .values()
            .flat_map(|rule| rule.case.discoveries.iter().copied())
            .collect();
        let mut situations: BTreeMap<Vec<&RuleId>, Vec<InForce<'_>>> = BTreeMap::new();
        for construction in Construction::ALL {
            for rating in [Rating::Ordinary, Rating::Protective] {
                for discovery in std::iter::once(None).chain(asked.iter().copied().map(Some)) {
                    let rules = in_force(
                        self,
                        &AsFound {
                            construction,
                            rating,
                            discoveries: discovery.into_iter().collect(),
                        },
                    );
                    let ids = rules.iter().map(|(id, _)| *id).collect();
                    situations.insert(ids, rules);
                }
            }
        }
        situations.into_values().collect()
    }

    /// Services that can be done on no pair at all, remedies that never help, and no way back.
    fn never_possible(
        &self,
        offered: &BTreeSet<ServiceId>,
    ) -> Result<BTreeSet<RuleTrouble>, TooTangled> {
        let mut possible = BTreeSet::new();
        let mut unfit = BTreeSet::new();
        let mut mended: BTreeMap<(ServiceId, Condition), bool> = BTreeMap::new();
        let mut way_back = self.put_back.is_none();
        for rules in self.situations() {
            let situation = Situation { rules, offered };
            let ties = situation.bind(&BTreeSet::new())?;
            unfit.extend(ties.services(ties.all_unfit()));
            for service in offered {
                if !possible.contains(service) && situation.allows(&ties, &[*service])? {
                    possible.insert(*service);
                }
            }
            for (service, condition) in situation.relying() {
                let known = mended.entry((service, condition)).or_default();
                if !*known {
                    let ties = situation.bind(&[condition].into())?;
                    *known = situation.serves(&ties, service)?;
                }
            }
            if let Some(back) = self.put_back.filter(|_| !way_back) {
                way_back = situation.allows(&ties, &[back.opened_by, back.closed_by])?;
            }
        }
        let mut troubles = BTreeSet::new();
        for service in offered {
            if !possible.contains(service) && !unfit.contains(service) {
                let service = *service;
                let rules = match self.situations().into_iter().next() {
                    Some(rules) => Situation { rules, offered }.core(service)?,
                    None => Vec::new(),
                };
                troubles.insert(RuleTrouble::Contradiction { service, rules });
            }
        }
        for ((service, condition), _) in mended.into_iter().filter(|(_, known)| !known) {
            if possible.contains(&service) {
                troubles.insert(RuleTrouble::NoRemedy {
                    service,
                    condition,
                    rules: self.about_remedies(service, condition),
                });
            }
        }
        if !way_back {
            troubles.insert(RuleTrouble::NoWayBack);
        }
        Ok(troubles)
    }
}

impl RuleSet {
    /// The rules in force that let this service rely on a condition, or say what mends that.
    fn about_remedies(&self, service: ServiceId, condition: Condition) -> Vec<RuleId> {
        let is_about = |rule: &Rule| match &rule.claim {
            Claim::Requires { these, any_of } => {
                these.contains(&service) && any_of.contains(&Need::Sound(condition))
            }
            Claim::Mends {
                condition: mended, ..
            } => *mended == condition,
            Claim::OneOf { .. }
            | Claim::Excludes { .. }
            | Claim::Spares { .. }
            | Claim::Unfit { .. }
            | Claim::Prefers { .. }
            | Claim::Together { .. } => false,
        };
        let rules = self.rules.iter();
        let rules = rules.filter(|(_, rule)| rule.standing == Standing::On && is_about(rule));
        rules.map(|(id, _)| id.clone()).collect()
    }
}

/// Services that a rule names twice where that makes no sense.
fn named_twice(claim: &Claim) -> BTreeSet<ServiceId> {
    match claim {
        Claim::Mends { best_first, .. } | Claim::Prefers { best_first } => {
            let mut seen = BTreeSet::new();
            let again = |service: &&ServiceId| !seen.insert(**service);
            best_first.iter().filter(again).copied().collect()
        }
        Claim::Together { during, also, .. } => {
            during.iter().filter(|one| *one == also).copied().collect()
        }
        Claim::Requires { .. }
        | Claim::OneOf { .. }
        | Claim::Excludes { .. }
        | Claim::Spares { .. }
        | Claim::Unfit { .. } => BTreeSet::new(),
    }
}

impl RuleTrouble {
    /// The rules in it, of which one has to change.
    pub fn rules(&self) -> &[RuleId] {
        match self {
            Self::SaysNothing { rule }
            | Self::NamesTwice { rule, .. }
            | Self::NeverTogether { rule } => std::slice::from_ref(rule),
            Self::Contradiction { rules, .. }
            | Self::NoRemedy { rules, .. }
            | Self::PointlessCircle { rules, .. }
            | Self::OrderCircle { rules, .. } => rules,
            Self::NoWayBack | Self::Tangled(_) => &[],
        }
    }

    /// In words for the owner: what does not work, by which rules, and what to change.
    pub fn message(&self, rules: &RuleSet, title: Titles<'_>) -> String {
        let named = |ids: &[RuleId]| {
            let known = ids.iter().filter_map(|id| rules.rules.get(id));
            let names: Vec<_> = known.map(|rule| rule.name(title)).collect();
            names.join("; ")
        };
        match self {
            Self::SaysNothing { rule } => format!(
                "A rule names too few services to say anything: {}. Choose more, or switch it off.",
                named(std::slice::from_ref(rule))
            ),
            Self::NamesTwice { rule, service } => format!(
                "A rule names “{}” twice: {}. Leave one out.",
                title(*service),
                named(std::slice::from_ref(rule))
            ),
            Self::Contradiction { service, rules } if rules.is_empty() => format!(
                "“{}” could never be done: something that it needs is ruled out on every pair.",
                title(*service)
            ),
            Self::Contradiction { service, rules } => format!(
                "“{}” could never be done, because together these rules leave no way: {}. Change \
                 one of them or switch it off.",
                title(*service),
                named(rules)
            ),
            Self::NoRemedy {
                service,
                condition,
                rules,
            } => format!(
                "“{}” needs {}, but whatever mends that rules “{0}” out: {}. Change one of them or \
                 switch it off.",
                title(*service),
                condition.holds(),
                named(rules)
            ),
            Self::PointlessCircle { services, rules } => format!(
                "{} make each other pointless in a circle: {}. Decide which one serves for the \
                 others, and switch the other rule off.",
                listed(services, title, "and"),
                named(rules)
            ),
            Self::OrderCircle { services, rules } => format!(
                "One rule puts {} in one order, another in the opposite one: {}. Give both the \
                 same order.",
                listed(services, title, "and"),
                named(rules)
            ),
            Self::NeverTogether { rule } => format!(
                "A rule says what is better done together, but other rules never allow it: {}. \
                 Switch it off, or leave out what it can’t be done with.",
                named(std::slice::from_ref(rule))
            ),
            Self::NoWayBack => "A pair that was opened could not be put back as it was: other \
                                rules forbid it."
                .to_owned(),
            Self::Tangled(tangle) => tangle.to_string(),
        }
    }
}

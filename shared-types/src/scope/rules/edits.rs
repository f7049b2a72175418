//! What a shop changed about its rules. Shipped rules stay as the program has them and the changes
//! stand beside them, so that a later version's rules arrive and the shop's words stay.

use std::collections::{BTreeMap, BTreeSet};

use serde::{Deserialize, Serialize};

use crate::id::ServiceId;
use crate::scope::rules::{Claim, Need, Reason, Rule, RuleId, RuleSet, Standing};

/// What the shop changed about a shipped rule.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub struct Change {
    /// Whether it is in force.
    pub standing: Standing,
    /// The shop's own words, if it found better ones.
    pub reason: Option<Reason>,
}

/// All that the shop changed.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub struct Edits {
    /// About shipped rules; one that a later version does without is kept and says nothing.
    pub shipped: BTreeMap<RuleId, Change>,
    /// The shop's own rules.
    pub own: BTreeMap<RuleId, Rule>,
}

impl Edits {
    /// The rules of the shop: the shipped ones as they were changed, and its own.
    pub fn over(&self, shipped: RuleSet) -> RuleSet {
        let mut rules = shipped;
        for (id, change) in &self.shipped {
            if let Some(rule) = rules.rules.get_mut(id) {
                rule.standing = change.standing;
                if let Some(reason) = &change.reason {
                    rule.reason = reason.clone();
                }
            }
        }
        for (id, rule) in &self.own {
            rules.rules.entry(id.clone()).or_insert(rule.clone());
        }
        rules
    }

    /// Switches a rule on or off.
    pub fn switch(&mut self, id: &RuleId, standing: Standing) {
        if let Some(own) = self.own.get_mut(id) {
            own.standing = standing;
        } else {
            self.shipped.entry(id.clone()).or_default().standing = standing;
            self.forget_if_as_shipped(id);
        }
    }

    /// Puts the shop's words in the place of a shipped rule's; nothing brings those back.
    pub fn reword(&mut self, id: &RuleId, reason: Option<Reason>) {
        self.shipped.entry(id.clone()).or_default().reason = reason;
        self.forget_if_as_shipped(id);
    }

    fn forget_if_as_shipped(&mut self, id: &RuleId) {
        if self.shipped.get(id) == Some(&Change::default()) {
            self.shipped.remove(id);
        }
    }
}

impl Claim {
    /// Whether it has nothing to say where only these services are done: what it needs, rules out
    /// or compares is not among them. A requirement that nothing there could meet rests as well:
    /// a shop that does no edges at all still lays soles.
    pub fn rests(&self, known: &BTreeSet<ServiceId>) -> bool {
        let none = |of: &BTreeSet<ServiceId>| of.is_disjoint(known);
        let count = |of: &[ServiceId]| of.iter().filter(|one| known.contains(one)).count();
        match self {
            Self::Requires { these, any_of } => {
                let could = |need: &Need| match need {
                    Need::Line(service) => known.contains(service),
                    Need::Sound(_) => true,
                };
                none(these) || (!any_of.is_empty() && !any_of.iter().any(could))
            }
            Self::OneOf { these } => these.len() > 1 && these.intersection(known).count() < 2,
            Self::Excludes { these, those } => none(these) || none(those),
            Self::Spares { done, spared } => none(done) || none(spared),
            Self::Unfit { these } => none(these),
            Self::Mends { best_first, .. } => count(best_first) == 0,
            Self::Prefers { best_first } => best_first.len() > 1 && count(best_first) < 2,
            Self::Together {
                during,
                also,
                later_with,
            } => none(during) || !known.contains(also) || !later_with.is_subset(known),
        }
    }
}

impl RuleSet {
    /// The rules as they bind a shop in which only these services are known: those of its price
    /// book, and those that stand agreed though they have left it.
    #[must_use]
    pub fn among(mut self, known: &BTreeSet<ServiceId>) -> Self {
        self.rules.retain(|_, rule| !rule.claim.rests(known));
        self.put_back = self
            .put_back
            .filter(|back| known.contains(&back.opened_by) && known.contains(&back.closed_by));
        self
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::scope::rules::shipped;
    use crate::text::Words;

    fn id(text: &str) -> RuleId {
        RuleId::parse(text).unwrap()
    }

    #[test]
    fn a_reworded_rule_keeps_the_shops_words_and_can_go_back() {
        let words = |text| Words::parse(text).unwrap();
        let ours = Reason {
            bench: words("Ours."),
            customer: words("Ours, too."),
        };
        let rule = id("sole-needs-edges");
        let mut edits = Edits::default();
        edits.reword(&rule, Some(ours.clone()));
        edits.switch(&rule, Standing::Off);
        let set = edits.over(shipped::rules());
        assert_eq!(set.rules[&rule].reason, ours);
        assert_eq!(set.rules[&rule].standing, Standing::Off);
        assert_eq!(
            set.rules[&rule].claim,
            shipped::rules().rules[&rule].claim,
            "what it says arrives from the program"
        );
        edits.reword(&rule, None);
        edits.switch(&rule, Standing::On);
        assert_eq!(edits, Edits::default());
    }

    #[test]
    fn a_change_to_a_rule_that_is_no_longer_shipped_says_nothing() {
        let mut edits = Edits::default();
        edits.switch(&id("gone-since"), Standing::Off);
        assert_eq!(edits.over(shipped::rules()), shipped::rules());
    }

    /// A price book may lose any one service, and the rules still hang together.
    #[test]
    fn any_one_service_may_leave_the_price_book() {
        let all: BTreeSet<ServiceId> = (1..=41).map(shipped::service).collect();
        for gone in &all {
            let mut offered = all.clone();
            offered.remove(gone);
            let rules = shipped::rules().among(&offered);
            assert_eq!(rules.check(&offered), Ok(()), "without {gone}");
        }
        let none = BTreeSet::new();
        assert_eq!(shipped::rules().among(&none), RuleSet::default());
    }
}

//! What is better done now, because the pair is open anyway.

use std::collections::BTreeSet;

use crate::id::ServiceId;
use crate::minutes::Minutes;
use crate::money::{Money, MoneyProblem};
use crate::scope::rules::consistency::check_scope;
use crate::scope::rules::ties::in_force;
use crate::scope::rules::{
    AsFound, Claim, Effort, Efforts, Reason, RuleId, RuleSet, Titles, TooTangled,
};

/// A service that costs less now than later.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Suggestion {
    /// The service.
    pub also: ServiceId,
    /// The lines that make it cheaper.
    pub during: Vec<ServiceId>,
    /// What it takes now.
    pub now: Effort,
    /// What it would take later, with all that has to be done again to come to it.
    pub later: Effort,
    /// The rule that says so.
    pub rule: RuleId,
    /// Why.
    pub reason: Reason,
}

/// Why no suggestions could be worked out.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum NoSuggestions {
    /// The rules are too tangled.
    #[error(transparent)]
    Rules(#[from] TooTangled),
    /// The amounts do not add up.
    #[error(transparent)]
    Price(#[from] MoneyProblem),
}

/// What could be added to these lines at less than it would take later. What would bring a new
/// inconsistency into the scope is not suggested.
pub fn better_together(
    rules: &RuleSet,
    found: &AsFound,
    lines: &BTreeSet<ServiceId>,
    efforts: &Efforts,
) -> Result<Vec<Suggestion>, NoSuggestions> {
    let offered: BTreeSet<ServiceId> = efforts.keys().copied().collect();
    let before = check_scope(rules, found, lines, &offered)?;
    let mut suggestions = Vec::new();
    for (id, rule) in in_force(rules, found) {
        let Claim::Together {
            during,
            also,
            later_with,
        } = &rule.claim
        else {
            continue;
        };
        let now_done: Vec<ServiceId> = during.intersection(lines).copied().collect();
        let (Some(now), Some(extra)) = (efforts.get(also), effort_of(later_with, efforts)) else {
            continue;
        };
        if now_done.is_empty() || lines.contains(also) {
            continue;
        }
        let mut with = lines.clone();
        with.insert(*also);
        let after = check_scope(rules, found, &with, &offered)?;
        if after.iter().all(|one| before.contains(one)) {
            suggestions.push(Suggestion {
                also: *also,
                during: now_done,
                now: *now,
                later: plus(*now, &extra)?,
                rule: id.clone(),
                reason: rule.reason.clone(),
            });
        }
    }
    Ok(suggestions)
}

/// The efforts of all of these; nothing if one is not in the price book.
fn effort_of(services: &BTreeSet<ServiceId>, efforts: &Efforts) -> Option<Vec<Effort>> {
    let efforts = services.iter().map(|service| efforts.get(service).copied());
    efforts.collect()
}

fn plus(first: Effort, more: &[Effort]) -> Result<Effort, MoneyProblem> {
    let minutes: Minutes = more.iter().map(|effort| effort.minutes).sum();
    let prices = more.iter().map(|effort| effort.price);
    Ok(Effort {
        minutes: first.minutes.plus(minutes),
        price: first
            .price
            .plus(Money::sum(prices, first.price.currency())?)?,
    })
}

impl Suggestion {
    /// What is saved by doing it now.
    pub fn saves(&self) -> Result<Money, MoneyProblem> {
        self.later.price.minus(self.now.price)
    }

    /// In words for the bench: what it costs now and later.
    pub fn for_bench(&self, title: Titles<'_>) -> String {
        let (now, later) = (self.now.price, self.later.price);
        format!(
            "{} {}: {now} now, {later} later.",
            self.reason.bench,
            title(self.also)
        )
    }

    /// In words for the customer: why, and both prices.
    pub fn for_customer(&self, title: Titles<'_>) -> String {
        let (now, later) = (self.now.price, self.later.price);
        format!(
            "{} “{}” costs {now} now and {later} later.",
            self.reason.customer,
            title(self.also)
        )
    }
}

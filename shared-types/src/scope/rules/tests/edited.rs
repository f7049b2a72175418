//! The shop's edits over the shipped rules: whatever was switched off or added, what is saved goes
//! together, and what is proposed hangs together.

use std::collections::BTreeSet;

use proptest::collection::{btree_set, vec};
use proptest::prelude::{Strategy, any, prop_assert, prop_assert_eq, prop_oneof, proptest};
use proptest::sample::select;

use super::{Lines, rule};
use crate::id::ServiceId;
use crate::minutes::Minutes;
use crate::money::{Currency, Money};
use crate::scope::discovery::Discovery;
use crate::scope::rules::consistency::check_scope;
use crate::scope::rules::edits::Edits;
use crate::scope::rules::mend::completion;
use crate::scope::rules::propose::propose;
use crate::scope::rules::trouble::RuleTrouble;
use crate::scope::rules::{
    AsFound, Case, Claim, Effort, Efforts, Need, RuleId, RuleSet, Standing, shipped,
};
use crate::ticket::{Construction, Rating};

const SERVICES: u8 = 41;

fn offered() -> Lines {
    (1..=SERVICES).map(shipped::service).collect()
}

/// Each service costs its number.
fn efforts() -> Efforts {
    let effort = |number: u8| Effort {
        minutes: Minutes::new(u32::from(number)),
        price: Money::new(i64::from(number), Currency::USD).unwrap(),
    };
    (1..=SERVICES)
        .map(|number| (shipped::service(number), effort(number)))
        .collect()
}

fn some_service() -> impl Strategy<Value = ServiceId> {
    (1..=SERVICES).prop_map(shipped::service)
}

fn some_claim() -> impl Strategy<Value = Claim> {
    let few = || btree_set(some_service(), 1..3);
    prop_oneof![
        3 => (few(), few()).prop_map(|(these, any_of)| Claim::Requires {
            these,
            any_of: any_of.into_iter().map(Need::Line).collect(),
        }),
        2 => (few(), few()).prop_map(|(these, those)| Claim::Excludes { these, those }),
        1 => (few(), few()).prop_map(|(done, spared)| Claim::Spares { done, spared }),
    ]
}

fn own(number: usize) -> RuleId {
    RuleId::parse(&format!("own-{number}")).unwrap()
}

/// Saves edits one by one, as the owner's page does: one that brings trouble is refused.
fn saved(off: &BTreeSet<usize>, claims: Vec<Claim>) -> RuleSet {
    let mut edits = Edits::default();
    let mut kept = edits.clone();
    let names: Vec<RuleId> = shipped::rules().rules.into_keys().collect();
    for place in off {
        edits.switch(&names[place % names.len()], Standing::Off);
        if edits.over(shipped::rules()).check(&offered()).is_ok() {
            kept = edits.clone();
        }
        edits = kept.clone();
    }
    for (number, claim) in claims.into_iter().enumerate() {
        edits.own.insert(own(number), rule(Case::default(), claim));
        if edits.over(shipped::rules()).check(&offered()).is_ok() {
            kept = edits.clone();
        }
        edits = kept.clone();
    }
    kept.over(shipped::rules())
}

proptest! {
    #![proptest_config(proptest::prelude::ProptestConfig::with_cases(12))]

    /// By edited rules too, every choice is closed and consistent, and what completes a scope
    /// completes it.
    #[test]
    fn choices_by_edited_rules_hang_together(
        off in btree_set(any::<usize>(), 0..3),
        claims in vec(some_claim(), 0..3),
        discoveries in btree_set(select(Discovery::ALL), 0..3),
        construction in select(&Construction::ALL[..]),
        agreed in btree_set(some_service(), 0..4),
    ) {
        let rules = saved(&off, claims);
        let found = AsFound { construction, rating: Rating::Ordinary, discoveries };
        let choices = propose(&rules, &found, &agreed, &efforts()).unwrap();
        for choice in [choices.cheapest, choices.best, choices.as_it_is].into_iter().flatten() {
            let set = choice.lines.into_iter().collect();
            prop_assert_eq!(check_scope(&rules, &found, &set, &offered()).unwrap(), vec![]);
        }
        if let Some(crate::scope::rules::mend::Mend::Add(more)) =
            completion(&rules, &found, &agreed, &efforts()).unwrap()
        {
            let whole = agreed.iter().copied().chain(more).collect();
            prop_assert_eq!(check_scope(&rules, &found, &whole, &offered()).unwrap(), vec![]);
        }
    }

    /// A chain of requirements whose end excludes its beginning, or that makes itself pointless, is
    /// found among all shipped rules, and is named rule by rule.
    #[test]
    fn a_planted_contradiction_or_circle_is_found_on_save(
        numbers in btree_set(1..=SERVICES, 2..5),
        circle in any::<bool>(),
    ) {
        let chain: Vec<ServiceId> = numbers.into_iter().map(shipped::service).collect();
        let mut edits = Edits::default();
        let mut ids = Vec::new();
        let mut add = |claim| {
            ids.push(own(ids.len()));
            edits.own.insert(ids[ids.len() - 1].clone(), rule(Case::default(), claim));
        };
        for pair in chain.windows(2) {
            add(if circle {
                Claim::Spares { done: [pair[0]].into(), spared: [pair[1]].into() }
            } else {
                Claim::Requires { these: [pair[0]].into(), any_of: [Need::Line(pair[1])].into() }
            });
        }
        let (first, last) = (chain[0], chain[chain.len() - 1]);
        add(if circle {
            Claim::Spares { done: [last].into(), spared: [first].into() }
        } else {
            Claim::Excludes { these: [first].into(), those: [last].into() }
        });
        let rules = edits.over(shipped::rules());
        let troubles = rules.check(&offered()).unwrap_err();
        let title = |id: ServiceId| id.to_string();
        let is_it = |trouble: &RuleTrouble| match trouble {
            RuleTrouble::PointlessCircle { rules, .. } => {
                circle && ids.iter().all(|id| rules.contains(id))
            }
            // A shipped rule may close a shorter way to the same end.
            RuleTrouble::Contradiction { rules, .. } => {
                !circle && rules.iter().any(|rule| ids.contains(rule))
            }
            RuleTrouble::SaysNothing { .. }
            | RuleTrouble::NamesTwice { .. }
            | RuleTrouble::NoRemedy { .. }
            | RuleTrouble::OrderCircle { .. }
            | RuleTrouble::NeverTogether { .. }
            | RuleTrouble::NoWayBack
            | RuleTrouble::Tangled(_) => false,
        };
        prop_assert!(troubles.iter().any(is_it), "{:?}", troubles);
        for trouble in &troubles {
            for id in trouble.rules() {
                let name = rules.rules[id].name(&title);
                prop_assert!(trouble.message(&rules, &title).contains(&name));
            }
        }
    }
}

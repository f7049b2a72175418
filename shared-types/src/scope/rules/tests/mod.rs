//! Generated rule sets against a brute-force search with a reading of the rules of its own.

mod edited;
mod plain;
mod single;

use std::collections::BTreeSet;

use proptest::collection::{btree_set, vec};
use proptest::prelude::{
    Just, Strategy, any, prop_assert, prop_assert_eq, prop_assume, prop_oneof, proptest,
};
use proptest::sample::select;

use self::plain::Plain;
use crate::id::ServiceId;
use crate::minutes::Minutes;
use crate::money::{Currency, Money};
use crate::scope::discovery::Discovery;
use crate::scope::rules::condition::Condition;
use crate::scope::rules::consistency::check_scope;
use crate::scope::rules::propose::{Proposal, propose};
use crate::scope::rules::trouble::RuleTrouble;
use crate::scope::rules::{
    AsFound, Case, Claim, Effort, Efforts, Need, Reason, Rule, RuleId, RuleSet, Standing,
};
use crate::text::Words;
use crate::ticket::{Construction, Rating};

type Lines = BTreeSet<ServiceId>;

const SERVICES: u8 = 9;

/// Each breaks one condition, so that they can be drawn freely.
const DISCOVERIES: [Discovery; 3] = [
    Discovery::RibLoosePart,
    Discovery::WeltSplitShort,
    Discovery::ShankBroken,
];

const CONDITIONS: [Condition; 3] = [
    Condition::RibSound,
    Condition::WeltSound,
    Condition::ShankFirm,
];

const fn service(number: u8) -> ServiceId {
    ServiceId::from_bytes([number; 16])
}

fn lines(numbers: &[u8]) -> Lines {
    numbers.iter().copied().map(service).collect()
}

fn rule(case: Case, claim: Claim) -> Rule {
    let words = Words::parse("So it is.").unwrap();
    Rule {
        standing: Standing::On,
        case,
        claim,
        reason: Reason {
            bench: words.clone(),
            customer: words,
        },
    }
}

fn rule_set(claims: impl IntoIterator<Item = Claim>) -> RuleSet {
    cased(claims.into_iter().map(|claim| (Case::default(), claim)))
}

fn cased(claims: impl IntoIterator<Item = (Case, Claim)>) -> RuleSet {
    let rules = (0..).zip(claims).map(|(number, (case, claim))| {
        let id: u32 = number;
        (
            RuleId::parse(&format!("rule-{id}")).unwrap(),
            rule(case, claim),
        )
    });
    RuleSet {
        rules: rules.collect(),
        put_back: None,
    }
}

fn efforts(costs: &[u32]) -> Efforts {
    let effort = |cost: &u32| Effort {
        minutes: Minutes::new(*cost),
        price: Money::new(i64::from(*cost), Currency::USD).unwrap(),
    };
    (0..).map(service).zip(costs.iter().map(effort)).collect()
}

fn some_service() -> impl Strategy<Value = ServiceId> {
    (0..SERVICES).prop_map(service)
}

fn few(most: usize) -> impl Strategy<Value = Lines> {
    btree_set(some_service(), 1..=most)
}

fn some_need() -> impl Strategy<Value = Need> {
    prop_oneof![
        2 => some_service().prop_map(Need::Line),
        1 => select(&CONDITIONS[..]).prop_map(Need::Sound),
    ]
}

fn some_claim() -> impl Strategy<Value = Claim> {
    let ranked = || {
        few(4)
            .prop_map(|set| set.into_iter().collect::<Vec<_>>())
            .prop_shuffle()
    };
    prop_oneof![
        6 => (few(2), btree_set(some_need(), 1..4))
            .prop_map(|(these, any_of)| Claim::Requires { these, any_of }),
        2 => few(3).prop_map(|these| Claim::OneOf { these }),
        1 => (few(2), few(2)).prop_map(|(these, those)| Claim::Excludes { these, those }),
        2 => (few(1), few(2)).prop_map(|(done, spared)| Claim::Spares { done, spared }),
        1 => few(1).prop_map(|these| Claim::Unfit { these }),
        3 => (select(&CONDITIONS[..]), ranked())
            .prop_map(|(condition, best_first)| Claim::Mends { condition, best_first }),
        1 => ranked().prop_map(|best_first| Claim::Prefers { best_first }),
    ]
}

fn some_case() -> impl Strategy<Value = Case> {
    prop_oneof![
        5 => Just(Case::default()),
        1 => Just(Case {
            constructions: [Construction::Welt270].into(),
            ..Case::default()
        }),
        1 => Just(Case {
            constructions: [Construction::Cemented].into(),
            ..Case::default()
        }),
        1 => select(&DISCOVERIES[..]).prop_map(|one| Case {
            discoveries: [one].into(),
            ..Case::default()
        }),
    ]
}

fn some_rules() -> impl Strategy<Value = Vec<(Case, Claim)>> {
    vec((some_case(), some_claim()), 0..14)
}

fn some_pair() -> impl Strategy<Value = AsFound> {
    btree_set(select(&DISCOVERIES[..]), 0..3).prop_map(|discoveries| AsFound {
        construction: Construction::Welt270,
        rating: Rating::Ordinary,
        discoveries,
    })
}

fn some_costs() -> impl Strategy<Value = Vec<u32>> {
    vec(0_u32..40, usize::from(SERVICES))
}

fn cost(set: &Lines, efforts: &Efforts) -> i64 {
    set.iter().map(|one| efforts[one].price.minor()).sum()
}

fn all_sets() -> impl Iterator<Item = Lines> {
    (0..1_u32 << SERVICES).map(|bits| {
        (0..SERVICES)
            .filter(|one| bits & (1 << one) != 0)
            .map(service)
            .collect()
    })
}

fn set_of(proposal: &Proposal) -> Lines {
    proposal.lines.iter().copied().collect()
}

proptest! {
    #![proptest_config(proptest::prelude::ProptestConfig::with_cases(200))]

    /// Closed, consistent, minimal, and as cheap and as good as the best of all sets.
    #[test]
    fn proposals_are_sound_and_no_set_is_better(
        claims in some_rules(),
        found in some_pair(),
        agreed in btree_set(some_service(), 0..4),
        costs in some_costs(),
    ) {
        let rules = cased(claims);
        let efforts = efforts(&costs);
        let offered: Lines = efforts.keys().copied().collect();
        let plain = Plain::read(&rules, &found);
        let proposals = propose(&rules, &found, &agreed, &efforts).unwrap();
        let sound: Vec<Lines> = all_sets()
            .filter(|set| plain.allows(set) && plain.honours(&agreed, set))
            .collect();
        let replaced = |set: &Lines| agreed.difference(set).count();

        let least = sound.iter().map(|set| (replaced(set), cost(set, &efforts), set.len())).min();
        let cheapest = proposals.cheapest.as_ref().map(set_of);
        prop_assert_eq!(
            cheapest.as_ref().map(|set| (replaced(set), cost(set, &efforts), set.len())),
            least
        );
        let weigh = |set: &Lines| {
            let left = plain.broken.len() - plain.mended(set);
            (replaced(set), left, plain.demerit(set), cost(set, &efforts), set.len())
        };
        let best = proposals.best.as_ref().map(set_of).or_else(|| cheapest.clone());
        prop_assert_eq!(best.as_ref().map(weigh), sound.iter().map(weigh).min());

        for set in cheapest.iter().chain(&best) {
            prop_assert!(sound.contains(set));
            prop_assert_eq!(check_scope(&rules, &found, set, &offered).unwrap(), vec![]);
        }
        if let Some(set) = &cheapest {
            for line in set {
                let mut fewer = set.clone();
                fewer.remove(line);
                prop_assert!(!sound.contains(&fewer), "{line} could be left out");
            }
        }
        prop_assert_eq!(cheapest.is_none(), !proposals.in_the_way.is_empty());
        if cheapest.is_none() {
            let has_way = |left_out: Option<&RuleId>| {
                let mut fewer = rules.clone();
                fewer.rules.retain(|id, rule| {
                    matches!(rule.claim, Claim::Mends { .. })
                        || (proposals.in_the_way.contains(id) && Some(id) != left_out)
                });
                let plain = Plain::read(&fewer, &found);
                all_sets().any(|set| plain.allows(&set) && plain.honours(&agreed, &set))
            };
            prop_assert!(!has_way(None));
            for rule in &proposals.in_the_way {
                prop_assert!(has_way(Some(rule)), "{rule} is not in the way");
            }
        }
    }

    /// Every line of a proposal is there for a reason.
    #[test]
    fn every_proposed_line_has_a_reason(
        claims in some_rules(),
        found in some_pair(),
        agreed in btree_set(some_service(), 0..4),
        costs in some_costs(),
    ) {
        let proposals = propose(&cased(claims), &found, &agreed, &efforts(&costs)).unwrap();
        for proposal in proposals.cheapest.iter().chain(&proposals.best) {
            for (line, why) in &proposal.why {
                prop_assert!(!why.is_empty(), "{line} in {:?}", proposal.lines);
            }
        }
    }

    /// A scope is called inconsistent exactly when the plain reading does not allow it.
    #[test]
    fn the_check_of_a_scope_finds_what_is_wrong_and_nothing_else(
        claims in some_rules(),
        found in some_pair(),
        set in btree_set(some_service(), 0..6),
    ) {
        let rules = cased(claims);
        let wrong = check_scope(&rules, &found, &set, &set).unwrap();
        prop_assert_eq!(wrong.is_empty(), Plain::read(&rules, &found).allows(&set));
    }

    /// The order in which rules were written or edited changes no proposal.
    #[test]
    fn the_order_of_the_rules_does_not_matter(
        (claims, shuffled) in some_rules()
            .prop_flat_map(|claims| (Just(claims.clone()), Just(claims).prop_shuffle())),
        found in some_pair(),
        agreed in btree_set(some_service(), 0..4),
        costs in some_costs(),
    ) {
        let lines = |claims| {
            let proposals = propose(&cased(claims), &found, &agreed, &efforts(&costs)).unwrap();
            (proposals.cheapest.map(|one| one.lines), proposals.best.map(|one| one.lines))
        };
        prop_assert_eq!(lines(claims), lines(shuffled));
    }

    /// What was proposed, once agreed, is proposed again and needs nothing more.
    #[test]
    fn an_agreed_proposal_is_proposed_again(
        claims in some_rules(),
        found in some_pair(),
        agreed in btree_set(some_service(), 0..4),
        costs in some_costs(),
    ) {
        let rules = cased(claims);
        let efforts = efforts(&costs);
        if let Some(cheapest) = propose(&rules, &found, &agreed, &efforts).unwrap().cheapest {
            let again = propose(&rules, &found, &set_of(&cheapest), &efforts).unwrap();
            prop_assert_eq!(again.cheapest.map(|one| one.lines), Some(cheapest.lines));
        }
    }

    /// Rules that pass the check let every service be done that they do not rule out by name.
    #[test]
    fn after_the_check_every_service_has_a_sound_scope(
        claims in vec(some_claim(), 0..7),
        costs in some_costs(),
    ) {
        let rules = rule_set(claims.clone());
        let efforts = efforts(&costs);
        let offered: Lines = efforts.keys().copied().collect();
        let passed = rules.check(&offered).is_ok();
        prop_assume!(passed);
        let found = AsFound {
            construction: Construction::Unknown,
            rating: Rating::Ordinary,
            discoveries: BTreeSet::new(),
        };
        let plain = Plain::read(&rules, &found);
        for one in &offered {
            let unfit = claims
                .iter()
                .any(|claim| matches!(claim, Claim::Unfit { these } if these.contains(one)));
            let possible = all_sets().any(|set| set.contains(one) && plain.allows(&set));
            prop_assert!(unfit || possible, "{one}");
        }
    }

    /// A requirement planted against an exclusion is found through a chain of any length.
    #[test]
    fn a_planted_contradiction_is_found(
        length in 1_u8..7,
        excluded in any::<bool>(),
        both_ways in any::<bool>(),
    ) {
        let next = |one: u8| Claim::Requires {
            these: lines(&[one]),
            any_of: [Need::Line(service(one + 1))].into(),
        };
        let back = |one: u8| Claim::Requires {
            these: lines(&[one + 1]),
            any_of: [Need::Line(service(one))].into(),
        };
        let mut claims: Vec<Claim> = (0..length).map(next).collect();
        if both_ways {
            claims.extend((0..length).map(back));
        }
        if excluded {
            claims.push(Claim::Excludes {
                these: lines(&[0]),
                those: lines(&[length]),
            });
        }
        let offered: Lines = (0..SERVICES).map(service).collect();
        let checked = rule_set(claims).check(&offered);
        let found = checked.err().unwrap_or_default().into_iter().any(|trouble| {
            matches!(trouble, RuleTrouble::Contradiction { service: one, rules }
                if one == service(0) && rules.len() == usize::from(length) + 1)
        });
        prop_assert_eq!(found, excluded);
    }
}

//! Single cases of small rule sets.

use std::collections::BTreeSet;

use super::{Lines, SERVICES, efforts, lines, rule_set, service, set_of};
use crate::scope::rules::condition::Condition;
use crate::scope::rules::explain::{Why, explain};
use crate::scope::rules::propose::propose;
use crate::scope::rules::trouble::RuleTrouble;
use crate::scope::rules::{AsFound, Claim, Need, PutBack, RuleId, RuleSet, Standing, TooTangled};
use crate::ticket::{Construction, Rating};

fn sound_pair() -> AsFound {
    AsFound {
        construction: Construction::Welt270,
        rating: Rating::Ordinary,
        discoveries: BTreeSet::new(),
    }
}

fn troubles(claims: impl IntoIterator<Item = Claim>) -> Vec<RuleTrouble> {
    let offered: Lines = (0..SERVICES).map(service).collect();
    rule_set(claims).check(&offered).err().unwrap_or_default()
}

fn ids(count: u32) -> Vec<RuleId> {
    let id = |number: u32| RuleId::parse(&format!("rule-{number}")).unwrap();
    (0..count).map(id).collect()
}

#[test]
fn rules_that_cannot_be_meant_are_refused() {
    let spares = |done, spared| Claim::Spares {
        done: lines(&[done]),
        spared: lines(&[spared]),
    };
    let prefers = |numbers: &[u8]| Claim::Prefers {
        best_first: numbers.iter().copied().map(service).collect(),
    };
    assert_eq!(
        troubles([spares(0, 1), spares(1, 2), spares(2, 0)]),
        [RuleTrouble::PointlessCircle {
            services: vec![service(0), service(1), service(2)],
            rules: ids(3),
        }]
    );
    assert_eq!(
        troubles([prefers(&[0, 1]), prefers(&[1, 2, 0])]),
        [RuleTrouble::OrderCircle {
            services: vec![service(0), service(1), service(2)],
            rules: ids(2),
        }]
    );
    let first = || RuleId::parse("rule-0").unwrap();
    assert_eq!(
        troubles([Claim::OneOf { these: lines(&[1]) }]),
        [RuleTrouble::SaysNothing { rule: first() }]
    );
    assert_eq!(
        troubles([prefers(&[1, 2, 1])]).first(),
        Some(&RuleTrouble::NamesTwice {
            rule: first(),
            service: service(1),
        })
    );
    // Service 99 has left the price book, so that nothing can meet the requirement.
    let requires = Claim::Requires {
        these: lines(&[0]),
        any_of: [Need::Line(service(99))].into(),
    };
    assert_eq!(
        troubles([requires]),
        [RuleTrouble::Contradiction {
            service: service(0),
            rules: vec![first()],
        }]
    );
}

#[test]
fn remedies_that_rule_out_what_needs_them_are_refused() {
    let claims = [
        Claim::Requires {
            these: lines(&[0]),
            any_of: [Need::Sound(Condition::WeltSound)].into(),
        },
        Claim::Mends {
            condition: Condition::WeltSound,
            best_first: vec![service(1)],
        },
        Claim::OneOf {
            these: lines(&[0, 1]),
        },
    ];
    assert_eq!(
        troubles(claims),
        [RuleTrouble::NoRemedy {
            service: service(0),
            condition: Condition::WeltSound,
            rules: ids(2),
        }]
    );
}

#[test]
fn what_is_never_possible_together_is_not_better_done_together() {
    let claims = [
        Claim::Together {
            during: lines(&[0]),
            also: service(1),
            later_with: lines(&[2]),
        },
        Claim::OneOf {
            these: lines(&[0, 1]),
        },
    ];
    let rule = RuleId::parse("rule-0").unwrap();
    assert_eq!(troubles(claims), [RuleTrouble::NeverTogether { rule }]);
}

#[test]
fn two_services_may_require_each_other() {
    let requires = |one, other| Claim::Requires {
        these: lines(&[one]),
        any_of: [Need::Line(service(other))].into(),
    };
    let claims = [requires(0, 1), requires(1, 0)];
    assert_eq!(troubles(claims.clone()), []);
    let proposals = propose(
        &rule_set(claims),
        &sound_pair(),
        &lines(&[0]),
        &efforts(&[5, 5, 5]),
    )
    .unwrap();
    let cheapest = proposals.cheapest.unwrap();
    assert_eq!(set_of(&cheapest), lines(&[0, 1]));
}

#[test]
fn a_pair_that_was_never_opened_goes_home_without_a_line() {
    let mut rules = rule_set([]);
    rules.put_back = Some(PutBack {
        opened_by: service(0),
        closed_by: service(1),
    });
    let home = |agreed: &[u8]| {
        let agreed = lines(agreed);
        let proposals = propose(&rules, &sound_pair(), &agreed, &efforts(&[9; 5])).unwrap();
        set_of(&proposals.as_it_is.unwrap())
    };
    assert_eq!(home(&[3]), lines(&[]));
    assert_eq!(home(&[0, 3]), lines(&[0, 1]));
}

#[test]
fn a_line_that_no_rule_names_is_agreed_and_nothing_else() {
    let agreed = lines(&[4]);
    let why = explain(service(4), &agreed, &agreed, &rule_set([]), &sound_pair()).unwrap();
    assert_eq!(why, [Why::Agreed]);
}

#[test]
fn rules_come_back_from_storage_as_they_were() {
    let mut rules = rule_set([Claim::Mends {
        condition: Condition::WeltSound,
        best_first: vec![service(1), service(2)],
    }]);
    rules.put_back = Some(PutBack {
        opened_by: service(0),
        closed_by: service(1),
    });
    let stored = serde_json::to_string(&rules).unwrap();
    assert_eq!(serde_json::from_str::<RuleSet>(&stored).unwrap(), rules);
    assert!(RuleId::parse("Rule 1").is_err());
}

/// Thirty times three ways that are all the same, and one service too many.
#[test]
fn what_is_too_tangled_is_refused_in_time() {
    let group = |first: u8| Claim::Requires {
        these: lines(&[0]),
        any_of: (first..first + 3).map(service).map(Need::Line).collect(),
    };
    let knot = rule_set((0..30).map(|number| group(1 + number * 3)));
    let proposed = propose(&knot, &sound_pair(), &lines(&[0]), &efforts(&[0; 91]));
    assert_eq!(proposed, Err(TooTangled::TooManyWays));

    let many = rule_set([Claim::OneOf {
        these: (0..=128).map(service).collect(),
    }]);
    let proposed = propose(&many, &sound_pair(), &lines(&[0]), &efforts(&[0; 1]));
    assert_eq!(proposed, Err(TooTangled::TooManyServices));
}

#[test]
fn a_rule_that_was_switched_off_binds_nobody() {
    let mut rules = rule_set([Claim::Requires {
        these: lines(&[0]),
        any_of: [Need::Line(service(1))].into(),
    }]);
    let cheapest = |rules: &RuleSet| {
        let proposals = propose(rules, &sound_pair(), &lines(&[0]), &efforts(&[5; 3])).unwrap();
        set_of(&proposals.cheapest.unwrap())
    };
    assert_eq!(cheapest(&rules), lines(&[0, 1]));
    for rule in rules.rules.values_mut() {
        rule.standing = Standing::Off;
    }
    assert_eq!(cheapest(&rules), lines(&[0]));
}

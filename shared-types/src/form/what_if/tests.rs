//! What the form of a what-if reads, and what it sends back.

use time::macros::{date, datetime};

use super::*;
use crate::contact::Email;
use crate::promise::calendar::Hours;
use crate::shop::Shop;
use crate::text::{Line, Words};

/// A shop with one hand and two open pairs, 1001 A and 1002 A, on Tuesday 8 December 2026.
fn work() -> OpenWork {
    let email = Email::parse("bench@example.com").unwrap();
    let line = Line::parse("Juniper Row").unwrap();
    let mut shop = Shop::new(line, Words::parse("Here").unwrap(), email);
    shop.calendar.week = [Hours::parse("9:00", "17:30").unwrap(); 7];
    let now = shop.calendar.zone.moment(datetime!(2026-12-08 09:00));
    let mut work = OpenWork::new::<()>(&shop, &[], &[], now);
    work.workshop.pairs = ["1001\u{a0}A", "1002\u{a0}A"]
        .map(|tag| Pair {
            tag: Tag(tag.to_owned()),
            promised: Some(date!(2026 - 12 - 12)),
            begins: Begins::Now,
            waits_for: Vec::new(),
            steps: vec![Step::new("work", Labour::usual(Minutes::new(60)))],
        })
        .into();
    work
}

fn ask(typed: &[(WhatIfField, &str)]) -> Result<Vec<Change>, FormErrors<WhatIfField>> {
    let typed = typed
        .iter()
        .map(|(field, value)| (field.name(), (*value).to_owned()));
    read(&typed.collect(), &work(), &[])
}

#[test]
fn several_changes_are_read_at_once() {
    assert_eq!(ask(&[]).unwrap(), []);
    let changes = ask(&[
        (WhatIfField::RushMinutes, "1:30"),
        (WhatIfField::RushStation, "outsole stitcher"),
        (WhatIfField::RushDay, "2026-12-09"),
        (WhatIfField::RushBefore, WhatIfField::BEFORE_ALL),
        (WhatIfField::Closed, "2026-12-11, 2026-12-24 to 2026-12-25"),
        (WhatIfField::AwayHand(0), "Hand 1"),
        (WhatIfField::AwayDays(0), "2026-12-10"),
        (WhatIfField::Longer, "60"),
        (WhatIfField::First, "1002\u{a0}A"),
    ])
    .unwrap();
    let [closed @ .., longer, away, first, take, before_all] = changes.as_slice() else {
        panic!("{changes:?}");
    };
    assert_eq!(closed.len(), 3);
    assert!(matches!(longer, Change::Longer { more } if more.get() == 60));
    assert!(matches!(away, Change::Away { hand, days } if hand == "Hand 1" && days.len() == 1));
    assert!(matches!(first, Change::First { tag } if tag.0 == "1002\u{a0}A"));
    assert!(matches!(before_all, Change::First { tag } if *tag == rush_tag()));
    let Change::Take { pair, before: None } = take else {
        panic!("{take:?}");
    };
    assert_eq!(pair.promised, Some(date!(2026 - 12 - 09)));
    let steps: Vec<_> = pair
        .steps
        .iter()
        .map(|step| (step.name.as_str(), step.labour.minutes().get()))
        .collect();
    assert_eq!(steps, [("work", 90), ("final check", 10)]);
    assert_eq!(pair.steps[0].station.as_deref(), Some("outsole stitcher"));
}

#[test]
fn what_does_not_fit_is_said_at_its_field() {
    let gone = Problem::NotOpen {
        tag: "1003\u{a0}A".to_owned(),
    };
    for (typed, field, problem) in [
        (
            vec![(WhatIfField::RushDay, "2026-12-09")],
            WhatIfField::RushMinutes,
            Problem::NoJob,
        ),
        (
            vec![(WhatIfField::RushMinutes, "soon")],
            WhatIfField::RushMinutes,
            Problem::NotMinutes,
        ),
        (
            vec![
                (WhatIfField::RushMinutes, "30"),
                (WhatIfField::RushDay, "9.12."),
            ],
            WhatIfField::RushDay,
            Problem::NotADay,
        ),
        (
            vec![(WhatIfField::Closed, "Friday")],
            WhatIfField::Closed,
            Problem::NotDaysAway,
        ),
        (
            vec![(WhatIfField::AwayHand(1), "Hand 1")],
            WhatIfField::AwayDays(1),
            Problem::Missing,
        ),
        (
            vec![(WhatIfField::AwayDays(1), "2026-12-10")],
            WhatIfField::AwayHand(1),
            Problem::NotChosen,
        ),
        (
            vec![(WhatIfField::First, "1003\u{a0}A")],
            WhatIfField::First,
            gone.clone(),
        ),
        (
            vec![
                (WhatIfField::RushMinutes, "30"),
                (WhatIfField::RushBefore, "1003\u{a0}A"),
            ],
            WhatIfField::RushBefore,
            gone,
        ),
        (
            vec![
                (WhatIfField::First, "1001\u{a0}A"),
                (WhatIfField::Drop, "1001\u{a0}A"),
            ],
            WhatIfField::First,
            Problem::LeftOut,
        ),
    ] {
        let errors = ask(&typed).unwrap_err();
        let found: Vec<_> = errors.iter().collect();
        assert_eq!(found, [(&field, &problem)], "{typed:?}");
    }
}

//! The evening's questions: checked against the plan made anew, and by hand.

use proptest::prelude::*;
use time::macros::{date, datetime};

use super::*;
use crate::promise::days::{Whose, coming_days};
use crate::promise::evening::{Evening, Waiting};
use crate::promise::outlook::outlook;
use crate::promise::turn::Turn;
use crate::promise::what_if::{Change, what_if};
use generated::workshops;

proptest! {
    #![proptest_config(ProptestConfig::with_cases(32))]

    /// One play of the draws says the same as an outlook and a turn for each waiting pair.
    #[test]
    fn an_evening_is_an_outlook_and_a_turn_for_each_waiting_pair(
        workshop in workshops(),
        which in prop::collection::vec(any::<prop::sample::Index>(), 0..3),
    ) {
        let board = board(&workshop, monday());
        let pairs = which.iter().map(|which| which.get(&workshop.pairs));
        let waiting: Vec<Waiting> = pairs
            .map(|pair| Waiting { tag: pair.tag.clone(), steps: pair.steps.clone() })
            .collect();
        let evening = Evening::of(&board, SOME, EIGHTY, (&waiting, 3)).unwrap();
        prop_assert_eq!(&evening.forecasts, &outlook(&board, SOME));
        prop_assert_eq!(&evening.plan, &Plan::new(&board));
        for (pair, (tag, waited)) in waiting.iter().zip(&evening.waiting) {
            let mut turn = Turn::of(&board, tag, SOME).unwrap();
            prop_assert_eq!(waited, &turn.waiting(&pair.steps, EIGHTY, 3).unwrap());
        }
    }

    /// The days show every minute of the plan, each where its hand is at the bench.
    #[test]
    fn the_days_show_every_minute_once(workshop in workshops()) {
        let plan = Plan::new(&board(&workshop, monday()));
        let days = coming_days(&workshop, &plan, monday(), 400);
        let last = days.last().unwrap().closes;
        let mut shown = 0;
        for day in &days {
            for row in &day.rows {
                for pair in row.pieces.windows(2) {
                    prop_assert!(pair[0].ends <= pair[1].starts);
                }
                let inside = row.pieces.iter().all(|piece| day.opens <= piece.starts && piece.ends <= day.closes);
                prop_assert!(inside);
                let sum = row.pieces.iter().map(|piece| piece.ends.since(piece.starts).whole_minutes());
                let sum: i64 = sum.sum();
                if let Whose::Hand { name, .. } = &row.whose {
                    let hand = workshop.hands.iter().find(|hand| hand.name == *name).unwrap();
                    prop_assert!(sum <= i64::from(hand.minutes_on(day.day).get()));
                    shown += sum;
                }
            }
        }
        let steps = workshop.pairs.iter().zip(&plan.pairs);
        let planned = steps.filter(|(_, planned)| planned.finished.is_some_and(|at| at <= last));
        let planned: Minutes = planned
            .flat_map(|(pair, _)| pair.steps.iter().map(|step| step.labour.minutes()))
            .sum();
        prop_assert!(i64::from(planned.get()) <= shown);
        if plan.pairs.iter().all(|pair| pair.finished.is_none_or(|at| at <= last)) {
            prop_assert_eq!(i64::from(planned.get()), shown);
        }
    }
}

/// One sews 300 minutes from 9:00 on and stitches until 15:00; the other is done at 17:00, and both
/// are then free: the first in the list stitches half an hour and goes on in the morning.
#[test]
fn a_day_is_laid_out_by_hand_and_by_station() {
    let work = |tag, welt| {
        pair(
            tag,
            vec![sure("welt", welt), sure("stitch", 60).at("stitcher")],
        )
    };
    let workshop = Workshop {
        calendar: calendar(),
        hands: hands(2),
        stations: vec!["stitcher".to_owned()],
        pairs: vec![work("41", 300), work("42", 480)],
    };
    let plan = Plan::new(&board(&workshop, tuesday()));
    let days = coming_days(&workshop, &plan, tuesday(), 2);
    let zone = calendar().zone;
    let rows = |day: usize| {
        let rows = days[day].rows.iter().map(|row| {
            let pieces = row.pieces.iter().map(|piece| {
                let [starts, ends] = [piece.starts, piece.ends].map(|at| zone.local(at));
                (piece.tag.0.as_str(), piece.step.as_str(), starts, ends)
            });
            (row.whose.name(), pieces.collect::<Vec<_>>())
        });
        rows.collect::<Vec<_>>()
    };
    let [nine, two] = [datetime!(2026-03-10 09:00), datetime!(2026-03-10 14:00)];
    let [three, five] = [datetime!(2026-03-10 15:00), datetime!(2026-03-10 17:00)];
    let closing = datetime!(2026-03-10 17:30);
    assert_eq!(
        rows(0),
        [
            (
                "hand 0",
                vec![
                    ("41", "welt", nine, two),
                    ("41", "stitch", two, three),
                    ("42", "stitch", five, closing)
                ]
            ),
            ("hand 1", vec![("42", "welt", nine, five)]),
            (
                "stitcher",
                vec![
                    ("41", "stitch", two, three),
                    ("42", "stitch", five, closing)
                ]
            ),
        ]
    );
    // What was not done at closing goes on at opening.
    let [nine, half] = [datetime!(2026-03-11 09:00), datetime!(2026-03-11 09:30)];
    assert_eq!(rows(1)[0].1, [("42", "stitch", nine, half)]);
}

/// Two pairs of 300 minutes, one hand, 510 minutes a day: the second is ready on Wednesday. With 90
/// minutes more a day both are ready on Tuesday; put first, it takes the other's place.
#[test]
fn longer_hours_and_another_first_are_tried() {
    let work = |tag| Pair {
        promised: Some(date!(2026 - 03 - 10)),
        ..pair(tag, vec![sure("welt", 299)])
    };
    let workshop = Workshop {
        calendar: calendar(),
        hands: vec![Hand::every_day("Walt", minutes(510))],
        stations: Vec::new(),
        pairs: vec![work("41"), work("42")],
    };
    let ask = |change| what_if(&workshop, tuesday(), &[change], SOME, EIGHTY).unwrap();
    let [today, tomorrow] = [date!(2026 - 03 - 10), date!(2026 - 03 - 11)];
    let more = Change::Longer { more: minutes(90) };
    assert!(more.is_help());
    let moved = ask(more);
    assert_eq!(moved.len(), 1);
    assert_eq!(
        (moved[0].before, moved[0].after),
        (Some(tomorrow), Some(today))
    );
    assert!(moved[0].promised.unwrap().is_gained(EIGHTY));
    assert_eq!(
        ask(Change::Longer { more: minutes(80) }),
        [],
        "both need 598"
    );
    let first = ask(Change::First {
        tag: Tag("42".to_owned()),
    });
    let tags: Vec<_> = first.iter().map(|moved| moved.tag.0.as_str()).collect();
    assert_eq!(tags, ["42", "41"]);
    assert!(first[0].promised.unwrap().is_gained(EIGHTY));
    assert!(first[1].promised.unwrap().is_lost(EIGHTY));
}

/// 100 minutes on Tuesday: a Wednesday off moves nothing, a Tuesday off moves it to Wednesday.
#[test]
fn a_day_off_moves_only_work_of_that_day() {
    let workshop = Workshop {
        calendar: calendar(),
        hands: hands(1),
        stations: Vec::new(),
        pairs: vec![pair("41", vec![sure("welt", 100)])],
    };
    let away = |day| Change::Away {
        hand: "hand 0".to_owned(),
        days: [day].into(),
    };
    let ask = |day| what_if(&workshop, tuesday(), &[away(day)], SOME, EIGHTY).unwrap();
    assert_eq!(ask(date!(2026 - 03 - 11)), []);
    let moved = ask(date!(2026 - 03 - 10));
    assert_eq!(moved[0].after, Some(date!(2026 - 03 - 11)));
}

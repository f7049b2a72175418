//! Plans worked by hand: a pair over nights and a closed day, the outlook of one step, promises at
//! risk and what the owner asks.

use time::macros::{date, datetime};

use super::*;
use crate::promise::outlook::{at_risk, outlook};
use crate::promise::reason::Reason;
use crate::promise::what_if::{Change, what_if};
use crate::promise::workshop::Misfit;

/// A boot that is stripped, answered after 26 hours, welted, soled and finished, with each start
/// and end worked out by hand on the calendar of [`calendar`].
#[test]
fn a_pair_goes_through_nights_and_a_closed_day_as_worked_by_hand() {
    let steps = vec![
        sure("strip", 40).resting(minutes(26 * 60)),
        sure("welt", 150),
        sure("shank and cork", 32),
        sure("coat one", 12).resting(minutes(30)),
        sure("coat two", 12).resting_between(minutes(20), minutes(60)),
        sure("lay sole", 15).resting(minutes(720)),
        sure("stitch", 35).at("stitcher"),
        sure("heel", 60).resting(minutes(60)),
        sure("trim", 40),
        sure("dye", 25).resting(minutes(120)),
        sure("polish", 20),
        sure("condition", 10).resting(minutes(720)),
        sure("final", 10),
    ];
    let workshop = Workshop {
        calendar: calendar(),
        hands: hands(1),
        stations: vec!["stitcher".to_owned()],
        pairs: vec![pair("41", steps)],
    };
    let plan = Plan::new(&board(&workshop, tuesday()));
    let local = |at| calendar().zone.local(at);
    let found: Vec<_> = plan.pairs[0]
        .steps
        .iter()
        .map(|step| (local(step.starts), local(step.ends)))
        .collect();
    let expected = [
        (datetime!(2026-03-10 09:00), datetime!(2026-03-10 09:40)),
        (datetime!(2026-03-11 11:40), datetime!(2026-03-11 14:10)),
        (datetime!(2026-03-11 14:10), datetime!(2026-03-11 14:42)),
        (datetime!(2026-03-11 14:42), datetime!(2026-03-11 14:54)),
        (datetime!(2026-03-11 15:24), datetime!(2026-03-11 15:36)),
        (datetime!(2026-03-11 15:56), datetime!(2026-03-11 16:11)),
        (datetime!(2026-03-13 09:00), datetime!(2026-03-13 09:35)),
        (datetime!(2026-03-13 09:35), datetime!(2026-03-13 10:35)),
        (datetime!(2026-03-13 11:35), datetime!(2026-03-13 12:15)),
        (datetime!(2026-03-13 12:15), datetime!(2026-03-13 12:40)),
        (datetime!(2026-03-13 14:40), datetime!(2026-03-13 15:00)),
        (datetime!(2026-03-13 15:00), datetime!(2026-03-13 15:10)),
        (datetime!(2026-03-14 09:00), datetime!(2026-03-14 09:10)),
    ];
    assert_eq!(found, expected);
    assert_eq!(plan.pairs[0].ready, Some(date!(2026 - 03 - 14)));
}

/// Cement stays open for an hour: a coat that would be ready at 17:20 waits for the next morning
/// with the sole, while a step without such a limit is split by the night.
#[test]
fn cement_is_not_put_on_before_a_closing_that_comes_too_soon() {
    let workshop = Workshop {
        calendar: calendar(),
        hands: hands(1),
        stations: Vec::new(),
        pairs: vec![pair(
            "41",
            vec![
                sure("welt", 490),
                sure("coat two", 12).resting_between(minutes(20), minutes(60)),
                sure("lay sole", 15),
            ],
        )],
    };
    let plan = Plan::new(&board(&workshop, tuesday()));
    let local = |at| calendar().zone.local(at);
    let steps = &plan.pairs[0].steps;
    assert_eq!(local(steps[0].ends), datetime!(2026-03-10 17:10));
    assert_eq!(local(steps[1].starts), datetime!(2026-03-11 09:00));
    assert_eq!(local(steps[2].starts), datetime!(2026-03-11 09:32));
}

/// One step of 6,000 minutes (90 %: 9,000) in a shop that is always open, but for a minute at
/// midnight: it takes less than five days of 1,439 minutes with probability
/// Φ(ln(7,194.5/6,000)/0.316386) = 0.71696 (Python 3.11, `statistics.NormalDist`), and its 80 %
/// quantile 7,830.6 is on the sixth day.
#[test]
fn the_outlook_of_one_step_is_its_log_normal_distribution() {
    let labour = Labour::new(minutes(6_000), minutes(9_000)).unwrap();
    let workshop = always(1, vec![pair("41", vec![Step::new("work", labour)])]);
    let draws = Draws {
        seed: 11,
        count: 4_000,
    };
    let forecast = &outlook(&board(&workshop, monday()), draws)[0];
    assert_eq!(forecast.by(EIGHTY), Some(date!(2026 - 03 - 14)));
    let kept = forecast.odds(date!(2026 - 03 - 13)).kept;
    // Four standard errors are 114 draws.
    assert!(kept.abs_diff(2_868) < 114, "{kept}");
}

/// Three pairs, of two hours each at the stitcher, with hands enough.
fn three_at_the_stitcher() -> Workshop {
    let stitched = |tag, day| Pair {
        promised: Some(day),
        ..pair(
            tag,
            vec![sure("stitch", 240).at("stitcher"), sure("check", 10)],
        )
    };
    Workshop {
        calendar: calendar(),
        hands: hands(3),
        stations: vec!["stitcher".to_owned()],
        pairs: vec![
            stitched("41", date!(2026 - 03 - 10)),
            stitched("42", date!(2026 - 03 - 10)),
            stitched("43", date!(2026 - 03 - 10)),
        ],
    }
}

#[test]
fn a_promise_at_risk_names_the_station_and_who_is_before() {
    let workshop = three_at_the_stitcher();
    let board = board(&workshop, tuesday());
    let risks = at_risk(&Plan::new(&board), &outlook(&board, SOME), EIGHTY);
    assert_eq!(risks.len(), 1);
    let risk = &risks[0];
    assert_eq!(risk.tag, Tag("43".to_owned()));
    assert_eq!(
        (risk.odds.kept, risk.instead),
        (0, Some(date!(2026 - 03 - 11)))
    );
    let words: Vec<String> = risk.reasons.iter().map(ToString::to_string).collect();
    assert_eq!(
        words,
        [
            "waits behind two pairs for the stitcher, 8 h",
            "is worked on for 20 h"
        ]
    );
}

#[test]
fn the_reasons_of_a_pair_add_up_to_its_time() {
    let mut workshop = three_at_the_stitcher();
    workshop.pairs[2].begins = Begins::At(tuesday().plus(time::Duration::minutes(45)));
    workshop.pairs[2].waits_for = vec![Tag("41".to_owned())];
    let plan = Plan::new(&board(&workshop, tuesday()));
    for pair in &plan.pairs {
        let sum: Minutes = pair.reasons.iter().map(Reason::minutes).sum();
        let whole = pair.finished.unwrap().since(tuesday()).whole_minutes();
        assert_eq!(i64::from(sum.get()), whole, "{:?}", pair.reasons);
    }
}

#[test]
fn a_day_closed_moves_the_promises_behind_it_and_says_so() {
    let workshop = three_at_the_stitcher();
    let ask = |changes: &[Change]| what_if(&workshop, tuesday(), changes, SOME, EIGHTY).unwrap();
    assert_eq!(ask(&[]), []);
    let closed = ask(&[Change::Close {
        day: date!(2026 - 03 - 11),
    }]);
    assert_eq!(closed.len(), 1, "only the third pair is worked on that day");
    assert_eq!(closed[0].after, Some(date!(2026 - 03 - 13)));
    let rush = Pair {
        promised: Some(date!(2026 - 03 - 10)),
        ..pair("rush", vec![sure("stitch", 200).at("stitcher")])
    };
    let moved = ask(&[Change::Take {
        pair: rush,
        before: Some(Tag("41".to_owned())),
    }]);
    let tags: Vec<&str> = moved.iter().map(|moved| moved.tag.0.as_str()).collect();
    assert_eq!(tags, ["rush", "42"]);
    assert!(moved[1].promised.unwrap().is_lost(EIGHTY));
}

#[test]
fn one_hand_away_is_another_days_work_for_the_other() {
    let work = |tag| pair(tag, vec![sure("welt", 300)]);
    let workshop = Workshop {
        calendar: calendar(),
        hands: hands(2),
        stations: Vec::new(),
        pairs: vec![work("41"), work("42")],
    };
    let away = Change::Away {
        hand: "hand 1".to_owned(),
        days: [date!(2026 - 03 - 10)].into(),
    };
    let moved = what_if(&workshop, tuesday(), &[away], SOME, EIGHTY).unwrap();
    assert_eq!(moved.len(), 1);
    assert_eq!(moved[0].before, Some(date!(2026 - 03 - 10)));
    assert_eq!(moved[0].after, Some(date!(2026 - 03 - 11)));
    let nobody = Change::Away {
        hand: "nobody".to_owned(),
        days: [].into(),
    };
    let refused = what_if(&workshop, tuesday(), &[nobody], SOME, EIGHTY);
    assert!(matches!(refused, Err(Misfit::NoSuchHand { .. })));
}

#[test]
fn a_yes_to_more_work_shows_whose_day_it_takes() {
    let mut workshop = three_at_the_stitcher();
    workshop.pairs[0].begins = Begins::AfterTheWord;
    let ask = |change| what_if(&workshop, tuesday(), &[change], SOME, EIGHTY).unwrap();
    // Without the first pair the third is stitched by 17:00; with it, on the next morning.
    let moved = ask(Change::Accept {
        tag: Tag("41".to_owned()),
        steps: workshop.pairs[0].steps.clone(),
    });
    let days: Vec<_> = moved
        .iter()
        .map(|moved| (moved.before, moved.after))
        .collect();
    let (today, tomorrow) = (date!(2026 - 03 - 10), date!(2026 - 03 - 11));
    assert_eq!(days, [(None, Some(today)), (Some(today), Some(tomorrow))]);
    // A pair that goes home unmended gives its time to those behind it, and none to those before.
    let moved = ask(Change::Drop {
        tag: Tag("42".to_owned()),
    });
    let tags: Vec<&str> = moved.iter().map(|moved| moved.tag.0.as_str()).collect();
    assert_eq!(tags, ["42"], "the third is ready today all the same");
}

#[test]
fn what_cannot_be_planned_is_refused_with_its_reason() {
    let plan = |pairs, stations: &[&str]| {
        let workshop = Workshop {
            calendar: calendar(),
            hands: hands(1),
            stations: stations.iter().map(ToString::to_string).collect(),
            pairs,
        };
        Board::new(&workshop, tuesday()).map(|_| ()).unwrap_err()
    };
    let one = |step| vec![pair("41", vec![step, sure("next", 5)])];
    for (misfit, words) in [
        (
            plan(one(sure("press", 5).at("press")), &["stitcher"]),
            "41: the step “press” needs press, which is not among the shop's stations",
        ),
        (
            plan(one(sure("lay", 511).in_one_sitting()), &[]),
            "41: no open period has room for “lay”, which must be done in one sitting",
        ),
        (
            plan(
                one(sure("coat", 12).resting_between(minutes(500), minutes(600))),
                &[],
            ),
            "41: no open period has room for “coat”, which must be done in one sitting",
        ),
        (
            plan(
                one(sure("coat", 12).resting_between(minutes(50), minutes(40))),
                &[],
            ),
            "41: after “coat” the longest rest is shorter than the shortest",
        ),
        (
            plan([one(sure("a", 1)), one(sure("a", 1))].concat(), &[]),
            "the name 41 stands here twice; give each its own",
        ),
    ] {
        assert_eq!(misfit.to_string(), words);
    }
    let mut closed = three_at_the_stitcher();
    closed.calendar.week = [None; 7];
    assert!(matches!(
        Board::new(&closed, tuesday()),
        Err(Misfit::NobodyIn)
    ));
}

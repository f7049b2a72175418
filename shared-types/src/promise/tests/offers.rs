//! Offers: what an answer now, later or too late leads to, checked by planning the whole anew.

use proptest::prelude::*;
use time::Duration;
use time::macros::{date, datetime};

use super::*;
use crate::promise::outlook::{Forecast, outlook};
use crate::promise::turn::Turn;
use generated::workshops;

/// The forecast of a pair if its owner answers at `answered`, with the whole plan made anew.
fn anew(workshop: &Workshop, place: usize, answered: Moment) -> Forecast {
    let mut workshop = workshop.clone();
    workshop.pairs[place].begins = Begins::At(answered);
    outlook(&board(&workshop, monday()), SOME).swap_remove(place)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(32))]

    /// A turn's forecast is the outlook's; the day is kept by an answer at the last moment and at
    /// every half hour before it, and by none at the next half hour in which the shop is open.
    #[test]
    fn the_last_moment_keeps_the_day_and_the_next_does_not(
        workshop in workshops(),
        which in any::<prop::sample::Index>(),
    ) {
        let place = which.index(workshop.pairs.len());
        let pair = &workshop.pairs[place];
        let whole = board(&workshop, monday());
        let mut turn = Turn::of(&whole, &pair.tag, SOME).unwrap();
        let now = turn.ready(&pair.steps, monday()).unwrap();
        prop_assert_eq!(&now, &anew(&workshop, place, monday()));
        let Some(day) = now.by(EIGHTY) else {
            return Ok(());
        };
        let openings = workshop.calendar.shifts(monday());
        let grid: Vec<Moment> = openings
            .take(12)
            .flat_map(|shift| {
                let halves = (0..48).map(move |half| monday().plus(
                    Duration::days(shift.opens.since(monday()).whole_days()) + Duration::minutes(30 * half)
                ));
                let open = move |at: &Moment| *at > shift.opens && *at < shift.closes;
                [shift.opens].into_iter().chain(halves.filter(open))
            })
            .collect();
        let last = turn.answer_by(&pair.steps, day, EIGHTY).unwrap();
        let keeps = |answered| anew(&workshop, place, answered).odds(day).reach(EIGHTY);
        for answered in grid {
            if last.is_some_and(|last| answered <= last) {
                prop_assert!(keeps(answered), "{answered} up to {last:?}");
            } else {
                prop_assert!(!keeps(answered), "{answered} after {last:?}");
                break;
            }
        }
    }

    #[test]
    fn a_new_pair_gets_the_day_that_the_plan_then_gives_it(workshop in workshops()) {
        let mut before = workshop.clone();
        let new = before.pairs.pop().unwrap();
        prop_assume!(new.waits_for.is_empty());
        let before = board(&before, monday());
        let mut turn = Turn::last(&before, &new.tag, SOME);
        let promised = turn.ready(&new.steps, monday()).unwrap();
        prop_assert_eq!(promised, anew(&workshop, workshop.pairs.len() - 1, monday()));
    }
}

/// One bench, nothing else to do: 300 minutes at the welt, a bond of 12 hours, 60 minutes at the
/// heel. Answered by Tuesday 12:30, the welt is sewn by 17:30, the bond is dry on Wednesday at 5:30,
/// and the heel is done by 10:00. Answered at 13:00, half an hour of welt is left for Wednesday, the
/// bond is dry at 21:30, Thursday is closed: Friday.
#[test]
fn an_answer_until_half_past_twelve_keeps_wednesday() {
    let steps = vec![sure("welt", 300).resting(minutes(720)), sure("heel", 60)];
    let workshop = Workshop {
        calendar: calendar(),
        hands: hands(1),
        stations: Vec::new(),
        pairs: vec![Pair {
            begins: Begins::AfterTheWord,
            ..pair("41", steps.clone())
        }],
    };
    let board = board(&workshop, tuesday());
    let mut turn = Turn::of(&board, &Tag("41".to_owned()), SOME).unwrap();
    let ready = turn.ready(&steps, tuesday()).unwrap();
    let wednesday = date!(2026 - 03 - 11);
    assert_eq!(ready.by(EIGHTY), Some(wednesday));
    let last = turn.answer_by(&steps, wednesday, EIGHTY).unwrap().unwrap();
    assert_eq!(calendar().zone.local(last), datetime!(2026-03-10 12:30));
    let waited = turn.waiting(&steps, EIGHTY, 3).unwrap();
    let days: Vec<_> = waited
        .into_iter()
        .map(|waited| {
            (
                calendar().zone.local(waited.answered),
                waited.ready.unwrap(),
            )
        })
        .collect();
    assert_eq!(
        days,
        [
            (datetime!(2026-03-10 09:00), wednesday),
            (datetime!(2026-03-11 09:00), date!(2026 - 03 - 13)),
            (datetime!(2026-03-13 09:00), date!(2026 - 03 - 14)),
            (datetime!(2026-03-14 09:00), date!(2026 - 03 - 18)),
        ]
    );
}

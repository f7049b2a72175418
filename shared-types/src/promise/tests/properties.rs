//! What every plan keeps, whatever the workshop.

use proptest::prelude::*;
use time::Duration;

use super::*;
use crate::promise::outlook::outlook;
use crate::promise::plan::PlannedStep;
use generated::workshops;

/// No hand and no station is used twice at once; work is in the hand's own hours and of the right
/// length; order, rests, beginnings and sittings are kept.
fn check(workshop: &Workshop, plan: &Plan) -> Result<(), TestCaseError> {
    let steps: Vec<&PlannedStep> = plan.pairs.iter().flat_map(|pair| &pair.steps).collect();
    let worked = |step: &&&PlannedStep| step.hand.is_some();
    for (place, one) in steps.iter().enumerate().filter(|(_, step)| worked(step)) {
        for other in steps[place + 1..].iter().filter(worked) {
            let together = one.starts < other.ends && other.starts < one.ends;
            prop_assert!(!(together && one.hand == other.hand), "{one:?} {other:?}");
            let share = one.station.is_some() && one.station == other.station;
            prop_assert!(!(together && share), "{one:?} {other:?}");
        }
    }
    for (pair, planned) in workshop.pairs.iter().zip(&plan.pairs) {
        if planned.steps.is_empty() {
            continue;
        }
        if let Begins::At(moment) | Begins::WordBy(moment) = pair.begins {
            prop_assert!(planned.steps[0].starts >= moment);
        }
        let others = plan
            .pairs
            .iter()
            .filter(|other| pair.waits_for.contains(&other.tag));
        for other in others {
            prop_assert!(planned.steps[0].starts >= other.finished.unwrap());
        }
        for (step, done) in pair.steps.iter().zip(&planned.steps) {
            check_hours(workshop, step, done)?;
            let rest = i64::from(step.rest.at_least.get());
            prop_assert_eq!(done.rested, done.ends.plus(Duration::minutes(rest)));
        }
        let places = pair.steps.iter().zip(&planned.steps);
        for ((step, done), next) in places.zip(planned.steps.iter().skip(1)) {
            prop_assert!(next.starts >= done.rested);
            if let Some(at_most) = step.rest.at_most {
                let waited = next.starts.since(done.ends).whole_minutes();
                prop_assert!(waited <= i64::from(at_most.get()));
                let zone = &workshop.calendar.zone;
                prop_assert_eq!(zone.day(done.starts), zone.day(next.starts));
            }
        }
    }
    Ok(())
}

/// Counts, day by day, the minutes of the step's hand between its start and its end.
fn check_hours(workshop: &Workshop, step: &Step, done: &PlannedStep) -> Result<(), TestCaseError> {
    let Some(hand) = workshop
        .hands
        .iter()
        .find(|hand| done.hand.as_ref() == Some(&hand.name))
    else {
        prop_assert_eq!(step.labour.minutes(), Minutes::ZERO);
        return Ok(());
    };
    let shifts = workshop.calendar.shifts(done.starts).map(|shift| {
        let bench = Duration::minutes(i64::from(hand.minutes_on(shift.day).get()));
        (shift.opens, shift.opens.plus(bench).min(shift.closes))
    });
    let shifts: Vec<_> = shifts.take_while(|(opens, _)| *opens < done.ends).collect();
    let within = |(opens, closes): &(Moment, Moment)| {
        let span = done.ends.min(*closes).since(done.starts.max(*opens));
        span.whole_minutes().max(0)
    };
    let sum: i64 = shifts.iter().map(within).sum();
    prop_assert_eq!(sum, i64::from(step.labour.minutes().get()));
    let begins_open =
        |(opens, closes): &(Moment, Moment)| *opens <= done.starts && done.starts < *closes;
    prop_assert!(shifts.iter().any(begins_open));
    let ends_open = |(opens, closes): &(Moment, Moment)| *opens < done.ends && done.ends <= *closes;
    prop_assert!(shifts.iter().any(ends_open));
    if step.one_sitting {
        prop_assert_eq!(done.ends.since(done.starts).whole_minutes(), sum);
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(128))]

    #[test]
    fn every_plan_keeps_hours_hands_stations_order_and_rests(workshop in workshops()) {
        let board = board(&workshop, monday());
        check(&workshop, &Plan::new(&board))?;
        check(&workshop, &Plan::as_hands_come_free(&board))?;
    }

    #[test]
    fn a_pair_placed_last_never_moves_one_before_it(workshop in workshops()) {
        let mut without = workshop.clone();
        without.pairs.pop();
        let (with, without) = (board(&workshop, monday()), board(&without, monday()));
        let before = without.pairs.len();
        prop_assert_eq!(&Plan::new(&with).pairs[..before], &Plan::new(&without).pairs[..]);
        prop_assert_eq!(&outlook(&with, SOME)[..before], &outlook(&without, SOME)[..]);
    }

    #[test]
    fn a_seed_always_gives_the_same_days(workshop in workshops()) {
        let once = outlook(&board(&workshop, monday()), SOME);
        prop_assert_eq!(outlook(&board(&workshop, monday()), SOME), once);
    }

    #[test]
    fn the_order_in_which_stations_are_written_does_not_matter(workshop in workshops()) {
        let mut turned = workshop.clone();
        turned.stations.reverse();
        let (one, other) = (board(&workshop, monday()), board(&turned, monday()));
        let steps = |plan: Plan| plan.pairs.into_iter().map(|pair| pair.steps).collect::<Vec<_>>();
        prop_assert_eq!(steps(Plan::new(&one)), steps(Plan::new(&other)));
        prop_assert_eq!(outlook(&one, SOME), outlook(&other, SOME));
    }

    #[test]
    fn a_workshop_is_read_as_it_was_written(workshop in workshops()) {
        let text = serde_json::to_string(&workshop).unwrap();
        prop_assert_eq!(serde_json::from_str::<Workshop>(&text).unwrap(), workshop);
    }

    #[test]
    fn the_reasons_of_each_pair_add_up(workshop in workshops()) {
        for pair in Plan::new(&board(&workshop, monday())).pairs {
            let sum: Minutes = pair.reasons.iter().map(crate::promise::reason::Reason::minutes).sum();
            let whole = pair.finished.map_or(0, |at| at.since(monday()).whole_minutes());
            prop_assert_eq!(i64::from(sum.get()), whole, "{:?}", pair.reasons);
        }
    }
}

//! A plainer planner, minute by minute with a flag for each: slow, and simple enough to be read.
//! It knows no longest rests; those the properties check.

use std::collections::BTreeSet;

use proptest::prelude::*;

use super::*;
use generated::workshops;

struct Plain<'a> {
    workshop: &'a Workshop,
    /// Which minutes each hand is at the bench, and has not been given away.
    free: Vec<Vec<bool>>,
    at_bench: Vec<Vec<bool>>,
    taken: Vec<(String, BTreeSet<usize>)>,
}

/// Eight weeks.
const MINUTES: usize = 8 * 7 * 24 * 60;

impl<'a> Plain<'a> {
    fn new(workshop: &'a Workshop) -> Self {
        let at_bench: Vec<Vec<bool>> = workshop
            .hands
            .iter()
            .map(|hand| bench_minutes(workshop, hand))
            .collect();
        let stations = workshop.stations.iter();
        Self {
            workshop,
            free: at_bench.clone(),
            at_bench,
            taken: stations
                .map(|name| (name.clone(), BTreeSet::new()))
                .collect(),
        }
    }

    /// The hand's minutes, if it begins with exactly this one.
    fn try_at(&self, hand: usize, step: &Step, start: usize) -> Option<Vec<usize>> {
        let mut worked = Vec::new();
        let wanted = usize::try_from(step.labour.minutes().get()).unwrap();
        for minute in start..MINUTES {
            if self.at_bench[hand][minute] {
                if !self.free[hand][minute] {
                    return None;
                }
                worked.push(minute);
            } else if worked.is_empty() || step.one_sitting {
                return None;
            }
            if worked.len() == wanted {
                break;
            }
        }
        let end = worked.last()? + 1;
        let mut taken = self
            .taken
            .iter()
            .filter(|(name, _)| step.station.as_ref() == Some(name));
        let is_taken = taken.any(|(_, taken)| taken.range(start..end).next().is_some());
        (worked.len() == wanted && !is_taken).then_some(worked)
    }

    /// Plans a pair from a minute on; the start and end of each step.
    fn place(&mut self, steps: &[Step], mut from: usize) -> Option<Vec<(usize, usize)>> {
        let mut places = Vec::new();
        for step in steps {
            let rest = usize::try_from(step.rest.at_least.get()).unwrap();
            if step.labour.minutes() == Minutes::ZERO {
                places.push((from, from));
                from += rest;
                continue;
            }
            let first = |hand| (from..MINUTES).find_map(|start| self.try_at(hand, step, start));
            let found = (0..self.free.len()).filter_map(|hand| Some((hand, first(hand)?)));
            let (hand, worked) = found.min_by_key(|(_, worked)| worked.last().copied())?;
            let (start, end) = (worked[0], worked[worked.len() - 1] + 1);
            for minute in worked {
                self.free[hand][minute] = false;
            }
            for (name, taken) in &mut self.taken {
                if step.station.as_ref() == Some(name) {
                    taken.extend(start..end);
                }
            }
            places.push((start, end));
            from = end + rest;
        }
        Some(places)
    }
}

fn bench_minutes(workshop: &Workshop, hand: &Hand) -> Vec<bool> {
    let mut bench = vec![false; MINUTES];
    for shift in workshop.calendar.shifts(monday()) {
        let minute = |moment: Moment| usize::try_from(moment.since(monday()).whole_minutes());
        let opens = minute(shift.opens).unwrap();
        let stays = usize::try_from(hand.minutes_on(shift.day).get()).unwrap();
        let closes = minute(shift.closes).unwrap().min(opens + stays);
        if closes < MINUTES {
            bench[opens..closes].fill(true);
        }
    }
    bench
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    #[test]
    fn the_plan_is_that_of_a_planner_with_a_flag_for_each_minute(mut workshop in workshops()) {
        for step in workshop.pairs.iter_mut().flat_map(|pair| &mut pair.steps) {
            step.rest.at_most = None;
        }
        let plan = Plan::new(&board(&workshop, monday()));
        let mut plain = Plain::new(&workshop);
        let minute = |moment: Moment| usize::try_from(moment.since(monday()).whole_minutes()).unwrap();
        for (pair, planned) in plain.workshop.pairs.iter().zip(&plan.pairs) {
            let others = plan.pairs.iter().filter(|other| pair.waits_for.contains(&other.tag));
            let others: Option<Vec<Moment>> = others.map(|other| other.finished).collect();
            let begins = match pair.begins {
                Begins::Now | Begins::AfterMaterial => monday(),
                Begins::At(moment) | Begins::WordBy(moment) => moment,
                Begins::AfterTheWord => {
                    prop_assert!(planned.steps.is_empty());
                    continue;
                }
            };
            let Some(others) = others else {
                prop_assert!(planned.steps.is_empty());
                continue;
            };
            let from = others.into_iter().fold(begins, Moment::max);
            let found: Vec<_> = planned
                .steps
                .iter()
                .map(|step| (minute(step.starts), minute(step.ends)))
                .collect();
            prop_assert_eq!(Some(found), plain.place(&pair.steps, minute(from)));
        }
    }
}

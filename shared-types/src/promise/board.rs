//! The planning board: a workshop with every name resolved and every hour laid out, ready to plan.

use std::collections::BTreeSet;
use std::ops::Range;

use time::{Date, Duration};

use crate::moment::Moment;
use crate::promise::axis::Axis;
use crate::promise::calendar::Shift;
use crate::promise::labour::Labour;
use crate::promise::luck::StepKey;
use crate::promise::place::first_misfit;
use crate::promise::workshop::{Begins, Hand, Misfit, Pair, Step, Tag, Workshop};

/// A workshop, laid out on minutes from now.
#[derive(Clone, Debug)]
pub struct Board {
    /// The first whole minute of the plan.
    pub(super) starts: Moment,
    /// The shop's hours, a period for each of `days`.
    pub(super) shop: Axis,
    pub(super) days: Vec<Date>,
    pub(super) hands: Vec<Axis>,
    pub(super) hand_names: Vec<String>,
    pub(super) stations: Vec<String>,
    /// The longest period of any hand.
    pub(super) longest: u32,
    pub(super) pairs: Vec<BoardPair>,
    pub(super) steps: Vec<BoardStep>,
}

#[derive(Clone, Debug)]
pub(super) struct BoardPair {
    pub(super) tag: Tag,
    pub(super) promised: Option<Date>,
    /// The first clock minute for it; none while its owner has not answered.
    pub(super) begins: Option<u32>,
    /// What it waits for until then.
    pub(super) awaits: Begins,
    pub(super) waits_for: Vec<usize>,
    pub(super) steps: Range<usize>,
}

#[derive(Clone, Debug)]
pub(super) struct BoardStep {
    pub(super) name: String,
    pub(super) key: StepKey,
    pub(super) labour: Labour,
    pub(super) spread: f64,
    pub(super) station: Option<usize>,
    pub(super) rest: u32,
    /// The longest rest before the next step, which there is.
    pub(super) at_most: Option<u32>,
    pub(super) one_sitting: bool,
}

/// A workshop with its hours, before it is laid out.
pub(super) struct Floor<'a> {
    /// The first whole minute of the plan.
    pub(super) starts: Moment,
    pub(super) shifts: &'a [Shift],
    pub(super) hands: &'a [Hand],
    pub(super) stations: &'a [String],
    pub(super) pairs: &'a [Pair],
}

/// How far ahead hours are laid out at least and at most, in days.
const AHEAD: Range<i64> = 400..3_660;

impl Board {
    /// Lays out a workshop as it stands `now`.
    pub fn new(workshop: &Workshop, now: Moment) -> Result<Self, Misfit> {
        let starts = whole_minute(now);
        Self::on(&Floor {
            starts,
            shifts: &shifts(workshop, starts).collect::<Vec<_>>(),
            hands: &workshop.hands,
            stations: &workshop.stations,
            pairs: &workshop.pairs,
        })
    }

    /// Lays out a workshop whose hours are known.
    pub(super) fn on(floor: &Floor<'_>) -> Result<Self, Misfit> {
        let (starts, shifts) = (floor.starts, floor.shifts);
        let hand_names = names(floor.hands.iter().map(|hand| &hand.name))?;
        let stations = names(floor.stations.iter())?;
        let tags = names(floor.pairs.iter().map(|pair| &pair.tag.0))?;
        let hands = floor.hands.iter();
        let hands: Vec<Axis> = hands
            .map(|hand| bench_hours(hand, shifts, starts))
            .collect();
        let longest = hands.iter().map(Axis::longest).max().unwrap_or(0);
        if longest == 0 {
            return Err(Misfit::NobodyIn);
        }
        let mut board = Self {
            starts,
            shop: Axis::new(shifts.iter().map(|shift| hours(shift, starts))),
            days: shifts.iter().map(|shift| shift.day).collect(),
            hands,
            hand_names,
            stations,
            longest,
            pairs: Vec::with_capacity(floor.pairs.len()),
            steps: Vec::new(),
        };
        for (place, pair) in floor.pairs.iter().enumerate() {
            let before = &tags[..place];
            board.enter(pair, before)?;
        }
        Ok(board)
    }

    fn enter(&mut self, pair: &Pair, before: &[String]) -> Result<(), Misfit> {
        let waits_for = pair.waits_for.iter().map(|other| {
            let place = before.iter().position(|tag| *tag == other.0);
            place.ok_or_else(|| Misfit::NotBefore {
                tag: pair.tag.clone(),
                other: other.clone(),
            })
        });
        let waits_for = waits_for.collect::<Result<_, _>>()?;
        let first = self.steps.len();
        let steps = self.lay_out(&pair.tag, &pair.steps)?;
        self.steps.extend(steps);
        self.pairs.push(BoardPair {
            tag: pair.tag.clone(),
            promised: pair.promised,
            begins: match pair.begins {
                Begins::Now | Begins::AfterMaterial => Some(0),
                Begins::At(moment) | Begins::WordBy(moment) => Some(self.clock(moment)),
                Begins::AfterTheWord => None,
            },
            awaits: pair.begins,
            waits_for,
            steps: first..self.steps.len(),
        });
        Ok(())
    }

    /// A pair's steps with their stations resolved; each of them fits into an empty bench.
    pub(super) fn lay_out(&self, tag: &Tag, steps: &[Step]) -> Result<Vec<BoardStep>, Misfit> {
        let mut laid = Vec::with_capacity(steps.len());
        for (place, step) in steps.iter().enumerate() {
            let turn = steps[..place]
                .iter()
                .filter(|other| other.name == step.name)
                .count();
            let follows = place + 1 < steps.len();
            let after_open_time = place > 0 && steps[place - 1].rest.at_most.is_some();
            let at_most = step.rest.at_most.filter(|_| follows);
            if at_most.is_some_and(|at_most| at_most < step.rest.at_least) {
                return Err(Misfit::RestUpsideDown {
                    tag: tag.clone(),
                    step: step.name.clone(),
                });
            }
            laid.push(BoardStep {
                name: step.name.clone(),
                key: StepKey::new(&tag.0, &step.name, turn),
                labour: step.labour,
                spread: step.labour.spread(),
                station: self.station_of(tag, step)?,
                rest: step.rest.at_least.get(),
                at_most: at_most.map(crate::minutes::Minutes::get),
                one_sitting: step.one_sitting || at_most.is_some() || after_open_time,
            });
        }
        match first_misfit(self, &laid) {
            Some(place) => Err(Misfit::NeverInOneSitting {
                tag: tag.clone(),
                step: laid[place].name.clone(),
            }),
            None => Ok(laid),
        }
    }

    fn station_of(&self, tag: &Tag, step: &Step) -> Result<Option<usize>, Misfit> {
        let Some(station) = &step.station else {
            return Ok(None);
        };
        match self.stations.iter().position(|name| name == station) {
            Some(place) => Ok(Some(place)),
            None => Err(Misfit::NoSuchStation {
                tag: tag.clone(),
                step: step.name.clone(),
                station: station.clone(),
            }),
        }
    }

    /// Where a pair stands in the order.
    pub(super) fn place_of(&self, tag: &Tag) -> Result<usize, Misfit> {
        let place = self.pairs.iter().position(|pair| pair.tag == *tag);
        place.ok_or_else(|| Misfit::NoSuchPair { tag: tag.clone() })
    }

    /// The first whole minute at or after a moment, from the start of the plan.
    pub(super) fn clock(&self, moment: Moment) -> u32 {
        minutes_since(self.starts, whole_minute(moment))
    }

    /// The moment of a clock minute.
    pub(super) fn moment(&self, clock: u32) -> Moment {
        self.starts.plus(Duration::minutes(i64::from(clock)))
    }

    /// The open minute after `clock` at which answers are next taken up: an opening of the shop, or
    /// a full or half hour.
    pub(super) fn taken_up_after(&self, clock: u32) -> Option<u32> {
        const EVERY: i64 = 30;
        let minute = self.moment(clock).as_micros().div_euclid(60_000_000);
        let ahead = u32::try_from(EVERY - minute.rem_euclid(EVERY)).ok()?;
        self.shop.next_open(clock + ahead)
    }

    /// The first open period in which a pair that is finished at `clock` can be collected.
    pub(super) fn pickup(&self, clock: u32) -> Option<usize> {
        self.shop.period_after(clock)
    }
}

fn names<'a>(all: impl Iterator<Item = &'a String>) -> Result<Vec<String>, Misfit> {
    let mut seen = BTreeSet::new();
    all.map(|name| {
        if seen.insert(name) {
            Ok(name.clone())
        } else {
            Err(Misfit::NameTwice { name: name.clone() })
        }
    })
    .collect()
}

/// The shop's hours from the start of the plan on, for as far as it looks ahead.
pub(super) fn shifts(workshop: &Workshop, starts: Moment) -> impl Iterator<Item = Shift> + '_ {
    let ahead = days_ahead(workshop, starts);
    workshop.calendar.shifts_ahead(starts, ahead)
}

/// Far enough for all the work, twice over, and for the latest beginning; beyond the most days a
/// pair has no forecast.
fn days_ahead(workshop: &Workshop, starts: Moment) -> i64 {
    let steps = || workshop.pairs.iter().flat_map(|pair| &pair.steps);
    let work: i64 = steps()
        .map(|step| i64::from(step.labour.minutes().get()))
        .sum();
    let rests = steps().map(|step| i64::from(step.rest.at_least.get()));
    let week: i64 = workshop
        .hands
        .iter()
        .flat_map(|hand| hand.week)
        .map(|minutes| i64::from(minutes.get().min(24 * 60)))
        .sum();
    let begins = workshop.pairs.iter().filter_map(|pair| match pair.begins {
        Begins::At(moment) | Begins::WordBy(moment) => Some(moment.since(starts).whole_days()),
        Begins::Now | Begins::AfterMaterial | Begins::AfterTheWord => None,
    });
    let days = 7 * 2 * work / week.max(1)
        + begins.max().unwrap_or(0).max(0)
        + rests.max().unwrap_or(0) / (24 * 60);
    AHEAD.start.saturating_add(days).min(AHEAD.end)
}

fn bench_hours(hand: &Hand, shifts: &[Shift], starts: Moment) -> Axis {
    Axis::new(shifts.iter().map(|shift| {
        let minutes = Duration::minutes(i64::from(hand.minutes_on(shift.day).get()));
        let leaves = shift.opens.plus(minutes).min(shift.closes);
        hours(
            &Shift {
                closes: leaves,
                ..*shift
            },
            starts,
        )
    }))
}

fn hours(shift: &Shift, starts: Moment) -> (u32, u32) {
    (
        minutes_since(starts, shift.opens),
        minutes_since(starts, shift.closes),
    )
}

fn minutes_since(starts: Moment, moment: Moment) -> u32 {
    u32::try_from(moment.since(starts).whole_minutes().max(0)).unwrap_or(u32::MAX)
}

/// The first whole minute at or after a moment.
pub(super) fn whole_minute(moment: Moment) -> Moment {
    const MINUTE: i64 = 60_000_000;
    let micros = moment.as_micros();
    Moment::from_micros(
        micros
            .div_euclid(MINUTE)
            .saturating_add(i64::from(micros.rem_euclid(MINUTE) > 0))
            .saturating_mul(MINUTE),
    )
}

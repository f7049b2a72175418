//! The plan: when each step of each open pair is done, by whom, and what a pair waits for.
//!
//! The plan takes every step at its usual minutes. How sure a day is, the [`outlook`] tells.
//!
//! A plan is no guarantee of reason: with one hand more, or one step shorter, some pair may well be
//! ready later (Graham, SIAM Journal on Applied Mathematics 17(2), 1969). So nothing here is ever
//! assumed from an earlier plan; it is planned anew and compared.
//!
//! [`outlook`]: crate::promise::outlook

use serde::{Deserialize, Serialize};
use time::Date;

use crate::moment::Moment;
use crate::promise::board::Board;
use crate::promise::place::{Course, NEVER, Slot, Table};
use crate::promise::reason::Reason;
use crate::promise::workshop::Tag;

/// All open pairs in the shop's order.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub struct Plan {
    /// One for each open pair.
    pub pairs: Vec<PlannedPair>,
}

/// What the plan holds for one pair.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub struct PlannedPair {
    /// Its name.
    pub tag: Tag,
    /// The day that was given.
    pub promised: Option<Date>,
    /// When its last rest ends; none while it waits for its owner's word.
    pub finished: Option<Moment>,
    /// The first day on which it can then be collected.
    pub ready: Option<Date>,
    /// Its steps in order; empty if it is not planned.
    pub steps: Vec<PlannedStep>,
    /// Where its time goes: waits before all else, the longest first.
    pub reasons: Vec<Reason>,
}

/// A step with its place in the plan.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub struct PlannedStep {
    /// What is done.
    pub name: String,
    /// By whom; a step without minutes needs nobody.
    pub hand: Option<String>,
    /// At which station.
    pub station: Option<String>,
    /// When it begins.
    pub starts: Moment,
    /// When it ends; if the shop closes in between, it goes on at the next opening.
    pub ends: Moment,
    /// When the rest after it ends.
    pub rested: Moment,
}

impl Plan {
    /// Plans all open pairs in the shop's order.
    ///
    /// A pair never delays one before it, and each starts as early as that allows.
    pub fn new(board: &Board) -> Self {
        let mut table = Table::new(board);
        let mut slots: Vec<Vec<Slot>> = Vec::with_capacity(board.pairs.len());
        let mut pairs = Vec::with_capacity(board.pairs.len());
        for place in 0..board.pairs.len() {
            table.try_next(board, Course::Usual);
            slots.push(table.slots.clone());
            let reasons = Reason::of(board, &table, &slots);
            table.take(board);
            let finished = table.finished[place];
            pairs.push(planned(board, place, finished, &table.slots, reasons));
        }
        Self { pairs }
    }
}

/// Puts a pair's slots into words and moments.
pub(super) fn planned(
    board: &Board,
    place: usize,
    finished: u32,
    slots: &[Slot],
    reasons: Vec<Reason>,
) -> PlannedPair {
    let pair = &board.pairs[place];
    let steps = &board.steps[pair.steps.clone()];
    let steps = steps.iter().zip(slots).map(|(step, slot)| PlannedStep {
        name: step.name.clone(),
        hand: slot.hand.map(|hand| board.hand_names[hand].clone()),
        station: step.station.map(|station| board.stations[station].clone()),
        starts: board.moment(slot.starts),
        ends: board.moment(slot.ends),
        rested: board.moment(slot.ends + step.rest),
    });
    PlannedPair {
        tag: pair.tag.clone(),
        promised: pair.promised,
        finished: (finished != NEVER).then(|| board.moment(finished)),
        ready: board.pickup(finished).map(|period| board.days[period]),
        steps: steps.collect(),
        reasons,
    }
}

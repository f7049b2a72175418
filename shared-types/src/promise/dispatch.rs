//! The plan of a bench that keeps no order: a hand that is free takes the first pair in the order
//! that can be worked on just then (list scheduling: Graham, Bell System Technical Journal 45,
//! 1966).
//!
//! No hand ever waits for a better pair, so a later pair may hold up an earlier one. It serves the
//! owner who wants to know what keeping the order costs.

use crate::promise::board::Board;
use crate::promise::place::{Course, NEVER, Slot, Table};
use crate::promise::plan::{Plan, planned};

impl Plan {
    /// Plans all open pairs as hands come free. It tells no reasons.
    pub fn as_hands_come_free(board: &Board) -> Self {
        let mut table = Table::new(board);
        table.finished.resize(board.pairs.len(), NEVER);
        let mut progress: Vec<Progress> = (0..board.pairs.len()).map(Progress::new).collect();
        while let Some((next, slots)) = earliest(board, &mut table, &progress) {
            let done = &mut progress[next];
            let steps = &board.steps[board.pairs[next].steps.clone()];
            let first = done.slots.len();
            table.slots = slots;
            table.take_slots(&steps[first..]);
            done.slots.extend(&table.slots);
            done.rested = Some(last_rest(board, next, done));
            if done.slots.len() == steps.len() {
                table.finished[next] = done.rested.unwrap_or(NEVER);
            }
        }
        let pairs = progress.iter().map(|pair| {
            let finished = table.finished[pair.place];
            planned(board, pair.place, finished, &pair.slots, Vec::new())
        });
        Self {
            pairs: pairs.collect(),
        }
    }
}

/// How far a pair has come.
struct Progress {
    place: usize,
    slots: Vec<Slot>,
    /// When the rest after its last step ends.
    rested: Option<u32>,
}

impl Progress {
    fn new(place: usize) -> Self {
        Self {
            place,
            slots: Vec::new(),
            rested: None,
        }
    }
}

fn last_rest(board: &Board, place: usize, pair: &Progress) -> u32 {
    let steps = &board.steps[board.pairs[place].steps.clone()];
    let last = pair.slots.iter().zip(steps).next_back();
    last.map_or(NEVER, |(slot, step)| slot.ends + step.rest)
}

/// Whose next step can begin first; of several the first in the order.
fn earliest(board: &Board, table: &mut Table, progress: &[Progress]) -> Option<(usize, Vec<Slot>)> {
    let mut first: Option<(usize, Vec<Slot>)> = None;
    for pair in progress {
        let steps = &board.steps[board.pairs[pair.place].steps.clone()];
        let left = &steps[pair.slots.len()..];
        if left.is_empty() {
            continue;
        }
        let Some(from) = pair.rested.or_else(|| table.earliest(board, pair.place)) else {
            continue;
        };
        // Steps that hang together by a longest rest are begun together or not at all.
        let together = left
            .iter()
            .take_while(|step| step.at_most.is_some())
            .count()
            + 1;
        if table.try_steps(board, &left[..together], from, Course::Usual) == NEVER {
            continue;
        }
        let starts = |slots: &[Slot]| slots.first().map(|slot| slot.starts);
        if first
            .as_ref()
            .is_none_or(|(_, slots)| starts(&table.slots) < starts(slots))
        {
            first = Some((pair.place, table.slots.clone()));
        }
    }
    first
}

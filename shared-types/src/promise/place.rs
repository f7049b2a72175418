//! Placing pairs one after the other, each as early as what was placed before it allows.
//!
//! This is serial schedule generation (Kolisch and Hartmann, in Węglarz (ed.), "Project
//! scheduling", 1999): a pair takes what earlier ones left free, gaps included, and never moves
//! any of them. Of the hands it takes the one with whom the step ends first.

use crate::promise::board::{Board, BoardStep};
use crate::promise::free::Free;
use crate::promise::labour::drawn;
use crate::promise::luck::Luck;

/// The clock minute of what does not happen within the laid-out days.
pub(super) const NEVER: u32 = u32::MAX;

/// Whether steps take their usual minutes, or those of a draw.
#[derive(Clone, Copy, Debug)]
pub(super) enum Course {
    Usual,
    Drawn(Luck),
}

/// Where a step was placed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Slot {
    /// A step without any work needs no hand.
    pub(super) hand: Option<usize>,
    /// The open minute of the hand at which it begins.
    open: u32,
    minutes: u32,
    /// Clock minutes.
    pub(super) starts: u32,
    pub(super) ends: u32,
}

/// What is taken so far. The same table serves draw after draw without new memory.
#[derive(Clone, Debug)]
pub(super) struct Table {
    hands: Vec<Free>,
    stations: Vec<Free>,
    /// When each pair is finished, in clock minutes.
    pub(super) finished: Vec<u32>,
    /// Where the steps of the pair in hand would go.
    pub(super) slots: Vec<Slot>,
    minutes: Vec<u32>,
}

impl Table {
    pub(super) fn new(board: &Board) -> Self {
        let mut table = Self {
            hands: vec![Free::default(); board.hands.len()],
            stations: vec![Free::default(); board.stations.len()],
            finished: Vec::with_capacity(board.pairs.len()),
            slots: Vec::new(),
            minutes: Vec::new(),
        };
        table.clear(board);
        table
    }

    /// Makes all hands and stations free again.
    pub(super) fn clear(&mut self, board: &Board) {
        for (free, axis) in self.hands.iter_mut().zip(&board.hands) {
            free.clear(axis.total());
        }
        for free in &mut self.stations {
            free.clear(NEVER);
        }
        self.finished.clear();
    }

    /// Places the pairs before `place` in the order.
    pub(super) fn seat_all_before(&mut self, board: &Board, place: usize, course: Course) {
        self.clear(board);
        while self.finished.len() < place {
            self.try_next(board, course);
            self.take(board);
        }
    }

    /// Finds slots for the next pair of the order.
    pub(super) fn try_next(&mut self, board: &Board, course: Course) {
        let pair = &board.pairs[self.finished.len()];
        let steps = &board.steps[pair.steps.clone()];
        let finish = if let Some(from) = self.earliest(board, self.finished.len()) {
            self.try_steps(board, steps, from, course)
        } else {
            self.slots.clear();
            NEVER
        };
        self.finished.push(finish);
    }

    /// From when a pair can be worked on, if the pairs that it waits for get finished at all.
    pub(super) fn earliest(&self, board: &Board, place: usize) -> Option<u32> {
        let pair = &board.pairs[place];
        let others = pair.waits_for.iter().map(|other| self.finished[*other]);
        let from = others.fold(pair.begins?, u32::max);
        (from != NEVER).then_some(from)
    }

    /// Finds slots for these steps, the first at `from` at the earliest, and returns when the last
    /// rest ends.
    pub(super) fn try_steps(
        &mut self,
        board: &Board,
        steps: &[BoardStep],
        from: u32,
        course: Course,
    ) -> u32 {
        self.minutes.clear();
        self.minutes
            .extend(steps.iter().map(|step| step.minutes(course)));
        let Self { slots, minutes, .. } = self;
        let (mut slots, minutes) = (std::mem::take(slots), std::mem::take(minutes));
        let finish = self.chain(board, steps, &minutes, from, &mut slots);
        if finish.is_none() {
            slots.clear();
        }
        self.slots = slots;
        self.minutes = minutes;
        finish.unwrap_or(NEVER)
    }

    fn chain(
        &self,
        board: &Board,
        steps: &[BoardStep],
        minutes: &[u32],
        from: u32,
        slots: &mut Vec<Slot>,
    ) -> Option<u32> {
        slots.clear();
        let mut from = from;
        while let Some(step) = steps.get(slots.len()) {
            let place = slots.len();
            let slot = self.slot(board, step, minutes[place], from)?;
            if let Some(later) = pushes_back(board, steps, minutes, slots, slot) {
                // The step before has to be done again, later; it may push its own one in turn.
                slots.pop();
                from = later;
                continue;
            }
            slots.push(slot);
            from = slot.ends + step.rest;
        }
        Some(from)
    }

    /// The earliest slot for a step that takes so many minutes.
    pub(super) fn slot(
        &self,
        board: &Board,
        step: &BoardStep,
        minutes: u32,
        from: u32,
    ) -> Option<Slot> {
        if minutes == 0 {
            return Some(Slot {
                hand: None,
                open: 0,
                minutes,
                starts: from,
                ends: from,
            });
        }
        let mut best: Option<Slot> = None;
        for (hand, (axis, free)) in board.hands.iter().zip(&self.hands).enumerate() {
            let open = free.not_before(axis.open_before(from), minutes);
            let at_best = axis.clock_after(open, minutes).unwrap_or(NEVER);
            if best.is_some_and(|best| best.ends <= at_best) {
                continue;
            }
            let slot = self.slot_with(board, step, minutes, from, hand);
            if slot.is_some_and(|slot| best.is_none_or(|best| slot.ends < best.ends)) {
                best = slot;
            }
        }
        best
    }

    fn slot_with(
        &self,
        board: &Board,
        step: &BoardStep,
        minutes: u32,
        from: u32,
        hand: usize,
    ) -> Option<Slot> {
        let (axis, free) = (&board.hands[hand], &self.hands[hand]);
        let station = step.station.map(|station| &self.stations[station]);
        // What is too long for any period goes on the next day, whatever was wished.
        let one_sitting = step.one_sitting && minutes <= board.longest;
        let mut from = from;
        loop {
            if let Some(station) = station {
                from = station.earliest(from, minutes)?;
            }
            let open = axis.open_before(from);
            let open = if one_sitting {
                free.earliest_in_one_sitting(axis, open, minutes)?
            } else {
                free.earliest(open, minutes)?
            };
            let slot = Slot {
                hand: Some(hand),
                open,
                minutes,
                starts: axis.clock_at(open)?,
                ends: axis.clock_after(open, minutes)?,
            };
            match station.map(|station| station.is_free(slot.starts, slot.ends)) {
                None | Some(Ok(())) => return Some(slot),
                Some(Err(next)) => from = next?,
            }
        }
    }

    /// Takes the slots that were found for the pair tried last.
    pub(super) fn take(&mut self, board: &Board) {
        let pair = &board.pairs[self.finished.len() - 1];
        self.take_slots(&board.steps[pair.steps.clone()]);
    }

    /// Takes the slots that were found for these steps.
    pub(super) fn take_slots(&mut self, steps: &[BoardStep]) {
        for (slot, step) in self.slots.iter().zip(steps) {
            let Some(hand) = slot.hand else { continue };
            self.hands[hand].take(slot.open, slot.minutes);
            if let Some(station) = step.station {
                self.stations[station].take(slot.starts, slot.ends - slot.starts);
            }
        }
    }
}

/// The first step that no empty bench has room for.
pub(super) fn first_misfit(board: &Board, steps: &[BoardStep]) -> Option<usize> {
    let usual = steps.iter().map(|step| step.minutes(Course::Usual));
    let minutes: Vec<u32> = usual.collect();
    (0..steps.len()).find(|place| {
        let step = &steps[*place];
        (step.one_sitting && minutes[*place] > board.longest)
            || (step.at_most.is_some() && !fits_together(board, steps, &minutes, *place))
    })
}

impl BoardStep {
    /// How long it takes.
    pub(super) fn minutes(&self, course: Course) -> u32 {
        let usual = self.labour.minutes().get();
        match course {
            Course::Drawn(luck) if self.spread > 0.0 => {
                drawn(usual, self.spread, luck.normal(self.key))
            }
            Course::Usual | Course::Drawn(_) => usual,
        }
    }
}

/// When the step before this slot has to begin instead, if too much time lies between them.
fn pushes_back(
    board: &Board,
    steps: &[BoardStep],
    minutes: &[u32],
    slots: &[Slot],
    slot: Slot,
) -> Option<u32> {
    let place = slots.len().checked_sub(1)?;
    let (before, at_most) = (slots[place], steps[place].at_most?);
    let period = |clock| board.shop.period_after(clock);
    let here = period(slot.starts)?;
    if slot.starts - before.ends <= at_most && period(before.starts) == Some(here) {
        return None;
    }
    // What no open period can hold, as in a draw of bad luck, is done as it comes.
    if !fits_together(board, steps, minutes, place) {
        return None;
    }
    let (opens, _) = board.shop.hours(here)?;
    let in_time = slot.starts.saturating_sub(at_most + minutes[place]);
    Some(in_time.max(opens).max(before.starts + 1))
}

/// Whether all steps that hang together with the one at `place` by longest rests fit into the
/// longest period of a hand.
fn fits_together(board: &Board, steps: &[BoardStep], minutes: &[u32], place: usize) -> bool {
    let first = (0..place)
        .rev()
        .take_while(|before| steps[*before].at_most.is_some())
        .last()
        .unwrap_or(place);
    let mut needed = 0;
    for (step, minutes) in steps[first..].iter().zip(&minutes[first..]) {
        needed += minutes;
        if step.at_most.is_none() {
            break;
        }
        needed += step.rest;
    }
    needed <= board.longest
}

//! Two rulers of time: the clock, and a hand's own open minutes, which stand still while the hand
//! is not at the bench.
//!
//! On the ruler of open minutes work is one straight piece, however many nights and closed days it
//! runs over; rests are straight on the clock. Both count whole minutes from the start of the plan.

/// Stretches of the clock in which somebody works, with their place on the ruler of open minutes.
#[derive(Clone, Debug)]
pub(super) struct Axis {
    periods: Vec<Period>,
    /// For each block of the clock, the first period that closes after the block's start.
    by_clock: Vec<usize>,
    /// For each block of open minutes, the period in which the block begins.
    by_open: Vec<usize>,
    total: u32,
    longest: u32,
}

#[derive(Clone, Copy, Debug)]
struct Period {
    opens: u32,
    closes: u32,
    /// Open minutes before this period.
    before: u32,
}

/// Minutes in a block of the look-up tables: at most a few periods begin in one.
const BLOCK: u32 = 512;

fn block(minute: u32) -> usize {
    usize::try_from(minute / BLOCK).unwrap_or(usize::MAX)
}

impl Axis {
    /// Periods as clock minutes of opening and closing, in order; empty ones are left out.
    pub(super) fn new(stretches: impl Iterator<Item = (u32, u32)>) -> Self {
        let mut axis = Self {
            periods: Vec::new(),
            by_clock: Vec::new(),
            by_open: Vec::new(),
            total: 0,
            longest: 0,
        };
        for (opens, closes) in stretches.filter(|(opens, closes)| opens < closes) {
            axis.periods.push(Period {
                opens,
                closes,
                before: axis.total,
            });
            axis.total += closes - opens;
            axis.longest = axis.longest.max(closes - opens);
        }
        for (place, period) in axis.periods.iter().enumerate() {
            let until = period.before + (period.closes - period.opens);
            axis.by_clock.resize(block(period.closes - 1) + 1, place);
            axis.by_open.resize(block(until - 1) + 1, place);
        }
        axis
    }

    /// All open minutes.
    pub(super) fn total(&self) -> u32 {
        self.total
    }

    /// The minutes of its longest period.
    pub(super) fn longest(&self) -> u32 {
        self.longest
    }

    /// The first period that closes after this clock minute.
    pub(super) fn period_after(&self, clock: u32) -> Option<usize> {
        let mut place = *self.by_clock.get(block(clock))?;
        while self.periods.get(place)?.closes <= clock {
            place += 1;
        }
        Some(place)
    }

    /// The first open clock minute at or after this one.
    pub(super) fn next_open(&self, clock: u32) -> Option<u32> {
        let period = self.periods.get(self.period_after(clock)?)?;
        Some(period.opens.max(clock))
    }

    /// When a period opens and closes, in clock minutes.
    pub(super) fn hours(&self, period: usize) -> Option<(u32, u32)> {
        let period = self.periods.get(period)?;
        Some((period.opens, period.closes))
    }

    /// How many open minutes lie before this clock minute.
    pub(super) fn open_before(&self, clock: u32) -> u32 {
        match self.period_after(clock) {
            Some(place) => {
                let period = self.periods[place];
                period.before + clock.saturating_sub(period.opens)
            }
            None => self.total,
        }
    }

    /// The clock minute at which the open minute `open` begins.
    pub(super) fn clock_at(&self, open: u32) -> Option<u32> {
        let period = self.period_of(open)?;
        Some(period.opens + (open - period.before))
    }

    /// The clock minute at which `minutes` of work that begin with the open minute `open` end: at
    /// the closing, not at the next opening, if they fill a period.
    pub(super) fn clock_after(&self, open: u32, minutes: u32) -> Option<u32> {
        let last = (open + minutes).checked_sub(1)?;
        Some(self.clock_at(last)? + 1)
    }

    /// The first open minute at or after `open` from which so many minutes fit in one period.
    pub(super) fn one_sitting(&self, open: u32, minutes: u32) -> Option<u32> {
        if minutes > self.longest {
            return None;
        }
        let mut start = open;
        loop {
            let period = self.period_of(start)?;
            let until = period.before + (period.closes - period.opens);
            if start + minutes <= until {
                return Some(start);
            }
            start = until;
        }
    }

    fn period_of(&self, open: u32) -> Option<Period> {
        if open >= self.total {
            return None;
        }
        let mut place = *self.by_open.get(block(open))?;
        loop {
            let period = *self.periods.get(place)?;
            if open < period.before + (period.closes - period.opens) {
                return Some(period);
            }
            place += 1;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn axis() -> Axis {
        Axis::new([(10, 20), (30, 30), (40, 70), (2_000, 2_005)].into_iter())
    }

    #[test]
    fn work_ends_at_closing_and_begins_at_opening() {
        let axis = axis();
        assert_eq!((axis.total(), axis.longest()), (45, 30));
        assert_eq!(axis.clock_at(10), Some(40));
        assert_eq!(axis.clock_after(0, 10), Some(20));
        assert_eq!(axis.clock_after(5, 10), Some(45));
        assert_eq!(axis.open_before(25), 10);
        assert_eq!(axis.next_open(20), Some(40));
        assert_eq!(axis.next_open(70), Some(2_000));
        assert_eq!(axis.next_open(2_005), None);
        assert_eq!(axis.clock_at(45), None);
        assert_eq!(axis.one_sitting(5, 6), Some(10));
        assert_eq!(axis.one_sitting(5, 5), Some(5));
        assert_eq!(axis.one_sitting(35, 6), None);
        assert_eq!(axis.one_sitting(0, 31), None);
    }

    proptest! {
        /// The two rulers agree with counting minute by minute.
        #[test]
        fn the_rulers_agree_with_counting(
            lengths in prop::collection::vec((0_u32..900, 0_u32..700), 1..12),
        ) {
            let mut clock = 0;
            let stretches: Vec<(u32, u32)> = lengths
                .into_iter()
                .map(|(closed, open)| {
                    let opens = clock + closed;
                    // Two periods never touch: between days the shop is closed.
                    clock = opens + open + 1;
                    (opens, opens + open)
                })
                .collect();
            let axis = Axis::new(stretches.iter().copied());
            let minutes: Vec<u32> = stretches.iter().flat_map(|(from, to)| *from..*to).collect();
            for (open, clock) in (0..).zip(&minutes) {
                prop_assert_eq!(axis.clock_at(open), Some(*clock));
                prop_assert_eq!(axis.open_before(*clock), open);
                prop_assert_eq!(axis.next_open(*clock), Some(*clock));
            }
            for at in 0..=clock {
                let expected = minutes.partition_point(|minute| *minute < at);
                prop_assert_eq!(usize::try_from(axis.open_before(at)).unwrap(), expected);
                prop_assert_eq!(axis.next_open(at), minutes.get(expected).copied());
            }
        }
    }
}

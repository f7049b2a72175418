//! The free time of one hand or one station: gaps that only ever shrink while a plan is made.

use crate::promise::axis::Axis;

/// Gaps in order, none of them empty, no two touching.
#[derive(Clone, Debug, Default)]
pub(super) struct Free {
    gaps: Vec<Gap>,
    /// Where the first gap of at least [`LENGTHS`] minutes begins. Since gaps only shrink, nothing
    /// before it need ever be looked at again; that keeps a long plan from becoming slow.
    first: [u32; LENGTHS.len()],
}

#[derive(Clone, Copy, Debug)]
struct Gap {
    from: u32,
    to: u32,
}

/// Lengths of gaps whose first one is remembered.
const LENGTHS: [u32; 16] = [
    0, 5, 8, 10, 12, 15, 20, 25, 30, 40, 50, 60, 90, 120, 180, 240,
];

fn class(minutes: u32) -> usize {
    LENGTHS.partition_point(|length| *length <= minutes) - 1
}

impl Free {
    /// Makes everything before `total` free again, keeping the memory.
    pub(super) fn clear(&mut self, total: u32) {
        self.gaps.clear();
        self.gaps.push(Gap { from: 0, to: total });
        self.first = [0; LENGTHS.len()];
    }

    /// Before this minute no so many free ones begin at or after `from`: cheap to tell, and often
    /// enough to pass over a busy hand.
    pub(super) fn not_before(&self, from: u32, minutes: u32) -> u32 {
        from.max(self.first[class(minutes)])
    }

    /// The gaps that may hold so many minutes at or after `from`.
    fn candidates(&self, from: u32, minutes: u32) -> impl Iterator<Item = &Gap> {
        let from = self.not_before(from, minutes);
        let reach = from.saturating_add(minutes);
        let start = self.gaps.partition_point(|gap| gap.to < reach);
        self.gaps[start..].iter()
    }

    /// The first minute at or after `from` that begins so many free ones.
    pub(super) fn earliest(&self, from: u32, minutes: u32) -> Option<u32> {
        self.candidates(from, minutes).find_map(|gap| {
            let start = gap.from.max(from);
            (start.checked_add(minutes)? <= gap.to).then_some(start)
        })
    }

    /// The same, but within one period of the axis.
    pub(super) fn earliest_in_one_sitting(
        &self,
        axis: &Axis,
        from: u32,
        minutes: u32,
    ) -> Option<u32> {
        self.candidates(from, minutes).find_map(|gap| {
            let start = axis.one_sitting(gap.from.max(from), minutes)?;
            (start + minutes <= gap.to).then_some(start)
        })
    }

    /// Whether all of `from..to` is free, and if not, where the next gap begins.
    pub(super) fn is_free(&self, from: u32, to: u32) -> Result<(), Option<u32>> {
        let place = self.gaps.partition_point(|gap| gap.to <= from);
        match self.gaps.get(place) {
            Some(gap) if gap.from <= from && to <= gap.to => Ok(()),
            Some(gap) if gap.from > from => Err(Some(gap.from)),
            Some(_) => Err(self.gaps.get(place + 1).map(|gap| gap.from)),
            None => Err(None),
        }
    }

    /// Takes `minutes` from `from` on, which are free.
    pub(super) fn take(&mut self, from: u32, minutes: u32) {
        let place = self.gaps.partition_point(|gap| gap.to <= from);
        let Some(gap) = self.gaps.get(place).copied() else {
            return;
        };
        let before = Gap { to: from, ..gap };
        let after = Gap {
            from: from + minutes,
            ..gap
        };
        match (before.from < before.to, after.from < after.to) {
            (true, true) => {
                self.gaps[place] = before;
                self.gaps.insert(place + 1, after);
            }
            (true, false) => self.gaps[place] = before,
            (false, true) => self.gaps[place] = after,
            (false, false) => {
                self.gaps.remove(place);
            }
        }
        for (first, length) in self.first.iter_mut().zip(LENGTHS) {
            if *first == gap.from {
                let fits = |gap: &&Gap| gap.to - gap.from >= length;
                *first = self.gaps[place..]
                    .iter()
                    .find(fits)
                    .map_or(u32::MAX, |gap| gap.from);
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// The plain way: one flag for each minute.
    fn earliest_by_flags(busy: &[bool], from: usize, minutes: usize) -> Option<usize> {
        (from..=busy.len().saturating_sub(minutes))
            .find(|start| busy[*start..start + minutes].iter().all(|taken| !taken))
    }

    proptest! {
        #[test]
        fn gaps_agree_with_a_flag_for_each_minute(
            asks in prop::collection::vec((0_u32..600, 1_u32..70), 1..60),
        ) {
            let mut free = Free::default();
            free.clear(600);
            let mut busy = [false; 600];
            let wide = |minute: u32| usize::try_from(minute).unwrap();
            for (from, minutes) in asks {
                let found = free.earliest(from, minutes);
                prop_assert_eq!(found.map(wide), earliest_by_flags(&busy, wide(from), wide(minutes)));
                let to = from + minutes;
                let all_free = wide(to) <= 600 && busy[wide(from)..wide(to)].iter().all(|taken| !taken);
                prop_assert_eq!(free.is_free(from, to).is_ok(), all_free);
                if let Some(start) = found {
                    free.take(start, minutes);
                    busy[wide(start)..wide(start + minutes)].fill(true);
                }
            }
        }
    }
}

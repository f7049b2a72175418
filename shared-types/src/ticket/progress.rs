//! How far the agreed work on a pair has come, as its record shows it.

use time::Duration;

use crate::minutes::Minutes;
use crate::moment::Moment;
use crate::scope::ScopeLine;
use crate::stage::Hold;
use crate::ticket::Pair;

/// The agreed work of a pair, in the order of the stages.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Progress<'a> {
    /// What is done.
    pub done: Vec<&'a ScopeLine>,
    /// What is still to do.
    pub left: Vec<&'a ScopeLine>,
    /// When a rest ends that has begun, by the price book.
    pub rests_until: Option<Moment>,
}

/// How long a pair rests that the bench lets dry after work for which no rest is written: over
/// night (common practice, no source).
const OVER_NIGHT: Minutes = Minutes::new(12 * 60);

impl Pair {
    /// How far it has come.
    ///
    /// A pair that rests has had the work before its rest: each rest that the bench has begun in the
    /// pair's stage shows that one more line with a rest is done, and what comes before that line.
    /// A pair that moved on without such a word rests from then on after the last line of the stages
    /// before.
    pub fn progress(&self) -> Progress<'_> {
        let mut lines: Vec<&ScopeLine> = self.agreed().lines.iter().collect();
        lines.sort_by_key(|line| line.stage);
        let first = lines.partition_point(|line| line.stage < self.stage);
        let (before, left) = lines.split_at(first);
        let resting = left
            .iter()
            .enumerate()
            .filter(|(_, line)| line.stage == self.stage && line.rest > Minutes::ZERO);
        let rested = resting.take(self.rests.len()).last();
        let ends =
            |since: &Moment, rest: Minutes| since.plus(Duration::minutes(i64::from(rest.get())));
        let rests_until = match (self.hold, self.rests.last()) {
            (Some(Hold::Drying), Some(since)) => {
                let lines = rested.iter().map(|(_, line)| line.rest);
                let earlier = before.iter().rev().map(|line| line.rest);
                let mut rests = lines.chain(earlier);
                let rest = rests.find(|rest| *rest > Minutes::ZERO);
                Some(ends(since, rest.unwrap_or(OVER_NIGHT)))
            }
            (_, Some(_)) => None,
            (_, None) => before
                .last()
                .filter(|line| line.rest > Minutes::ZERO)
                .map(|line| ends(&self.stage_since, line.rest)),
        };
        let done = first + rested.map_or(0, |(place, _)| place + 1);
        let left = lines.split_off(done);
        Progress {
            done: lines,
            left,
            rests_until,
        }
    }

    /// What is still to do of this work: all but the agreed lines that are done, whatever reason
    /// they are given now.
    pub fn to_do(&self, lines: &[ScopeLine]) -> Vec<ScopeLine> {
        let done = self.progress().done;
        not_done(lines, done.into_iter().cloned().collect())
    }
}

/// These lines without those that are done.
pub(crate) fn not_done(lines: &[ScopeLine], mut done: Vec<ScopeLine>) -> Vec<ScopeLine> {
    let mut left = lines.to_vec();
    left.retain(|line| {
        let place = done.iter().position(|done| done.is_same_work(line));
        place.map(|place| done.swap_remove(place)).is_none()
    });
    left
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::stage::Stage;
    use crate::text::Words;
    use crate::ticket::Construction;
    use crate::ticket::tests::{pair_built, work};

    fn line(title: &str, stage: Stage, rest: u32) -> ScopeLine {
        ScopeLine {
            stage,
            rest: Minutes::new(rest),
            ..work(title, 30)
        }
    }

    /// The soles are laid and rest: an offer that keeps them, says anew why, and adds a heel and a
    /// second such sole, has two pieces of work more to do and not three.
    #[test]
    fn work_that_rests_is_not_to_do_again_and_the_same_work_twice_is() {
        let (soles, edges) = (
            line("Soles", Stage::Soling, 720),
            line("Edges", Stage::Finishing, 0),
        );
        let mut boots = pair_built(Construction::Welt270, vec![soles.clone(), edges.clone()]);
        boots.stage = Stage::Soling;
        boots.hold = Some(Hold::Drying);
        boots.rests = vec![boots.stage_since];
        let kept = ScopeLine {
            reason: Words::parse("Because the old ones were through").ok(),
            ..soles.clone()
        };
        let heel = line("Heels", Stage::Heeling, 0);
        let left = boots.to_do(&[kept, heel.clone(), soles.clone(), edges.clone()]);
        assert_eq!(left, [heel, soles, edges]);
    }
}

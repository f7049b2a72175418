//! What is left to do on a pair, as the plan needs it: its agreed work in order, and a rest that
//! has begun.

use serde::{Deserialize, Serialize};

use crate::id::ServiceId;
use crate::minutes::Minutes;
use crate::moment::Moment;
use crate::pricebook::Service;
use crate::scope::ScopeLine;
use crate::text::Line;
use crate::ticket::Pair;

/// One piece of agreed work that is still to do.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct LeftLine {
    /// As the bench calls it.
    pub title: Line,
    /// The service of the price book that it came from, if any.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub service: Option<ServiceId>,
    /// Bench minutes.
    pub minutes: Minutes,
    /// Rest after it, in clock minutes.
    pub rest: Minutes,
}

impl From<&ScopeLine> for LeftLine {
    fn from(line: &ScopeLine) -> Self {
        Self {
            title: line.title.clone(),
            service: line.service,
            minutes: line.minutes,
            rest: line.rest,
        }
    }
}

impl<U> From<&Service<U>> for LeftLine {
    fn from(service: &Service<U>) -> Self {
        Self {
            title: service.title.clone(),
            service: Some(service.id),
            minutes: service.minutes,
            rest: service.rest,
        }
    }
}

/// What is left to do on a pair.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Left {
    /// Agreed work that is still to do, in order.
    pub lines: Vec<LeftLine>,
    /// When a rest ends that has begun, by the price book.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub rests_until: Option<Moment>,
}

impl Left {
    /// What the record of a pair says is left.
    pub fn of(pair: &Pair) -> Self {
        let progress = pair.progress();
        Self {
            lines: progress.left.into_iter().map(LeftLine::from).collect(),
            rests_until: progress.rests_until,
        }
    }
}

#[cfg(test)]
mod tests {
    use time::Duration;

    use super::*;
    use crate::stage::{Hold, Stage};
    use crate::ticket::Construction;
    use crate::ticket::tests::{pair_built, work};

    fn line(title: &str, stage: Stage, minutes: u32, rest: u32) -> ScopeLine {
        ScopeLine {
            stage,
            rest: Minutes::new(rest),
            ..work(title, minutes)
        }
    }

    /// Written out of order: the stages put it in order.
    fn boots(stage: Stage) -> Pair {
        let lines = vec![
            line("Edges", Stage::Finishing, 65, 120),
            line("Rib", Stage::Structure, 30, 240),
            line("Welt", Stage::Structure, 150, 0),
            line("Cork", Stage::Structure, 20, 60),
            line("Soles", Stage::Soling, 70, 720),
            line("Stitched", Stage::Soling, 35, 0),
            line("Polish", Stage::Finishing, 30, 720),
        ];
        let mut pair = pair_built(Construction::Welt270, lines);
        pair.stage = stage;
        pair
    }

    fn titles(left: &Left) -> Vec<&str> {
        left.lines.iter().map(|line| line.title.as_str()).collect()
    }

    fn after(pair: &Pair, minutes: i64) -> Moment {
        pair.stage_since.plus(Duration::minutes(minutes))
    }

    #[test]
    fn what_is_left_stands_in_the_order_of_the_stages() {
        let all = Left::of(&boots(Stage::TakenIn));
        let order = [
            "Rib", "Welt", "Cork", "Soles", "Stitched", "Edges", "Polish",
        ];
        assert_eq!((titles(&all), all.rests_until), (order.to_vec(), None));
        let heeling = boots(Stage::Heeling);
        let left = Left::of(&heeling);
        assert_eq!(titles(&left), ["Edges", "Polish"]);
        // Stitching needs no rest, and when it was done the soles were dry.
        assert_eq!(left.rests_until, None);
    }

    #[test]
    fn a_pair_that_moved_on_still_rests_after_its_last_work() {
        let soling = boots(Stage::Soling);
        let left = Left::of(&soling);
        assert_eq!(titles(&left), ["Soles", "Stitched", "Edges", "Polish"]);
        assert_eq!(left.rests_until, Some(after(&soling, 60)));
    }

    #[test]
    fn a_rest_shows_that_the_work_before_it_is_done() {
        let mut soling = boots(Stage::Soling);
        let at = soling.stage_since.plus(Duration::minutes(90));
        soling.hold = Some(Hold::Drying);
        soling.rests = vec![at];
        let left = Left::of(&soling);
        assert_eq!(titles(&left), ["Stitched", "Edges", "Polish"]);
        assert_eq!(left.rests_until, Some(after(&soling, 90 + 720)));
        // The bench says that it is dry: so it is.
        soling.hold = None;
        let left = Left::of(&soling);
        assert_eq!(titles(&left), ["Stitched", "Edges", "Polish"]);
        assert_eq!(left.rests_until, None);

        let mut structure = boots(Stage::Structure);
        structure.hold = Some(Hold::Drying);
        structure.rests = vec![at, at.plus(Duration::minutes(300))];
        let left = Left::of(&structure);
        assert_eq!(titles(&left), ["Soles", "Stitched", "Edges", "Polish"]);
        assert_eq!(left.rests_until, Some(after(&structure, 390 + 60)));
    }

    #[test]
    fn a_rest_that_nobody_wrote_down_lasts_over_night() {
        let mut teardown = boots(Stage::Teardown);
        teardown.hold = Some(Hold::Drying);
        teardown.rests = vec![teardown.stage_since];
        let left = Left::of(&teardown);
        assert_eq!(left.lines.len(), 7);
        assert_eq!(left.rests_until, Some(after(&teardown, 720)));
    }
}

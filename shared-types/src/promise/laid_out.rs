//! Open work on its way to the browser: the shop's hours as minutes, since a browser has no time
//! zones, and every kind of step once, so that a page with hundreds of pairs stays light.

use serde::{Deserialize, Serialize};
use time::{Date, Duration};

use crate::moment::Moment;
use crate::promise::board::{Board, Floor, shifts, whole_minute};
use crate::promise::calendar::Shift;
use crate::promise::open_work::OpenWork;
use crate::promise::practice::Practice;
use crate::promise::workshop::{Begins, Hand, Misfit, Pair, Step, Tag};

/// Open work that can be planned without its calendar.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct LaidOut {
    starts: Moment,
    shifts: Vec<PackedShift>,
    hands: Vec<Hand>,
    stations: Vec<String>,
    /// Every kind of step, in no order.
    steps: Vec<Step>,
    pairs: Vec<PackedPair>,
    /// How the shop plans.
    pub practice: Practice,
}

/// Its day; when it opens, in minutes from the start of the plan; and for how many.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
struct PackedShift(Date, i64, i64);

/// A pair; its steps by their places.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
struct PackedPair(Tag, Option<Date>, Begins, Vec<Tag>, Vec<usize>);

impl LaidOut {
    pub(super) fn new(work: &OpenWork) -> Self {
        let (workshop, starts) = (&work.workshop, whole_minute(work.now));
        let shifts = shifts(workshop, starts).map(|shift| {
            let opens = shift.opens.since(starts).whole_minutes();
            PackedShift(
                shift.day,
                opens,
                shift.closes.since(shift.opens).whole_minutes(),
            )
        });
        let mut steps: Vec<Step> = Vec::new();
        let mut place_of = |step: &Step| {
            let place = steps.iter().position(|known| known == step);
            place.unwrap_or_else(|| {
                steps.push(step.clone());
                steps.len() - 1
            })
        };
        let pairs = workshop.pairs.iter().map(|pair| {
            let steps = pair.steps.iter().map(&mut place_of).collect();
            let (tag, waits_for) = (pair.tag.clone(), pair.waits_for.clone());
            PackedPair(tag, pair.promised, pair.begins, waits_for, steps)
        });
        let pairs = pairs.collect();
        Self {
            starts,
            shifts: shifts.collect(),
            hands: workshop.hands.clone(),
            stations: workshop.stations.clone(),
            steps,
            pairs,
            practice: work.practice.clone(),
        }
    }

    /// Ready to plan: the board of the work that was laid out.
    pub fn board(&self) -> Result<Board, Misfit> {
        let shifts = self.shifts.iter().map(|PackedShift(day, opens, minutes)| {
            let opens = self.starts.plus(Duration::minutes(*opens));
            Shift {
                day: *day,
                opens,
                closes: opens.plus(Duration::minutes(*minutes)),
            }
        });
        let pairs = self.pairs.iter().map(|pair| {
            let PackedPair(tag, promised, begins, waits_for, places) = pair.clone();
            let steps = places.iter().filter_map(|place| self.steps.get(*place));
            Pair {
                tag,
                promised,
                begins,
                waits_for,
                steps: steps.cloned().collect(),
            }
        });
        Board::on(&Floor {
            starts: self.starts,
            shifts: &shifts.collect::<Vec<_>>(),
            hands: &self.hands,
            stations: &self.stations,
            pairs: &pairs.collect::<Vec<_>>(),
        })
    }
}

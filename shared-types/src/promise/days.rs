//! The bench's coming days: what is planned for whom and at which station, day by day.

use time::Date;

use crate::minutes::Minutes;
use crate::moment::Moment;
use crate::promise::calendar::Shift;
use crate::promise::plan::{Plan, PlannedStep};
use crate::promise::workshop::{Hand, Tag, Workshop};

/// One day on which the shop is open.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BenchDay {
    /// Which.
    pub day: Date,
    /// When it opens.
    pub opens: Moment,
    /// When it closes.
    pub closes: Moment,
    /// A row for each hand, then one for each station.
    pub rows: Vec<Row>,
}

/// A hand's or a station's day.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Row {
    /// Whose.
    pub whose: Whose,
    /// What is planned, in order.
    pub pieces: Vec<Piece>,
}

/// Whose day it is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Whose {
    /// Somebody at the bench, until then; none on a day off.
    Hand {
        /// The name.
        name: String,
        /// The end of their hours.
        until: Option<Moment>,
    },
    /// What only one pair can use at a time.
    Station {
        /// The name.
        name: String,
    },
}

impl Whose {
    /// The name.
    pub fn name(&self) -> &str {
        match self {
            Self::Hand { name, .. } | Self::Station { name } => name,
        }
    }
}

/// The part of a step that falls on a day.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Piece {
    /// The pair.
    pub tag: Tag,
    /// What is done.
    pub step: String,
    /// By whom.
    pub hand: String,
    /// At which station, if at one.
    pub station: Option<String>,
    /// From when.
    pub starts: Moment,
    /// Until when.
    pub ends: Moment,
}

/// So many open days from `now` on, today's rest first.
pub fn coming_days(workshop: &Workshop, plan: &Plan, now: Moment, count: usize) -> Vec<BenchDay> {
    let shifts = workshop.calendar.shifts(now).take(count);
    shifts.map(|shift| day(workshop, plan, &shift)).collect()
}

fn day(workshop: &Workshop, plan: &Plan, shift: &Shift) -> BenchDay {
    let mut rows: Vec<Row> = workshop
        .hands
        .iter()
        .map(|hand| Row {
            pieces: pieces(plan, shift, hand),
            whose: Whose::Hand {
                name: hand.name.clone(),
                until: until(hand, shift),
            },
        })
        .collect();
    let all: Vec<Piece> = rows.iter().flat_map(|row| row.pieces.clone()).collect();
    rows.extend(workshop.stations.iter().map(|name| {
        let there = |piece: &&Piece| piece.station.as_ref() == Some(name);
        let mut pieces: Vec<Piece> = all.iter().filter(there).cloned().collect();
        pieces.sort_by_key(|piece| piece.starts);
        let whose = Whose::Station { name: name.clone() };
        Row { whose, pieces }
    }));
    BenchDay {
        day: shift.day,
        opens: shift.opens,
        closes: shift.closes,
        rows,
    }
}

/// When a hand's hours end; they run from opening on.
fn until(hand: &Hand, shift: &Shift) -> Option<Moment> {
    let minutes = hand.minutes_on(shift.day);
    let ends = time::Duration::minutes(i64::from(minutes.get()));
    (minutes > Minutes::ZERO).then(|| shift.opens.plus(ends).min(shift.closes))
}

fn pieces(plan: &Plan, shift: &Shift, hand: &Hand) -> Vec<Piece> {
    let Some(until) = until(hand, shift) else {
        return Vec::new();
    };
    let steps = plan
        .pairs
        .iter()
        .flat_map(|pair| pair.steps.iter().map(|step| (&pair.tag, step)));
    let of_hand = |step: &PlannedStep| step.hand.as_deref() == Some(hand.name.as_str());
    let mut pieces: Vec<Piece> = steps
        .filter(|(_, step)| of_hand(step))
        .map(|(tag, step)| Piece {
            tag: tag.clone(),
            step: step.name.clone(),
            hand: hand.name.clone(),
            station: step.station.clone(),
            starts: step.starts.max(shift.opens),
            ends: step.ends.min(until),
        })
        .filter(|piece| piece.starts < piece.ends)
        .collect();
    pieces.sort_by_key(|piece| piece.starts);
    pieces
}

//! Where a pair's time goes: what it waits for, how long, and behind how many others.

use std::cmp::Reverse;
use std::fmt;

use serde::{Deserialize, Serialize};

use crate::minutes::Minutes;
use crate::promise::board::{Board, BoardStep};
use crate::promise::place::{NEVER, Slot, Table};
use crate::promise::workshop::{Begins, Tag};

/// A part of the time until a pair is finished, in clock minutes of the plan.
///
/// The parts of a pair add up to the whole.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(tag = "reason", rename_all = "kebab-case")]
pub enum Reason {
    /// Its owner has not answered, so no day can be told.
    Word,
    /// It waits for material, and nobody knows when that comes: its day is the earliest.
    Material,
    /// Its owner may still answer so long; then it goes on.
    Answer {
        /// Until then.
        minutes: Minutes,
    },
    /// It cannot be worked on before something comes: material, or the end of a rest.
    Beginning {
        /// Until then.
        minutes: Minutes,
    },
    /// It waits for another pair to be finished.
    Pair {
        /// The other pair.
        other: Tag,
        /// So long.
        minutes: Minutes,
    },
    /// The hands are at other pairs.
    Hands {
        /// How many other pairs they are at while this one waits.
        pairs: usize,
        /// So long.
        minutes: Minutes,
    },
    /// A station is taken.
    Station {
        /// Which one.
        station: String,
        /// How many other pairs are there while this one waits.
        pairs: usize,
        /// So long.
        minutes: Minutes,
    },
    /// It rests.
    Rest {
        /// So long.
        minutes: Minutes,
    },
    /// The bench is closed, or nobody is at it.
    Closed {
        /// So long.
        minutes: Minutes,
    },
    /// It is worked on, nights in the middle of a step included.
    Work {
        /// So long.
        minutes: Minutes,
    },
}

impl Reason {
    /// The clock minutes that it takes.
    pub fn minutes(&self) -> Minutes {
        match self {
            Self::Word | Self::Material => Minutes::ZERO,
            Self::Answer { minutes }
            | Self::Beginning { minutes }
            | Self::Pair { minutes, .. }
            | Self::Hands { minutes, .. }
            | Self::Station { minutes, .. }
            | Self::Rest { minutes }
            | Self::Closed { minutes }
            | Self::Work { minutes } => *minutes,
        }
    }

    /// Whether the shop could shorten it by another order, another hand or a telephone call.
    pub fn is_a_wait(&self) -> bool {
        match self {
            Self::Word
            | Self::Material
            | Self::Answer { .. }
            | Self::Beginning { .. }
            | Self::Pair { .. }
            | Self::Hands { .. }
            | Self::Station { .. } => true,
            Self::Rest { .. } | Self::Closed { .. } | Self::Work { .. } => false,
        }
    }

    /// The reasons of the pair that was tried last, with the slots of all pairs so far.
    pub(super) fn of(board: &Board, table: &Table, slots: &[Vec<Slot>]) -> Vec<Self> {
        let place = table.finished.len() - 1;
        let pair = &board.pairs[place];
        let Some(begins) = pair.begins else {
            return vec![Self::Word];
        };
        if table.finished[place] == NEVER {
            return Vec::new();
        }
        let mut parts = Parts::new(board);
        let mut from = table.earliest(board, place).unwrap_or(begins);
        let other = pair
            .waits_for
            .iter()
            .max_by_key(|other| table.finished[**other]);
        let others = &slots[..place];
        let steps = &board.steps[pair.steps.clone()];
        let mut reasons = Vec::new();
        if let Some(other) = other.filter(|_| from > begins) {
            reasons.push(Self::Pair {
                other: board.pairs[*other].tag.clone(),
                minutes: Minutes::new(from - begins),
            });
        }
        for (step, slot) in steps.iter().zip(&table.slots) {
            parts.add(table, others, step, *slot, from);
            from = slot.ends + step.rest;
        }
        reasons.extend(parts.into_reasons());
        let minutes = Minutes::new(begins);
        reasons.push(match pair.awaits {
            Begins::WordBy(_) => Self::Answer { minutes },
            Begins::Now | Begins::At(_) | Begins::AfterMaterial | Begins::AfterTheWord => {
                Self::Beginning { minutes }
            }
        });
        reasons.retain(|reason| reason.minutes() > Minutes::ZERO);
        reasons.sort_by_key(|reason| (!reason.is_a_wait(), Reverse(reason.minutes())));
        if pair.awaits == Begins::AfterMaterial {
            reasons.insert(0, Self::Material);
        }
        reasons
    }
}

/// Sums over the steps of one pair.
struct Parts<'a> {
    board: &'a Board,
    closed: u32,
    work: u32,
    rest: u32,
    hands: Wait,
    stations: Vec<Wait>,
}

/// A wait, and which other pairs are the cause.
#[derive(Clone, Default)]
struct Wait {
    minutes: u32,
    pairs: std::collections::BTreeSet<usize>,
}

impl<'a> Parts<'a> {
    fn new(board: &'a Board) -> Self {
        Self {
            board,
            closed: 0,
            work: 0,
            rest: 0,
            hands: Wait::default(),
            stations: vec![Wait::default(); board.stations.len()],
        }
    }

    fn add(
        &mut self,
        table: &Table,
        others: &[Vec<Slot>],
        step: &BoardStep,
        slot: Slot,
        from: u32,
    ) {
        self.work += slot.ends - slot.starts;
        self.rest += step.rest;
        let opens = self
            .board
            .hands
            .iter()
            .filter_map(|hand| hand.next_open(from));
        let opens = opens.min().unwrap_or(from).clamp(from, slot.starts);
        self.closed += opens - from;
        // Without its station the step might begin earlier: the rest of the wait is for that.
        let free = BoardStep {
            station: None,
            ..step.clone()
        };
        let minutes = step.minutes(super::place::Course::Usual);
        let hand_free = table
            .slot(self.board, &free, minutes, from)
            .map_or(slot.starts, |free| free.starts.clamp(opens, slot.starts));
        self.hands.minutes += hand_free - opens;
        let there = |other: &Slot, from, to| other.starts < to && from < other.ends;
        for (place, slots) in others.iter().enumerate().filter(|_| hand_free > opens) {
            if slots.iter().any(|other| there(other, opens, hand_free)) {
                self.hands.pairs.insert(place);
            }
        }
        let Some(station) = step.station else {
            // Free hands and no station, and yet it waits: the open time that is left is too
            // short for this step and those that must follow at once.
            self.closed += slot.starts - hand_free;
            return;
        };
        let wait = &mut self.stations[station];
        wait.minutes += slot.starts - hand_free;
        if slot.starts == hand_free {
            return;
        }
        for (place, (slots, pair)) in others.iter().zip(&self.board.pairs).enumerate() {
            let steps = &self.board.steps[pair.steps.clone()];
            let is_there = slots.iter().zip(steps).any(|(other, step)| {
                step.station == Some(station) && there(other, hand_free, slot.starts)
            });
            if is_there {
                wait.pairs.insert(place);
            }
        }
    }

    fn into_reasons(self) -> Vec<Reason> {
        let minutes = |minutes| Minutes::new(minutes);
        let mut reasons = vec![
            Reason::Hands {
                pairs: self.hands.pairs.len(),
                minutes: minutes(self.hands.minutes),
            },
            Reason::Rest {
                minutes: minutes(self.rest),
            },
            Reason::Closed {
                minutes: minutes(self.closed),
            },
            Reason::Work {
                minutes: minutes(self.work),
            },
        ];
        for (wait, station) in self.stations.into_iter().zip(&self.board.stations) {
            reasons.push(Reason::Station {
                station: station.clone(),
                pairs: wait.pairs.len(),
                minutes: minutes(wait.minutes),
            });
        }
        reasons
    }
}

impl fmt::Display for Reason {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Word => f.write_str("waits for its owner’s word"),
            Self::Material => {
                f.write_str("waits for material, and is ready on that day at the earliest")
            }
            Self::Answer { minutes } => {
                write!(f, "waits up to {} for its owner’s word", Span(*minutes))
            }
            Self::Beginning { minutes } => {
                write!(f, "cannot be begun for {}", Span(*minutes))
            }
            Self::Pair { other, minutes } => {
                write!(f, "waits {} for {other} to be finished", Span(*minutes))
            }
            Self::Hands { pairs, minutes } => {
                write!(f, "{} for a free hand, {}", Before(*pairs), Span(*minutes))
            }
            Self::Station {
                station,
                pairs,
                minutes,
            } => write!(
                f,
                "{} for the {station}, {}",
                Before(*pairs),
                Span(*minutes)
            ),
            Self::Rest { minutes } => write!(f, "rests {}", Span(*minutes)),
            Self::Closed { minutes } => write!(f, "finds the bench closed for {}", Span(*minutes)),
            Self::Work { minutes } => write!(f, "is worked on for {}", Span(*minutes)),
        }
    }
}

/// `waits behind two pairs`.
struct Before(usize);

impl fmt::Display for Before {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.0 {
            0 => f.write_str("waits"),
            1 => f.write_str("waits behind one pair"),
            2 => f.write_str("waits behind two pairs"),
            3 => f.write_str("waits behind three pairs"),
            pairs => write!(f, "waits behind {pairs} pairs"),
        }
    }
}

/// A span in the largest units that say enough: `3 days`, `5 h`, `40 min`.
struct Span(Minutes);

impl fmt::Display for Span {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.0.get() {
            minutes @ 2_880.. => write!(f, "{} days", (minutes + 720) / 1_440),
            minutes @ 600.. => write!(f, "{} h", (minutes + 30) / 60),
            _ => self.0.fmt(f),
        }
    }
}

//! The days of what is ticked, while it is being ticked: given by the same code as on the server,
//! from the same open work and with the same luck.

use serde::{Deserialize, Serialize};
use shared_types::moment::day_words;
use shared_types::promise::board::Board;
use shared_types::promise::dates::{Dates, InHand};
use shared_types::promise::laid_out::LaidOut;
use shared_types::promise::new_pair::{Asked, NewPairDays, NewPairs};
use shared_types::promise::turn::{Seating, Turn};
use shared_types::scope::{ScopeProblem, Work};
use time::Date;

/// What days are worked out from.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub struct DayBook {
    open: LaidOut,
    pair: Option<InHand>,
}

impl DayBook {
    /// For pairs that are about to be taken in.
    pub const fn new_pairs(open: LaidOut) -> Self {
        Self { open, pair: None }
    }

    /// For a pair that is here.
    pub const fn in_hand(open: LaidOut, pair: InHand) -> Self {
        Self {
            open,
            pair: Some(pair),
        }
    }

    /// The shop's board, unless nobody is ever at the bench.
    pub fn board(&self) -> Option<Board> {
        self.open.board().ok()
    }

    /// The placing of all that comes before what the form is about.
    pub fn seating<'a>(&self, board: &'a Board) -> Seating<'a> {
        match &self.pair {
            Some(pair) => Dates::seating(&self.open.practice, board, pair),
            None => NewPairs::seating(&self.open.practice, board),
        }
    }

    /// Ready to be asked, once all is placed.
    pub fn seated<'a>(&'a self, seated: Option<(&'a Board, Turn<'a>)>) -> LiveDays<'a> {
        match &self.pair {
            Some(pair) => {
                let turn = seated.map(|(_, turn)| turn);
                LiveDays::InHand(Dates::seated(&self.open.practice, turn, pair.clone()))
            }
            None => LiveDays::New(NewPairs::seated(&self.open.practice, seated)),
        }
    }
}

/// Gives the days of a form's parts.
pub enum LiveDays<'a> {
    /// Of a pair that is here.
    InHand(Dates<'a>),
    /// Of pairs that are about to be taken in.
    New(NewPairs<'a>),
}

/// The day of one part of a form.
pub enum LiveDay {
    /// Of a pair that is here, were it agreed now.
    IfAgreed(Date),
    /// Of a pair that is about to be taken in.
    New(NewPairDays),
}

impl LiveDays<'_> {
    /// The day of each part, of which those of new pairs come together.
    pub fn of(
        &mut self,
        parts: &[(&Work, Option<Date>)],
    ) -> Vec<Option<Result<LiveDay, ScopeProblem>>> {
        match self {
            Self::InHand(dates) => {
                let days = parts.iter().map(|(work, _)| {
                    let day = (!work.lines.is_empty()).then(|| dates.ready_by(&work.lines));
                    day.map(|day| day.map(LiveDay::IfAgreed))
                });
                days.collect()
            }
            Self::New(new_pairs) => {
                let asked = parts.iter().map(|(work, wished)| Asked {
                    lines: &work.lines,
                    rush: work.terms.rush,
                    wished: *wished,
                });
                let days = new_pairs.days(&asked.collect::<Vec<_>>()).into_iter();
                days.map(|day| day.map(|day| day.map(LiveDay::New)))
                    .collect()
            }
        }
    }
}

impl LiveDay {
    /// As part of a sentence.
    pub fn words(&self) -> String {
        match self {
            Self::IfAgreed(day) => format!("ready by {} if agreed now", day_words(*day)),
            Self::New(days) => {
                let given = day_words(days.given());
                if days.given() < days.in_turn {
                    format!("promised by {given}, in rush")
                } else {
                    format!("promised by {given}")
                }
            }
        }
    }

    /// Why the day that was wished can't be given, and what can.
    pub fn refusal(&self) -> Option<String> {
        match self {
            Self::IfAgreed(_) => None,
            Self::New(days) => days.refusal(),
        }
    }
}

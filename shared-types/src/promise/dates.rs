//! The days that the customer of a pair that is here is given: worked out in the pair's turn, each
//! kept with the shop's chance.
//!
//! - An open pair keeps its place. No answer gives it a day before the one that it was promised:
//!   others were promised theirs behind it in the order, and would have to let it pass.
//! - If added work makes its day a later one, it lets those pass that are promised until then,
//!   because the bench takes them first; the day is one that holds behind them.
//!
//! What a pair that is about to be taken in can be promised is in [`new_pair`].
//!
//! [`new_pair`]: crate::promise::new_pair

use serde::{Deserialize, Serialize};
use time::Date;

use crate::moment::Moment;
use crate::promise::answers::{AnswerDay, Answers};
use crate::promise::board::Board;
use crate::promise::open_work::tag_of;
use crate::promise::practice::Practice;
use crate::promise::turn::{Seating, Turn};
use crate::promise::workshop::{Misfit, Step, Tag};
use crate::scope::{Scope, ScopeLine, ScopeProblem, Work};
use crate::shop::Shop;
use crate::ticket::progress::not_done;
use crate::ticket::{Pair, TicketNumber};

/// A pair that is here, as far as its days depend on it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct InHand {
    /// What the plan calls it.
    pub(super) tag: Tag,
    /// The day that was promised last.
    pub(super) promised: Date,
    /// When a rest ends that has begun.
    pub(super) rests_until: Option<Moment>,
    /// Agreed work that is done.
    pub(super) done: Vec<ScopeLine>,
    /// Agreed work that is still to do.
    pub(super) left: Vec<ScopeLine>,
}

impl InHand {
    /// As its record shows it.
    pub fn of(number: TicketNumber, pair: &Pair) -> Self {
        let progress = pair.progress();
        Self {
            tag: tag_of(number, pair.tag),
            promised: pair.promise(),
            rests_until: progress.rests_until,
            done: progress.done.into_iter().cloned().collect(),
            left: progress.left.into_iter().cloned().collect(),
        }
    }
}

/// Gives days for work on one pair that is here.
pub struct Dates<'a> {
    practice: &'a Practice,
    /// None if nobody is ever at the bench.
    answers: Option<Answers<'a>>,
    pair: InHand,
}

impl<'a> Dates<'a> {
    /// For a pair that is here, on the shop's board if it has one.
    pub fn of(practice: &'a Practice, board: Option<&'a Board>, pair: InHand) -> Self {
        let turn = board.map(|board| Self::seating(practice, board, &pair).all());
        Self::seated(practice, turn, pair)
    }

    /// The placing of all that comes before the pair. What is taken down from the pickup shelf has
    /// lost its place, and stands last.
    pub fn seating(practice: &Practice, board: &'a Board, pair: &InHand) -> Seating<'a> {
        Seating::of(board, &pair.tag, practice.draws)
    }

    /// For a pair with its turn, which [`Dates::seating`] led to.
    pub fn seated(practice: &'a Practice, turn: Option<Turn<'a>>, pair: InHand) -> Self {
        Self {
            practice,
            answers: turn.map(|turn| {
                Answers::new(match pair.rests_until {
                    Some(until) => turn.not_before(until),
                    None => turn,
                })
            }),
            pair,
        }
    }

    /// The day for this work, were it agreed now.
    pub fn ready_by(&mut self, lines: &[ScopeLine]) -> Result<Date, ScopeProblem> {
        let answers = self.answers.as_ref().ok_or(ScopeProblem::NoDay)?;
        let days = self.days(lines, answers.starts())?;
        Ok(days.first().ok_or(ScopeProblem::NoDay)?.ready_by)
    }

    /// The work with its price, and the day that is given for it, were it agreed now.
    pub fn scope(&mut self, work: Work, shop: &Shop) -> Result<Scope, ScopeProblem> {
        Scope::work_out(work, shop, |lines| self.ready_by(lines))
    }

    /// The work with its price, and the days that answers from now until `latest` give, in order
    /// and at least one; it is dated by the first.
    pub fn offer(
        &mut self,
        work: Work,
        shop: &Shop,
        latest: Moment,
    ) -> Result<(Scope, Vec<AnswerDay>), ScopeProblem> {
        let mut days = Vec::new();
        let scope = Scope::work_out(work, shop, |lines| {
            days = self.days(lines, latest)?;
            let first = days.first().ok_or(ScopeProblem::NoDay)?;
            Ok(first.ready_by)
        })?;
        Ok((scope, days))
    }

    /// The days for answers from now until `latest` that leave the pair as it is agreed.
    pub fn days_if_declined(&mut self, latest: Moment) -> Result<Vec<AnswerDay>, ScopeProblem> {
        let steps = self.practice.steps(&self.pair.left);
        self.days_of(&steps, latest)
    }

    fn days(
        &mut self,
        lines: &[ScopeLine],
        latest: Moment,
    ) -> Result<Vec<AnswerDay>, ScopeProblem> {
        let left = not_done(lines, self.pair.done.clone());
        let steps = self.practice.steps(&left);
        self.days_of(&steps, latest)
    }

    fn days_of(&mut self, steps: &[Step], latest: Moment) -> Result<Vec<AnswerDay>, ScopeProblem> {
        let answers = self.answers.as_mut().ok_or(ScopeProblem::NoDay)?;
        let days = answers.days(
            steps,
            Some(self.pair.promised),
            latest,
            self.practice.chance,
        );
        days.map_err(no_day)
    }
}

/// A workshop that is made from records misfits only if nobody is ever at the bench.
pub(super) fn no_day(_: Misfit) -> ScopeProblem {
    ScopeProblem::NoDay
}

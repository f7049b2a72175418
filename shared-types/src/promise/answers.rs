//! The days that answers to an offer give: each with the last moment at which an answer still
//! gives it.

use serde::{Deserialize, Serialize};
use time::Date;

use crate::moment::Moment;
use crate::promise::chance::Chance;
use crate::promise::turn::Turn;
use crate::promise::workshop::{Misfit, Step};

/// A day, and the last minute at which an answer still gives it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct AnswerDay {
    /// The last minute.
    pub answered_by: Moment,
    /// The day by which the pair is then ready.
    pub ready_by: Date,
}

/// A pair's turn, with the later ones that it takes by letting others pass. Each is placed once,
/// however often and for whatever work it is asked about.
pub struct Answers<'a> {
    /// The pair's own turn, then later ones.
    turns: Vec<Turn<'a>>,
}

impl<'a> Answers<'a> {
    /// In this turn.
    pub fn new(own: Turn<'a>) -> Self {
        Self { turns: vec![own] }
    }

    /// The pair's own turn.
    pub fn own(&mut self) -> &mut Turn<'a> {
        &mut self.turns[0]
    }

    /// The first moment of the plan.
    pub(super) fn starts(&self) -> Moment {
        self.turns[0].board().starts
    }

    /// The turn behind the pairs that follow and are promised by `day` at the latest.
    pub fn behind(&mut self, day: Date) -> &mut Turn<'a> {
        let placed = self.own().placed_behind(day);
        self.with_placed(placed)
    }

    fn with_placed(&mut self, placed: usize) -> &mut Turn<'a> {
        let place = self.turns.partition_point(|turn| turn.placed() < placed);
        let is_there = |turn: &Turn<'_>| turn.placed() == placed;
        if !self.turns.get(place).is_some_and(is_there) {
            let mut turn = self.turns[place - 1].clone();
            turn.let_pass(placed);
            self.turns.insert(place, turn);
        }
        &mut self.turns[place]
    }

    /// The days that answers from now until `latest` give with this chance, in order, none before
    /// the one that is `promised`; empty if none is in sight.
    ///
    /// Each day holds for every answer until its moment, as in [`Turn::answer_by`]. A pair that is
    /// promised later than before has to let those pass that are promised by then; so each day is
    /// one that holds behind them.
    pub fn days(
        &mut self,
        steps: &[Step],
        promised: Option<Date>,
        latest: Moment,
        chance: Chance,
    ) -> Result<Vec<AnswerDay>, Misfit> {
        let own = self.own();
        let (board, steps) = (own.board(), own.lay_out(steps)?);
        let mut draws = own.untried();
        let mut placed = own.placed();
        let mut days: Vec<AnswerDay> = Vec::new();
        let mut standing = promised;
        let end = board.clock(latest);
        let mut asked = board.shop.next_open(0);
        while let Some(clock) = asked {
            let day = loop {
                let turn = self.with_placed(placed);
                let Some(ready) = turn.ask(&steps, clock, &mut draws).by(chance) else {
                    return Ok(Vec::new());
                };
                match standing {
                    Some(day) if ready <= day => break day,
                    _ => standing = Some(ready),
                }
                let behind = turn.placed_behind(ready);
                if behind == placed {
                    break ready;
                }
                placed = behind;
                draws = turn.untried();
            };
            let answered_by = board.moment(clock).min(latest);
            match days.last_mut() {
                Some(last) if last.ready_by == day => last.answered_by = answered_by,
                _ => days.push(AnswerDay {
                    answered_by,
                    ready_by: day,
                }),
            }
            if clock >= end {
                break;
            }
            asked = board.taken_up_after(clock);
        }
        if let Some(last) = days.last_mut() {
            last.answered_by = latest;
        }
        Ok(days)
    }
}

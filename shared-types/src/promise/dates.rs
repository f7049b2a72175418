//! The days that a customer is given: worked out in the pair's turn, each kept with the shop's
//! chance.
//!
//! - A new pair stands behind all open ones, so that no promise that was given is moved by it. In
//!   rush it may be promised sooner: then it stands behind those that are promised by that day.
//! - An open pair keeps its place. No answer gives it a day before the one that it was promised:
//!   others were promised theirs behind it in the order, and would have to let it pass.
//! - If added work makes its day a later one, it lets those pass that are promised until then,
//!   because the bench takes them first; the day is one that holds behind them.

use time::Date;

use crate::brief::left::Left;
use crate::moment::{Moment, day_words};
use crate::promise::board::Board;
use crate::promise::chance::{Chance, Odds};
use crate::promise::open_work::{OpenWork, tag_of};
use crate::promise::outlook::Forecast;
use crate::promise::turn::{AnswerDay, Turn};
use crate::promise::workshop::{Misfit, Step, Tag};
use crate::scope::{Scope, ScopeLine, ScopeProblem, Work};
use crate::shop::Shop;
use crate::ticket::{Pair, TicketNumber};

/// Gives days for work on one pair.
pub struct Dates<'a> {
    work: &'a OpenWork,
    board: Option<&'a Board>,
    turn: Result<Turn<'a>, ScopeProblem>,
    pair: Option<&'a Pair>,
    /// Steps of the pairs that are taken in before this one.
    before: Vec<Vec<Step>>,
}

/// A pair that is about to be taken in, as the counter weighs it up.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NewPair {
    /// The work, dated by the wished day if it can be given, or by the first that can.
    pub scope: Scope,
    /// The day by which it is as likely ready as not.
    pub likely: Option<Date>,
    /// The first day that can be given in its turn, with the shop's chance.
    pub in_turn: Date,
    /// The day by which it is almost surely ready.
    pub nearly_sure: Option<Date>,
    /// What is to be said to the day that the customer wishes.
    pub wish: Option<Wish>,
}

/// A day that the customer of a new pair wishes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Wish {
    /// The day.
    pub day: Date,
    /// How sure it is in the pair's turn, behind all that is open.
    pub in_turn: Odds,
    /// How sure it is in rush, before all that is promised later.
    pub in_rush: Odds,
    /// Whether it is given.
    pub is_given: bool,
}

impl NewPair {
    /// Why the wished day can't be given, and what can.
    pub fn refusal(&self) -> Option<String> {
        let wish = self.wish.filter(|wish| !wish.is_given)?;
        let (day, in_turn) = (day_words(wish.day), day_words(self.in_turn));
        Some(if self.scope.terms.rush {
            format!(
                "Even in rush, {day} would be kept {} times in 100. The first day that we can promise \
                 is {in_turn}.",
                wish.in_rush.percent()
            )
        } else {
            format!(
                "In its turn, {day} would be kept {} times in 100, and in rush {}. The first day that \
                 we can promise in its turn is {in_turn}; take it in as rush if it must be sooner.",
                wish.in_turn.percent(),
                wish.in_rush.percent()
            )
        })
    }
}

impl<'a> Dates<'a> {
    /// For a pair that is here, on the board of this work if it has one. What is taken down from
    /// the pickup shelf has lost its place.
    pub fn of(
        work: &'a OpenWork,
        board: Option<&'a Board>,
        (number, pair): (TicketNumber, &'a Pair),
    ) -> Self {
        let tag = tag_of(number, pair.tag);
        let rests = Left::of(pair).rests_until.unwrap_or(work.now);
        let turn = board.ok_or(ScopeProblem::NoDay).map(|board| {
            let turn = Turn::of(board, &tag, work.draws);
            let turn = turn.unwrap_or_else(|_| Turn::last(board, &tag, work.draws));
            turn.not_before(rests)
        });
        Self {
            work,
            board,
            turn,
            pair: Some(pair),
            before: Vec::new(),
        }
    }

    /// For the first of the pairs that are about to be taken in.
    pub fn of_new(work: &'a OpenWork, board: Option<&'a Board>) -> Self {
        let turn = board.map(|board| Turn::last(board, &new_tag(0), work.draws));
        Self {
            work,
            board,
            turn: turn.ok_or(ScopeProblem::NoDay),
            pair: None,
            before: Vec::new(),
        }
    }

    /// For the next of them, if this is the work on the one before.
    #[must_use]
    pub fn behind(mut self, lines: &[ScopeLine]) -> Self {
        let steps = self.work.steps(lines);
        let tag = new_tag(self.before.len() + 1);
        self.turn = self
            .turn
            .and_then(|turn| turn.followed_by(&steps, &tag).map_err(no_day));
        self.before.push(steps);
        self
    }

    /// The same pair in rush: only behind those that are promised by `day`, and before all others.
    fn in_rush(&self, day: Date) -> Result<Self, ScopeProblem> {
        let board = self.board.ok_or(ScopeProblem::NoDay)?;
        let first = Turn::first(board, &new_tag(0), self.work.draws);
        let behind = first.behind_promises_until(day);
        let turn = (1..)
            .zip(&self.before)
            .try_fold(behind, |turn, (place, steps)| {
                turn.followed_by(steps, &new_tag(place))
            });
        Ok(Self {
            turn: Ok(turn.map_err(no_day)?),
            before: self.before.clone(),
            ..*self
        })
    }

    /// A new pair with this work, wished by a day. A later day than the first one can always be
    /// given; an earlier one only in rush, and only if it is kept with the shop's chance.
    pub fn new_pair(
        &self,
        work: Work,
        shop: &Shop,
        wished: Option<Date>,
    ) -> Result<NewPair, ScopeProblem> {
        let rush = work.terms.rush;
        let mut found = None;
        let scope = Scope::work_out(work, shop, |lines| {
            let chance = self.work.chance;
            let forecast = self.forecast(lines)?;
            let in_turn = forecast.by(chance).ok_or(ScopeProblem::NoDay)?;
            let wish = match wished {
                Some(day) => {
                    let in_rush = self.in_rush(day)?.forecast(lines)?.odds(day);
                    Some(Wish {
                        day,
                        in_turn: forecast.odds(day),
                        in_rush,
                        is_given: day >= in_turn || (rush && in_rush.reach(chance)),
                    })
                }
                None => None,
            };
            let day = wish.filter(|wish| wish.is_given).map(|wish| wish.day);
            found = Some((forecast, in_turn, wish));
            Ok(day.unwrap_or(in_turn))
        })?;
        let (forecast, in_turn, wish) = found.ok_or(ScopeProblem::NoDay)?;
        Ok(NewPair {
            scope,
            likely: forecast.by(Chance::FIFTY),
            in_turn,
            nearly_sure: forecast.by(Chance::NINETY_FIVE),
            wish,
        })
    }

    /// How sure which day is for this work, were it agreed now.
    fn forecast(&self, lines: &[ScopeLine]) -> Result<Forecast, ScopeProblem> {
        let mut turn = self.turn.clone()?;
        turn.ready(&self.steps(lines), self.work.now)
            .map_err(no_day)
    }

    /// The work with its price, and the day that is given for it, were it agreed now.
    pub fn scope(&self, work: Work, shop: &Shop) -> Result<Scope, ScopeProblem> {
        let (scope, _) = self.offer(work, shop, self.work.now)?;
        Ok(scope)
    }

    /// The work with its price, and the days that answers from now until `latest` give, in order
    /// and at least one; it is dated by the first.
    pub fn offer(
        &self,
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
    pub fn days_if_declined(&self, latest: Moment) -> Result<Vec<AnswerDay>, ScopeProblem> {
        let agreed = self.pair.map(|pair| pair.agreed().lines.as_slice());
        self.days(agreed.unwrap_or_default(), latest)
    }

    fn days(&self, lines: &[ScopeLine], latest: Moment) -> Result<Vec<AnswerDay>, ScopeProblem> {
        let promised = self.pair.map(Pair::promise);
        let turn = self.turn.as_ref().map_err(|problem| *problem)?;
        let days = turn.days_by_answer(&self.steps(lines), promised, latest, self.work.chance);
        days.map_err(no_day)
    }

    /// What is still to do of this work.
    fn steps(&self, lines: &[ScopeLine]) -> Vec<Step> {
        match self.pair {
            Some(pair) => self.work.steps(&pair.to_do(lines)),
            None => self.work.steps(lines),
        }
    }
}

/// New pairs have no number yet. Luck goes by the name, so a pair is promised what was shown.
fn new_tag(place: usize) -> Tag {
    Tag(format!("new\u{a0}{place}"))
}

/// A workshop that is made from records misfits only if nobody is ever at the bench.
fn no_day(_: Misfit) -> ScopeProblem {
    ScopeProblem::NoDay
}

//! What pairs that are about to be taken in can be promised.
//!
//! - A new pair stands behind all open ones, so that no promise that was given is moved by it.
//! - In rush it may be promised sooner: then it stands behind those that are promised by that day,
//!   and before all others; [`NewPairs::endangers`] tells whose promises that costs.

use time::Date;

use crate::moment::day_words;
use crate::promise::answers::Answers;
use crate::promise::board::Board;
use crate::promise::chance::{Chance, Odds};
use crate::promise::dates::no_day;
use crate::promise::open_work::OpenWork;
use crate::promise::outlook::Forecast;
use crate::promise::practice::Practice;
use crate::promise::turn::{Seating, Turn};
use crate::promise::what_if::{Change, Moved, what_if};
use crate::promise::workshop::{Begins, Pair, Step, Tag};
use crate::scope::{Scope, ScopeLine, ScopeProblem};

/// A pair that is about to be taken in, as the counter weighs it up.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NewPair {
    /// The work, dated by the day that is given.
    pub scope: Scope,
    /// Its days.
    pub days: NewPairDays,
}

/// When a pair that is about to be taken in can be ready.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NewPairDays {
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
    /// Whether it is wished in rush.
    pub rush: bool,
    /// How sure it is in the pair's turn, behind all that is open.
    pub in_turn: Odds,
    /// How sure it is in rush, before all that is promised later.
    pub in_rush: Odds,
    /// Whether that is enough for the shop.
    pub rush_keeps: bool,
    /// Whether it is given.
    pub is_given: bool,
}

impl NewPairDays {
    /// The day that is given: the wished one if it can be, or the first that can.
    pub fn given(&self) -> Date {
        let wish = self.wish.filter(|wish| wish.is_given);
        wish.map_or(self.in_turn, |wish| wish.day)
    }

    /// Why the wished day can't be given, and what can.
    pub fn refusal(&self) -> Option<String> {
        let wish = self.wish.filter(|wish| !wish.is_given)?;
        let (day, in_turn) = (day_words(wish.day), day_words(self.in_turn));
        let in_rush = wish.in_rush.percent();
        if wish.rush {
            return Some(format!(
                "Even in rush, {day} would be kept {in_rush} times in 100. The first day that we can \
                 promise is {in_turn}."
            ));
        }
        let instead = if wish.rush_keeps {
            "; take it in as rush if it must be sooner"
        } else {
            ""
        };
        Some(format!(
            "In its turn, {day} would be kept {} times in 100, and in rush {in_rush}. The first day \
             that we can promise in its turn is {in_turn}{instead}.",
            wish.in_turn.percent(),
        ))
    }
}

/// What is asked for one of the pairs that are taken in together.
#[derive(Clone, Copy, Debug)]
pub struct Asked<'l> {
    /// Its work; a pair without any is left out.
    pub lines: &'l [ScopeLine],
    /// Whether it goes before all that is promised later.
    pub rush: bool,
    /// The day that the customer wishes.
    pub wished: Option<Date>,
}

/// Gives days for pairs that are taken in together, each behind the one before.
pub struct NewPairs<'a> {
    practice: &'a Practice,
    turns: Option<Turns<'a>>,
}

struct Turns<'a> {
    board: &'a Board,
    /// Behind all that is open.
    last: Turn<'a>,
    /// Before all that is open, made when it is first asked for.
    first: Option<Answers<'a>>,
}

impl<'a> NewPairs<'a> {
    /// On the shop's board, if it has one.
    pub fn of(practice: &'a Practice, board: Option<&'a Board>) -> Self {
        let last = board.map(|board| (board, Self::seating(practice, board).all()));
        Self::seated(practice, last)
    }

    /// The placing of all that is open.
    pub fn seating(practice: &Practice, board: &'a Board) -> Seating<'a> {
        Seating::last(board, &tag(0), practice.draws)
    }

    /// With the turn behind all that is open, which [`NewPairs::seating`] led to.
    pub fn seated(practice: &'a Practice, last: Option<(&'a Board, Turn<'a>)>) -> Self {
        let turns = last.map(|(board, last)| Turns {
            board,
            last,
            first: None,
        });
        Self { practice, turns }
    }

    /// The days of these pairs; nothing where no work is picked yet. A later day than the first one can always be given; an earlier one
    /// only in rush, and only if it is kept with the shop's chance.
    pub fn days(&mut self, asked: &[Asked<'_>]) -> Vec<Option<Result<NewPairDays, ScopeProblem>>> {
        let mut before: Vec<Vec<Step>> = Vec::new();
        let days = asked.iter().map(|pair| {
            if pair.lines.is_empty() {
                return None;
            }
            let steps = self.practice.steps(pair.lines);
            let days = match &mut self.turns {
                Some(turns) => turns.days(self.practice, (pair, &steps), &before),
                None => Err(ScopeProblem::NoDay),
            };
            before.push(steps);
            Some(days)
        });
        days.collect()
    }

    /// The first day that can be given for this work in its turn.
    pub fn first_day(&mut self, lines: &[ScopeLine]) -> Result<Date, ScopeProblem> {
        let asked = Asked {
            lines,
            rush: false,
            wished: None,
        };
        let days = self.days(&[asked]).pop().flatten();
        Ok(days.ok_or(ScopeProblem::Empty)??.in_turn)
    }

    /// The promises that are no longer kept with the shop's chance if these pairs are taken in for
    /// the days that they were given, in the order of the plan.
    pub fn endangers(
        work: &OpenWork,
        pairs: &[Option<Result<NewPair, ScopeProblem>>],
    ) -> Vec<Endangered> {
        let taken = pairs.iter().enumerate().filter_map(|(place, pair)| {
            let NewPair { scope, days } = pair.as_ref()?.as_ref().ok()?;
            let day = days.given();
            (day < days.in_turn).then(|| Change::Take {
                before: first_promised_after(work, day),
                pair: Pair {
                    tag: tag(place),
                    promised: Some(day),
                    begins: Begins::Now,
                    waits_for: Vec::new(),
                    steps: work.practice.steps(&scope.lines),
                },
            })
        });
        let taken: Vec<Change> = taken.collect();
        if taken.is_empty() {
            return Vec::new();
        }
        let (now, practice) = (work.now, &work.practice);
        let (draws, chance) = (practice.draws, practice.chance);
        let moved = what_if(&work.workshop, now, &taken, draws, chance).unwrap_or_default();
        let lost = moved.into_iter().filter_map(|Moved { tag, promised, .. }| {
            let promised = promised.filter(|promised| promised.is_lost(chance))?;
            Some(Endangered {
                tag,
                day: promised.day,
                before: promised.before?,
                after: promised.after?,
            })
        });
        lost.collect()
    }
}

fn first_promised_after(work: &OpenWork, day: Date) -> Option<Tag> {
    let mut open = work.workshop.pairs.iter();
    let later = open.find(|pair| pair.promised.is_none_or(|promised| promised > day))?;
    Some(later.tag.clone())
}

/// A promise that a pair in rush makes unsure.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Endangered {
    /// Whose.
    pub tag: Tag,
    /// The day that was given.
    pub day: Date,
    /// How sure it is as things stand.
    pub before: Odds,
    /// How sure it is once the pair is taken in.
    pub after: Odds,
}

impl<'a> Turns<'a> {
    /// The days of a pair behind those that are taken in with it and stand before it.
    fn days(
        &mut self,
        practice: &Practice,
        (asked, steps): (&Asked<'_>, &[Step]),
        before: &[Vec<Step>],
    ) -> Result<NewPairDays, ScopeProblem> {
        let forecast = forecast(self.last.clone(), (before, steps))?;
        let in_turn = forecast.by(practice.chance).ok_or(ScopeProblem::NoDay)?;
        let mut wish = None;
        if let Some(day) = asked.wished {
            let in_rush = self.in_rush(practice, day).clone();
            let in_rush = self::forecast(in_rush, (before, steps))?.odds(day);
            let rush_keeps = in_rush.reach(practice.chance);
            wish = Some(Wish {
                day,
                rush: asked.rush,
                in_turn: forecast.odds(day),
                in_rush,
                rush_keeps,
                is_given: day >= in_turn || (asked.rush && rush_keeps),
            });
        }
        Ok(NewPairDays {
            likely: forecast.by(Chance::FIFTY),
            in_turn,
            nearly_sure: forecast.by(Chance::NINETY_FIVE),
            wish,
        })
    }

    /// Only behind those that are promised by `day`, and before all others.
    fn in_rush(&mut self, practice: &Practice, day: Date) -> &Turn<'a> {
        let board = self.board;
        let first = || Answers::new(Turn::first(board, &tag(0), practice.draws));
        self.first.get_or_insert_with(first).behind(day)
    }
}

/// How sure which day is for these steps behind those of the pairs before, begun now.
fn forecast(
    turn: Turn<'_>,
    (before, steps): (&[Vec<Step>], &[Step]),
) -> Result<Forecast, ScopeProblem> {
    let turn = (1..).zip(before).try_fold(turn, |turn, (place, steps)| {
        turn.followed_by(steps, &tag(place))
    });
    let forecast = turn.and_then(|mut turn| turn.ready_now(steps));
    forecast.map_err(no_day)
}

/// New pairs have no number yet, so that they go by their place.
fn tag(place: usize) -> Tag {
    Tag(format!("new\u{a0}{place}"))
}

//! A pair's turn: everything before it is placed, in every draw, and questions about it are
//! answered by placing only that pair.
//!
//! This is what an offer needs: the ready day of each choice if it is answered now, the last
//! moment at which an answer still keeps that day, and what further waiting does.

use serde::{Deserialize, Serialize};
use time::Date;

use crate::moment::Moment;
use crate::promise::board::{Board, BoardStep};
use crate::promise::chance::{Chance, Draws};
use crate::promise::luck::Luck;
use crate::promise::outlook::{Forecast, pickup};
use crate::promise::place::{Course, NEVER, Table};
use crate::promise::workshop::{Misfit, Step, Tag};

/// A place in the order, with the bench as it is there in every draw.
#[derive(Clone)]
pub struct Turn<'a> {
    board: &'a Board,
    tag: Tag,
    /// Where the pair itself stands on the board, unless it is a new one.
    own: Option<usize>,
    /// The table before this pair, with the luck of its draw and the first minute for the pair.
    tables: Vec<(Table, Luck, u32)>,
}

/// A day, and the last minute at which an answer still gives it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct AnswerDay {
    /// The last minute.
    pub answered_by: Moment,
    /// The day by which the pair is then ready.
    pub ready_by: Date,
}

/// What an answer given by then leads to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub struct Waited {
    /// The answer comes then: at an opening of the shop.
    pub answered: Moment,
    /// The day by which the pair is then ready with the wished chance, if one is in sight.
    pub ready: Option<Date>,
}

impl<'a> Turn<'a> {
    /// Behind all open pairs: where a new pair called `tag` stands.
    pub fn last(board: &'a Board, tag: &Tag, draws: Draws) -> Self {
        Self::at(board, tag, (board.pairs.len(), None), draws)
    }

    /// Before all open pairs, for a new pair called `tag`.
    pub fn first(board: &'a Board, tag: &Tag, draws: Draws) -> Self {
        Self::at(board, tag, (0, None), draws)
    }

    /// Where an open pair stands.
    pub fn of(board: &'a Board, tag: &Tag, draws: Draws) -> Result<Self, Misfit> {
        let place = board.place_of(tag)?;
        Ok(Self::at(board, tag, (place, Some(place)), draws))
    }

    fn at(board: &'a Board, tag: &Tag, (place, own): (usize, Option<usize>), draws: Draws) -> Self {
        let mut table = Table::new(board);
        let tables = (0..draws.count).map(|draw| {
            let luck = Luck::of(draws.seed, draw);
            table.seat_all_before(board, place, Course::Drawn(luck));
            let waits_for = board
                .pairs
                .get(place)
                .map_or(&[][..], |pair| &pair.waits_for);
            let others = waits_for.iter().map(|other| table.finished[*other]);
            let from = others.max().unwrap_or(0);
            (table.clone(), luck, from)
        });
        let tables = tables.collect();
        Self {
            board,
            tag: tag.clone(),
            own,
            tables,
        }
    }

    /// The same turn for a pair that cannot be worked on before this moment, because it rests.
    #[must_use]
    pub fn not_before(mut self, moment: Moment) -> Self {
        let clock = self.board.clock(moment);
        for (_, _, earliest) in &mut self.tables {
            *earliest = clock.max(*earliest);
        }
        self
    }

    /// The same turn behind the pairs that follow it and are promised by `day` at the latest: where
    /// a shop that works in the order of its promises takes a pair that is promised then.
    #[must_use]
    pub fn behind_promises_until(mut self, day: Date) -> Self {
        self.gives_way(day);
        self
    }

    /// Whether there were such pairs to be placed.
    fn gives_way(&mut self, day: Date) -> bool {
        let (board, own) = (self.board, self.own);
        let mut gave_way = false;
        for (table, luck, _) in &mut self.tables {
            while let Some(pair) = board.pairs.get(table.finished.len()) {
                if own == Some(table.finished.len()) {
                    table.finished.push(NEVER);
                } else if pair.promised.is_some_and(|promised| promised <= day) {
                    table.try_next(board, Course::Drawn(*luck));
                    table.take(board);
                    gave_way = true;
                } else {
                    break;
                }
            }
        }
        gave_way
    }

    /// The turn of a new pair called `tag` behind this one, which is worked on with these steps.
    pub fn followed_by(mut self, steps: &[Step], tag: &Tag) -> Result<Self, Misfit> {
        let steps = self.board.lay_out(&self.tag, steps)?;
        for (table, luck, earliest) in &mut self.tables {
            finish(self.board, table, *luck, &steps, 0, *earliest);
            table.take_slots(&steps);
            *earliest = 0;
        }
        self.tag = tag.clone();
        Ok(self)
    }

    /// When the pair is ready with these steps if they can begin at `from`: for an offer, the
    /// moment of the answer.
    pub fn ready(&mut self, steps: &[Step], from: Moment) -> Result<Forecast, Misfit> {
        let steps = self.board.lay_out(&self.tag, steps)?;
        Ok(self.forecast(&steps, self.board.clock(from)))
    }

    /// The last moment at which an answer still keeps `day` with this chance, if any does.
    ///
    /// An answer is taken up at the next full or half hour in which the shop is open. Each of these
    /// is tried from the start of the plan on, and the first that fails ends the search: all answers
    /// until the moment returned keep the day. It is not assumed that a later answer can only lead
    /// to a later day.
    pub fn answer_by(
        &mut self,
        steps: &[Step],
        day: Date,
        chance: Chance,
    ) -> Result<Option<Moment>, Misfit> {
        let steps = self.board.lay_out(&self.tag, steps)?;
        let mut draws: Vec<Tried> = vec![Tried::NEVER; self.tables.len()];
        let mut last = None;
        let mut asked = self.board.shop.next_open(0);
        while let Some(clock) = asked {
            let forecast = self.ask(&steps, clock, &mut draws);
            if !forecast.odds(day).reach(chance) {
                break;
            }
            last = Some(clock);
            asked = self.board.taken_up_after(clock);
        }
        Ok(last.map(|clock| self.board.moment(clock)))
    }

    /// The days that answers from now until `latest` give with this chance, in order, none before
    /// the one that is `promised`; empty if none is in sight.
    ///
    /// Each day holds for every answer until its moment, as in [`Turn::answer_by`]. A pair that is
    /// promised later than before has to let those pass that are promised by then; so each day is
    /// one that holds behind them.
    pub fn days_by_answer(
        &self,
        steps: &[Step],
        promised: Option<Date>,
        latest: Moment,
        chance: Chance,
    ) -> Result<Vec<AnswerDay>, Misfit> {
        let (board, mut turn) = (self.board, self.clone());
        let steps = board.lay_out(&self.tag, steps)?;
        let mut draws: Vec<Tried> = vec![Tried::NEVER; self.tables.len()];
        let mut days: Vec<AnswerDay> = Vec::new();
        let mut standing = promised;
        let end = board.clock(latest);
        let mut asked = board.shop.next_open(0);
        while let Some(clock) = asked {
            let day = loop {
                let Some(ready) = turn.ask(&steps, clock, &mut draws).by(chance) else {
                    return Ok(Vec::new());
                };
                match standing {
                    Some(day) if ready <= day => break day,
                    _ => standing = Some(ready),
                }
                if !turn.gives_way(ready) {
                    break ready;
                }
                draws.fill(Tried::NEVER);
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

    /// The forecast for an answer at `clock`, from draws that were brought to earlier ones.
    fn ask(&mut self, steps: &[BoardStep], clock: u32, draws: &mut [Tried]) -> Forecast {
        let board = self.board;
        for ((table, luck, earliest), draw) in self.tables.iter_mut().zip(draws.iter_mut()) {
            // Whoever has to wait for the bench until then loses nothing by answering later.
            if draw.begins.is_some_and(|begins| clock <= begins) {
                continue;
            }
            let finish = finish(board, table, *luck, steps, clock, *earliest);
            *draw = Tried {
                begins: table.slots.first().map(|slot| slot.starts),
                period: pickup(board, finish),
            };
        }
        let mut periods: Vec<u32> = draws.iter().map(|draw| draw.period).collect();
        Forecast::count(board, &mut periods)
    }

    /// What waiting does: the ready day with this chance for an answer now, and at each of so many
    /// further openings of the shop.
    pub fn waiting(
        &mut self,
        steps: &[Step],
        chance: Chance,
        open_days: usize,
    ) -> Result<Vec<Waited>, Misfit> {
        let steps = self.board.lay_out(&self.tag, steps)?;
        let openings = (0..).map_while(|period| self.board.shop.hours(period));
        let clocks: Vec<u32> = openings
            .map(|(opens, _)| opens)
            .take(open_days + 1)
            .collect();
        let waited = clocks.into_iter().map(|clock| Waited {
            answered: self.board.moment(clock),
            ready: self.forecast(&steps, clock).by(chance),
        });
        Ok(waited.collect())
    }

    fn forecast(&mut self, steps: &[BoardStep], from: u32) -> Forecast {
        let board = self.board;
        let periods = self.tables.iter_mut().map(|(table, luck, earliest)| {
            let finish = finish(board, table, *luck, steps, from, *earliest);
            pickup(board, finish)
        });
        let mut periods: Vec<u32> = periods.collect();
        Forecast::count(board, &mut periods)
    }
}

/// Where a draw puts the pair, for all answers until it begins: until then nobody has time for it.
#[derive(Clone, Copy)]
struct Tried {
    begins: Option<u32>,
    period: u32,
}

impl Tried {
    const NEVER: Self = Self {
        begins: None,
        period: u32::MAX,
    };
}

pub(super) fn finish(
    board: &Board,
    table: &mut Table,
    luck: Luck,
    steps: &[BoardStep],
    from: u32,
    earliest: u32,
) -> u32 {
    if earliest == NEVER {
        table.slots.clear();
        return NEVER;
    }
    table.try_steps(board, steps, from.max(earliest), Course::Drawn(luck))
}

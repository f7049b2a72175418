//! A pair's turn: everything before it is placed, in every draw, and questions about it are
//! answered by placing only that pair.
//!
//! This is what an offer needs: the ready day of each choice if it is answered now, the last
//! moment at which an answer still keeps that day, and what further waiting does. What letting
//! others pass does to it is in [`answers`].
//!
//! [`answers`]: crate::promise::answers

use std::ops::ControlFlow;

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
    /// How many pairs of the board are placed before it, its own place among them once it is passed.
    placed: usize,
    /// The table before this pair, with the luck of its draw and the first minute for the pair.
    tables: Vec<(Table, Luck, u32)>,
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
        Seating::new(board, tag, (place, own), draws).all()
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

    pub(super) const fn board(&self) -> &'a Board {
        self.board
    }

    /// How many pairs are placed before it.
    pub(super) const fn placed(&self) -> usize {
        self.placed
    }

    /// How many pairs are placed before it once it has let those pass that follow it and are
    /// promised by `day` at the latest: there a shop that works in the order of its promises takes a
    /// pair that is promised then.
    pub(super) fn placed_behind(&self, day: Date) -> usize {
        let following = self.board.pairs.iter().enumerate().skip(self.placed);
        following
            .filter(|(place, _)| self.own != Some(*place))
            .take_while(|(_, pair)| pair.promised.is_some_and(|promised| promised <= day))
            .last()
            .map_or(self.placed, |(place, _)| place + 1)
    }

    /// Lets the following pairs pass until so many are placed before it.
    pub(super) fn let_pass(&mut self, placed: usize) {
        let (board, own) = (self.board, self.own);
        for (table, luck, _) in &mut self.tables {
            while table.finished.len() < placed {
                if own == Some(table.finished.len()) {
                    table.finished.push(NEVER);
                } else {
                    table.try_next(board, Course::Drawn(*luck));
                    table.take(board);
                }
            }
        }
        self.placed = self.placed.max(placed);
    }

    /// The turn of a new pair called `tag` behind this one, which is worked on with these steps.
    pub fn followed_by(mut self, steps: &[Step], tag: &Tag) -> Result<Self, Misfit> {
        let steps = self.lay_out(steps)?;
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
        let steps = self.lay_out(steps)?;
        Ok(self.forecast(&steps, self.board.clock(from)))
    }

    /// When it is ready with these steps if they can begin at once.
    pub(super) fn ready_now(&mut self, steps: &[Step]) -> Result<Forecast, Misfit> {
        self.ready(steps, self.board.starts)
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
        let steps = self.lay_out(steps)?;
        let mut draws = self.untried();
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

    /// The steps as the board has them.
    pub(super) fn lay_out(&self, steps: &[Step]) -> Result<Vec<BoardStep>, Misfit> {
        self.board.lay_out(&self.tag, steps)
    }

    /// What the draws gave before any answer was tried.
    pub(super) fn untried(&self) -> Vec<Tried> {
        vec![Tried::NEVER; self.tables.len()]
    }

    /// The forecast for an answer at `clock`, from draws that were brought to earlier ones.
    pub(super) fn ask(&mut self, steps: &[BoardStep], clock: u32, draws: &mut [Tried]) -> Forecast {
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
        let steps = self.lay_out(steps)?;
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

/// A turn whose draws are placed little by little, so that a browser can answer in between.
pub struct Seating<'a> {
    turn: Turn<'a>,
    table: Table,
    place: usize,
    draws: Draws,
}

impl<'a> Seating<'a> {
    fn new(
        board: &'a Board,
        tag: &Tag,
        (place, own): (usize, Option<usize>),
        draws: Draws,
    ) -> Self {
        Self {
            turn: Turn {
                board,
                tag: tag.clone(),
                own,
                placed: place,
                tables: Vec::new(),
            },
            table: Table::new(board),
            place,
            draws,
        }
    }

    /// Behind all open pairs, for a new pair called `tag`.
    pub fn last(board: &'a Board, tag: &Tag, draws: Draws) -> Self {
        Self::new(board, tag, (board.pairs.len(), None), draws)
    }

    /// Where an open pair stands; one that the board does not have stands last.
    pub fn of(board: &'a Board, tag: &Tag, draws: Draws) -> Self {
        match board.place_of(tag) {
            Ok(place) => Self::new(board, tag, (place, Some(place)), draws),
            Err(_) => Self::last(board, tag, draws),
        }
    }

    /// Places all draws.
    pub fn all(self) -> Turn<'a> {
        let count = self.draws.count;
        match self.seat(count) {
            ControlFlow::Break(turn) | ControlFlow::Continue(Self { turn, .. }) => turn,
        }
    }

    /// Places so many more draws; breaks off with the turn once all are placed.
    pub fn seat(mut self, more: u32) -> ControlFlow<Turn<'a>, Self> {
        let (board, place) = (self.turn.board, self.place);
        let next = u32::try_from(self.turn.tables.len()).unwrap_or(u32::MAX);
        for draw in (next..self.draws.count).take(usize::try_from(more).unwrap_or(usize::MAX)) {
            let luck = Luck::of(self.draws.seed, draw);
            self.table
                .seat_all_before(board, place, Course::Drawn(luck));
            let waits_for = board
                .pairs
                .get(place)
                .map_or(&[][..], |pair| &pair.waits_for);
            let others = waits_for.iter().map(|other| self.table.finished[*other]);
            let from = others.max().unwrap_or(0);
            self.turn.tables.push((self.table.clone(), luck, from));
        }
        if next.saturating_add(more) < self.draws.count {
            ControlFlow::Continue(self)
        } else {
            ControlFlow::Break(self.turn)
        }
    }
}

/// Where a draw puts the pair, for all answers until it begins: until then nobody has time for it.
#[derive(Clone, Copy)]
pub(super) struct Tried {
    begins: Option<u32>,
    period: u32,
}

impl Tried {
    pub(super) const NEVER: Self = Self {
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

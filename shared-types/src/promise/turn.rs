//! A pair's turn: everything before it is placed, in every draw, and questions about it are
//! answered by placing only that pair.
//!
//! This is what an offer needs: the ready day of each choice if it is answered now, the last
//! moment at which an answer still keeps that day, and what further waiting does.

use serde::{Deserialize, Serialize};
use time::Date;

use crate::moment::Moment;
use crate::promise::board::{Board, BoardStep};
use crate::promise::chance::{Chance, Draws, Odds};
use crate::promise::luck::Luck;
use crate::promise::outlook::{Forecast, pickup};
use crate::promise::place::{Course, NEVER, Table};
use crate::promise::workshop::{Misfit, Step, Tag};

/// A place in the order, with the bench as it is there in every draw.
pub struct Turn<'a> {
    board: &'a Board,
    tag: Tag,
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

/// Minutes between the answer times that are tried.
const GRID: u32 = 30;

impl<'a> Turn<'a> {
    /// Behind all open pairs: where a new pair called `tag` stands.
    pub fn last(board: &'a Board, tag: &Tag, draws: Draws) -> Self {
        Self::at(board, tag, board.pairs.len(), draws)
    }

    /// Where an open pair stands.
    pub fn of(board: &'a Board, tag: &Tag, draws: Draws) -> Result<Self, Misfit> {
        let place = board.place_of(tag)?;
        Ok(Self::at(board, tag, place, draws))
    }

    fn at(board: &'a Board, tag: &Tag, place: usize, draws: Draws) -> Self {
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
            tables,
        }
    }

    /// When the pair is ready with these steps if they can begin at `from`: for an offer, the
    /// moment of the answer.
    pub fn ready(&mut self, steps: &[Step], from: Moment) -> Result<Forecast, Misfit> {
        let steps = self.board.lay_out(&self.tag, steps)?;
        Ok(self.forecast(&steps, self.board.clock(from)))
    }

    /// The last moment at which an answer still keeps `day` with this chance, if any does.
    ///
    /// Every half hour in which the shop is open is tried from the start of the plan on, and the
    /// first that fails ends the search: all answers until the moment returned keep the day. It is
    /// not assumed that a later answer can only lead to a later day.
    pub fn answer_by(
        &mut self,
        steps: &[Step],
        day: Date,
        chance: Chance,
    ) -> Result<Option<Moment>, Misfit> {
        let steps = self.board.lay_out(&self.tag, steps)?;
        let mut draws: Vec<Kept> = vec![Kept::NOT_ASKED; self.tables.len()];
        let mut last = None;
        let mut asked = self.board.shop.next_open(0);
        while let Some(clock) = asked {
            self.ask(&steps, clock, day, &mut draws);
            let odds = Odds {
                kept: count(draws.iter().filter(|draw| draw.in_time).count()),
                draws: count(draws.len()),
            };
            if !odds.reach(chance) {
                break;
            }
            last = Some(clock);
            asked = self.board.shop.next_open((clock / GRID + 1) * GRID);
        }
        Ok(last.map(|clock| self.board.moment(clock)))
    }

    /// Brings every draw to an answer at `clock`.
    fn ask(&mut self, steps: &[BoardStep], clock: u32, day: Date, draws: &mut [Kept]) {
        let board = self.board;
        for ((table, luck, earliest), draw) in self.tables.iter_mut().zip(draws) {
            // Whoever has to wait for the bench until then loses nothing by answering later.
            if draw.answered_by.is_some_and(|by| clock <= by) {
                continue;
            }
            let finish = finish(board, table, *luck, steps, clock, *earliest);
            let period = board.pickup(finish);
            *draw = Kept {
                answered_by: table.slots.first().map(|slot| slot.starts),
                in_time: period.is_some_and(|period| board.days[period] <= day),
            };
        }
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

/// Whether a draw keeps the day, for all answers until this clock minute: until then nobody has
/// time to begin.
#[derive(Clone, Copy)]
struct Kept {
    answered_by: Option<u32>,
    in_time: bool,
}

impl Kept {
    const NOT_ASKED: Self = Self {
        answered_by: None,
        in_time: false,
    };
}

fn count(draws: usize) -> u32 {
    u32::try_from(draws).unwrap_or(u32::MAX)
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

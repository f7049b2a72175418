//! What the owner asks in the evening: the plan, how sure each day is, and what each further day
//! of waiting does to pairs that wait for their owners' words. All of it from one play of the draws.

use crate::promise::board::{Board, BoardStep};
use crate::promise::chance::{Chance, Draws};
use crate::promise::luck::Luck;
use crate::promise::outlook::{AtRisk, Forecast, at_risk, pickup};
use crate::promise::place::{Course, Table};
use crate::promise::plan::Plan;
use crate::promise::turn::{Waited, finish};
use crate::promise::workshop::{Misfit, Step, Tag};

/// A pair that waits for its owner's word.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Waiting {
    /// Which.
    pub tag: Tag,
    /// What is then to be done.
    pub steps: Vec<Step>,
}

/// All open work of an evening.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Evening {
    /// The plan in the shop's order.
    pub plan: Plan,
    /// How sure each day is, in the same order.
    pub forecasts: Vec<Forecast>,
    /// For each pair that was asked about, its day if its owner answers at each of the next
    /// openings.
    pub waiting: Vec<(Tag, Vec<Waited>)>,
}

impl Evening {
    /// Plays all draws; of each waiting pair it tells the ready day with this chance for an answer
    /// now, and at each of so many further openings of the shop.
    pub fn of(
        board: &Board,
        draws: Draws,
        chance: Chance,
        (waiting, open_days): (&[Waiting], usize),
    ) -> Result<Self, Misfit> {
        let openings = (0..).map_while(|period| board.shop.hours(period));
        let clocks: Vec<u32> = openings
            .map(|(opens, _)| opens)
            .take(open_days + 1)
            .collect();
        let mut asked: Vec<Asked> = waiting
            .iter()
            .map(|pair| Asked::new(board, pair, clocks.len()))
            .collect::<Result<_, _>>()?;
        let mut periods: Vec<Vec<u32>> = vec![Vec::new(); board.pairs.len()];
        let mut table = Table::new(board);
        for draw in 0..draws.count {
            let luck = Luck::of(draws.seed, draw);
            table.clear(board);
            for (place, periods) in periods.iter_mut().enumerate() {
                for asked in asked.iter_mut().filter(|asked| asked.place == place) {
                    asked.ask(board, &mut table, luck, &clocks);
                }
                table.try_next(board, Course::Drawn(luck));
                table.take(board);
                periods.push(pickup(board, table.finished[place]));
            }
        }
        let forecasts = periods
            .iter_mut()
            .map(|periods| Forecast::count(board, periods));
        let waiting = waiting.iter().zip(asked);
        Ok(Self {
            plan: Plan::new(board),
            forecasts: forecasts.collect(),
            waiting: waiting
                .map(|(pair, asked)| (pair.tag.clone(), asked.waited(board, &clocks, chance)))
                .collect(),
        })
    }

    /// The given promises that are not kept with this chance, in the shop's order.
    pub fn at_risk(&self, chance: Chance) -> Vec<AtRisk> {
        at_risk(&self.plan, &self.forecasts, chance)
    }
}

/// A waiting pair, asked about in every draw at its place in the order.
struct Asked {
    place: usize,
    steps: Vec<BoardStep>,
    /// For each opening, the pickup periods of the draws so far.
    periods: Vec<Vec<u32>>,
}

impl Asked {
    fn new(board: &Board, pair: &Waiting, openings: usize) -> Result<Self, Misfit> {
        Ok(Self {
            place: board.place_of(&pair.tag)?,
            steps: board.lay_out(&pair.tag, &pair.steps)?,
            periods: vec![Vec::new(); openings],
        })
    }

    fn ask(&mut self, board: &Board, table: &mut Table, luck: Luck, clocks: &[u32]) {
        let others = board.pairs[self.place].waits_for.iter();
        let earliest = others.map(|other| table.finished[*other]).max();
        for (clock, periods) in clocks.iter().zip(&mut self.periods) {
            let earliest = earliest.unwrap_or(0);
            let finish = finish(board, table, luck, &self.steps, *clock, earliest);
            periods.push(pickup(board, finish));
        }
    }

    fn waited(mut self, board: &Board, clocks: &[u32], chance: Chance) -> Vec<Waited> {
        let answers = clocks.iter().zip(&mut self.periods);
        let waited = answers.map(|(clock, periods)| Waited {
            answered: board.moment(*clock),
            ready: Forecast::count(board, periods).by(chance),
        });
        waited.collect()
    }
}

//! Tests of the plan as a whole: against textbooks, against a plainer planner, and by properties.

mod days_given;
mod evening;
mod generated;
mod offers;
mod open_work;
mod plain;
mod properties;
mod textbook;
mod worked;

use time::macros::datetime;

use crate::minutes::Minutes;
use crate::moment::{Moment, Zone};
use crate::promise::board::Board;
use crate::promise::calendar::{Calendar, Hours};
use crate::promise::chance::{Chance, Draws};
use crate::promise::labour::Labour;
use crate::promise::plan::Plan;
use crate::promise::workshop::{Begins, Hand, Pair, Step, Tag, Workshop};

fn minutes(minutes: u32) -> Minutes {
    Minutes::new(minutes)
}

fn sure(name: &str, work: u32) -> Step {
    Step::new(name, Labour::sure(minutes(work)))
}

fn pair(tag: &str, steps: Vec<Step>) -> Pair {
    Pair {
        tag: Tag(tag.to_owned()),
        promised: None,
        begins: Begins::Now,
        waits_for: Vec::new(),
        steps,
    }
}

/// Tuesday to Friday 9:00–17:30, Saturday 9:00–13:00, Thursday 12 March 2026 closed.
fn calendar() -> Calendar {
    let weekday = Hours::parse("9:00", "17:30").unwrap();
    let saturday = Hours::parse("9:00", "13:00").unwrap();
    Calendar {
        zone: Zone::parse("America/Denver").unwrap(),
        week: [None, weekday, weekday, weekday, weekday, saturday, None],
        closed: [time::macros::date!(2026 - 03 - 12)].into(),
    }
}

/// Tuesday 10 March 2026, 9:00 in Denver.
fn tuesday() -> Moment {
    calendar().zone.moment(datetime!(2026-03-10 09:00))
}

/// So many hands who are at the bench in all open hours.
fn hands(count: usize) -> Vec<Hand> {
    (0..count)
        .map(|hand| Hand::every_day(&format!("hand {hand}"), minutes(24 * 60)))
        .collect()
}

/// A shop that never sleeps, for textbooks that know no night.
fn always(hands_at_work: usize, pairs: Vec<Pair>) -> Workshop {
    Workshop {
        calendar: Calendar {
            zone: Zone::utc(),
            week: [Hours::parse("0:00", "23:59").unwrap(); 7],
            closed: [].into(),
        },
        hands: hands(hands_at_work),
        stations: Vec::new(),
        pairs,
    }
}

fn monday() -> Moment {
    Moment::from_utc(datetime!(2026-03-09 00:00 UTC))
}

/// Minutes from the start until the last pair is finished.
fn makespan(plan: &Plan) -> i64 {
    let finished = plan.pairs.iter().filter_map(|pair| pair.finished);
    finished
        .map(|at| at.since(monday()).whole_minutes())
        .max()
        .unwrap_or(0)
}

fn board(workshop: &Workshop, now: Moment) -> Board {
    Board::new(workshop, now).unwrap()
}

/// Few draws, enough to compare two ways to the same forecast.
const SOME: Draws = Draws { seed: 3, count: 40 };

const EIGHTY: Chance = Chance::EIGHTY;

//! What planning costs: all open pairs with 500 draws, an offer of three choices with the days of
//! five open days of answers, and how both grow.
//!
//! `cargo bench -p shared-types --bench plan`

#![expect(
    clippy::float_arithmetic,
    reason = "only the measured times are reckoned here"
)]

use std::hint::black_box;
use std::io::Write as _;
use std::time::{Duration, Instant};

use shared_types::minutes::Minutes;
use shared_types::moment::{Moment, Zone};
use shared_types::promise::answers::Answers;
use shared_types::promise::board::Board;
use shared_types::promise::calendar::{Calendar, Hours};
use shared_types::promise::chance::{Chance, Draws};
use shared_types::promise::labour::Labour;
use shared_types::promise::outlook::outlook;
use shared_types::promise::plan::Plan;
use shared_types::promise::turn::Turn;
use shared_types::promise::workshop::{Begins, Hand, Pair, Step, Tag, Workshop};
use time::macros::datetime;

const DRAWS: Draws = Draws {
    seed: 1,
    count: 500,
};

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let mut out = std::io::stdout().lock();
    writeln!(
        out,
        "pairs hands  steps | board ms  plan ms | 500 draws ms  a pair µs  a step and draw ns | a turn ms  an offer ms  each choice anew ms"
    )?;
    for (pairs, hands) in [
        (40, 2),
        (300, 2),
        (1_000, 2),
        (5_000, 2),
        (1_000, 7),
        (5_000, 35),
    ] {
        let mut workshop = workshop(pairs, hands)?;
        let given = outlook(&Board::new(&workshop, now())?, DRAWS);
        for (pair, forecast) in workshop.pairs.iter_mut().zip(given) {
            pair.promised = forecast.by(Chance::EIGHTY);
        }
        workshop.pairs.sort_by_key(|pair| pair.promised);
        let steps: u32 = workshop.pairs.iter().map(|pair| count(&pair.steps)).sum();
        let (board, laying) = timed(|| Board::new(&workshop, now()));
        let board = board?;
        let (_, planning) = timed(|| Plan::new(&board));
        let (forecasts, playing) = timed(|| outlook(&board, DRAWS));
        let last = forecasts.last().and_then(|last| last.by(Chance::EIGHTY));
        // A pair early in the order, where waiting matters most.
        let asked = &workshop.pairs[workshop.pairs.len() / 20];
        let (turn, taking) = timed(|| Turn::of(&board, &asked.tag, DRAWS));
        let turn = turn?;
        let latest = now().plus(time::Duration::days(6));
        let choice = |answers: &mut Answers<'_>, more: u32| {
            let added = Step::new("added work", Labour::usual(Minutes::new(60 * more)));
            let steps = [asked.steps.as_slice(), &[added]].concat();
            answers.days(&steps, asked.promised, latest, Chance::EIGHTY)
        };
        let (each_anew, offering_anew) = timed(|| {
            let anew = |more| choice(&mut Answers::new(turn.clone()), more);
            (0..3).map(anew).collect::<Result<Vec<_>, _>>()
        });
        let (together, offering) = timed(|| {
            let mut answers = Answers::new(turn);
            let choices = (0..3).map(|more| choice(&mut answers, more));
            choices.collect::<Result<Vec<_>, _>>()
        });
        assert_eq!(each_anew?, together?, "what is shared changes no day");
        black_box(last);
        let a_step_and_draw = nanoseconds(playing) / f64::from(steps) / f64::from(DRAWS.count);
        writeln!(
            out,
            "{pairs:>5} {hands:>5} {steps:>6} | {:>8.1} {:>8.1} | {:>12.0} {:>10.0} {:>19.0} | {:>9.0} {:>12.0} {:>20.0}",
            milliseconds(laying),
            milliseconds(planning),
            milliseconds(playing),
            nanoseconds(playing) / 1_000.0 / f64::from(pairs),
            a_step_and_draw,
            milliseconds(taking),
            milliseconds(offering),
            milliseconds(offering_anew),
        )?;
    }
    Ok(())
}

fn now() -> Moment {
    Moment::from_utc(datetime!(2026-03-10 15:00 UTC))
}

/// Tuesday to Friday 9:00–17:30, Saturday 9:00–13:00, one stitcher and one finisher for every four
/// hands.
fn workshop(pairs: u32, hands: u32) -> Result<Workshop, Box<dyn std::error::Error>> {
    let weekday = Hours::parse("9:00", "17:30")?;
    let saturday = Hours::parse("9:00", "13:00")?;
    let machines = 0..hands.div_ceil(4);
    Ok(Workshop {
        calendar: Calendar {
            zone: Zone::parse("America/Denver")?,
            week: [None, weekday, weekday, weekday, weekday, saturday, None],
            closed: [].into(),
        },
        hands: (0..hands)
            .map(|hand| Hand::every_day(&hand.to_string(), Minutes::new(300 + hand % 4 * 60)))
            .collect(),
        stations: machines
            .flat_map(|machine| ["stitcher", "finisher"].map(|name| format!("{name} {machine}")))
            .collect(),
        pairs: (0..pairs)
            .map(|number| at_machine(pair(number), number % hands.div_ceil(4)))
            .collect(),
    })
}

/// The pair at one of several stitchers and finishers.
fn at_machine(mut pair: Pair, machine: u32) -> Pair {
    for step in &mut pair.steps {
        let station = step.station.take();
        step.station = station.map(|name| format!("{name} {machine}"));
    }
    pair
}

/// One of four kinds of work, by the price book of the invented shop.
fn pair(number: u32) -> Pair {
    let step = |name, usual| Step::new(name, Labour::usual(Minutes::new(usual)));
    let rest = |hours: u32| Minutes::new(hours * 60);
    let steps = match number % 4 {
        0 => vec![
            step("top lifts", 15),
            step("finish heels", 15).at("finisher"),
        ],
        1 => vec![
            step("teardown", 40),
            step("half soles", 45).resting(rest(12)),
            step("trim and dye", 65).at("finisher").resting(rest(2)),
            step("clean", 30).resting(rest(12)),
            step("final check", 10),
        ],
        2 => vec![
            step("patch", 45).resting(rest(1)),
            step("clean", 30).resting(rest(12)),
            step("final check", 10),
        ],
        _ => vec![
            step("teardown", 40),
            step("rib", 30).resting(rest(4)),
            step("welt", 150),
            step("shank and cork", 38),
            step("coat one", 12).resting(Minutes::new(30)),
            step("coat two", 12).resting_between(Minutes::new(20), Minutes::new(60)),
            step("lay sole", 15).resting(rest(12)),
            step("stitch", 35).at("stitcher"),
            step("heel base", 60).resting(rest(1)),
            step("top lifts", 15),
            step("trim and dye", 65).at("finisher").resting(rest(2)),
            step("clean", 30).resting(rest(12)),
            step("final check", 10),
        ],
    };
    Pair {
        tag: Tag(number.to_string()),
        promised: None,
        begins: Begins::Now,
        waits_for: Vec::new(),
        steps,
    }
}

fn count(steps: &[Step]) -> u32 {
    u32::try_from(steps.len()).unwrap_or(u32::MAX)
}

fn timed<T>(work: impl FnOnce() -> T) -> (T, Duration) {
    let begins = Instant::now();
    let done = work();
    (done, begins.elapsed())
}

fn milliseconds(span: Duration) -> f64 {
    span.as_secs_f64() * 1_000.0
}

fn nanoseconds(span: Duration) -> f64 {
    span.as_secs_f64() * 1_000_000_000.0
}

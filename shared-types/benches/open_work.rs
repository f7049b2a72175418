//! What it costs to plan a shop as it is stored: briefs read from JSON, made into a workshop, laid
//! out, planned, played through 500 times, and asked about a new pair and about a change.
//!
//! `cargo bench -p shared-types --bench open_work`

#![expect(
    clippy::float_arithmetic,
    reason = "only the measured times are reckoned here"
)]

use std::io::Write as _;
use std::time::Instant;

use shared_types::brief::PairBrief;
use shared_types::contact::Email;
use shared_types::hands::BenchHand;
use shared_types::id::ServiceId;
use shared_types::minutes::Minutes;
use shared_types::moment::{Moment, Zone};
use shared_types::money::{Currency, Money};
use shared_types::pricebook::Service;
use shared_types::promise::calendar::Hours;
use shared_types::promise::evening::{Evening, Waiting};
use shared_types::promise::open_work::{OpenWork, tag_of};
use shared_types::promise::outlook::outlook;
use shared_types::promise::plan::Plan;
use shared_types::promise::turn::Turn;
use shared_types::promise::what_if::{Change, what_if};
use shared_types::shop::Shop;
use shared_types::stage::Stage;
use shared_types::text::{Line, Words};
use shared_types::ticket::{Tag, TicketNumber};
use time::macros::{date, datetime};

type Answer<T> = Result<T, Box<dyn std::error::Error>>;

fn main() -> Answer<()> {
    let now = Moment::from_utc(datetime!(2026-03-10 15:00 UTC));
    let (shop, services) = (shop()?, services()?);
    let mut out = std::io::stdout().lock();
    writeln!(
        out,
        "pairs bytes | JSON ms  workshop ms  board ms  plan ms | outlook ms  evening ms | a new pair's turn ms  answer-by ms | what-if ms"
    )?;
    for pairs in [30, 300] {
        let stored: Vec<String> = (0..pairs).map(stored).collect();
        let bytes: usize = stored.iter().map(String::len).sum();
        let (briefs, reading) = timed(|| -> Result<Vec<PairBrief>, serde_json::Error> {
            stored
                .iter()
                .map(|text| serde_json::from_str(text))
                .collect()
        });
        let briefs = briefs?;
        let (work, making) = timed(|| OpenWork::new(&shop, &services, &briefs, now));
        let (board, laying) = timed(|| work.board());
        let board = board?;
        let (_, planning) = timed(|| Plan::new(&board));
        let (_, playing) = timed(|| outlook(&board, work.practice.draws));
        // Every tenth pair waits for its owner's word, and four answer times are tried for each.
        let waiting: Vec<Waiting> = work
            .workshop
            .pairs
            .iter()
            .step_by(10)
            .map(|pair| Waiting {
                tag: pair.tag.clone(),
                steps: pair.steps.clone(),
            })
            .collect();
        let (evening, asking_all) = timed(|| {
            Evening::of(
                &board,
                work.practice.draws,
                work.practice.chance,
                (&waiting, 3),
            )
        });
        evening?;
        let steps = &work.workshop.pairs[0].steps;
        let tag = tag_of(TicketNumber::new(9_999), Tag::at(0).ok_or("a first tag")?);
        let (turn, seating) = timed(|| -> Answer<_> {
            let mut turn = Turn::last(&board, &tag, work.practice.draws);
            let day = turn.ready(steps, now)?.by(work.practice.chance);
            Ok((turn, day.ok_or("a day")?))
        });
        let (mut turn, day) = turn?;
        let (answer, asking) = timed(|| turn.answer_by(steps, day, work.practice.chance));
        answer?;
        let close = [Change::Close {
            day: date!(2026 - 03 - 13),
        }];
        let (moved, trying) = timed(|| {
            what_if(
                &work.workshop,
                now,
                &close,
                work.practice.draws,
                work.practice.chance,
            )
        });
        moved?;
        writeln!(
            out,
            "{pairs:>5} {bytes:>5} | {reading:>7.2} {making:>12.2} {laying:>9.1} {planning:>8.1} | {playing:>10.1} {asking_all:>11.1} | {seating:>20.1} {asking:>13.1} | {trying:>10.1}",
        )?;
    }
    Ok(())
}

/// Tuesday to Friday 9:00–17:30, Saturday 9:00–13:00; two hands.
fn shop() -> Answer<Shop> {
    let mut shop = Shop::new(
        Line::parse("Juniper Row")?,
        Words::parse("Alder Falls")?,
        Email::parse("bench@example.com")?,
    );
    let weekday = Hours::parse("9:00", "17:30")?;
    let saturday = Hours::parse("9:00", "13:00")?;
    shop.calendar.zone = Zone::parse("America/Denver")?;
    shop.calendar.week = [None, weekday, weekday, weekday, weekday, saturday, None];
    shop.hands = BenchHand::numbered(2);
    Ok(shop)
}

/// Title, minutes, rest and station of the work on a pair.
const WORK: [(&str, u32, u32, Option<&str>); 9] = [
    ("Rib reglued", 30, 240, None),
    ("New leather welt, heel to heel", 150, 0, None),
    ("New shanks", 18, 0, None),
    ("Cork filler", 20, 0, None),
    ("Leather soles", 70, 720, None),
    ("Soles stitched", 35, 0, Some("outsole stitcher")),
    ("Heel bases of stacked leather", 60, 60, None),
    ("Edges trimmed, dyed and waxed", 65, 120, Some("finisher")),
    ("Cleaned, conditioned and polished", 30, 720, None),
];

fn id(place: usize) -> ServiceId {
    ServiceId::from_bytes([u8::try_from(place).unwrap_or(0); 16])
}

fn services() -> Answer<Vec<Service>> {
    let rows = WORK.into_iter().enumerate();
    let services = rows.map(|(place, (title, minutes, rest, station))| {
        Ok(Service {
            id: id(place),
            title: Line::parse(title)?,
            about: None,
            stage: Stage::Soling,
            minutes: Minutes::new(minutes),
            rest: Minutes::new(rest),
            material: Money::zero(Currency::USD),
            uses: Vec::new(),
            set_price: None,
            station: station.map(Line::parse).transpose()?,
            p90: None,
            cement: None,
        })
    });
    services.collect()
}

/// A brief as it stands in the database: every third pair is a whole rebuild, the others are nearly
/// done.
fn stored(number: usize) -> String {
    let skip = if number.is_multiple_of(3) { 0 } else { 6 };
    let lines: Vec<String> = WORK
        .iter()
        .enumerate()
        .skip(skip)
        .map(|(place, (title, minutes, rest, _))| {
            let service = id(place);
            format!(
                r#"{{"title":"{title}","service":"{service}","minutes":{minutes},"rest":{rest}}}"#
            )
        })
        .collect();
    let (day, lines) = (1 + number % 28, lines.join(","));
    let id = "01a23388-4ba0-7e98-9722-fa161bbed489";
    format!(
        r#"{{"form":1,"ticket":"{id}","pair":"{id}","number":{},"tag":"A","title":"dark green lace-up work boots, EU 44","stage":"structure","stage_since":"2026-03-10T15:00:00Z","hold":null,"all_round":false,"rating":"ordinary","promise":"2026-04-{day:02}","minutes":478,"left":{{"lines":[{lines}]}},"word":{{"state":"nothing"}},"question":null,"ready_at":null,"reminders":0}}"#,
        1_001 + number,
    )
}

/// What the work gives, and its milliseconds.
fn timed<T>(work: impl FnOnce() -> T) -> (T, f64) {
    let begins = Instant::now();
    let done = work();
    (done, begins.elapsed().as_secs_f64() * 1_000.0)
}

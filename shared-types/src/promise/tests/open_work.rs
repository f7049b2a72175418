//! From the shop's records to a plan: small shops worked by hand, and properties.

use std::cmp::Reverse;

use proptest::prelude::*;
use time::Date;
use time::macros::{date, datetime};

use super::*;
use crate::brief::left::{Left, LeftLine};
use crate::brief::{PairBrief, PairWord};
use crate::cement::Cement;
use crate::contact::Email;
use crate::hands::BenchHand;
use crate::id::{PairId, ServiceId, TicketId};
use crate::money::{Currency, Money};
use crate::pricebook::Service;
use crate::promise::open_work::{OpenWork, tag_of};
use crate::promise::outlook::{at_risk, outlook};
use crate::promise::plan::PlannedStep;
use crate::promise::practice::{FINAL_CHECK, missing_stations};
use crate::promise::reason::Reason;
use crate::promise::turn::Turn;
use crate::shop::Shop;
use crate::stage::{Hold, Stage};
use crate::text::{Line, Words};
use crate::ticket::{self, Rating, TicketNumber};

pub(super) fn line(text: &str) -> Line {
    Line::parse(text).unwrap()
}

/// The shop of [`calendar`], with so many hands in all open hours.
pub(super) fn shop(count: u32) -> Shop {
    let email = Email::parse("bench@example.com").unwrap();
    let mut shop = Shop::new(line("Juniper Row"), Words::parse("Here").unwrap(), email);
    shop.calendar = calendar();
    shop.hands = BenchHand::numbered(count);
    shop
}

const STITCHING: ServiceId = ServiceId::from_bytes([21; 16]);
const SOLES: ServiceId = ServiceId::from_bytes([16; 16]);

pub(super) fn service(
    id: ServiceId,
    title: &str,
    minutes: u32,
    station: Option<&str>,
    p90: Option<u32>,
) -> Service {
    Service {
        id,
        title: line(title),
        about: None,
        stage: Stage::Soling,
        minutes: Minutes::new(minutes),
        rest: Minutes::ZERO,
        material: Money::zero(Currency::USD),
        uses: Vec::new(),
        set_price: None,
        station: station.map(line),
        p90: p90.map(Minutes::new),
        cement: None,
    }
}

pub(super) fn services() -> Vec<Service> {
    vec![
        service(
            STITCHING,
            "Soles stitched",
            60,
            Some("outsole stitcher"),
            None,
        ),
        Service {
            cement: Cement::new(minutes(20), minutes(60), minutes(15)).ok(),
            ..service(SOLES, "Soles", 70, None, Some(140))
        },
    ]
}

pub(super) fn left(title: &str, work: u32, rest: u32, service: Option<ServiceId>) -> LeftLine {
    LeftLine {
        title: line(title),
        service,
        minutes: minutes(work),
        rest: minutes(rest),
    }
}

pub(super) fn brief(number: u32, promise: Date, lines: Vec<LeftLine>) -> PairBrief {
    PairBrief {
        form: PairBrief::FORM,
        ticket: TicketId::from_bytes([1; 16]),
        pair: PairId::from_bytes([2; 16]),
        number: TicketNumber::new(number),
        tag: ticket::Tag::at(0).unwrap(),
        title: "dark green boots".to_owned(),
        stage: Stage::Soling,
        stage_since: tuesday(),
        hold: None,
        all_round: false,
        rating: Rating::Ordinary,
        promise,
        minutes: lines.iter().map(|line| line.minutes).sum(),
        left: Left {
            lines,
            rests_until: None,
        },
        word: PairWord::Nothing,
        question: None,
        ready_at: None,
        reminders: 0,
    }
}

fn plan(shop: &Shop, pairs: &[PairBrief], now: Moment) -> Plan {
    let work = OpenWork::new(shop, &services(), pairs, now);
    Plan::new(&work.board().unwrap())
}

/// When each step begins and ends, by the shop's clock.
fn hours(steps: &[PlannedStep]) -> Vec<(time::PrimitiveDateTime, time::PrimitiveDateTime)> {
    let local = |at| calendar().zone.local(at);
    steps
        .iter()
        .map(|step| (local(step.starts), local(step.ends)))
        .collect()
}

/// The calendar worked by hand for one bench with nothing else to do: stripped on Tuesday, answered
/// at the last moment, Wednesday 11:40; Thursday is closed.
#[test]
fn a_pair_of_the_records_goes_through_the_calendar_worked_by_hand() {
    let lines = [
        ("welt", 150, 0),
        ("shank and cork", 32, 0),
        ("coat one", 12, 30),
        ("coat two", 12, 20),
        ("lay sole", 15, 720),
        ("stitch", 35, 0),
        ("heel", 60, 60),
        ("trim", 40, 0),
        ("dye", 25, 120),
        ("polish", 20, 0),
        ("condition", 10, 720),
    ];
    let lines = lines.map(|(title, work, rest)| left(title, work, rest, None));
    let mut boots = brief(1001, date!(2026 - 03 - 14), lines.into());
    let answer_by = calendar().zone.moment(datetime!(2026-03-11 11:40));
    boots.word = PairWord::Asked {
        sent_at: tuesday(),
        answer_by,
    };
    let stripped = calendar().zone.moment(datetime!(2026-03-10 09:40));
    let plan = plan(&shop(1), &[boots], stripped);
    let pair = &plan.pairs[0];
    let expected = [
        (datetime!(2026-03-11 11:40), datetime!(2026-03-11 14:10)),
        (datetime!(2026-03-11 14:10), datetime!(2026-03-11 14:42)),
        (datetime!(2026-03-11 14:42), datetime!(2026-03-11 14:54)),
        (datetime!(2026-03-11 15:24), datetime!(2026-03-11 15:36)),
        (datetime!(2026-03-11 15:56), datetime!(2026-03-11 16:11)),
        (datetime!(2026-03-13 09:00), datetime!(2026-03-13 09:35)),
        (datetime!(2026-03-13 09:35), datetime!(2026-03-13 10:35)),
        (datetime!(2026-03-13 11:35), datetime!(2026-03-13 12:15)),
        (datetime!(2026-03-13 12:15), datetime!(2026-03-13 12:40)),
        (datetime!(2026-03-13 14:40), datetime!(2026-03-13 15:00)),
        (datetime!(2026-03-13 15:00), datetime!(2026-03-13 15:10)),
        (datetime!(2026-03-14 09:00), datetime!(2026-03-14 09:10)),
    ];
    assert_eq!(hours(&pair.steps), expected);
    assert_eq!(pair.ready, Some(date!(2026 - 03 - 14)));
    // From 9:40 on Tuesday to 11:40 on Wednesday are 26 hours.
    let answer = Reason::Answer {
        minutes: minutes(26 * 60),
    };
    assert_eq!(pair.reasons[0], answer);
    assert_eq!(answer.to_string(), "waits up to 26 h for its owner’s word");
}

/// Two hands, one stitcher, two pairs to be stitched for an hour and checked for ten minutes.
#[test]
fn two_hands_take_turns_at_the_one_stitcher() {
    let stitched = |number, promise| {
        let stitching = left("Soles stitched", 60, 0, Some(STITCHING));
        brief(number, promise, vec![stitching])
    };
    let pairs = [
        stitched(1002, date!(2026 - 03 - 14)),
        stitched(1001, date!(2026 - 03 - 13)),
    ];
    let mut shop = shop(2);
    let first = [
        (datetime!(2026-03-10 09:00), datetime!(2026-03-10 10:00)),
        (datetime!(2026-03-10 10:00), datetime!(2026-03-10 10:10)),
    ];
    let second = [
        (datetime!(2026-03-10 10:00), datetime!(2026-03-10 11:00)),
        (datetime!(2026-03-10 11:00), datetime!(2026-03-10 11:10)),
    ];
    let with = plan(&shop, &pairs, tuesday());
    let order: Vec<_> = with.pairs.iter().map(|pair| pair.tag.0.clone()).collect();
    assert_eq!(order, ["1001\u{a0}A", "1002\u{a0}A"]);
    assert_eq!(hours(&with.pairs[0].steps), first);
    assert_eq!(hours(&with.pairs[1].steps), second);
    let wait = Reason::Station {
        station: "outsole stitcher".to_owned(),
        pairs: 1,
        minutes: minutes(60),
    };
    assert_eq!(with.pairs[1].reasons[0], wait);

    shop.stations.clear();
    let services = services();
    let missing: Vec<_> = missing_stations(&services, &shop).into_iter().collect();
    assert_eq!(missing, [&line("outsole stitcher")]);
    let without = plan(&shop, &pairs, tuesday());
    assert_eq!(hours(&without.pairs[0].steps), first);
    assert_eq!(hours(&without.pairs[1].steps), first);
}

/// Soles of 70 minutes may take 140: so may half of them, in their coats and in their joining.
#[test]
fn a_line_has_its_own_minutes_and_the_spread_of_its_service() {
    let lines = vec![
        left("Soles", 35, 0, Some(SOLES)),
        left("By hand", 40, 0, None),
    ];
    let pairs = [brief(1001, date!(2026 - 03 - 14), lines)];
    let work = OpenWork::new(&shop(1), &services(), &pairs, tuesday());
    let steps = &work.workshop.pairs[0].steps;
    let spread = |step: &Step| (step.labour.minutes().get(), step.labour.p90().get());
    let spreads: Vec<_> = steps.iter().map(spread).collect();
    assert_eq!(spreads, [(20, 40), (15, 30), (40, 60), (10, 10)]);
}

/// One hand, two pairs of an hour. The first waits for material: its time is kept before the
/// second's, its day is the earliest and its promise always at risk.
#[test]
fn what_waits_for_material_keeps_its_time_and_is_at_risk() {
    let hour = || vec![left("Soles", 60, 0, None)];
    let mut first = brief(1001, date!(2026 - 03 - 13), hour());
    first.hold = Some(Hold::Material);
    let pairs = [first, brief(1002, date!(2026 - 03 - 14), hour())];
    let work = OpenWork::new(&shop(1), &services(), &pairs, tuesday());
    let board = work.board().unwrap();
    let plan = Plan::new(&board);
    assert_eq!(
        hours(&plan.pairs[1].steps)[0].0,
        datetime!(2026-03-10 10:10)
    );
    let risks = at_risk(
        &plan,
        &outlook(&board, work.practice.draws),
        work.practice.chance,
    );
    assert_eq!(risks.len(), 1);
    assert_eq!(risks[0].tag, tag_of(pairs[0].number, pairs[0].tag));
    assert_eq!(risks[0].reasons[0], Reason::Material);
}

/// Cement dries 20 minutes and stays open for 60; 15 of the 35 minutes are for the joining. At 16:30
/// the coats are on at 16:50, dry at 17:10, and the soles are laid at 17:25. At 16:50 the coats would
/// be dry when the shop closes: they wait for Wednesday, though the 35 minutes alone would still fit.
/// One who is at the bench for 50 minutes a day never gets the 55 together, and works without the
/// break.
#[test]
fn soles_are_laid_while_their_cement_is_open() {
    let cement = Cement::new(minutes(20), minutes(60), minutes(15)).unwrap();
    let mut laid = service(SOLES, "Soles", 35, None, Some(35));
    laid.cement = Some(cement);
    let planned = |shop: &Shop, at: time::PrimitiveDateTime| {
        let soles = brief(
            1001,
            date!(2026 - 03 - 14),
            vec![left("Soles", 35, 0, Some(SOLES))],
        );
        let now = calendar().zone.moment(at);
        let work = OpenWork::new(shop, &[laid.clone()], &[soles], now);
        let steps = Plan::new(&work.board().unwrap()).pairs.remove(0).steps;
        let names: Vec<_> = steps.iter().map(|step| step.name.clone()).collect();
        (names, hours(&steps))
    };
    let (names, in_time) = planned(&shop(1), datetime!(2026-03-10 16:30));
    assert_eq!(names, ["Soles: cement", "Soles", "final check"]);
    assert_eq!(
        in_time[..2],
        [
            (datetime!(2026-03-10 16:30), datetime!(2026-03-10 16:50)),
            (datetime!(2026-03-10 17:10), datetime!(2026-03-10 17:25)),
        ]
    );
    let (_, too_late) = planned(&shop(1), datetime!(2026-03-10 16:50));
    assert_eq!(
        too_late[..2],
        [
            (datetime!(2026-03-11 09:00), datetime!(2026-03-11 09:20)),
            (datetime!(2026-03-11 09:40), datetime!(2026-03-11 09:55)),
        ]
    );
    let mut short = shop(1);
    short.hands[0].week = [Some(minutes(50)); 7];
    let (names, _) = planned(&short, datetime!(2026-03-10 09:00));
    assert_eq!(names, ["Soles", "final check"]);
}

#[test]
fn a_rest_that_has_begun_ends_when_it_ends() {
    let mut boots = brief(
        1001,
        date!(2026 - 03 - 14),
        vec![left("Stitch", 35, 0, None)],
    );
    boots.hold = Some(Hold::Drying);
    boots.left.rests_until = Some(calendar().zone.moment(datetime!(2026-03-11 04:11)));
    let plan = plan(&shop(1), &[boots], tuesday());
    assert_eq!(
        hours(&plan.pairs[0].steps)[0].0,
        datetime!(2026-03-11 09:00)
    );
}

pub(super) fn briefs() -> impl Strategy<Value = Vec<PairBrief>> {
    let service = prop_oneof![Just(None), Just(Some(STITCHING)), Just(Some(SOLES))];
    let row = (0_u32..90, prop_oneof![Just(0), Just(720)], service);
    let rows = prop::collection::vec(row, 0..5);
    let stage = prop::sample::select(Stage::ALL[..7].to_vec());
    let hold = prop_oneof![
        Just(None),
        Just(Some(Hold::Material)),
        Just(Some(Hold::Drying))
    ];
    let pair = (rows, 0_i64..20, stage, hold, any::<bool>());
    prop::collection::vec(pair, 1..8).prop_map(|pairs| {
        let made = pairs.into_iter().zip(1001..);
        made.map(|((rows, days, stage, hold, is_asked), number)| {
            let rows = rows.into_iter();
            let lines = rows.map(|(work, rest, service)| left("Work", work, rest, service));
            let promise = date!(2026 - 03 - 10) + time::Duration::days(days);
            let mut brief = brief(number, promise, lines.collect());
            brief.stage = stage;
            brief.hold = hold;
            if is_asked {
                brief.word = PairWord::Asked {
                    sent_at: tuesday(),
                    answer_by: tuesday().plus(time::Duration::hours(30)),
                };
            }
            brief
        })
        .collect()
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(100))]

    #[test]
    fn every_open_pair_comes_with_all_its_minutes_in_its_order(pairs in briefs()) {
        let shop = shop(2);
        let work = OpenWork::new(&shop, &services(), &pairs, tuesday());
        let mut open: Vec<&PairBrief> = pairs.iter().filter(|pair| pair.stage < Stage::Ready).collect();
        open.sort_by_key(|pair| (pair.promise, Reverse(pair.stage), pair.number));
        let tags: Vec<_> = open.iter().map(|pair| tag_of(pair.number, pair.tag)).collect();
        let planned: Vec<_> = work.workshop.pairs.iter().map(|pair| pair.tag.clone()).collect();
        prop_assert_eq!(planned, tags);
        for (pair, brief) in work.workshop.pairs.iter().zip(&open) {
            let all: Minutes = pair.steps.iter().map(|step| step.labour.minutes()).sum();
            prop_assert_eq!(all, brief.minutes.plus(FINAL_CHECK));
            let is_rest = |step: &&Step| step.rest.at_most.is_none();
            let rests: Minutes = pair.steps.iter().filter(is_rest).map(|step| step.rest.at_least).sum();
            prop_assert_eq!(rests, brief.left.lines.iter().map(|line| line.rest).sum());
            prop_assert_eq!(pair.promised, Some(brief.promise));
        }
        // Nobody vanishes: each open pair has its day, whatever holds it.
        let plan = Plan::new(&work.board().unwrap());
        prop_assert!(plan.pairs.iter().all(|pair| pair.ready.is_some()));
    }

    #[test]
    fn the_same_records_give_the_same_days_however_they_are_listed(pairs in briefs()) {
        let shop = shop(2);
        let back: Vec<_> = pairs.iter().rev().cloned().collect();
        let [there, back] = [pairs, back].map(|pairs| {
            let work = OpenWork::new(&shop, &services(), &pairs, tuesday());
            let few = Draws { count: 20, ..work.practice.draws };
            outlook(&work.board().unwrap(), few)
        });
        prop_assert_eq!(there, back);
    }

    /// What is offered or taken in is planned by the very steps that it has as an open pair.
    #[test]
    fn a_new_pair_is_dated_as_if_it_stood_last(pairs in briefs(), work in 1_u32..200) {
        let shop = shop(2);
        let new = brief(2000, date!(2027 - 03 - 10), vec![left("New", work, 60, None)]);
        let mut with = pairs.clone();
        with.push(new);
        let few = Draws { seed: 1, count: 20 };
        let with = OpenWork::new(&shop, &services(), &with, tuesday());
        let last = with.workshop.pairs.last().unwrap();
        let forecasts = outlook(&with.board().unwrap(), few);
        let without = OpenWork::new(&shop, &services(), &pairs, tuesday());
        let board = without.board().unwrap();
        let mut turn = Turn::last(&board, &last.tag, few);
        let asked = turn.ready(&last.steps, tuesday()).unwrap();
        prop_assert_eq!(Some(&asked), forecasts.last());
    }
}

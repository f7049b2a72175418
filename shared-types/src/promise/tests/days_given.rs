//! The days that customers are given, against the whole plan made anew with the pair in it.

use proptest::prelude::*;
use time::Duration;
use time::macros::date;

use super::open_work::{brief, briefs, left, line, service, services, shop};
use super::*;
use crate::id::ServiceId;
use crate::promise::answers::Answers;
use crate::promise::dates::{Dates, InHand};
use crate::promise::laid_out::LaidOut;
use crate::promise::new_pair::{Asked, NewPair, NewPairs};
use crate::promise::open_work::{OpenWork, tag_of};
use crate::promise::outlook::{Forecast, outlook};
use crate::promise::turn::Turn;
use crate::scope::{Scope, ScopeLine, Side, Work};
use crate::stage::Stage;
use crate::ticket;

/// The forecast of a pair that stands there, with everything planned anew.
fn anew(work: &OpenWork, place: usize, pair: Pair, draws: Draws) -> Forecast {
    let mut workshop = work.workshop.clone();
    workshop.pairs.insert(place, pair);
    outlook(&board(&workshop, work.now), draws).swap_remove(place)
}

/// Where a shop that works in the order of its promises takes a pair that is promised then.
fn place_behind(work: &OpenWork, day: time::Date) -> usize {
    let is_first = |pair: &&Pair| pair.promised <= Some(day);
    work.workshop.pairs.iter().take_while(is_first).count()
}

/// Full and half hours from the start on in which the shop is open, so many open days of them.
fn openings(work: &OpenWork, days: usize) -> Vec<Moment> {
    let shifts = work.workshop.calendar.shifts(work.now).take(days);
    let halves = |shift: crate::promise::calendar::Shift| {
        let all = (0..48).map(move |half| shift.opens.plus(Duration::minutes(30 * half)));
        all.take_while(move |at| *at < shift.closes)
    };
    shifts.flat_map(halves).collect()
}

fn scope_line(title: &str, service: Option<ServiceId>, work: u32, rest: u32) -> ScopeLine {
    ScopeLine {
        service,
        title: line(title),
        reason: None,
        side: Side::Pair,
        stage: Stage::Soling,
        minutes: minutes(work),
        rest: minutes(rest),
        material: crate::money::Money::zero(crate::money::Currency::USD),
        uses: Vec::new(),
        set_price: None,
    }
}

fn asked(lines: &[ScopeLine], wished: Option<(time::Date, bool)>) -> Asked<'_> {
    Asked {
        lines,
        rush: wished.is_some_and(|(_, rush)| rush),
        wished: wished.map(|(day, _)| day),
    }
}

fn few(work: &mut OpenWork) -> Draws {
    work.practice.draws = SOME;
    SOME
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    /// Whatever the customer chooses and whenever they answer: in the plan that the shop then makes,
    /// with the pair behind all that is promised by its day, the day is kept with the shop's chance.
    #[test]
    fn each_day_of_an_offer_holds_in_the_plan_that_the_shop_then_makes(
        pairs in briefs(),
        which in any::<prop::sample::Index>(),
        added in 0_u32..900,
    ) {
        let mut work = OpenWork::new(&shop(1), &services(), &pairs, tuesday());
        let draws = few(&mut work);
        prop_assume!(!work.workshop.pairs.is_empty());
        let place = which.index(work.workshop.pairs.len());
        let whole = work.board().unwrap();
        let mut others = work.clone();
        let pair = others.workshop.pairs.remove(place);
        let steps = [vec![Step::new("added", Labour::usual(minutes(added)))], pair.steps.clone()].concat();
        let grid = openings(&work, 3);
        let latest = *grid.last().unwrap();
        let mut answers = Answers::new(Turn::of(&whole, &pair.tag, draws).unwrap());
        let days = answers.days(&steps, pair.promised, latest, EIGHTY).unwrap();
        prop_assert!(days.windows(2).all(|two| {
            two[0].answered_by < two[1].answered_by && two[0].ready_by < two[1].ready_by
        }), "{days:?}");
        prop_assert_eq!(days.last().unwrap().answered_by, latest);
        for answered in grid {
            let day = days.iter().find(|day| answered <= day.answered_by).unwrap().ready_by;
            prop_assert!(Some(day) >= pair.promised, "{day}");
            let later = Some(day) > pair.promised;
            let place = if later { place_behind(&others, day) } else { place };
            let pair = Pair {
                begins: Begins::At(answered),
                steps: steps.clone(),
                ..pair.clone()
            };
            let odds = anew(&others, place, pair, draws).odds(day);
            prop_assert!(odds.reach(EIGHTY), "{odds} by {day} if answered at {answered}");
        }
    }

    /// However many choices were asked about before, and in whatever order.
    #[test]
    fn what_was_asked_before_changes_no_day(
        pairs in briefs(),
        which in any::<prop::sample::Index>(),
        added in prop::collection::vec(0_u32..900, 1..4),
    ) {
        let mut work = OpenWork::new(&shop(1), &services(), &pairs, tuesday());
        let draws = few(&mut work);
        prop_assume!(!work.workshop.pairs.is_empty());
        let pair = &work.workshop.pairs[which.index(work.workshop.pairs.len())];
        let whole = work.board().unwrap();
        let turn = Turn::of(&whole, &pair.tag, draws).unwrap();
        let latest = tuesday().plus(Duration::days(1));
        let ask = |answers: &mut Answers<'_>, added: &u32| {
            let steps = [vec![Step::new("added", Labour::usual(minutes(*added)))], pair.steps.clone()].concat();
            answers.days(&steps, pair.promised, latest, EIGHTY).unwrap()
        };
        let mut together = Answers::new(turn.clone());
        for added in added.iter().chain(added.iter().rev()) {
            let alone = ask(&mut Answers::new(turn.clone()), added);
            prop_assert_eq!(ask(&mut together, added), alone);
        }
    }

    /// Pairs that come together get the days that the plan gives them behind all that is open; one
    /// in rush gets its day only if the plan keeps it behind all that is promised by then.
    #[test]
    fn each_day_of_a_new_pair_holds_in_the_plan_that_the_shop_then_makes(
        pairs in briefs(),
        (first, second) in (1_u32..400, 1_u32..400),
        wish in (0_i64..12, any::<bool>()),
    ) {
        let mut work = OpenWork::new(&shop(1), &services(), &pairs, tuesday());
        let draws = few(&mut work);
        let board = work.board().unwrap();
        let (first, second) = ([scope_line("First", None, first, 60)], [scope_line("Second", None, second, 0)]);
        let (day, rush) = (date!(2026 - 03 - 10) + Duration::days(wish.0), wish.1);
        let mut new_pairs = NewPairs::of(&work.practice, Some(&board));
        let given = new_pairs.days(&[asked(&first, None), asked(&[], None), asked(&second, Some((day, rush)))]);
        prop_assert_eq!(&given[1], &None);
        let [first_days, second_days] = [0, 2].map(|place| given[place].unwrap().unwrap());
        let new = |place: usize, lines: &[ScopeLine]| pair(&format!("new\u{a0}{place}"), work.practice.steps(lines));
        let end = work.workshop.pairs.len();
        let first_anew = anew(&work, end, new(0, &first), draws);
        prop_assert_eq!(Some(first_days.in_turn), first_anew.by(EIGHTY));
        prop_assert_eq!(first_days.likely, first_anew.by(Chance::FIFTY));
        let mut with_first = work.clone();
        with_first.workshop.pairs.push(new(0, &first));
        let in_turn = anew(&with_first, end + 1, new(1, &second), draws);
        prop_assert_eq!(Some(second_days.in_turn), in_turn.by(EIGHTY));
        let wish = second_days.wish.unwrap();
        prop_assert_eq!(wish.in_turn, in_turn.odds(day));
        let place = place_behind(&work, day);
        let mut rushed = work.clone();
        rushed.workshop.pairs.insert(place, new(0, &first));
        let in_rush = anew(&rushed, place + 1, new(1, &second), draws).odds(day);
        prop_assert_eq!(wish.in_rush, in_rush);
        let is_given = day >= second_days.in_turn || (rush && in_rush.reach(EIGHTY));
        prop_assert_eq!(wish.is_given, is_given);
        prop_assert_eq!(second_days.refusal().is_none(), is_given);
        prop_assert_eq!(second_days.given(), if is_given { day } else { second_days.in_turn });
    }

    /// A browser knows no time zones, and gets the work as JSON: it gives the very days of the
    /// server, over a change of the clocks too.
    #[test]
    fn the_browser_gives_the_days_of_the_server(
        pairs in briefs(),
        which in any::<prop::sample::Index>(),
        (added, rest, hour) in (1_u32..900, 0_u32..3_000, 0_i64..400),
    ) {
        // The clocks of Denver went forward on Sunday 8 March 2026.
        let now = tuesday().plus(Duration::hours(hour - 200));
        let mut work = OpenWork::new(&shop(2), &services(), &pairs, now);
        few(&mut work);
        let json = serde_json::to_string(&work.laid_out()).unwrap();
        let sent: LaidOut = serde_json::from_str(&json).unwrap();
        let (here, there) = (work.board().unwrap(), sent.board().unwrap());
        let lines = [scope_line("Added", None, added, rest)];
        let given = |practice, board| {
            let wish = Some((date!(2026 - 03 - 13), true));
            NewPairs::of(practice, Some(board)).days(&[asked(&lines, wish), asked(&lines, None)])
        };
        prop_assert_eq!(given(&work.practice, &here), given(&sent.practice, &there));
        let which = &pairs[which.index(pairs.len())];
        let in_hand = InHand {
            tag: tag_of(which.number, ticket::Tag::at(0).unwrap()),
            promised: which.promise,
            rests_until: which.left.rests_until,
            done: Vec::new(),
            left: Vec::new(),
        };
        let json = serde_json::to_string(&in_hand).unwrap();
        let sent_pair: InHand = serde_json::from_str(&json).unwrap();
        let day = Dates::of(&work.practice, Some(&here), in_hand).ready_by(&lines);
        prop_assert_eq!(Dates::of(&sent.practice, Some(&there), sent_pair).ready_by(&lines), day);
    }
}

const SURE: ServiceId = ServiceId::from_bytes([77; 16]);

/// One bench, 510 minutes on Tuesday, Wednesday and Friday; Thursday is closed. The open pair has
/// 900 minutes and the final check left: Wednesday 17:30 less 110. A rush job of 150 and its check
/// for Tuesday goes first, and leaves 350 on Tuesday and 510 on Wednesday for 910: Friday. A rush
/// job of 90 and its check leaves 410 and 510: Wednesday still.
#[test]
fn a_rush_job_names_the_promise_that_it_costs() {
    let services = [service(SURE, "Work", 100, None, Some(100))];
    let open = brief(
        1001,
        date!(2026 - 03 - 11),
        vec![left("Work", 900, 0, Some(SURE))],
    );
    let shop = shop(1);
    let work = OpenWork::new(&shop, &services, &[open], tuesday());
    let board = work.board().unwrap();
    let endangers = |work_minutes: u32| {
        let lines = vec![scope_line("Work", Some(SURE), work_minutes, 0)];
        let wished = Some((date!(2026 - 03 - 10), true));
        let mut new_pairs = NewPairs::of(&work.practice, Some(&board));
        let days = new_pairs.days(&[asked(&lines, wished)])[0]
            .unwrap()
            .unwrap();
        assert_eq!(days.given(), date!(2026 - 03 - 10));
        let work_out = Work {
            lines,
            ..Work::default()
        };
        let scope = Scope::work_out(work_out, &shop, |_| Ok(days.given())).unwrap();
        NewPairs::endangers(&work, &[Some(Ok(NewPair { scope, days }))])
    };
    assert_eq!(endangers(90), []);
    let costs = endangers(150);
    assert_eq!(costs.len(), 1, "{costs:?}");
    assert_eq!(costs[0].tag, work.workshop.pairs[0].tag);
    assert_eq!(costs[0].day, date!(2026 - 03 - 11));
    assert_eq!(
        (costs[0].before.percent(), costs[0].after.percent()),
        (100, 0)
    );
}

//! Textbook problems with a known answer. Their time unit is a minute, or a day of eight hours.

use time::Duration;
use time::macros::date;

use super::*;
use crate::promise::order::{Figures, Rule, arranged};

/// Every order of these things.
fn orders<T: Clone>(things: &[T]) -> Vec<Vec<T>> {
    if things.is_empty() {
        return vec![Vec::new()];
    }
    (0..things.len())
        .flat_map(|first| {
            let mut others = things.to_vec();
            let chosen = others.remove(first);
            orders(&others).into_iter().map(move |mut order| {
                order.insert(0, chosen.clone());
                order
            })
        })
        .collect()
}

/// Johnson, "Optimal two- and three-stage production schedules", Naval Research Logistics
/// Quarterly 1, 1954, pp. 61–68: five jobs at two machines; the best order is 5, 1, 4, 3, 2 with
/// makespan 47.
#[test]
fn two_stations_in_the_best_order_take_as_long_as_johnson_says() {
    let jobs = [
        ("1", 4, 5),
        ("2", 4, 1),
        ("3", 30, 4),
        ("4", 6, 30),
        ("5", 2, 3),
    ];
    let pairs = jobs.map(|(tag, first, second)| {
        pair(
            tag,
            vec![
                sure("stitch", first).at("stitcher"),
                sure("finish", second).at("finisher"),
            ],
        )
    });
    let takes = |order: &[Pair]| {
        let mut workshop = always(5, order.to_vec());
        workshop.stations = vec!["stitcher".to_owned(), "finisher".to_owned()];
        makespan(&Plan::new(&board(&workshop, monday())))
    };
    let best = [4, 0, 3, 2, 1].map(|place: usize| pairs[place].clone());
    assert_eq!(takes(&best), 47);
    let all = orders(&pairs);
    assert_eq!(all.len(), 120);
    assert_eq!(all.iter().map(|order| takes(order)).min(), Some(47));
}

/// One hand with eight bench hours a day in a shop that is open for longer, so that what ends in
/// the evening is still collected that day; jobs in days of work, due at the end of a day.
fn figures(jobs: &[(&str, u32, i64)], rule: Option<Rule>) -> Figures {
    let today = date!(2026 - 03 - 09);
    let pairs: Vec<Pair> = jobs
        .iter()
        .map(|(tag, days, due)| Pair {
            promised: Some(today + Duration::days(due - 1)),
            ..pair(tag, vec![sure("work", days * 480)])
        })
        .collect();
    let mut workshop = always(1, rule.map_or(pairs.clone(), |rule| arranged(&pairs, rule)));
    workshop.hands = vec![Hand::every_day("hand", minutes(480))];
    Figures::of(&Plan::new(&board(&workshop, monday())), today)
}

/// The sequencing example of operations management textbooks: five jobs (work, due) A 6,8; B 2,6;
/// C 8,18; D 3,15; E 9,23. Total flow, total lateness and mean jobs in the system are the
/// textbook's; the largest lateness is worked out by hand.
#[test]
fn one_bench_in_four_orders_has_its_textbook_figures() {
    let jobs = [
        ("A", 6, 8),
        ("B", 2, 6),
        ("C", 8, 18),
        ("D", 3, 15),
        ("E", 9, 23),
    ];
    let longest_first = [4, 2, 0, 3, 1].map(|place: usize| jobs[place]);
    for (found, in_shop, mean, late, in_system, worst) in [
        (figures(&jobs, None), 77, 1_540, 11, 275, 5),
        (figures(&jobs, Some(Rule::LeastWork)), 65, 1_300, 9, 232, 5),
        (
            figures(&jobs, Some(Rule::EarliestPromise)),
            68,
            1_360,
            6,
            243,
            5,
        ),
        (figures(&longest_first, None), 103, 2_060, 48, 368, 22),
    ] {
        assert_eq!(found.span, 28);
        assert_eq!(found.in_shop, in_shop);
        assert_eq!(found.mean_days_hundredths(), mean);
        assert_eq!(found.late, late);
        assert_eq!(found.mean_pairs_hundredths(), in_system);
        assert_eq!(found.worst, Some(worst));
    }
}

/// Jackson's rule (1955): earliest due date first has the least maximum lateness. Five jobs by
/// hand, and the optimum over all 120 orders.
#[test]
fn earliest_promise_first_keeps_the_worst_delay_smallest() {
    let jobs = [
        ("P", 4, 16),
        ("Q", 2, 4),
        ("R", 6, 9),
        ("S", 3, 14),
        ("T", 5, 19),
    ];
    assert_eq!(figures(&jobs, None).worst, Some(3));
    assert_eq!(figures(&jobs, Some(Rule::LeastWork)).worst, Some(11));
    let best = figures(&jobs, Some(Rule::EarliestPromise));
    assert_eq!((best.worst, best.late), (Some(1), 1));
    let worsts = orders(&jobs)
        .into_iter()
        .map(|order| figures(&order, None).worst);
    let (least, most) = worsts.fold((None, None), |(least, most), worst| {
        (least.or(worst).min(worst), most.max(worst))
    });
    assert_eq!((least, most), (Some(1), Some(16)));
}

/// Nine tasks, of which the ninth waits for the first and tasks 5 to 8 for the fourth.
fn nine(times: [u32; 9], list: [usize; 9], waiting_for_fourth: &[usize]) -> Vec<Pair> {
    let task = |number: usize| {
        let mut task = pair(&number.to_string(), vec![sure("task", times[number - 1])]);
        if number == 9 {
            task.waits_for.push(Tag("1".to_owned()));
        }
        if waiting_for_fourth.contains(&number) {
            task.waits_for.push(Tag("4".to_owned()));
        }
        task
    };
    list.map(task).to_vec()
}

/// Graham, "Bounds on multiprocessing timing anomalies", SIAM Journal on Applied Mathematics
/// 17(2), 1969, pp. 416–429: 12 with three processors; 15 with a fourth; 13 if every task is
/// shorter by one; 16 if two precedences are dropped; 14 with another list.
#[test]
fn more_hands_shorter_steps_and_fewer_ties_can_all_make_a_plan_later() {
    const TIMES: [u32; 9] = [3, 2, 2, 2, 4, 4, 4, 4, 9];
    const LIST: [usize; 9] = [1, 2, 3, 4, 5, 6, 7, 8, 9];
    let takes = |hands, pairs| {
        makespan(&Plan::as_hands_come_free(&board(
            &always(hands, pairs),
            monday(),
        )))
    };
    let after_fourth = [5, 6, 7, 8];
    assert_eq!(takes(3, nine(TIMES, LIST, &after_fourth)), 12);
    assert_eq!(takes(4, nine(TIMES, LIST, &after_fourth)), 15);
    let shorter = TIMES.map(|time| time - 1);
    assert_eq!(takes(3, nine(shorter, LIST, &after_fourth)), 13);
    assert_eq!(takes(3, nine(TIMES, LIST, &[7, 8])), 16);
    let another = [1, 2, 4, 5, 6, 3, 9, 7, 8];
    assert_eq!(takes(3, nine(TIMES, another, &after_fourth)), 14);
}

/// The bound of list scheduling without precedence, 2 − 1/m (Graham, Bell System Technical
/// Journal 45, 1966), is reached by six tasks of 1 and one of 3 on three machines: 5 instead of 3.
#[test]
fn the_worst_order_takes_five_where_the_best_takes_three() {
    let task = |number: usize, time| pair(&number.to_string(), vec![sure("task", time)]);
    let mut pairs: Vec<Pair> = (1..7).map(|number| task(number, 1)).collect();
    pairs.push(task(7, 3));
    for (pairs, expected) in [(pairs.clone(), 5), (pairs.into_iter().rev().collect(), 3)] {
        let board = board(&always(3, pairs), monday());
        assert_eq!(makespan(&Plan::new(&board)), expected);
        assert_eq!(makespan(&Plan::as_hands_come_free(&board)), expected);
    }
}

/// Little's law, L = λW (Operations Research 9(3), 1961): counted day by day, the mean number of
/// pairs in the shop is what the days of all pairs spread over the plan give.
#[test]
fn the_pairs_counted_each_day_agree_with_littles_law() {
    let today = date!(2026 - 03 - 09);
    let pairs = (0..12)
        .map(|number| pair(&number.to_string(), vec![sure("work", 120)]))
        .collect();
    let mut workshop = always(1, pairs);
    workshop.hands = vec![Hand::every_day("hand", minutes(480))];
    let plan = Plan::new(&board(&workshop, monday()));
    let figures = Figures::of(&plan, today);
    let present = |ahead: i64| {
        let day = today + Duration::days(ahead);
        plan.pairs
            .iter()
            .filter(|pair| pair.ready.unwrap() >= day)
            .count()
    };
    // Four are finished each day: 12, 8 and 4 pairs are there on the three days.
    assert_eq!([0, 1, 2, 3].map(present), [12, 8, 4, 0]);
    assert_eq!((figures.in_shop, figures.span), (24, 3));
    assert_eq!(figures.mean_pairs_hundredths(), 800);
    assert_eq!(figures.mean_days_hundredths(), 200);
}

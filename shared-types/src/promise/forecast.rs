//! The ready-by day of a scope: its turn in the queue, its work in order, and its rests.

use serde::{Deserialize, Serialize};
use time::Date;

use crate::minutes::Minutes;
use crate::moment::Moment;
use crate::promise::calendar::Calendar;
use crate::scope::ScopeLine;

/// One step of work and the rest that must follow it before the next may begin.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Step {
    /// Bench minutes, only in open hours.
    pub work: Minutes,
    /// Clock minutes that run through the night and closed days.
    pub rest: Minutes,
}

/// What waits before this pair: bench minutes of other pairs, and how many hands share them.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Queue {
    /// Minutes of agreed work on pairs that come first.
    pub minutes: Minutes,
    /// Bench hands that work them off side by side; at least one.
    pub hands: u32,
}

impl Queue {
    /// No pair waits before this one.
    pub const EMPTY: Self = Self {
        minutes: Minutes::ZERO,
        hands: 1,
    };

    fn wait(self) -> Minutes {
        self.minutes.shared_by(self.hands)
    }
}

/// When the last rest of these steps ends, if they start in the queue's turn after `from`.
///
/// One pair is worked on by one hand, step after step; a step waits for the rest before it.
/// Nothing if the shop never opens.
pub fn finished(calendar: &Calendar, from: Moment, queue: Queue, steps: &[Step]) -> Option<Moment> {
    let mut at = calendar.work_until(from, queue.wait())?;
    for step in steps {
        at = calendar.work_until(at, step.work)?;
        at = at.plus(time::Duration::minutes(i64::from(step.rest.get())));
    }
    Some(at)
}

/// The first day on which the pair can be collected: the shop is open on it after the finish.
pub fn ready_by(
    calendar: &Calendar,
    from: Moment,
    queue: Queue,
    lines: &[ScopeLine],
) -> Option<Date> {
    let finish = finished(calendar, from, queue, &steps(lines))?;
    Some(calendar.zone.day(calendar.next_open(finish)?))
}

/// A day, and the last minute at which an answer still gives it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct AnswerDay {
    /// The last minute.
    pub answered_by: Moment,
    /// The day by which the pair is then ready.
    pub ready_by: Date,
}

/// The days that answers from `now` until `latest` give, in order; never empty.
///
/// While the word is awaited the queue before the pair is worked off; only when its turn has come
/// does waiting cost anything. The day never comes earlier by waiting, so each last minute is found
/// by halving. Nothing if the shop never opens.
pub fn days_by_answer(
    calendar: &Calendar,
    (now, latest): (Moment, Moment),
    queue: Queue,
    lines: &[ScopeLine],
) -> Option<Vec<AnswerDay>> {
    let turn = calendar.work_until(now, queue.wait())?;
    let steps = steps(lines);
    let at = |minute: i64| now.plus(time::Duration::minutes(minute));
    let ready = |minute: i64| {
        let begins = turn.max(at(minute).min(latest));
        let finish = finished(calendar, begins, Queue::EMPTY, &steps)?;
        Some(calendar.zone.day(calendar.next_open(finish)?))
    };
    let last = latest.since(now).whole_minutes().max(0);
    let mut days = Vec::new();
    let mut first = 0;
    while first <= last {
        let day = ready(first)?;
        let (mut keeps, mut loses) = (first, last + 1);
        while loses - keeps > 1 {
            let middle = keeps + (loses - keeps) / 2;
            if ready(middle)? == day {
                keeps = middle;
            } else {
                loses = middle;
            }
        }
        days.push(AnswerDay {
            answered_by: if keeps == last { latest } else { at(keeps) },
            ready_by: day,
        });
        first = keeps + 1;
    }
    Some(days)
}

/// What looking a pair over takes before it goes onto the pickup shelf (common practice, no source).
pub const FINAL_CHECK: Minutes = Minutes::new(10);

/// The steps of a scope: its lines in the order of the stages, and the final check.
pub fn steps(lines: &[ScopeLine]) -> Vec<Step> {
    let mut ordered: Vec<&ScopeLine> = lines.iter().collect();
    ordered.sort_by_key(|line| line.stage);
    let check = Step {
        work: FINAL_CHECK,
        rest: Minutes::ZERO,
    };
    ordered
        .into_iter()
        .map(|line| Step {
            work: line.minutes,
            rest: line.rest,
        })
        .chain([check])
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::moment::Zone;
    use crate::promise::calendar::Hours;
    use time::macros::{date, datetime};

    fn calendar() -> Calendar {
        let weekday = Hours::parse("9:00", "17:30").unwrap();
        let saturday = Hours::parse("9:00", "13:00").unwrap();
        Calendar {
            zone: Zone::parse("America/Denver").unwrap(),
            week: [None, weekday, weekday, weekday, weekday, saturday, None],
            closed: [date!(2026 - 03 - 12)].into(),
        }
    }

    fn step(work: u32, rest: u32) -> Step {
        Step {
            work: Minutes::new(work),
            rest: Minutes::new(rest),
        }
    }

    /// A calendar worked by hand: one bench, Thu 12 March 2026 closed, the answer at Wed 11:40;
    /// the bond dries over the closed Thursday, the conditioner over Friday night.
    #[test]
    fn rests_run_through_the_night_and_over_closed_days() {
        let calendar = calendar();
        let answered = calendar.zone.moment(datetime!(2026-03-11 11:40));
        let mut plan = vec![
            step(150, 0),
            step(32, 0),
            step(12, 30),
            step(12, 20),
            step(15, 720),
        ];
        let at = |plan: &[Step]| {
            let finish = finished(&calendar, answered, Queue::EMPTY, plan).unwrap();
            calendar.zone.local(finish)
        };
        assert_eq!(at(&plan), datetime!(2026-03-12 04:11));
        plan.extend([
            step(35, 0),
            step(60, 60),
            step(40, 0),
            step(25, 120),
            step(20, 0),
        ]);
        assert_eq!(at(&plan), datetime!(2026-03-13 15:00));
        plan.extend([step(10, 720), step(10, 0)]);
        assert_eq!(at(&plan), datetime!(2026-03-14 09:10));
    }

    #[test]
    fn the_queue_comes_first_and_is_shared_by_its_hands() {
        let calendar = calendar();
        let monday = calendar.zone.moment(datetime!(2026-03-09 12:00));
        let queue = Queue {
            minutes: Minutes::new(1_020),
            hands: 2,
        };
        let finish = finished(&calendar, monday, queue, &[step(30, 0)]).unwrap();
        assert_eq!(calendar.zone.local(finish), datetime!(2026-03-11 09:30));
    }

    #[test]
    fn the_change_of_clocks_neither_shortens_nor_lengthens_a_rest() {
        let mut calendar = calendar();
        calendar.week = [Hours::parse("0:00", "23:59").unwrap(); 7];
        let saturday = calendar.zone.moment(datetime!(2026-03-07 23:00));
        let finish = finished(&calendar, saturday, Queue::EMPTY, &[step(0, 240)]).unwrap();
        assert_eq!(calendar.zone.local(finish), datetime!(2026-03-08 04:00));
    }

    /// Worked by hand: 120 minutes of work and ten of checking, begun at 15:19 on Wednesday, leave
    /// one minute to collect the pair in before closing; a minute later it is Friday, because
    /// Thursday is closed. A queue of an hour is worked off while the word is awaited.
    #[test]
    fn an_answer_keeps_the_day_until_the_work_no_longer_fits_into_it() {
        let calendar = calendar();
        let at = |local| calendar.zone.moment(local);
        let line = ScopeLine {
            service: None,
            title: crate::text::Line::parse("Welt").unwrap(),
            reason: None,
            side: crate::scope::Side::Pair,
            stage: crate::stage::Stage::Structure,
            minutes: Minutes::new(120),
            rest: Minutes::ZERO,
            material: crate::money::Money::zero(crate::money::Currency::USD),
            uses: Vec::new(),
            set_price: None,
        };
        let now = at(datetime!(2026-03-11 10:00));
        let latest = at(datetime!(2026-03-13 17:30));
        for minutes in [0, 60] {
            let queue = Queue {
                minutes: Minutes::new(minutes),
                hands: 1,
            };
            let window = (now, latest);
            let days =
                days_by_answer(&calendar, window, queue, std::slice::from_ref(&line)).unwrap();
            let shown: Vec<_> = days
                .iter()
                .map(|day| (calendar.zone.local(day.answered_by), day.ready_by))
                .collect();
            let expected = [
                (datetime!(2026-03-11 15:19), date!(2026 - 03 - 11)),
                (datetime!(2026-03-13 15:19), date!(2026 - 03 - 13)),
                (datetime!(2026-03-13 17:30), date!(2026 - 03 - 14)),
            ];
            assert_eq!(shown, expected);
        }
        let soon = (now, at(datetime!(2026-03-11 12:00)));
        let days = days_by_answer(&calendar, soon, Queue::EMPTY, &[line]).unwrap();
        let only = AnswerDay {
            answered_by: soon.1,
            ready_by: date!(2026 - 03 - 11),
        };
        assert_eq!(days, [only]);
    }

    #[test]
    fn a_shop_that_never_opens_promises_nothing() {
        let mut calendar = calendar();
        calendar.week = [None; 7];
        let now = calendar.zone.moment(datetime!(2026-03-09 12:00));
        assert_eq!(ready_by(&calendar, now, Queue::EMPTY, &[]), None);
    }
}

//! The shop's calendar: opening hours by weekday, and the days on which it is closed.

use std::collections::BTreeSet;

use serde::{Deserialize, Serialize};
use time::{Date, Duration, Time, Weekday};

use crate::form::Problem;
use crate::minutes::Minutes;
use crate::moment::{Moment, Zone, clock_words, weekday_words};

/// Hours of one day, in minutes after midnight; closing is later than opening.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Hours {
    opens: u16,
    closes: u16,
}

impl Hours {
    /// Reads `9:00` and `17:30`; both empty means closed.
    pub fn parse(opens: &str, closes: &str) -> Result<Option<Self>, Problem> {
        if opens.trim().is_empty() && closes.trim().is_empty() {
            return Ok(None);
        }
        let hours = Self {
            opens: minute_of_day(opens)?,
            closes: minute_of_day(closes)?,
        };
        if hours.opens < hours.closes {
            Ok(Some(hours))
        } else {
            Err(Problem::NotHours)
        }
    }

    /// When it opens.
    pub fn opens(self) -> Time {
        clock(self.opens)
    }

    /// When it closes.
    pub fn closes(self) -> Time {
        clock(self.closes)
    }

    /// The same hours with a later closing, up to the last minute of the day.
    #[must_use]
    pub fn longer(self, more: Minutes) -> Self {
        const LAST: u16 = 24 * 60 - 1;
        let more = u16::try_from(more.get()).unwrap_or(LAST);
        Self {
            closes: self.closes.saturating_add(more).min(LAST),
            ..self
        }
    }

    /// How long that is.
    pub fn minutes(self) -> Minutes {
        Minutes::new(u32::from(self.closes - self.opens))
    }
}

fn minute_of_day(text: &str) -> Result<u16, Problem> {
    let (hour, minute) = text.trim().split_once(':').ok_or(Problem::NotHours)?;
    let read = |part: &str| part.parse::<u16>().map_err(|_| Problem::NotHours);
    match (read(hour)?, read(minute)?) {
        (hour @ 0..24, minute @ 0..60) => Ok(hour * 60 + minute),
        _ => Err(Problem::NotHours),
    }
}

fn clock(minute: u16) -> Time {
    let part = |value: u16| u8::try_from(value).unwrap_or(0);
    Time::from_hms(part(minute / 60), part(minute % 60), 0).unwrap_or(Time::MIDNIGHT)
}

/// When the shop works, in its own zone.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Calendar {
    /// The zone of the shop's clock.
    pub zone: Zone,
    /// Monday first; a day without hours is closed.
    pub week: [Option<Hours>; 7],
    /// Days closed besides.
    pub closed: BTreeSet<Date>,
}

/// A stretch of open hours.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Shift {
    /// The day it is on.
    pub day: Date,
    /// When it begins.
    pub opens: Moment,
    /// When it ends.
    pub closes: Moment,
}

impl Calendar {
    /// How far ahead the program looks for an open hour before it says that there is none.
    const HORIZON_DAYS: i64 = 366;

    /// Minutes for which the shop is open on a weekday counted from Monday.
    pub fn open_minutes(&self, weekday: usize) -> Minutes {
        let hours = self.week.get(weekday).copied().flatten();
        hours.map_or(Minutes::ZERO, |hours| {
            Minutes::new(u32::from(hours.closes - hours.opens))
        })
    }

    /// The hours of a day, if the shop is open on it.
    pub fn hours_on(&self, day: Date) -> Option<Hours> {
        if self.closed.contains(&day) {
            return None;
        }
        let weekday = usize::from(day.weekday().number_days_from_monday());
        self.week.get(weekday).copied().flatten()
    }

    /// The open stretches that end after `from`, in order, up to a year ahead.
    pub fn shifts(&self, from: Moment) -> impl Iterator<Item = Shift> + '_ {
        self.shifts_ahead(from, Self::HORIZON_DAYS)
    }

    /// The open stretches that end after `from`, in order, so many days ahead.
    pub fn shifts_ahead(&self, from: Moment, days: i64) -> impl Iterator<Item = Shift> + '_ {
        let first = self.zone.day(from);
        (0..days)
            .filter_map(move |ahead| {
                let day = first.checked_add(Duration::days(ahead))?;
                let hours = self.hours_on(day)?;
                Some(Shift {
                    day,
                    opens: self.zone.moment(day.with_time(hours.opens())),
                    closes: self.zone.moment(day.with_time(hours.closes())),
                })
            })
            .filter(move |shift| shift.closes > from)
    }

    /// When work that starts at `from` at the earliest and takes so many open minutes ends; work
    /// stops at closing and goes on at the next opening. Nothing if the shop never opens.
    pub fn work_until(&self, from: Moment, work: Minutes) -> Option<Moment> {
        let mut left = Duration::minutes(i64::from(work.get()));
        for shift in self.shifts(from) {
            let start = shift.opens.max(from);
            let room = shift.closes.since(start);
            if left <= room {
                return Some(start.plus(left));
            }
            left -= room;
        }
        None
    }

    /// The first open moment at or after `from`.
    pub fn next_open(&self, from: Moment) -> Option<Moment> {
        self.shifts(from).next().map(|shift| shift.opens.max(from))
    }

    /// The last closing of a day on which the shop is open, counting `open_days` of them after
    /// the day of `from`.
    pub fn closing_after(&self, from: Moment, open_days: usize) -> Option<Moment> {
        let today = self.zone.day(from);
        self.shifts(from)
            .filter(|shift| shift.day > today)
            .nth(open_days.saturating_sub(1))
            .map(|shift| shift.closes)
    }

    /// The week's hours in words, days with equal hours together:
    /// `Tue–Fri 09:00–17:30`, `Sat 09:00–13:00`, `Sun–Mon closed`.
    pub fn week_words(&self) -> Vec<String> {
        let days = [
            Weekday::Monday,
            Weekday::Tuesday,
            Weekday::Wednesday,
            Weekday::Thursday,
            Weekday::Friday,
            Weekday::Saturday,
            Weekday::Sunday,
        ];
        let mut groups: Vec<(Weekday, Weekday, Option<Hours>)> = Vec::new();
        for (day, hours) in days.into_iter().zip(self.week) {
            match groups.last_mut() {
                Some((_, last, same)) if *same == hours => *last = day,
                _ => groups.push((day, day, hours)),
            }
        }
        groups
            .into_iter()
            .map(|(first, last, hours)| {
                let days = if first == last {
                    weekday_words(first).to_owned()
                } else {
                    format!("{}–{}", weekday_words(first), weekday_words(last))
                };
                match hours {
                    Some(hours) => format!(
                        "{days} {}–{}",
                        clock_words(hours.opens()),
                        clock_words(hours.closes())
                    ),
                    None => format!("{days} closed"),
                }
            })
            .collect()
    }
}

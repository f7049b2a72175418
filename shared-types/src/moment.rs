//! Moments on the UTC timeline, and the shop's own zone in which people read them.

use std::fmt;

use serde::{Deserialize, Serialize};
use time::format_description::well_known::Rfc3339;
use time::{Date, Duration, Month, OffsetDateTime, PrimitiveDateTime, Time, Weekday};

use crate::form::Problem;

/// A moment in UTC, to the microsecond; written as RFC 3339 wherever it leaves the program.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
pub struct Moment(i64);

impl Moment {
    /// Microseconds since 1970-01-01T00:00:00Z.
    pub const fn from_micros(micros: i64) -> Self {
        Self(micros)
    }

    /// Microseconds since 1970-01-01T00:00:00Z.
    pub const fn as_micros(self) -> i64 {
        self.0
    }

    /// Converts from the `time` crate's moment; what is finer than a microsecond is dropped.
    pub fn from_utc(at: OffsetDateTime) -> Self {
        Self(i64::try_from(at.unix_timestamp_nanos() / 1000).unwrap_or(i64::MAX))
    }

    /// The same moment as the `time` crate's type.
    pub fn to_utc(self) -> OffsetDateTime {
        OffsetDateTime::from_unix_timestamp_nanos(i128::from(self.0) * 1000)
            .unwrap_or(OffsetDateTime::UNIX_EPOCH)
    }

    /// The moment a span later (or earlier, for a negative span).
    #[must_use]
    pub fn plus(self, span: Duration) -> Self {
        let micros = i64::try_from(span.whole_microseconds()).unwrap_or(i64::MAX);
        Self(self.0.saturating_add(micros))
    }

    /// The span from `earlier` to this moment.
    pub fn since(self, earlier: Self) -> Duration {
        Duration::microseconds(self.0.saturating_sub(earlier.0))
    }
}

impl fmt::Display for Moment {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.to_utc().format(&Rfc3339).map_err(|_| fmt::Error)?)
    }
}

impl From<Moment> for String {
    fn from(moment: Moment) -> Self {
        moment.to_string()
    }
}

impl TryFrom<String> for Moment {
    type Error = time::error::Parse;

    fn try_from(text: String) -> Result<Self, Self::Error> {
        OffsetDateTime::parse(&text, &Rfc3339).map(Self::from_utc)
    }
}

/// A time zone by its IANA name, such as `America/Denver`.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
pub struct Zone {
    name: String,
}

impl Zone {
    /// Accepts a name of the IANA time zone database.
    pub fn parse(name: &str) -> Result<Self, Problem> {
        match tzdb::tz_by_name(name.trim()) {
            Some(_) => Ok(Self {
                name: name.trim().to_owned(),
            }),
            None => Err(Problem::UnknownZone),
        }
    }

    /// Coordinated universal time, until the owner names the shop's own zone.
    pub fn utc() -> Self {
        Self {
            name: "Etc/UTC".to_owned(),
        }
    }

    /// The IANA name.
    pub fn name(&self) -> &str {
        &self.name
    }

    /// What the clock on the shop's wall shows at `moment`.
    pub fn local(&self, moment: Moment) -> PrimitiveDateTime {
        let utc = moment.to_utc();
        let offset = tzdb::tz_by_name(&self.name)
            .and_then(|zone| {
                zone.find_local_time_type(utc.unix_timestamp())
                    .ok()
                    .map(tz::LocalTimeType::ut_offset)
            })
            .unwrap_or(0);
        let shown = utc + Duration::seconds(i64::from(offset));
        PrimitiveDateTime::new(shown.date(), shown.time())
    }

    /// The moment at which the shop's clock shows `local`.
    ///
    /// A time that the clock jumps over means the moment of the jump; one that it shows twice
    /// means the first.
    pub fn moment(&self, local: PrimitiveDateTime) -> Moment {
        let found = tzdb::tz_by_name(&self.name).and_then(|zone| {
            let (date, clock) = (local.date(), local.time());
            tz::DateTime::find(
                date.year(),
                u8::from(date.month()),
                date.day(),
                clock.hour(),
                clock.minute(),
                clock.second(),
                clock.nanosecond(),
                zone,
            )
            .ok()?
            .earliest()
        });
        match found {
            Some(at) => Moment(
                at.unix_time()
                    .saturating_mul(1_000_000)
                    .saturating_add(i64::from(local.time().microsecond())),
            ),
            None => Moment::from_utc(local.assume_utc()),
        }
    }

    /// The day in the shop at `moment`.
    pub fn day(&self, moment: Moment) -> Date {
        self.local(moment).date()
    }

    /// A moment in words, in the shop's zone: `Sat 12 Dec, 17:00`.
    pub fn words(&self, moment: Moment) -> String {
        let local = self.local(moment);
        format!("{}, {}", day_words(local.date()), clock_words(local.time()))
    }

    /// A moment in words with its year: `Sat 12 Dec 2026, 17:00`.
    pub fn words_with_year(&self, moment: Moment) -> String {
        let local = self.local(moment);
        format!(
            "{} {}, {}",
            day_words(local.date()),
            local.year(),
            clock_words(local.time())
        )
    }
}

impl From<Zone> for String {
    fn from(zone: Zone) -> Self {
        zone.name
    }
}

impl TryFrom<String> for Zone {
    type Error = Problem;

    fn try_from(name: String) -> Result<Self, Problem> {
        Self::parse(&name)
    }
}

/// A day in words: `Sat 12 Dec`.
pub fn day_words(day: Date) -> String {
    format!(
        "{} {} {}",
        weekday_words(day.weekday()),
        day.day(),
        month_words(day.month())
    )
}

/// A time of day in words: `17:00`.
pub fn clock_words(clock: Time) -> String {
    format!("{:02}:{:02}", clock.hour(), clock.minute())
}

/// A weekday, shortened: `Sat`.
pub fn weekday_words(weekday: Weekday) -> &'static str {
    match weekday {
        Weekday::Monday => "Mon",
        Weekday::Tuesday => "Tue",
        Weekday::Wednesday => "Wed",
        Weekday::Thursday => "Thu",
        Weekday::Friday => "Fri",
        Weekday::Saturday => "Sat",
        Weekday::Sunday => "Sun",
    }
}

fn month_words(month: Month) -> &'static str {
    match month {
        Month::January => "Jan",
        Month::February => "Feb",
        Month::March => "Mar",
        Month::April => "Apr",
        Month::May => "May",
        Month::June => "Jun",
        Month::July => "Jul",
        Month::August => "Aug",
        Month::September => "Sep",
        Month::October => "Oct",
        Month::November => "Nov",
        Month::December => "Dec",
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use time::macros::datetime;

    /// The changes of clocks in Germany in 2026 (29 March and 25 October, 01:00 UTC; EU Directive
    /// 2000/84/EC): the gap means its jump, the doubled hour its first pass.
    #[test]
    fn clock_changes_neither_lose_nor_double_a_moment() {
        let berlin = Zone::parse("Europe/Berlin").unwrap();
        let at = |utc| Moment::from_utc(utc);
        assert_eq!(
            berlin.moment(datetime!(2026-03-29 02:30)),
            at(datetime!(2026-03-29 01:00 UTC))
        );
        assert_eq!(
            berlin.moment(datetime!(2026-10-25 02:30)),
            at(datetime!(2026-10-25 00:30 UTC))
        );
        assert_eq!(
            berlin.local(at(datetime!(2026-10-25 01:30 UTC))),
            datetime!(2026-10-25 02:30)
        );
    }

    #[test]
    fn a_moment_keeps_its_microseconds_through_rfc_3339() {
        let moment = Moment::from_micros(1_780_000_000_123_456);
        let text = String::from(moment);
        assert_eq!(text, "2026-05-28T20:26:40.123456Z");
        assert_eq!(Moment::try_from(text).unwrap(), moment);
    }
}

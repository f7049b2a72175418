//! Minutes of work or of rest.

use std::fmt;

use serde::{Deserialize, Serialize};

use crate::form::Problem;

/// A number of whole minutes, at most 30 days of them.
#[derive(
    Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize,
)]
#[serde(transparent)]
pub struct Minutes(u32);

impl Minutes {
    const LIMIT: u32 = 30 * 24 * 60;

    /// No time at all.
    pub const ZERO: Self = Self(0);

    /// Caps at 30 days.
    pub const fn new(minutes: u32) -> Self {
        if minutes > Self::LIMIT {
            Self(Self::LIMIT)
        } else {
            Self(minutes)
        }
    }

    /// Reads `90`, `1:30` or `1 h 30`; hours and minutes, nothing finer.
    pub fn parse(text: &str) -> Result<Self, Problem> {
        let text = text.trim().trim_end_matches("min").trim();
        let (hours, minutes) = match text.split_once([':', 'h']) {
            Some((hours, rest)) => (hours.trim(), rest.trim()),
            None => ("0", text),
        };
        let minutes = match minutes {
            "" if !text.is_empty() => "0",
            minutes => minutes,
        };
        let read = |part: &str| part.parse::<u32>().map_err(|_| Problem::NotMinutes);
        let total = read(hours)?
            .checked_mul(60)
            .and_then(|hours| hours.checked_add(read(minutes).ok()?))
            .ok_or(Problem::NotMinutes)?;
        if total > Self::LIMIT {
            return Err(Problem::TooLong {
                limit: "30 days".to_owned(),
            });
        }
        Ok(Self(total))
    }

    /// The number of minutes.
    pub const fn get(self) -> u32 {
        self.0
    }

    /// The sum. One figure has its limit; a sum of many, such as a whole queue, has none.
    #[must_use]
    pub fn plus(self, more: Self) -> Self {
        Self(self.0.saturating_add(more.0))
    }
}

impl Minutes {
    /// Each one's part if so many hands share it, rounded up.
    #[must_use]
    pub fn shared_by(self, hands: u32) -> Self {
        Self(self.0.div_ceil(hands.max(1)))
    }
}

impl std::iter::Sum for Minutes {
    fn sum<I: Iterator<Item = Self>>(parts: I) -> Self {
        parts.fold(Self::ZERO, Self::plus)
    }
}

impl fmt::Display for Minutes {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match (self.0 / 60, self.0 % 60) {
            (0, minutes) => write!(f, "{minutes} min"),
            (hours, 0) => write!(f, "{hours} h"),
            (hours, minutes) => write!(f, "{hours} h {minutes} min"),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn minutes_are_read_as_people_write_them() {
        for (text, minutes) in [
            ("90", 90),
            ("1:30", 90),
            ("2 h", 120),
            ("45 min", 45),
            ("1h30", 90),
        ] {
            assert_eq!(Minutes::parse(text), Ok(Minutes::new(minutes)), "{text}");
        }
        for text in ["", "soon", "-5", "1:xx", "99999999999", "4294967295:0"] {
            assert!(Minutes::parse(text).is_err(), "{text}");
        }
    }
}

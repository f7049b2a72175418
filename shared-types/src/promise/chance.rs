//! Chances in whole percent, and how often something came true in the draws.

use std::fmt;

use serde::{Deserialize, Serialize};

/// A stated chance: whole percent from 1 to 99; nothing is ever certain.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(try_from = "u8", into = "u8")]
pub struct Chance(u8);

/// The number is not a chance.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error("a chance is a whole percentage from 1 to 99")]
pub struct NotAChance;

impl Chance {
    /// As likely as not.
    pub const FIFTY: Self = Self(50);
    /// Four times in five.
    pub const EIGHTY: Self = Self(80);
    /// Nineteen times in twenty.
    pub const NINETY_FIVE: Self = Self(95);

    /// In percent.
    pub const fn percent(self) -> u8 {
        self.0
    }

    /// As people say it: four out of five.
    pub fn in_words(self) -> String {
        let (mut kept, mut of) = (self.0, 100_u8);
        for divisor in [2, 2, 5, 5] {
            if kept % divisor == 0 && of % divisor == 0 {
                (kept, of) = (kept / divisor, of / divisor);
            }
        }
        if of <= 10 {
            format!("{} out of {}", number_word(kept), number_word(of))
        } else {
            format!("{kept} out of {of}")
        }
    }
}

const fn number_word(number: u8) -> &'static str {
    match number {
        0 | 1 => "one",
        2 => "two",
        3 => "three",
        4 => "four",
        5 => "five",
        6 => "six",
        7 => "seven",
        8 => "eight",
        9 => "nine",
        10.. => "ten",
    }
}

impl Default for Chance {
    /// What a shop gives its promises with until its owner says otherwise.
    fn default() -> Self {
        Self::EIGHTY
    }
}

impl TryFrom<u8> for Chance {
    type Error = NotAChance;

    fn try_from(percent: u8) -> Result<Self, NotAChance> {
        match percent {
            1..=99 => Ok(Self(percent)),
            _ => Err(NotAChance),
        }
    }
}

impl From<Chance> for u8 {
    fn from(chance: Chance) -> Self {
        chance.0
    }
}

impl fmt::Display for Chance {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} %", self.0)
    }
}

/// In how many of the draws something came true.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Odds {
    /// Draws in which it did.
    pub kept: u32,
    /// All draws.
    pub draws: u32,
}

impl Odds {
    /// Whether it came true at least as often as this chance says.
    pub fn reach(self, chance: Chance) -> bool {
        u64::from(self.kept) * 100 >= u64::from(chance.0) * u64::from(self.draws)
    }

    /// Whether it came true so much less often than this chance says that the luck of the draws
    /// hardly explains it: by more than two standard errors of a share, √(p·(1 − p)/n). A promise
    /// that was given with a chance is not unsure because another luck has it a point lower.
    pub fn fall_short_of(self, chance: Chance) -> bool {
        let (kept, draws) = (u128::from(self.kept), u128::from(self.draws));
        let percent = u128::from(chance.0);
        let short = (percent * draws).saturating_sub(100 * kept);
        short * short > 4 * draws * percent * (100 - percent)
    }

    /// In percent, rounded down.
    pub fn percent(self) -> u32 {
        let share = u64::from(self.kept) * 100 / u64::from(self.draws.max(1));
        u32::try_from(share).unwrap_or(100)
    }
}

impl Odds {
    /// How often, in words for people: `about 4 times in 10`.
    pub fn words(self) -> String {
        match self.percent() {
            0 if self.kept == 0 => "not once in our reckoning".to_owned(),
            0..5 => "hardly ever".to_owned(),
            percent @ 5..95 => match (percent + 5) / 10 {
                1 => "about once in 10".to_owned(),
                times => format!("about {times} times in 10"),
            },
            _ => "almost always".to_owned(),
        }
    }
}

impl fmt::Display for Odds {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} %", self.percent())
    }
}

/// How many times the plan is played through, and with which luck: the same seed gives the same
/// forecast, to the day.
///
/// A share of 80 % has a standard error of 1.8 points with 500 draws, and of 0.9 with 2,000.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Draws {
    /// Names the luck; any number.
    pub seed: u64,
    /// How many draws; a forecast needs at least one.
    pub count: u32,
}

impl Default for Draws {
    fn default() -> Self {
        Self {
            seed: 1,
            count: 500,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_chance_is_said_as_people_say_it() {
        let said = |percent| Chance::try_from(percent).unwrap().in_words();
        assert_eq!(said(80), "four out of five");
        assert_eq!(said(50), "one out of two");
        assert_eq!(said(90), "nine out of ten");
        assert_eq!(said(95), "19 out of 20");
        assert_eq!(said(83), "83 out of 100");
    }

    /// √(0.8 · 0.2 / 500) is 1.789 points: 80 less twice that is 76.42, or 382.1 of 500.
    #[test]
    fn odds_fall_short_beyond_two_standard_errors() {
        let short = |kept| Odds { kept, draws: 500 }.fall_short_of(Chance::EIGHTY);
        assert!(short(382) && short(0));
        assert!(!short(383) && !short(400) && !short(500));
    }

    #[test]
    fn odds_reach_a_chance_exactly_at_its_share() {
        let odds = |kept| Odds { kept, draws: 500 };
        assert!(odds(400).reach(Chance::EIGHTY));
        assert!(!odds(399).reach(Chance::EIGHTY));
        assert_eq!(odds(399).percent(), 79);
        let words: Vec<_> = [0, 4, 25, 199, 474, 475, 500]
            .map(|kept| odds(kept).words())
            .into();
        let said = [
            "not once in our reckoning",
            "hardly ever",
            "about once in 10",
            "about 4 times in 10",
            "about 9 times in 10",
            "almost always",
            "almost always",
        ];
        assert_eq!(words, said);
        assert!(Chance::try_from(0).is_err() && Chance::try_from(100).is_err());
    }
}

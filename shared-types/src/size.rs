//! The size stamped in a shoe, in its own system.

use std::fmt;

use serde::{Deserialize, Serialize};

use crate::form::Problem;

/// A sizing system. Who the shoe is for is part of it and is never guessed from the number.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum SizeSystem {
    /// Paris points.
    Eu,
    /// Barleycorns, adults, British zero.
    Uk,
    /// Barleycorns, men, American zero.
    UsMen,
    /// Barleycorns, women, American zero.
    UsWomen,
    /// Paris points, children.
    EuChild,
    /// Barleycorns, children, British zero.
    UkChild,
    /// Barleycorns, children, American zero.
    UsChild,
    /// Foot length in millimetres (ISO 9407).
    Mondopoint,
}

impl SizeSystem {
    /// All systems, in the order in which a form lists them.
    pub const ALL: [Self; 8] = [
        Self::Eu,
        Self::Uk,
        Self::UsMen,
        Self::UsWomen,
        Self::EuChild,
        Self::UkChild,
        Self::UsChild,
        Self::Mondopoint,
    ];

    /// Its stored code.
    pub const fn code(self) -> &'static str {
        match self {
            Self::Eu => "eu",
            Self::Uk => "uk",
            Self::UsMen => "us-men",
            Self::UsWomen => "us-women",
            Self::EuChild => "eu-child",
            Self::UkChild => "uk-child",
            Self::UsChild => "us-child",
            Self::Mondopoint => "mondopoint",
        }
    }

    /// Its name for people.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Eu => "EU",
            Self::Uk => "UK",
            Self::UsMen => "US men",
            Self::UsWomen => "US women",
            Self::EuChild => "EU child",
            Self::UkChild => "UK child",
            Self::UsChild => "US child",
            Self::Mondopoint => "Mondopoint",
        }
    }

    /// Finds a system by its code.
    pub fn from_code(code: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|system| system.code() == code)
    }

    /// The sizes that exist, in halves: smallest and largest (common practice, no source).
    const fn halves(self) -> (u32, u32) {
        match self {
            Self::Eu => (66, 104),
            Self::Uk => (2, 36),
            Self::UsMen => (6, 40),
            Self::UsWomen => (4, 36),
            Self::EuChild => (28, 80),
            Self::UkChild | Self::UsChild => (0, 28),
            Self::Mondopoint => (180, 680),
        }
    }
}

/// A size, kept in halves of its system's unit so that 9½ is exact.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub struct ShoeSize {
    system: SizeSystem,
    halves: u32,
}

impl ShoeSize {
    /// What is assumed of a pair whose size can't be read; common practice, no source.
    pub const USUAL: Self = Self {
        system: SizeSystem::Eu,
        halves: 84,
    };

    /// Reads `44`, `9.5` or `9½`.
    pub fn parse(system: SizeSystem, text: &str) -> Result<Self, Problem> {
        let text = text.trim().replace('½', ".5").replace(',', ".");
        let (whole, part) = text.split_once('.').unwrap_or((&text, "0"));
        let half = match part {
            "0" | "00" => 0,
            "5" | "50" => 1,
            _ => return Err(Problem::NotASize),
        };
        let whole = if whole.is_empty() { "0" } else { whole };
        let halves = whole
            .parse::<u32>()
            .ok()
            .and_then(|whole| whole.checked_mul(2)?.checked_add(half))
            .ok_or(Problem::NotASize)?;
        let (least, most) = system.halves();
        if (least..=most).contains(&halves) {
            Ok(Self { system, halves })
        } else {
            Err(Problem::NotASize)
        }
    }

    /// Its system.
    pub const fn system(self) -> SizeSystem {
        self.system
    }

    /// The number in halves of its system's unit: 19 for `9.5`.
    pub const fn halves(self) -> u32 {
        self.halves
    }

    /// The number alone: `9.5`.
    pub fn figure(self) -> String {
        match self.halves % 2 {
            0 => (self.halves / 2).to_string(),
            _ => format!("{}.5", self.halves / 2),
        }
    }
}

impl fmt::Display for ShoeSize {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} {}", self.system.label(), self.figure())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sizes_are_read_as_stamped() {
        let shown = |system, text| ShoeSize::parse(system, text).map(|size| size.to_string());
        assert_eq!(shown(SizeSystem::Eu, "44"), Ok("EU 44".to_owned()));
        assert_eq!(shown(SizeSystem::UsMen, "9½"), Ok("US men 9.5".to_owned()));
        assert_eq!(
            shown(SizeSystem::Mondopoint, "280"),
            Ok("Mondopoint 280".to_owned())
        );
        for (system, text) in [
            (SizeSystem::Eu, "9"),
            (SizeSystem::Uk, "44"),
            (SizeSystem::Eu, "44.3"),
        ] {
            assert_eq!(shown(system, text), Err(Problem::NotASize), "{text}");
        }
    }
}

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
    pub const fn halves(self) -> (u32, u32) {
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

/// A width as it is stamped beside the size. It is kept as it stands: what a letter means differs
/// from maker to maker, so nothing is worked out from one.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
pub enum Width {
    /// One letter, or the same one several times: `D`, `EEE`.
    Letter {
        /// The letter.
        letter: char,
        /// How many times.
        times: u8,
    },
    /// The width of the foot in millimetres, behind a length of Mondopoint: `260/94`.
    Foot(u8),
}

impl Width {
    /// Reads `D`, `EEE`, `2E` or `94`. Letters that are no width are refused: `EU` is none.
    fn parse(text: &str) -> Result<Self, Problem> {
        if let Ok(millimetres) = text.parse() {
            return Ok(Self::Foot(millimetres));
        }
        let text = text.to_ascii_uppercase();
        let count = text.bytes().next().filter(u8::is_ascii_digit);
        let letters = text.get(usize::from(count.is_some())..).unwrap_or_default();
        let letter = letters.chars().next().ok_or(Problem::NotASize)?;
        let times = match count {
            Some(digit) if letters.len() == 1 => u32::from(digit - b'0'),
            None if letters.chars().all(|other| other == letter) => {
                u32::try_from(letters.len()).map_err(|_| Problem::NotASize)?
            }
            _ => return Err(Problem::NotASize),
        };
        let is_width = match times {
            1 => matches!(letter, 'A'..='N' | 'R' | 'W' | 'X'),
            2..=6 => matches!(letter, 'A'..='H' | 'W'),
            _ => false,
        };
        match u8::try_from(times) {
            Ok(times) if is_width => Ok(Self::Letter { letter, times }),
            _ => Err(Problem::NotASize),
        }
    }
}

impl fmt::Display for Width {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Letter { letter, times } => {
                let letters: String = (0..*times).map(|_| *letter).collect();
                f.write_str(&letters)
            }
            Self::Foot(millimetres) => millimetres.fmt(f),
        }
    }
}

impl TryFrom<String> for Width {
    type Error = Problem;

    fn try_from(text: String) -> Result<Self, Problem> {
        Self::parse(&text)
    }
}

impl From<Width> for String {
    fn from(width: Width) -> Self {
        width.to_string()
    }
}

/// A size, kept in halves of its system's unit so that 9½ is exact.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub struct ShoeSize {
    system: SizeSystem,
    halves: u32,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    width: Option<Width>,
}

impl ShoeSize {
    /// What is assumed of a pair whose size can't be read; common practice, no source.
    pub const USUAL: Self = Self {
        system: SizeSystem::Eu,
        halves: 84,
        width: None,
    };

    /// Reads `44`, `9.5`, `9½` or `9 1/2`, with the width if one is stamped: `9.5 D`, `10 2E`, in
    /// Mondopoint `260/94`.
    pub fn parse(system: SizeSystem, text: &str) -> Result<Self, Problem> {
        let mut text = text.trim().replace(',', ".");
        for half in [" 1/2", "-1/2", " ½", "½"] {
            text = text.replace(half, ".5");
        }
        let is_of_number = |letter: char| letter.is_ascii_digit() || letter == '.';
        let end = text.find(|letter| !is_of_number(letter));
        let (number, rest) = text.split_at(end.unwrap_or(text.len()));
        let (whole, part) = number.split_once('.').unwrap_or((number, "0"));
        let half = match part {
            "0" | "00" => 0,
            "5" | "50" => 1,
            _ => return Err(Problem::NotASize),
        };
        let whole = if whole.is_empty() && half == 1 {
            "0"
        } else {
            whole
        };
        let halves = whole
            .parse::<u32>()
            .ok()
            .and_then(|whole| whole.checked_mul(2)?.checked_add(half))
            .ok_or(Problem::NotASize)?;
        let (least, most) = system.halves();
        if !(least..=most).contains(&halves) {
            return Err(Problem::NotASize);
        }
        let width = match (rest.trim(), rest.strip_prefix('/')) {
            ("", _) => None,
            (_, Some(foot)) => Some(Width::parse(foot.trim())?),
            (letters, None) => Some(Width::parse(letters)?),
        };
        let this = Self {
            system,
            halves,
            width,
        };
        match (width, rest.starts_with('/')) {
            (None | Some(Width::Letter { .. }), false) => Ok(this),
            // A foot is about 0.37 times as wide as it is long; a half of that more or less is a slip.
            (Some(Width::Foot(width)), true)
                if system == SizeSystem::Mondopoint
                    && (halves / 8..=halves / 4).contains(&u32::from(width)) =>
            {
                Ok(this)
            }
            _ => Err(Problem::NotASize),
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

    /// The width of the foot in millimetres, if the size says it.
    pub const fn foot_width(self) -> Option<u8> {
        match self.width {
            Some(Width::Foot(millimetres)) => Some(millimetres),
            Some(Width::Letter { .. }) | None => None,
        }
    }

    /// Without its system, as it is stamped: `9.5`, `9.5 D`, `260/94`.
    pub fn figure(self) -> String {
        let number = match self.halves % 2 {
            0 => (self.halves / 2).to_string(),
            _ => format!("{}.5", self.halves / 2),
        };
        match self.width {
            None => number,
            Some(width @ Width::Letter { .. }) => format!("{number} {width}"),
            Some(width @ Width::Foot(_)) => format!("{number}/{width}"),
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
            (SizeSystem::Eu, "42 2/3"),
            (SizeSystem::Eu, "44 EU"),
            (SizeSystem::Eu, "."),
            (SizeSystem::Uk, "½½"),
            (SizeSystem::UkChild, ""),
            (SizeSystem::UsMen, "+9"),
            (SizeSystem::UsMen, "10 7E"),
            (SizeSystem::UsMen, "10 0"),
            (SizeSystem::UsMen, "10/94"),
            (SizeSystem::Mondopoint, "260 94"),
            (SizeSystem::Mondopoint, "260/300"),
            (SizeSystem::Mondopoint, "260/40"),
            (SizeSystem::Mondopoint, "26.5"),
        ] {
            assert_eq!(shown(system, text), Err(Problem::NotASize), "{text}");
        }
    }

    /// Widths as they are stamped: letters of the American and British systems (common practice, no
    /// source), those of JIS S 5037, and the foot's width of ISO 9407, whose example is 260/94.
    #[test]
    fn a_stamped_width_is_kept() {
        for (system, text, shown) in [
            (SizeSystem::UsMen, "9.5 D", "US men 9.5 D"),
            (SizeSystem::UsMen, "9½d", "US men 9.5 D"),
            (SizeSystem::UsMen, "9 1/2 EEE", "US men 9.5 EEE"),
            (SizeSystem::UsMen, "10 2E", "US men 10 EE"),
            (SizeSystem::UsWomen, "7,5 AA", "US women 7.5 AA"),
            (SizeSystem::Uk, "8 G", "UK 8 G"),
            (SizeSystem::UkChild, "0½ F", "UK child 0.5 F"),
            (SizeSystem::Eu, "42 H", "EU 42 H"),
            (SizeSystem::Mondopoint, "260/94", "Mondopoint 260/94"),
            (SizeSystem::Mondopoint, "277.5", "Mondopoint 277.5"),
        ] {
            let size = ShoeSize::parse(system, text).unwrap();
            assert_eq!(size.to_string(), shown, "{text}");
            assert_eq!(ShoeSize::parse(system, &size.figure()), Ok(size));
            let json = serde_json::to_string(&size).unwrap();
            assert_eq!(serde_json::from_str::<ShoeSize>(&json).unwrap(), size);
        }
    }

    /// Version 0.1.0 wrote sizes without widths, and digests depend on them.
    #[test]
    fn a_size_without_a_width_is_written_as_before() {
        let size = ShoeSize::parse(SizeSystem::UsMen, "9.5").unwrap();
        let json = r#"{"system":"us-men","halves":19}"#;
        assert_eq!(serde_json::to_string(&size).unwrap(), json);
        assert_eq!(serde_json::from_str::<ShoeSize>(json).unwrap(), size);
    }
}

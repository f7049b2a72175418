//! What a shop does its own way: what it wastes, how far off it lets a heel be, which nails it keeps.
//!
//! The defaults are common practice, no source (for tolerances no standard was found); a file for the
//! command line may say otherwise, in any of the trade's units.

use serde::{Deserialize, Deserializer, Serialize, de};

use super::figure::{Input, Source, Unit};
use super::length::{Millimetres, length};

/// What is cut or sewn and never gets into the pair, in percent.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields, default)]
pub struct Waste {
    /// Strip of welt.
    #[serde(deserialize_with = "percent")]
    pub welt: u8,
    /// Sole leather or sheet.
    #[serde(deserialize_with = "percent")]
    pub leather: u8,
    /// Cork sheet.
    #[serde(deserialize_with = "percent")]
    pub cork: u8,
    /// Thread on a machine.
    #[serde(deserialize_with = "percent")]
    pub thread: u8,
}

impl Waste {
    /// Nothing at all.
    pub(super) const NONE: Self = Self {
        welt: 0,
        leather: 0,
        cork: 0,
        thread: 0,
    };
}

impl Default for Waste {
    fn default() -> Self {
        Self {
            welt: 10,
            leather: 20,
            cork: 15,
            thread: 15,
        }
    }
}

/// Reads a waste in whole percent.
fn percent<'de, D: Deserializer<'de>>(from: D) -> Result<u8, D::Error> {
    #[derive(Deserialize)]
    #[serde(untagged)]
    enum Written {
        Whole(u8),
        Other(de::IgnoredAny),
    }
    match Written::deserialize(from)? {
        Written::Whole(percent) if percent <= 100 => Ok(percent),
        Written::Whole(_) | Written::Other(_) => Err(de::Error::custom(
            "write a waste as a whole percentage from 0 to 100, such as 15",
        )),
    }
}

/// A waste in percent as an input.
pub fn share_of_waste(percent: u8) -> Input {
    let share = f64::from(percent) / 100.0;
    Input::usual("waste, as a share", share, Unit::Ratio, Source::Practice)
}

/// How far a heel may be off.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", try_from = "WrittenTolerances")]
pub struct Tolerances {
    /// A change of pitch that is worth a word.
    pub pitch_asks: Millimetres,
    /// A change of pitch that is too much without a reason written down.
    pub pitch_stops: Millimetres,
    /// A difference between left and right.
    pub level: Millimetres,
}

impl Default for Tolerances {
    fn default() -> Self {
        Self {
            pitch_asks: Millimetres(3.0),
            pitch_stops: Millimetres(6.0),
            level: Millimetres(1.0),
        }
    }
}

/// Tolerances as they are written in JSON; what is not written is usual.
#[derive(Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields, default)]
struct WrittenTolerances {
    #[serde(deserialize_with = "length")]
    pitch_asks: Millimetres,
    #[serde(deserialize_with = "length")]
    pitch_stops: Millimetres,
    #[serde(deserialize_with = "length")]
    level: Millimetres,
}

impl Default for WrittenTolerances {
    fn default() -> Self {
        let Tolerances {
            pitch_asks,
            pitch_stops,
            level,
        } = Tolerances::default();
        Self {
            pitch_asks,
            pitch_stops,
            level,
        }
    }
}

/// Tolerances of which the wider one is the narrower.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error(
    "A pitch that is too far off (pitch-stops) can't be nearer than one that is worth a word (pitch-asks). Exchange the two, or make pitch-stops larger."
)]
pub struct Exchanged;

impl TryFrom<WrittenTolerances> for Tolerances {
    type Error = Exchanged;

    fn try_from(written: WrittenTolerances) -> Result<Self, Exchanged> {
        let WrittenTolerances {
            pitch_asks,
            pitch_stops,
            level,
        } = written;
        if pitch_stops < pitch_asks {
            return Err(Exchanged);
        }
        Ok(Self {
            pitch_asks,
            pitch_stops,
            level,
        })
    }
}

/// Reads the nails that are at hand, each a length in any unit.
///
/// # Errors
/// If one is no length, or longer than any nail.
pub(super) fn read_nails<'de, D: Deserializer<'de>>(from: D) -> Result<Vec<Millimetres>, D::Error> {
    #[derive(Deserialize)]
    #[serde(transparent)]
    struct Nail(#[serde(deserialize_with = "length")] Millimetres);
    let nails: Vec<Nail> = Vec::deserialize(from)?;
    let mut lengths = Vec::with_capacity(nails.len());
    for Nail(nail) in nails {
        if !LIKELY_NAILS.contains(&nail.0) {
            return Err(de::Error::custom(format!(
                "a nail of {nail} is not for shoes; write lengths from 5 to 100 mm, such as 16, \"5/8 in\""
            )));
        }
        lengths.push(nail);
    }
    Ok(lengths)
}

/// Nails that go into shoes, in millimetres.
const LIKELY_NAILS: std::ops::RangeInclusive<f64> = 5.0..=100.0;

#[cfg(test)]
mod tests {
    use super::*;
    use crate::bench::measure::Measured;

    fn read(json: &str) -> Result<Measured, String> {
        serde_json::from_str(json).map_err(|error| error.to_string())
    }

    #[test]
    fn a_shop_says_its_own_tolerances_waste_and_nails_in_any_unit() {
        let json = r#"{"tolerances": {"pitch-asks": "1/8 in", "level": 1.5},
            "nails": [16, "5/8 in", "2,2 cm"], "waste": {"welt": 12}}"#;
        let measured = read(json).unwrap();
        let Tolerances {
            pitch_asks,
            pitch_stops,
            level,
        } = measured.tolerances;
        assert_eq!((pitch_asks.0, pitch_stops.0, level.0), (3.175, 6.0, 1.5));
        let nails: Vec<f64> = measured.nails.iter().map(|nail| nail.0).collect();
        assert_eq!(nails, [16.0, 15.875, 22.0]);
        assert_eq!((measured.waste.welt, measured.waste.leather), (12, 20));
    }

    #[test]
    fn what_no_shop_does_is_refused_with_what_to_do() {
        for (json, words) in [
            (r#"{"tolerances": {"pitch-asks": -1}}"#, "Write a length"),
            (
                r#"{"tolerances": {"pitch-asks": 7}}"#,
                "make pitch-stops larger",
            ),
            (r#"{"tolerances": {"level": "9 spi"}}"#, "Write a length"),
            (r#"{"tolerances": {"levle": 1}}"#, "levle"),
            (r#"{"nails": [160]}"#, "from 5 to 100 mm"),
            (r#"{"nails": ["long"]}"#, "Write a length"),
            (r#"{"waste": {"welt": 101}}"#, "from 0 to 100"),
            (r#"{"waste": {"welt": 300}}"#, "from 0 to 100"),
            (r#"{"waste": {"cork": 12.5}}"#, "whole percentage"),
            (r#"{"waste": {"cork": "15 %"}}"#, "such as 15"),
        ] {
            let said = read(json).unwrap_err();
            assert!(said.contains(words), "{json}: {said}");
        }
    }
}

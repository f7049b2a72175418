//! Supplies: what is cut, sewn, glued or nailed into a pair, by quantity.
//!
//! - values: [`Quantity`], [`Percent`], [`SupplyUnit`], as exact as people write them
//! - [`sold`]: what a customer pays for: a quantity with its waste at a price of sale
//! - [`kept`]: what the shop pays, and what it adds; known to the server and the owner only

pub mod kept;
pub mod sold;

use std::fmt;

use serde::{Deserialize, Serialize};

use crate::form::Problem;

/// A whole percentage: a waste, or what is added to a cost.
#[derive(
    Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize,
)]
#[serde(try_from = "u16", into = "u16")]
pub struct Percent(u16);

impl Percent {
    /// Nothing.
    pub const ZERO: Self = Self(0);
    /// The most that anyone adds.
    pub const MOST: u16 = 1_000;

    /// A percentage, cut at [`Percent::MOST`].
    pub const fn new(percent: u16) -> Self {
        if percent > Self::MOST {
            Self(Self::MOST)
        } else {
            Self(percent)
        }
    }

    /// Reads `20` or `20 %`; nothing typed means none.
    pub fn parse(text: &str) -> Result<Self, Problem> {
        let text = text.trim().trim_end_matches('%').trim();
        if text.is_empty() {
            return Ok(Self::ZERO);
        }
        match text.parse() {
            Ok(percent) if percent <= Self::MOST => Ok(Self(percent)),
            _ => Err(Problem::OutOfRange {
                least: 0,
                most: u32::from(Self::MOST),
            }),
        }
    }

    /// The number of hundredths.
    pub const fn get(self) -> u16 {
        self.0
    }

    /// Whether it is nothing; for serde, which leaves nothing away.
    pub const fn is_zero(&self) -> bool {
        self.0 == 0
    }
}

impl From<Percent> for u16 {
    fn from(percent: Percent) -> Self {
        percent.0
    }
}

impl TryFrom<u16> for Percent {
    type Error = Problem;

    fn try_from(percent: u16) -> Result<Self, Problem> {
        if percent <= Self::MOST {
            Ok(Self(percent))
        } else {
            Err(Problem::OutOfRange {
                least: 0,
                most: u32::from(Self::MOST),
            })
        }
    }
}

impl fmt::Display for Percent {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.fmt(f)
    }
}

/// A quantity in thousandths of its unit: a millimetre of a metre, ten square millimetres of a dm².
#[derive(
    Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize,
)]
#[serde(try_from = "u32", into = "u32")]
pub struct Quantity(u32);

impl Quantity {
    /// Nothing.
    pub const ZERO: Self = Self(0);
    /// More than this of anything is a slip.
    const MOST: u32 = 10_000_000;

    /// So many thousandths, cut at ten thousand units.
    pub const fn thousandths(number: u32) -> Self {
        if number > Self::MOST {
            Self(Self::MOST)
        } else {
            Self(number)
        }
    }

    /// So many whole units.
    pub const fn whole(number: u32) -> Self {
        Self::thousandths(number.saturating_mul(1_000))
    }

    /// Reads `2`, `0.35` or `1.129`.
    pub fn parse(text: &str) -> Result<Self, Problem> {
        let text = text.trim();
        let (whole, part) = text.split_once('.').unwrap_or((text, ""));
        let digits = |text: &str| text.bytes().all(|byte| byte.is_ascii_digit());
        if whole.is_empty() || part.len() > 3 || !digits(whole) || !digits(part) {
            return Err(Problem::NotAQuantity);
        }
        match format!("{whole}{part:0<3}").parse() {
            Ok(number) if number <= Self::MOST => Ok(Self(number)),
            _ => Err(Problem::NotAQuantity),
        }
    }

    /// The number of thousandths.
    pub const fn get(self) -> u32 {
        self.0
    }

    /// Whether it is nothing; for serde, which leaves nothing away.
    pub const fn is_zero(&self) -> bool {
        self.0 == 0
    }
}

impl From<Quantity> for u32 {
    fn from(quantity: Quantity) -> Self {
        quantity.0
    }
}

impl TryFrom<u32> for Quantity {
    type Error = Problem;

    fn try_from(number: u32) -> Result<Self, Problem> {
        if number <= Self::MOST {
            Ok(Self(number))
        } else {
            Err(Problem::NotAQuantity)
        }
    }
}

impl fmt::Display for Quantity {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&decimals(u64::from(self.0), 3))
    }
}

/// A whole number of the smallest steps as a decimal without needless zeros: `1.1296`.
fn decimals(steps: u64, places: usize) -> String {
    let digits = format!("{steps:0>width$}", width = places + 1);
    let (whole, part) = digits.split_at(digits.len() - places);
    match part.trim_end_matches('0') {
        "" => whole.to_owned(),
        part => format!("{whole}.{part}"),
    }
}

/// By what a supply is bought and used.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum SupplyUnit {
    /// Single pieces.
    Piece,
    /// Two that belong together.
    Pair,
    /// Metres.
    Metre,
    /// Square decimetres.
    SquareDecimetre,
    /// Cubic centimetres.
    CubicCentimetre,
    /// Grams.
    Gram,
}

impl SupplyUnit {
    /// All units.
    pub const ALL: [Self; 6] = [
        Self::Piece,
        Self::Pair,
        Self::Metre,
        Self::SquareDecimetre,
        Self::CubicCentimetre,
        Self::Gram,
    ];

    /// Its stored code.
    pub const fn code(self) -> &'static str {
        match self {
            Self::Piece => "piece",
            Self::Pair => "pair",
            Self::Metre => "metre",
            Self::SquareDecimetre => "square-decimetre",
            Self::CubicCentimetre => "cubic-centimetre",
            Self::Gram => "gram",
        }
    }

    /// Finds a unit by its code.
    pub fn from_code(code: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|unit| unit.code() == code)
    }

    /// Behind a price: a piece, a metre.
    pub const fn each(self) -> &'static str {
        match self {
            Self::Piece => "a piece",
            Self::Pair => "a pair",
            Self::Metre => "a metre",
            Self::SquareDecimetre => "a dm²",
            Self::CubicCentimetre => "a cm³",
            Self::Gram => "a gram",
        }
    }

    /// In a list to choose from.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Piece => "piece",
            Self::Pair => "pair",
            Self::Metre => "metre",
            Self::SquareDecimetre => "square decimetre (dm²)",
            Self::CubicCentimetre => "cubic centimetre (cm³)",
            Self::Gram => "gram",
        }
    }

    /// A number of it: `1.129 m`, `8 pieces`.
    pub(crate) fn with(self, number: &str) -> String {
        let unit = match self {
            Self::Piece if number == "1" => "piece",
            Self::Piece => "pieces",
            Self::Pair if number == "1" => "pair",
            Self::Pair => "pairs",
            Self::Metre => "m",
            Self::SquareDecimetre => "dm²",
            Self::CubicCentimetre => "cm³",
            Self::Gram => "g",
        };
        format!("{number} {unit}")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn quantities_are_read_and_written_as_people_do() {
        let shown = |text| Quantity::parse(text).map(|quantity| quantity.to_string());
        assert_eq!(shown("1.129"), Ok("1.129".to_owned()));
        assert_eq!(shown(" 0.350 "), Ok("0.35".to_owned()));
        assert_eq!(shown("8"), Ok("8".to_owned()));
        for wrong in ["", "1.1294", "-1", "1,5", ".5", "10001", "99999999999"] {
            assert_eq!(
                Quantity::parse(wrong),
                Err(Problem::NotAQuantity),
                "{wrong}"
            );
        }
        assert_eq!(decimals(112_960, 5), "1.1296");
        assert_eq!(decimals(0, 5), "0");
    }

    #[test]
    fn percentages_are_whole() {
        assert_eq!(Percent::parse("20 %"), Ok(Percent::new(20)));
        assert_eq!(Percent::parse(""), Ok(Percent::ZERO));
        assert!(Percent::parse("12.5").is_err() && Percent::parse("1001").is_err());
    }
}

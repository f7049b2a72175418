//! A length as it was written: a number and one of the trade's units.

use std::fmt;

use serde::{Deserialize, Deserializer, Serialize, Serializer, de};

use super::{INCH, Millimetres};

/// What a length was written in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LengthUnit {
    /// Millimetres, the unit of a bare number.
    Millimetre,
    /// Centimetres.
    Centimetre,
    /// Inches.
    Inch,
    /// Irons.
    Iron,
    /// Ounces.
    Ounce,
    /// So many to the inch: a pitch of stitches.
    PerInch,
}

impl LengthUnit {
    const ALL: [Self; 6] = [
        Self::Millimetre,
        Self::Centimetre,
        Self::Inch,
        Self::Iron,
        Self::Ounce,
        Self::PerInch,
    ];

    /// How it is written after a number.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Millimetre => "mm",
            Self::Centimetre => "cm",
            Self::Inch => "in",
            Self::Iron => "iron",
            Self::Ounce => "oz",
            Self::PerInch => "per inch",
        }
    }

    /// Its code in a form.
    pub const fn code(self) -> &'static str {
        match self {
            Self::Millimetre => "mm",
            Self::Centimetre => "cm",
            Self::Inch => "in",
            Self::Iron => "iron",
            Self::Ounce => "oz",
            Self::PerInch => "per-inch",
        }
    }

    /// Finds a unit by its code.
    pub fn from_code(code: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|unit| unit.code() == code)
    }

    /// Further ways to write it.
    const fn also(self) -> &'static [&'static str] {
        match self {
            Self::Millimetre => &["millimetre", "millimetres", "millimeter", "millimeters"],
            Self::Centimetre => &["centimetre", "centimetres", "centimeter", "centimeters"],
            Self::Inch => &["\"", "″", "”", "''", "inch", "inches"],
            Self::Iron => &["irons"],
            Self::Ounce => &["ounce", "ounces"],
            Self::PerInch => &["spi", "per in", "to the inch", "stitches per inch"],
        }
    }

    fn named(name: &str) -> Option<Self> {
        let name = name.trim_end_matches('.');
        Self::ALL
            .into_iter()
            .find(|unit| unit.label() == name || unit.also().contains(&name))
    }
}

/// A larger number is no length of a shoe in any unit, and would be written in endless digits.
const MOST: f64 = 100_000.0;

/// A length as it was written, unit and all.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reading {
    amount: f64,
    unit: LengthUnit,
}

/// What was written is always a number, so equal to itself.
impl Eq for Reading {}

/// Why a text is no length.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error("Write a length such as 285, 4.8 mm, 9 iron, 3/16 in, or a pitch such as 9 per inch.")]
pub struct NotALength;

impl Reading {
    /// A length in millimetres.
    pub const fn in_millimetres(amount: f64) -> Self {
        Self {
            amount,
            unit: LengthUnit::Millimetre,
        }
    }

    /// Reads a number with its unit, or a bare number in the unit that was picked beside it.
    ///
    /// # Errors
    /// If there is no number of at least zero, or no known unit after it.
    pub fn parse_in(text: &str, picked: LengthUnit) -> Result<Self, NotALength> {
        let text = evenly_written(text);
        let unit_starts = text
            .find(|letter: char| !letter.is_ascii_digit() && !" .,/".contains(letter))
            .unwrap_or(text.len());
        let (number, unit) = text.split_at_checked(unit_starts).ok_or(NotALength)?;
        let unit = match unit.trim() {
            "" => picked,
            name => LengthUnit::named(name).ok_or(NotALength)?,
        };
        let amount = number_of(number)?;
        if amount > MOST || (unit == LengthUnit::PerInch && amount <= 0.0) {
            return Err(NotALength);
        }
        Ok(Self { amount, unit })
    }

    /// Reads `285`, `4,8 mm`, `9 iron`, `1 1/4 in`, `9½ iron` or `9 per inch`.
    ///
    /// # Errors
    /// If there is no number of at least zero, or no known unit after it.
    pub fn parse(text: &str) -> Result<Self, NotALength> {
        Self::parse_in(text, LengthUnit::Millimetre)
    }

    /// What stands before the unit.
    pub const fn amount(self) -> f64 {
        self.amount
    }

    /// What it was written in.
    pub const fn unit(self) -> LengthUnit {
        self.unit
    }

    /// The length; of a pitch, from one stitch to the next.
    pub fn millimetres(self) -> Millimetres {
        Millimetres(match self.unit {
            LengthUnit::Millimetre => self.amount,
            LengthUnit::Centimetre => self.amount * 10.0,
            LengthUnit::Inch => self.amount * INCH,
            LengthUnit::Iron => self.amount * INCH / 48.0,
            LengthUnit::Ounce => self.amount * INCH / 64.0,
            LengthUnit::PerInch => INCH / self.amount,
        })
    }

    /// As it is said to people: a third of an inch in four decimals and not in sixteen.
    pub fn words(self) -> String {
        let number = format!("{:.4}", self.amount);
        let number = number.trim_end_matches('0').trim_end_matches('.');
        format!("{number} {}", self.unit.label())
    }

    /// The same number in another unit: what may have been meant.
    #[must_use]
    pub const fn taken_as(self, unit: LengthUnit) -> Self {
        Self {
            amount: self.amount,
            unit,
        }
    }
}

impl fmt::Display for Reading {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} {}", self.amount, self.unit.label())
    }
}

impl Serialize for Reading {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

impl<'de> Deserialize<'de> for Reading {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        #[derive(Deserialize)]
        #[serde(untagged)]
        enum Written {
            Number(f64),
            Text(String),
        }
        match Written::deserialize(deserializer)? {
            Written::Number(amount) if (0.0..=MOST).contains(&amount) => {
                Ok(Self::in_millimetres(amount))
            }
            Written::Number(_) => Err(de::Error::custom(NotALength)),
            Written::Text(text) => Self::parse(&text).map_err(de::Error::custom),
        }
    }
}

/// Small letters, plain spaces, and fractions with a stroke and a space before them.
fn evenly_written(text: &str) -> String {
    const FRACTIONS: [(char, &str); 15] = [
        ('½', " 1/2"),
        ('⅓', " 1/3"),
        ('⅔', " 2/3"),
        ('¼', " 1/4"),
        ('¾', " 3/4"),
        ('⅕', " 1/5"),
        ('⅖', " 2/5"),
        ('⅗', " 3/5"),
        ('⅘', " 4/5"),
        ('⅙', " 1/6"),
        ('⅚', " 5/6"),
        ('⅛', " 1/8"),
        ('⅜', " 3/8"),
        ('⅝', " 5/8"),
        ('⅞', " 7/8"),
    ];
    let mut even = String::with_capacity(text.len());
    let lower = text.to_lowercase();
    let mut letters = lower.chars().peekable();
    while let Some(letter) = letters.next() {
        let is_before_digit = letters.peek().is_some_and(char::is_ascii_digit);
        match FRACTIONS.iter().find(|(one, _)| *one == letter) {
            Some((_, words)) => even.push_str(words),
            None if letter.is_whitespace() => even.push(' '),
            None if letter == '⁄' => even.push('/'),
            // `1-1/4` is one and a quarter; before any digit a stroke is a sign.
            None if letter == '-'
                && is_before_digit
                && even.ends_with(|before: char| before.is_ascii_digit()) =>
            {
                even.push(' ');
            }
            None => even.push(letter),
        }
    }
    even.trim().to_owned()
}

/// `4`, `4.8`, `4,8`, `3/16` or `1 3/16`: nothing else is one number.
fn number_of(text: &str) -> Result<f64, NotALength> {
    let parts: Vec<&str> = text.split_whitespace().collect();
    match parts[..] {
        [one] if one.contains('/') => fraction(one),
        [one] => decimal(one),
        [whole, part] => {
            let part = fraction(part)?;
            let whole = digits(whole)?;
            if part < 1.0 {
                Ok(whole + part)
            } else {
                Err(NotALength)
            }
        }
        _ => Err(NotALength),
    }
}

fn decimal(text: &str) -> Result<f64, NotALength> {
    let text = text.replace(',', ".");
    text.parse().map_err(|_| NotALength)
}

fn fraction(text: &str) -> Result<f64, NotALength> {
    let (above, below) = text.split_once('/').ok_or(NotALength)?;
    let (above, below) = (digits(above)?, digits(below)?);
    if below > 0.0 {
        Ok(above / below)
    } else {
        Err(NotALength)
    }
}

fn digits(text: &str) -> Result<f64, NotALength> {
    if text.bytes().all(|byte| byte.is_ascii_digit()) {
        text.parse().map_err(|_| NotALength)
    } else {
        Err(NotALength)
    }
}

/// Reads a length of JSON where no pitch is meant: a number of millimetres, or a text with its unit.
///
/// # Errors
/// If it is no length.
pub(crate) fn length<'de, D: Deserializer<'de>>(deserializer: D) -> Result<Millimetres, D::Error> {
    let reading = Reading::deserialize(deserializer)?;
    if reading.unit == LengthUnit::PerInch {
        return Err(de::Error::custom(NotALength));
    }
    Ok(reading.millimetres())
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn millimetres(text: &str) -> f64 {
        Reading::parse(text).unwrap().millimetres().0
    }

    /// GNU Units 2.22, definitions 3.15: `units -t "9 shoeiron" mm` and so on.
    #[test]
    fn irons_and_ounces_are_those_of_gnu_units() {
        for (text, expected) in [
            ("9 iron", 4.7625),
            ("12 iron", 6.35),
            ("8 oz", 3.175),
            ("14 ounces", 5.55625),
            ("1 iron", 0.529_166_666_7),
            ("1 oz", 0.396_875),
        ] {
            assert!((millimetres(text) - expected).abs() < 1e-9, "{text}");
        }
        assert!((Millimetres(5.0).irons().0 - 9.448_818_898).abs() < 1e-9);
        assert!((Millimetres(3.5).ounces().0 - 8.818_897_638).abs() < 1e-9);
        let twelve_ounces = Reading::parse("12 oz").unwrap().millimetres();
        assert!((twelve_ounces.irons().0 - 9.0).abs() < 1e-12);
    }

    #[test]
    fn a_length_is_read_as_people_write_it() {
        for (text, expected) in [
            ("285", 285.0),
            ("28,5 cm", 285.0),
            ("4.8mm", 4.8),
            ("3/16 in", 4.7625),
            ("1 1/4 in", 31.75),
            ("1 1/4\"", 31.75),
            ("9 per inch", 25.4 / 9.0),
            ("5 SPI", 5.08),
            ("9 1/2 iron", 9.5 * 25.4 / 48.0),
            ("9½ iron", 9.5 * 25.4 / 48.0),
            ("1-1/4\"", 31.75),
            ("3⁄16 in.", 4.7625),
            ("¾ inch", 19.05),
            (".5 in", 12.7),
            ("4\u{a0}mm", 4.0),
            ("8 oz.", 3.175),
            ("10½ stitches per inch", 25.4 / 10.5),
        ] {
            assert!((millimetres(text) - expected).abs() < 1e-9, "{text}");
        }
        for text in [
            "",
            "mm",
            "-3 mm",
            "four",
            "3/0 in",
            "0 spi",
            "9 ells",
            "9999999 mm",
            "1e9",
            "28 5",
            "1/2 1/2 in",
            "1.5 1/2 in",
            "1 5/4 in",
            "1/2/3 in",
            "1 2 3 mm",
            ".",
            ",",
            "/",
            "1.2,3",
            "½½ in",
            "5-",
            "٩",
        ] {
            assert_eq!(Reading::parse(text), Err(NotALength), "{text}");
        }
    }

    #[test]
    fn a_bare_number_is_in_the_unit_beside_it() {
        let in_irons = |text| Reading::parse_in(text, LengthUnit::Iron).map(Reading::millimetres);
        for text in ["9.5", "9 1/2", "9½", " 9,5 "] {
            assert_eq!(in_irons(text), Ok(Millimetres(9.5 * INCH / 48.0)), "{text}");
        }
        assert_eq!(in_irons("5 mm"), Ok(Millimetres(5.0)));
        assert!(Reading::parse_in("0", LengthUnit::PerInch).is_err());
    }

    #[test]
    fn a_reading_is_told_without_endless_digits() {
        assert_eq!(Reading::parse("1/3 in").unwrap().words(), "0.3333 in");
        assert_eq!(Reading::parse("10 mm").unwrap().words(), "10 mm");
        assert_eq!(Reading::parse("9½ iron").unwrap().words(), "9.5 iron");
    }

    #[test]
    fn a_number_alone_is_millimetres_in_json_too() {
        let read = |json| serde_json::from_str::<Reading>(json).ok();
        assert_eq!(read("12"), Some(Reading::in_millimetres(12.0)));
        assert_eq!(read("\"9 iron\""), Reading::parse("9 iron").ok());
        assert_eq!(read("-1"), None);
        assert_eq!(read("1e300"), None);
        assert_eq!(read("\"9 stone\""), None);
    }

    proptest! {
        #[test]
        fn what_is_written_is_read_back(tenths in 1_u32..5_000, unit in 0_usize..6) {
            let reading = Reading {
                amount: f64::from(tenths) / 10.0,
                unit: LengthUnit::ALL[unit],
            };
            prop_assert_eq!(Reading::parse(&reading.to_string()), Ok(reading));
        }

        #[test]
        fn irons_and_ounces_stay_in_their_ratio(mm in 0.1_f64..50.0) {
            let length = Millimetres(mm);
            prop_assert!((length.ounces().0 / length.irons().0 - 4.0 / 3.0).abs() < 1e-12);
        }
    }
}

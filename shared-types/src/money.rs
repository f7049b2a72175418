//! Money: a whole number of minor units of one ISO 4217 currency. No float ever sees it.

use std::fmt;

use serde::{Deserialize, Serialize};

use crate::form::Problem;

/// A currency of ISO 4217 with its number of decimal digits.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
pub struct Currency(iso_currency::Currency);

impl Currency {
    /// United States dollars, until the owner names the shop's own currency.
    pub const USD: Self = Self(iso_currency::Currency::USD);

    /// Reads an alphabetic code such as `USD`. Gold, test codes and the like have no minor unit, and
    /// nobody pays with them.
    pub fn parse(code: &str) -> Result<Self, Problem> {
        iso_currency::Currency::from_code(&code.trim().to_ascii_uppercase())
            .filter(|currency| currency.exponent().is_some())
            .map(Self)
            .ok_or(Problem::UnknownCurrency)
    }

    /// The alphabetic code.
    pub fn code(self) -> &'static str {
        self.0.code()
    }

    /// How many decimal digits an amount has (ISO 4217): 2 for USD, 0 for JPY, 3 for KWD.
    pub fn digits(self) -> u32 {
        self.0.exponent().map_or(0, u32::from)
    }

    /// Minor units in one major unit.
    pub fn units(self) -> i64 {
        10_i64.pow(self.digits())
    }

    /// What stands before an amount: a symbol where it is plain to any reader, else the code.
    fn prefix(self) -> &'static str {
        match self.code() {
            "USD" => "$",
            "EUR" => "€",
            "GBP" => "£",
            "JPY" => "¥",
            _ => "",
        }
    }
}

impl From<Currency> for String {
    fn from(currency: Currency) -> Self {
        currency.code().to_owned()
    }
}

impl TryFrom<String> for Currency {
    type Error = Problem;

    fn try_from(code: String) -> Result<Self, Problem> {
        Self::parse(&code)
    }
}

/// Why a sum of money could not be worked out.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum MoneyProblem {
    /// The amount is beyond what the program carries.
    #[error("this amount is too large to work with; check the figures for a slipped digit")]
    TooLarge,
    /// Two currencies met.
    #[error("these amounts are in different currencies and cannot be added")]
    MixedCurrencies,
}

/// An amount of money in whole minor units.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(try_from = "MoneyParts")]
pub struct Money {
    minor: i64,
    currency: Currency,
}

#[derive(Deserialize)]
struct MoneyParts {
    minor: i64,
    currency: Currency,
}

impl TryFrom<MoneyParts> for Money {
    type Error = MoneyProblem;

    fn try_from(parts: MoneyParts) -> Result<Self, MoneyProblem> {
        Self::new(parts.minor, parts.currency)
    }
}

impl Money {
    /// Above this many minor units an amount is taken for a mistake. It also keeps every amount
    /// exact in the numbers of RFC 8785 (IEEE 754 doubles, 2^53).
    pub const LIMIT: i64 = 10_000_000_000_000;

    /// An amount of `minor` units, refused beyond [`Money::LIMIT`].
    pub fn new(minor: i64, currency: Currency) -> Result<Self, MoneyProblem> {
        if minor.unsigned_abs() > Self::LIMIT.unsigned_abs() {
            return Err(MoneyProblem::TooLarge);
        }
        Ok(Self { minor, currency })
    }

    /// Nothing, in this currency.
    pub const fn zero(currency: Currency) -> Self {
        Self { minor: 0, currency }
    }

    /// Reads an amount of zero or more as people type it: `84`, `84.5`, `1,234.50`, `$84.00`,
    /// `12.500 KWD`.
    pub fn parse(text: &str, currency: Currency) -> Result<Self, Problem> {
        let text = text.trim();
        let bare = [currency.prefix(), currency.code()]
            .into_iter()
            .find_map(|before| text.strip_prefix(before).filter(|_| !before.is_empty()));
        let text = bare.or(text.strip_suffix(currency.code())).unwrap_or(text);
        let text = text.trim();
        let (whole, fraction) = text.split_once('.').unwrap_or((text, ""));
        let digits = usize::try_from(currency.digits()).map_err(|_| Problem::NotMoney)?;
        if fraction.len() > digits {
            return Err(Problem::TooManyDecimals {
                digits: currency.digits(),
            });
        }
        let whole = ungrouped(whole).ok_or(Problem::NotMoney)?;
        if !fraction.bytes().all(|byte| byte.is_ascii_digit()) || text.ends_with('.') {
            return Err(Problem::NotMoney);
        }
        let figures = format!("{whole}{fraction:0<digits$}");
        // Digits alone are always a number; only too many of them are none that is carried.
        let minor = figures.parse::<i64>().map_err(|_| Problem::TooMuchMoney)?;
        Self::new(minor, currency).map_err(|_| Problem::TooMuchMoney)
    }

    /// Reads an amount, or nothing where nothing was typed.
    pub fn parse_optional(text: &str, currency: Currency) -> Result<Option<Self>, Problem> {
        if text.trim().is_empty() {
            return Ok(None);
        }
        Self::parse(text, currency).map(Some)
    }

    /// The number of minor units.
    pub const fn minor(self) -> i64 {
        self.minor
    }

    /// The currency.
    pub const fn currency(self) -> Currency {
        self.currency
    }

    /// Whether it is exactly nothing.
    pub const fn is_zero(self) -> bool {
        self.minor == 0
    }

    /// Whether it is more than nothing.
    pub const fn is_positive(self) -> bool {
        self.minor > 0
    }

    /// The sum.
    pub fn plus(self, other: Self) -> Result<Self, MoneyProblem> {
        if self.currency != other.currency {
            return Err(MoneyProblem::MixedCurrencies);
        }
        Self::new(self.minor.saturating_add(other.minor), self.currency)
    }

    /// The difference.
    pub fn minus(self, other: Self) -> Result<Self, MoneyProblem> {
        self.plus(Self {
            minor: -other.minor,
            ..other
        })
    }

    /// The sum of all, in `currency`.
    pub fn sum(
        amounts: impl IntoIterator<Item = Self>,
        currency: Currency,
    ) -> Result<Self, MoneyProblem> {
        amounts
            .into_iter()
            .try_fold(Self::zero(currency), Self::plus)
    }

    /// The bare figure without currency or grouping, for a form field: `1234.50`, `-3.00`.
    pub fn figure(self) -> String {
        let sign = if self.minor < 0 { "-" } else { "" };
        format!("{sign}{}", self.figures(""))
    }

    /// The amount with its sign always shown, for a difference: `+$84.00`.
    pub fn signed(self) -> String {
        if self.minor > 0 {
            format!("+{self}")
        } else {
            self.to_string()
        }
    }

    /// Without its sign.
    fn figures(self, group: &str) -> String {
        let units = self.currency.units().unsigned_abs();
        let (whole, part) = (
            self.minor.unsigned_abs() / units,
            self.minor.unsigned_abs() % units,
        );
        let mut text = String::new();
        let whole = whole.to_string();
        for (index, digit) in whole.chars().enumerate() {
            if index > 0 && (whole.len() - index) % 3 == 0 {
                text.push_str(group);
            }
            text.push(digit);
        }
        match usize::try_from(self.currency.digits()) {
            Ok(0) | Err(_) => text,
            Ok(digits) => format!("{text}.{part:0digits$}"),
        }
    }
}

impl fmt::Display for Money {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let sign = if self.minor < 0 { "\u{2212}" } else { "" };
        match self.currency.prefix() {
            // A no-break space: an amount never breaks over two lines.
            "" => write!(
                f,
                "{sign}{}\u{a0}{}",
                self.figures(","),
                self.currency.code()
            ),
            prefix => write!(f, "{sign}{prefix}{}", self.figures(",")),
        }
    }
}

impl fmt::Debug for Money {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{self}")
    }
}

/// Digits with or without commas at each third place; anything else is refused, because
/// `1,5` means one thing here and another elsewhere.
fn ungrouped(whole: &str) -> Option<String> {
    let groups: Vec<&str> = whole.split(',').collect();
    let (first, rest) = groups.split_first()?;
    let fits = match rest {
        [] => !first.is_empty(),
        rest => (1..=3).contains(&first.len()) && rest.iter().all(|group| group.len() == 3),
    };
    let digits = groups.concat();
    (fits && digits.bytes().all(|byte| byte.is_ascii_digit())).then_some(digits)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn money(text: &str, code: &str) -> Result<Money, Problem> {
        Money::parse(text, Currency::parse(code)?)
    }

    /// ISO 4217 as in the Python package iso4217 1.16.20260101: all currencies without two decimals,
    /// and some that have them where a reader may doubt it.
    #[test]
    fn digits_are_those_of_iso_4217() {
        let table: [(u32, &[&str]); 4] = [
            (
                0,
                &[
                    "BIF", "CLP", "DJF", "GNF", "ISK", "JPY", "KMF", "KRW", "PYG", "RWF", "UGX",
                    "UYI", "VND", "VUV", "XAF", "XOF", "XPF",
                ],
            ),
            (2, &["USD", "EUR", "CHF", "NZD", "HUF", "MGA", "MRU", "IDR"]),
            (3, &["BHD", "IQD", "JOD", "KWD", "LYD", "OMR", "TND"]),
            (4, &["CLF", "UYW"]),
        ];
        for (digits, codes) in table {
            for code in codes {
                let currency = Currency::parse(code).unwrap();
                assert_eq!(currency.digits(), digits, "{code}");
            }
        }
        for no_money in ["XAU", "XTS", "XXX", "XDR", "dollar", ""] {
            assert!(Currency::parse(no_money).is_err(), "{no_money}");
        }
    }

    #[test]
    fn amounts_are_read_and_shown_in_each_currency() {
        for (text, code, minor, shown) in [
            ("84", "USD", 8_400, "$84.00"),
            ("$1,234.5", "USD", 123_450, "$1,234.50"),
            ("1200", "JPY", 1_200, "¥1,200"),
            ("12.345", "KWD", 12_345, "12.345\u{a0}KWD"),
            ("0", "EUR", 0, "€0.00"),
            ("3.0005", "CLF", 30_005, "3.0005\u{a0}CLF"),
            ("4,000,000.00", "USD", 400_000_000, "$4,000,000.00"),
            ("12.500 KWD", "KWD", 12_500, "12.500\u{a0}KWD"),
            ("ISK 4900", "ISK", 4_900, "4,900\u{a0}ISK"),
            ("0.0001", "CLF", 1, "0.0001\u{a0}CLF"),
            (
                "1000000000",
                "CLF",
                10_000_000_000_000,
                "1,000,000,000.0000\u{a0}CLF",
            ),
        ] {
            let amount = money(text, code).unwrap();
            assert_eq!(
                (amount.minor(), amount.to_string().as_str()),
                (minor, shown),
                "{text}"
            );
            assert_eq!(money(&amount.figure(), code), Ok(amount), "{text}");
        }
    }

    #[test]
    fn doubtful_amounts_are_refused() {
        for text in [
            "",
            ".",
            "-5",
            "1,5",
            "1.234",
            "12,34.00",
            "1e9",
            "4.",
            "٤",
            "99999999999999",
            "84 EUR",
            "$$84",
            "USD",
            "84.5.0",
        ] {
            assert!(money(text, "USD").is_err(), "{text}");
        }
        for large in [
            "1000000000.0001",
            "10000000001",
            "99999999999999999999999999",
        ] {
            assert_eq!(money(large, "CLF"), Err(Problem::TooMuchMoney), "{large}");
        }
    }

    #[test]
    fn what_is_below_zero_keeps_its_sign_everywhere() {
        let amount = Money::new(-305, Currency::USD).unwrap();
        assert_eq!(amount.figure(), "-3.05");
        assert_eq!(amount.to_string(), "\u{2212}$3.05");
        assert_eq!(amount.signed(), "\u{2212}$3.05");
    }

    #[test]
    fn beyond_the_limit_nothing_is_carried_and_nothing_wraps() {
        for minor in [Money::LIMIT + 1, -Money::LIMIT - 1, i64::MAX, i64::MIN] {
            assert_eq!(
                Money::new(minor, Currency::USD),
                Err(MoneyProblem::TooLarge)
            );
            let json = format!(r#"{{"minor":{minor},"currency":"USD"}}"#);
            assert!(serde_json::from_str::<Money>(&json).is_err(), "{json}");
        }
        let most = Money::new(Money::LIMIT, Currency::USD).unwrap();
        let least = Money::new(-Money::LIMIT, Currency::USD).unwrap();
        assert_eq!(most.plus(most), Err(MoneyProblem::TooLarge));
        assert_eq!(least.minus(most), Err(MoneyProblem::TooLarge));
        assert_eq!(most.plus(least), Ok(Money::zero(Currency::USD)));
    }
}

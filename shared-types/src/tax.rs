//! Tax and rounding, by rule, in whole minor units.
//!
//! Whether repair labour and material are taxed, at which rate and how it is rounded is the
//! law of the place; the shop sets it, the program only follows.

use std::fmt;

use serde::{Deserialize, Serialize};

use crate::form::Problem;
use crate::money::{Currency, Money, MoneyProblem};

/// A rate in parts per million: 6.25 % is 62,500.
#[derive(
    Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize,
)]
#[serde(transparent)]
pub struct Rate(u32);

impl Rate {
    /// No tax.
    pub const ZERO: Self = Self(0);

    /// Reads a percentage from 0 to 100 with at most four decimals.
    pub fn parse(text: &str) -> Result<Self, Problem> {
        let text = text.trim().trim_end_matches('%').trim();
        let (whole, part) = text.split_once('.').unwrap_or((text, ""));
        let digits = |text: &str| text.bytes().all(|byte| byte.is_ascii_digit());
        if whole.is_empty() || part.len() > 4 || !digits(whole) || !digits(part) {
            return Err(Problem::NotARate);
        }
        match format!("{whole}{part:0<4}").parse::<u32>() {
            Ok(parts) if parts <= 1_000_000 => Ok(Self(parts)),
            _ => Err(Problem::NotARate),
        }
    }

    /// Reads a percentage; nothing typed means zero.
    pub fn parse_or_zero(text: &str) -> Result<Self, Problem> {
        if text.trim().is_empty() {
            return Ok(Self::ZERO);
        }
        Self::parse(text)
    }

    /// Parts per million.
    pub const fn parts(self) -> u32 {
        self.0
    }
}

impl fmt::Display for Rate {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (whole, part) = (self.0 / 10_000, self.0 % 10_000);
        if part == 0 {
            return write!(f, "{whole}");
        }
        let part = format!("{part:04}");
        write!(f, "{whole}.{}", part.trim_end_matches('0'))
    }
}

/// How a fraction of a minor unit is rounded.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Rounding {
    /// To the nearest, a half away from zero.
    HalfUp,
    /// To the nearest, a half towards zero.
    HalfDown,
    /// To the nearest, a half to the even neighbour.
    HalfEven,
    /// Towards zero.
    Down,
    /// Away from zero.
    Up,
}

impl Rounding {
    /// All modes.
    pub const ALL: [Self; 5] = [
        Self::HalfUp,
        Self::HalfDown,
        Self::HalfEven,
        Self::Down,
        Self::Up,
    ];

    /// Its stored code.
    pub const fn code(self) -> &'static str {
        match self {
            Self::HalfUp => "half-up",
            Self::HalfDown => "half-down",
            Self::HalfEven => "half-even",
            Self::Down => "down",
            Self::Up => "up",
        }
    }

    /// Finds a mode by its code.
    pub fn from_code(code: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|mode| mode.code() == code)
    }

    /// Its name for people.
    pub const fn label(self) -> &'static str {
        match self {
            Self::HalfUp => "to the nearest, half up",
            Self::HalfDown => "to the nearest, half down",
            Self::HalfEven => "to the nearest, half to even",
            Self::Down => "down",
            Self::Up => "up",
        }
    }

    /// `numerator / denominator` as a whole number; the denominator is positive.
    pub(crate) fn divide(self, numerator: i128, denominator: i128) -> i128 {
        let sign = if numerator < 0 { -1 } else { 1 };
        let (whole, rest) = (numerator.abs() / denominator, numerator.abs() % denominator);
        let up = match self {
            Self::HalfUp => rest * 2 >= denominator,
            Self::HalfDown => rest * 2 > denominator,
            Self::HalfEven => rest * 2 > denominator || (rest * 2 == denominator && whole % 2 == 1),
            Self::Down => false,
            Self::Up => rest > 0,
        };
        sign * (whole + i128::from(up))
    }
}

/// Whether prices are shown without or with their tax.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum TaxBasis {
    /// Tax is added to the prices.
    Added,
    /// The prices include it.
    Included,
}

/// Whether tax is rounded once for each line or once for each rate.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum TaxStep {
    /// Each line on its own.
    PerLine,
    /// The sum of all lines of one rate.
    PerTotal,
}

/// The shop's tax rules.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct TaxRules {
    /// On labour.
    pub labour: Rate,
    /// On materials and goods.
    pub goods: Rate,
    /// Prices without or with tax.
    pub basis: TaxBasis,
    /// Where it is rounded.
    pub step: TaxStep,
    /// How it is rounded.
    pub rounding: Rounding,
}

impl TaxRules {
    /// The tax on an amount at a rate, to the minor unit.
    ///
    /// Added: amount × rate. Included: amount × rate / (1 + rate).
    pub fn on(&self, amount: Money, rate: Rate) -> Result<Money, MoneyProblem> {
        let million = 1_000_000_i128;
        let rate = i128::from(rate.parts());
        let per = match self.basis {
            TaxBasis::Added => million,
            TaxBasis::Included => million + rate,
        };
        let tax = self.rounding.divide(i128::from(amount.minor()) * rate, per);
        Money::new(
            i64::try_from(tax).map_err(|_| MoneyProblem::TooLarge)?,
            amount.currency(),
        )
    }
}

/// Rounding of what is paid in cash where small coins are gone, to the nearest step in minor
/// units; a tie goes as `rounding` says. Only the sum to pay in cash is rounded, never the price.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct CashRounding {
    /// The smallest coin, in minor units.
    pub step: u32,
    /// Where a tie goes.
    pub rounding: Rounding,
}

impl CashRounding {
    /// What is paid in cash for this amount.
    pub fn of(self, amount: Money) -> Result<Money, MoneyProblem> {
        let step = i128::from(self.step.max(1));
        let steps = self.rounding.divide(i128::from(amount.minor()), step);
        Money::new(
            i64::try_from(steps * step).map_err(|_| MoneyProblem::TooLarge)?,
            amount.currency(),
        )
    }
}

/// One rate with what it applied to, as a receipt shows it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct TaxAmount {
    /// The rate.
    pub rate: Rate,
    /// The amount that it applied to: net where tax is added, gross where it is included.
    pub on: Money,
    /// The tax.
    pub tax: Money,
}

/// Collects taxed amounts by rate, rounding where the rules say.
#[derive(Clone, Debug)]
pub(crate) struct TaxSheet {
    rules: TaxRules,
    currency: Currency,
    amounts: Vec<TaxAmount>,
}

impl TaxSheet {
    pub(crate) fn new(rules: TaxRules, currency: Currency) -> Self {
        Self {
            rules,
            currency,
            amounts: Vec::new(),
        }
    }

    /// Adds one line's amount; its tax counts here only where each line is rounded on its own.
    pub(crate) fn add(&mut self, amount: Money, rate: Rate) -> Result<(), MoneyProblem> {
        if amount.is_zero() || rate == Rate::ZERO {
            return Ok(());
        }
        let tax = self.rules.on(amount, rate)?;
        if let Some(entry) = self.amounts.iter_mut().find(|entry| entry.rate == rate) {
            entry.on = entry.on.plus(amount)?;
            entry.tax = entry.tax.plus(tax)?;
        } else {
            self.amounts.push(TaxAmount {
                rate,
                on: amount,
                tax,
            });
        }
        Ok(())
    }

    /// The tax of each rate, lowest rate first, and their sum.
    pub(crate) fn finish(mut self) -> Result<(Vec<TaxAmount>, Money), MoneyProblem> {
        self.amounts.sort_by_key(|entry| entry.rate);
        if self.rules.step == TaxStep::PerTotal {
            for entry in &mut self.amounts {
                entry.tax = self.rules.on(entry.on, entry.rate)?;
            }
        }
        let sum = Money::sum(self.amounts.iter().map(|entry| entry.tax), self.currency)?;
        Ok((self.amounts, sum))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn money(minor: i64, code: &str) -> Money {
        Money::new(minor, Currency::parse(code).unwrap()).unwrap()
    }

    fn rules(basis: TaxBasis, step: TaxStep, rounding: Rounding) -> TaxRules {
        TaxRules {
            labour: Rate::ZERO,
            goods: Rate::ZERO,
            basis,
            step,
            rounding,
        }
    }

    #[test]
    fn rates_are_read_to_four_decimals() {
        for (text, parts) in [
            ("6.25", 62_500),
            ("0", 0),
            ("8.875 %", 88_750),
            ("100", 1_000_000),
        ] {
            assert_eq!(Rate::parse(text).map(Rate::parts), Ok(parts), "{text}");
        }
        assert_eq!(
            Rate::parse("6.25").map(|rate| rate.to_string()),
            Ok("6.25".to_owned())
        );
        for text in ["", "-1", "100.0001", "6.25001", "six"] {
            assert_eq!(Rate::parse(text), Err(Problem::NotARate), "{text}");
        }
    }

    /// Budget of Canada 2012, the page on the one-cent coin: 4.69 at 5 % is 4.92 by card and 4.90
    /// in cash. Revenu Québec, the same rounding: 5.97 → 5.95, 5.98 → 6.00.
    #[test]
    fn canada_rounds_only_the_cash_total() {
        let added = rules(TaxBasis::Added, TaxStep::PerTotal, Rounding::HalfUp);
        let price = money(469, "CAD");
        let tax = added.on(price, Rate::parse("5").unwrap()).unwrap();
        assert_eq!(tax, money(23, "CAD"));
        let cash = CashRounding {
            step: 5,
            rounding: Rounding::HalfUp,
        };
        for (due, paid) in [(492, 490), (597, 595), (598, 600), (2, 0), (3, 5)] {
            assert_eq!(cash.of(money(due, "CAD")), Ok(money(paid, "CAD")), "{due}");
        }
    }

    /// The rule of the same two sources (cents 1, 2, 6, 7 down, 3, 4, 8, 9 up) on every ending.
    #[test]
    fn canada_rounds_every_ending_to_the_nearest_five_cents() {
        let cash = CashRounding {
            step: 5,
            rounding: Rounding::HalfUp,
        };
        for (ending, paid) in [
            (490, 490),
            (491, 490),
            (492, 490),
            (493, 495),
            (494, 495),
            (495, 495),
            (496, 495),
            (497, 495),
            (498, 500),
            (499, 500),
        ] {
            assert_eq!(cash.of(money(ending, "CAD")), Ok(money(paid, "CAD")));
        }
    }

    /// From memory: Denmark to 50 øre (Nationalbank, since 2008: 1 to 24 down, 25 to 74 to 50, 75 up);
    /// Czechia to a koruna (50 haléřů up, since 2008); Israel to ten agorot (5 up, since 2008); South
    /// Africa down to ten cents, for the buyer (since 2012); Hungary to five forints; no decimals in
    /// Iceland and Japan, so nothing to round.
    #[test]
    fn further_places_round_cash_in_their_own_direction() {
        for (code, step, rounding, due, paid) in [
            ("DKK", 50, Rounding::HalfUp, 1_024, 1_000),
            ("DKK", 50, Rounding::HalfUp, 1_025, 1_050),
            ("DKK", 50, Rounding::HalfUp, 1_074, 1_050),
            ("DKK", 50, Rounding::HalfUp, 1_075, 1_100),
            ("CZK", 100, Rounding::HalfUp, 12_350, 12_400),
            ("CZK", 100, Rounding::HalfUp, 12_349, 12_300),
            ("ILS", 10, Rounding::HalfUp, 1_235, 1_240),
            ("ZAR", 10, Rounding::Down, 1_239, 1_230),
            ("HUF", 500, Rounding::HalfUp, 123_200, 123_000),
            ("HUF", 500, Rounding::HalfUp, 123_300, 123_500),
            ("ISK", 1, Rounding::HalfUp, 4_903, 4_903),
            ("KWD", 5, Rounding::HalfUp, 12_498, 12_500),
        ] {
            let cash = CashRounding { step, rounding };
            assert_eq!(
                cash.of(money(due, code)),
                Ok(money(paid, code)),
                "{code} {due}"
            );
        }
    }

    /// Python's `fractions`, gross × rate ÷ (1 + rate): 8.1 % in 129.00 is 9.6660; 5.5 % in 0.10 is
    /// 0.0052; 25.5 % in 99.95 is 20.3086; 10 % in 4,999 yen is 454.45.
    #[test]
    fn tax_in_a_price_at_rates_of_several_places() {
        let included = rules(TaxBasis::Included, TaxStep::PerTotal, Rounding::HalfUp);
        for (gross, code, rate, tax) in [
            (12_900, "CHF", "8.1", 967),
            (10, "EUR", "5.5", 1),
            (9_995, "EUR", "25.5", 2_031),
            (4_999, "JPY", "10", 454),
            (10_500, "BHD", "10", 955),
            (1, "EUR", "100", 1),
            (0, "EUR", "20", 0),
        ] {
            let rate = Rate::parse(rate).unwrap();
            assert_eq!(
                included.on(money(gross, code), rate),
                Ok(money(tax, code)),
                "{gross} {code}"
            );
        }
    }

    /// Sweden: lag (1970:1029) om avrundning av vissa öresbelopp, 2 §, as of SFS 2009:283 (1 to 49
    /// öre down, 50 to 99 up). Norway: forskrift 16 March 2011 no. 294, as Norges Bank gives it, the
    /// same. Switzerland: five rappen, the worked payments 19.32 → 19.30 (Post, told by SRF
    /// Espresso) and 16.97 → 16.95, 16.99 → 17.00 (a till's manual). New Zealand: ten cents, where
    /// the Retailers Association recommended 1 to 5 down and 6 to 9 up, and others do 5 up.
    #[test]
    fn cash_is_rounded_as_each_place_does_it() {
        for (code, step, rounding, due, paid) in [
            ("SEK", 100, Rounding::HalfUp, 10_049, 10_000),
            ("SEK", 100, Rounding::HalfUp, 10_050, 10_100),
            ("NOK", 100, Rounding::HalfUp, 101, 100),
            ("NOK", 100, Rounding::HalfUp, 199, 200),
            ("CHF", 5, Rounding::HalfUp, 1_932, 1_930),
            ("CHF", 5, Rounding::HalfUp, 1_697, 1_695),
            ("CHF", 5, Rounding::HalfUp, 1_699, 1_700),
            ("NZD", 10, Rounding::HalfDown, 1_045, 1_040),
            ("NZD", 10, Rounding::HalfDown, 1_046, 1_050),
            ("NZD", 10, Rounding::HalfUp, 1_045, 1_050),
        ] {
            let cash = CashRounding { step, rounding };
            assert_eq!(
                cash.of(money(due, code)),
                Ok(money(paid, code)),
                "{code} {due}"
            );
        }
    }

    /// Streamlined Sales and Use Tax Agreement §324 (seller may round by item or by invoice), here
    /// with three lines of 10.10 at 7.25 %: 0.73 each is 2.19; on the invoice 2.19675 is 2.20.
    #[test]
    fn rounding_by_line_and_by_total_differ_as_the_agreement_says() {
        for (step, cents) in [(TaxStep::PerLine, 219), (TaxStep::PerTotal, 220)] {
            let usd = Currency::parse("USD").unwrap();
            let mut sheet = TaxSheet::new(rules(TaxBasis::Added, step, Rounding::HalfUp), usd);
            for _ in 0..3 {
                sheet
                    .add(money(1_010, "USD"), Rate::parse("7.25").unwrap())
                    .unwrap();
            }
            assert_eq!(sheet.finish().unwrap().1, money(cents, "USD"));
        }
    }

    /// HMRC VAT guide (Notice 700): the VAT fraction of a price including 20 % is 1/6.
    #[test]
    fn included_tax_is_the_vat_fraction() {
        let included = rules(TaxBasis::Included, TaxStep::PerTotal, Rounding::HalfUp);
        let twenty = Rate::parse("20").unwrap();
        assert_eq!(
            included.on(money(8_999, "GBP"), twenty),
            Ok(money(1_500, "GBP"))
        );
        assert_eq!(
            included.on(money(600, "GBP"), twenty),
            Ok(money(100, "GBP"))
        );
    }

    #[test]
    fn halves_go_where_the_mode_says() {
        for (mode, thousandths, result) in [
            (Rounding::HalfUp, 2_345, 235),
            (Rounding::HalfDown, 2_345, 234),
            (Rounding::HalfDown, 2_346, 235),
            (Rounding::HalfEven, 2_345, 234),
            (Rounding::HalfUp, 125, 13),
            (Rounding::HalfEven, 125, 12),
            (Rounding::Down, 129, 12),
            (Rounding::Up, 121, 13),
            (Rounding::HalfUp, -125, -13),
        ] {
            assert_eq!(
                mode.divide(thousandths, 10),
                result,
                "{mode:?} {thousandths}"
            );
        }
    }
}

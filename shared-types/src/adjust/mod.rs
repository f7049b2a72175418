//! What comes on top of the lines of a scope, or off them: rush, discount, minimum charge.
//!
//! In this order, each in whole minor units, a half rounded away from zero:
//!
//! 1. **Rush**: a percentage of the lines' labour.
//! 2. **Discount**: a percentage of lines and rush, or an amount; never more than lines and rush.
//! 3. **Minimum**: tops up what is left. What is free (nothing to pay, or all of it given as a
//!    discount) stays free.
//!
//! Then tax. For tax a discount comes off the lines first, and off the rush only what is left of
//! it, so that rush never changes what a line is taxed on. Over labour and goods, and there over
//! the lines, it is spread in proportion by the largest remainder (Hamilton's method), so that no
//! unit is made or lost. Rush and minimum are one amount of labour.

#[cfg(test)]
mod tests;

use serde::{Deserialize, Serialize};

use crate::form::Problem;
use crate::money::{Currency, Money, MoneyProblem};
use crate::price::PriceRules;
use crate::tax::{Rate, Rounding};
use crate::text::Line;

/// What was agreed on a scope besides its lines.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct ScopeTerms {
    /// Whether it goes before others, for the shop's surcharge.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub rush: bool,
    /// What is taken off the price.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub discount: Option<Discount>,
}

impl ScopeTerms {
    /// Nothing besides the lines.
    pub const PLAIN: Self = Self {
        rush: false,
        discount: None,
    };

    /// Whether there is nothing besides the lines.
    pub const fn is_plain(&self) -> bool {
        !self.rush && self.discount.is_none()
    }
}

/// A discount with its reason.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Discount {
    /// How much.
    pub by: DiscountBy,
    /// Why, as the customer reads it: `second pair`.
    pub reason: Line,
}

/// How much a discount is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum DiscountBy {
    /// So much of the price before tax.
    Percent(Rate),
    /// So much.
    Amount(Money),
}

impl DiscountBy {
    /// Reads `10 %` or an amount such as `15.00`; nothing typed, or zero, means none.
    pub fn parse_optional(text: &str, currency: Currency) -> Result<Option<Self>, Problem> {
        let text = text.trim();
        if text.is_empty() {
            return Ok(None);
        }
        if text.ends_with('%') {
            let rate = Rate::parse(text)?;
            return Ok((rate != Rate::ZERO).then_some(Self::Percent(rate)));
        }
        let amount = Money::parse(text, currency)?;
        Ok(amount.is_positive().then_some(Self::Amount(amount)))
    }

    /// As it is typed into a form: `10 %` or `15.00`.
    pub fn figure(self) -> String {
        match self {
            Self::Percent(rate) => format!("{rate} %"),
            Self::Amount(amount) => amount.figure(),
        }
    }

    /// What it comes to on this amount, were it not more than that.
    fn of(self, on: Money) -> Result<Money, MoneyProblem> {
        match self {
            Self::Percent(rate) => share(on, rate),
            Self::Amount(amount) => Ok(amount),
        }
    }
}

/// One step between the sum of the lines and tax.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", tag = "kind")]
pub enum Adjustment {
    /// The surcharge for rush.
    Rush {
        /// The percentage.
        rate: Rate,
        /// The labour that it is taken of.
        on: Money,
        /// What it adds.
        amount: Money,
    },
    /// The discount.
    Discount {
        /// As it was given.
        by: DiscountBy,
        /// Why.
        reason: Line,
        /// Lines and rush, off which it comes.
        on: Money,
        /// What it takes off, as an amount of zero or more.
        amount: Money,
    },
    /// What was missing to the minimum charge.
    Minimum {
        /// The minimum charge.
        minimum: Money,
        /// What there was.
        on: Money,
        /// What it adds.
        amount: Money,
    },
}

impl Adjustment {
    /// What it does to the price: below zero for a discount.
    pub fn signed(&self) -> Result<Money, MoneyProblem> {
        match self {
            Self::Rush { amount, .. } | Self::Minimum { amount, .. } => Ok(*amount),
            Self::Discount { amount, .. } => Money::zero(amount.currency()).minus(*amount),
        }
    }

    /// Its name on a bill.
    pub fn title(&self) -> String {
        match self {
            Self::Rush { .. } => "Rush".to_owned(),
            Self::Discount { reason, .. } => format!("Discount, {reason}"),
            Self::Minimum { .. } => "Up to the minimum charge".to_owned(),
        }
    }

    /// How its amount came about.
    pub fn how(&self) -> String {
        match self {
            Self::Rush { rate, .. } if *rate == Rate::ZERO => {
                "the shop takes no surcharge for it.".to_owned()
            }
            Self::Rush { rate, on, amount } => format!("{rate} % of labour {on} = {amount}."),
            Self::Discount {
                by: DiscountBy::Percent(rate),
                on,
                amount,
                ..
            } => format!("{rate} % of {on} = {amount} off."),
            Self::Discount {
                by: DiscountBy::Amount(asked),
                amount,
                ..
            } if asked == amount => format!("{amount} off."),
            Self::Discount {
                by: DiscountBy::Amount(asked),
                amount,
                ..
            } => format!("of {asked}, {amount} is off: a price is never below zero."),
            Self::Minimum {
                minimum,
                on,
                amount,
            } => format!("{on} + {amount} = {minimum}, the least that a job costs."),
        }
    }
}

/// A scope's amounts after its adjustments, as they are taxed.
pub(crate) struct Adjusted {
    /// The steps, in their order.
    pub adjustments: Vec<Adjustment>,
    /// Labour and goods of each line, less its part of the discount.
    pub lines: Vec<[Money; 2]>,
    /// Rush and minimum, less what the discount took of the rush; taxed as labour.
    pub charges: Money,
    /// All of it: the price before tax is added, or with the tax that it includes.
    pub sum: Money,
}

/// Works out the steps on lines that come as labour and goods for tax; `labour` is what rush is
/// taken of.
pub(crate) fn adjust(
    lines: &[[Money; 2]],
    labour: Money,
    terms: &ScopeTerms,
    rules: &PriceRules,
) -> Result<Adjusted, MoneyProblem> {
    let currency = rules.currency();
    let nothing = Money::zero(currency);
    let mut adjustments = Vec::new();
    let subtotal = Money::sum(lines.iter().flatten().copied(), currency)?;
    let mut charges = nothing;
    if terms.rush {
        charges = share(labour, rules.rush)?;
        adjustments.push(Adjustment::Rush {
            rate: rules.rush,
            on: labour,
            amount: charges,
        });
    }
    let mut lines = lines.to_vec();
    if let Some(Discount { by, reason }) = &terms.discount {
        let on = subtotal.plus(charges)?;
        let amount = off(*by, on)?;
        let of_lines = off(*by, subtotal)?;
        charges = charges.minus(amount.minus(of_lines)?)?;
        take_off(&mut lines, of_lines)?;
        adjustments.push(Adjustment::Discount {
            by: *by,
            reason: reason.clone(),
            on,
            amount,
        });
    }
    let sum = Money::sum(lines.iter().flatten().copied(), currency)?.plus(charges)?;
    let least = rules
        .minimum
        .filter(|least| sum.is_positive() && sum.minor() < least.minor());
    let Some(minimum) = least else {
        return Ok(Adjusted {
            adjustments,
            lines,
            charges,
            sum,
        });
    };
    let amount = minimum.minus(sum)?;
    adjustments.push(Adjustment::Minimum {
        minimum,
        on: sum,
        amount,
    });
    Ok(Adjusted {
        adjustments,
        lines,
        charges: charges.plus(amount)?,
        sum: minimum,
    })
}

/// What a discount takes off an amount: never more than there is, and of less than nothing nothing.
fn off(by: DiscountBy, on: Money) -> Result<Money, MoneyProblem> {
    if on.is_positive() {
        Ok(least(by.of(on)?, on))
    } else {
        Ok(Money::zero(on.currency()))
    }
}

/// Takes a discount off the lines: over labour and goods, then over the lines of each.
fn take_off(lines: &mut [[Money; 2]], discount: Money) -> Result<(), MoneyProblem> {
    let currency = discount.currency();
    let class = |class: usize| Money::sum(lines.iter().map(|line| line[class]), currency);
    let classes = spread(discount, &[class(0)?, class(1)?])?;
    for (class, of_class) in classes.into_iter().enumerate() {
        let amounts: Vec<Money> = lines.iter().map(|line| line[class]).collect();
        for (line, off) in lines.iter_mut().zip(spread(of_class, &amounts)?) {
            line[class] = line[class].minus(off)?;
        }
    }
    Ok(())
}

/// Spreads an amount over others in proportion to them, without making or losing a unit: each
/// gets its share rounded down, and the units that are left go to the largest remainders; of equal
/// ones to the larger amount, so that the order makes no difference.
fn spread(amount: Money, over: &[Money]) -> Result<Vec<Money>, MoneyProblem> {
    let sum: i128 = over.iter().map(|one| i128::from(one.minor())).sum();
    // Credits may bring the sum below zero; with both signs turned the shares stay what they are.
    let parts = sum.abs().max(1);
    let product = |one: &Money| sum.signum() * i128::from(amount.minor()) * i128::from(one.minor());
    let share = |one: &Money| product(one).div_euclid(parts);
    let mut shares: Vec<i128> = over.iter().map(share).collect();
    let mut left = i128::from(amount.minor()) - shares.iter().sum::<i128>();
    let mut places: Vec<usize> = (0..over.len()).collect();
    places.sort_by_key(|place| {
        let one = &over[*place];
        std::cmp::Reverse((product(one).rem_euclid(parts), one.minor()))
    });
    for place in places {
        if left > 0 {
            shares[place] += 1;
            left -= 1;
        }
    }
    let money = |share: i128| {
        let minor = i64::try_from(share).map_err(|_| MoneyProblem::TooLarge)?;
        Money::new(minor, amount.currency())
    };
    shares.into_iter().map(money).collect()
}

/// So much of an amount, to the minor unit, a half up.
pub(crate) fn share(of: Money, rate: Rate) -> Result<Money, MoneyProblem> {
    let parts = i128::from(of.minor()) * i128::from(rate.parts());
    let share = Rounding::HalfUp.divide(parts, 1_000_000);
    let minor = i64::try_from(share).map_err(|_| MoneyProblem::TooLarge)?;
    Money::new(minor, of.currency())
}

/// The smaller of two amounts of one currency.
pub(crate) fn least(one: Money, other: Money) -> Money {
    if one.minor() < other.minor() {
        one
    } else {
        other
    }
}

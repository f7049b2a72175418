//! What a scope costs: minutes × rate + material, rounded by the shop's rule, with rush, discount
//! and minimum charge, and with tax.

use serde::{Deserialize, Serialize};

use crate::adjust::{Adjusted, Adjustment, DiscountBy, ScopeTerms, adjust, least, share};
use crate::money::{Currency, Money, MoneyProblem};
use crate::scope::ScopeLine;
use crate::tax::{CashRounding, Rate, Rounding, TaxAmount, TaxBasis, TaxRules, TaxSheet};

/// The shop's price rules.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct PriceRules {
    /// For one hour at the bench; its currency is the shop's.
    pub hourly: Money,
    /// A line's price is rounded up to a multiple of this many minor units; 1 leaves it exact.
    pub round_up_to: u32,
    /// Tax.
    pub tax: TaxRules,
    /// Rounding of what is paid in cash, where the place has it.
    pub cash: Option<CashRounding>,
    /// The least that a scope costs, before tax is added, or with the tax that prices include.
    #[serde(default)]
    pub minimum: Option<Money>,
    /// What rush adds, of the labour; zero where the shop takes nothing for it.
    #[serde(default)]
    pub rush: Rate,
    /// What is asked for at taking in, of the total; zero where nothing is.
    #[serde(default)]
    pub deposit: Rate,
}

impl PriceRules {
    /// The shop's currency.
    pub const fn currency(&self) -> Currency {
        self.hourly.currency()
    }

    /// The deposit that is asked for on a total, a half unit up, and as cash is rounded, so that it
    /// can be paid in coins, but never more than the total; nothing if none is.
    pub fn deposit_on(&self, total: Money) -> Result<Option<Money>, MoneyProblem> {
        let deposit = share(total, self.deposit)?;
        let deposit = self.cash.map_or(Ok(deposit), |cash| cash.of(deposit))?;
        let deposit = least(deposit, total);
        Ok(deposit.is_positive().then_some(deposit))
    }

    /// The deposits on these totals together; nothing if none is asked for.
    pub fn deposit_on_all(&self, totals: &[Money]) -> Result<Option<Money>, MoneyProblem> {
        let each = totals.iter().map(|total| self.deposit_on(*total));
        let each = each.collect::<Result<Vec<_>, _>>()?;
        let sum = Money::sum(each.into_iter().flatten(), self.currency())?;
        Ok(sum.is_positive().then_some(sum))
    }
}

/// How one line's price came about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct PricedLine {
    /// Minutes × hourly rate; of a set price what is left beside its material.
    pub labour: Money,
    /// Material: what the line has besides, and its supplies.
    pub material: Money,
    /// What rounding the line's price up added.
    pub rounded_up: Money,
    /// The line's price: labour + material + what rounding added.
    pub price: Money,
}

/// A scope's price, line by line, as it is shown and agreed.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Quote {
    /// The hourly rate that it was worked out with.
    pub hourly: Money,
    /// In the order of the scope's lines.
    pub lines: Vec<PricedLine>,
    /// The sum of the lines.
    pub subtotal: Money,
    /// Rush, discount and minimum, in the order in which they change the subtotal.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub adjustments: Vec<Adjustment>,
    /// What the adjustments leave to be taxed, if there are any; none in quotes from before it was
    /// kept.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub taxed: Option<Parts>,
    /// Tax by rate.
    pub taxes: Vec<TaxAmount>,
    /// Whether [`Quote::taxes`] come on top of the adjusted subtotal or are in it.
    pub basis: TaxBasis,
    /// What the customer pays.
    pub total: Money,
}

/// A price as it is taxed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Parts {
    /// Labour, with rush and minimum charge.
    pub labour: Money,
    /// Goods.
    pub goods: Money,
}

impl Parts {
    fn of(
        lines: impl IntoIterator<Item = [Money; 2]>,
        charges: Money,
    ) -> Result<Self, MoneyProblem> {
        let (mut labour, mut goods) = (charges, Money::zero(charges.currency()));
        for [of_labour, of_goods] in lines {
            labour = labour.plus(of_labour)?;
            goods = goods.plus(of_goods)?;
        }
        Ok(Self { labour, goods })
    }
}

impl Quote {
    /// The lines as they are taxed, before any adjustment.
    pub fn parts_of_lines(&self) -> Result<Parts, MoneyProblem> {
        let classes = self.lines.iter().map(for_tax);
        let classes = classes.collect::<Result<Vec<_>, _>>()?;
        Parts::of(classes, Money::zero(self.hourly.currency()))
    }

    /// The lines with their adjustments: the price before tax is added, or with the tax that is
    /// in it.
    pub fn adjusted(&self) -> Result<Money, MoneyProblem> {
        let mut steps = self.adjustments.iter();
        steps.try_fold(self.subtotal, |sum, step| sum.plus(step.signed()?))
    }

    /// The amount of a discount that is larger than what it comes off, and what that is.
    pub fn discount_beyond(&self) -> Option<(Money, Money)> {
        self.adjustments.iter().find_map(|step| match step {
            Adjustment::Discount {
                by: DiscountBy::Amount(asked),
                on,
                amount,
                ..
            } if asked != amount => Some((*asked, *on)),
            Adjustment::Discount { .. } | Adjustment::Rush { .. } | Adjustment::Minimum { .. } => {
                None
            }
        })
    }
}

/// Prices a scope.
///
/// Each line: labour = minutes × hourly / 60, half up; labour + material is rounded up to the
/// shop's step, and what that adds is taxed as labour (as goods where there is no labour). A set
/// price stands as it is: its material is taxed as goods, the rest as labour.
/// Then rush, discount and minimum as [`crate::adjust`] says, then tax by the shop's rules.
pub fn quote(
    lines: &[ScopeLine],
    terms: &ScopeTerms,
    rules: &PriceRules,
) -> Result<Quote, MoneyProblem> {
    let currency = rules.currency();
    let priced = lines.iter().map(|line| price_line(line, rules));
    let priced = priced.collect::<Result<Vec<_>, _>>()?;
    let subtotal = Money::sum(priced.iter().map(|line| line.price), currency)?;
    let labour = Money::sum(priced.iter().map(|line| line.labour), currency)?;
    let classes = priced.iter().map(for_tax).collect::<Result<Vec<_>, _>>()?;
    let Adjusted {
        adjustments,
        lines,
        charges,
        sum,
    } = adjust(&classes, labour, terms, rules)?;
    let taxed = Parts::of(lines.iter().copied(), charges)?;
    let taxed = (!adjustments.is_empty()).then_some(taxed);
    let (taxes, tax) = taxes(&lines, charges, rules)?;
    Ok(Quote {
        hourly: rules.hourly,
        lines: priced,
        subtotal,
        adjustments,
        taxed,
        taxes,
        basis: rules.tax.basis,
        total: match rules.tax.basis {
            TaxBasis::Added => sum.plus(tax)?,
            TaxBasis::Included => sum,
        },
    })
}

/// A line's price as it is taxed: as labour, and as goods.
pub(crate) fn for_tax(line: &PricedLine) -> Result<[Money; 2], MoneyProblem> {
    Ok(if line.labour.is_zero() {
        [line.labour, line.material.plus(line.rounded_up)?]
    } else {
        [line.labour.plus(line.rounded_up)?, line.material]
    })
}

/// Tax by rate, and its sum. Labour and goods of a line are one amount where their rates are one.
pub(crate) fn taxes(
    lines: &[[Money; 2]],
    charges: Money,
    rules: &PriceRules,
) -> Result<(Vec<TaxAmount>, Money), MoneyProblem> {
    let mut taxes = TaxSheet::new(rules.tax, rules.currency());
    for [labour, goods] in lines {
        if rules.tax.labour == rules.tax.goods {
            taxes.add(labour.plus(*goods)?, rules.tax.labour)?;
        } else {
            taxes.add(*labour, rules.tax.labour)?;
            taxes.add(*goods, rules.tax.goods)?;
        }
    }
    taxes.add(charges, rules.tax.labour)?;
    taxes.finish()
}

fn price_line(line: &ScopeLine, rules: &PriceRules) -> Result<PricedLine, MoneyProblem> {
    let currency = rules.currency();
    let exact = Rounding::HalfUp.divide(
        i128::from(line.minutes.get()) * i128::from(rules.hourly.minor()),
        60,
    );
    let labour = Money::new(
        i64::try_from(exact).map_err(|_| MoneyProblem::TooLarge)?,
        currency,
    )?;
    let uses = line.uses.iter().map(|used| used.amount);
    let material = line.material.plus(Money::sum(uses, currency)?)?;
    if let Some(price) = line.set_price {
        // What goods a set price can't carry, the shop gives.
        let goods = if price.minus(material)?.minor() < 0 {
            price
        } else {
            material
        };
        return Ok(PricedLine {
            labour: price.minus(goods)?,
            material: goods,
            rounded_up: Money::zero(currency),
            price,
        });
    }
    let sum = labour.plus(material)?;
    let price = CashRounding {
        step: rules.round_up_to,
        rounding: Rounding::Up,
    }
    .of(sum)?;
    Ok(PricedLine {
        labour,
        material,
        rounded_up: price.minus(sum)?,
        price,
    })
}

#[cfg(test)]
mod tests;

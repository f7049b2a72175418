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
    /// Tax by rate.
    pub taxes: Vec<TaxAmount>,
    /// Whether [`Quote::taxes`] come on top of the adjusted subtotal or are in it.
    pub basis: TaxBasis,
    /// What the customer pays.
    pub total: Money,
}

impl Quote {
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
    let (taxes, tax) = taxes(&lines, charges, rules)?;
    Ok(Quote {
        hourly: rules.hourly,
        lines: priced,
        subtotal,
        adjustments,
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
mod tests {
    use super::*;
    use crate::minutes::Minutes;
    use crate::scope::Side;
    use crate::stage::Stage;
    use crate::tax::{Rate, TaxStep};
    use crate::text::Line;
    use proptest::prelude::{ProptestConfig, any, prop_assert_eq, proptest};

    fn line(minutes: u32, material: i64, code: &str) -> ScopeLine {
        ScopeLine {
            service: None,
            title: Line::parse("Work").unwrap(),
            reason: None,
            side: Side::Pair,
            stage: Stage::Soling,
            minutes: Minutes::new(minutes),
            rest: Minutes::ZERO,
            material: Money::new(material, Currency::parse(code).unwrap()).unwrap(),
            uses: Vec::new(),
            set_price: None,
        }
    }

    fn rules(hourly: i64, code: &str, rate: &str, round_up_to: u32) -> PriceRules {
        let rate = Rate::parse(rate).unwrap();
        PriceRules {
            hourly: Money::new(hourly, Currency::parse(code).unwrap()).unwrap(),
            round_up_to,
            tax: TaxRules {
                labour: rate,
                goods: rate,
                basis: TaxBasis::Added,
                step: TaxStep::PerTotal,
                rounding: Rounding::HalfUp,
            },
            cash: None,
            minimum: None,
            rush: Rate::ZERO,
            deposit: Rate::ZERO,
        }
    }

    /// A worked estimate with invented prices and exact arithmetic: 225 min at 72.00 an hour and
    /// material 23.37 + 0.89 + 6.50 + 4.00, tax 8.25 % on the invoice; then 242 min and
    /// 8.81 + 16.80 + 3.96 + 1.50 more.
    #[test]
    fn the_worked_estimate_adds_up_to_the_cent() {
        let rules = rules(7_200, "USD", "8.25", 1);
        let first = [(225, 0), (0, 2_337), (0, 89), (0, 650), (0, 400)];
        let added = [(242, 0), (0, 881), (0, 1_680), (0, 396), (0, 150)];
        let lines = |parts: &[(u32, i64)]| -> Vec<ScopeLine> {
            parts
                .iter()
                .map(|(minutes, material)| line(*minutes, *material, "USD"))
                .collect()
        };
        let before = quote(&lines(&first), &ScopeTerms::PLAIN, &rules).unwrap();
        assert_eq!(before.subtotal.minor(), 30_476);
        assert_eq!(before.taxes[0].tax.minor(), 2_514);
        assert_eq!(before.total.minor(), 32_990);
        let after = quote(&lines(&[first, added].concat()), &ScopeTerms::PLAIN, &rules).unwrap();
        assert_eq!(
            (after.subtotal.minor(), after.total.minor()),
            (62_623, 67_789)
        );
        assert_eq!(
            after.total.minus(before.total).unwrap().to_string(),
            "$347.99"
        );
    }

    #[test]
    fn shops_without_cents_and_with_thousandths_work_too() {
        let yen = quote(
            &[line(45, 1_800, "JPY")],
            &ScopeTerms::PLAIN,
            &rules(7_000, "JPY", "10", 100),
        )
        .unwrap();
        assert_eq!((yen.subtotal.minor(), yen.total.minor()), (7_100, 7_810));
        let dinar = quote(
            &[line(20, 1_250, "KWD")],
            &ScopeTerms::PLAIN,
            &rules(9_000, "KWD", "0", 250),
        )
        .unwrap();
        assert_eq!(dinar.total.to_string(), "4.250\u{a0}KWD");
    }

    #[test]
    fn nothing_costs_nothing_and_too_much_is_said() {
        let rules = rules(6_800, "USD", "6.25", 50);
        assert!(
            quote(&[line(0, 0, "USD")], &ScopeTerms::PLAIN, &rules)
                .unwrap()
                .total
                .is_zero()
        );
        assert!(
            quote(&[], &ScopeTerms::PLAIN, &rules)
                .unwrap()
                .total
                .is_zero()
        );
        let too_much = quote(&[line(1, Money::LIMIT, "USD")], &ScopeTerms::PLAIN, &rules);
        assert_eq!(too_much, Err(MoneyProblem::TooLarge));
        let mixed = quote(&[line(1, 1, "EUR")], &ScopeTerms::PLAIN, &rules);
        assert_eq!(mixed, Err(MoneyProblem::MixedCurrencies));
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(500))]
        #[test]
        fn no_unit_is_made_or_lost_and_the_order_of_lines_does_not_matter(
            parts in proptest::collection::vec((0_u32..2_000, 0_i64..5_000_000), 0..12),
            included in any::<bool>(),
            per_line in any::<bool>(),
            rate in 0_u32..300_000,
        ) {
            let mut rules = rules(6_800, "USD", "0", 50);
            rules.tax.goods = Rate::parse(&format!("{}.{:04}", rate / 10_000, rate % 10_000)).unwrap();
            rules.tax.basis = if included { TaxBasis::Included } else { TaxBasis::Added };
            rules.tax.step = if per_line { TaxStep::PerLine } else { TaxStep::PerTotal };
            let lines: Vec<_> = parts.iter().map(|(minutes, material)| line(*minutes, *material, "USD")).collect();
            let forth = quote(&lines, &ScopeTerms::PLAIN, &rules).unwrap();
            let back: Vec<_> = lines.iter().rev().cloned().collect();
            let back = quote(&back, &ScopeTerms::PLAIN, &rules).unwrap();
            prop_assert_eq!(back.total, forth.total);
            let sum: i64 = forth.lines.iter().map(|line| line.labour.minor() + line.material.minor() + line.rounded_up.minor()).sum();
            prop_assert_eq!(sum, forth.subtotal.minor());
            let tax: i64 = forth.taxes.iter().map(|entry| entry.tax.minor()).sum();
            prop_assert_eq!(forth.total.minor(), if included { sum } else { sum + tax });
        }
    }
}

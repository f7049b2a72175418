//! What a scope costs: minutes × rate + material, rounded by the shop's rule, with tax.

use serde::{Deserialize, Serialize};

use crate::money::{Currency, Money, MoneyProblem};
use crate::scope::ScopeLine;
use crate::tax::{CashRounding, Rounding, TaxAmount, TaxBasis, TaxRules, TaxSheet};

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
}

impl PriceRules {
    /// The shop's currency.
    pub const fn currency(&self) -> Currency {
        self.hourly.currency()
    }
}

/// How one line's price came about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct PricedLine {
    /// Minutes × hourly rate.
    pub labour: Money,
    /// Material.
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
    /// Tax by rate.
    pub taxes: Vec<TaxAmount>,
    /// Whether [`Quote::taxes`] come on top of the subtotal or are in it.
    pub basis: TaxBasis,
    /// What the customer pays.
    pub total: Money,
}

/// Prices a scope.
///
/// Each line: labour = minutes × hourly / 60, half up; labour + material is rounded up to the
/// shop's step, and what that adds is taxed as labour (as goods where there is no labour).
/// Then tax by the shop's rules.
pub fn quote(lines: &[ScopeLine], rules: &PriceRules) -> Result<Quote, MoneyProblem> {
    let currency = rules.currency();
    let mut taxes = TaxSheet::new(rules.tax, currency);
    let mut priced = Vec::with_capacity(lines.len());
    for line in lines {
        let line = price_line(line, rules)?;
        let (labour, goods) = if line.labour.is_zero() {
            (line.labour, line.material.plus(line.rounded_up)?)
        } else {
            (line.labour.plus(line.rounded_up)?, line.material)
        };
        taxes.add(labour, rules.tax.labour)?;
        taxes.add(goods, rules.tax.goods)?;
        priced.push(line);
    }
    let subtotal = Money::sum(priced.iter().map(|line| line.price), currency)?;
    let (taxes, tax) = taxes.finish()?;
    let total = match rules.tax.basis {
        TaxBasis::Added => subtotal.plus(tax)?,
        TaxBasis::Included => subtotal,
    };
    Ok(Quote {
        hourly: rules.hourly,
        lines: priced,
        subtotal,
        taxes,
        basis: rules.tax.basis,
        total,
    })
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
    let sum = labour.plus(line.material)?;
    let price = CashRounding {
        step: rules.round_up_to,
        rounding: Rounding::Up,
    }
    .of(sum)?;
    Ok(PricedLine {
        labour,
        material: line.material,
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
        let before = quote(&lines(&first), &rules).unwrap();
        assert_eq!(before.subtotal.minor(), 30_476);
        assert_eq!(before.taxes[0].tax.minor(), 2_514);
        assert_eq!(before.total.minor(), 32_990);
        let after = quote(&lines(&[first, added].concat()), &rules).unwrap();
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
        let yen = quote(&[line(45, 1_800, "JPY")], &rules(7_000, "JPY", "10", 100)).unwrap();
        assert_eq!((yen.subtotal.minor(), yen.total.minor()), (7_100, 7_810));
        let dinar = quote(&[line(20, 1_250, "KWD")], &rules(9_000, "KWD", "0", 250)).unwrap();
        assert_eq!(dinar.total.to_string(), "4.250\u{a0}KWD");
    }

    #[test]
    fn nothing_costs_nothing_and_too_much_is_said() {
        let rules = rules(6_800, "USD", "6.25", 50);
        assert!(quote(&[line(0, 0, "USD")], &rules).unwrap().total.is_zero());
        assert!(quote(&[], &rules).unwrap().total.is_zero());
        let too_much = quote(&[line(1, Money::LIMIT, "USD")], &rules);
        assert_eq!(too_much, Err(MoneyProblem::TooLarge));
        let mixed = quote(&[line(1, 1, "EUR")], &rules);
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
            let forth = quote(&lines, &rules).unwrap();
            let back: Vec<_> = lines.iter().rev().cloned().collect();
            let back = quote(&back, &rules).unwrap();
            prop_assert_eq!(back.total, forth.total);
            let sum: i64 = forth.lines.iter().map(|line| line.labour.minor() + line.material.minor() + line.rounded_up.minor()).sum();
            prop_assert_eq!(sum, forth.subtotal.minor());
            let tax: i64 = forth.taxes.iter().map(|entry| entry.tax.minor()).sum();
            prop_assert_eq!(forth.total.minor(), if included { sum } else { sum + tax });
        }
    }
}

//! What work costs the shop, and what is left of its price. For the owner only; see [`crate::supply::kept`].

use crate::money::{Money, MoneyProblem};
use crate::price::{PriceRules, PricedLine, Quote, for_tax, taxes};
use crate::pricebook::Supplies;
use crate::scope::{Scope, ScopeLine};
use crate::tax::{Rounding, TaxBasis};
use crate::text::Line;

/// What the shop pays.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Costs {
    /// For an hour at the bench, if its owner has said so.
    pub hour: Option<Money>,
    /// For its supplies.
    pub supplies: Supplies,
}

impl Costs {
    /// A scope's margin, once it is known what an hour costs.
    pub fn margin(
        &self,
        scope: &Scope,
        rules: &PriceRules,
    ) -> Option<Result<Margin, MoneyProblem>> {
        let hour = self.hour?;
        Some(margin(
            (&scope.lines, &scope.quote),
            rules,
            &self.supplies,
            hour,
        ))
    }
}

/// What one line costs and leaves.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LineMargin {
    /// The line.
    pub title: Line,
    /// Its sums.
    pub sums: Sums,
}

/// Costs, price and what is left.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Sums {
    /// Bench time at what an hour costs the shop.
    pub labour: Money,
    /// Material at cost, with its waste.
    pub material: Money,
    /// The price before tax.
    pub price: Money,
    /// Price less labour and material.
    pub margin: Money,
}

/// What a scope costs and leaves, line by line.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Margin {
    /// What an hour at the bench costs.
    pub hour: Money,
    /// The lines, in their order.
    pub lines: Vec<LineMargin>,
    /// What the whole price has beside its lines: what is charged or let off for the whole, and
    /// the rounding of tax that is in the lines' prices.
    pub beside: Money,
    /// The whole.
    pub total: Sums,
    /// Whether some material has no supply: it counts at what is charged for it.
    pub guessed: bool,
}

impl Sums {
    fn new(labour: Money, material: Money, price: Money) -> Result<Self, MoneyProblem> {
        Ok(Self {
            labour,
            material,
            price,
            margin: price.minus(labour)?.minus(material)?,
        })
    }

    /// The margin in thousandths of the price; nothing without a price.
    pub fn share(&self) -> Option<i64> {
        if !self.price.is_positive() {
            return None;
        }
        let thousandths = i128::from(self.margin.minor()) * 1_000;
        let share = Rounding::HalfUp.divide(thousandths, i128::from(self.price.minor()));
        i64::try_from(share).ok()
    }

    /// The margin in percent of the price: `41.3 %`.
    pub fn percent(&self) -> Option<String> {
        let share = self.share()?;
        let sign = if share < 0 { "\u{2212}" } else { "" };
        let share = share.unsigned_abs();
        Some(format!("{sign}{}.{} %", share / 10, share % 10))
    }
}

/// Works out at today's costs what lines and their quote leave.
pub fn margin(
    (lines, quote): (&[ScopeLine], &Quote),
    rules: &PriceRules,
    supplies: &Supplies,
    hour: Money,
) -> Result<Margin, MoneyProblem> {
    let currency = hour.currency();
    let mut margins = Vec::with_capacity(lines.len());
    let mut guessed = false;
    for (line, priced) in lines.iter().zip(&quote.lines) {
        let labour = Rounding::HalfUp.divide(
            i128::from(line.minutes.get()) * i128::from(hour.minor()),
            60,
        );
        let labour = i64::try_from(labour).map_err(|_| MoneyProblem::TooLarge)?;
        let labour = Money::new(labour, currency)?;
        let mut material = line.material;
        guessed |= !line.material.is_zero();
        for used in &line.uses {
            let cost = match supplies.get(&used.supply) {
                // A supply that is now counted otherwise can't tell what this quantity costs.
                Some(supply) if supply.unit == used.unit => used.at(supply.cost)?,
                _ => {
                    guessed = true;
                    used.amount
                }
            };
            material = material.plus(cost)?;
        }
        margins.push(LineMargin {
            title: line.title.clone(),
            sums: Sums::new(labour, material, before_tax(priced, quote.basis, rules)?)?,
        });
    }
    let sum =
        |of: fn(&Sums) -> Money| Money::sum(margins.iter().map(|line| of(&line.sums)), currency);
    let tax = Money::sum(quote.taxes.iter().map(|tax| tax.tax), currency)?;
    let price = quote.total.minus(tax)?;
    Ok(Margin {
        hour,
        beside: price.minus(sum(|sums| sums.price)?)?,
        total: Sums::new(sum(|sums| sums.labour)?, sum(|sums| sums.material)?, price)?,
        lines: margins,
        guessed,
    })
}

/// A line's price without the tax that may be in it.
fn before_tax(
    line: &PricedLine,
    basis: TaxBasis,
    rules: &PriceRules,
) -> Result<Money, MoneyProblem> {
    if basis == TaxBasis::Added {
        return Ok(line.price);
    }
    let (_, tax) = taxes(&[for_tax(line)?], Money::zero(line.price.currency()), rules)?;
    line.price.minus(tax)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::adjust::ScopeTerms;
    use crate::bench::take_off::TakeOffs;
    use crate::id::{ServiceId, SupplyId};
    use crate::minutes::Minutes;
    use crate::money::Currency;
    use crate::price::quote;
    use crate::pricebook::{BookEntry, Planned};
    use crate::stage::Stage;
    use crate::supply::kept::Supply;
    use crate::supply::sold::HowMuch;
    use crate::supply::{Percent, Quantity, SupplyUnit};
    use crate::tax::{Rate, TaxRules, TaxStep};
    use crate::ticket::Construction;

    fn usd(minor: i64) -> Money {
        Money::new(minor, Currency::USD).unwrap()
    }

    fn rules(basis: TaxBasis) -> PriceRules {
        PriceRules {
            hourly: usd(7_200),
            tax: TaxRules {
                labour: Rate::ZERO,
                goods: Rate::parse("8.25").unwrap(),
                basis,
                step: TaxStep::PerTotal,
                rounding: Rounding::HalfUp,
            },
            ..crate::shop::Shop::new(
                Line::parse("Juniper Row").unwrap(),
                crate::text::Words::parse("14 Juniper Row").unwrap(),
                crate::contact::Email::parse("bench@example.com").unwrap(),
            )
            .prices
        }
    }

    fn supplies() -> Supplies {
        let welting = Supply {
            id: SupplyId::from_bytes([7; 16]),
            name: Line::parse("Leather welting").unwrap(),
            unit: SupplyUnit::Metre,
            cost: usd(520),
            waste: Percent::new(10),
            markup: Percent::new(50),
        };
        Supplies::from([(welting.id, welting)])
    }

    fn line(material: i64, set_price: Option<i64>) -> ScopeLine {
        let entry = BookEntry {
            id: ServiceId::from_bytes([1; 16]),
            title: Line::parse("Welt").unwrap(),
            about: None,
            stage: Stage::Structure,
            minutes: Minutes::new(150),
            rest: Minutes::ZERO,
            material: usd(material),
            uses: vec![Planned {
                supply: SupplyId::from_bytes([7; 16]),
                how_much: HowMuch::Fixed(Quantity::whole(1)),
            }],
            set_price: set_price.map(usd),
            station: None,
            p90: None,
            cement: None,
        };
        let pair = TakeOffs::of_size(None, Construction::Unknown);
        let offered = entry.offered(&supplies()).unwrap();
        offered.for_pair(&pair).unwrap().line()
    }

    /// By hand: 150 min at 30.00 are 75.00; 1.1 m of welting at 5.20 are 5.72, sold at 7.80: 8.58;
    /// 150 min at 72.00 are 180.00. 188.58 − 80.72 = 107.86, of 188.58 57.2 %.
    #[test]
    fn what_is_left_of_a_price() {
        let rules = rules(TaxBasis::Added);
        let lines = [line(0, None)];
        let quote = quote(&lines, &ScopeTerms::PLAIN, &rules).unwrap();
        let found = margin((&lines, &quote), &rules, &supplies(), usd(3_000)).unwrap();
        assert_eq!(found.total.labour, usd(7_500));
        assert_eq!(found.total.material, usd(572));
        assert_eq!(found.total.price, usd(18_858));
        assert_eq!(found.total.margin, usd(10_786));
        assert_eq!(found.total.percent().as_deref(), Some("57.2 %"));
        assert!(found.beside.is_zero() && !found.guessed);
    }

    #[test]
    fn a_set_price_below_its_cost_is_said_as_it_is() {
        let rules = rules(TaxBasis::Added);
        let lines = [line(0, Some(5_000))];
        let quote = quote(&lines, &ScopeTerms::PLAIN, &rules).unwrap();
        let found = margin((&lines, &quote), &rules, &supplies(), usd(3_000)).unwrap();
        assert_eq!(found.total.margin, usd(5_000 - 8_072));
        assert_eq!(found.total.percent().as_deref(), Some("\u{2212}61.4 %"));
    }

    #[test]
    fn tax_in_the_price_is_no_margin_and_lines_add_up_to_the_whole() {
        let rules = rules(TaxBasis::Included);
        let lines = [line(333, None), line(77, None), line(5, Some(9_999))];
        let quote = quote(&lines, &ScopeTerms::PLAIN, &rules).unwrap();
        let found = margin((&lines, &quote), &rules, &supplies(), usd(3_000)).unwrap();
        let tax: i64 = quote.taxes.iter().map(|tax| tax.tax.minor()).sum();
        assert_eq!(found.total.price.minor(), quote.total.minor() - tax);
        let sum: i64 = found.lines.iter().map(|line| line.sums.price.minor()).sum();
        assert_eq!(sum + found.beside.minor(), found.total.price.minor());
        assert!(found.guessed);
    }

    /// By hand: a minute at 0.30 an hour is half a cent, which goes up.
    #[test]
    fn half_a_cent_of_bench_time_goes_up() {
        let rules = rules(TaxBasis::Added);
        let lines = [ScopeLine {
            minutes: Minutes::new(1),
            ..line(0, None)
        }];
        let quote = quote(&lines, &ScopeTerms::PLAIN, &rules).unwrap();
        let found = margin((&lines, &quote), &rules, &supplies(), usd(30)).unwrap();
        assert_eq!(found.total.labour, usd(1));
    }

    /// A metre at 5.20 says nothing of what a piece costs: then the price of sale counts, and it is said.
    #[test]
    fn a_supply_that_is_counted_otherwise_by_now_is_a_guess() {
        let rules = rules(TaxBasis::Added);
        let lines = [line(0, None)];
        let quote = quote(&lines, &ScopeTerms::PLAIN, &rules).unwrap();
        let mut by_the_piece = supplies();
        for supply in by_the_piece.values_mut() {
            supply.unit = SupplyUnit::Piece;
        }
        let found = margin((&lines, &quote), &rules, &by_the_piece, usd(3_000)).unwrap();
        assert!(found.guessed);
        assert_eq!(found.total.material, usd(858));
    }
}

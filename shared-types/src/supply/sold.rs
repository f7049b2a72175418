//! What a customer pays for: a quantity with its waste, at a price of sale.

use serde::{Deserialize, Serialize};

use super::{Percent, Quantity, SupplyUnit, decimals};
use crate::bench::take_off::{Known, TakeOff, TakeOffs, Taken};
use crate::id::SupplyId;
use crate::money::{Money, MoneyProblem};
use crate::tax::Rounding;
use crate::text::Line;

/// How much of a supply a piece of work takes, for a pair.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum HowMuch {
    /// Always as much.
    Fixed(Quantity),
    /// As the bench sheet of the pair has it.
    TakeOff(TakeOff),
}

/// A supply as it is sold, in a service for any pair.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Sold {
    /// Which supply.
    pub supply: SupplyId,
    /// As bench and customer call it.
    pub name: Line,
    /// By what it is sold.
    pub unit: SupplyUnit,
    /// The price of one unit.
    pub price: Money,
    /// What is cut away and paid for all the same.
    pub waste: Percent,
    /// How much of it.
    pub how_much: HowMuch,
}

impl Sold {
    /// What it comes to for one pair.
    pub fn for_pair(&self, pair: &TakeOffs) -> Result<Use, MoneyProblem> {
        let taken = match self.how_much {
            HowMuch::Fixed(quantity) => Taken::fixed(quantity),
            HowMuch::TakeOff(take_off) => pair.of(take_off),
        };
        Use::new(self, taken)
    }
}

/// A supply in a scope line, as it was shown: `quantity × (1 + waste) + ends`, at a price.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Use {
    /// Which supply.
    pub supply: SupplyId,
    /// As bench and customer call it.
    pub name: Line,
    /// By what it is sold.
    pub unit: SupplyUnit,
    /// What gets into the pair.
    pub quantity: Quantity,
    /// What is cut away.
    #[serde(default, skip_serializing_if = "Percent::is_zero")]
    pub waste: Percent,
    /// What joints and thread ends take besides.
    #[serde(default, skip_serializing_if = "Quantity::is_zero")]
    pub ends: Quantity,
    /// How the quantity is known.
    #[serde(default, skip_serializing_if = "Known::is_fixed")]
    pub known: Known,
    /// The price of one unit.
    pub price: Money,
    /// What it comes to.
    pub amount: Money,
}

impl Use {
    fn new(sold: &Sold, taken: Taken) -> Result<Self, MoneyProblem> {
        let mut this = Self {
            supply: sold.supply,
            name: sold.name.clone(),
            unit: sold.unit,
            quantity: taken.quantity,
            waste: if taken.wastes {
                sold.waste
            } else {
                Percent::ZERO
            },
            ends: taken.ends,
            known: taken.known,
            price: sold.price,
            amount: sold.price,
        };
        this.amount = this.at(sold.price)?;
        Ok(this)
    }

    /// The whole quantity in hundred-thousandths of the unit, exactly.
    fn steps(&self) -> u64 {
        let share = 100 + u64::from(self.waste.get());
        u64::from(self.quantity.get()) * share + u64::from(self.ends.get()) * 100
    }

    /// What the whole quantity comes to at a price of one unit, half up.
    pub fn at(&self, price: Money) -> Result<Money, MoneyProblem> {
        let exact = i128::from(self.steps()) * i128::from(price.minor());
        let minor = Rounding::HalfUp.divide(exact, 100_000);
        let minor = i64::try_from(minor).map_err(|_| MoneyProblem::TooLarge)?;
        Money::new(minor, price.currency())
    }

    /// How the amount came about, for anyone to work out again:
    /// `Leather welting 0.936 m + 10 % + 0.1 m for the ends = 1.1296 m at $7.80 a metre: $8.81`.
    pub fn words(&self) -> String {
        let mut words = format!(
            "{} {}",
            self.name,
            self.unit.with(&self.quantity.to_string())
        );
        if !self.waste.is_zero() {
            words = format!("{words} + {} %", self.waste);
        }
        if !self.ends.is_zero() {
            let ends = self.unit.with(&self.ends.to_string());
            words = format!("{words} + {ends} for the ends");
        }
        if !(self.waste.is_zero() && self.ends.is_zero()) {
            let whole = self.unit.with(&decimals(self.steps(), 5));
            words = format!("{words} = {whole}");
        }
        format!(
            "{words} at {} {}: {}",
            self.price,
            self.unit.each(),
            self.amount
        )
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::money::Currency;
    use crate::supply::kept::Supply;

    fn sold(price: i64, waste: u16, quantity: Quantity) -> Sold {
        Sold {
            supply: SupplyId::from_bytes([1; 16]),
            name: Line::parse("Leather").unwrap(),
            unit: SupplyUnit::SquareDecimetre,
            price: Money::new(price, Currency::USD).unwrap(),
            waste: Percent::new(waste),
            how_much: HowMuch::Fixed(quantity),
        }
    }

    fn amount(price: i64, waste: u16, thousandths: u32, ends: u32) -> i64 {
        let taken = Taken {
            ends: Quantity::thousandths(ends),
            ..Taken::fixed(Quantity::thousandths(thousandths))
        };
        let sold = sold(price, waste, Quantity::ZERO);
        Use::new(&sold, taken).unwrap().amount.minor()
    }

    /// The worked estimate with invented prices, its arithmetic by hand: outsole leather
    /// 2 × 231.80 cm² × 1.20 at 4.20 a dm² is 23.36544; a welt of 2 × 467.9 mm × 1.10 + 2 × 50 mm at
    /// 7.80 a metre is 8.809164; thread 7.4 m at 0.12 is 0.888; 8 lifts at 2.10; cork
    /// 2 × 110 cm² × 2 layers at 0.90 a dm².
    #[test]
    fn the_materials_of_the_worked_estimate() {
        assert_eq!(amount(420, 20, 4_636, 0), 2_337);
        assert_eq!(amount(780, 10, 936, 100), 881);
        assert_eq!(amount(12, 0, 7_400, 0), 89);
        assert_eq!(amount(210, 0, 8_000, 0), 1_680);
        assert_eq!(amount(90, 0, 4_400, 0), 396);
    }

    #[test]
    fn an_amount_opens_into_figures_that_can_be_worked_out_again() {
        let leather = sold(420, 20, Quantity::thousandths(4_636));
        let used = Use::new(&leather, Taken::fixed(Quantity::thousandths(4_636))).unwrap();
        assert_eq!(
            used.words(),
            "Leather 4.636 dm² + 20 % = 5.5632 dm² at $4.20 a dm²: $23.37"
        );
        let lifts = Sold {
            unit: SupplyUnit::Piece,
            waste: Percent::ZERO,
            ..leather
        };
        let used = Use::new(&lifts, Taken::fixed(Quantity::whole(1))).unwrap();
        assert_eq!(used.words(), "Leather 1 piece at $4.20 a piece: $4.20");
    }

    #[test]
    fn what_is_nothing_is_not_written_down() {
        let used = Use::new(
            &sold(420, 0, Quantity::ZERO),
            Taken::fixed(Quantity::whole(1)),
        );
        let json = serde_json::to_string(&used.unwrap()).unwrap();
        assert!(!json.contains("waste") && !json.contains("ends") && !json.contains("known"));
    }

    /// By hand: 0.03 + 50 % is 0.045, which goes up; 0.01 + 40 % is 0.014, which goes down.
    #[test]
    fn half_a_cent_of_markup_goes_up() {
        let price = |cost, markup| {
            let cost = Money::new(cost, Currency::USD).unwrap();
            Supply::price_of(cost, Percent::new(markup))
                .unwrap()
                .minor()
        };
        assert_eq!((price(3, 50), price(1, 40), price(140, 50)), (5, 1, 210));
    }

    /// A hand's thread has its ends counted, and no share of it is wasted.
    #[test]
    fn what_does_not_waste_is_paid_for_as_it_is() {
        let taken = Taken {
            wastes: false,
            ..Taken::fixed(Quantity::whole(2))
        };
        let used = Use::new(&sold(100, 15, Quantity::ZERO), taken).unwrap();
        assert_eq!((used.waste, used.amount.minor()), (Percent::ZERO, 200));
    }

    proptest! {
        #[test]
        fn an_amount_is_the_nearest_whole_unit_and_half_goes_up(
            price in 0_i64..1_000_000, waste in 0_u16..1_000, quantity in 0_u32..10_000_000, ends in 0_u32..10_000,
        ) {
            let exact = i128::from(price) * (i128::from(quantity) * i128::from(100 + waste) + i128::from(ends) * 100);
            let off = i128::from(amount(price, waste, quantity, ends)) * 100_000 - exact;
            prop_assert!((-49_999..=50_000).contains(&off), "{off}");
        }

        #[test]
        fn more_of_anything_never_costs_less(
            cost in 0_i64..100_000, markup in 0_u16..500, waste in 0_u16..500, quantity in 0_u32..1_000_000,
            more in 0_u16..500,
        ) {
            let price = |markup| {
                let cost = Money::new(cost, Currency::USD).unwrap();
                Supply::price_of(cost, Percent::new(markup)).unwrap().minor()
            };
            let least = amount(price(markup), waste, quantity, 0);
            prop_assert!(amount(price(markup + more), waste, quantity, 0) >= least);
            prop_assert!(amount(price(markup), waste + more, quantity, 0) >= least);
            prop_assert!(amount(price(markup), waste, quantity + u32::from(more), 0) >= least);
        }

        #[test]
        fn without_markup_and_waste_it_is_the_cost(cost in 0_i64..100_000, units in 0_u32..1_000) {
            let money = Money::new(cost, Currency::USD).unwrap();
            let price = Supply::price_of(money, Percent::ZERO).unwrap();
            prop_assert_eq!(price, money);
            prop_assert_eq!(amount(price.minor(), 0, units * 1_000, 0), cost * i64::from(units));
        }
    }
}

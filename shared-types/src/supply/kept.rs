//! What the shop pays for its supplies, and what it adds. For the server and the owner's pages only:
//! nothing in here is ever a part of a scope, of a letter or of what a browser is given to compute.

use serde::{Deserialize, Serialize};

use super::sold::{HowMuch, Sold};
use super::{Percent, SupplyUnit};
use crate::id::SupplyId;
use crate::money::{Money, MoneyProblem};
use crate::tax::Rounding;
use crate::text::Line;

/// A supply as the shop keeps it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Supply {
    /// Which supply.
    pub id: SupplyId,
    /// As bench and customer call it.
    pub name: Line,
    /// By what it is bought and used.
    pub unit: SupplyUnit,
    /// What one unit costs the shop.
    pub cost: Money,
    /// What is cut away.
    pub waste: Percent,
    /// What is added to the cost.
    pub markup: Percent,
}

impl Supply {
    /// The price of sale of one unit: cost × (1 + markup), half up.
    pub fn price_of(cost: Money, markup: Percent) -> Result<Money, MoneyProblem> {
        let exact = i128::from(cost.minor()) * (100 + i128::from(markup.get()));
        let minor = Rounding::HalfUp.divide(exact, 100);
        let minor = i64::try_from(minor).map_err(|_| MoneyProblem::TooLarge)?;
        Money::new(minor, cost.currency())
    }

    /// The price of sale of one unit.
    pub fn price(&self) -> Result<Money, MoneyProblem> {
        Self::price_of(self.cost, self.markup)
    }

    /// As it is sold in a service: without its cost.
    pub fn sold(&self, how_much: HowMuch) -> Result<Sold, MoneyProblem> {
        Ok(Sold {
            supply: self.id,
            name: self.name.clone(),
            unit: self.unit,
            price: self.price()?,
            waste: self.waste,
            how_much,
        })
    }
}

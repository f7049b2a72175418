//! The owner's form of one supply.

use crate::form::{Fields, FormErrors, Problem};
use crate::id::SupplyId;
use crate::money::{Currency, Money};
use crate::supply::kept::Supply;
use crate::supply::{Percent, SupplyUnit};
use crate::text::Line;

/// A field of the form for one supply.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum SupplyField {
    /// Its name.
    Name,
    /// By what it is bought and used.
    Unit,
    /// What one unit costs.
    Cost,
    /// What is cut away.
    Waste,
    /// What is added to the cost.
    Markup,
    /// What an hour at the bench costs the shop; a form of its own.
    BenchHour,
}

impl SupplyField {
    /// The field's name in the form.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Name => "name",
            Self::Unit => "unit",
            Self::Cost => "cost",
            Self::Waste => "waste",
            Self::Markup => "markup",
            Self::BenchHour => "bench-hour",
        }
    }
}

/// More than this for one unit is a slip, in minor units; it keeps every amount of a scope in bounds.
const DEAREST: i64 = 10_000_000;

/// The form's fields as a supply stands.
pub fn fields_of(supply: &Supply) -> Fields {
    let mut fields = Fields::default();
    let mut put = |field: SupplyField, value: String| fields.push(field.name(), value);
    put(SupplyField::Name, supply.name.to_string());
    put(SupplyField::Unit, supply.unit.code().to_owned());
    put(SupplyField::Cost, supply.cost.figure());
    put(SupplyField::Waste, supply.waste.to_string());
    put(SupplyField::Markup, supply.markup.to_string());
    fields
}

/// Reads one supply.
pub fn read(
    fields: &Fields,
    id: SupplyId,
    currency: Currency,
) -> Result<Supply, FormErrors<SupplyField>> {
    let mut errors = FormErrors::default();
    let typed = |field: SupplyField| fields.one(field.name()).to_owned();
    let name = errors.take(SupplyField::Name, Line::parse(&typed(SupplyField::Name)));
    let unit = SupplyUnit::from_code(&typed(SupplyField::Unit)).ok_or(Problem::NotChosen);
    let unit = errors.take(SupplyField::Unit, unit);
    let cost = errors.take(SupplyField::Cost, cost(&typed(SupplyField::Cost), currency));
    let waste = Percent::parse(&typed(SupplyField::Waste));
    let waste = errors.take(SupplyField::Waste, waste);
    let markup = Percent::parse(&typed(SupplyField::Markup));
    let markup = errors.take(SupplyField::Markup, markup);
    match (name, unit, cost, waste, markup) {
        (Some(name), Some(unit), Some(cost), Some(waste), Some(markup)) => Ok(Supply {
            id,
            name,
            unit,
            cost,
            waste,
            markup,
        }),
        _ => Err(errors),
    }
}

/// Reads what an hour at the bench costs the shop; nothing typed means that it is not known.
pub fn read_bench_hour(
    fields: &Fields,
    currency: Currency,
) -> Result<Option<Money>, FormErrors<SupplyField>> {
    let typed = fields.one(SupplyField::BenchHour.name());
    if typed.trim().is_empty() {
        return Ok(None);
    }
    let mut errors = FormErrors::default();
    let hour = errors.take(SupplyField::BenchHour, cost(typed, currency));
    hour.map(Some).ok_or(errors)
}

fn cost(text: &str, currency: Currency) -> Result<Money, Problem> {
    let cost = Money::parse(text, currency)?;
    if cost.minor() > DEAREST {
        return Err(Problem::TooMuchMoney);
    }
    Ok(cost)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_supply_survives_its_own_form_and_a_slip_is_said() {
        let supply = Supply {
            id: SupplyId::from_bytes([7; 16]),
            name: Line::parse("Leather welting").unwrap(),
            unit: SupplyUnit::Metre,
            cost: Money::new(520, Currency::USD).unwrap(),
            waste: Percent::new(10),
            markup: Percent::new(50),
        };
        let mut fields = fields_of(&supply);
        assert_eq!(read(&fields, supply.id, Currency::USD), Ok(supply.clone()));
        fields.set(SupplyField::Cost.name(), "5,200,000");
        let errors = read(&fields, supply.id, Currency::USD).unwrap_err();
        assert!(errors.at(&SupplyField::Cost).is_some());
    }
}

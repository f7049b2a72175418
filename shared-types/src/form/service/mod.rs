//! The owner's form of one service of the price book.

mod cement;

use crate::bench::take_off::{TakeOff, TakeOffs};
use crate::form::{Fields, FormErrors, Problem};
use crate::id::ServiceId;
use crate::minutes::Minutes;
use crate::money::{Currency, Money};
use crate::pricebook::{BookEntry, Planned, Supplies};
use crate::size::ShoeSize;
use crate::stage::Stage;
use crate::supply::Quantity;
use crate::supply::kept::Supply;
use crate::supply::sold::HowMuch;
use crate::text::{Line, Words};
use crate::ticket::Construction;

/// How many uses of supplies the form offers.
pub const USES: usize = 4;

/// The code of a use that always takes as much.
pub const FIXED: &str = "fixed";

/// A field of the form for one service of the price book.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum ServiceField {
    /// Its title.
    Title,
    /// What it is.
    About,
    /// The stage in which it is done.
    Stage,
    /// Bench minutes.
    Minutes,
    /// Rest after it.
    Rest,
    /// The supply of a use.
    Supply(usize),
    /// From where its quantity comes.
    HowMuch(usize),
    /// A quantity that is always the same.
    Quantity(usize),
    /// Material besides.
    Material,
    /// What it costs before tax whatever the minutes.
    SetPrice,
    /// The station that it needs.
    Station,
    /// What one job in ten exceeds.
    P90,
    /// How long its cement dries at least.
    Dries,
    /// How long its cement stays open at most.
    StaysOpen,
    /// Its minutes from the joining on.
    Joining,
}

impl ServiceField {
    /// The field's name in the form.
    pub fn name(self) -> String {
        let name = match self {
            Self::Title => "title",
            Self::About => "about",
            Self::Stage => "stage",
            Self::Minutes => "minutes",
            Self::Rest => "rest",
            Self::Supply(row) => return format!("use-{row}-supply"),
            Self::HowMuch(row) => return format!("use-{row}-how-much"),
            Self::Quantity(row) => return format!("use-{row}-quantity"),
            Self::Material => "material",
            Self::SetPrice => "set-price",
            Self::Station => "station",
            Self::P90 => "p90",
            Self::Dries => "cement-dries",
            Self::StaysOpen => "cement-open",
            Self::Joining => "cement-joining",
        };
        name.to_owned()
    }
}

/// The form's fields as a service stands.
pub fn fields_of(entry: &BookEntry) -> Fields {
    let mut fields = Fields::default();
    let mut put = |field: ServiceField, value: String| fields.push(field.name(), value);
    put(ServiceField::Title, entry.title.to_string());
    let about = entry.about.as_ref();
    put(
        ServiceField::About,
        about.map_or_else(String::new, ToString::to_string),
    );
    put(ServiceField::Stage, entry.stage.code().to_owned());
    put(ServiceField::Minutes, entry.minutes.get().to_string());
    put(ServiceField::Rest, entry.rest.get().to_string());
    for (row, planned) in entry.uses.iter().enumerate() {
        put(ServiceField::Supply(row), planned.supply.to_string());
        match planned.how_much {
            HowMuch::Fixed(quantity) => {
                put(ServiceField::HowMuch(row), FIXED.to_owned());
                put(ServiceField::Quantity(row), quantity.to_string());
            }
            HowMuch::TakeOff(take_off) => {
                put(ServiceField::HowMuch(row), take_off.code().to_owned());
            }
        }
    }
    put(ServiceField::Material, entry.material.figure());
    put(
        ServiceField::SetPrice,
        entry.set_price.map_or_else(String::new, Money::figure),
    );
    let station = entry.station.as_ref();
    put(
        ServiceField::Station,
        station.map_or_else(String::new, Line::to_string),
    );
    let p90 = entry.p90.map(|p90| p90.get().to_string());
    put(ServiceField::P90, p90.unwrap_or_default());
    for (field, minutes) in entry.cement.into_iter().flat_map(cement::fields_of) {
        put(field, minutes);
    }
    fields
}

/// Reads one service; `supplies` are those that it may use.
pub fn read(
    fields: &Fields,
    id: ServiceId,
    supplies: &Supplies,
    currency: Currency,
) -> Result<BookEntry, FormErrors<ServiceField>> {
    let mut errors = FormErrors::default();
    let typed = |field: ServiceField| fields.one(&field.name()).to_owned();
    let title = Line::parse(&typed(ServiceField::Title));
    let title = errors.take(ServiceField::Title, title);
    let about = Words::parse_optional(&typed(ServiceField::About));
    let about = errors.take(ServiceField::About, about);
    let stage = Stage::from_code(&typed(ServiceField::Stage))
        .filter(|stage| Stage::RUNS.contains(stage))
        .ok_or(Problem::NotChosen);
    let stage = errors.take(ServiceField::Stage, stage);
    let minutes = Minutes::parse(&typed(ServiceField::Minutes));
    let minutes = errors.take(ServiceField::Minutes, minutes);
    let rest = Minutes::parse(&typed(ServiceField::Rest));
    let rest = errors.take(ServiceField::Rest, rest);
    let uses: Vec<Option<Planned>> = (0..USES)
        .filter(|row| !typed(ServiceField::Supply(*row)).is_empty())
        .map(|row| read_use(fields, row, supplies, &mut errors))
        .collect();
    let material = money(&typed(ServiceField::Material), currency);
    let material = errors.take(ServiceField::Material, material);
    let set_price = money(&typed(ServiceField::SetPrice), currency);
    let set_price = errors.take(ServiceField::SetPrice, set_price);
    let station = Line::parse_optional(&typed(ServiceField::Station));
    let station = errors.take(ServiceField::Station, station);
    let p90 = read_p90(&typed(ServiceField::P90), minutes);
    let p90 = errors.take(ServiceField::P90, p90);
    let cement = cement::read(fields, minutes);
    let cement = cement.map_err(|found| errors.extend(found)).ok();
    let uses = uses.into_iter().collect::<Option<Vec<_>>>();
    let known = (title, about, stage, minutes, rest, material, set_price);
    let (
        Some(title),
        Some(about),
        Some(stage),
        Some(minutes),
        Some(rest),
        Some(material),
        Some(set_price),
    ) = known
    else {
        return Err(errors);
    };
    let (Some(uses), Some(station), Some(p90), Some(cement)) = (uses, station, p90, cement) else {
        return Err(errors);
    };
    let entry = BookEntry {
        id,
        title,
        about,
        stage,
        minutes,
        rest,
        material: material.unwrap_or(Money::zero(currency)),
        uses,
        set_price,
        station,
        p90,
        cement,
    };
    if let Err((field, problem)) = fits(&entry, supplies) {
        errors.add(field, problem);
        return Err(errors);
    }
    Ok(entry)
}

/// Minutes that one job in ten exceeds: not fewer than the usual ones, if those can be read.
fn read_p90(text: &str, usual: Option<Minutes>) -> Result<Option<Minutes>, Problem> {
    if text.trim().is_empty() {
        return Ok(None);
    }
    let p90 = Minutes::parse(text)?;
    match usual {
        Some(usual) if p90 < usual || usual == Minutes::ZERO => {
            Err(Problem::UnderTheUsual { usual })
        }
        _ => Ok(Some(p90)),
    }
}

/// An amount, or nothing typed.
fn money(text: &str, currency: Currency) -> Result<Option<Money>, Problem> {
    if text.trim().is_empty() {
        return Ok(None);
    }
    Money::parse(text, currency).map(Some)
}

fn read_use(
    fields: &Fields,
    row: usize,
    supplies: &Supplies,
    errors: &mut FormErrors<ServiceField>,
) -> Option<Planned> {
    let typed = |field: ServiceField| fields.one(&field.name()).to_owned();
    let supply = typed(ServiceField::Supply(row)).parse().ok();
    let supply = supply.and_then(|id| supplies.get(&id));
    let supply = errors.take(ServiceField::Supply(row), supply.ok_or(Problem::NotChosen));
    let how_much = match typed(ServiceField::HowMuch(row)).as_str() {
        FIXED => {
            let quantity = Quantity::parse(&typed(ServiceField::Quantity(row)));
            let quantity = quantity.and_then(|quantity| {
                if quantity.is_zero() {
                    Err(Problem::NotAQuantity)
                } else {
                    Ok(quantity)
                }
            });
            let quantity = errors.take(ServiceField::Quantity(row), quantity);
            quantity.map(HowMuch::Fixed)
        }
        code => {
            let take_off = TakeOff::from_code(code).ok_or(Problem::NotChosen);
            let counted = take_off.and_then(|take_off| same_unit(take_off, supply));
            errors.take(ServiceField::HowMuch(row), counted)
        }
    };
    Some(Planned {
        supply: supply?.id,
        how_much: how_much?,
    })
}

fn same_unit(take_off: TakeOff, supply: Option<&Supply>) -> Result<HowMuch, Problem> {
    match supply {
        Some(supply) if supply.unit != take_off.unit() => Err(Problem::UnitsDiffer {
            counted: take_off.unit().label(),
            sold: supply.unit.label(),
        }),
        _ => Ok(HowMuch::TakeOff(take_off)),
    }
}

/// Whether the amounts of a usual pair work out, and a set price covers its material.
fn fits(entry: &BookEntry, supplies: &Supplies) -> Result<(), (ServiceField, Problem)> {
    let material =
        material(entry, supplies).ok_or((ServiceField::Material, Problem::TooMuchMoney))?;
    match entry.set_price {
        Some(price) if price.minor() < material.minor() => {
            let size = ShoeSize::USUAL;
            let problem = Problem::BelowMaterial { size, material };
            Err((ServiceField::SetPrice, problem))
        }
        _ => Ok(()),
    }
}

/// What a usual pair's material comes to, if that works out.
fn material(entry: &BookEntry, supplies: &Supplies) -> Option<Money> {
    let pair = TakeOffs::of_size(None, Construction::Unknown);
    let service = entry.offered(supplies).ok()?.for_pair(&pair).ok()?;
    let uses = service.uses.iter().map(|used| used.amount);
    let uses = Money::sum(uses, service.material.currency()).ok()?;
    uses.plus(service.material).ok()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::id::SupplyId;
    use crate::supply::{Percent, SupplyUnit};

    fn supplies() -> Supplies {
        let supply = Supply {
            id: SupplyId::from_bytes([7; 16]),
            name: Line::parse("Sole leather").unwrap(),
            unit: SupplyUnit::SquareDecimetre,
            cost: Money::new(300, Currency::USD).unwrap(),
            waste: Percent::new(20),
            markup: Percent::new(40),
        };
        Supplies::from([(supply.id, supply)])
    }

    fn entry(how_much: HowMuch, set_price: Option<i64>) -> BookEntry {
        BookEntry {
            id: ServiceId::from_bytes([1; 16]),
            title: Line::parse("Leather soles").unwrap(),
            about: None,
            stage: Stage::Soling,
            minutes: Minutes::new(70),
            rest: Minutes::new(720),
            material: Money::new(150, Currency::USD).unwrap(),
            uses: vec![Planned {
                supply: SupplyId::from_bytes([7; 16]),
                how_much,
            }],
            set_price: set_price.map(|minor| Money::new(minor, Currency::USD).unwrap()),
            station: None,
            p90: None,
            cement: None,
        }
    }

    fn again(entry: &BookEntry) -> Result<BookEntry, FormErrors<ServiceField>> {
        read(&fields_of(entry), entry.id, &supplies(), Currency::USD)
    }

    #[test]
    fn a_service_survives_its_own_form() {
        for how_much in [
            HowMuch::TakeOff(TakeOff::Outsoles),
            HowMuch::Fixed(Quantity::thousandths(350)),
        ] {
            let entry = entry(how_much, Some(9_000));
            assert_eq!(again(&entry), Ok(entry));
        }
    }

    #[test]
    fn what_does_not_fit_is_said_at_its_field() {
        let welt = again(&entry(HowMuch::TakeOff(TakeOff::WeltHeelToHeel), None));
        let said = welt.unwrap_err().at(&ServiceField::HowMuch(0)).unwrap();
        assert!(said.contains("by the metre"), "{said}");
        let low = again(&entry(HowMuch::TakeOff(TakeOff::Outsoles), Some(1_000)));
        let said = low.unwrap_err().at(&ServiceField::SetPrice).unwrap();
        assert!(said.contains("has to cover it"), "{said}");
        let none = again(&entry(HowMuch::Fixed(Quantity::ZERO), None));
        assert!(none.unwrap_err().at(&ServiceField::Quantity(0)).is_some());
    }

    #[test]
    fn station_and_spread_survive_the_form_and_a_long_job_is_not_shorter_than_a_usual_one() {
        let mut entry = entry(HowMuch::Fixed(Quantity::whole(1)), None);
        entry.station = Line::parse("outsole stitcher").ok();
        entry.p90 = Some(Minutes::new(100));
        assert_eq!(again(&entry), Ok(entry.clone()));
        let stored = serde_json::to_string(&entry).unwrap();
        assert_eq!(serde_json::from_str::<BookEntry>(&stored).unwrap(), entry);
        entry.p90 = Some(Minutes::new(69));
        let said = again(&entry).unwrap_err().at(&ServiceField::P90).unwrap();
        assert!(said.contains("The usual job takes 1 h 10 min"), "{said}");
        // Stored by version 0.1.0.
        entry.p90 = None;
        entry.station = None;
        let stored = serde_json::to_value(&entry).unwrap();
        assert!(stored.get("p90").is_none() && stored.get("station").is_none());
    }
}

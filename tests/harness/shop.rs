//! Juniper Row, an invented shop: set up by its owner through the program's own pages.

use std::collections::BTreeMap;

use anyhow::{Context as _, Result};
use shared_types::contact::{Email, Phone};
use shared_types::form::people::PersonField;
use shared_types::form::service::ServiceField;
use shared_types::form::settings::fields_of;
use shared_types::minutes::Minutes;
use shared_types::moment::Zone;
use shared_types::money::{Currency, Money};
use shared_types::paths;
use shared_types::promise::calendar::Hours;
use shared_types::shop::Shop;
use shared_types::staff::Role;
use shared_types::stage::Stage;
use shared_types::tax::Rate;
use shared_types::text::{Line, Words};

use super::form::Form;
use super::visitor::Visitor;

pub(crate) const OWNER: &str = "Ines Calloway";
pub(crate) const COUNTER: &str = "Tom Reyes";
pub(crate) const BENCH: &str = "Walt Brandvold";

/// Everybody's, because nothing here is secret.
pub(crate) const PASSWORD: &str = "waxed linen and beech pegs";

pub(crate) const SOLES: &str = "Full rubber soles";
pub(crate) const LIFTS: &str = "New top lifts";
pub(crate) const WELT: &str = "New welt, sewn in";
pub(crate) const RIB: &str = "Rib rebuilt";

/// Title, stage, minutes, rest and material of each service. None ever takes longer, so that days
/// can be worked out by hand.
const BOOK: [(&str, Stage, &str, &str, &str); 4] = [
    (SOLES, Stage::Soling, "60", "720", "24.00"),
    (LIFTS, Stage::Heeling, "20", "0", "6.40"),
    (WELT, Stage::Structure, "150", "1440", "18.20"),
    (RIB, Stage::Structure, "45", "0", "3.00"),
];

/// The price book: ids of services by their titles.
pub(crate) type Book = BTreeMap<&'static str, String>;

/// Tue–Fri 9–17:30, Sat 9–13; 68.00 an hour, rounded up to 0.50; 6.25 % on goods, labour untaxed;
/// an offer lapses after three open days, an answer can be taken back for two hours.
pub(crate) fn juniper_row() -> Result<Shop> {
    let mut shop = Shop::new(
        Line::parse("Juniper Row")?,
        Words::parse("12 Juniper Row\nAlder Falls")?,
        Email::parse("bench@juniper-row.example")?,
    );
    let weekday = Hours::parse("9:00", "17:30")?;
    let saturday = Hours::parse("9:00", "13:00")?;
    shop.phone = Some(Phone::parse("555-0134")?);
    shop.calendar.zone = Zone::parse("America/Denver")?;
    shop.calendar.week = [None, weekday, weekday, weekday, weekday, saturday, None];
    shop.prices.hourly = Money::parse("68.00", Currency::USD)?;
    shop.prices.round_up_to = 50;
    shop.prices.tax.goods = Rate::parse("6.25")?;
    shop.terms.answer_days = 3;
    shop.terms.take_back = Minutes::parse("2:00")?;
    shop.terms.reminder_days = vec![7, 21, 45];
    Ok(shop)
}

/// Makes the owner, the settings, the price book and two more people.
pub(crate) async fn set_up(origin: &str, setup: &str) -> Result<(Visitor, Book)> {
    let owner = Visitor::new(origin)?;
    let account = Form::new()
        .with("shop", "Juniper Row")
        .with(PersonField::Name.name(), OWNER)
        .with(PersonField::Password.name(), PASSWORD);
    owner.post(setup, account).await?.expects(303)?;
    let settings = Form::shown(&fields_of(&juniper_row()?))?;
    owner
        .post(&paths::settings(), settings)
        .await?
        .expects(303)?;
    for service in BOOK {
        owner
            .post(&paths::prices(), service_form(service))
            .await?
            .expects(303)?;
    }
    for (name, role) in [(COUNTER, Role::Counter), (BENCH, Role::Bench)] {
        let person = Form::new()
            .with(PersonField::Name.name(), name)
            .with(PersonField::Role.name(), role.code())
            .with(PersonField::Password.name(), PASSWORD);
        owner.post(&paths::people(), person).await?.expects(303)?;
    }
    let book = read_book(&owner).await?;
    Ok((owner, book))
}

/// The form of one service.
pub(crate) fn service_form(
    (title, stage, minutes, rest, material): (&str, Stage, &str, &str, &str),
) -> Form {
    Form::new()
        .with(ServiceField::Title.name(), title)
        .with(ServiceField::Stage.name(), stage.code())
        .with(ServiceField::Minutes.name(), minutes)
        .with(ServiceField::P90.name(), minutes)
        .with(ServiceField::Rest.name(), rest)
        .with(ServiceField::Material.name(), material)
}

/// Finds each service's id on the owner's page of prices.
async fn read_book(owner: &Visitor) -> Result<Book> {
    let page = owner.get(&paths::prices()).await?.expects(200)?.html();
    let mut book = Book::new();
    for link in page.split(paths::service("").as_str()).skip(1) {
        let title = link.split(['>', '<']).nth(1).unwrap_or_default();
        if let Some((known, ..)) = BOOK.iter().find(|(known, ..)| *known == title) {
            book.insert(known, link[..36].to_owned());
        }
    }
    (book.len() == BOOK.len())
        .then_some(book)
        .context("the page of prices leads to every service")
}

/// Signs somebody in.
pub(crate) async fn sign_in(visitor: &Visitor, name: &str) -> Result<()> {
    let form = Form::new()
        .with(PersonField::Name.name(), name)
        .with(PersonField::Password.name(), PASSWORD);
    visitor.post(&paths::sign_in(), form).await?.expects(303)?;
    Ok(())
}

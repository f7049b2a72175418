//! The invented shop's settings and people.

use anyhow::Context as _;
use shared_types::contact::{Email, Phone};
use shared_types::form::people::{NewPerson, Password};
use shared_types::hands::{BenchHand, shipped_stations};
use shared_types::minutes::Minutes;
use shared_types::moment::Zone;
use shared_types::money::{Currency, Money};
use shared_types::price::PriceRules;
use shared_types::promise::calendar::{Calendar, Hours};
use shared_types::promise::chance::Chance;
use shared_types::shop::{Shop, Terms};
use shared_types::staff::Role;
use shared_types::tax::{Rate, Rounding, TaxBasis, TaxRules, TaxStep};
use shared_types::text::{Line, Words};

/// Someone who works at Juniper Row.
pub(super) struct Hand {
    pub(super) name: &'static str,
    pub(super) role: Role,
    pub(super) password: &'static str,
}

pub(super) const OWNER: Hand = Hand {
    name: "Mina Okafor",
    role: Role::Owner,
    password: "beeswax and three awls",
};

pub(super) const BENCH: Hand = Hand {
    name: "Tobias Lindqvist",
    role: Role::Bench,
    password: "a stack of leather lifts",
};

pub(super) const COUNTER: Hand = Hand {
    name: "Noor Castellanos",
    role: Role::Counter,
    password: "the bell over the door",
};

impl Hand {
    /// The person to add.
    pub(super) fn person(&self) -> anyhow::Result<NewPerson> {
        Ok(NewPerson {
            name: Line::parse(self.name)?,
            role: self.role,
            password: Password::parse_new(self.password)?,
        })
    }
}

/// Juniper Row as its owner set it.
pub(super) fn settings() -> anyhow::Result<Shop> {
    Ok(Shop {
        name: Line::parse("Juniper Row Boot & Shoe Repair")?,
        address: Words::parse("14 Juniper Row\nAlder Falls")?,
        phone: Some(Phone::parse("555-0114")?),
        email: Email::parse("bench@juniperrow.example.com")?,
        calendar: calendar()?,
        hands: vec![
            at_the_bench(BENCH.name, 420, 210)?,
            at_the_bench(OWNER.name, 300, 180)?,
        ],
        stations: shipped_stations(),
        chance: Chance::EIGHTY,
        prices: PriceRules {
            hourly: Money::new(6800, Currency::USD)?,
            round_up_to: 50,
            tax: TaxRules {
                labour: Rate::ZERO,
                goods: Rate::parse("6.25")?,
                basis: TaxBasis::Added,
                step: TaxStep::PerTotal,
                rounding: Rounding::HalfUp,
            },
            cash: None,
            minimum: Some(Money::new(1800, Currency::USD)?),
            rush: Rate::parse("30")?,
            deposit: Rate::parse("20")?,
        },
        terms: Terms {
            answer_days: 3,
            take_back: Minutes::new(24 * 60),
            reminder_days: vec![7, 21, 45],
            claim: Words::parse_optional(
                "Please bring this ticket or its code when you collect. We keep your pair safe and \
                 remind you; what happens to pairs that nobody collects is for local law to say.",
            )?,
        },
    })
}

/// What an hour at the bench costs Juniper Row.
pub(super) fn bench_hour() -> anyhow::Result<Money> {
    Ok(Money::new(3_900, Currency::USD)?)
}

/// Somebody with so many bench minutes on weekdays and on Saturdays; the rest of the day is for the
/// counter and for orders.
fn at_the_bench(name: &str, weekday: u32, saturday: u32) -> anyhow::Result<BenchHand> {
    let mut hand = BenchHand::all_day(Line::parse(name)?);
    hand.week = [Some(Minutes::new(weekday)); 7];
    hand.week[5] = Some(Minutes::new(saturday));
    Ok(hand)
}

/// Tuesday to Friday, and Saturday until one.
fn calendar() -> anyhow::Result<Calendar> {
    let weekday = Hours::parse("9:00", "17:30").context("weekday")?;
    let saturday = Hours::parse("9:00", "13:00").context("Saturday")?;
    Ok(Calendar {
        zone: Zone::parse("America/Denver")?,
        week: [None, weekday, weekday, weekday, weekday, saturday, None],
        closed: std::collections::BTreeSet::new(),
    })
}

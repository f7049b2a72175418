//! The owner's form of the shop's settings.

use std::collections::BTreeSet;

use time::format_description::well_known::Iso8601;
use time::{Date, Weekday};

use crate::contact::{Email, Phone};
use crate::form::{Fields, FormErrors, Problem};
use crate::minutes::Minutes;
use crate::moment::{Zone, clock_words};
use crate::money::{Currency, Money};
use crate::price::PriceRules;
use crate::promise::calendar::{Calendar, Hours};
use crate::shop::{Shop, Terms};
use crate::tax::{CashRounding, Rate, Rounding, TaxBasis, TaxRules, TaxStep};
use crate::text::{Line, Words};

/// A field of the settings form.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum ShopField {
    /// The shop's name.
    Name,
    /// Its address.
    Address,
    /// Its telephone number.
    Phone,
    /// Where its letters come from.
    Email,
    /// Its time zone.
    Zone,
    /// When it opens on this day, Monday first.
    Opens(u8),
    /// When it closes on this day.
    Closes(u8),
    /// Days closed besides, one a line.
    ClosedDays,
    /// Its currency.
    Currency,
    /// The hourly rate.
    Hourly,
    /// To what a line's price is rounded up.
    RoundUpTo,
    /// Tax on labour.
    TaxLabour,
    /// Tax on materials and goods.
    TaxGoods,
    /// Whether prices include tax.
    TaxBasis,
    /// Where tax is rounded.
    TaxStep,
    /// How tax is rounded.
    TaxRounding,
    /// The smallest coin.
    CashStep,
    /// Where a tie goes when cash is rounded.
    CashTie,
    /// The least that a scope costs.
    Minimum,
    /// What rush adds.
    Rush,
    /// What is asked for at taking in.
    Deposit,
    /// Open days until an offer lapses.
    AnswerDays,
    /// How long a word can be taken back.
    TakeBack,
    /// Days after which reminders go out.
    Reminders,
    /// Words under the claim ticket.
    ClaimWords,
}

impl ShopField {
    /// The field's name in the form.
    pub fn name(self) -> String {
        let name = match self {
            Self::Name => "name",
            Self::Address => "address",
            Self::Phone => "phone",
            Self::Email => "email",
            Self::Zone => "zone",
            Self::Opens(day) => return format!("opens-{day}"),
            Self::Closes(day) => return format!("closes-{day}"),
            Self::ClosedDays => "closed-days",
            Self::Currency => "currency",
            Self::Hourly => "hourly",
            Self::RoundUpTo => "round-up-to",
            Self::TaxLabour => "tax-labour",
            Self::TaxGoods => "tax-goods",
            Self::TaxBasis => "tax-basis",
            Self::TaxStep => "tax-step",
            Self::TaxRounding => "tax-rounding",
            Self::CashStep => "cash-step",
            Self::CashTie => "cash-tie",
            Self::Minimum => "minimum",
            Self::Rush => "rush",
            Self::Deposit => "deposit",
            Self::AnswerDays => "answer-days",
            Self::TakeBack => "take-back",
            Self::Reminders => "reminders",
            Self::ClaimWords => "claim-words",
        };
        name.to_owned()
    }
}

/// The weekday of a place in the week, Monday first.
pub fn weekday(place: u8) -> Weekday {
    Weekday::Monday.nth_next(place)
}

/// The form's fields as the shop stands, for the page that shows them.
pub fn fields_of(shop: &Shop) -> Fields {
    let mut fields = Fields::default();
    let mut put = |field: ShopField, value: String| fields.push(field.name(), value);
    put(ShopField::Name, shop.name.to_string());
    put(ShopField::Address, shop.address.to_string());
    put(
        ShopField::Phone,
        shop.phone
            .as_ref()
            .map_or_else(String::new, ToString::to_string),
    );
    put(ShopField::Email, shop.email.to_string());
    put(ShopField::Zone, shop.calendar.zone.name().to_owned());
    for (day, hours) in (0_u8..7).zip(shop.calendar.week) {
        put(
            ShopField::Opens(day),
            hours.map_or_else(String::new, |hours| clock_words(hours.opens())),
        );
        put(
            ShopField::Closes(day),
            hours.map_or_else(String::new, |hours| clock_words(hours.closes())),
        );
    }
    let closed: Vec<String> = shop.calendar.closed.iter().map(Date::to_string).collect();
    put(ShopField::ClosedDays, closed.join("\n"));
    put(ShopField::Currency, shop.currency().code().to_owned());
    put(ShopField::Hourly, shop.prices.hourly.figure());
    put(
        ShopField::RoundUpTo,
        amount(shop.prices.round_up_to, shop.currency()),
    );
    put(ShopField::TaxLabour, shop.prices.tax.labour.to_string());
    put(ShopField::TaxGoods, shop.prices.tax.goods.to_string());
    let included = shop.prices.tax.basis == TaxBasis::Included;
    put(
        ShopField::TaxBasis,
        if included { "included" } else { "added" }.to_owned(),
    );
    let per_line = shop.prices.tax.step == TaxStep::PerLine;
    put(
        ShopField::TaxStep,
        if per_line { "per-line" } else { "per-total" }.to_owned(),
    );
    put(
        ShopField::TaxRounding,
        shop.prices.tax.rounding.code().to_owned(),
    );
    let cash = shop.prices.cash;
    put(
        ShopField::CashStep,
        cash.map_or_else(String::new, |cash| amount(cash.step, shop.currency())),
    );
    let tie = cash.map_or(Rounding::HalfUp, |cash| cash.rounding);
    put(ShopField::CashTie, tie.code().to_owned());
    let minimum = shop.prices.minimum;
    put(
        ShopField::Minimum,
        minimum.map_or_else(String::new, Money::figure),
    );
    put(ShopField::Rush, percent(shop.prices.rush));
    put(ShopField::Deposit, percent(shop.prices.deposit));
    put(ShopField::AnswerDays, shop.terms.answer_days.to_string());
    put(ShopField::TakeBack, shop.terms.take_back.get().to_string());
    let days: Vec<String> = shop
        .terms
        .reminder_days
        .iter()
        .map(ToString::to_string)
        .collect();
    put(ShopField::Reminders, days.join(", "));
    put(
        ShopField::ClaimWords,
        shop.terms
            .claim
            .as_ref()
            .map_or_else(String::new, ToString::to_string),
    );
    fields
}

/// A percentage for a field that is empty where there is none.
fn percent(rate: Rate) -> String {
    if rate == Rate::ZERO {
        String::new()
    } else {
        rate.to_string()
    }
}

fn amount(minor: u32, currency: Currency) -> String {
    Money::new(i64::from(minor), currency).map_or_else(|_| String::new(), Money::figure)
}

/// Reads the settings; what has a page of its own stays as it was `before`.
pub fn read(fields: &Fields, before: &Shop) -> Result<Shop, FormErrors<ShopField>> {
    let mut errors = FormErrors::default();
    let e = &mut errors;
    let typed = |field: ShopField| fields.one(&field.name()).to_owned();
    let name = e.take(ShopField::Name, Line::parse(&typed(ShopField::Name)));
    let address = e.take(ShopField::Address, Words::parse(&typed(ShopField::Address)));
    let phone = e.take(
        ShopField::Phone,
        Phone::parse_optional(&typed(ShopField::Phone)),
    );
    let email = e.take(ShopField::Email, Email::parse(&typed(ShopField::Email)));
    let calendar = read_calendar(fields, e);
    let prices = read_prices(fields, e);
    let terms = read_terms(fields, e);
    match (name, address, phone, email, calendar, prices, terms) {
        (
            Some(name),
            Some(address),
            Some(phone),
            Some(email),
            Some(calendar),
            Some(prices),
            Some(terms),
        ) => Ok(Shop {
            name,
            address,
            phone,
            email,
            calendar,
            hands: before.hands.clone(),
            stations: before.stations.clone(),
            chance: before.chance,
            prices,
            terms,
        }),
        _ => Err(errors),
    }
}

fn read_calendar(fields: &Fields, errors: &mut FormErrors<ShopField>) -> Option<Calendar> {
    let typed = |field: ShopField| fields.one(&field.name()).to_owned();
    let zone = errors.take(ShopField::Zone, Zone::parse(&typed(ShopField::Zone)));
    let mut week = [None; 7];
    let mut fits = true;
    for (day, hours) in (0_u8..).zip(&mut week) {
        let (opens, closes) = (typed(ShopField::Opens(day)), typed(ShopField::Closes(day)));
        match errors.take(ShopField::Opens(day), Hours::parse(&opens, &closes)) {
            Some(read) => *hours = read,
            None => fits = false,
        }
    }
    let days = typed(ShopField::ClosedDays);
    let closed: Result<BTreeSet<Date>, Problem> = days
        .split_whitespace()
        .map(|day| Date::parse(day, &Iso8601::DATE).map_err(|_| Problem::NotADay))
        .collect();
    let closed = errors.take(ShopField::ClosedDays, closed);
    fits.then_some(Calendar {
        zone: zone?,
        week,
        closed: closed?,
    })
}

fn read_prices(fields: &Fields, errors: &mut FormErrors<ShopField>) -> Option<PriceRules> {
    let typed = |field: ShopField| fields.one(&field.name()).to_owned();
    let currency = Currency::parse(&typed(ShopField::Currency));
    let labour = errors.take(
        ShopField::TaxLabour,
        Rate::parse(&typed(ShopField::TaxLabour)),
    );
    let goods = errors.take(
        ShopField::TaxGoods,
        Rate::parse(&typed(ShopField::TaxGoods)),
    );
    let rounding = Rounding::from_code(&typed(ShopField::TaxRounding)).ok_or(Problem::NotChosen);
    let rounding = errors.take(ShopField::TaxRounding, rounding);
    let currency = errors.take(ShopField::Currency, currency)?;
    let hourly = Money::parse(&typed(ShopField::Hourly), currency);
    let hourly = errors.take(ShopField::Hourly, hourly);
    let round_up_to = errors.take(
        ShopField::RoundUpTo,
        step(&typed(ShopField::RoundUpTo), currency),
    );
    let cash = errors.take(
        ShopField::CashStep,
        step(&typed(ShopField::CashStep), currency),
    );
    // A form of before this field has none of it.
    let tie = match typed(ShopField::CashTie).as_str() {
        "" => Ok(Rounding::HalfUp),
        code => Rounding::from_code(code).ok_or(Problem::NotChosen),
    };
    let tie = errors.take(ShopField::CashTie, tie);
    let minimum = Money::parse_optional(&typed(ShopField::Minimum), currency);
    let minimum = errors.take(ShopField::Minimum, minimum);
    let rush = errors.take(
        ShopField::Rush,
        Rate::parse_or_zero(&typed(ShopField::Rush)),
    );
    let deposit = Rate::parse_or_zero(&typed(ShopField::Deposit));
    let deposit = errors.take(ShopField::Deposit, deposit);
    let chosen = |field: ShopField, code: &str| fields.one(&field.name()) == code;
    Some(PriceRules {
        hourly: hourly?,
        round_up_to: round_up_to?.unwrap_or(1),
        tax: TaxRules {
            labour: labour?,
            goods: goods?,
            basis: if chosen(ShopField::TaxBasis, "included") {
                TaxBasis::Included
            } else {
                TaxBasis::Added
            },
            step: if chosen(ShopField::TaxStep, "per-line") {
                TaxStep::PerLine
            } else {
                TaxStep::PerTotal
            },
            rounding: rounding?,
        },
        cash: match (cash?, tie?) {
            (Some(step), rounding) => Some(CashRounding { step, rounding }),
            (None, _) => None,
        },
        minimum: minimum?.filter(|minimum| minimum.is_positive()),
        rush: rush?,
        deposit: deposit?,
    })
}

/// An amount to which others are rounded, in minor units; nothing typed, or zero, means none.
fn step(text: &str, currency: Currency) -> Result<Option<u32>, Problem> {
    if text.trim().is_empty() {
        return Ok(None);
    }
    let minor = Money::parse(text, currency)?.minor();
    let step = u32::try_from(minor).map_err(|_| Problem::TooMuchMoney)?;
    Ok((step > 0).then_some(step))
}

fn read_terms(fields: &Fields, errors: &mut FormErrors<ShopField>) -> Option<Terms> {
    let typed = |field: ShopField| fields.one(&field.name()).to_owned();
    let answer_days = number(&typed(ShopField::AnswerDays), 1, 60);
    let answer_days = errors.take(ShopField::AnswerDays, answer_days);
    let take_back = Minutes::parse(&typed(ShopField::TakeBack));
    let take_back = errors.take(ShopField::TakeBack, take_back);
    let days = typed(ShopField::Reminders);
    let days: Result<Vec<u32>, Problem> = days
        .split([',', ' '])
        .filter(|day| !day.trim().is_empty())
        .map(|day| number(day, 1, 365))
        .collect();
    let reminder_days = errors.take(ShopField::Reminders, days);
    let claim = Words::parse_optional(&typed(ShopField::ClaimWords));
    let claim = errors.take(ShopField::ClaimWords, claim);
    Some(Terms {
        answer_days: answer_days?,
        take_back: take_back?,
        reminder_days: reminder_days?,
        claim: claim?,
    })
}

fn number(text: &str, least: u32, most: u32) -> Result<u32, Problem> {
    match text.trim().parse() {
        Ok(number) if (least..=most).contains(&number) => Ok(number),
        _ => Err(Problem::OutOfRange { least, most }),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_settings_survive_their_own_form() {
        let mut shop = Shop::new(
            Line::parse("Juniper Row").unwrap(),
            Words::parse("12 Juniper Row\nAlder Falls").unwrap(),
            Email::parse("bench@example.com").unwrap(),
        );
        assert_eq!(read(&fields_of(&shop), &shop), Ok(shop.clone()));
        shop.prices.hourly = Money::parse("7000", Currency::parse("JPY").unwrap()).unwrap();
        shop.prices.cash = Some(CashRounding {
            step: 10,
            rounding: Rounding::HalfDown,
        });
        shop.prices.minimum = Money::parse("1500", shop.currency()).ok();
        shop.prices.rush = Rate::parse("30").unwrap();
        shop.prices.deposit = Rate::parse("12.5").unwrap();
        assert_eq!(read(&fields_of(&shop), &shop), Ok(shop));
    }
}

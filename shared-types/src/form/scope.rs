//! The part of a form in which work is picked.
//!
//! Lines that are kept, services of the price book, lines of one's own, and with them rush and
//! discount. Intake has one part for each pair, an offer one for each choice.

use crate::adjust::{Discount, DiscountBy, ScopeTerms};
use crate::form::{Fields, FormErrors, Problem};
use crate::minutes::Minutes;
use crate::money::{Currency, Money};
use crate::pricebook::Service;
use crate::scope::{ScopeLine, ScopeProblem, Side};
use crate::stage::Stage;
use crate::text::{Line, Words};

/// How many lines of one's own a form offers.
pub const OWN_LINES: usize = 2;

/// A field of the part.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum ScopeField {
    /// Tick boxes: places of agreed lines that stay.
    Keep,
    /// Tick boxes: ids of services.
    Service,
    /// Title of an own line.
    OwnTitle(usize),
    /// Minutes of an own line.
    OwnMinutes(usize),
    /// Material of an own line.
    OwnMaterial(usize),
    /// Plain words on an own line.
    OwnReason(usize),
    /// Ticked if it goes before others.
    Rush,
    /// A discount: an amount, or a percentage.
    Discount,
    /// Why there is a discount.
    DiscountReason,
}

impl ScopeField {
    /// The field beside which a problem of the worked-out scope stands.
    pub const fn of(problem: &ScopeProblem) -> Self {
        match problem {
            ScopeProblem::DiscountBeyond { .. } => Self::Discount,
            ScopeProblem::Empty
            | ScopeProblem::TooManyLines
            | ScopeProblem::Price(_)
            | ScopeProblem::NoDay => Self::Service,
        }
    }

    /// The field's name in the form, behind the part's prefix.
    pub fn name(self, prefix: &str) -> String {
        match self {
            Self::Keep => format!("{prefix}keep"),
            Self::Service => format!("{prefix}service"),
            Self::OwnTitle(row) => format!("{prefix}own-{row}-title"),
            Self::OwnMinutes(row) => format!("{prefix}own-{row}-minutes"),
            Self::OwnMaterial(row) => format!("{prefix}own-{row}-material"),
            Self::OwnReason(row) => format!("{prefix}own-{row}-reason"),
            Self::Rush => format!("{prefix}rush"),
            Self::Discount => format!("{prefix}discount"),
            Self::DiscountReason => format!("{prefix}discount-reason"),
        }
    }
}

/// Reads the lines that the part with this prefix asks for: kept ones first, in their order, then
/// services in the order of the price book, then own lines.
pub fn read(
    fields: &Fields,
    prefix: &str,
    (services, agreed): (&[Service], &[ScopeLine]),
    currency: Currency,
    errors: &mut FormErrors<ScopeField>,
) -> Vec<ScopeLine> {
    let keep = ScopeField::Keep.name(prefix);
    let kept = agreed
        .iter()
        .enumerate()
        .filter(|(place, _)| fields.has(&keep, &place.to_string()));
    let name = ScopeField::Service.name(prefix);
    let picked = services
        .iter()
        .filter(|service| fields.has(&name, &service.id.to_string()));
    let own = (0..OWN_LINES).filter_map(|row| read_own(fields, prefix, row, currency, errors));
    kept.map(|(_, line)| line.clone())
        .chain(picked.map(Service::line))
        .chain(own)
        .collect()
}

/// Reads rush and discount of the part with this prefix.
pub fn read_terms(
    fields: &Fields,
    prefix: &str,
    currency: Currency,
    errors: &mut FormErrors<ScopeField>,
) -> ScopeTerms {
    let typed = |field: ScopeField| fields.one(&field.name(prefix)).to_owned();
    let by = DiscountBy::parse_optional(&typed(ScopeField::Discount), currency);
    let by = errors.take(ScopeField::Discount, by).flatten();
    let reason = Line::parse_optional(&typed(ScopeField::DiscountReason));
    let reason = errors.take(ScopeField::DiscountReason, reason).flatten();
    if by.is_some() && reason.is_none() {
        errors.add(ScopeField::DiscountReason, Problem::Missing);
    }
    ScopeTerms {
        rush: fields.has(&ScopeField::Rush.name(prefix), "yes"),
        discount: by.zip(reason).map(|(by, reason)| Discount { by, reason }),
    }
}

/// The fields of the part with this prefix as the terms stand, for the page that shows them.
pub fn push_terms(fields: &mut Fields, prefix: &str, terms: &ScopeTerms) {
    if terms.rush {
        fields.push(ScopeField::Rush.name(prefix), "yes");
    }
    if let Some(Discount { by, reason }) = &terms.discount {
        fields.push(ScopeField::Discount.name(prefix), by.figure());
        fields.push(ScopeField::DiscountReason.name(prefix), reason.as_str());
    }
}

fn read_own(
    fields: &Fields,
    prefix: &str,
    row: usize,
    currency: Currency,
    errors: &mut FormErrors<ScopeField>,
) -> Option<ScopeLine> {
    let typed = |field: ScopeField| fields.one(&field.name(prefix)).to_owned();
    let (title, minutes) = (
        typed(ScopeField::OwnTitle(row)),
        typed(ScopeField::OwnMinutes(row)),
    );
    let (material, reason) = (
        typed(ScopeField::OwnMaterial(row)),
        typed(ScopeField::OwnReason(row)),
    );
    if [&title, &minutes, &material, &reason]
        .iter()
        .all(|text| text.trim().is_empty())
    {
        return None;
    }
    let or_zero = |text: String| {
        if text.trim().is_empty() {
            "0".to_owned()
        } else {
            text
        }
    };
    let title = errors.take(ScopeField::OwnTitle(row), Line::parse(&title));
    let minutes = errors.take(
        ScopeField::OwnMinutes(row),
        Minutes::parse(&or_zero(minutes)),
    );
    let material = errors.take(
        ScopeField::OwnMaterial(row),
        Money::parse(&or_zero(material), currency),
    );
    let reason = errors.take(
        ScopeField::OwnReason(row),
        Words::parse_optional(&reason).and_then(|words| match words {
            Some(words) if words.as_str().chars().count() > 1_000 => Err(Problem::TooManyLetters {
                length: words.as_str().chars().count(),
                limit: 1_000,
            }),
            words => Ok(words),
        }),
    );
    Some(ScopeLine {
        service: None,
        title: title?,
        reason: reason?,
        side: Side::Pair,
        stage: Stage::Structure,
        minutes: minutes?,
        rest: Minutes::ZERO,
        material: material?,
        uses: Vec::new(),
        set_price: None,
    })
}

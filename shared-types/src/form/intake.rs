//! The intake form: a customer, one or more pairs, and the work agreed at the counter.

use crate::bench::take_off::TakeOffs;
use crate::contact::{CustomerName, Email, Phone};
use crate::digest::Digest;
use crate::form::scope::{self, ScopeField};
use crate::form::{Fields, FormErrors, Problem, mend};
use crate::id::{CustomerId, TicketId};
use crate::money::Currency;
use crate::pricebook::{Offered, Service};
use crate::scope::Work;
use crate::size::{ShoeSize, SizeSystem};
use crate::text::{Line, Words};
use crate::ticket::{Construction, PairAbout, Rating, Tag};
use time::Date;
use time::format_description::well_known::Iso8601;

/// A field of the intake form.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum IntakeField {
    /// The id that the ticket will have, so that a second press makes no second ticket.
    Token,
    /// What to look a known customer up by.
    Lookup,
    /// The id of a known customer, or empty for a new one.
    Known,
    /// A new customer's name.
    Name,
    /// A new customer's mail address.
    Email,
    /// A new customer's telephone number.
    Phone,
    /// How many pairs the form has.
    Pairs,
    /// Which button was pressed.
    Act,
    /// A field of one pair.
    Pair(usize, PairField),
}

/// A field of one pair.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum PairField {
    /// What kind.
    Kind,
    /// Its colour.
    Colour,
    /// The system of its size.
    SizeSystem,
    /// The number of its size.
    Size,
    /// How it is built.
    Construction,
    /// Ticked if it carries a safety mark.
    Protective,
    /// Ticked once the customer was told of the caution.
    CautionTold,
    /// What is wrong.
    Wrong,
    /// The day by which the customer wishes it.
    Promise,
    /// New pictures.
    Photo,
    /// Digests of pictures that have arrived already.
    KeptPhoto,
    /// The work.
    Work(ScopeField),
}

impl IntakeField {
    /// The field's name in the form.
    pub fn name(self) -> String {
        let name = match self {
            Self::Token => "token",
            Self::Lookup => "lookup",
            Self::Known => "known",
            Self::Name => "name",
            Self::Email => "email",
            Self::Phone => "phone",
            Self::Pairs => "pairs",
            Self::Act => "act",
            Self::Pair(pair, field) => return field.name(pair),
        };
        name.to_owned()
    }
}

impl PairField {
    fn name(self, pair: usize) -> String {
        let prefix = work_prefix(pair);
        let name = match self {
            Self::Kind => "kind",
            Self::Colour => "colour",
            Self::SizeSystem => "size-system",
            Self::Size => "size",
            Self::Construction => "construction",
            Self::Protective => "protective",
            Self::CautionTold => "caution-told",
            Self::Wrong => "wrong",
            Self::Promise => "promise",
            Self::Photo => "photo",
            Self::KeptPhoto => "kept-photo",
            Self::Work(field) => return field.name(&prefix),
        };
        format!("{prefix}{name}")
    }
}

/// The prefix of the names of one pair's fields.
pub fn work_prefix(pair: usize) -> String {
    format!("p{pair}-")
}

/// What a press of a button asks for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum IntakeAct {
    /// Look a known customer up.
    Lookup,
    /// Show one more pair.
    AddPair,
    /// Work out price and day.
    Price,
    /// Tick what is missing, or take out what is too much ([`crate::form::mend`]).
    Mend,
    /// Take the pairs in.
    TakeIn,
}

impl IntakeAct {
    /// Its code in the form.
    pub const fn code(self) -> &'static str {
        match self {
            Self::Lookup => "lookup",
            Self::AddPair => "add-pair",
            Self::Price => "price",
            Self::Mend => "mend",
            Self::TakeIn => "take-in",
        }
    }

    /// The button that was pressed; the Enter key looks up if something stands there to look up.
    pub fn of(fields: &Fields) -> Self {
        let acts = [Self::Lookup, Self::AddPair, Self::Price];
        let pressed = fields.one(&IntakeField::Act.name());
        if mend::pressed(pressed).is_some() {
            return Self::Mend;
        }
        acts.into_iter()
            .find(|act| act.code() == pressed)
            .unwrap_or(Self::TakeIn)
    }
}

/// Who brings the pairs.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Bringer {
    /// A customer whom the shop knows.
    Known(CustomerId),
    /// A new one.
    New {
        /// As they are called.
        name: CustomerName,
        /// Where letters go.
        email: Option<Email>,
        /// Where the shop rings.
        phone: Option<Phone>,
    },
}

/// What was taken in.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Intake {
    /// The ticket's id.
    pub token: TicketId,
    /// Who brings the pairs.
    pub bringer: Bringer,
    /// The pairs, in the order of their tags.
    pub pairs: Vec<IntakePair>,
}

/// One pair with the work on it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct IntakePair {
    /// What it is.
    pub about: PairAbout,
    /// The work.
    pub work: Work,
    /// The day by which the customer wishes it; none if the first that can be given is fine.
    pub promise: Option<Date>,
    /// Pictures that have arrived.
    pub photos: Vec<Digest>,
}

/// How many pairs the form shows.
pub fn pair_count(fields: &Fields) -> usize {
    let typed = fields.one(&IntakeField::Pairs.name()).parse().unwrap_or(1);
    usize::clamp(typed, 1, Tag::MOST)
}

/// How a pair is built and rated, as far as it can be read.
pub fn read_build(fields: &Fields, pair: usize) -> (Construction, Rating) {
    let at = |field: PairField| IntakeField::Pair(pair, field).name();
    let construction = Construction::from_code(fields.one(&at(PairField::Construction)));
    let rating = if fields.has(&at(PairField::Protective), "yes") {
        Rating::Protective
    } else {
        Rating::Ordinary
    };
    (construction.unwrap_or(Construction::Unknown), rating)
}

/// The work of each pair as far as it can be read, for the price while typing.
pub fn read_work(fields: &Fields, services: &[Offered], currency: Currency) -> Vec<Work> {
    (0..pair_count(fields))
        .map(|pair| read_pair_work(fields, pair, services, currency, &mut FormErrors::default()))
        .collect()
}

/// What a pair takes, as far as its size and how it is built are typed.
pub fn take_offs(fields: &Fields, pair: usize) -> TakeOffs {
    let typed = |field: PairField| {
        fields
            .one(&IntakeField::Pair(pair, field).name())
            .to_owned()
    };
    let size = read_size(&typed(PairField::SizeSystem), &typed(PairField::Size));
    let construction = Construction::from_code(&typed(PairField::Construction));
    TakeOffs::of_size(
        size.ok().flatten(),
        construction.unwrap_or(Construction::Unknown),
    )
}

/// One pair's work; only what is picked is worked out for its size.
fn read_pair_work(
    fields: &Fields,
    pair: usize,
    services: &[Offered],
    currency: Currency,
    errors: &mut FormErrors<ScopeField>,
) -> Work {
    let prefix = work_prefix(pair);
    let name = ScopeField::Service.name(&prefix);
    let picked = services
        .iter()
        .filter(|service| fields.has(&name, &service.id.to_string()));
    let mut picked = picked.peekable();
    let services: Vec<Service> = if picked.peek().is_some() {
        let takes = take_offs(fields, pair);
        picked
            .filter_map(|service| {
                let service = service.for_pair(&takes);
                errors.take(
                    ScopeField::Service,
                    service.map_err(|problem| Problem::Scope(problem.into())),
                )
            })
            .collect()
    } else {
        Vec::new()
    };
    Work {
        lines: scope::read(fields, &prefix, (&services, &[]), currency, errors),
        terms: scope::read_terms(fields, &prefix, currency, errors),
    }
}

/// Reads the whole form.
pub fn read(
    fields: &Fields,
    services: &[Offered],
    currency: Currency,
) -> Result<Intake, FormErrors<IntakeField>> {
    let mut errors = FormErrors::default();
    let token = fields
        .one(&IntakeField::Token.name())
        .parse()
        .map_err(|_| Problem::Missing);
    let token = errors.take(IntakeField::Token, token);
    let bringer = read_bringer(fields, &mut errors);
    let pairs: Vec<Option<IntakePair>> = (0..pair_count(fields))
        .map(|pair| read_pair(fields, pair, services, currency, &mut errors))
        .collect();
    match (
        token,
        bringer,
        pairs.into_iter().collect::<Option<Vec<_>>>(),
    ) {
        (Some(token), Some(bringer), Some(pairs)) if errors.is_empty() => Ok(Intake {
            token,
            bringer,
            pairs,
        }),
        _ => Err(errors),
    }
}

fn read_bringer(fields: &Fields, errors: &mut FormErrors<IntakeField>) -> Option<Bringer> {
    let typed = |field: IntakeField| fields.one(&field.name()).to_owned();
    let known = typed(IntakeField::Known);
    if !known.is_empty() {
        let known = known.parse().map_err(|_| Problem::NotChosen);
        return errors.take(IntakeField::Known, known).map(Bringer::Known);
    }
    let name = CustomerName::parse(&typed(IntakeField::Name));
    let email = Email::parse_optional(&typed(IntakeField::Email));
    let phone = Phone::parse_optional(&typed(IntakeField::Phone));
    let (name, email, phone) = (
        errors.take(IntakeField::Name, name),
        errors.take(IntakeField::Email, email),
        errors.take(IntakeField::Phone, phone),
    );
    Some(Bringer::New {
        name: name?,
        email: email?,
        phone: phone?,
    })
}

fn read_pair(
    fields: &Fields,
    pair: usize,
    services: &[Offered],
    currency: Currency,
    errors: &mut FormErrors<IntakeField>,
) -> Option<IntakePair> {
    let at = |field: PairField| IntakeField::Pair(pair, field);
    let typed = |field: PairField| fields.one(&at(field).name()).to_owned();
    let kind = errors.take(at(PairField::Kind), Line::parse(&typed(PairField::Kind)));
    let colour = errors.take(
        at(PairField::Colour),
        Line::parse(&typed(PairField::Colour)),
    );
    let wrong = errors.take(at(PairField::Wrong), Words::parse(&typed(PairField::Wrong)));
    let construction = Construction::from_code(&typed(PairField::Construction));
    let construction = errors.take(
        at(PairField::Construction),
        construction.ok_or(Problem::NotChosen),
    );
    let size = errors.take(
        at(PairField::Size),
        read_size(&typed(PairField::SizeSystem), &typed(PairField::Size)),
    );
    let protective = fields.has(&at(PairField::Protective).name(), "yes");
    let told = fields.has(&at(PairField::CautionTold).name(), "yes");
    if protective && !told {
        errors.add(at(PairField::CautionTold), Problem::CautionNotTold);
    }
    let mut work_errors = FormErrors::default();
    let work = read_pair_work(fields, pair, services, currency, &mut work_errors);
    for (field, problem) in work_errors.iter() {
        errors.add(at(PairField::Work(*field)), problem.clone());
    }
    if work.lines.is_empty() && work_errors.is_empty() {
        errors.add(at(PairField::Work(ScopeField::Service)), Problem::NoWork);
    }
    let kept = at(PairField::KeptPhoto).name();
    let promise = errors.take(at(PairField::Promise), wished(fields, pair));
    Some(IntakePair {
        about: PairAbout {
            kind: kind?,
            colour: colour?,
            size: size?,
            construction: construction?,
            rating: if protective {
                Rating::Protective
            } else {
                Rating::Ordinary
            },
            wrong: wrong?,
        },
        work,
        promise: promise?,
        photos: fields
            .all(&kept)
            .filter_map(|text| text.parse().ok())
            .collect(),
    })
}

/// The day by which the customer wishes a pair.
pub fn wished(fields: &Fields, pair: usize) -> Result<Option<Date>, Problem> {
    let typed = fields.one(&IntakeField::Pair(pair, PairField::Promise).name());
    match typed.trim() {
        "" => Ok(None),
        day => Date::parse(day, &Iso8601::DATE)
            .map(Some)
            .map_err(|_| Problem::NotADay),
    }
}

fn read_size(system: &str, size: &str) -> Result<Option<ShoeSize>, Problem> {
    if size.trim().is_empty() {
        return Ok(None);
    }
    let system = SizeSystem::from_code(system).ok_or(Problem::NotChosen)?;
    ShoeSize::parse(system, size).map(Some)
}

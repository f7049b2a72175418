//! The form of one rule between services. Everything in it is picked from lists, but the reasons.

use std::collections::BTreeSet;

use crate::form::{Fields, FormErrors, Problem};
use crate::id::ServiceId;
use crate::scope::discovery::Discovery;
use crate::scope::rules::condition::Condition;
use crate::scope::rules::wording::Kind;
use crate::scope::rules::{Case, Claim, Need, Reason, Rule, Standing};
use crate::text::Words;
use crate::ticket::{Construction, Rating};

/// How many places an order of preference has on the form.
pub const PLACES: usize = 6;

/// A field of the form.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum RuleField {
    /// The services that the rule is about.
    These,
    /// The other services.
    Those,
    /// The service that is better done together.
    Also,
    /// What has to be sound, or is mended.
    Condition,
    /// A place in an order, from 0.
    Place(usize),
    /// Constructions on which it holds; all if none is ticked.
    Construction,
    /// The rating on which it holds.
    Rating,
    /// Discoveries with which it holds.
    Discovery,
    /// Why, for the bench.
    Bench,
    /// Why, for the customer.
    Customer,
    /// Which button was pressed.
    Act,
    /// The rule as a whole.
    Whole,
}

impl RuleField {
    /// The field's name in the form.
    pub fn name(self) -> String {
        let name = match self {
            Self::These => "these",
            Self::Those => "those",
            Self::Also => "also",
            Self::Condition => "condition",
            Self::Place(place) => return format!("place-{place}"),
            Self::Construction => "construction",
            Self::Rating => "rating",
            Self::Discovery => "discovery",
            Self::Bench => "bench",
            Self::Customer => "customer",
            Self::Act => "act",
            Self::Whole => "whole",
        };
        name.to_owned()
    }
}

/// What a press of a button on a rule's page asks for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RuleAct {
    /// Keep what was typed.
    Save,
    /// Put it in force.
    SwitchOn,
    /// Put it out of force.
    SwitchOff,
    /// Take the shipped words again.
    AsShipped,
    /// Remove a rule of the shop's own.
    Remove,
}

impl RuleAct {
    const ALL: [Self; 5] = [
        Self::Save,
        Self::SwitchOn,
        Self::SwitchOff,
        Self::AsShipped,
        Self::Remove,
    ];

    /// Its code in the form.
    pub const fn code(self) -> &'static str {
        match self {
            Self::Save => "save",
            Self::SwitchOn => "switch-on",
            Self::SwitchOff => "switch-off",
            Self::AsShipped => "as-shipped",
            Self::Remove => "remove",
        }
    }

    /// The button that was pressed; the Enter key saves.
    pub fn of(fields: &Fields) -> Self {
        let pressed = fields.one(&RuleField::Act.name());
        Self::ALL
            .into_iter()
            .find(|act| act.code() == pressed)
            .unwrap_or(Self::Save)
    }
}

/// Reads the two reasons.
pub fn read_reason(fields: &Fields, errors: &mut FormErrors<RuleField>) -> Option<Reason> {
    let mut words = |field: RuleField| {
        let words = Words::parse(fields.one(&field.name()));
        errors.take(field, words.and_then(short))
    };
    let (bench, customer) = (words(RuleField::Bench), words(RuleField::Customer));
    Some(Reason {
        bench: bench?,
        customer: customer?,
    })
}

/// A reason stands on every sheet with such a line.
fn short(words: Words) -> Result<Words, Problem> {
    let (length, limit) = (words.as_str().chars().count(), 500);
    if length > limit {
        return Err(Problem::TooManyLetters { length, limit });
    }
    Ok(words)
}

/// Reads a rule of the shop's own.
pub fn read(kind: Kind, fields: &Fields) -> Result<Rule, FormErrors<RuleField>> {
    let mut errors = FormErrors::default();
    let claim = read_claim(kind, fields, &mut errors);
    let reason = read_reason(fields, &mut errors);
    match (claim, reason) {
        (Some(claim), Some(reason)) if errors.is_empty() => Ok(Rule {
            standing: Standing::On,
            case: read_case(fields),
            claim,
            reason,
        }),
        _ => Err(errors),
    }
}

fn read_claim(kind: Kind, fields: &Fields, errors: &mut FormErrors<RuleField>) -> Option<Claim> {
    let mut set = |field: RuleField, least: usize| {
        let ticked: BTreeSet<ServiceId> = ticked(fields, field);
        let problem = match least {
            2 => Problem::PickTwo,
            _ => Problem::NoWork,
        };
        errors.take(
            field,
            if ticked.len() < least {
                Err(problem)
            } else {
                Ok(ticked)
            },
        )
    };
    Some(match kind {
        Kind::NeedsWork => {
            let (these, those) = (set(RuleField::These, 1), set(RuleField::Those, 1));
            Claim::Requires {
                these: these?,
                any_of: those?.into_iter().map(Need::Line).collect(),
            }
        }
        Kind::NeedsSound => {
            let these = set(RuleField::These, 1);
            let condition = read_condition(fields, errors);
            Claim::Requires {
                these: these?,
                any_of: [Need::Sound(condition?)].into(),
            }
        }
        Kind::OneOf => Claim::OneOf {
            these: set(RuleField::These, 2)?,
        },
        Kind::Excludes => {
            let (these, those) = (set(RuleField::These, 1), set(RuleField::Those, 1));
            Claim::Excludes {
                these: these?,
                those: those?,
            }
        }
        Kind::Spares => {
            let (done, spared) = (set(RuleField::These, 1), set(RuleField::Those, 1));
            Claim::Spares {
                done: done?,
                spared: spared?,
            }
        }
        Kind::Unfit => Claim::Unfit {
            these: set(RuleField::These, 1)?,
        },
        Kind::Mends => {
            let condition = read_condition(fields, errors);
            let best_first = read_order(fields, 1, errors);
            Claim::Mends {
                condition: condition?,
                best_first: best_first?,
            }
        }
        Kind::Prefers => Claim::Prefers {
            best_first: read_order(fields, 2, errors)?,
        },
        Kind::Together => {
            let (during, later_with) = (set(RuleField::These, 1), ticked(fields, RuleField::Those));
            let also = fields.one(&RuleField::Also.name()).parse();
            let also = errors.take(RuleField::Also, also.map_err(|_| Problem::NotChosen));
            Claim::Together {
                during: during?,
                also: also?,
                later_with,
            }
        }
    })
}

fn ticked(fields: &Fields, field: RuleField) -> BTreeSet<ServiceId> {
    let name = field.name();
    fields
        .all(&name)
        .filter_map(|text| text.parse().ok())
        .collect()
}

fn read_condition(fields: &Fields, errors: &mut FormErrors<RuleField>) -> Option<Condition> {
    let code = fields.one(&RuleField::Condition.name());
    let condition = Condition::from_code(code).ok_or(Problem::NotChosen);
    errors.take(RuleField::Condition, condition)
}

fn read_order(
    fields: &Fields,
    least: usize,
    errors: &mut FormErrors<RuleField>,
) -> Option<Vec<ServiceId>> {
    let places = (0..PLACES).map(|place| fields.one(&RuleField::Place(place).name()).parse());
    let order: Vec<ServiceId> = places.filter_map(Result::ok).collect();
    if order.len() < least {
        let problem = match least {
            2 => Problem::PickTwo,
            _ => Problem::NoWork,
        };
        errors.add(RuleField::Place(0), problem);
        return None;
    }
    Some(order)
}

fn read_case(fields: &Fields) -> Case {
    let (constructions, discoveries) =
        (RuleField::Construction.name(), RuleField::Discovery.name());
    Case {
        constructions: fields
            .all(&constructions)
            .filter_map(Construction::from_code)
            .collect(),
        rating: match fields.one(&RuleField::Rating.name()) {
            PROTECTIVE => Some(Rating::Protective),
            ORDINARY => Some(Rating::Ordinary),
            _ => None,
        },
        discoveries: fields
            .all(&discoveries)
            .filter_map(Discovery::from_code)
            .collect(),
    }
}

/// The code of pairs with a safety mark.
pub const PROTECTIVE: &str = "protective";
/// The code of pairs without.
pub const ORDINARY: &str = "ordinary";

/// The form as a rule fills it.
pub fn fields_of(rule: &Rule) -> Fields {
    let mut fields = Fields::default();
    let mut push = |field: RuleField, value: String| fields.push(field.name(), value);
    match &rule.claim {
        Claim::Requires { these, any_of } => {
            tick(RuleField::These, these, &mut push);
            for need in any_of {
                match need {
                    Need::Line(service) => push(RuleField::Those, service.to_string()),
                    Need::Sound(condition) => {
                        push(RuleField::Condition, condition.code().to_owned());
                    }
                }
            }
        }
        Claim::OneOf { these } | Claim::Unfit { these } => {
            tick(RuleField::These, these, &mut push);
        }
        Claim::Excludes { these, those } => {
            tick(RuleField::These, these, &mut push);
            tick(RuleField::Those, those, &mut push);
        }
        Claim::Spares { done, spared } => {
            tick(RuleField::These, done, &mut push);
            tick(RuleField::Those, spared, &mut push);
        }
        Claim::Mends {
            condition,
            best_first,
        } => {
            push(RuleField::Condition, condition.code().to_owned());
            for (place, service) in best_first.iter().enumerate() {
                push(RuleField::Place(place), service.to_string());
            }
        }
        Claim::Prefers { best_first } => {
            for (place, service) in best_first.iter().enumerate() {
                push(RuleField::Place(place), service.to_string());
            }
        }
        Claim::Together {
            during,
            also,
            later_with,
        } => {
            tick(RuleField::These, during, &mut push);
            push(RuleField::Also, also.to_string());
            tick(RuleField::Those, later_with, &mut push);
        }
    }
    for way in &rule.case.constructions {
        push(RuleField::Construction, way.code().to_owned());
    }
    let rating = rule.case.rating.map(|rating| match rating {
        Rating::Protective => PROTECTIVE,
        Rating::Ordinary => ORDINARY,
    });
    push(RuleField::Rating, rating.unwrap_or_default().to_owned());
    for discovery in &rule.case.discoveries {
        push(RuleField::Discovery, discovery.code().to_owned());
    }
    push(RuleField::Bench, rule.reason.bench.to_string());
    push(RuleField::Customer, rule.reason.customer.to_string());
    fields
}

fn tick(
    field: RuleField,
    services: &BTreeSet<ServiceId>,
    push: &mut impl FnMut(RuleField, String),
) {
    for service in services {
        push(field, service.to_string());
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::scope::rules::shipped;

    /// What is shown in the form of a rule is that rule, for every shipped one.
    #[test]
    fn a_rule_comes_back_from_its_form() {
        for (id, rule) in shipped::rules().rules {
            let read = read(rule.claim.kind(), &fields_of(&rule));
            assert_eq!(read, Ok(rule), "{id}");
        }
    }

    #[test]
    fn an_empty_form_says_what_is_missing_for_every_kind() {
        for kind in Kind::ALL {
            let errors = read(kind, &Fields::default()).unwrap_err();
            assert!(errors.at(&RuleField::Bench).is_some(), "{kind:?}");
            assert!(errors.iter().count() >= 3, "{kind:?}");
        }
    }
}

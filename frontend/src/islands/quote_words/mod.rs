//! What a form's ticks cost, in words: what the live quote says.

use std::collections::BTreeSet;

use serde::{Deserialize, Serialize};
use shared_types::adjust::ScopeTerms;
use shared_types::form::advice::{Advisor, Button, services_of};
use shared_types::form::{Fields, FormErrors, intake, offer, scope};
use shared_types::id::ServiceId;
use shared_types::money::{Money, MoneyProblem};
use shared_types::price::{PriceRules, Quote, quote};
use shared_types::pricebook::{Offered, Service, for_pair};
use shared_types::scope::rules::{AsFound, RuleSet};
use shared_types::scope::sheet::ChoiceKey;
use shared_types::scope::{Scope, ScopeLine, ScopeProblem, Work, assumes_size};
use shared_types::size::ShoeSize;
use shared_types::tax::TaxBasis;
use shared_types::ticket::Tag;

use crate::islands::live_days::{LiveDay, LiveDays};
use crate::islands::live_rules::LiveRules;

/// Which form is read.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum FormKind {
    /// Pairs that are taken in.
    Intake,
    /// The choices of an offer.
    Offer,
    /// A changed scope.
    Edit,
}

/// The price book, with prices of sale alone.
#[derive(Clone, Debug, Serialize, Deserialize)]
enum Services {
    /// Worked out for the pair that the form is about.
    ForPair(Vec<Service>),
    /// To be worked out for the sizes that are typed.
    Offered(Vec<Offered>),
}

/// What prices are worked out from.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub struct QuoteBook {
    services: Services,
    agreed: Vec<ScopeLine>,
    agreed_total: Option<Money>,
    terms: ScopeTerms,
    rules: PriceRules,
    goes_together: LiveRules,
}

/// What is said while it is being ticked.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Said {
    /// A sentence.
    pub words: String,
    /// What its amounts came about from, if it says any.
    pub how: Option<Priced>,
    /// What would mend what it says.
    pub buttons: Vec<Button>,
}

/// Work with its price.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Priced {
    /// The lines.
    pub lines: Vec<ScopeLine>,
    /// What they cost.
    pub quote: Quote,
}

impl From<String> for Said {
    fn from(words: String) -> Self {
        Self {
            words,
            how: None,
            buttons: Vec::new(),
        }
    }
}

impl QuoteBook {
    /// The book of a form about one pair, without the words that no price needs, so that the page
    /// stays light.
    pub fn for_pair(
        mut services: Vec<Service>,
        agreed: &Scope,
        rules: PriceRules,
        (what_goes_together, found): (&RuleSet, &AsFound),
    ) -> Self {
        for service in &mut services {
            service.about = None;
        }
        let mut book = Self::new(Services::ForPair(services), Some(agreed), rules);
        book.goes_together = LiveRules::new(what_goes_together, &book.known(), Some(found));
        book
    }

    /// The book of a form in which pairs are typed, as light.
    pub fn offered(
        mut services: Vec<Offered>,
        rules: PriceRules,
        what_goes_together: &RuleSet,
    ) -> Self {
        for service in &mut services {
            service.about = None;
        }
        let mut book = Self::new(Services::Offered(services), None, rules);
        book.goes_together = LiveRules::new(what_goes_together, &book.known(), None);
        book
    }

    /// Its services in their order, then those that stand agreed and have left it.
    fn known(&self) -> Vec<ServiceId> {
        let mut known: Vec<ServiceId> = match &self.services {
            Services::ForPair(services) => services.iter().map(|one| one.id).collect(),
            Services::Offered(services) => services.iter().map(|one| one.id).collect(),
        };
        for id in self.agreed.iter().filter_map(|line| line.service) {
            if !known.contains(&id) {
                known.push(id);
            }
        }
        known
    }

    fn new(services: Services, agreed: Option<&Scope>, rules: PriceRules) -> Self {
        let mut lines = agreed.map_or_else(Vec::new, |agreed| agreed.lines.clone());
        for line in &mut lines {
            line.reason = None;
        }
        Self {
            services,
            agreed: lines,
            agreed_total: agreed.map(Scope::total),
            terms: agreed.map_or(ScopeTerms::PLAIN, |agreed| agreed.terms.clone()),
            rules,
            goes_together: LiveRules::default(),
        }
    }
}

/// What each part of the form that has work costs, by which day it can be ready, once `days` can be
/// asked, and whether it hangs together.
pub fn sentences(
    form: FormKind,
    fields: &Fields,
    book: &QuoteBook,
    days: Option<&mut LiveDays<'_>>,
) -> Vec<Said> {
    let mut totals = Vec::new();
    let mut sentences: Vec<Said> = Vec::new();
    let parts = parts(form, fields, book);
    let days = days.map_or_else(Vec::new, |days| days_of(form, fields, &parts, days));
    let days = days.into_iter().chain(std::iter::repeat_with(|| None));
    for ((place, (label, work)), day) in parts.into_iter().zip(days) {
        if work.lines.is_empty() {
            continue;
        }
        let quote = quote(&work.lines, &work.terms, &book.rules);
        totals.extend(quote.as_ref().ok().map(|quote| quote.total));
        let priced = quote.and_then(|quote| Ok((words(&quote, book.agreed_total)?, quote)));
        let (mut words, quote) = match priced {
            Ok((words, quote)) => (format!("{label}: {words}"), Some(quote)),
            Err(problem) => (format!("{label}: {problem}"), None),
        };
        let mut unsaid = None;
        match day {
            Some(Ok(day)) => {
                words = format!("{words}; {}", day.words());
                unsaid = day.refusal();
            }
            Some(Err(problem)) => unsaid = Some(problem.to_string()),
            None => {}
        }
        if assumes_size(&work.lines) {
            let usual = ShoeSize::USUAL;
            words = format!("{words}; its size is not known, so {usual} is taken");
        }
        let how = quote.map(|quote| Priced {
            lines: work.lines.clone(),
            quote,
        });
        sentences.push(Said {
            how,
            ..words.into()
        });
        sentences.extend(unsaid.map(|words| Said::from(format!("{label}: {words}"))));
        sentences.extend(objection(form, place, fields, (book, &work.lines)));
    }
    if form == FormKind::Intake && totals.len() > 1 {
        let sum = Money::sum(totals.iter().copied(), book.rules.currency());
        sentences.extend(sum.ok().map(|sum| format!("The ticket: {sum}").into()));
    }
    if form == FormKind::Intake {
        let deposit = book.rules.deposit_on_all(&totals);
        let deposit = deposit.ok().flatten();
        let deposit = deposit.map(|deposit| format!("Deposit to ask for: {deposit}").into());
        sentences.extend(deposit);
    }
    sentences
}

/// The day of each part that has work.
fn days_of(
    form: FormKind,
    fields: &Fields,
    parts: &[(usize, (String, Work))],
    days: &mut LiveDays<'_>,
) -> Vec<Option<Result<LiveDay, ScopeProblem>>> {
    let wished = |place| match form {
        FormKind::Intake => intake::wished(fields, place).ok().flatten(),
        FormKind::Offer | FormKind::Edit => None,
    };
    let asked = parts
        .iter()
        .map(|(place, (_, work))| (work, wished(*place)));
    days.of(&asked.collect::<Vec<_>>())
}

/// What stands first against one part, and how much more there is; the page says it all.
fn objection(
    form: FormKind,
    place: usize,
    fields: &Fields,
    (book, lines): (&QuoteBook, &[ScopeLine]),
) -> Option<Said> {
    let worked_out;
    let services: &[Service] = match &book.services {
        Services::ForPair(services) => services,
        Services::Offered(offered) => {
            worked_out = for_pair(offered, &intake::take_offs(fields, place)).ok()?;
            &worked_out
        }
    };
    let (prefix, found) = match form {
        FormKind::Intake => {
            let (construction, rating) = intake::read_build(fields, place);
            let found = AsFound {
                construction,
                rating,
                discoveries: BTreeSet::new(),
            };
            (intake::work_prefix(place), found)
        }
        FormKind::Offer => {
            let mut found = book.goes_together.pair()?;
            found.discoveries = offer::discoveries(fields);
            (offer::choice_prefix(*ChoiceKey::ALL.get(place)?), found)
        }
        FormKind::Edit => (String::new(), book.goes_together.pair()?),
    };
    let rules = book.goes_together.rules(&book.known());
    let advisor = Advisor::new(rules, found, (services, &book.agreed), book.rules);
    let mut objections = match advisor.objections(&prefix, &services_of(lines)) {
        Ok(objections) => objections.into_iter(),
        Err(words) => return Some(words.into()),
    };
    let first = objections.next()?;
    let more = match objections.len() {
        0 => String::new(),
        1 => " One more thing does not hang together.".to_owned(),
        more => format!(" {more} more things do not hang together."),
    };
    Some(Said {
        words: format!("{}{more}", first.words),
        how: None,
        buttons: first.buttons,
    })
}

/// Each part of the form with its place.
fn parts(form: FormKind, fields: &Fields, book: &QuoteBook) -> Vec<(usize, (String, Work))> {
    let currency = book.rules.currency();
    let (services, offered): (&[Service], &[Offered]) = match &book.services {
        Services::ForPair(services) => (services, &[]),
        Services::Offered(services) => (&[], services),
    };
    let lines = (services, book.agreed.as_slice());
    match form {
        FormKind::Intake => intake::read_work(fields, offered, currency)
            .into_iter()
            .enumerate()
            .filter_map(|(place, work)| Some((place, (format!("Pair {}", Tag::at(place)?), work))))
            .collect(),
        FormKind::Offer => offer::read_work(fields, lines, currency)
            .into_iter()
            .map(|(key, lines)| {
                let terms = book.terms.clone();
                let place = ChoiceKey::ALL.iter().position(|one| *one == key);
                let work = Work { lines, terms };
                (place.unwrap_or_default(), (format!("Choice {key}"), work))
            })
            .collect(),
        FormKind::Edit => {
            let mut unread = FormErrors::default();
            let work = Work {
                lines: scope::read(fields, "", lines, currency, &mut unread),
                terms: scope::read_terms(fields, "", currency, &mut unread),
            };
            vec![(0, ("As ticked now".to_owned(), work))]
        }
    }
}

fn words(quote: &Quote, agreed: Option<Money>) -> Result<String, MoneyProblem> {
    let taxes = quote.taxes.iter().map(|tax| tax.tax);
    let tax = Money::sum(taxes, quote.total.currency())?;
    let sum = match quote.basis {
        _ if tax.is_zero() => quote.total.to_string(),
        TaxBasis::Added => format!(
            "{} and {tax} tax, together {}",
            quote.adjusted()?,
            quote.total
        ),
        TaxBasis::Included => format!("{} with {tax} tax in it", quote.total),
    };
    let mut steps = Vec::new();
    for step in &quote.adjustments {
        steps.push(format!("{} {}", step.title(), step.signed()?.signed()));
    }
    let sum = match steps.as_slice() {
        [] => sum,
        steps => format!("{}, {}: {sum}", quote.subtotal, steps.join(", ")),
    };
    Ok(match agreed {
        Some(agreed) => format!("{sum}; {}", against(quote.total.minus(agreed)?)),
        None => sum,
    })
}

/// A difference to the agreed price in words.
pub fn against(difference: Money) -> String {
    if difference.is_zero() {
        "the same as agreed".to_owned()
    } else if difference.is_positive() {
        format!("{difference} more than agreed")
    } else {
        format!(
            "{} less than agreed",
            difference.to_string().trim_start_matches('\u{2212}')
        )
    }
}

#[cfg(all(test, feature = "ssr"))]
mod tests;

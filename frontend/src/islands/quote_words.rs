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
use shared_types::scope::{Scope, ScopeLine, Work, assumes_size};
use shared_types::size::ShoeSize;
use shared_types::tax::TaxBasis;
use shared_types::ticket::Tag;

use super::live_rules::LiveRules;

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
    /// What would mend what it says.
    pub buttons: Vec<Button>,
}

impl From<String> for Said {
    fn from(words: String) -> Self {
        Self {
            words,
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

/// What each part of the form that has work costs, and whether it hangs together.
pub fn sentences(form: FormKind, fields: &Fields, book: &QuoteBook) -> Vec<Said> {
    let mut totals = Vec::new();
    let mut sentences: Vec<Said> = Vec::new();
    for (place, (label, work)) in parts(form, fields, book) {
        if work.lines.is_empty() {
            continue;
        }
        let worked_out = quote(&work.lines, &work.terms, &book.rules);
        totals.extend(worked_out.as_ref().ok().map(|quote| quote.total));
        sentences.push(
            match worked_out.and_then(|quote| words(&quote, book.agreed_total)) {
                Ok(words) if assumes_size(&work.lines) => {
                    let usual = ShoeSize::USUAL;
                    format!("{label}: {words}; its size is not known, so {usual} is taken").into()
                }
                Ok(words) => format!("{label}: {words}").into(),
                Err(problem) => format!("{label}: {problem}").into(),
            },
        );
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
mod tests {
    use shared_types::bench::take_off::{TakeOff, TakeOffs};
    use shared_types::form::intake::{IntakeField, PairField};
    use shared_types::form::scope::ScopeField;
    use shared_types::id::SupplyId;
    use shared_types::scope::rules::{Case, Claim, Need, Reason, Rule, RuleId, Standing};
    use shared_types::size::SizeSystem;
    use shared_types::supply::sold::{HowMuch, Sold};
    use shared_types::supply::{Percent, SupplyUnit};
    use shared_types::ticket::{Construction, Rating};

    use super::*;
    use crate::fixture;

    fn unopened() -> AsFound {
        AsFound {
            construction: Construction::Welt270,
            rating: Rating::Ordinary,
            discoveries: BTreeSet::new(),
        }
    }

    fn words_of(form: FormKind, fields: &Fields, book: &QuoteBook) -> Vec<String> {
        let said = sentences(form, fields, book).into_iter();
        said.map(|said| said.words).collect()
    }

    /// What the page's own check says of the same ticks, and with the same buttons.
    #[test]
    fn what_does_not_hang_together_is_said_as_on_the_page() {
        let services = fixture::price_book();
        let (one, other) = (services[4].id, services[7].id);
        let words = |text| shared_types::text::Words::parse(text).unwrap();
        let rule = Rule {
            standing: Standing::On,
            case: Case::default(),
            claim: Claim::Requires {
                these: [one].into(),
                any_of: [Need::Line(other)].into(),
            },
            reason: Reason {
                bench: words("It is so."),
                customer: words("It is so."),
            },
        };
        let id = RuleId::parse("own-1").unwrap();
        let rules = RuleSet {
            rules: [(id, rule)].into(),
            put_back: None,
        };
        let agreed = fixture::scope(&fixture::soles_and_heels(), fixture::now());
        let prices = fixture::shop().prices;
        let found = unopened();
        let book = QuoteBook::for_pair(services.clone(), &agreed, prices, (&rules, &found));
        let mut fields = Fields::default();
        fields.push(ScopeField::Service.name(""), one.to_string());
        let said = sentences(FormKind::Edit, &fields, &book);
        let advisor = Advisor::new(rules, found, (&services, &agreed.lines), prices);
        let page = advisor.objections("", &[one].into()).unwrap();
        assert_eq!(said.len(), 2, "{said:?}");
        assert_eq!(said[1].words, page[0].words);
        assert_eq!(said[1].buttons, page[0].buttons);
        fields.push(ScopeField::Service.name(""), other.to_string());
        assert_eq!(sentences(FormKind::Edit, &fields, &book).len(), 1);
    }

    #[test]
    fn the_live_price_is_the_price_of_the_server() {
        let rules = fixture::shop().prices;
        let services = fixture::price_book();
        let agreed = fixture::scope(&fixture::soles_and_heels(), fixture::now());
        let second = services[7].clone();
        let book =
            QuoteBook::for_pair(services, &agreed, rules, (&RuleSet::default(), &unopened()));
        let mut fields = Fields::default();
        fields.push(ScopeField::Keep.name(""), "0");
        fields.push(ScopeField::Keep.name(""), "1");
        let same = words_of(FormKind::Edit, &fields, &book);
        assert_eq!(same.len(), 1);
        assert!(same[0].ends_with("the same as agreed"), "{same:?}");
        assert!(same[0].contains(&agreed.total().to_string()), "{same:?}");

        let mut fields = Fields::default();
        fields.push("pairs", "2");
        let mut put = |pair, field: PairField, value: &str| {
            fields.push(IntakeField::Pair(pair, field).name(), value);
        };
        let mut offered = fixture::offered();
        offered[4].uses.push(Sold {
            supply: SupplyId::from_bytes([1; 16]),
            name: fixture::line("Rubber sheet"),
            unit: SupplyUnit::SquareDecimetre,
            price: fixture::dollars(600),
            waste: Percent::new(15),
            how_much: HowMuch::TakeOff(TakeOff::Outsoles),
        });
        let service = PairField::Work(ScopeField::Service);
        put(0, service, &offered[4].id.to_string());
        put(0, PairField::SizeSystem, "eu");
        put(0, PairField::Size, "47");
        put(1, service, &second.id.to_string());
        let size = ShoeSize::parse(SizeSystem::Eu, "47").unwrap();
        let large = TakeOffs::of_size(Some(size), Construction::Unknown);
        let first = offered[4].for_pair(&large).unwrap();
        let lines = [first.line(), second.line()];
        let expected = lines.map(|line| quote(&[line], &ScopeTerms::PLAIN, &rules).unwrap().total);
        let sum = Money::sum(expected, rules.currency()).unwrap();
        let book = QuoteBook::offered(offered, rules, &RuleSet::default());
        let shown = words_of(FormKind::Intake, &fields, &book);
        assert!(
            shown[0].ends_with(&format!("together {}", expected[0])),
            "{shown:?}"
        );
        assert!(
            shown[1].ends_with(&format!("together {}", expected[1])),
            "{shown:?}"
        );
        assert_eq!(shown[2], format!("The ticket: {sum}"));
        fields.remove(&IntakeField::Pair(0, PairField::Size).name());
        let shown = words_of(FormKind::Intake, &fields, &book);
        let said = "its size is not known, so EU 42 is taken";
        assert!(shown[0].ends_with(said), "{shown:?}");
    }

    /// With rush, discount and deposit: the server's own quote, in one sentence.
    #[test]
    fn the_live_price_takes_rush_discount_and_deposit_in() {
        let rate = |text| shared_types::tax::Rate::parse(text).unwrap();
        let rules = PriceRules {
            rush: rate("30"),
            deposit: rate("20"),
            ..fixture::shop().prices
        };
        let offered = fixture::offered();
        let unknown = TakeOffs::of_size(None, Construction::Unknown);
        let service = offered[4].for_pair(&unknown).unwrap();
        let prefix = intake::work_prefix(0);
        let mut fields = Fields::default();
        for (field, value) in [
            (ScopeField::Service, service.id.to_string().as_str()),
            (ScopeField::Rush, "yes"),
            (ScopeField::Discount, "5.00"),
            (ScopeField::DiscountReason, "second pair"),
        ] {
            fields.push(field.name(&prefix), value);
        }
        let book = QuoteBook::offered(offered, rules, &RuleSet::default());
        let shown = words_of(FormKind::Intake, &fields, &book);
        let terms = scope::read_terms(
            &fields,
            &prefix,
            rules.currency(),
            &mut FormErrors::default(),
        );
        let quote = quote(&[service.line()], &terms, &rules).unwrap();
        assert!(
            shown[0].contains("Discount, second pair \u{2212}$5.00"),
            "{shown:?}"
        );
        assert!(
            shown[0].ends_with(&format!("together {}", quote.total)),
            "{shown:?}"
        );
        let deposit = rules.deposit_on(quote.total).unwrap().unwrap();
        assert_eq!(shown[1], format!("Deposit to ask for: {deposit}"));
    }
}

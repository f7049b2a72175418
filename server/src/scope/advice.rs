//! What the trade's rules say to an offer that is being composed: choices that follow from the
//! discoveries, reasons for each line, and whether a choice hangs together.

use std::collections::BTreeSet;

use shared_types::adjust::ScopeTerms;
use shared_types::form::offer::{self, OfferField};
use shared_types::form::scope::{OWN_LINES, ScopeField};
use shared_types::form::{Fields, Problem};
use shared_types::id::ServiceId;
use shared_types::money::MoneyProblem;
use shared_types::price::{PriceRules, quote};
use shared_types::pricebook::Service;
use shared_types::scope::ScopeLine;
use shared_types::scope::discovery::Discovery;
use shared_types::scope::rules::consistency::check_scope;
use shared_types::scope::rules::explain::explain;
use shared_types::scope::rules::propose::{Proposal, Proposals, Remedy, propose};
use shared_types::scope::rules::{AsFound, Effort, Efforts, RuleSet, TooTangled, shipped};
use shared_types::scope::sheet::ChoiceKey;
use shared_types::text::Words;
use shared_types::ticket::Pair;

/// The rules, the price book and the pair, as one question is asked of them.
pub(super) struct Advice<'a> {
    rules: RuleSet,
    found: AsFound,
    services: &'a [Service],
    pair: &'a Pair,
}

impl<'a> Advice<'a> {
    pub(super) fn new(fields: &Fields, pair: &'a Pair, services: &'a [Service]) -> Self {
        let found = AsFound {
            construction: pair.about.construction,
            rating: pair.about.rating,
            discoveries: offer::discoveries(fields),
        };
        Self {
            rules: shipped::rules(),
            found,
            services,
            pair,
        }
    }

    fn agreed(&self) -> BTreeSet<ServiceId> {
        services_of(&self.pair.agreed().lines)
    }

    fn offered(&self) -> BTreeSet<ServiceId> {
        self.services.iter().map(|service| service.id).collect()
    }

    fn title(&self, id: ServiceId) -> String {
        let offered = self.services.iter().find(|service| service.id == id);
        let mut agreed = self.pair.agreed().lines.iter();
        offered
            .map(|service| service.title.to_string())
            .or_else(|| {
                let line = agreed.find(|line| line.service == Some(id))?;
                Some(line.title.to_string())
            })
            .unwrap_or_else(|| "work that is not in the price book".to_owned())
    }

    fn efforts(&self, prices: &PriceRules) -> Result<Efforts, MoneyProblem> {
        // What the services add to a scope; the least that a scope costs is no service's price.
        let prices = PriceRules {
            minimum: None,
            ..*prices
        };
        let effort = |service: &Service| {
            let price = quote(&[service.line()], &ScopeTerms::PLAIN, &prices)?.total;
            let minutes = service.minutes;
            Ok((service.id, Effort { minutes, price }))
        };
        self.services.iter().map(effort).collect()
    }

    /// Fills the composer with the choices that follow from the discoveries; gives a sentence if
    /// there is no way to go on with what was agreed.
    pub(super) fn fill(
        &self,
        fields: &mut Fields,
        prices: &PriceRules,
    ) -> Result<Option<String>, String> {
        let efforts = self
            .efforts(prices)
            .map_err(|problem| problem.to_string())?;
        let proposals = propose(&self.rules, &self.found, &self.agreed(), &efforts)
            .map_err(|tangled| tangled.to_string())?;
        let trouble = self.in_the_way(&proposals);
        let agreed = self.agreed();
        let changes = |one: &Proposal| one.lines.iter().copied().collect::<BTreeSet<_>>() != agreed;
        let proposed = [proposals.best, proposals.cheapest, proposals.as_it_is];
        let mut proposed = proposed.into_iter().flatten().filter(changes);
        for key in ChoiceKey::ALL {
            self.fill_choice(fields, key, proposed.next());
        }
        fill_empty(
            fields,
            OfferField::Found,
            &found_words(&self.found.discoveries),
        );
        fill_empty(
            fields,
            OfferField::IfDeclined,
            "We go on with what was agreed as far as your pair allows, and tell you where it does not.",
        );
        Ok(trouble)
    }

    fn in_the_way(&self, proposals: &Proposals) -> Option<String> {
        let named = proposals.in_the_way.iter();
        let reasons: Vec<String> = named
            .filter_map(|id| self.rules.rules.get(id))
            .map(|rule| rule.reason.bench.to_string())
            .collect();
        (!reasons.is_empty()).then(|| {
            format!(
                "What was agreed can't be done soundly on this pair: {}",
                reasons.join(" ")
            )
        })
    }

    fn fill_choice(&self, fields: &mut Fields, key: ChoiceKey, proposal: Option<Proposal>) {
        let name = |field| OfferField::Work(key, field).name();
        for row in 0..OWN_LINES {
            for field in [
                ScopeField::OwnTitle(row),
                ScopeField::OwnMinutes(row),
                ScopeField::OwnMaterial(row),
                ScopeField::OwnReason(row),
            ] {
                fields.set(&name(field), "");
            }
        }
        fields.remove(&name(ScopeField::Keep));
        fields.remove(&name(ScopeField::Service));
        let Some(proposal) = proposal else {
            fields.set(&OfferField::Title(key).name(), "");
            fields.set(&OfferField::Words(key).name(), "");
            return;
        };
        for (place, line) in self.pair.agreed().lines.iter().enumerate() {
            if line.service.is_none_or(|id| proposal.lines.contains(&id)) {
                fields.push(name(ScopeField::Keep), place.to_string());
            }
        }
        let agreed = self.agreed();
        let added: Vec<ServiceId> = proposal
            .lines
            .iter()
            .copied()
            .filter(|id| !agreed.contains(id))
            .collect();
        for id in &added {
            fields.push(name(ScopeField::Service), id.to_string());
        }
        fields.set(
            &OfferField::Title(key).name(),
            self.title_of(&proposal, &added),
        );
        fields.set(&OfferField::Words(key).name(), words_of(proposal.remedy));
    }

    fn title_of(&self, proposal: &Proposal, added: &[ServiceId]) -> String {
        let titles: Vec<String> = added.iter().map(|id| self.title(*id)).collect();
        match (proposal.remedy, titles.as_slice()) {
            (Remedy::AsItIs, _) => "Put back as it was".to_owned(),
            (_, []) => "As agreed, without more".to_owned(),
            (_, titles) => titles.join(", ").chars().take(150).collect(),
        }
    }

    /// The lines of a choice, those that come new with the reason why they are there; refused with
    /// what would mend it if they do not hang together.
    pub(super) fn with_reasons(
        &self,
        mut lines: Vec<ScopeLine>,
    ) -> Result<Vec<ScopeLine>, Problem> {
        let (all, agreed) = (services_of(&lines), self.agreed());
        let tangled = |tangled: TooTangled| Problem::HangsNotTogether(tangled.to_string());
        let title = |id| self.title(id);
        let objections = check_scope(&self.rules, &self.found, &all, &self.offered());
        let objections: Vec<String> = objections
            .map_err(tangled)?
            .iter()
            .map(|objection| objection.message(&self.rules, &title))
            .collect();
        if !objections.is_empty() {
            return Err(Problem::HangsNotTogether(objections.join(" ")));
        }
        for line in &mut lines {
            let Some(id) = line.service.filter(|id| !agreed.contains(id)) else {
                continue;
            };
            let why = explain(id, &all, &agreed, &self.rules, &self.found).map_err(tangled)?;
            let words = why.first().map(|why| why.for_customer(&title));
            if let Some(words) = words.and_then(|words| Words::parse(&words).ok()) {
                line.reason = Some(words);
            }
        }
        Ok(lines)
    }
}

fn services_of(lines: &[ScopeLine]) -> BTreeSet<ServiceId> {
    lines.iter().filter_map(|line| line.service).collect()
}

fn found_words(discoveries: &BTreeSet<Discovery>) -> String {
    let words: Vec<&str> = discoveries.iter().map(|one| one.for_customer()).collect();
    words.join(" ")
}

fn fill_empty(fields: &mut Fields, field: OfferField, words: &str) {
    if fields.one(&field.name()).trim().is_empty() {
        fields.set(&field.name(), words);
    }
}

const fn words_of(remedy: Remedy) -> &'static str {
    match remedy {
        Remedy::Best => "All that we found is put right, in the way that lasts longest.",
        Remedy::Cheapest => "What has to be done so that the rest holds, at the lowest cost.",
        Remedy::AsItIs => {
            "We close your pair up again as it came, as far as its state allows. You pay for taking \
             it apart and putting it back."
        }
    }
}

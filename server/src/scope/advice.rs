//! What the trade's rules say to work before it is agreed: choices that follow from the
//! discoveries, reasons for each line, and whether it hangs together.

use std::collections::BTreeSet;

use shared_types::form::advice::{Advised, Advisor, PickedFor, services_of};
use shared_types::form::offer::OfferField;
use shared_types::form::scope::{OWN_LINES, ScopeField};
use shared_types::form::{Fields, Problem};
use shared_types::id::ServiceId;
use shared_types::price::PriceRules;
use shared_types::pricebook::Service;
use shared_types::scope::ScopeLine;
use shared_types::scope::discovery::Discovery;
use shared_types::scope::rules::explain::explain;
use shared_types::scope::rules::propose::{Proposal, Proposals, Remedy, propose};
use shared_types::scope::rules::{AsFound, RuleSet, TooTangled};
use shared_types::scope::sheet::ChoiceKey;
use shared_types::text::Words;
use shared_types::ticket::Pair;

/// What the rules have to say about one pair.
pub(crate) struct Advice<'a> {
    advisor: Advisor<'a>,
    agreed: &'a [ScopeLine],
}

impl<'a> Advice<'a> {
    /// About a pair that is here, with what its teardown showed.
    pub(crate) fn new(
        rules: RuleSet,
        discoveries: BTreeSet<Discovery>,
        (pair, services): (&'a Pair, &'a [Service]),
        prices: PriceRules,
    ) -> Self {
        let found = AsFound::new(&pair.about, discoveries);
        let agreed = pair.agreed().lines.as_slice();
        Self {
            advisor: Advisor::new(rules, found, (services, agreed), prices),
            agreed,
        }
    }

    /// About a pair that comes in. Nobody has looked inside yet, so everything in it counts as
    /// sound, and only what lines ask of each other can be told.
    pub(crate) fn at_the_counter(
        rules: RuleSet,
        built: AsFound,
        services: &'a [Service],
        prices: PriceRules,
    ) -> Self {
        Self {
            advisor: Advisor::new(rules, built, (services, &[]), prices),
            agreed: &[],
        }
    }

    /// What there is to say to the part of a form with this prefix.
    pub(crate) fn advise(
        &self,
        prefix: &str,
        lines: &[ScopeLine],
        picked_for: PickedFor,
    ) -> Advised {
        self.advisor.advise(prefix, lines, picked_for)
    }

    /// The sentence that a customer reads if this is better done now than later.
    pub(super) fn better_now(&self, also: ServiceId, lines: &[ScopeLine]) -> Option<String> {
        self.advisor.better_now(also, lines)
    }

    /// Fills the composer with the choices that follow from the discoveries; gives a sentence if
    /// there is no way to go on with what was agreed.
    pub(super) fn fill(&self, fields: &mut Fields) -> Result<Option<String>, String> {
        let (rules, found) = (self.advisor.rules(), self.advisor.found());
        let (agreed, efforts) = (self.advisor.agreed(), self.advisor.efforts());
        let efforts = efforts.map_err(|problem| problem.to_string())?;
        let proposals =
            propose(rules, found, &agreed, &efforts).map_err(|tangled| tangled.to_string())?;
        let trouble = self.in_the_way(&proposals);
        let changes = |one: &Proposal| one.lines.iter().copied().collect::<BTreeSet<_>>() != agreed;
        let proposed = [proposals.best, proposals.cheapest, proposals.as_it_is];
        let mut proposed = proposed.into_iter().flatten().filter(changes);
        for key in ChoiceKey::ALL {
            self.fill_choice(fields, key, proposed.next());
        }
        fill_empty(fields, OfferField::Found, &found_words(&found.discoveries));
        fill_empty(
            fields,
            OfferField::IfDeclined,
            "We go on with what was agreed as far as your pair allows, and tell you where it does not.",
        );
        Ok(trouble)
    }

    /// Whether what was agreed can't be done soundly with what the teardown showed; not, where that
    /// can't be told.
    pub(super) fn agreed_fails(&self) -> bool {
        let Ok(efforts) = self.advisor.efforts() else {
            return false;
        };
        let (rules, found) = (self.advisor.rules(), self.advisor.found());
        let proposals = propose(rules, found, &self.advisor.agreed(), &efforts);
        proposals.is_ok_and(|proposals| !proposals.in_the_way.is_empty())
    }

    fn in_the_way(&self, proposals: &Proposals) -> Option<String> {
        let named = proposals.in_the_way.iter();
        let reasons: Vec<String> = named
            .filter_map(|id| self.advisor.rules().rules.get(id))
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
        for (place, line) in self.agreed.iter().enumerate() {
            if line.service.is_none_or(|id| proposal.lines.contains(&id)) {
                fields.push(name(ScopeField::Keep), place.to_string());
            }
        }
        let agreed = self.advisor.agreed();
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
        let titles: Vec<String> = added.iter().map(|id| self.advisor.title(*id)).collect();
        match (proposal.remedy, titles.as_slice()) {
            (Remedy::AsItIs, _) => "Put back as it was".to_owned(),
            (_, []) => "As agreed, without more".to_owned(),
            (_, titles) => titles.join(", ").chars().take(150).collect(),
        }
    }

    /// The lines, those that come new with the reason why they are there; refused if they do not
    /// hang together. What would mend them stands beside them on the page.
    pub(crate) fn with_reasons(
        &self,
        mut lines: Vec<ScopeLine>,
    ) -> Result<Vec<ScopeLine>, Problem> {
        let (all, agreed) = (services_of(&lines), self.advisor.agreed());
        let objections = self.advisor.objections("", &all);
        if !objections.map_err(Problem::HangsNotTogether)?.is_empty() {
            return Err(Problem::HangsNotTogether(NOT_YET.to_owned()));
        }
        let tangled = |tangled: TooTangled| Problem::HangsNotTogether(tangled.to_string());
        let (rules, found) = (self.advisor.rules(), self.advisor.found());
        let title = |id| self.advisor.title(id);
        let picked = lines.clone();
        for line in &mut lines {
            let Some(id) = line.service.filter(|id| !agreed.contains(id)) else {
                continue;
            };
            let why = explain(id, &all, &agreed, rules, found).map_err(tangled)?;
            let why = match self.better_now(id, &picked) {
                Some(better) => Some(better),
                None => why.first().map(|why| why.for_customer(&title)),
            };
            line.reason = with_why(line.reason.take(), why);
        }
        Ok(lines)
    }
}

/// Why each agreed line is there, in the bench's words: its title with the reasons. What left the
/// rules or never was in them has none.
pub(crate) fn why_each_line(
    rules: RuleSet,
    pair: &Pair,
) -> Result<Vec<(String, Vec<String>)>, TooTangled> {
    let lines = &pair.agreed().lines;
    let all = services_of(lines);
    let (rules, none) = (rules.among(&all), BTreeSet::new());
    let found = AsFound::new(&pair.about, pair.discoveries());
    let title = |id: ServiceId| {
        let line = lines.iter().find(|line| line.service == Some(id));
        line.map(|line| line.title.to_string()).unwrap_or_default()
    };
    let mut reasons = Vec::new();
    for line in lines {
        let Some(id) = line.service else { continue };
        let why = explain(id, &all, &none, &rules, &found)?;
        let why: Vec<String> = why.iter().map(|why| why.for_bench(&title)).collect();
        if !why.is_empty() {
            reasons.push((line.title.to_string(), why));
        }
    }
    Ok(reasons)
}

/// Said where work is refused; beside it stands what is wrong.
const NOT_YET: &str = "This work does not hang together yet, so it can only be kept as a draft. \
                       What is wrong, and what would mend it, stands here.";

/// What a line is, and then why it is there.
fn with_why(about: Option<Words>, why: Option<String>) -> Option<Words> {
    let Some(why) = why else {
        return about;
    };
    let both = match &about {
        Some(about) => format!("{about} {why}"),
        None => why,
    };
    Words::parse(&both).ok().or(about)
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

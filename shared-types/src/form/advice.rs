//! What the shop's rules say to work that is being picked, and the buttons that follow.
//!
//! Worked out by the same code for a page and in the browser.

use std::collections::BTreeSet;

use crate::adjust::ScopeTerms;
use crate::form::mend;
use crate::id::ServiceId;
use crate::money::{Money, MoneyProblem};
use crate::price::{PriceRules, quote};
use crate::pricebook::Service;
use crate::scope::ScopeLine;
use crate::scope::rules::mend::{Mend, Objection, completion, objections};
use crate::scope::rules::together::{Suggestion, better_together};
use crate::scope::rules::{AsFound, Effort, Efforts, RuleSet};

/// The rules, a price book and a pair, as they are asked about.
#[derive(Clone, Debug)]
pub struct Advisor<'a> {
    rules: RuleSet,
    found: AsFound,
    services: &'a [Service],
    agreed: &'a [ScopeLine],
    prices: PriceRules,
}

/// What the work is picked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PickedFor {
    /// A choice of an offer: what is better done now can also be told instead of added.
    AnOffer,
    /// An agreement.
    AnAgreement,
}

/// A button that changes what is picked.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Button {
    /// What it says.
    pub label: String,
    /// What it sends as the form's act.
    pub act: String,
}

/// Words with the buttons that follow from them.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Remark {
    /// The words.
    pub words: String,
    /// The buttons.
    pub buttons: Vec<Button>,
}

/// All that there is to say to one part of a form.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Advised {
    /// What does not hang together; none, and it may be agreed.
    pub objections: Vec<Remark>,
    /// Adds all that is missing at once.
    pub completion: Option<Button>,
    /// What is better done together.
    pub better: Vec<Remark>,
}

/// The beginning of the code of a button that tells the customer of something better done now.
const TELL: &str = "tell:";

/// The prefix and the service of a press that tells the customer what is better done now.
pub fn told(act: &str) -> Option<(&str, ServiceId)> {
    let (prefix, id) = act.strip_prefix(TELL)?.split_once(':')?;
    Some((prefix, id.parse().ok()?))
}

impl<'a> Advisor<'a> {
    /// Asks the shop's rules about a pair; of rules that name only services which are neither in
    /// the price book nor agreed, nothing is heard.
    pub fn new(
        rules: RuleSet,
        found: AsFound,
        (services, agreed): (&'a [Service], &'a [ScopeLine]),
        prices: PriceRules,
    ) -> Self {
        // A service is weighed by itself; the minimum charge is for a whole scope.
        let prices = PriceRules {
            minimum: None,
            ..prices
        };
        let known = services.iter().map(|service| service.id);
        let known = known.chain(agreed.iter().filter_map(|line| line.service));
        Self {
            rules: rules.among(&known.collect()),
            found,
            services,
            agreed,
            prices,
        }
    }

    /// The rules that can have something to say.
    pub const fn rules(&self) -> &RuleSet {
        &self.rules
    }

    /// The pair.
    pub const fn found(&self) -> &AsFound {
        &self.found
    }

    /// The services that stand agreed.
    pub fn agreed(&self) -> BTreeSet<ServiceId> {
        services_of(self.agreed)
    }

    /// A service as it is called; what has left the price book, as it was called when agreed.
    pub fn title(&self, id: ServiceId) -> String {
        let offered = self.services.iter().find(|service| service.id == id);
        let mut agreed = self.agreed.iter();
        offered
            .map(|service| service.title.to_string())
            .or_else(|| {
                let line = agreed.find(|line| line.service == Some(id))?;
                Some(line.title.to_string())
            })
            .unwrap_or_else(|| "work that is not in the price book".to_owned())
    }

    /// What each service of the price book takes.
    pub fn efforts(&self) -> Result<Efforts, MoneyProblem> {
        // What the services add to a scope; the least that a scope costs is no service's price.
        let prices = PriceRules {
            minimum: None,
            ..self.prices
        };
        let effort = |service: &Service| {
            let price = quote(&[service.line()], &ScopeTerms::PLAIN, &prices)?.total;
            let minutes = service.minutes;
            Ok((service.id, Effort { minutes, price }))
        };
        self.services.iter().map(effort).collect()
    }

    /// What there is to say to these lines; the part of the form with this prefix has them. Rules
    /// that can't be worked through stand against everything.
    pub fn advise(&self, prefix: &str, lines: &[ScopeLine], picked_for: PickedFor) -> Advised {
        let advised = self.try_to_advise(prefix, &services_of(lines), picked_for);
        advised.unwrap_or_else(|words| Advised {
            objections: vec![Remark {
                words,
                buttons: Vec::new(),
            }],
            ..Advised::default()
        })
    }

    fn try_to_advise(
        &self,
        prefix: &str,
        lines: &BTreeSet<ServiceId>,
        picked_for: PickedFor,
    ) -> Result<Advised, String> {
        let efforts = self.efforts().map_err(|problem| problem.to_string())?;
        let objections = self.objections(prefix, lines)?;
        let completion = if objections.is_empty() {
            None
        } else {
            completion(&self.rules, &self.found, lines, &efforts)
                .map_err(|tangled| tangled.to_string())?
        };
        let completion = completion.map(|mend| self.button(prefix, &mend));
        let mut known = objections.iter().flat_map(|one| &one.buttons);
        let completion = completion.filter(|button| known.all(|one| one.act != button.act));
        let better = better_together(&self.rules, &self.found, lines, &efforts)
            .map_err(|none| none.to_string())?;
        let better = better
            .iter()
            .map(|one| self.better(prefix, one, picked_for));
        Ok(Advised {
            completion,
            better: better.collect(),
            objections,
        })
    }

    /// What stands against agreeing to these services.
    pub fn objections(
        &self,
        prefix: &str,
        lines: &BTreeSet<ServiceId>,
    ) -> Result<Vec<Remark>, String> {
        let offered = self.services.iter().map(|service| service.id).collect();
        let title = |id| self.title(id);
        let found = objections(&self.rules, &self.found, lines, &offered, &title)
            .map_err(|tangled| tangled.to_string())?;
        let remark = |one: &Objection| Remark {
            words: one.words.clone(),
            buttons: one
                .mends
                .iter()
                .map(|mend| self.button(prefix, mend))
                .collect(),
        };
        Ok(found.iter().map(remark).collect())
    }

    fn button(&self, prefix: &str, mend: &Mend) -> Button {
        let label = match mend {
            Mend::Add(ids) => {
                let titles: Vec<String> = ids.iter().map(|id| self.title(*id)).collect();
                let price = self.price_of(ids);
                let price = price.map(|price| format!(", {price}")).unwrap_or_default();
                match titles.as_slice() {
                    [one] => format!("Add: {one}{price}"),
                    several => format!("Add all that is missing: {}{price}", several.join(", ")),
                }
            }
            Mend::TakeOut(id) => format!("Take out: {}", self.title(*id)),
        };
        Button {
            label,
            act: mend::code(prefix, mend),
        }
    }

    /// What these cost as lines, without the tax that may come on top.
    fn price_of(&self, ids: &[ServiceId]) -> Option<Money> {
        let lines = self.services.iter().filter(|one| ids.contains(&one.id));
        let lines: Vec<ScopeLine> = lines.map(Service::line).collect();
        (lines.len() == ids.len())
            .then(|| quote(&lines, &ScopeTerms::PLAIN, &self.prices).ok())
            .flatten()
            .map(|quote| quote.subtotal)
    }

    fn better(&self, prefix: &str, one: &Suggestion, picked_for: PickedFor) -> Remark {
        let mut buttons = vec![self.button(prefix, &Mend::Add(vec![one.also]))];
        if picked_for == PickedFor::AnOffer {
            buttons.push(Button {
                label: "Only tell the customer".to_owned(),
                act: format!("{TELL}{prefix}:{}", one.also),
            });
        }
        Remark {
            words: one.for_bench(&|id| self.title(id)),
            buttons,
        }
    }

    /// What is to be said to the customer of this service, if it is better done with these lines
    /// than later.
    pub fn better_now(&self, also: ServiceId, lines: &[ScopeLine]) -> Option<String> {
        let mut others = services_of(lines);
        others.remove(&also);
        let efforts = self.efforts().ok()?;
        let better = better_together(&self.rules, &self.found, &others, &efforts).ok()?;
        let one = better.into_iter().find(|one| one.also == also)?;
        Some(one.for_customer(&|id| self.title(id)))
    }
}

/// The services of these lines.
pub fn services_of(lines: &[ScopeLine]) -> BTreeSet<ServiceId> {
    lines.iter().filter_map(|line| line.service).collect()
}

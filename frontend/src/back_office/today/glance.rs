//! The evening in one line: what is promised, at risk, unanswered and uncollected.

use std::collections::BTreeMap;

use leptos::prelude::*;
use shared_types::brief::PairBrief;
use shared_types::id::PairId;
use shared_types::stage::Stage;

use super::sentences::Group;
use crate::back_office::plan::PairDays;
use crate::back_office::plan::words::instead_words;
use crate::document::Desk;

/// The open pairs with their days, as somebody looks at them now.
pub(super) struct Evening<'a> {
    pub(super) desk: &'a Desk,
    pub(super) days: BTreeMap<PairId, &'a PairDays>,
}

impl Evening<'_> {
    /// Promised for today or earlier; what waits for its owner's word is said to wait instead.
    pub(super) fn is_due(&self, pair: &PairBrief) -> bool {
        let today = self.desk.shop.calendar.zone.day(self.desk.now);
        pair.stage.is_open() && pair.promise <= today && !pair.waits_for_word(self.desk.now)
    }

    /// At risk and not due yet.
    pub(super) fn at_risk(&self, pair: &PairBrief) -> Option<&PairDays> {
        let days = *self.days.get(&pair.pair)?;
        let is_listed = days.is_at_risk_here(self.desk.now) && !self.is_due(pair);
        is_listed.then_some(days)
    }

    /// For a pair that is due: how sure today is, or the day that could be given.
    pub(super) fn outlook(&self, pair: &PairBrief) -> AnyView {
        let Some(days) = self.days.get(&pair.pair).filter(|days| days.is_at_risk) else {
            return ().into_any();
        };
        let today = self.desk.shop.calendar.zone.day(self.desk.now);
        let kept = (pair.promise == today).then(|| format!("Kept {}. ", days.odds.words()));
        view! { {kept} {instead_words(days, self.desk)} }.into_any()
    }
}

/// How many pairs there are of each kind.
#[derive(Clone, Copy, Debug)]
pub struct Glance {
    due: usize,
    at_risk: usize,
    unanswered: usize,
    uncollected: usize,
}

impl Glance {
    pub(super) fn of(pairs: &[PairBrief], evening: &Evening<'_>) -> Self {
        let count = |is: &dyn Fn(&PairBrief) -> bool| pairs.iter().filter(|pair| is(pair)).count();
        Self {
            due: count(&|pair| evening.is_due(pair)),
            at_risk: count(&|pair| evening.at_risk(pair).is_some()),
            unanswered: count(&|pair| pair.waits_for_word(evening.desk.now)),
            uncollected: count(&|pair| pair.stage == Stage::Ready),
        }
    }
}

/// The line; each part leads to its sentences, as far as there are any.
#[component]
pub fn GlanceLine(
    /// The counts.
    glance: Glance,
) -> impl IntoView {
    let parts = [
        (glance.due, "due by today", Group::Promised),
        (glance.at_risk, "at risk", Group::AtRisk),
        (glance.unanswered, "unanswered", Group::Waiting),
        (glance.uncollected, "to be collected", Group::Ready),
    ];
    let parts = parts.map(|(count, words, group)| {
        let words = view! { <b>{count}</b> " " {words} };
        if count == 0 {
            return view! { <li>{words}</li> }.into_any();
        }
        let path = format!("#{}", group.id());
        view! { <li><a href=path>{words}</a></li> }.into_any()
    });
    view! { <ul class="glance" aria-label="At a glance">{parts.into_iter().collect_view()}</ul> }
}

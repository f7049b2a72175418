//! What we need from the customer: words on open offers, and pairs to collect; first on their page.

use leptos::prelude::*;
use shared_types::key::PortalKey;
use shared_types::moment::{Moment, Zone};
use shared_types::money::MoneyProblem;
use shared_types::paths;
use shared_types::scope::offer::{OfferState, Revision};
use shared_types::scope::sheet::Offer;
use shared_types::ticket::{Pair, Ticket};
use time::Date;

use crate::elements::when::{Day, When};

/// The one card with everything that needs the customer; nothing if nothing does.
#[component]
pub fn Needs(
    /// The ticket.
    ticket: Ticket,
    /// The customer's link.
    key: PortalKey,
    /// The shop's zone.
    zone: Zone,
    /// Now.
    now: Moment,
) -> impl IntoView {
    let offers: Vec<(&Pair, &Revision, &Offer, OfferState)> = ticket
        .pairs
        .iter()
        .filter(|pair| pair.handed_over.is_none())
        .filter_map(|pair| {
            let (revision, state) = pair.last_offer(now)?;
            Some((pair, revision, revision.sheet.offer()?, state))
        })
        .collect();
    let several = ticket.pairs.len() > 1;
    let asked: Vec<_> = offers
        .iter()
        .filter_map(|(pair, revision, offer, state)| {
            let name = several.then(|| pair.about.title());
            let path = paths::offer(&key, revision.digest);
            asked(name, path, offer, *state, &zone)
        })
        .collect();
    let ready: Vec<_> = ticket
        .ready_pairs()
        .map(|pair| pair.about.title())
        .collect();
    let heading = match (asked.is_empty(), ready.is_empty()) {
        (true, true) => return ().into_any(),
        (false, true) => "We need your word",
        (true, false) => "Ready for you",
        (false, false) => "We need your word, and something is ready",
    };
    let due = ticket.due();
    let collect = (!ready.is_empty()).then(|| collect(&ready, several, due, paths::pickup(&key)));
    view! {
        <section class="notice-card" aria-labelledby="need">
            <h2 id="need">{heading}</h2>
            {asked}
            {collect}
        </section>
    }
    .into_any()
}

fn asked(
    name: Option<String>,
    path: String,
    offer: &Offer,
    state: OfferState,
    zone: &Zone,
) -> Option<AnyView> {
    let zone = zone.clone();
    let about = name
        .as_ref()
        .map_or_else(|| "your pair".to_owned(), Clone::clone);
    match state {
        OfferState::Open { answer_by } => {
            let words = format!(
                "We took a closer look at {about} and found something that nobody could see from \
                 outside. Nothing beyond what was agreed is done until you say so."
            );
            let earliest = offer
                .choices
                .iter()
                .map(|choice| choice.scope.ready_by)
                .min();
            let label = named("See what we found and choose", name);
            Some(
                view! {
                    <p dir="auto">{words}</p>
                    <p class="notice-by">
                        "Answer by " <When at=answer_by zone /> {earliest.map(earliest_words)} "."
                    </p>
                    <a class="act" href=path>{label}</a>
                }
                .into_any(),
            )
        }
        OfferState::Lapsed { answer_by } => {
            let words = format!("Our offer for {about} could be answered until ");
            let label = named("Read what we found", name);
            Some(
                view! {
                    <p dir="auto">
                        {words} <When at=answer_by zone />
                        ". Nothing was decided for you, and the pair waits. Please ring us, or ask below, and we work out a new day."
                    </p>
                    <a class="act" data-act="plain" href=path>{label}</a>
                }
                .into_any(),
            )
        }
        OfferState::Answered { .. } | OfferState::Superseded | OfferState::Withdrawn => None,
    }
}

fn earliest_words(day: Date) -> impl IntoView {
    view! { ", and it can be ready from " <Day day /> " on" }
}

fn collect(
    ready: &[String],
    several: bool,
    due: Result<shared_types::money::Money, MoneyProblem>,
    calendar: String,
) -> impl IntoView + use<> {
    let words = match (ready, several) {
        ([_], false) => "Your pair is ready. You can collect it.".to_owned(),
        ([one], true) => format!("Ready to collect: {one}."),
        (all, _) => format!("Ready to collect: {}.", all.join("; ")),
    };
    let due = due.ok().map(|due| {
        if due.is_positive() {
            format!("Due for everything on this ticket: {due}.")
        } else {
            "Everything is paid.".to_owned()
        }
    });
    view! {
        <p dir="auto">{words}</p>
        <p>{due}</p>
        <a class="act" data-act="plain" href=calendar>"Put the pickup into my calendar"</a>
    }
}

fn named(act: &str, name: Option<String>) -> String {
    match name {
        Some(name) => format!("{act}: {name}"),
        None => act.to_owned(),
    }
}

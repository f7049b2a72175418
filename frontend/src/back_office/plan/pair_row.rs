//! One open pair of the plan: its promise, its days and when it is worked on.

use leptos::prelude::*;
use shared_types::paths;
use shared_types::promise::chance::Chance;

use super::PairDays;
use super::words::{waiting_words, why};
use crate::document::Desk;
use crate::elements::pair_words::{begun, tag_words, unbroken};
use crate::elements::when::{Day, When};

/// The pair.
#[component]
pub fn PairRow(
    /// Who looks at it.
    desk: Desk,
    /// The pair with its days.
    pair: PairDays,
) -> impl IntoView {
    let zone = desk.shop.calendar.zone.clone();
    let brief = &pair.brief;
    let chances = [Chance::FIFTY, Chance::EIGHTY, Chance::NINETY_FIVE];
    let days = chances.into_iter().zip(pair.by).map(|(chance, day)| {
        let late = day.is_none_or(|day| day > brief.promise).then_some("late");
        let day = day.map_or_else(
            || "not in sight".into_any(),
            |day| view! { <Day day /> }.into_any(),
        );
        let late_words =
            late.map(|_| view! { <span class="visually-hidden">", after the promise"</span> });
        view! { <div data-day=late><dt>{unbroken(&chance.to_string())}</dt><dd>{day} {late_words}</dd></div> }
    });
    let days = days.collect_view();
    let hours = match (pair.starts, pair.finished) {
        (Some(starts), Some(finished)) => Some(view! {
            <p class="plan-hours">
                "Planned from " <When at=starts zone=zone.clone() /> " to " <When at=finished zone=zone.clone() />
                {why(&pair.reasons).map(|why| format!("; {why}"))} "."
            </p>
        }),
        _ => None,
    };
    let waits = brief.waits_for_word(desk.now).then(|| {
        view! { <p class="plan-waits">"Waits for its owner’s word. " {waiting_words(&pair.waits, &desk)}</p> }
    });
    view! {
        <div class="plan-pair">
            <p class="plan-name">
                <a href=paths::pair(brief.pair)>{begun(&brief.title)}</a>
                <small>{tag_words(brief.number, brief.tag)}</small>
            </p>
            <dl class="plan-days">
                <div data-day="promise"><dt>"Promised"</dt><dd><Day day=brief.promise /></dd></div>
                {days}
            </dl>
            {hours}
            {waits}
        </div>
    }
}

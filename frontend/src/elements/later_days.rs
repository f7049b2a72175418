//! What later answers to an offer lead to, where there is more to say than a sentence.

use leptos::prelude::*;
use shared_types::moment::Zone;
use shared_types::promise::answers::AnswerDay;

use crate::elements::when::{Day, When};

/// The days by time of answer, folded; nothing where a sentence says them all.
#[component]
pub fn LaterDays(
    /// From now on, the soonest first.
    days: Vec<AnswerDay>,
    /// The shop's zone.
    zone: Zone,
) -> impl IntoView {
    (days.len() > 2).then(|| {
        view! {
            <details class="fold">
                <summary>"The day by when you answer"</summary>
                <AnswerDays days zone />
            </details>
        }
    })
}

/// The days by time of answer.
#[component]
pub fn AnswerDays(
    /// The soonest first.
    days: Vec<AnswerDay>,
    /// The shop's zone.
    zone: Zone,
) -> impl IntoView {
    let days = days.into_iter().map(|day| {
        view! {
            <div>
                <dt>"Answered by " <When at=day.answered_by zone=zone.clone() /></dt>
                <dd>"ready " <Day day=day.ready_by /></dd>
            </div>
        }
    });
    view! { <dl class="answer-days">{days.collect_view()}</dl> }
}

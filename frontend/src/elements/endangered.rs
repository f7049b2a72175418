//! Whose promises a pair in rush would make unsure.

use leptos::prelude::*;
use shared_types::promise::new_pair::Endangered;

use crate::elements::when::Day;

/// A warning with each promise, or nothing if none is endangered.
#[component]
pub fn EndangeredPromises(
    /// The promises, in the order of the plan.
    endangers: Vec<Endangered>,
) -> impl IntoView {
    let promises: Vec<_> = endangers.iter().map(promise).collect();
    (!promises.is_empty()).then(|| {
        view! {
            <div class="advice" data-kind="endangers" role="group" aria-labelledby="endangers">
                <p id="endangers">
                    <b>"In rush this goes before promises that are then no longer sure. "</b>
                    "Take it in only if you can ring these customers, or find the hours."
                </p>
                <ul class="sentence-list">{promises}</ul>
            </div>
        }
    })
}

fn promise(one: &Endangered) -> impl IntoView + use<> {
    view! {
        <li>
            <b class="tag-words">{one.tag.to_string()}</b> ", promised by " <Day day=one.day />
            {format!(": kept {} times in 100 now, {} then.", one.before.percent(), one.after.percent())}
        </li>
    }
}

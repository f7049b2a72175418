//! What someone must know before agreeing, with the tick that says they have read it.

use leptos::prelude::*;
use shared_types::text::Words;

use crate::elements::prose::Prose;

/// The cautions, if there are any. With `tick` there is a box that must be ticked before going
/// on, named `acknowledged` with the value `yes`; `tick` says whether it is disabled.
#[component]
pub fn Cautions(
    /// The cautions.
    cautions: Vec<Words>,
    /// Whether there is a box to tick, and whether it is disabled.
    tick: Option<bool>,
) -> impl IntoView {
    if cautions.is_empty() {
        return ().into_any();
    }
    let words: Vec<_> = cautions
        .into_iter()
        .map(|words| view! { <Prose words /> })
        .collect();
    let tick = tick.map(|disabled| {
        view! {
            <label class="check">
                <input type="checkbox" name="acknowledged" value="yes" required disabled=disabled />
                " "
                <span>"I have read this and want you to go on with it in mind"</span>
            </label>
        }
    });
    view! {
        <div class="caution" role="group" aria-label="Before you agree">
            <p><b>"Please read this before you agree"</b></p>
            {words}
            {tick}
        </div>
    }
    .into_any()
}

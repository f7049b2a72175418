//! One line that says what has just been done, or why something was not.

use leptos::prelude::*;

use crate::document::Flash;

/// The line; read out at once by a screen reader when something was refused.
#[component]
pub fn FlashLine(
    /// What happened.
    flash: Flash,
) -> impl IntoView {
    match flash {
        Flash::Done(words) => view! { <p class="flash" role="status">{words}</p> }.into_any(),
        Flash::Refused(words) => {
            view! { <p class="flash" data-kind="problem" role="alert">{words}</p> }.into_any()
        }
    }
}

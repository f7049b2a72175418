//! A button that prints the page. The loader shows it and makes it work; without scripts it isn't
//! there, and the browser's own menu prints.

use leptos::prelude::*;

/// Opens the browser's print dialogue. No island: a customer who looks at a receipt need not load
/// what the shop reckons with.
#[component]
pub fn PrintButton() -> impl IntoView {
    view! {
        <button type="button" class="act" data-prints="" hidden>
            "Print"
        </button>
    }
}

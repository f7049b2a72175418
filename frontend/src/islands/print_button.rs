//! A button that prints the page; without scripts it isn't there, and the browser's own menu prints.

use leptos::prelude::*;

/// Opens the browser's print dialogue.
#[island]
pub fn PrintButton() -> impl IntoView {
    let awake = RwSignal::new(false);
    Effect::new(move |_| awake.set(true));
    view! {
        <button type="button" class="act" hidden=move || !awake.get() on:click=|_| print()>
            "Print"
        </button>
    }
}

fn print() {
    // A browser that can't print has nothing to say about it.
    #[cfg(feature = "hydrate")]
    let _ = window().print();
}

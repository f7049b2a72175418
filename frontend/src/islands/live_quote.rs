//! The price of what is ticked, while it is being ticked; read and worked out by the same code as
//! on the server. Days are left to the server: only it knows the queue at the bench.

use leptos::prelude::*;

use super::quote_words::{FormKind, QuoteBook, Said};

/// One sentence for each part of the form in which work is ticked, from the first change on.
#[island]
pub fn LiveQuote(
    /// Which form it stands in.
    form: FormKind,
    /// What prices are worked out from.
    book: QuoteBook,
) -> impl IntoView {
    let shown = RwSignal::new(Vec::<Said>::new());
    let root = NodeRef::<leptos::html::Div>::new();
    #[cfg(feature = "hydrate")]
    Effect::new(move |_| {
        let around = root
            .get()
            .and_then(|root| super::browser::form_around(&root));
        if let Some(around) = around {
            let book = book.clone();
            super::browser::on_input(&around, move |fields| {
                let fresh = super::quote_words::sentences(form, &fields, &book);
                // Nothing is read out again that hasn't changed.
                if shown.with_untracked(|shown| *shown != fresh) {
                    shown.set(fresh);
                }
            });
        }
    });
    #[cfg(not(feature = "hydrate"))]
    let _ = (form, book);
    let sentences = move || {
        let sentences = shown.get().into_iter();
        sentences
            .map(|said| {
                let buttons = said.buttons.into_iter();
                let buttons = buttons.map(|one| view! {
                    <button class="act" data-act="plain" name="act" value=one.act formnovalidate>{one.label}</button>
                });
                let buttons: Vec<_> = buttons.collect();
                let buttons = (!buttons.is_empty())
                    .then(|| view! { <div class="advice-acts">{buttons}</div> });
                view! { <p>{said.words}</p> {buttons} }
            })
            .collect_view()
    };
    view! {
        <div class="live-quote" aria-live="polite" node_ref=root>
            {sentences}
        </div>
    }
}

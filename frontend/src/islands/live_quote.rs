//! Price and day of what is ticked, while it is being ticked; read and worked out by the same code
//! as on the server.

use std::collections::BTreeSet;

use leptos::prelude::*;

use super::live_days::DayBook;
use super::quote_words::{FormKind, Priced, QuoteBook, Said};
use crate::elements::how_worked_out::HowEachCame;

/// Sentences for each part of the form in which work is ticked.
#[island]
pub fn LiveQuote(
    /// Which form it stands in.
    form: FormKind,
    /// What prices are worked out from.
    book: QuoteBook,
    /// What days are worked out from.
    days: DayBook,
) -> impl IntoView {
    let shown = RwSignal::new(Vec::<Said>::new());
    // The folds that were opened, by their places, stay open while more is ticked.
    let opened = StoredValue::new(BTreeSet::<usize>::new());
    let root = NodeRef::<leptos::html::Div>::new();
    #[cfg(feature = "hydrate")]
    Effect::new(move |_| {
        let around = root
            .get()
            .and_then(|root| super::browser::form_around(&root));
        if let Some(around) = around {
            let said = move |fresh: Vec<Said>| {
                // Nothing is read out again that hasn't changed.
                if shown.with_untracked(|shown| *shown != fresh) {
                    shown.set(fresh);
                }
            };
            super::reckoning::keep_up(form, around, (book.clone(), days.clone()), said);
        }
    });
    #[cfg(not(feature = "hydrate"))]
    let _ = (form, book, days);
    let sentences = move || {
        let sentences = shown.get().into_iter();
        sentences
            .enumerate()
            .map(|(place, said)| {
                let buttons = said.buttons.into_iter();
                let buttons = buttons.map(|one| view! {
                    <button class="act" data-act="plain" name="act" value=one.act formnovalidate>{one.label}</button>
                });
                let buttons: Vec<_> = buttons.collect();
                let buttons = (!buttons.is_empty())
                    .then(|| view! { <div class="advice-acts">{buttons}</div> });
                let how = said.how.map(|Priced { lines, quote }| {
                    let turns = move |_| {
                        opened.update_value(|opened| {
                            if !opened.remove(&place) {
                                opened.insert(place);
                            }
                        });
                    };
                    view! {
                        <details class="fold price-how" open=opened.with_value(|opened| opened.contains(&place))>
                            <summary on:click=turns>"How it is worked out"</summary>
                            <HowEachCame lines quote />
                        </details>
                    }
                });
                view! { <p>{said.words}</p> {how} {buttons} }
            })
            .collect_view()
    };
    view! {
        <div class="live-quote" aria-live="polite" node_ref=root>
            {sentences}
        </div>
    }
}

//! The form by which the customer asks the shop something.

use leptos::prelude::*;
use shared_types::id::PairId;
use shared_types::key::PortalKey;
use shared_types::paths;

use crate::elements::field::{Select, TextArea};

/// A question that could not be taken, as it was typed.
#[derive(Clone, Debug)]
pub struct Unasked {
    /// The pair that it is about, if one was chosen.
    pub pair: Option<PairId>,
    /// The words.
    pub words: String,
    /// What is wrong with them, if it is they.
    pub problem: Option<String>,
}

/// The form; it stands open where a question could not be taken, with what was typed.
#[component]
pub fn QuestionForm(
    /// The customer's link.
    key: PortalKey,
    /// The pairs that a question can be about, each with its name.
    pairs: Vec<(PairId, String)>,
    /// Where to go afterwards, if not to the customer's page.
    #[prop(optional_no_strip)]
    back: Option<String>,
    /// A question that could not be taken.
    #[prop(optional_no_strip)]
    again: Option<Unasked>,
) -> impl IntoView {
    let is_again = again.is_some();
    let (pair, typed, problem) = again.map_or((None, String::new(), None), |again| {
        (again.pair, again.words, again.problem)
    });
    view! {
        <details class="question fold" open=is_again>
            <summary>"Ask us something"</summary>
            <form class="form-rows" method="post" action=paths::ask(key)>
                {about(pairs, pair)}
                {back.map(|back| view! { <input type="hidden" name="back" value=back /> })}
                <TextArea
                    label="Your question"
                    name="words"
                    value=typed
                    error=problem
                    hint="Asking decides nothing. We reply here, and by mail if we have your address."
                    required=true
                    focus=is_again
                />
                <button class="act" data-act="plain">"Send the question"</button>
            </form>
        </details>
    }
}

/// Which pair it is about: said by the page where there is one, else chosen.
fn about(pairs: Vec<(PairId, String)>, chosen: Option<PairId>) -> impl IntoView {
    if let [(only, _)] = pairs.as_slice() {
        return view! { <input type="hidden" name="pair" value=only.to_string() /> }.into_any();
    }
    let options = pairs
        .into_iter()
        .map(|(pair, name)| (pair.to_string(), name));
    let selected = chosen.map_or_else(String::new, |pair| pair.to_string());
    view! { <Select label="About which pair" name="pair" options=options.collect() selected /> }
        .into_any()
}

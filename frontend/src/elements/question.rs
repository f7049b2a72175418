//! The form by which the customer asks the shop something.

use leptos::prelude::*;
use shared_types::id::PairId;
use shared_types::key::PortalKey;
use shared_types::paths;

use crate::elements::field::TextArea;

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
    /// What was typed, and what is wrong with it.
    again: Option<(String, String)>,
) -> impl IntoView {
    let is_again = again.is_some();
    let (typed, problem) = again.unzip();
    view! {
        <details class="question fold" open=is_again>
            <summary>"Ask us something"</summary>
            <form class="form-rows" method="post" action=paths::ask(key)>
                {about(pairs)}
                {back.map(|back| view! { <input type="hidden" name="back" value=back /> })}
                <TextArea
                    label="Your question"
                    name="words"
                    value=typed.unwrap_or_default()
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
fn about(pairs: Vec<(PairId, String)>) -> impl IntoView {
    match pairs.as_slice() {
        [(only, _)] => {
            view! { <input type="hidden" name="pair" value=only.to_string() /> }.into_any()
        }
        several => {
            let options: Vec<_> = several
                .iter()
                .map(
                    |(pair, name)| view! { <option value=pair.to_string()>{name.clone()}</option> },
                )
                .collect();
            view! {
                <div class="field">
                    <label for="pair">"About which pair"</label>
                    <select id="pair" name="pair">{options}</select>
                </div>
            }
            .into_any()
        }
    }
}

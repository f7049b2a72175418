//! What the rules say to work that is being picked, with the buttons that mend it. They are buttons
//! of the form around, so that nothing that was typed is lost.

use leptos::prelude::*;
use shared_types::form::advice::{Advised, Button, Remark};

/// What does not hang together, and what is better done together.
#[component]
pub fn Advice(
    /// What the rules say.
    advised: Advised,
    /// Where the form goes when one of the buttons is pressed.
    action: String,
) -> impl IntoView {
    let Advised {
        objections,
        completion,
        better,
    } = advised;
    let completion = completion.map(|all| buttons(vec![all], &action));
    let objected = (!objections.is_empty()).then(|| {
        view! {
            <div class="advice" role="group" aria-label="What does not hang together">
                <p><b>"This does not hang together yet"</b></p>
                {list(objections, &action)}
                {completion}
            </div>
        }
    });
    let better = (!better.is_empty()).then(|| {
        view! {
            <div class="advice" data-kind="better" role="group" aria-label="Better done now">
                <p><b>"Better done now"</b></p>
                {list(better, &action)}
            </div>
        }
    });
    view! { {objected} {better} }
}

fn list(remarks: Vec<Remark>, action: &str) -> AnyView {
    let items: Vec<_> = remarks
        .into_iter()
        .map(|one| {
            let buttons = buttons(one.buttons, action);
            view! { <li><p>{one.words}</p>{buttons}</li> }
        })
        .collect();
    view! { <ul>{items}</ul> }.into_any()
}

fn buttons(buttons: Vec<Button>, action: &str) -> AnyView {
    let all: Vec<_> = buttons
        .into_iter()
        .map(|one| {
            view! {
                <button class="act" data-act="plain" name="act" value=one.act formaction=action.to_owned() formnovalidate>
                    {one.label}
                </button>
            }
        })
        .collect();
    view! { <div class="advice-acts">{all}</div> }.into_any()
}

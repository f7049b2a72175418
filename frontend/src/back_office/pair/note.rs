//! A progress note, a picture, or the reply to a question: three buttons say who may read it.

use leptos::prelude::*;
use shared_types::paths;
use shared_types::ticket::Pair;

use crate::document::Desk;
use crate::elements::field::{PhotoPicker, TextArea, TextField};
use crate::elements::prose::Prose;
use crate::elements::when::When;

/// The form for a new note. The first button, which the Enter key presses, keeps it in the shop.
#[component]
pub fn NewNote(
    /// On which pair.
    pair: Pair,
    /// What was typed, if it could not be taken.
    typed: String,
    /// Who writes it.
    desk: Desk,
) -> impl IntoView {
    let question = pair.open_question().cloned();
    let is_asked = question.is_some();
    let zone = desk.shop.calendar.zone.clone();
    let question = question.map(|note| {
        view! {
            <blockquote class="said">
                {note.words.map(|words| view! { <Prose words /> })}
                <footer>"The customer, " <When at=note.at zone /></footer>
            </blockquote>
        }
    });
    let reply = is_asked.then(|| {
        view! {
            <button class="thumb" data-act="next" name="audience" value="reply">
                "Send as reply"
                <small>"Mailed as well."</small>
            </button>
        }
    });
    let heading = if is_asked {
        "The customer asks"
    } else {
        "Note or picture"
    };
    view! {
        <section>
            <h2>{heading}</h2>
            {question}
            <form
                class="form-rows"
                method="post"
                enctype="multipart/form-data"
                action=paths::post_note(pair.id)
            >
                <PhotoPicker label="Take a picture" name="photo" id="camera" camera=true />
                <TextArea label="A few words" name="words" value=typed rows=2 />
                <details class="fold">
                    <summary>"Pictures from files, and what they show"</summary>
                    <PhotoPicker label="Pictures from files" name="photo" />
                    <TextField
                        label="What the pictures show"
                        name="shows"
                        hint="One line, also read to those who can’t see them."
                    />
                </details>
                <div class="thumbs">
                    <button class="thumb" name="audience" value="shop">
                        "Keep it in the shop"
                        <small>"Only we read it."</small>
                    </button>
                    <button class="thumb" name="audience" value="customer">
                        "Show the customer"
                        <small>"On their page."</small>
                    </button>
                    {reply}
                </div>
            </form>
        </section>
    }
}

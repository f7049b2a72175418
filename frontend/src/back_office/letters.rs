//! Letters with their state, and one letter to read.

use leptos::prelude::*;
use shared_types::letter::LetterBrief;

use crate::document::Desk;

/// Props of the list.
#[derive(Clone, Debug)]
pub struct Letters {
    /// Who works on it.
    pub desk: Desk,
    /// Newest first.
    pub letters: Vec<LetterBrief>,
    /// Whether a mail server is set up.
    pub is_sending: bool,
}

/// The letters with their state.
#[component]
pub fn LettersPage(props: Letters) -> impl IntoView {
    let _ = props;
    view! { <p>"Not drawn yet."</p> }
}

/// Props of one letter.
#[derive(Clone, Debug)]
pub struct Letter {
    /// Who works on it.
    pub desk: Desk,
    /// The letter.
    pub letter: LetterBrief,
    /// Its text part.
    pub text: String,
    /// Names of what is attached.
    pub attached: Vec<String>,
}

/// One letter to read, with a way to send it again if it was given up.
#[component]
pub fn LetterPage(props: Letter) -> impl IntoView {
    let _ = props;
    view! { <p>"Not drawn yet."</p> }
}

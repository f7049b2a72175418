//! Today: sentences, each with its one action.

use leptos::prelude::*;
use shared_types::brief::PairBrief;
use shared_types::letter::LetterBrief;

use crate::document::Desk;

/// Props of the page.
#[derive(Clone, Debug)]
pub struct Today {
    /// Who works on it.
    pub desk: Desk,
    /// All pairs that are not with their owners, in order of work first.
    pub pairs: Vec<PairBrief>,
    /// Letters that were given up or have trouble.
    pub troubled_letters: Vec<LetterBrief>,
}

/// Today: sentences, each with its one action.
#[component]
pub fn TodayPage(props: Today) -> impl IntoView {
    let _ = props;
    view! { <p>"Not drawn yet."</p> }
}

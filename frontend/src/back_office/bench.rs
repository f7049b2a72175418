//! The bench: a list to work down.

use leptos::prelude::*;
use shared_types::brief::PairBrief;

use crate::document::Desk;

/// Props of the page.
#[derive(Clone, Debug)]
pub struct Bench {
    /// Who works on it.
    pub desk: Desk,
    /// The open pairs in order of work.
    pub pairs: Vec<PairBrief>,
}

/// The bench: a list to work down.
#[component]
pub fn BenchPage(props: Bench) -> impl IntoView {
    let _ = props;
    view! { <p>"Not drawn yet."</p> }
}

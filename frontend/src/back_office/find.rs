//! Finding a ticket by claim number, tag, name, address or telephone number.

use leptos::prelude::*;
use shared_types::brief::PairBrief;
use shared_types::contact::CustomerName;

use crate::document::Desk;

/// Props of the page.
#[derive(Clone, Debug)]
pub struct Find {
    /// Who works on it.
    pub desk: Desk,
    /// What was looked for.
    pub query: String,
    /// What was found, newest first.
    pub found: Vec<(PairBrief, CustomerName)>,
}

/// Finding a ticket by claim number, tag, name, address or telephone number.
#[component]
pub fn FindPage(props: Find) -> impl IntoView {
    let _ = props;
    view! { <p>"Not drawn yet."</p> }
}

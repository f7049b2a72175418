//! A page for what went wrong: what happened and a way onward.

use leptos::prelude::*;


/// Props of the page.
#[derive(Clone, Debug)]
pub struct Trouble {
    /// What happened, as a heading.
    pub title: String,
    /// Why, and what to do now.
    pub words: String,
    /// A way onward: words and link.
    pub onward: Option<(String, String)>,
    /// The number by which the shop finds this in its log.
    pub request: Option<String>,
}

/// A page for what went wrong: what happened and a way onward.
#[component]
pub fn TroublePage(props: Trouble) -> impl IntoView {
    let _ = props;
    view! { <p>"Not drawn yet."</p> }
}

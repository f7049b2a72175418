//! Signing in.

use leptos::prelude::*;
use shared_types::text::Line;

/// Props of the page.
#[derive(Clone, Debug)]
pub struct SignIn {
    /// The shop.
    pub shop: Line,
    /// The name that was typed.
    pub name: String,
    /// Why it did not work.
    pub trouble: Option<String>,
    /// Where to go afterwards.
    pub onward: String,
}

/// Signing in.
#[component]
pub fn SignInPage(props: SignIn) -> impl IntoView {
    let _ = props;
    view! { <p>"Not drawn yet."</p> }
}

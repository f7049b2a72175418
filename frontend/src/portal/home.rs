//! The shop's front page, for someone without their link.

use leptos::prelude::*;
use shared_types::shop::Shop;

/// Props of the page.
#[derive(Clone, Debug)]
pub struct Home {
    /// The shop.
    pub shop: Shop,
}

/// The shop's front page, for someone without their link.
#[component]
pub fn HomePage(props: Home) -> impl IntoView {
    let _ = props;
    view! { <p>"Not drawn yet."</p> }
}

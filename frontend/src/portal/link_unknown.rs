//! The one friendly page for links that open nothing, whatever the reason.

use leptos::prelude::*;
use shared_types::shop::Shop;

/// Props of the page.
#[derive(Clone, Debug)]
pub struct LinkUnknown {
    /// The shop.
    pub shop: Shop,
}

/// The one friendly page for links that open nothing, whatever the reason.
#[component]
pub fn LinkUnknownPage(props: LinkUnknown) -> impl IntoView {
    let _ = props;
    view! { <p>"Not drawn yet."</p> }
}

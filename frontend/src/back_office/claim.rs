//! The claim ticket and the pairs' tags, to print.

use leptos::prelude::*;
use shared_types::contact::CustomerName;
use shared_types::shop::Shop;
use shared_types::ticket::Ticket;

/// Props of the page.
#[derive(Clone, Debug)]
pub struct Claim {
    /// The shop.
    pub shop: Shop,
    /// The ticket.
    pub ticket: Ticket,
    /// Whose it is.
    pub customer: CustomerName,
    /// The link that the code opens; nothing if the link was stopped.
    pub link: Option<String>,
    /// The code as SVG.
    pub code: Option<String>,
}

/// The claim ticket and the pairs' tags, to print.
#[component]
pub fn ClaimPage(props: Claim) -> impl IntoView {
    let _ = props;
    view! { <p>"Not drawn yet."</p> }
}

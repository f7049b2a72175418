//! The customer's page: where the pairs are, what is needed, what happened, what was agreed.

use leptos::prelude::*;
use shared_types::key::PortalKey;
use shared_types::moment::Moment;
use shared_types::shop::Shop;
use shared_types::ticket::Ticket;

use crate::document::Flash;

/// Props of the page.
#[derive(Clone, Debug)]
pub struct TicketView {
    /// The shop.
    pub shop: Shop,
    /// The link that opened it.
    pub key: PortalKey,
    /// The ticket, without what is for the shop only.
    pub ticket: Ticket,
    /// Now.
    pub now: Moment,
    /// What just happened, or why something did not.
    pub flash: Option<Flash>,
    /// A question that could not be taken: what was typed, and what is wrong with it.
    pub question: Option<(String, String)>,
}

/// The customer's page: where the pairs are, what is needed, what happened, what was agreed.
#[component]
pub fn TicketPage(props: TicketView) -> impl IntoView {
    let _ = props;
    view! { <p>"Not drawn yet."</p> }
}

//! The receipt of payment and hand-over; it prints.

use leptos::prelude::*;
use shared_types::contact::CustomerName;
use shared_types::moment::Moment;
use shared_types::shop::Shop;
use shared_types::ticket::Ticket;

/// Props of the page.
#[derive(Clone, Debug)]
pub struct Receipt {
    /// The shop.
    pub shop: Shop,
    /// Whose it is.
    pub customer: CustomerName,
    /// The ticket, without what is for the shop only.
    pub ticket: Ticket,
    /// Now.
    pub now: Moment,
    /// Where the reader came from.
    pub back: String,
}

/// The receipt of payment and hand-over; it prints.
#[component]
pub fn ReceiptPage(props: Receipt) -> impl IntoView {
    let _ = props;
    view! { <p>"Not drawn yet."</p> }
}

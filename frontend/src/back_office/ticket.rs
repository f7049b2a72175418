//! A ticket for the counter: customer, pairs, money, hand-over, letters.

use leptos::prelude::*;
use shared_types::contact::Customer;
use shared_types::letter::LetterBrief;
use shared_types::ticket::Ticket;

use super::Names;
use crate::document::Desk;

/// Props of the page.
#[derive(Clone, Debug)]
pub struct ShopTicket {
    /// Who works on it.
    pub desk: Desk,
    /// The ticket.
    pub ticket: Ticket,
    /// Whose it is.
    pub customer: Customer,
    /// The customer's link; nothing if it was stopped.
    pub link: Option<String>,
    /// Letters on this ticket, newest first.
    pub letters: Vec<LetterBrief>,
    /// Who is who.
    pub names: Names,
    /// What was typed into the contact, payment or hand-over form, if it must be shown again.
    pub typed: shared_types::form::Fields,
}

/// A ticket for the counter: customer, pairs, money, hand-over, letters.
#[component]
pub fn ShopTicketPage(props: ShopTicket) -> impl IntoView {
    let _ = props;
    view! { <p>"Not drawn yet."</p> }
}

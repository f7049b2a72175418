//! A pair for the bench: stage, hold, notes, offer, scope.

use leptos::prelude::*;
use shared_types::contact::Customer;
use shared_types::id::PairId;
use shared_types::ticket::Ticket;

use super::Names;
use crate::document::Desk;

/// Props of the page.
#[derive(Clone, Debug)]
pub struct PairView {
    /// Who works on it.
    pub desk: Desk,
    /// The ticket.
    pub ticket: Ticket,
    /// Which of its pairs.
    pub pair: PairId,
    /// Whose it is.
    pub customer: Customer,
    /// Who is who.
    pub names: Names,
    /// A note that could not be taken, as it was typed.
    pub note: String,
    /// A told word that could not be taken, as it was typed.
    pub told: shared_types::form::Fields,
    /// What is wrong with it.
    pub told_errors: shared_types::form::FormErrors<shared_types::form::offer::ToldField>,
    /// Whether an offer has been prepared and not sent yet.
    pub has_draft: bool,
}

/// A pair for the bench: stage, hold, notes, offer, scope.
#[component]
pub fn PairPage(props: PairView) -> impl IntoView {
    let _ = props;
    view! { <p>"Not drawn yet."</p> }
}

//! Changing an agreed scope with the customer's word, as a new revision.

use leptos::prelude::*;
use shared_types::form::offer::EditField;
use shared_types::form::{Fields, FormErrors};
use shared_types::id::PairId;
use shared_types::pricebook::Service;
use shared_types::scope::{Scope, ScopeProblem};
use shared_types::ticket::Ticket;

use crate::document::Desk;

/// Props of the page.
#[derive(Clone, Debug)]
pub struct EditScope {
    /// Who works on it.
    pub desk: Desk,
    /// The ticket.
    pub ticket: Ticket,
    /// Which of its pairs.
    pub pair: PairId,
    /// The price book.
    pub services: Vec<Service>,
    /// What was typed.
    pub fields: Fields,
    /// What is wrong with it.
    pub errors: FormErrors<EditField>,
    /// Price and day as worked out on the server.
    pub worked_out: Option<Result<Scope, ScopeProblem>>,
}

/// Changing an agreed scope with the customer's word, as a new revision.
#[component]
pub fn EditScopePage(props: EditScope) -> impl IntoView {
    let _ = props;
    view! { <p>"Not drawn yet."</p> }
}

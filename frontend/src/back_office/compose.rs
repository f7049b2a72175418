//! Composing an offer: what was found, one to three choices, each priced and dated.

use leptos::prelude::*;
use shared_types::form::offer::OfferField;
use shared_types::form::{Fields, FormErrors};
use shared_types::id::PairId;
use shared_types::pricebook::Service;
use shared_types::scope::sheet::ChoiceKey;
use shared_types::scope::{Scope, ScopeProblem};
use shared_types::ticket::Ticket;

use crate::document::Desk;

/// Props of the page.
#[derive(Clone, Debug)]
pub struct Compose {
    /// Who works on it.
    pub desk: Desk,
    /// The ticket.
    pub ticket: Ticket,
    /// Which of its pairs.
    pub pair: PairId,
    /// The price book.
    pub services: Vec<Service>,
    /// What was typed; on a new offer every agreed line is kept in each choice.
    pub fields: Fields,
    /// What is wrong with it.
    pub errors: FormErrors<OfferField>,
    /// Price and day of each choice in use as worked out on the server.
    pub worked_out: Vec<(ChoiceKey, Result<Scope, ScopeProblem>)>,
}

/// Composing an offer: what was found, one to three choices, each priced and dated.
#[component]
pub fn ComposePage(props: Compose) -> impl IntoView {
    let _ = props;
    view! { <p>"Not drawn yet."</p> }
}

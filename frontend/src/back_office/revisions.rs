//! Every revision of a pair's scope: what changed, who, when, and what the customer said.

use leptos::prelude::*;
use shared_types::id::PairId;
use shared_types::ticket::Ticket;

use super::Names;
use crate::document::Desk;

/// Props of the page.
#[derive(Clone, Debug)]
pub struct Revisions {
    /// Who works on it.
    pub desk: Desk,
    /// The ticket.
    pub ticket: Ticket,
    /// Which of its pairs.
    pub pair: PairId,
    /// Who is who.
    pub names: Names,
}

/// Every revision of a pair's scope: what changed, who, when, and what the customer said.
#[component]
pub fn RevisionsPage(props: Revisions) -> impl IntoView {
    let _ = props;
    view! { <p>"Not drawn yet."</p> }
}

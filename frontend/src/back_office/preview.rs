//! A prepared offer, exactly as the customer will see it, and the button that sends it.

use leptos::prelude::*;
use shared_types::contact::Customer;
use shared_types::digest::Digest;
use shared_types::id::{PairId, TicketId};
use shared_types::scope::offer::Revision;

use crate::document::Desk;

/// Props of the page.
#[derive(Clone, Debug)]
pub struct Preview {
    /// Who works on it.
    pub desk: Desk,
    /// Which ticket.
    pub ticket: TicketId,
    /// Which pair.
    pub pair: PairId,
    /// Whose it is.
    pub customer: Customer,
    /// The prepared offer as a revision without answers.
    pub revision: Revision,
    /// Its digest, which the button sends along.
    pub digest: Digest,
}

/// A prepared offer, exactly as the customer will see it, and the button that sends it.
#[component]
pub fn PreviewPage(props: Preview) -> impl IntoView {
    let _ = props;
    view! { <p>"Not drawn yet."</p> }
}

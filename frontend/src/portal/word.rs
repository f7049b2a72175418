//! The receipt of a word: what was agreed, until when it can be taken back; it prints.

use leptos::prelude::*;
use shared_types::key::PortalKey;
use shared_types::moment::Moment;
use shared_types::scope::offer::{Answer, OfferState, Revision};
use shared_types::shop::Shop;

use crate::document::Flash;

/// Props of the page.
#[derive(Clone, Debug)]
pub struct WordReceipt {
    /// The shop.
    pub shop: Shop,
    /// The link that opened it.
    pub key: PortalKey,
    /// The offer.
    pub revision: Revision,
    /// The word.
    pub answer: Answer,
    /// Where the offer stands.
    pub state: OfferState,
    /// Now.
    pub now: Moment,
    /// What just happened, or why something did not.
    pub flash: Option<Flash>,
}

/// The receipt of a word: what was agreed, until when it can be taken back; it prints.
#[component]
pub fn WordPage(props: WordReceipt) -> impl IntoView {
    let _ = props;
    view! { <p>"Not drawn yet."</p> }
}

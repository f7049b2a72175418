//! An offer of added scope: what was found, the choices, and one tap.

use leptos::prelude::*;
use shared_types::id::PairId;
use shared_types::key::PortalKey;
use shared_types::moment::Moment;
use shared_types::scope::offer::{OfferState, Revision};
use shared_types::shop::Shop;

use crate::document::Flash;

/// Props of the page.
#[derive(Clone, Debug)]
pub struct OfferView {
    /// The shop.
    pub shop: Shop,
    /// The link that opened it.
    pub key: PortalKey,
    /// Which pair.
    pub pair: PairId,
    /// The offer; everything shown of it comes from its sheet.
    pub revision: Revision,
    /// Where it stands.
    pub state: OfferState,
    /// Now.
    pub now: Moment,
    /// What just happened, or why something did not.
    pub flash: Option<Flash>,
    /// A question that could not be taken: what was typed, and what is wrong with it.
    pub question: Option<(String, String)>,
}

/// An offer of added scope: what was found, the choices, and one tap.
#[component]
pub fn OfferPage(props: OfferView) -> impl IntoView {
    let _ = props;
    view! { <p>"Not drawn yet."</p> }
}

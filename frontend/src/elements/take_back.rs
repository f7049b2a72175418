//! The form that takes a word back, as long as that is possible.

use leptos::prelude::*;
use shared_types::digest::Digest;
use shared_types::key::PortalKey;
use shared_types::moment::{Moment, Zone};
use shared_types::paths;

use crate::elements::when::When;

/// Until when the word can be taken back, and the button that does it.
#[component]
pub fn TakeBack(
    /// The customer's link.
    key: PortalKey,
    /// The offer.
    sheet: Digest,
    /// The turn of the word.
    turn: u32,
    /// Until when.
    until: Moment,
    /// The shop's zone.
    zone: Zone,
) -> impl IntoView {
    view! {
        <form class="take-back" method="post" action=paths::take_back(key, sheet)>
            <input type="hidden" name="turn" value=turn.to_string() />
            <p>
                "You can take this answer back until " <When at=until zone />
                ", as long as the bench has not started. The offer is then open again."
            </p>
            <button class="act" data-act="plain">"Take my answer back"</button>
        </form>
    }
}

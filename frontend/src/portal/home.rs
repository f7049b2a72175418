//! The shop's front page, for someone without their link.

use leptos::prelude::*;
use shared_types::paths;
use shared_types::shop::Shop;

use crate::document::Portal;
use crate::elements::welt::{WeltNow, WeltProgress, welt_svg};

/// Props of the page.
#[derive(Clone, Debug)]
pub struct Home {
    /// The shop.
    pub shop: Shop,
}

/// The shop's front page, for someone without their link.
#[component]
pub fn HomePage(props: Home) -> impl IntoView {
    let Home { shop } = props;
    let mark = WeltProgress {
        runs: 5,
        done: 3,
        now: WeltNow::Stitching,
        all_round: false,
    };
    let svg = welt_svg(&mark, "A welt being stitched round a sole");
    let name = shop.name.to_string();
    view! {
        <Portal shop title="Welcome".to_owned()>
            <section class="where" aria-label="Welcome">
                <div class="where-drawing" inner_html=svg></div>
                <div class="where-words">
                    <h1 dir="auto">{name}</h1>
                    <p class="where-now">
                        "We repair boots and shoes, and nothing beyond what was agreed is done to a pair until its owner has had the last word."
                    </p>
                </div>
            </section>
            <section>
                <h2>"Your pair is with us"</h2>
                <p>
                    "Open the link in the letter that we sent you, or point your phone at the square on your paper ticket. It shows where your pair is, what it costs and when you can have it. There is no account and no password."
                </p>
                <p>
                    "No letter, or the link is gone: ring us and say the claim number on your paper ticket. We send you a new one."
                </p>
            </section>
            <section>
                <h2>"You work here"</h2>
                <p><a href=paths::sign_in()>"Sign in to the back room"</a></p>
            </section>
        </Portal>
    }
}

//! The one friendly page for links that open nothing, whatever the reason.

use leptos::prelude::*;
use shared_types::shop::Shop;

use crate::document::Portal;

/// Props of the page.
#[derive(Clone, Debug)]
pub struct LinkUnknown {
    /// The shop.
    pub shop: Shop,
}

/// The one friendly page for links that open nothing, whatever the reason.
#[component]
pub fn LinkUnknownPage(props: LinkUnknown) -> impl IntoView {
    let Href { words, path } = Href::of(&props.shop);
    view! {
        <Portal shop=props.shop title="This link opens nothing".to_owned()>
            <section>
                <h1>"This link opens nothing"</h1>
                <p>
                    "Please look into the newest letter that we sent you and open the link in it as a whole."
                </p>
                <p>
                    "If that doesn't help, " <a href=path>{words}</a>
                    " and say the claim number on your paper ticket. We send you a new link. Nothing about your pair is lost."
                </p>
            </section>
        </Portal>
    }
}

/// How to reach the shop.
struct Href {
    words: String,
    path: String,
}

impl Href {
    fn of(shop: &Shop) -> Self {
        match &shop.phone {
            Some(phone) => Self {
                words: format!("ring us: {phone}"),
                path: crate::document::ring(phone),
            },
            None => Self {
                words: format!("write to us: {}", shop.email),
                path: format!("mailto:{}", shop.email),
            },
        }
    }
}

//! The frames round every page: the document itself, the customer's letter, the shop's back room.

use leptos::prelude::*;
use shared_types::moment::Moment;
use shared_types::shop::Shop;
use shared_types::staff::Staff;

/// Who works on a back-office page, and what it must say first.
#[derive(Clone, Debug)]
pub struct Desk {
    /// The shop.
    pub shop: Shop,
    /// Who is signed in.
    pub staff: Staff,
    /// Now.
    pub now: Moment,
    /// What just happened, or why something did not.
    pub flash: Option<Flash>,
}

/// One line at the top of a page.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Flash {
    /// Something was done.
    Done(String),
    /// Something was not done, and why.
    Refused(String),
}

/// The document: head, skip link, and the page's own body.
#[component]
pub fn Document(
    /// The title in the browser's bar.
    title: String,
    /// The page.
    children: Children,
) -> impl IntoView {
    view! {
        <html lang="en">
            <head>
                <meta charset="utf-8" />
                <meta name="viewport" content="width=device-width, initial-scale=1" />
                <title>{title}</title>
            </head>
            <body>{children()}</body>
        </html>
    }
}

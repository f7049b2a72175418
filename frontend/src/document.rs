//! The frames round every page: the document itself, the customer's letter, the shop's back room.

use leptos::prelude::*;
use shared_types::contact::Phone;
use shared_types::moment::Moment;
use shared_types::paths;
use shared_types::shop::Shop;
use shared_types::staff::{Permission, Staff};

use crate::elements::flash::FlashLine;
use crate::elements::hours::OpeningHours;

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

/// A room of the back office, as its navigation names it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Room {
    /// What needs someone today.
    Today,
    /// The queue at the bench.
    Bench,
    /// The plan of all open pairs.
    Plan,
    /// Pairs come in over the counter.
    Intake,
    /// Any ticket, found; its door is the search field.
    Find,
    /// Letters that went out.
    Letters,
    /// The price book.
    Prices,
    /// What the owner sets.
    Settings,
    /// Who works here.
    People,
    /// A page that the navigation does not name, such as a ticket or a pair.
    Elsewhere,
}

impl Room {
    const DOORS: [Self; 8] = [
        Self::Today,
        Self::Bench,
        Self::Plan,
        Self::Intake,
        Self::Letters,
        Self::Prices,
        Self::Settings,
        Self::People,
    ];

    /// The door's words, where it leads, and who may go through; nothing for a room without one.
    fn door(self) -> Option<(&'static str, String, Permission)> {
        match self {
            Self::Today => Some(("Today", paths::today(), Permission::SeeTickets)),
            Self::Bench => Some(("Bench", paths::bench(), Permission::SeeTickets)),
            Self::Plan => Some(("Plan", paths::plan(), Permission::SeeTickets)),
            Self::Intake => Some(("Take in", paths::intake(), Permission::TakeIn)),
            Self::Letters => Some(("Letters", paths::letters(), Permission::SeeLetters)),
            Self::Prices => Some(("Price book", paths::prices(), Permission::RunTheShop)),
            Self::Settings => Some(("Settings", paths::settings(), Permission::RunTheShop)),
            Self::People => Some(("People", paths::people(), Permission::RunTheShop)),
            Self::Find | Self::Elsewhere => None,
        }
    }
}

/// The document: head, skip link, and the page's own body, whose `main` has the id `main`.
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
                <meta name="color-scheme" content="light dark" />
                <title>{title}</title>
                <meta name="robots" content="noindex" />
                <link rel="icon" type="image/svg+xml" href=paths::icon() />
                <link rel="stylesheet" href=paths::style() />
                // The two faces of the first screen, so that a first visit shows them at once.
                {["piazzolla-latin-700.woff2", "alegreya-sans-latin-400.woff2"].map(|name| view! {
                    <link rel="preload" r#as="font" r#type="font/woff2" crossorigin="" href=paths::font(name) />
                })}
                <script type="module" src=paths::loader()></script>
            </head>
            <body>
                <a class="skip-link" href="#main">"Skip to the page"</a>
                {children()}
            </body>
        </html>
    }
}

/// The frame of a customer's page: a letter from the shop.
#[component]
pub fn Portal(
    /// The shop.
    shop: Shop,
    /// The title in the browser's bar; the shop's name follows it.
    title: String,
    /// What just happened, or why something did not.
    #[prop(optional_no_strip)]
    flash: Option<Flash>,
    /// The page, starting with its `h1`.
    children: Children,
) -> impl IntoView {
    let ring = shop.phone.as_ref().map(|phone| {
        view! { <p class="masthead-line">"Ring us: " <a href=ring(phone)>{phone.to_string()}</a></p> }
    });
    let title = format!("{title} · {}", shop.name);
    view! {
        <Document title>
            <div class="portal">
                <header class="masthead">
                    <p class="masthead-name">{shop.name.to_string()}</p>
                    {ring}
                </header>
                <main id="main" tabindex="-1">
                    {flash.map(|flash| view! { <FlashLine flash /> })}
                    {children()}
                </main>
                <footer class="colophon">
                    <OpeningHours shop=shop.clone() />
                </footer>
            </div>
        </Document>
    }
}

/// The frame of a staff page: the navigation of the rooms that this person may enter, the search
/// field, the way out, and what just happened. The page brings its own `h1`.
#[component]
pub fn BackRoom(
    /// Who works on it.
    desk: Desk,
    /// The title in the browser's bar; the shop's name follows it.
    title: String,
    /// Where this page is.
    here: Room,
    /// The page, starting with its `h1` (or a `page-head` around it).
    children: Children,
) -> impl IntoView {
    let may = |permission| desk.staff.role.may(permission);
    let doors: Vec<_> = Room::DOORS
        .into_iter()
        .filter_map(|room| Some((room, room.door()?)))
        .filter(|(_, (_, _, permission))| may(*permission))
        .map(|(room, (words, path, _))| {
            let current = (room == here).then_some("page");
            view! { <li><a href=path aria-current=current>{words}</a></li> }
        })
        .collect();
    let title = format!("{title} · {}", desk.shop.name);
    view! {
        <Document title>
            <div class="backroom">
                <header class="bar">
                    <p class="bar-name"><a href=paths::today()>{desk.shop.name.to_string()}</a></p>
                    <nav aria-label="Back room">
                        <ul>{doors}</ul>
                    </nav>
                    <form class="bar-find" role="search" method="get" action=paths::find()>
                        <label class="visually-hidden" for="bar-find">"Find a ticket"</label>
                        <input
                            type="search"
                            id="bar-find"
                            name="q"
                            placeholder="Number, name, phone"
                            autocomplete="off"
                        />
                    </form>
                    <form class="bar-leave" method="post" action=paths::sign_out()>
                        <button>"Sign out " <bdi>{desk.staff.name.to_string()}</bdi></button>
                    </form>
                </header>
                <main id="main" tabindex="-1">
                    {desk.flash.map(|flash| view! { <FlashLine flash /> })}
                    {children()}
                </main>
            </div>
        </Document>
    }
}

/// The link that dials a telephone number (RFC 3966): its digits, and a plus before them.
pub fn ring(phone: &Phone) -> String {
    // What follows an x is an extension, which is dialled by hand.
    let number = phone.as_str().split('x').next().unwrap_or_default();
    let dialled = number
        .char_indices()
        .filter(|(index, letter)| letter.is_ascii_digit() || (*index == 0 && *letter == '+'));
    dialled.fold("tel:".to_owned(), |mut link, (_, letter)| {
        link.push(letter);
        link
    })
}

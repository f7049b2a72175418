//! Finding a ticket by claim number, tag, name, address or telephone number.

use leptos::prelude::*;
use shared_types::brief::PairBrief;
use shared_types::contact::CustomerName;
use shared_types::paths;

use crate::document::{BackRoom, Desk, Room};
use crate::elements::field::{Kind, TextField};
use crate::elements::pair_words::called_out;
use crate::elements::when::Day;

/// Props of the page.
#[derive(Clone, Debug)]
pub struct Find {
    /// Who works on it.
    pub desk: Desk,
    /// What was looked for.
    pub query: String,
    /// What was found, newest first.
    pub found: Vec<(PairBrief, CustomerName)>,
}

/// Finding a ticket by claim number, tag, name, address or telephone number.
#[component]
pub fn FindPage(props: Find) -> impl IntoView {
    let Find { desk, query, found } = props;
    let asked = !query.trim().is_empty();
    let count = match found.len() {
        0 if asked => format!(
            "Nothing fits “{query}”. Try less of it: two letters of the name, or the last digits of the number."
        ),
        0 => String::new(),
        1 => "One pair fits.".to_owned(),
        count => format!("{count} pairs fit."),
    };
    let rows = found
        .into_iter()
        .map(|(pair, customer)| view! { <Found pair customer /> })
        .collect_view();
    view! {
        <BackRoom desk title="Find".to_owned() here=Room::Find>
            <h1>"Find a ticket"</h1>
            <form class="form-rows" role="search" aria-label="Find another" method="get" action=paths::find()>
                <TextField
                    label="What to look for"
                    name="q"
                    value=query
                    kind=Kind::Search
                    hint="Claim number, tag, name, mail address or telephone number."
                    focus=true
                />
                <button class="act">"Find"</button>
            </form>
            <p role="status">{count}</p>
            <ul class="sentence-list">{rows}</ul>
        </BackRoom>
    }
}

#[component]
fn Found(pair: PairBrief, customer: CustomerName) -> impl IntoView {
    let stage = pair.stage.label().to_lowercase();
    let promised = pair
        .stage
        .is_open()
        .then(|| view! { ", promised for " <Day day=pair.promise /> });
    view! {
        <li>
            <p>
                <b>{customer.to_string()}</b>
                ": "
                <a href=paths::pair(pair.pair)>{called_out(&pair)}</a>
                ", "
                {stage}
                {promised}
                "."
            </p>
            <a class="act" data-act="plain" href=paths::shop_ticket(pair.ticket)>
                {format!("Open ticket {}", pair.number)}
            </a>
        </li>
    }
}

#[cfg(all(test, feature = "ssr"))]
mod tests {
    use shared_types::staff::Role;

    use super::*;
    use crate::fixture::{WILD, WILD_ESCAPED, desk, split_welt};

    fn rendered(query: &str, is_found: bool) -> String {
        let ticket = split_welt().ticket();
        let customer = CustomerName::parse("Nadia Okafor").expect("a name");
        let brief = PairBrief::of(&ticket, &ticket.pairs[0]);
        let props = Find {
            desk: desk(Role::Counter),
            query: query.to_owned(),
            found: is_found.then_some((brief, customer)).into_iter().collect(),
        };
        crate::render::page(|| view! { <FindPage props /> })
    }

    #[test]
    fn a_pair_is_found_with_its_owner_and_its_ticket() {
        let html = rendered("okafor", true);
        assert!(html.contains("One pair fits."), "{html}");
        assert!(html.contains("Nadia Okafor"));
        assert!(html.contains("Open ticket 4417"));
        assert!(html.contains("value=\"okafor\""));
    }

    #[test]
    fn nothing_found_says_what_to_try() {
        let html = rendered(WILD, false);
        assert!(html.contains("Nothing fits"), "{html}");
        assert!(html.contains(WILD_ESCAPED));
        assert!(!html.contains("<script>alert"));
    }
}

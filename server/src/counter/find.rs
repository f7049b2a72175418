//! Finding a ticket by claim number, tag, name, address or telephone number.

use std::collections::HashMap;

use axum::extract::{Query, State};
use axum::http::StatusCode;
use frontend::back_office::find::{Find, FindPage};
use leptos::prelude::*;
use shared_types::staff::Permission;
use shared_types::ticket::TicketNumber;

use crate::app::App;
use crate::error::AppResult;
use crate::request::without_nul;
use crate::staff::session::SignedIn;
use crate::{page, record};

pub(super) async fn find(
    State(app): State<App>,
    staff: SignedIn,
    Query(query): Query<HashMap<String, String>>,
) -> AppResult {
    staff.require(Permission::SeeTickets)?;
    let query = query
        .get("q")
        .map_or_else(String::new, |query| without_nul(query.trim()));
    let mut conn = app.db.read().await?;
    let mut found = Vec::new();
    if query.is_empty() {
        found = record::latest_briefs(&mut conn).await?;
    } else if let Some(number) = claim_number(&query) {
        found = record::briefs_of_number(&mut conn, number).await?;
    }
    if found.is_empty() {
        found = record::briefs_of_customers(&mut conn, &query).await?;
    }
    drop(conn);
    let desk = staff.desk(None);
    Ok(page::render(StatusCode::OK, move || {
        let props = Find { desk, query, found };
        view! { <FindPage props=props /> }
    }))
}

/// `1042`, `1042 A` or `1042-a`: a claim number, perhaps with the tag of a pair.
fn claim_number(query: &str) -> Option<TicketNumber> {
    let digits: String = query.chars().take_while(char::is_ascii_digit).collect();
    let tag = query[digits.len()..].trim_matches([' ', '-', '·']);
    let is_tag = tag.len() <= 1 && tag.chars().all(|letter| letter.is_ascii_alphabetic());
    (is_tag && digits.len() <= 9).then(|| digits.parse().ok().map(TicketNumber::new))?
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_claim_number_is_found_with_and_without_its_tag() {
        for query in ["1042", "1042 A", "1042-a", "1042B"] {
            assert_eq!(
                claim_number(query),
                Some(TicketNumber::new(1042)),
                "{query}"
            );
        }
        for query in ["Ana", "555-0134", "", "10424242424242", "1042 Anna"] {
            assert_eq!(claim_number(query), None, "{query}");
        }
    }
}

//! Where the shop is and when it is open.

use leptos::prelude::*;
use shared_types::shop::Shop;

/// The shop's address and its hours, days with equal hours together.
#[component]
pub fn OpeningHours(
    /// The shop.
    shop: Shop,
) -> impl IntoView {
    let hours: Vec<_> = shop
        .calendar
        .week_words()
        .into_iter()
        .map(|words| {
            let (days, hours) = words.split_once(' ').unwrap_or((&words, ""));
            view! { <div><dt>{days.to_owned()}</dt><dd>{hours.to_owned()}</dd></div> }
        })
        .collect();
    view! {
        <address class="shop-address">
            {shop.name.to_string()}
            {address_lines(&shop)}
        </address>
        <dl class="hours">{hours}</dl>
    }
}

fn address_lines(shop: &Shop) -> Vec<impl IntoView + use<>> {
    let lines = shop
        .address
        .as_str()
        .lines()
        .filter(|line| !line.is_empty());
    lines
        .map(|line| view! { <br />{line.to_owned()} })
        .collect()
}

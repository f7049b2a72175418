//! What a new pair costs and when it can be ready, for the counter's eyes.

use leptos::prelude::*;
use shared_types::promise::new_pair::{NewPair, NewPairDays as Days, Wish};
use shared_types::scope::ScopeProblem;

use crate::elements::when::Day;
use crate::elements::worked_out::WorkedOut;

/// Price and day, how sure they are, and what is to be said to a wished day.
#[component]
pub fn NewPairDays(
    /// The pair, or what is wrong with it.
    outcome: Result<NewPair, ScopeProblem>,
) -> impl IntoView {
    let days = outcome.as_ref().ok().map(|pair| pair.days);
    let sure = days.as_ref().map(how_sure);
    let wish = days.and_then(|days| days.wish);
    let wish = wish.map(wish_words);
    let outcome = outcome.map(|pair| pair.scope);
    view! {
        <div class="new-pair-days">
            <WorkedOut outcome />
            {sure}
            {wish}
        </div>
    }
}

fn how_sure(days: &Days) -> impl IntoView + use<> {
    let likely = days
        .likely
        .map(|day| view! { "Likely by " <Day day />"; " });
    let nearly_sure = days
        .nearly_sure
        .map(|day| view! { "; nearly sure by " <Day day /> });
    let in_turn = days.in_turn;
    view! {
        <p class="how-sure">
            {likely} "promised in its turn by " <Day day=in_turn /> {nearly_sure} "."
        </p>
    }
}

fn wish_words(wish: Wish) -> impl IntoView {
    let given = if wish.is_given {
        "This day is promised."
    } else {
        "This day can’t be promised so."
    };
    let (in_turn, in_rush) = (wish.in_turn, wish.in_rush);
    view! {
        <p class="how-sure" data-wish=if wish.is_given { "given" } else { "not-given" }>
            "By " <Day day=wish.day /> ": "
            {format!("kept {} times in 100 in its turn, {} in rush. ", in_turn.percent(), in_rush.percent())}
            {given}
            " In rush it goes before all that is promised later."
        </p>
    }
}

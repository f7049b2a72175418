//! Days and moments in words of the shop's zone, which a browser can read as well.

use leptos::prelude::*;
use shared_types::moment::{Moment, Zone, day_words};
use time::Date;

/// A day in words: `Sat 12 Dec`.
#[component]
pub fn Day(
    /// Which day.
    day: Date,
) -> impl IntoView {
    let year = day.year();
    let stamp = format!("{year:04}-{:02}-{:02}", u8::from(day.month()), day.day());
    view! { <time datetime=stamp>{day_words(day)}</time> }
}

/// A moment in words, by the shop's clock: `Sat 12 Dec, 17:00`.
#[component]
pub fn When(
    /// Which moment.
    at: Moment,
    /// The shop's zone.
    zone: Zone,
) -> impl IntoView {
    view! { <time datetime=stamp(at)>{zone.words(at)}</time> }
}

/// A moment in words with its year, for what is kept: `Sat 12 Dec 2026, 17:00`.
#[component]
pub fn WhenKept(
    /// Which moment.
    at: Moment,
    /// The shop's zone.
    zone: Zone,
) -> impl IntoView {
    view! { <time datetime=stamp(at)>{zone.words_with_year(at)}</time> }
}

/// HTML's global date and time, to the minute.
fn stamp(at: Moment) -> String {
    let utc = at.to_utc();
    format!(
        "{:04}-{:02}-{:02}T{:02}:{:02}Z",
        utc.year(),
        u8::from(utc.month()),
        utc.day(),
        utc.hour(),
        utc.minute()
    )
}

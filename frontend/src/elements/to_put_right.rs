//! How much of a form is to be put right, said at its top; each problem stands beside its field.

use leptos::prelude::*;

use crate::document::Flash;
use crate::elements::flash::FlashLine;

/// The line; nothing where nothing is wrong.
#[component]
pub fn ToPutRight(
    /// How many fields have a problem.
    count: usize,
) -> impl IntoView {
    let words = match count {
        0 => return None,
        1 => "Nothing was recorded yet: one thing is to be put right below.".to_owned(),
        count => format!("Nothing was recorded yet: {count} things are to be put right below."),
    };
    Some(view! { <FlashLine flash=Flash::Refused(words) /> })
}

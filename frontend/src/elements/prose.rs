//! What people wrote, in paragraphs and in the direction of their script.

use leptos::prelude::*;
use shared_types::text::Words;

/// Words as paragraphs: an empty line parts them, a single break stays a break.
#[component]
pub fn Prose(
    /// What was written.
    words: Words,
) -> impl IntoView {
    let paragraphs: Vec<_> = words
        .as_str()
        .split("\n\n")
        .map(str::trim)
        .filter(|paragraph| !paragraph.is_empty())
        .map(|paragraph| view! { <p dir="auto">{broken(paragraph)}</p> })
        .collect();
    paragraphs
}

fn broken(paragraph: &str) -> Vec<impl IntoView + use<>> {
    let lines = paragraph.lines().enumerate();
    lines
        .map(|(index, line)| {
            let broken = (index > 0).then(|| view! { <br /> });
            view! { {broken}{line.to_owned()} }
        })
        .collect()
}

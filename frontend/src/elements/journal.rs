//! A pair's journal: notes with pictures, questions and replies, newest first.

use leptos::prelude::*;
use shared_types::moment::Zone;
use shared_types::ticket::Note;
use shared_types::ticket::event::{Actor, Audience};

use crate::elements::pictures::{Photos, Pictures};
use crate::elements::prose::Prose;
use crate::elements::when::When;

/// The journal as the customer reads it. What is for the shop only never passes through here,
/// even if a page forgot to leave it out.
#[component]
pub fn Journal(
    /// The notes, oldest first, as the record has them.
    notes: Vec<Note>,
    /// The shop's zone.
    zone: Zone,
    /// Where its pictures come from.
    photos: Photos,
) -> impl IntoView {
    let entries: Vec<_> = notes
        .into_iter()
        .rev()
        .filter(|note| note.audience.is_for_customer())
        .map(|note| {
            let who = who(&note);
            view! { <li><JournalEntry note who zone=zone.clone() photos=photos.clone() /></li> }
        })
        .collect();
    view! { <ol class="journal">{entries}</ol> }
}

/// One entry: when, who, the words (a question or reply as a quotation) and the pictures.
#[component]
pub fn JournalEntry(
    /// The entry.
    note: Note,
    /// Who it is from, such as `from the shop`.
    who: String,
    /// The shop's zone.
    zone: Zone,
    /// Where its pictures come from.
    photos: Photos,
) -> impl IntoView {
    let from = (note.actor != Actor::Customer).then_some("shop");
    let words = note.words.map(|words| match note.audience {
        Audience::Question | Audience::Reply => {
            view! { <blockquote class="said" data-from=from><Prose words /></blockquote> }
                .into_any()
        }
        Audience::Shop | Audience::Customer => view! { <Prose words /> }.into_any(),
    });
    view! {
        <p class="journal-when"><When at=note.at zone />", " {who}</p>
        {words}
        <Pictures pictures=note.pictures photos />
    }
}

fn who(note: &Note) -> String {
    let words = match (note.actor, note.audience) {
        (Actor::Customer, _) => "you asked",
        (_, Audience::Question) => "you asked, and we wrote it down",
        (_, Audience::Reply) => "our reply",
        (Actor::Staff(_) | Actor::Program, _) => "from the shop",
    };
    words.to_owned()
}

//! The pair's pictures as tick boxes: which of them an offer shows.

use std::collections::BTreeSet;

use leptos::prelude::*;
use shared_types::form::Fields;
use shared_types::form::offer::OfferField;
use shared_types::moment::Zone;
use shared_types::paths;
use shared_types::ticket::Pair;

/// Pictures of the journal, newest first, and those that came with the form.
#[component]
pub fn PictureTicks(
    /// Whose pictures.
    pair: Pair,
    /// What was ticked.
    fields: Fields,
    /// The zone of the shop's clock.
    zone: Zone,
) -> impl IntoView {
    let mut pictures: Vec<(String, String)> = Vec::new();
    let mut known = BTreeSet::new();
    for note in pair.notes.iter().rev() {
        for picture in &note.pictures {
            let digest = picture.digest.to_string();
            if known.insert(digest.clone()) {
                let when = zone.words(note.at);
                let words = picture.shows.as_ref().map_or(when, ToString::to_string);
                pictures.push((digest, words));
            }
        }
    }
    for digest in fields.all(&OfferField::Picture.name()) {
        if known.insert(digest.to_owned()) {
            pictures.insert(0, (digest.to_owned(), "Just sent".to_owned()));
        }
    }
    if pictures.is_empty() {
        return None;
    }
    let ticks: Vec<_> = pictures
        .into_iter()
        .map(|(digest, words)| {
            let checked = fields.has(&OfferField::Picture.name(), &digest);
            let source = paths::shop_photo(&digest);
            view! {
                <li>
                    <label class="picture-tick">
                        <img src=source alt="" loading="lazy" />
                        <span class="check">
                            <input type="checkbox" name=OfferField::Picture.name() value=digest checked=checked />
                            <span>{words}</span>
                        </span>
                    </label>
                </li>
            }
        })
        .collect();
    Some(view! {
        <fieldset class="group">
            <legend>"Pictures to show"</legend>
            <ul class="picture-row">{ticks}</ul>
        </fieldset>
    })
}

//! Pictures from the bench, each a link to its full size.

use leptos::prelude::*;
use shared_types::digest::Digest;
use shared_types::key::PortalKey;
use shared_types::paths;
use shared_types::scope::sheet::Picture;

/// Where a page takes its pictures from.
#[derive(Clone, Debug)]
pub enum Photos {
    /// From behind the customer's link.
    Portal(PortalKey),
    /// From the back office.
    Shop,
}

impl Photos {
    /// The address of a picture.
    pub fn url(&self, digest: Digest) -> String {
        match self {
            Self::Portal(key) => paths::photo(key, digest),
            Self::Shop => paths::shop_photo(digest),
        }
    }
}

/// One picture large, or several beside each other to swipe through.
#[component]
pub fn Pictures(
    /// The pictures.
    pictures: Vec<Picture>,
    /// Where they come from.
    photos: Photos,
) -> impl IntoView {
    match pictures.as_slice() {
        [] => ().into_any(),
        [one] => figure(one, &photos, "found").into_any(),
        several => {
            let figures: Vec<_> = several
                .iter()
                .map(|picture| view! { <li>{figure(picture, &photos, "")}</li> })
                .collect();
            view! { <ul class="photo-strip" tabindex="0" aria-label="Pictures">{figures}</ul> }
                .into_any()
        }
    }
}

fn figure(picture: &Picture, photos: &Photos, class: &'static str) -> impl IntoView + use<> {
    let url = photos.url(picture.digest);
    let full_size = url.clone();
    let shows = picture.shows.as_ref().map(ToString::to_string);
    let alt = shows
        .clone()
        .unwrap_or_else(|| "Picture of what was found".to_owned());
    let class = (!class.is_empty()).then_some(class);
    // The caption repeats the alternative text, so it is read out only once.
    let caption = shows.map(|shows| {
        view! { <figcaption aria-hidden="true" dir="auto">{shows}</figcaption> }
    });
    view! {
        <figure class=class>
            <a href=full_size><img src=url alt=alt loading="lazy" decoding="async" /></a>
            {caption}
        </figure>
    }
}

//! An offer of added scope: what was found, the choices, and one tap.

use leptos::prelude::*;
use shared_types::id::PairId;
use shared_types::key::PortalKey;
use shared_types::moment::{Moment, Zone};
use shared_types::paths;
use shared_types::scope::offer::{OfferState, Revision};
use shared_types::shop::Shop;

use crate::document::{Flash, Portal};
use crate::elements::offer_sheet::{OfferSheet, Press, word_words};
use crate::elements::pair_words::{begun, tag_words};
use crate::elements::pictures::Photos;
use crate::elements::prose::Prose;
use crate::elements::question::QuestionForm;
use crate::elements::take_back::TakeBack;
use crate::elements::when::{Day, When};

/// Props of the page.
#[derive(Clone, Debug)]
pub struct OfferView {
    /// The shop.
    pub shop: Shop,
    /// The link that opened it.
    pub key: PortalKey,
    /// Which pair.
    pub pair: PairId,
    /// The offer; everything shown of it comes from its sheet.
    pub revision: Revision,
    /// Where it stands.
    pub state: OfferState,
    /// Now.
    pub now: Moment,
    /// What just happened, or why something did not.
    pub flash: Option<Flash>,
}

/// An offer of added scope: what was found, the choices, and one tap.
#[component]
pub fn OfferPage(props: OfferView) -> impl IntoView {
    let OfferView {
        shop,
        key,
        pair,
        revision,
        state,
        now,
        flash,
    } = props;
    let zone = shop.calendar.zone.clone();
    let digest = revision.digest;
    let here = paths::offer(&key, digest);
    let heading = match state {
        OfferState::Open { .. } => "We need your word",
        OfferState::Answered { .. } => "You gave your word",
        OfferState::Superseded => "This offer was replaced",
        OfferState::Withdrawn => "We withdrew this offer",
        OfferState::Lapsed { .. } => "The time to answer has passed",
    };
    let sheet = &revision.sheet;
    let tag = tag_words(sheet.ticket, sheet.tag);
    let title = begun(sheet.pair.as_str());
    let names = vec![(pair, title.clone())];
    let made_at = sheet.made_at;
    let stands = how_it_stands(&revision, state, &key, &zone);
    let press = Press::Live(paths::give_word(&key, digest));
    let photos = Photos::Portal(key.clone());
    let home = paths::ticket(&key);
    view! {
        <Portal shop title=heading.to_owned() flash>
            <div class="letter-head">
                <p class="claim">
                    "Ticket " <b>{tag}</b> ", offer of " <When at=made_at zone=zone.clone() />
                </p>
                <h1>{heading}</h1>
                <p class="letter-about" dir="auto">{title}</p>
            </div>
            {stands}
            <OfferSheet revision state now zone press photos />
            <section>
                <h2>{ask_heading(state)}</h2>
                <QuestionForm key pairs=names back=Some(here) />
                <p><a href=home>"Back to your ticket"</a></p>
            </section>
        </Portal>
    }
}

const fn ask_heading(state: OfferState) -> &'static str {
    match state {
        OfferState::Open { .. } => "Before you decide",
        OfferState::Answered { .. }
        | OfferState::Superseded
        | OfferState::Withdrawn
        | OfferState::Lapsed { .. } => "Anything else",
    }
}

/// How things stand once the offer is no longer open.
fn how_it_stands(
    revision: &Revision,
    state: OfferState,
    key: &PortalKey,
    zone: &Zone,
) -> Option<AnyView> {
    let words = match state {
        OfferState::Open { .. } => return None,
        OfferState::Answered {
            at,
            take_back_until,
            ..
        } => answered(revision, at, take_back_until, key, zone),
        OfferState::Superseded => view! {
            <p>
                "A newer offer or agreement took its place, so nothing can be answered here any more. "
                <a href=paths::ticket(key)>"See how things stand now"</a> "."
            </p>
        }
        .into_any(),
        OfferState::Withdrawn => {
            let (at, reason) = revision.withdrawn.clone().unzip();
            let at = at.map(|at| view! { " on " <When at zone=zone.clone() /> });
            let reason = reason.flatten().map(|words| view! { <Prose words /> });
            view! {
                <p>"We withdrew it" {at} ". Your pair goes on as it was agreed before."</p>
                {reason}
            }
            .into_any()
        }
        OfferState::Lapsed { answer_by } => view! {
            <p>
                "It could be answered until " <When at=answer_by zone=zone.clone() />
                ". Nothing was decided for you, and your pair waits. Please ring us, or ask below, and we work out a new day."
            </p>
        }
        .into_any(),
    };
    Some(
        view! { <section class="how-it-stands"><h2>"How it stands"</h2>{words}</section> }
            .into_any(),
    )
}

fn answered(
    revision: &Revision,
    at: Moment,
    take_back_until: Option<Moment>,
    key: &PortalKey,
    zone: &Zone,
) -> AnyView {
    let Some(answer) = revision.standing() else {
        return ().into_any();
    };
    let (sheet, turn) = (&revision.sheet, answer.turn);
    let scope = sheet.scope_after(answer.word);
    let total = scope.total().to_string();
    let day = sheet.ready_after(answer.word, answer.at);
    let digest = revision.digest;
    let take_back = match take_back_until {
        Some(until) => {
            view! { <TakeBack key=key.clone() sheet=digest turn until zone=zone.clone() /> }
                .into_any()
        }
        None => view! {
            <p>
                "It can no longer be taken back here. Please ring us if something is wrong: as long as nothing is cut, we find a way."
            </p>
        }
        .into_any(),
    };
    view! {
        <p>
            <b dir="auto">{word_words(answer.word, sheet)}</b> ", said "
            <When at zone=zone.clone() /> ": " <b>{total}</b> " together, ready " <Day day /> ". " <a href=paths::word(key, digest)>"Receipt to keep"</a>
        </p>
        {take_back}
    }
    .into_any()
}

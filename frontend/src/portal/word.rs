//! The receipt of a word: what was agreed, until when it can be taken back; it prints.

use leptos::prelude::*;
use shared_types::key::PortalKey;
use shared_types::moment::Moment;
use shared_types::paths;
use shared_types::scope::offer::{Answer, OfferState, Revision, Via, Word};
use shared_types::scope::sheet::{Given, Sheet};
use shared_types::shop::Shop;

use crate::document::{Flash, Portal};
use crate::elements::caution::Cautions;
use crate::elements::offer_sheet::{price_step, word_words};
use crate::elements::pair_words::{begun, tag_words};
use crate::elements::price_table::PriceTable;
use crate::elements::print_button::PrintButton;
use crate::elements::take_back::TakeBack;
use crate::elements::when::{Day, WhenKept};

/// Props of the page.
#[derive(Clone, Debug)]
pub struct WordReceipt {
    /// The shop.
    pub shop: Shop,
    /// The link that opened it.
    pub key: PortalKey,
    /// The offer.
    pub revision: Revision,
    /// The word.
    pub answer: Answer,
    /// Where the offer stands.
    pub state: OfferState,
    /// Now.
    pub now: Moment,
    /// What just happened, or why something did not.
    pub flash: Option<Flash>,
}

/// The receipt of a word: what was agreed, until when it can be taken back; it prints.
#[component]
pub fn WordPage(props: WordReceipt) -> impl IntoView {
    let WordReceipt {
        shop,
        key,
        revision,
        answer,
        state,
        now: _,
        flash,
    } = props;
    let zone = shop.calendar.zone.clone();
    let taken_back = answer.taken_back_at;
    let heading = if taken_back.is_some() {
        "Your word, taken back"
    } else {
        "Your word, kept"
    };
    let (digest, turn) = (revision.digest, answer.turn);
    let take_back = take_back_until(state, &answer).map(|until| {
        let zone = zone.clone();
        view! { <TakeBack key=key.clone() sheet=digest turn until zone /> }
    });
    let back = taken_back.map(|at| {
        view! { <div><dt>"Taken back"</dt><dd><WhenKept at zone=zone.clone() /></dd></div> }
    });
    let sheet = revision.sheet;
    let confirmed = sheet.offer().filter(|_| answer.acknowledged);
    let cautions = confirmed
        .map(|offer| offer.cautions.clone())
        .unwrap_or_default();
    let acknowledged =
        (!cautions.is_empty()).then(|| view! { <p>"You confirmed that you had read this:"</p> });
    let offer_path = paths::offer(&key, digest);
    view! {
        <Portal shop title=heading.to_owned() flash>
            <article class="receipt">
                <header>
                    <h1>{heading}</h1>
                    <p dir="auto">{sheet.shop.to_string()}</p>
                </header>
                <dl class="receipt-facts">
                    <div>
                        <dt>"Ticket and pair"</dt>
                        <dd>{tag_words(sheet.ticket, sheet.tag)} ", " <span dir="auto">{sheet.pair.to_string()}</span></dd>
                    </div>
                    <div>
                        <dt>"Your word"</dt>
                        <dd dir="auto"><b>{word_words(answer.word, &sheet)}</b></dd>
                    </div>
                    <div>
                        <dt>"Given"</dt>
                        <dd><WhenKept at=answer.at zone=zone.clone() /> ", " {via_words(&answer.via)}</dd>
                    </div>
                    {back}
                    {money_and_day(&answer, &sheet)}
                </dl>
                {agreed_table(answer.word, &sheet)}
                {acknowledged}
                <Cautions cautions tick=None />
                <p class="receipt-seal">
                    "Seal " <b><code>{digest.short()}</code></b> <br />
                    "in full: " <code>{digest.to_string()}</code>
                </p>
                <p>
                    "The seal is worked out (SHA-256) from every word, price, day and picture of the offer that you were shown. As long as our copy gives the same seal, nothing in it was changed."
                </p>
            </article>
            <section class="paper-act">
                {take_back}
                <PrintButton />
                <p><a href=offer_path>"The offer as you were shown it"</a></p>
                <p><a href=paths::ticket(&key)>"Back to your ticket"</a></p>
            </section>
        </Portal>
    }
}

fn take_back_until(state: OfferState, answer: &Answer) -> Option<Moment> {
    match state {
        OfferState::Answered {
            at,
            take_back_until,
            ..
        } if answer.taken_back_at.is_none() && at == answer.at => take_back_until,
        OfferState::Answered { .. }
        | OfferState::Open { .. }
        | OfferState::Superseded
        | OfferState::Withdrawn
        | OfferState::Lapsed { .. } => None,
    }
}

fn money_and_day(answer: &Answer, sheet: &Sheet) -> impl IntoView + use<> {
    let word = answer.word;
    let scope = sheet.scope_after(word);
    let day = sheet.ready_after(word, answer.at);
    let ready = view! { <b><Day day /></b> {format!(" {}", day.year())} };
    let step = match word {
        Word::Accept(key) => sheet
            .choice(key)
            .map(|choice| price_step(choice, &sheet.agreed)),
        Word::Decline => None,
    };
    let step = step.map(|step| format!(" ({step} than agreed before)"));
    let step = step.map(|step| step.replace("same price than", "the same price as"));
    view! {
        <div>
            <dt>"Price together"</dt>
            <dd><b>{scope.total().to_string()}</b> {step}</dd>
        </div>
        <div>
            <dt>"Ready"</dt>
            <dd>{ready}</dd>
        </div>
    }
}

fn agreed_table(word: Word, sheet: &Sheet) -> impl IntoView + use<> {
    let scope = sheet.scope_after(word).clone();
    let before = matches!(word, Word::Accept(_)).then(|| sheet.agreed.clone());
    let caption = format!("{}: the whole list", begun(sheet.pair.as_str()));
    view! { <PriceTable scope caption before /> }
}

fn via_words(via: &Via) -> String {
    match via {
        Via::Link { .. } => "on your page, by your link".to_owned(),
        Via::Told {
            given: Given::AtTheCounter,
            said_by,
        } => format!("at the counter, told by {said_by}"),
        Via::Told {
            given: Given::ByTelephone,
            said_by,
        } => format!("by telephone, told by {said_by}"),
    }
}

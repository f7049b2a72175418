//! Where the customer's word stands, and what the shop can do about it: write down a word that was
//! told, withdraw the offer, or compose one.

use leptos::prelude::*;
use shared_types::form::offer::ToldField;
use shared_types::form::{Fields, FormErrors};
use shared_types::moment::{Moment, Zone, day_words};
use shared_types::paths;
use shared_types::scope::offer::{OfferState, Revision, Via, Word};
use shared_types::scope::sheet::{Given, Offer, Sheet};
use shared_types::ticket::Pair;

use super::PairView;
use crate::elements::field::{Choice, TextArea, TextField, Tick};
use crate::elements::later_days::AnswerDays;
use crate::elements::offer_sheet::{decline_words, price_step, word_words};
use crate::elements::prose::Prose;
use crate::elements::when::When;

/// The section about the last offer and the next.
#[component]
pub fn OfferBlock(
    /// The page's props.
    props: PairView,
    /// The pair.
    pair: Pair,
) -> impl IntoView {
    let PairView {
        desk,
        customer,
        told,
        told_errors,
        has_draft,
        ..
    } = props;
    let zone = desk.shop.calendar.zone.clone();
    let last = pair.last_offer(desk.now);
    let ring = customer.phone.as_ref().map_or_else(
        || format!("Ring {}; no number is known", customer.name),
        |phone| format!("Ring {}, {phone}", customer.name),
    );
    let standing = last.map(|(revision, state)| {
        view! { <Standing revision=revision.clone() state at=(zone, desk.now) ring /> }
    });
    let open = pair.open_offer(desk.now).cloned();
    let is_open = open.is_some();
    let forms = open.map(|revision| {
        view! { <OpenOffer now=desk.now pair=pair.clone() revision told told_errors /> }
    });
    let draft = has_draft.then(|| {
        view! {
            <p>"An offer is prepared and not sent yet."</p>
            <a class="act" href=paths::preview(pair.id)>"Look at it and send it"</a>
        }
    });
    let compose = match (has_draft, is_open) {
        (true, _) => "Compose it again",
        (false, true) => "Compose another in its place",
        (false, false) => "Offer added scope",
    };
    view! {
        <section>
            <h2>"The customer’s word"</h2>
            {standing}
            {forms}
            {draft}
            <p>
                <a class="act" data-act="plain" href=paths::compose(pair.id)>{compose}</a>
            </p>
        </section>
    }
}

#[component]
fn Standing(
    revision: Revision,
    state: OfferState,
    at: (Zone, Moment),
    ring: String,
) -> impl IntoView {
    let (zone, now) = at;
    let sent = view! {
        <p>"Asked " <When at=revision.sheet.made_at zone=zone.clone() /> "."</p>
    };
    match state {
        OfferState::Open { answer_by } => view! {
            {sent}
            <p>
                "It waits for the customer’s word until "
                <b><When at=answer_by zone=zone.clone() /></b>
                "."
            </p>
            {what_waiting_does(&revision.sheet, (now, &zone))}
        }
        .into_any(),
        OfferState::Answered { word, at, take_back_until } => {
            let until = take_back_until.map(|until| {
                view! {
                    " It can be taken back until " <When at=until zone=zone.clone() />
                    ", unless the bench starts before."
                }
            });
            let via = revision.standing().map(|answer| via_words(&answer.via));
            view! {
                <p>
                    <b dir="auto">{word_words(word, &revision.sheet)}</b> ", "
                    <When at zone=zone.clone() /> ", " {via} "." {until}
                </p>
            }
            .into_any()
        }
        OfferState::Lapsed { answer_by } => view! {
            {sent}
            <p>
                "Nobody answered by " <When at=answer_by zone />
                {format!(", so it no longer stands. {ring}, then offer it anew or go on as agreed.")}
            </p>
        }
        .into_any(),
        OfferState::Withdrawn => {
            let why = revision.withdrawn.and_then(|(_, why)| why);
            view! {
                <p>"We withdrew the last offer."</p>
                {why.map(|words| view! { <Prose words /> })}
            }
            .into_any()
        }
        OfferState::Superseded => view! { <p>"A later revision took its place."</p> }.into_any(),
    }
}

/// The day of each choice by the time of the answer, where waiting moves it.
fn what_waiting_does(sheet: &Sheet, (now, zone): (Moment, &Zone)) -> Option<impl IntoView + use<>> {
    let offer = sheet.offer()?;
    let yes = offer
        .choices
        .iter()
        .map(|choice| (format!("Yes to {}", choice.key), choice.days_ahead(now)));
    let no = ("No".to_owned(), offer.days_ahead_if_declined(now));
    let moving = yes.chain([no]).filter(|(_, days)| days.len() > 1);
    let moving: Vec<_> = moving
        .map(|(answer, days)| {
            view! {
                <h3>{answer}</h3>
                <AnswerDays days=days.to_vec() zone=zone.clone() />
            }
        })
        .collect();
    (!moving.is_empty()).then(|| {
        view! {
            <details class="fold">
                <summary>"What waiting does to the day"</summary>
                {moving}
            </details>
        }
    })
}

fn via_words(via: &Via) -> String {
    match via {
        Via::Link { .. } => "by their link".to_owned(),
        Via::Told { given, said_by } => format!("{}: {said_by}", given.label()),
    }
}

#[component]
fn OpenOffer(
    pair: Pair,
    revision: Revision,
    now: Moment,
    told: Fields,
    told_errors: FormErrors<ToldField>,
) -> impl IntoView {
    let offer = revision.sheet.offer()?.clone();
    let is_wrong = !told_errors.is_empty();
    Some(view! {
        <details class="fold" open=is_wrong>
            <summary>"Write down a word that was told to you"</summary>
            <ToldWord pair=pair.clone() revision offer now told errors=told_errors />
        </details>
        <details class="fold">
            <summary>"Withdraw the offer"</summary>
            <form class="form-rows" method="post" action=paths::withdraw(pair.id)>
                <TextArea
                    label="Why"
                    name="reason"
                    hint="The customer reads it; leave it empty if there is nothing to say."
                    rows=2
                />
                <button class="act" data-act="plain">"Withdraw the offer"</button>
            </form>
        </details>
    })
}

#[component]
fn ToldWord(
    pair: Pair,
    revision: Revision,
    offer: Offer,
    now: Moment,
    told: Fields,
    errors: FormErrors<ToldField>,
) -> impl IntoView {
    let first = errors.iter().next().map(|(field, _)| *field);
    let one = |field: ToldField| told.one(field.name()).to_owned();
    let agreed = &revision.sheet.agreed;
    let yes = offer.choices.iter().map(|choice| {
        let step = price_step(choice, agreed);
        let day = day_words(choice.ready_if_answered(now));
        let words = format!(
            "Yes to {} “{}”: {step}, ready {day}",
            choice.key, choice.title
        );
        (Word::Accept(choice.key).code().to_owned(), words)
    });
    let no = decline_words(&revision.sheet, now);
    let words: Vec<_> = yes.chain([(Word::Decline.code().to_owned(), no)]).collect();
    let given = Given::ALL.into_iter().map(|given| {
        (
            given.code().to_owned(),
            crate::elements::pair_words::begun(given.label()),
        )
    });
    let given: Vec<_> = given.collect();
    let cautions = offer.cautions.clone();
    let caution = (!cautions.is_empty()).then(|| {
        let cautions = cautions.into_iter().map(|words| view! { <Prose words /> });
        view! {
            <div class="caution" role="group" aria-label="Read this out before a yes">
                <p><b>"Read this out before a yes"</b></p>
                {cautions.collect_view()}
                <Tick
                    label="I have read it out"
                    name=ToldField::CautionTold.name()
                    checked=told.has(ToldField::CautionTold.name(), "yes")
                    error=errors.at(&ToldField::CautionTold)
                    focus=first == Some(ToldField::CautionTold)
                />
            </div>
        }
    });
    view! {
        <form class="form-rows" method="post" action=paths::told_word(pair.id)>
            <input type="hidden" name=ToldField::Sheet.name() value=revision.digest.to_string() />
            <input type="hidden" name=ToldField::Turn.name() value=revision.turn().to_string() />
            <Choice
                label="What they said"
                name=ToldField::Word.name()
                options=words
                selected=one(ToldField::Word)
                error=errors.at(&ToldField::Word)
                required=true
                focus=first == Some(ToldField::Word)
            />
            {caution}
            <Choice
                label="Where they said it"
                name=ToldField::Given.name()
                options=given
                selected=one(ToldField::Given)
                error=errors.at(&ToldField::Given)
                required=true
                focus=first == Some(ToldField::Given)
            />
            <TextField
                label="Who said it"
                name=ToldField::SaidBy.name()
                value=one(ToldField::SaidBy)
                error=errors.at(&ToldField::SaidBy)
                hint="Their name, and the number that you rang."
                complete="off"
                required=true
                focus=first == Some(ToldField::SaidBy)
            />
            <button class="act">"Record their word"</button>
        </form>
    }
}

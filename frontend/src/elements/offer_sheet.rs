//! The body of an offer, made from its sheet alone: what was found, the agreed price now, and the
//! choices as facing leaves. The customer's page and the back office's preview show the same.

use leptos::prelude::*;
use shared_types::moment::{Moment, Zone, day_words};
use shared_types::money::Money;
use shared_types::promise::answers::AnswerDay;
use shared_types::promise::chance::Chance;
use shared_types::scope::Scope;
use shared_types::scope::difference::difference;
use shared_types::scope::offer::{OfferState, Revision, Word};
use shared_types::scope::sheet::{Choice, Offer, Sheet};
use time::Date;

use crate::elements::caution::Cautions;
use crate::elements::later_days::LaterDays;
use crate::elements::pair_words::begun;
use crate::elements::pictures::{Photos, Pictures};
use crate::elements::price_table::PriceTable;
use crate::elements::prose::Prose;
use crate::elements::when::{Day, When};

/// What the buttons of an offer do.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Press {
    /// They give a word: a form that is posted to this path.
    Live(String),
    /// They look the same and do nothing, for a preview.
    Inert,
}

/// The body of an offer as three sections. The buttons are there only while it is open.
#[component]
pub fn OfferSheet(
    /// The offer with its sheet, digest and turn.
    revision: Revision,
    /// Where it stands.
    state: OfferState,
    /// When it is read: a day that hangs on an early answer is the later one after that.
    now: Moment,
    /// The shop's zone.
    zone: Zone,
    /// Where its pictures come from.
    photos: Photos,
    /// What its buttons do.
    press: Press,
) -> impl IntoView {
    let turn = revision.turn();
    let seal = revision.digest.short();
    let sheet = revision.sheet;
    let offer = sheet.offer().cloned()?;
    let agreed = sheet.agreed.clone();
    let agreed_day = if agreed.ready_by >= zone.day(sheet.made_at) {
        view! { "ready " <Day day=agreed.ready_by /> }.into_any()
    } else {
        view! { "for " <Day day=agreed.ready_by /> ", a day that we have not kept" }.into_any()
    };
    let agreed_heading = if is_open(state) {
        "Agreed so far"
    } else {
        "Agreed before"
    };
    let taken_back = is_open(state).then(|| take_back_words(&offer));
    Some(view! {
        <section>
            <h2>"What we found"</h2>
            <Prose words=offer.found.clone() />
            <Pictures pictures=offer.pictures.clone() photos />
        </section>
        <section>
            <h2>{agreed_heading}</h2>
            <p><b>{agreed.total().to_string()}</b> " together, " {agreed_day} "."</p>
            <details class="fold">
                <summary>"What that is for"</summary>
                <PriceTable scope=agreed caption=agreed_caption(&sheet) />
            </details>
        </section>
        <section class="offer-choices">
            <h2>{choices_heading(&offer, state)}</h2>
            {by_when(&offer, (state, sheet.chance), &zone)}
            {leaves(&sheet, (now, &zone), state, press, turn)}
            {taken_back.map(|words| view! { <p>{words}</p> })}
            <p class="offer-seal">
                "Seal of this offer: " <code>{seal}</code>
                ". It stands for every word, price, day and picture shown here."
            </p>
        </section>
    })
}

/// `$84.00 more`, `$12.00 less` or `same price`.
pub fn price_step(choice: &Choice, agreed: &Scope) -> String {
    match choice.difference(agreed) {
        Ok(step) if step.is_positive() => format!("{step} more"),
        Ok(step) if step.is_zero() => "same price".to_owned(),
        Ok(step) => match Money::zero(step.currency()).minus(step) {
            Ok(less) => format!("{less} less"),
            Err(_) => format!("{} together", choice.scope.total()),
        },
        Err(_) => format!("{} together", choice.scope.total()),
    }
}

/// Whether a no can't simply go on with what was agreed.
fn agreed_fails(sheet: &Sheet) -> bool {
    sheet.offer().is_some_and(|offer| offer.agreed_fails)
}

/// A word in words: `Yes to “Leather welt”`, or `No, go on as agreed`.
pub fn word_words(word: Word, sheet: &Sheet) -> String {
    match word {
        Word::Accept(key) => match sheet.choice(key) {
            Some(choice) => format!("Yes to “{}”", choice.title),
            None => format!("Yes to choice {key}"),
        },
        Word::Decline if agreed_fails(sheet) => "No to what was offered".to_owned(),
        Word::Decline => "No, go on as agreed".to_owned(),
    }
}

fn agreed_caption(sheet: &Sheet) -> String {
    format!(
        "{}, as agreed before this offer",
        begun(sheet.pair.as_str())
    )
}

fn choices_heading(offer: &Offer, state: OfferState) -> &'static str {
    match (is_open(state), offer.choices.len()) {
        (true, _) => "Your word",
        (false, 1) => "What we offered",
        (false, _) => "What you could choose",
    }
}

fn by_when(
    offer: &Offer,
    (state, chance): (OfferState, Option<Chance>),
    zone: &Zone,
) -> Option<impl IntoView + use<>> {
    let OfferState::Open { answer_by } = state else {
        return None;
    };
    let mut choices = offer.choices.iter();
    let what_holds = if choices.any(|choice| choice.days.len() > 1) {
        ", and these prices hold; where a day hangs on an earlier answer, it says so."
    } else {
        ", and these prices and days hold."
    };
    Some(view! {
        <p>
            "Answer by " <When at=answer_by zone=zone.clone() />
            {what_holds} {chance.map(how_sure)} " If we hear nothing we decide nothing: the pair waits, and we ring you about a new day."
        </p>
    })
}

fn take_back_words(offer: &Offer) -> String {
    if offer.take_back.get() == 0 {
        return "Your answer stands at once; it can't be taken back on this page.".to_owned();
    }
    format!(
        "Changed your mind? You can take your answer back for {}, as long as the bench has not started.",
        offer.take_back
    )
}

/// The leaves; around them the form, if a word can be given.
fn leaves(
    sheet: &Sheet,
    (now, zone): (Moment, &Zone),
    state: OfferState,
    press: Press,
    turn: u32,
) -> Option<AnyView> {
    let offer = sheet.offer()?;
    let buttons = if is_open(state) {
        Some(press == Press::Inert)
    } else {
        None
    };
    let given = match state {
        OfferState::Answered { word, .. } => Some(word),
        OfferState::Open { .. }
        | OfferState::Superseded
        | OfferState::Withdrawn
        | OfferState::Lapsed { .. } => None,
    };
    let choices: Vec<_> = offer
        .choices
        .iter()
        .map(|choice| {
            let chosen = given == Some(Word::Accept(choice.key));
            choice_leaf(choice, sheet, (now, zone), chosen, buttons)
        })
        .collect();
    let words = decline_words(sheet, now);
    let declined = given == Some(Word::Decline);
    let decline = decline_leaf(offer, words, (now, zone), declined, buttons);
    let leaves = view! {
        <div class="leaves" data-choices=offer.choices.len().to_string()>{choices}{decline}</div>
    };
    let cautions = offer.cautions.clone();
    Some(match (buttons, press) {
        (Some(_), Press::Live(action)) => view! {
            <form class="offer-form" method="post" action=action>
                {no_word_by_enter()}
                <input type="hidden" name="turn" value=turn.to_string() />
                <input type="hidden" name="read-at" value=now.to_string() />
                <Cautions cautions tick=Some(false) />
                {leaves}
            </form>
        }
        .into_any(),
        (Some(_), Press::Inert) => view! {
            <div class="offer-form"><Cautions cautions tick=Some(true) />{leaves}</div>
        }
        .into_any(),
        (None, _) => view! {
            <div class="offer-form"><Cautions cautions tick=None />{leaves}</div>
        }
        .into_any(),
    })
}

/// A form's first button answers the Enter key; being disabled it lets Enter give no word
/// (HTML, implicit submission).
fn no_word_by_enter() -> impl IntoView {
    view! { <button type="submit" disabled hidden></button> }
}

fn choice_leaf(
    choice: &Choice,
    sheet: &Sheet,
    (now, zone): (Moment, &Zone),
    chosen: bool,
    buttons: Option<bool>,
) -> impl IntoView + use<> {
    let agreed = &sheet.agreed;
    let of = sheet.offer().map_or(1, |offer| offer.choices.len());
    let mark = match (of, chosen) {
        (1, false) => "What we propose".to_owned(),
        (_, false) => format!("Choice {}", choice.key),
        (1, true) => "Your choice".to_owned(),
        (_, true) => format!("Choice {}, your choice", choice.key),
    };
    let heading = format!("choice-{}", choice.key.code());
    let step = price_step(choice, agreed);
    let ready = choice.ready_if_answered(now);
    let hurry = day_to_keep(choice.days_ahead(now), zone);
    let later = view! { <LaterDays days=choice.days_ahead(now).to_vec() zone=zone.clone() /> };
    let caption = format!("{}, as it would be agreed", choice.title);
    let scope = choice.scope.clone();
    let act = buttons.map(|inert| {
        let day = day_words(ready);
        view! {
            <p class="leaf-act">
                <button
                    class="act"
                    type="submit"
                    name="word"
                    value=choice.key.code()
                    disabled=inert
                    aria-describedby=heading.clone()
                >
                    {format!("Yes, do it: {step}, ready {day}")}
                </button>
            </p>
        }
    });
    view! {
        <article class="leaf" data-chosen=chosen.then_some("")>
            <p class="leaf-mark">{mark}</p>
            <h3 id=heading.clone() dir="auto">{choice.title.to_string()}</h3>
            {choice.words.clone().map(|words| view! { <Prose words /> })}
            {changes(agreed, &choice.scope)}
            {facts(begun(&step), &choice.scope, ready)}
            {hurry.map(|words| view! { <p class="leaf-hurry">{words}</p> })}
            {later}
            <details class="fold">
                <summary>"The whole list and its price"</summary>
                <PriceTable scope caption before=Some(agreed.clone()) />
            </details>
            {act}
        </article>
    }
}

/// Until when an answer keeps the day, where that is sooner than the offer can be answered.
fn day_to_keep(days: &[AnswerDay], zone: &Zone) -> Option<String> {
    let [day, next, ..] = days else {
        return None;
    };
    Some(format!(
        "Answer by {} to keep this day; after that it is {}.",
        zone.words(day.answered_by),
        day_words(next.ready_by)
    ))
}

/// How sure days are, as the shop plans them.
fn how_sure(chance: Chance) -> String {
    let kept = chance.in_words();
    format!(" We plan such days so that we keep {kept}.")
}

fn decline_leaf(
    offer: &Offer,
    words: String,
    (now, zone): (Moment, &Zone),
    chosen: bool,
    buttons: Option<bool>,
) -> impl IntoView + use<> {
    let days = offer.days_ahead_if_declined(now);
    let keep = day_to_keep(days, zone);
    let later = view! { <LaterDays days=days.to_vec() zone=zone.clone() /> };
    let act = buttons.map(|inert| {
        view! {
            <p class="leaf-act">
                <button
                    class="act"
                    data-act="decline"
                    type="submit"
                    name="word"
                    value=Word::Decline.code()
                    formnovalidate
                    disabled=inert
                    aria-describedby="choice-none"
                >
                    {words}
                </button>
            </p>
        }
    });
    let fails = offer.agreed_fails.then(|| {
        view! {
            <p>
                "What was agreed can’t be done soundly on your pair as we found it. After a no nothing is cut or sewn, and nothing is charged beyond what was agreed, until we have talked."
            </p>
        }
    });
    let mark = if chosen { "Your answer" } else { "Or" };
    view! {
        <article class="leaf" data-choice="none" data-chosen=chosen.then_some("")>
            <p class="leaf-mark">{mark}</p>
            <h3 id="choice-none">"None of this"</h3>
            <Prose words=offer.if_declined.clone() />
            {fails}
            {keep.map(|words| view! { <p class="leaf-hurry">{words}</p> })}
            {later}
            {act}
        </article>
    }
}

/// What a no is: it goes on as agreed at that price by that day, or, where the agreed work can't be
/// done, nothing more than a no.
pub fn decline_words(sheet: &Sheet, now: Moment) -> String {
    if agreed_fails(sheet) {
        return "No to all of this; talk with me first".to_owned();
    }
    let (total, day) = (sheet.agreed.total(), sheet.ready_after(Word::Decline, now));
    format!("No, go on as agreed: {total}, ready {}", day_words(day))
}

/// What comes and what goes with a choice, line by line.
fn changes(agreed: &Scope, later: &Scope) -> Option<impl IntoView + use<>> {
    let changes = difference(agreed, later);
    let added = changes.added.iter().map(|line| line.title.to_string());
    let changed = changes
        .changed
        .iter()
        .map(|(_, line)| format!("{}, changed", line.title));
    let gone = changes
        .removed
        .iter()
        .map(|line| format!("Without: {}", line.title));
    let lines: Vec<_> = added
        .chain(changed)
        .chain(gone)
        .map(|words| view! { <li dir="auto">{words}</li> })
        .collect();
    (!lines.is_empty()).then(|| view! { <ul class="leaf-lines">{lines}</ul> })
}

fn facts(step: String, scope: &Scope, ready: Date) -> impl IntoView + use<> {
    view! {
        <dl class="leaf-facts">
            <div><dt>"Against what is agreed"</dt><dd>{step}</dd></div>
            <div><dt>"Together"</dt><dd>{scope.total().to_string()}</dd></div>
            <div><dt>"Ready"</dt><dd><Day day=ready /></dd></div>
        </dl>
    }
}

const fn is_open(state: OfferState) -> bool {
    matches!(state, OfferState::Open { .. })
}

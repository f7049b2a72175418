//! Every revision of a pair's scope: what changed, who, when, and what the customer said.

use leptos::prelude::*;
use shared_types::id::PairId;
use shared_types::moment::Zone;
use shared_types::paths;
use shared_types::scope::Scope;
use shared_types::scope::difference::difference;
use shared_types::scope::offer::{Answer, OfferState, Revision, Via};
use shared_types::scope::sheet::{Choice, Matter};
use shared_types::ticket::{Pair, Ticket};

use super::Names;
use crate::document::{BackRoom, Desk, Room};
use crate::elements::offer_sheet::{price_step, word_words};
use crate::elements::pair_words::{begun, tag_words};
use crate::elements::price_table::PriceTable;
use crate::elements::prose::Prose;
use crate::elements::when::{Day, WhenKept};
use crate::elements::who::who;

/// Props of the page.
#[derive(Clone, Debug)]
pub struct Revisions {
    /// Who works on it.
    pub desk: Desk,
    /// The ticket.
    pub ticket: Ticket,
    /// Which of its pairs.
    pub pair: PairId,
    /// Who is who.
    pub names: Names,
}

/// Every revision of a pair's scope: what changed, who, when, and what the customer said.
#[component]
pub fn RevisionsPage(props: Revisions) -> impl IntoView {
    let Revisions {
        desk,
        ticket,
        pair,
        names,
    } = props;
    let pair = ticket.pair(pair)?.clone();
    let called = tag_words(ticket.number, pair.tag);
    let entries = (0..pair.revisions.len()).rev().map(|place| {
        let desk = desk.clone();
        view! { <Entry pair=pair.clone() place names=names.clone() desk /> }
    });
    let entries = entries.collect_view().into_any();
    Some(view! {
        <BackRoom desk title=format!("Revisions of {called}") here=Room::Elsewhere>
            <div class="page-head">
                <h1>{format!("Revisions of {called}")}</h1>
                <p dir="auto">{begun(&pair.about.title())}</p>
            </div>
            <p>
                "Newest first. Each is kept as it was shown; its seal stands for every word,
                price, day and picture in it."
            </p>
            <ol class="chain">{entries}</ol>
            <p><a href=paths::pair(pair.id)>"Back to the pair"</a></p>
        </BackRoom>
    })
}

#[component]
fn Entry(pair: Pair, place: usize, names: Names, desk: Desk) -> impl IntoView {
    let revision = pair.revisions.get(place)?.clone();
    let zone = desk.shop.calendar.zone.clone();
    let state = pair.offer_state(&revision, desk.now);
    let is_agreed = state.is_none() || revision.accepted().is_some();
    let made_by = who(revision.made_by, &names);
    let (seal, whole) = (revision.digest.short(), revision.digest.to_string());
    let scope = revision.sheet.agreed.clone();
    let number = revision.sheet.revision;
    let made_at = revision.sheet.made_at;
    let caption = format!("Agreed with revision {number}");
    let body = match state {
        None => {
            let before = agreed_before(&pair, place).cloned();
            view! { <Agreement revision made_by before /> }.into_any()
        }
        Some(state) => {
            view! { <Offered revision state made_by names zone=zone.clone() /> }.into_any()
        }
    };
    Some(view! {
        <li data-state=is_agreed.then_some("agreed")>
            <p class="chain-head">
                <b>{format!("Revision {number}")}</b> " " <WhenKept at=made_at zone />
            </p>
            {body}
            <details class="fold">
                <summary>"The agreed work, and the whole seal"</summary>
                <PriceTable scope caption />
                <p class="chain-seal"><code>{whole}</code></p>
            </details>
            <p class="chain-seal">"Seal " <code>{seal}</code></p>
        </li>
    })
}

/// The scope that stood before the revision at this place.
fn agreed_before(pair: &Pair, place: usize) -> Option<&Scope> {
    let earlier = pair.revisions.get(..place)?.iter().rev();
    let mut agreed = earlier.filter_map(|revision| match &revision.sheet.matter {
        Matter::Agreement(_) => Some(&revision.sheet.agreed),
        Matter::Offer(_) => revision.accepted().map(|choice| &choice.scope),
    });
    agreed.next()
}

#[component]
fn Agreement(revision: Revision, made_by: String, before: Option<Scope>) -> impl IntoView {
    let sheet = revision.sheet;
    let Matter::Agreement(agreement) = sheet.matter else {
        return None;
    };
    let how = format!(
        "Agreed {}, written down by {made_by}.",
        agreement.given.label()
    );
    let changes = before.map(|before| view! { <Changes before after=sheet.agreed.clone() /> });
    let told = (!agreement.cautions.is_empty()).then(|| {
        view! { <p>"The customer was told of the caution about the safety mark."</p> }
    });
    Some(view! {
        <p>{how}</p>
        {agreement.words.map(|words| view! { <Prose words /> })}
        {told}
        {changes}
        <Sum scope=sheet.agreed />
    })
}

#[component]
fn Offered(
    revision: Revision,
    state: OfferState,
    made_by: String,
    names: Names,
    zone: Zone,
) -> impl IntoView {
    let offer = revision.sheet.offer()?.clone();
    let agreed = revision.sheet.agreed.clone();
    let has_cautions = !offer.cautions.is_empty();
    let choices = offer.choices.into_iter().map(|choice| {
        view! { <Offering choice agreed=agreed.clone() /> }
    });
    let choices = choices.collect_view();
    let answers = revision.answers.iter().map(|answer| {
        let said = word_words(answer.word, &revision.sheet);
        let how = how(answer, has_cautions, &names);
        let at = answer.at;
        let back = answer.taken_back_at.map(|at| {
            view! { " Taken back " <WhenKept at zone=zone.clone() /> "." }
        });
        view! {
            <p>
                <b dir="auto">{said}</b> ", " <WhenKept at zone=zone.clone() /> {how} {back}
            </p>
        }
    });
    let answers = answers.collect_view();
    let withdrawn = revision.withdrawn.clone().map(|(at, why)| {
        view! {
            <p>"Withdrawn " <WhenKept at zone=zone.clone() /> "."</p>
            {why.map(|words| view! { <Prose words /> })}
        }
    });
    let stands = match state {
        OfferState::Open { answer_by } => {
            view! { <p>"It waits for the customer’s word until " <WhenKept at=answer_by zone /> "."</p> }
                .into_any()
        }
        OfferState::Lapsed { answer_by } => {
            view! { <p>"Nobody answered by " <WhenKept at=answer_by zone /> "."</p> }.into_any()
        }
        OfferState::Superseded => {
            view! { <p>"A later revision took its place before it was answered."</p> }.into_any()
        }
        OfferState::Answered { .. } | OfferState::Withdrawn => ().into_any(),
    };
    Some(view! {
        <p>{format!("Added scope, offered by {made_by}.")}</p>
        <Prose words=offer.found />
        {choices}
        {answers}
        {withdrawn}
        {stands}
    })
}

fn how(answer: &Answer, has_cautions: bool, names: &Names) -> String {
    let told = if has_cautions && answer.acknowledged {
        ", the caution acknowledged"
    } else {
        ""
    };
    match &answer.via {
        Via::Link { .. } => format!(", by their link{told}."),
        Via::Told { given, said_by } => format!(
            ", {}: {said_by}. Written down by {}{told}.",
            given.label(),
            who(answer.actor, names)
        ),
    }
}

#[component]
fn Offering(choice: Choice, agreed: Scope) -> impl IntoView {
    let step = price_step(&choice, &agreed);
    view! {
        <details class="fold">
            <summary>
                <span>
                    {format!("Choice {}: ", choice.key)}
                    <span dir="auto">{choice.title.to_string()}</span>
                    {format!(", {step}, ready ")} <Day day=choice.scope.ready_by />
                </span>
            </summary>
            <Changes before=agreed after=choice.scope />
        </details>
    }
}

#[component]
fn Changes(before: Scope, after: Scope) -> impl IntoView {
    let changes = difference(&before, &after);
    let rows = changes
        .added
        .iter()
        .map(|line| ("added", "Added: ", line.title.to_string()))
        .chain(
            changes
                .removed
                .iter()
                .map(|line| ("gone", "No longer done: ", line.title.to_string())),
        )
        .chain(
            changes
                .changed
                .iter()
                .map(|(_, line)| ("changed", "Changed: ", line.title.to_string())),
        );
    let rows: Vec<_> = rows
        .map(|(code, says, title)| {
            view! { <li data-change=code>{says}<span dir="auto">{title}</span></li> }
        })
        .collect();
    if rows.is_empty() {
        view! { <p>"The work stayed the same."</p> }.into_any()
    } else {
        view! { <ul class="chain-changes">{rows}</ul> }.into_any()
    }
}

#[component]
fn Sum(scope: Scope) -> impl IntoView {
    view! {
        <p>{format!("{} together, ready ", scope.total())} <Day day=scope.ready_by /> "."</p>
    }
}

#[cfg(all(test, feature = "ssr"))]
mod tests {
    use shared_types::scope::offer::Word;
    use shared_types::scope::sheet::ChoiceKey;
    use shared_types::staff::Role;

    use super::super::said::said;
    use super::*;
    use crate::fixture::{BOOTS, STAFF, december, desk, line, split_welt};

    #[test]
    fn each_revision_says_what_changed_who_said_what_and_its_seal() {
        let mut record = split_welt();
        record.word(BOOTS, december(8, 15, 5), Word::Accept(ChoiceKey::A));
        let ticket = record.ticket();
        let seals: Vec<String> = ticket.pairs[0]
            .revisions
            .iter()
            .map(|revision| revision.digest.to_string())
            .collect();
        let props = Revisions {
            desk: desk(Role::Bench),
            ticket,
            pair: BOOTS,
            names: [(STAFF, line("Ines"))].into(),
        };
        let html = said(&crate::render::page(|| view! { <RevisionsPage props /> }));
        let newer = html.find("Revision 2").expect("a revision");
        let older = html.find("Revision 1").expect("a revision");
        assert!(newer < older, "{html}");
        for seal in seals {
            assert!(html.contains(&seal), "{seal}");
        }
        assert!(html.contains("Agreed at the counter, written down by Ines."));
        assert!(html.contains("Added: Leather welt, sewn by hand"));
        assert!(
            html.contains("Yes to “Leather welt and leather heel base”"),
            "{html}"
        );
        assert!(html.contains("by their link."), "{html}");
    }
}

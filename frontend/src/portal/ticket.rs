//! The customer's page: where the pairs are, what is needed, what happened, what was agreed.

use leptos::prelude::*;
use shared_types::key::PortalKey;
use shared_types::moment::{Moment, Zone, day_words};
use shared_types::paths;
use shared_types::shop::Shop;
use shared_types::stage::Stage;
use shared_types::ticket::{Pair, Ticket};

use crate::document::{Flash, Portal};
use crate::elements::bill::Bill;
use crate::elements::journal::Journal;
use crate::elements::needs::Needs;
use crate::elements::offer_sheet::word_words;
use crate::elements::pair_words::begun;
use crate::elements::pictures::Photos;
use crate::elements::price_table::PriceTable;
use crate::elements::question::{QuestionForm, Unasked};
use crate::elements::stage_line::{StageLine, StageWelt, standing_words};
use crate::elements::when::{Day, When};

/// Props of the page.
#[derive(Clone, Debug)]
pub struct TicketView {
    /// The shop.
    pub shop: Shop,
    /// The link that opened it.
    pub key: PortalKey,
    /// The ticket, without what is for the shop only.
    pub ticket: Ticket,
    /// Now.
    pub now: Moment,
    /// What just happened, or why something did not.
    pub flash: Option<Flash>,
    /// A question that could not be taken.
    pub question: Option<Unasked>,
}

/// The customer's page: where the pairs are, what is needed, what happened, what was agreed.
#[component]
pub fn TicketPage(props: TicketView) -> impl IntoView {
    let TicketView {
        shop,
        key,
        ticket,
        now,
        flash,
        question,
    } = props;
    let zone = shop.calendar.zone.clone();
    let several = ticket.pairs.len() > 1;
    let heading = match ticket.pairs.as_slice() {
        [only] => begun(&only.about.title()),
        pairs => format!("Your {} pairs", count_words(pairs.len())),
    };
    let pairs: Vec<_> = ticket
        .pairs
        .iter()
        .map(|pair| pair_sections(pair, several, &key, &zone, now))
        .collect();
    let names = ticket
        .pairs
        .iter()
        .map(|pair| (pair.id, begun(&pair.about.title())));
    let names = names.collect();
    view! {
        <Portal shop=shop.clone() title=format!("Ticket {}", ticket.number) flash>
            <div class="letter-head">
                <p class="claim">
                    "Ticket " <b>{ticket.number.to_string()}</b> ", taken in "
                    <When at=ticket.taken_in_at zone=zone.clone() />
                </p>
                <h1 dir="auto">{heading}</h1>
            </div>
            <Needs ticket=ticket.clone() key=key.clone() zone=zone.clone() now />
            {pairs}
            <section>
                <h2>"Paid and due"</h2>
                <Bill ticket=ticket.clone() zone=zone.clone() cash=shop.prices.cash />
                {receipt_link(&ticket, &key)}
            </section>
            {pickup(&ticket, &shop, &key, now)}
            <section>
                <h2>"Anything else"</h2>
                <QuestionForm key pairs=names again=question />
            </section>
        </Portal>
    }
}

fn count_words(count: usize) -> String {
    let words = ["two", "three", "four", "five", "six"];
    let word = count.checked_sub(2).and_then(|place| words.get(place));
    word.map_or_else(|| count.to_string(), |word| (*word).to_owned())
}

/// Where a pair is, what happened to it, and what was agreed.
fn pair_sections(
    pair: &Pair,
    several: bool,
    key: &PortalKey,
    zone: &Zone,
    now: Moment,
) -> impl IntoView + use<> {
    let title = begun(&pair.about.title());
    let of = if several {
        format!(", pair {}", pair.tag)
    } else {
        String::new()
    };
    let name = several.then(|| {
        view! {
            <p class="claim">"Pair " <b>{pair.tag.to_string()}</b></p>
            <h2 dir="auto">{title.clone()}</h2>
        }
    });
    let label = if several {
        title.clone()
    } else {
        "Where your pair is".to_owned()
    };
    let journal = (!pair.notes.is_empty()).then(|| {
        let photos = Photos::Portal(key.clone());
        view! {
            <section>
                <h2>{format!("What happened{of}")}</h2>
                <Journal notes=pair.notes.clone() zone=zone.clone() photos />
            </section>
        }
    });
    view! {
        <section class="where" aria-label=label>
            <StageWelt pair=pair.clone() now />
            <div class="where-words">
                {name}
                <p class="where-now">{standing_words(pair, now)}</p>
                <StageLine pair=pair.clone() now />
                {day_line(pair, zone, now)}
            </div>
        </section>
        {journal}
        <section>
            <h2>{format!("Agreed{of}")}</h2>
            <PriceTable scope=pair.agreed().clone() caption=title />
            {words_given(pair, key, zone)}
        </section>
    }
}

/// The day that was promised and how it stands; a day that was not kept is owned up to.
fn day_line(pair: &Pair, zone: &Zone, now: Moment) -> impl IntoView + use<> {
    let promise = pair.promise();
    let zone = zone.clone();
    if let Some((at, _)) = pair.handed_over {
        return view! { <p class="where-day">"Handed over " <When at zone /> "."</p> }.into_any();
    }
    if let (Stage::Ready, Some(at)) = (pair.stage, pair.ready_at) {
        return view! { <p class="where-day">"Ready since " <When at zone /> "."</p> }.into_any();
    }
    let rest = if promise < zone.day(now) {
        ": we gave you that day and have not kept it. Ring us, or ask below, and we tell you how far it is."
    } else if pair.open_offer(now).is_some() {
        ", as agreed so far. Your answer may change the day."
    } else {
        "."
    };
    view! { <p class="where-day">"Ready " <Day day=promise /> {rest}</p> }.into_any()
}

/// The customer's words on this pair, each with its receipt.
fn words_given(pair: &Pair, key: &PortalKey, zone: &Zone) -> Option<impl IntoView + use<>> {
    let words: Vec<_> = pair
        .revisions
        .iter()
        .rev()
        .filter_map(|revision| {
            let answer = revision.answers.last()?;
            let words = word_words(answer.word, &revision.sheet);
            let at = answer.at;
            let back = answer.taken_back_at.map(|_| ", taken back");
            let (label, path) = (
                format!("Receipt of your word of {}", zone.words(at)),
                paths::word(key, revision.digest),
            );
            Some(view! {
                <li>
                    <When at zone=zone.clone() /> ": " <span dir="auto">{words}</span> {back} ". "
                    <a href=path>{label}</a>
                </li>
            })
        })
        .collect();
    (!words.is_empty()).then(|| {
        view! {
            <p>"What you said:"</p>
            <ul class="words-given">{words}</ul>
        }
    })
}

fn receipt_link(ticket: &Ticket, key: &PortalKey) -> Option<impl IntoView + use<>> {
    let has_one =
        !ticket.payments.is_empty() || ticket.pairs.iter().any(|pair| pair.handed_over.is_some());
    has_one.then(|| view! { <p><a href=paths::receipt(key)>"Receipt to print"</a></p> })
}

/// How to collect, as long as something waits on the shelf.
fn pickup(
    ticket: &Ticket,
    shop: &Shop,
    key: &PortalKey,
    now: Moment,
) -> Option<impl IntoView + use<>> {
    ticket.ready_pairs().next()?;
    let hours = shop.calendar.week_words();
    let open = hours.iter().filter(|words| !words.ends_with(" closed"));
    let open = open.map(String::as_str).collect::<Vec<_>>().join(", ");
    let today = shop.calendar.zone.day(now);
    let closed: Vec<String> = shop
        .calendar
        .closed
        .range(today..)
        .take(6)
        .map(|day| day_words(*day))
        .collect();
    let closed = (!closed.is_empty())
        .then(|| view! { <p>{format!("Closed besides: {}.", closed.join(", "))}</p> });
    let bring = format!(
        "Bring your paper ticket or show this page; your claim number is {}.",
        ticket.number
    );
    Some(view! {
        <section>
            <h2>"Pickup"</h2>
            <p>{bring}</p>
            <p>{format!("We are open {open}.")}</p>
            {closed}
            <p><a href=paths::pickup(key)>"Calendar entry for the pickup"</a></p>
        </section>
    })
}

//! Today's sentences: who needs whom, and the one thing to do about it.

use leptos::prelude::*;
use shared_types::brief::{PairBrief, PairWord};
use shared_types::letter::LetterBrief;
use shared_types::paths;
use shared_types::staff::Permission;
use shared_types::stage::Stage;

use super::glance::Evening;
use crate::back_office::plan::words::{called, risk_words, waiting_words};
use crate::document::Desk;
use crate::elements::letter_words::letter_words;
use crate::elements::pair_words::fresh_words;
use crate::elements::when::{Day, When};

/// One sentence: whom it is about, what it says, and what to do about it.
pub(super) struct Sentence {
    pub(super) about: String,
    pub(super) about_path: String,
    pub(super) says: AnyView,
    pub(super) action: Action,
}

/// What to do about it.
pub(super) enum Action {
    Open { words: &'static str, path: String },
    Post { words: &'static str, path: String },
}

/// What needs whom, the most pressing first. A pair may be in several.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Group {
    Given,
    Asked,
    Lapsed,
    Promised,
    AtRisk,
    Waiting,
    Ready,
}

impl Group {
    pub(super) const ALL: [Self; 7] = [
        Self::Given,
        Self::Asked,
        Self::Lapsed,
        Self::Promised,
        Self::AtRisk,
        Self::Waiting,
        Self::Ready,
    ];

    pub(super) const fn heading(self) -> &'static str {
        match self {
            Self::Given => "The customer has answered; the bench can go on",
            Self::Asked => "Questions to reply to",
            Self::Lapsed => "Nobody answered: ring them",
            Self::Promised => "Promised for today or earlier",
            Self::AtRisk => "Promises at risk",
            Self::Waiting => "Waiting for the customer’s word",
            Self::Ready => "Ready on the pickup shelf",
        }
    }

    /// The id of its section.
    pub(super) const fn id(self) -> &'static str {
        match self {
            Self::Given => "answered",
            Self::Asked => "asked",
            Self::Lapsed => "lapsed",
            Self::Promised => "promised",
            Self::AtRisk => "at-risk",
            Self::Waiting => "unanswered",
            Self::Ready => "uncollected",
        }
    }

    pub(super) fn sentence(self, pair: &PairBrief, evening: &Evening<'_>) -> Option<Sentence> {
        let desk = evening.desk;
        let (says, action) = match self {
            Self::Given => given(pair, desk)?,
            Self::Asked => asked(pair, desk)?,
            Self::Lapsed => lapsed(pair, desk)?,
            Self::Promised => promised(pair, evening)?,
            Self::AtRisk => at_risk(pair, evening)?,
            Self::Waiting => waiting(pair, evening)?,
            Self::Ready => ready(pair, desk)?,
        };
        Some(Sentence {
            about: called(pair),
            about_path: paths::pair(pair.pair),
            says,
            action,
        })
    }
}

type Told = (AnyView, Action);

fn given(pair: &PairBrief, desk: &Desk) -> Option<Told> {
    let PairWord::Given { at, .. } = pair.word else {
        return None;
    };
    let said = lowered(&fresh_words(&pair.word)?);
    let zone = desk.shop.calendar.zone.clone();
    let path = paths::start_work(pair.pair);
    let words = "Start on it";
    let action = if desk.staff.role.may(Permission::WorkOnPairs) {
        Action::Post { words, path }
    } else {
        open_pair("Look at it", pair)
    };
    let says = view! { ": " <span dir="auto">{said}</span> " Since " <When at zone /> "." };
    Some((says.into_any(), action))
}

fn asked(pair: &PairBrief, desk: &Desk) -> Option<Told> {
    let (at, words) = pair.question.clone()?;
    let zone = desk.shop.calendar.zone.clone();
    let says = view! { ": the customer asked on " <When at zone /> ": " <q dir="auto">{words}</q> };
    Some((says.into_any(), open_pair("Reply", pair)))
}

fn lapsed(pair: &PairBrief, desk: &Desk) -> Option<Told> {
    let PairWord::Asked { answer_by, .. } = pair.word else {
        return None;
    };
    let zone = desk.shop.calendar.zone.clone();
    let says = view! {
        ": nobody answered by " <When at=answer_by zone />
        ", so the offer no longer stands. Ring them, then offer it anew or go on as agreed."
    };
    let action = open_ticket("Find their number", pair);
    pair.has_lapsed(desk.now).then(|| (says.into_any(), action))
}

fn promised(pair: &PairBrief, evening: &Evening<'_>) -> Option<Told> {
    let desk = evening.desk;
    if !evening.is_due(pair) {
        return None;
    }
    let today = desk.shop.calendar.zone.day(desk.now);
    let stage = pair.stage.label().to_lowercase();
    let outlook = evening.outlook(pair);
    let says = match (today - pair.promise).whole_days() {
        0 => {
            view! { {format!(" is promised for today. Stage: {stage}.")} " " {outlook} }.into_any()
        }
        days => view! {
            " was promised for " <Day day=pair.promise />
            {format!(", {}. Stage: {stage}. Tell the customer if you have not.", ago(days))}
            " " {outlook}
        }
        .into_any(),
    };
    Some((says, open_pair("Open the pair", pair)))
}

fn at_risk(pair: &PairBrief, evening: &Evening<'_>) -> Option<Told> {
    let days = evening.at_risk(pair)?;
    let words = "Tell the customer";
    let path = format!("{}#words", paths::pair(pair.pair));
    let says = risk_words(days, evening.desk);
    Some((says, Action::Open { words, path }))
}

fn waiting(pair: &PairBrief, evening: &Evening<'_>) -> Option<Told> {
    let PairWord::Asked { sent_at, answer_by } = pair.word else {
        return None;
    };
    let desk = evening.desk;
    let zone = desk.shop.calendar.zone.clone();
    let days = evening.days.get(&pair.pair);
    let further = days.map(|days| waiting_words(&days.waits, desk));
    let says = view! {
        ": we asked on " <When at=sent_at zone=zone.clone() /> "; the offer stands until "
        <When at=answer_by zone /> ". " {further}
    };
    let action = open_pair("See the offer", pair);
    pair.waits_for_word(desk.now)
        .then(|| (says.into_any(), action))
}

fn ready(pair: &PairBrief, desk: &Desk) -> Option<Told> {
    let since = pair.ready_at.filter(|_| pair.stage == Stage::Ready)?;
    let zone = &desk.shop.calendar.zone;
    let days = (zone.day(desk.now) - zone.day(since)).whole_days();
    let days = match days {
        0 => String::new(),
        days => format!(", {}", ago(days)),
    };
    let says = view! {
        " has been ready since " <Day day=zone.day(since) />
        {format!("{days}.{}", reminded(pair, desk))}
    };
    let words = if desk.staff.role.may(Permission::TakeMoney) {
        "Hand it over"
    } else {
        "Open the ticket"
    };
    Some((says.into_any(), open_ticket(words, pair)))
}

fn reminded(pair: &PairBrief, desk: &Desk) -> String {
    let planned = desk.shop.terms.reminder_days.len();
    let sent = usize::try_from(pair.reminders).unwrap_or(usize::MAX);
    let count = match sent {
        1 => "1 reminder".to_owned(),
        sent => format!("{sent} reminders"),
    };
    match sent {
        0 => String::new(),
        sent if sent >= planned => format!(
            " {count} sent, the last one too. Before anything else ask what local law requires: \
             this program never tells you that you may sell or dispose of a pair."
        ),
        _ => format!(" {count} sent of {planned}."),
    }
}

pub(super) fn about_letter(letter: &LetterBrief, desk: &Desk) -> Sentence {
    let state = letter_words(&letter.state, &desk.shop.calendar.zone);
    Sentence {
        about: format!("Ticket {}", letter.number),
        about_path: paths::shop_ticket(letter.ticket),
        says: format!(": “{}” to {}. {state}", letter.subject, letter.to).into_any(),
        action: Action::Open {
            words: "Open the letter",
            path: paths::letter(letter.id),
        },
    }
}

fn open_pair(words: &'static str, pair: &PairBrief) -> Action {
    let path = paths::pair(pair.pair);
    Action::Open { words, path }
}

fn open_ticket(words: &'static str, pair: &PairBrief) -> Action {
    let path = paths::shop_ticket(pair.ticket);
    Action::Open { words, path }
}

fn ago(days: i64) -> String {
    match days {
        1 => "1 day ago".to_owned(),
        days => format!("{days} days ago"),
    }
}

fn lowered(sentence: &str) -> String {
    let mut letters = sentence.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_lowercase().chain(letters).collect()
    })
}

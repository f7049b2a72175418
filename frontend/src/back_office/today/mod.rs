//! Today: sentences, each with its one action.

pub mod glance;
#[cfg(all(test, feature = "ssr"))]
mod tests;

use leptos::prelude::*;
use shared_types::brief::{PairBrief, PairWord};
use shared_types::letter::LetterBrief;
use shared_types::moment::day_words;
use shared_types::paths;
use shared_types::promise::workshop::Misfit;
use shared_types::staff::Permission;
use shared_types::stage::Stage;

use crate::back_office::plan::Days;
use crate::back_office::plan::words::{Misfitting, called, risk_words, waiting_words};
use crate::document::{BackRoom, Desk, Room};
use crate::elements::letter_words::letter_words;
use crate::elements::pair_words::fresh_words;
use crate::elements::when::{Day, When};
use glance::{Evening, Glance, GlanceLine};

/// How many promises at risk it names, the most urgent first; the plan has them all.
const AT_RISK_SHOWN: usize = 4;

/// Props of the page.
#[derive(Clone, Debug)]
pub struct Today {
    /// Who works on it.
    pub desk: Desk,
    /// All pairs that are not with their owners, in order of work first.
    pub pairs: Vec<PairBrief>,
    /// The open pairs with their days, or why there are none.
    pub days: Result<Days, Misfit>,
    /// Letters that were given up or have trouble.
    pub troubled_letters: Vec<LetterBrief>,
}

/// Today: sentences, each with its one action.
#[component]
pub fn TodayPage(props: Today) -> impl IntoView {
    let Today {
        desk,
        pairs,
        days,
        troubled_letters,
    } = props;
    let (days, misfit) = match days {
        Ok(days) => (days, None),
        Err(misfit) => (Days::default(), Some(misfit)),
    };
    let by_pair = days.pairs.iter().map(|pair| (pair.brief.pair, pair));
    let evening = Evening {
        desk: &desk,
        days: by_pair.collect(),
    };
    let mut groups: Vec<(&'static str, Option<Group>, Vec<Sentence>)> = Group::ALL
        .into_iter()
        .map(|group| {
            let sentences = pairs
                .iter()
                .filter_map(|pair| group.sentence(pair, &evening));
            (group.heading(), Some(group), sentences.collect())
        })
        .collect();
    if desk.staff.role.may(Permission::SeeLetters) {
        let letters = troubled_letters
            .iter()
            .map(|letter| about_letter(letter, &desk));
        groups.push(("Letters that did not get through", None, letters.collect()));
    }
    let glance = Glance::of(&pairs, &evening);
    groups.retain(|(_, _, sentences)| !sentences.is_empty());
    let is_quiet = groups.is_empty();
    let groups = groups
        .into_iter()
        .map(|(heading, group, sentences)| {
            let id = group.map(Group::id);
            let most = match group {
                Some(Group::AtRisk) => AT_RISK_SHOWN,
                _ => usize::MAX,
            };
            view! { <Sentences heading id most sentences /> }
        })
        .collect_view();
    let may_set = desk.staff.role.may(Permission::RunTheShop);
    let misfit = misfit.map(|misfit| view! { <Misfitting misfit may_set /> });
    let day = day_words(desk.shop.calendar.zone.day(desk.now));
    let quiet = is_quiet.then(|| {
        view! {
            <div class="empty">
                <p><b>"Nothing needs you just now."</b></p>
                <p>
                    "Answers, questions, promises and pickups come up here by themselves. The "
                    <a href=paths::bench()>"bench"</a> " has its own list."
                </p>
            </div>
        }
    });
    view! {
        <BackRoom desk title="Today".to_owned() here=Room::Today>
            <div class="page-head">
                <h1>"Today"</h1>
                <p>{day}</p>
            </div>
            <GlanceLine glance />
            {misfit}
            {quiet}
            {groups}
        </BackRoom>
    }
}

/// One sentence: whom it is about, what it says, and what to do about it.
struct Sentence {
    about: String,
    about_path: String,
    says: AnyView,
    action: Action,
}

enum Action {
    Open { words: &'static str, path: String },
    Post { words: &'static str, path: String },
}

#[component]
fn Sentences(
    heading: &'static str,
    id: Option<&'static str>,
    most: usize,
    sentences: Vec<Sentence>,
) -> impl IntoView {
    let more = sentences.len().saturating_sub(most);
    let more = (more > 0).then(|| {
        let words = format!("{more} more on the plan");
        view! { <p><a href=paths::plan()>{words}</a></p> }
    });
    let sentences = sentences.into_iter().take(most).map(|sentence| {
        let Sentence {
            about,
            about_path,
            says,
            action,
        } = sentence;
        let label = |words: &str| format!("{words}: {about}");
        let action = match action {
            Action::Open { words, path } => {
                let label = label(words);
                view! { <a class="act" data-act="plain" href=path aria-label=label>{words}</a> }
                    .into_any()
            }
            Action::Post { words, path } => {
                let label = label(words);
                view! {
                    <form method="post" action=path>
                        <button class="act" aria-label=label>{words}</button>
                    </form>
                }
                .into_any()
            }
        };
        view! { <li><p><a href=about_path>{about}</a> {says}</p> {action}</li> }
    });
    let sentences = sentences.collect_view();
    view! {
        <section id=id>
            <h2>{heading}</h2>
            <ul class="sentence-list">{sentences}</ul>
            {more}
        </section>
    }
}

/// What needs whom, the most pressing first. A pair may be in several.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Group {
    Given,
    Asked,
    Lapsed,
    Promised,
    AtRisk,
    Waiting,
    Ready,
}

impl Group {
    const ALL: [Self; 7] = [
        Self::Given,
        Self::Asked,
        Self::Lapsed,
        Self::Promised,
        Self::AtRisk,
        Self::Waiting,
        Self::Ready,
    ];

    const fn heading(self) -> &'static str {
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
    const fn id(self) -> &'static str {
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

    fn sentence(self, pair: &PairBrief, evening: &Evening<'_>) -> Option<Sentence> {
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

fn about_letter(letter: &LetterBrief, desk: &Desk) -> Sentence {
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

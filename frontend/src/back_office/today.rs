//! Today: sentences, each with its one action.

use leptos::prelude::*;
use shared_types::brief::{PairBrief, PairWord};
use shared_types::letter::LetterBrief;
use shared_types::moment::day_words;
use shared_types::paths;
use shared_types::staff::Permission;
use shared_types::stage::Stage;

use crate::document::{BackRoom, Desk, Room};
use crate::elements::letter_words::letter_words;
use crate::elements::pair_words::{called_out, fresh_words};
use crate::elements::when::{Day, When};

/// Props of the page.
#[derive(Clone, Debug)]
pub struct Today {
    /// Who works on it.
    pub desk: Desk,
    /// All pairs that are not with their owners, in order of work first.
    pub pairs: Vec<PairBrief>,
    /// Letters that were given up or have trouble.
    pub troubled_letters: Vec<LetterBrief>,
}

/// Today: sentences, each with its one action.
#[component]
pub fn TodayPage(props: Today) -> impl IntoView {
    let Today {
        desk,
        pairs,
        troubled_letters,
    } = props;
    let mut groups: Vec<(&'static str, Vec<Sentence>)> = Group::ALL
        .into_iter()
        .map(|group| {
            let sentences = pairs.iter().filter_map(|pair| group.sentence(pair, &desk));
            (group.heading(), sentences.collect())
        })
        .collect();
    if desk.staff.role.may(Permission::SeeLetters) {
        let letters = troubled_letters
            .iter()
            .map(|letter| about_letter(letter, &desk));
        groups.push(("Letters that did not get through", letters.collect()));
    }
    groups.retain(|(_, sentences)| !sentences.is_empty());
    let is_quiet = groups.is_empty();
    let groups = groups
        .into_iter()
        .map(|(heading, sentences)| view! { <Sentences heading sentences /> })
        .collect_view();
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
fn Sentences(heading: &'static str, sentences: Vec<Sentence>) -> impl IntoView {
    let sentences = sentences.into_iter().map(|sentence| {
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
        <section>
            <h2>{heading}</h2>
            <ul class="sentence-list">{sentences}</ul>
        </section>
    }
}

/// What needs whom, the most pressing first. A pair may be in several.
#[derive(Clone, Copy)]
enum Group {
    Given,
    Asked,
    Lapsed,
    Promised,
    Waiting,
    Ready,
}

impl Group {
    const ALL: [Self; 6] = [
        Self::Given,
        Self::Asked,
        Self::Lapsed,
        Self::Promised,
        Self::Waiting,
        Self::Ready,
    ];

    const fn heading(self) -> &'static str {
        match self {
            Self::Given => "The customer has answered; the bench can go on",
            Self::Asked => "Questions to reply to",
            Self::Lapsed => "Nobody answered: ring them",
            Self::Promised => "Promised for today or earlier",
            Self::Waiting => "Waiting for the customer’s word",
            Self::Ready => "Ready on the pickup shelf",
        }
    }

    fn sentence(self, pair: &PairBrief, desk: &Desk) -> Option<Sentence> {
        let (says, action) = match self {
            Self::Given => given(pair, desk)?,
            Self::Asked => asked(pair, desk)?,
            Self::Lapsed => lapsed(pair, desk)?,
            Self::Promised => promised(pair, desk)?,
            Self::Waiting => waiting(pair, desk)?,
            Self::Ready => ready(pair, desk)?,
        };
        Some(Sentence {
            about: format!("Ticket {}", called_out(pair)),
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

fn promised(pair: &PairBrief, desk: &Desk) -> Option<Told> {
    let today = desk.shop.calendar.zone.day(desk.now);
    if !pair.stage.is_open() || pair.promise > today {
        return None;
    }
    let stage = pair.stage.label().to_lowercase();
    let says = match (today - pair.promise).whole_days() {
        0 => format!(" is promised for today. Stage: {stage}.").into_any(),
        days => view! {
            " was promised for " <Day day=pair.promise />
            {format!(", {}. Stage: {stage}. Tell the customer if you have not.", ago(days))}
        }
        .into_any(),
    };
    Some((says, open_pair("Open the pair", pair)))
}

fn waiting(pair: &PairBrief, desk: &Desk) -> Option<Told> {
    let PairWord::Asked { sent_at, answer_by } = pair.word else {
        return None;
    };
    let zone = desk.shop.calendar.zone.clone();
    let says = view! {
        ": we asked on " <When at=sent_at zone=zone.clone() /> "; the offer stands until "
        <When at=answer_by zone /> "."
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

#[cfg(all(test, feature = "ssr"))]
mod tests {
    use shared_types::moment::Moment;
    use shared_types::scope::offer::Word;
    use shared_types::scope::sheet::ChoiceKey;
    use shared_types::staff::Role;
    use shared_types::ticket::Ticket;

    use super::super::said::said;
    use super::*;
    use crate::fixture::{BOOTS, Record, WILD_ESCAPED, december, desk, split_welt};

    fn rendered(role: Role, now: Moment, pairs: Vec<PairBrief>) -> String {
        let mut desk = desk(role);
        desk.now = now;
        let props = Today {
            desk,
            pairs,
            troubled_letters: Vec::new(),
        };
        said(&crate::render::page(|| view! { <TodayPage props /> }))
    }

    fn briefs(ticket: &Ticket) -> Vec<PairBrief> {
        let pairs = ticket.pairs.iter();
        pairs.map(|pair| PairBrief::of(ticket, pair)).collect()
    }

    fn answered() -> Record {
        let mut record = split_welt();
        record.word(BOOTS, december(8, 18, 20), Word::Accept(ChoiceKey::A));
        record
    }

    #[test]
    fn a_word_that_was_given_is_one_tap_from_work() {
        let pairs = briefs(&answered().ticket());
        let html = rendered(Role::Bench, december(9, 9, 0), pairs.clone());
        let yes = ": the customer said yes to “Leather welt and leather heel base”.";
        assert!(html.contains(yes), "{html}");
        assert!(html.contains(&format!("action=\"{}\"", paths::start_work(BOOTS))));
        let html = rendered(Role::Counter, december(9, 9, 0), pairs);
        assert!(!html.contains(&paths::start_work(BOOTS)), "{html}");
    }

    #[test]
    fn an_open_offer_waits_and_a_lapsed_one_asks_to_ring() {
        let pairs = briefs(&split_welt().ticket());
        let html = rendered(Role::Counter, december(9, 9, 0), pairs.clone());
        assert!(
            html.contains("the offer stands until Thu 10 Dec, 17:30."),
            "{html}"
        );
        assert!(!html.contains("ring them"));
        let html = rendered(Role::Counter, december(11, 9, 0), pairs);
        assert!(html.contains("Nobody answered: ring them"), "{html}");
        assert!(!html.contains("the offer stands until"));
    }

    #[test]
    fn a_question_is_shown_as_it_was_asked() {
        let html = rendered(
            Role::Counter,
            december(8, 16, 0),
            briefs(&split_welt().ticket()),
        );
        assert!(html.contains(WILD_ESCAPED), "{html}");
        assert!(!html.contains("<script>alert"));
    }

    #[test]
    fn a_promise_that_has_passed_is_said_with_its_days() {
        let mut pairs = briefs(&answered().ticket());
        pairs[0].word = PairWord::Nothing;
        let late = pairs[0].promise + time::Duration::days(3);
        let late = desk(Role::Bench).shop.calendar.zone.moment(late.midnight());
        let html = rendered(Role::Bench, late, pairs);
        assert!(html.contains("3 days ago. Stage: teardown."), "{html}");
    }

    #[test]
    fn after_the_last_reminder_the_program_asks_for_the_law_and_decides_nothing() {
        let mut pairs = briefs(&answered().ticket());
        pairs[0].stage = Stage::Ready;
        pairs[0].ready_at = Some(december(11, 16, 0));
        pairs[0].reminders = 1;
        let html = rendered(Role::Counter, december(20, 9, 0), pairs.clone());
        assert!(html.contains("1 reminder sent of 3."), "{html}");
        pairs[0].reminders = 3;
        let html = rendered(Role::Counter, december(30, 9, 0), pairs);
        assert!(html.contains("ask what local law requires"), "{html}");
        assert!(html.contains("19 days ago"));
    }

    #[test]
    fn a_quiet_day_is_said_kindly() {
        let html = rendered(Role::Owner, december(8, 9, 0), Vec::new());
        assert!(html.contains("Nothing needs you just now."), "{html}");
    }

    #[test]
    fn each_kind_of_need_has_its_own_group() {
        let mut pairs = briefs(&split_welt().ticket());
        let mut more = briefs(&answered().ticket());
        more[0].question = None;
        let mut shelf = more[0].clone();
        shelf.stage = Stage::Ready;
        shelf.word = PairWord::Nothing;
        shelf.ready_at = Some(december(2, 16, 0));
        shelf.reminders = 3;
        more[0].promise = time::Date::from_ordinal_date(2026, 340).expect("a day");
        pairs.append(&mut more);
        pairs.push(shelf);
        let html = rendered(Role::Owner, december(9, 9, 0), pairs);
        assert_eq!(html.matches("<h2").count(), 5, "{html}");
    }
}

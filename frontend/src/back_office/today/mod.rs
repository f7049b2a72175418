//! Today: sentences, each with its one action.

pub mod glance;
mod sentences;
#[cfg(all(test, feature = "ssr"))]
mod tests;

use leptos::prelude::*;
use shared_types::brief::PairBrief;
use shared_types::letter::LetterBrief;
use shared_types::moment::day_words;
use shared_types::paths;
use shared_types::promise::workshop::Misfit;
use shared_types::staff::Permission;

use crate::back_office::plan::Days;
use crate::back_office::plan::words::Misfitting;
use crate::document::{BackRoom, Desk, Room};
use glance::{Evening, Glance, GlanceLine};
use sentences::{Action, Group, Sentence, about_letter};

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

//! Moving a pair on: its stage, what holds it, and the start on work that was just agreed.

use leptos::prelude::*;
use shared_types::moment::Moment;
use shared_types::paths;
use shared_types::scope::offer::Word;
use shared_types::staff::Permission;
use shared_types::stage::{Hold, Stage};
use shared_types::ticket::Pair;

use crate::document::Desk;
use crate::elements::offer_sheet::word_words;
use crate::elements::pair_words::{at_the_bench, begun};
use crate::elements::when::When;

/// A word that waits to be acted on, with the button that starts; nothing if there is none.
#[component]
pub fn FreshWord(
    /// Whose word.
    pair: Pair,
    /// Who works on it.
    desk: Desk,
) -> impl IntoView {
    let (revision, answer) = pair.fresh_word()?;
    let said = word_words(answer.word, &revision.sheet);
    let heading = match answer.word {
        Word::Accept(_) => "The customer said yes",
        Word::Decline => "The customer said no",
    };
    let zone = desk.shop.calendar.zone.clone();
    let at = answer.at;
    let may_start = desk.staff.role.may(Permission::WorkOnPairs) && pair.handed_over.is_none();
    let start = may_start.then(|| {
        view! {
            <form method="post" action=paths::start_work(pair.id)>
                <button class="thumb" data-act="next">
                    "Start on what is agreed"
                    <small>"From then on the word can’t be taken back on the page."</small>
                </button>
            </form>
        }
    });
    Some(view! {
        <section class="notice-card" aria-labelledby="fresh-word">
            <h2 id="fresh-word">{heading}</h2>
            <p><span dir="auto">{said}</span> ", " <When at zone /> "."</p>
            {start}
        </section>
    })
}

/// The buttons that move the pair: the next stage large, the others folded away.
#[component]
pub fn Moves(
    /// Which pair.
    pair: Pair,
    /// Now.
    now: Moment,
) -> impl IntoView {
    let waits = pair.open_offer(now).is_some().then(|| {
        view! { <p>"An offer waits for the customer’s word. What was agreed before may go on."</p> }
    });
    let next = next_stage(pair.stage).map(|to| view! { <StageButton to next=true /> });
    let others = Stage::ALL
        .into_iter()
        .filter(|to| pair.stage.may_move_to(*to) && Some(*to) != next_stage(pair.stage));
    let others = others
        .map(|to| view! { <StageButton to next=false /> })
        .collect_view();
    view! {
        <section>
            <h2>"Move it on"</h2>
            {waits}
            <form method="post" action=paths::move_stage(pair.id)>{next}</form>
            {pair.stage.is_open().then(|| view! { <Holds pair=pair.clone() /> })}
            <details class="fold">
                <summary>"Another stage, or back"</summary>
                <form class="thumbs" method="post" action=paths::move_stage(pair.id)>{others}</form>
            </details>
        </section>
    }
}

fn next_stage(stage: Stage) -> Option<Stage> {
    let mut later = Stage::ALL.into_iter().filter(|to| *to > stage);
    later.next().filter(|to| stage.may_move_to(*to))
}

#[component]
fn StageButton(to: Stage, next: bool) -> impl IntoView {
    let words = match (to, next) {
        (Stage::Ready, _) => "Ready for pickup".to_owned(),
        (to, true) => format!("On to {}", to.label().to_lowercase()),
        (to, false) => format!("To {}", to.label().to_lowercase()),
    };
    let small = if to == Stage::Ready {
        "We write to the customer that it is ready.".to_owned()
    } else {
        format!("{}.", begun(at_the_bench(to)))
    };
    view! {
        <button class="thumb" data-act=next.then_some("next") name="to" value=to.code()>
            {words}
            <small>{small}</small>
        </button>
    }
}

#[component]
fn Holds(pair: Pair) -> impl IntoView {
    let places = Hold::ALL
        .into_iter()
        .filter(|hold| Some(*hold) != pair.hold);
    let places = places
        .map(|hold| {
            view! {
                <button class="thumb" name="hold" value=hold.code()>{hold.label()}</button>
            }
        })
        .collect_view();
    let lift = pair.hold.map(|hold| {
        let small = format!("Ends “{}”.", hold.label());
        view! {
            <button class="thumb" name="hold" value="">"It can go on" <small>{small}</small></button>
        }
    });
    view! {
        <form
            class="thumbs"
            method="post"
            action=paths::set_hold(pair.id)
            aria-label="What holds the pair"
        >
            {lift}
            {places}
        </form>
    }
}

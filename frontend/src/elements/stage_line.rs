//! Where a pair stands, for its owner: the drawing of its welt, the stages as a line, a sentence.

use leptos::prelude::*;
use shared_types::moment::Moment;
use shared_types::stage::{Hold, Stage};
use shared_types::ticket::Pair;

use crate::elements::pair_words::progress_of_pair;
use crate::elements::welt::welt_svg;

/// One sentence about where a pair stands.
pub fn standing_words(pair: &Pair, now: Moment) -> &'static str {
    match pair.hold {
        _ if waits(pair, now) => "We found something. We need your word before we go on.",
        Some(hold) => hold.for_customer(),
        None => pair.stage.for_customer(),
    }
}

/// The drawing, with the sentence as the text that stands for it.
#[component]
pub fn StageWelt(
    /// The pair.
    pair: Pair,
    /// Now.
    now: Moment,
) -> impl IntoView {
    let svg = welt_svg(&progress_of_pair(&pair, now), standing_words(&pair, now));
    view! { <div class="where-drawing" inner_html=svg></div> }
}

/// The stages of the work in their order, each with its state in words.
#[component]
pub fn StageLine(
    /// The pair.
    pair: Pair,
    /// Now.
    now: Moment,
) -> impl IntoView {
    let runs: Vec<_> = Stage::RUNS
        .into_iter()
        .map(|run| {
            let (state, words) = run_words(run, &pair, now);
            let current = (run == pair.stage).then_some("step");
            let done = (state == Some("done"))
                .then(|| view! { <span class="visually-hidden">", done"</span> });
            let small = words.map(|words| view! { " " <small>{words}</small> });
            view! {
                <li data-state=state aria-current=current>{run.label()}{done}{small}</li>
            }
        })
        .collect();
    view! { <ol class="stage-line" aria-label="Stages of the work">{runs}</ol> }
}

/// The state of one stage of the line, and what stands small beside it.
fn run_words(run: Stage, pair: &Pair, now: Moment) -> (Option<&'static str>, Option<&'static str>) {
    if run < pair.stage {
        return (Some("done"), None);
    }
    if run > pair.stage {
        return (None, None);
    }
    match pair.hold {
        _ if waits(pair, now) => (Some("waiting"), Some("waits for your word")),
        Some(Hold::Drying) => (Some("resting"), Some("rests and dries")),
        Some(Hold::Material) => (Some("resting"), Some("waits for material")),
        None => (Some("now"), Some("on the bench")),
    }
}

fn waits(pair: &Pair, now: Moment) -> bool {
    pair.stage.is_open() && pair.open_offer(now).is_some()
}

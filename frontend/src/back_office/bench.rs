//! The bench: a list to work down.

use leptos::prelude::*;
use shared_types::brief::PairBrief;
use shared_types::minutes::Minutes;
use shared_types::paths;
use shared_types::ticket::Rating;

use crate::document::{BackRoom, Desk, Room};
use crate::elements::pair_words::{
    at_the_bench, begun, fresh_words, held_words, progress_of_brief, tag_words, unbroken,
};
use crate::elements::welt::welt_svg;
use crate::elements::when::Day;

/// Props of the page.
#[derive(Clone, Debug)]
pub struct Bench {
    /// Who works on it.
    pub desk: Desk,
    /// The open pairs in order of work.
    pub pairs: Vec<PairBrief>,
}

/// The bench: a list to work down.
#[component]
pub fn BenchPage(props: Bench) -> impl IntoView {
    let Bench { desk, pairs } = props;
    let minutes: Minutes = pairs.iter().map(|pair| pair.minutes).sum();
    let count = match pairs.len() {
        1 => "1 pair".to_owned(),
        count => format!("{count} pairs"),
    };
    let list = if pairs.is_empty() {
        view! {
            <div class="empty">
                <p><b>"The bench is clear."</b></p>
                <p>"New pairs appear here when the counter takes them in."</p>
            </div>
        }
        .into_any()
    } else {
        let rows = pairs.into_iter().map(|pair| {
            view! { <QueuePair desk=desk.clone() pair /> }
        });
        view! { <ol class="queue">{rows.collect_view()}</ol> }.into_any()
    };
    view! {
        <BackRoom desk title="Bench".to_owned() here=Room::Bench>
            <div class="page-head">
                <h1>"Bench"</h1>
                <p>{format!("{count}, {minutes} of agreed work. Work down from the top.")}</p>
            </div>
            {list}
        </BackRoom>
    }
}

#[component]
fn QueuePair(desk: Desk, pair: PairBrief) -> impl IntoView {
    let zone = &desk.shop.calendar.zone;
    let stage = format!("{}: {}", pair.stage.label(), at_the_bench(pair.stage));
    let drawing = welt_svg(&progress_of_brief(&pair, desk.now), &stage);
    let word = fresh_words(&pair.word).map(|words| {
        view! { <span class="queue-word">{words}</span> }
    });
    let held = held_words(&pair, desk.now, zone).map(|words| {
        view! { <span class="queue-hold">{words}</span> }
    });
    let asked = pair.question.is_some().then(|| {
        view! { <span class="queue-hold">"The customer has asked something"</span> }
    });
    let caution = (pair.rating == Rating::Protective).then(|| {
        view! { <span class="queue-caution">"Safety mark: repair can end it"</span> }
    });
    let tag = tag_words(pair.number, pair.tag);
    let agreed = unbroken(&pair.minutes.to_string());
    let small = view! {
        <small>
            {tag} ", promised for " <Day day=pair.promise />
            {format!("{}, {agreed} agreed", due_words(&pair, &desk))}
        </small>
    };
    view! {
        <li>
            <a class="queue-pair" href=paths::pair(pair.pair)>
                <span class="welt-frame" data-size="queue" inner_html=drawing></span>
                <span class="queue-words">
                    <b>{begun(&pair.title)}</b>
                    {word}
                    <span>{stage}</span>
                    {held}
                    {asked}
                    {caution}
                    {small}
                </span>
            </a>
        </li>
    }
}

fn due_words(pair: &PairBrief, desk: &Desk) -> &'static str {
    let today = desk.shop.calendar.zone.day(desk.now);
    match (pair.promise - today).whole_days() {
        ..0 => ", which has passed",
        0 => ", today",
        1 => ", tomorrow",
        _ => "",
    }
}

#[cfg(all(test, feature = "ssr"))]
mod tests {
    use shared_types::scope::offer::Word;
    use shared_types::scope::sheet::ChoiceKey;
    use shared_types::staff::Role;
    use shared_types::stage::{Hold, Stage};

    use super::*;
    use crate::fixture::{BOOTS, SAFETY, december, desk, split_welt, two_pairs};

    fn rendered(pairs: Vec<PairBrief>) -> String {
        let props = Bench {
            desk: desk(Role::Bench),
            pairs,
        };
        crate::render::page(|| view! { <BenchPage props /> })
    }

    #[test]
    fn the_queue_says_what_each_pair_needs_next() {
        let mut answered = split_welt();
        answered.word(BOOTS, december(8, 14, 50), Word::Accept(ChoiceKey::A));
        let answered = answered.ticket();
        let waiting = two_pairs().ticket();
        let mut drying = PairBrief::of(&waiting, &waiting.pairs[0]);
        drying.word = shared_types::brief::PairWord::Nothing;
        drying.stage = Stage::Finishing;
        drying.hold = Some(Hold::Drying);
        let html = rendered(vec![
            PairBrief::of(&answered, &answered.pairs[0]),
            drying,
            PairBrief::of(&waiting, &waiting.pairs[1]),
        ]);
        assert!(
            html.contains("The customer said yes to “Leather welt"),
            "{html}"
        );
        assert!(html.contains("Waits for the customer’s word, until Thu 10 Dec, 17:30"));
        assert!(html.contains("Rests and dries"));
        assert!(html.contains("Safety mark"));
        assert!(html.contains(&paths::pair(SAFETY)));
        assert!(html.contains("3 pairs, "));
    }

    #[test]
    fn a_clear_bench_says_so() {
        assert!(rendered(Vec::new()).contains("The bench is clear."));
    }
}

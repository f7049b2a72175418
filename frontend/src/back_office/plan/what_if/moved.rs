//! Which pairs a change moves: lost promises first, then those that come later, are gained, or come
//! sooner.

use std::collections::BTreeMap;

use leptos::prelude::*;
use shared_types::brief::PairBrief;
use shared_types::paths;
use shared_types::promise::chance::{Chance, Odds};
use shared_types::promise::what_if::Moved;
use shared_types::promise::workshop::Tag;
use time::Date;

use crate::back_office::plan::words::{called, sure};
use crate::elements::pair_words::unbroken;
use crate::elements::when::Day;

/// What becomes of a pair.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Fate {
    Lost,
    Later,
    Gained,
    Sooner,
    LeftOut,
}

impl Fate {
    const ALL: [Self; 5] = [
        Self::Lost,
        Self::Later,
        Self::Gained,
        Self::Sooner,
        Self::LeftOut,
    ];

    fn of(moved: &Moved, chance: Chance) -> Self {
        match moved.promised {
            Some(promised) if promised.after.is_none() => Self::LeftOut,
            Some(promised) if promised.is_lost(chance) => Self::Lost,
            Some(promised) if promised.is_gained(chance) => Self::Gained,
            promised => {
                let odds = |odds: Option<Odds>| odds.map_or(0, |odds| odds.kept);
                let is_surer = promised.is_some_and(|is| odds(is.after) >= odds(is.before));
                let sooner = match (moved.before, moved.after) {
                    (Some(before), Some(after)) if before == after => is_surer,
                    (before, after) => {
                        after.is_some_and(|after| before.is_none_or(|is| after < is))
                    }
                };
                if sooner { Self::Sooner } else { Self::Later }
            }
        }
    }

    const fn heading(self) -> &'static str {
        match self {
            Self::Lost => "Promises that would be lost",
            Self::Later => "Later or less sure",
            Self::Gained => "Promises that would be kept after all",
            Self::Sooner => "Sooner or surer",
            Self::LeftOut => "Left out",
        }
    }

    const fn is_worse(self) -> bool {
        matches!(self, Self::Lost | Self::Later)
    }
}

/// The pairs.
#[component]
pub fn MovedPairs(
    /// How sure the shop wants its promises.
    chance: Chance,
    /// What moves.
    moved: Vec<Moved>,
    /// What the plan calls the rush job.
    rush: Tag,
    /// Whether all that was asked for is help.
    is_help: bool,
    /// The open pairs.
    pairs: BTreeMap<Tag, PairBrief>,
) -> impl IntoView {
    let (own, moved): (Vec<Moved>, Vec<Moved>) =
        moved.into_iter().partition(|moved| moved.tag == rush);
    let own = own.into_iter().next().map(|own| rush_words(&own, chance));
    let fated: Vec<(Fate, Moved)> = moved
        .into_iter()
        .map(|moved| (Fate::of(&moved, chance), moved))
        .collect();
    let still = (fated.is_empty()).then(|| {
        view! { <p><b>"No other promise moves."</b></p> }
    });
    let is_worse = fated.iter().any(|(fate, _)| fate.is_worse());
    let odd = (is_help && is_worse).then(|| {
        view! { <p class="choice-rule">"Some pair comes later though there is more help: the order in which hands and stations come free changes."</p> }
    });
    let groups = Fate::ALL.map(|fate| {
        let rows = fated.iter().filter(|(its, _)| *its == fate);
        let rows: Vec<_> = rows.map(|(_, moved)| row(moved, chance, &pairs)).collect();
        (!rows.is_empty()).then(|| {
            view! {
                <h3>{fate.heading()}</h3>
                <ul class="sentence-list">{rows}</ul>
            }
        })
    });
    view! {
        <section class="what-if-answer" aria-labelledby="what-moves">
            <h2 id="what-moves">"What would move"</h2>
            {own}
            {still}
            {odd}
            {groups.into_iter().collect_view()}
        </section>
    }
}

fn rush_words(own: &Moved, chance: Chance) -> AnyView {
    let ready = match own.after {
        Some(day) => view! { "The rush job would be ready by " <b><Day day /></b> {format!(", {}.", sure(chance))} }.into_any(),
        None => "No day is in sight for the rush job.".into_any(),
    };
    let wished = own.promised.map(|promised| {
        let kept = match promised.after {
            Some(odds) if odds.reach(chance) => " can be kept.".to_owned(),
            Some(odds) if odds.kept > 0 => format!(" would be kept {}.", odds.words()),
            _ => " would not be kept.".to_owned(),
        };
        view! { " The wished " <Day day=promised.day /> {kept} }
    });
    view! { <p>{ready} {wished}</p> }.into_any()
}

fn row(moved: &Moved, chance: Chance, pairs: &BTreeMap<Tag, PairBrief>) -> AnyView {
    let about = match pairs.get(&moved.tag) {
        Some(brief) => view! { <a href=paths::pair(brief.pair)>{called(brief)}</a> }.into_any(),
        None => moved.tag.to_string().into_any(),
    };
    let promised = moved.promised.map(|promised| {
        let odds = |odds: Option<Odds>| {
            odds.map_or_else(
                || "not planned".to_owned(),
                |odds| unbroken(&odds.to_string()),
            )
        };
        view! {
            ", promised for " <Day day=promised.day /> ": "
            {format!("{} → {} sure", odds(promised.before), odds(promised.after))}
        }
    });
    view! {
        <li><p>
            {about} {promised} {format!(". Ready, {}: ", sure(chance))}
            {day(moved.before)} " → " <b>{day(moved.after)}</b> "."
        </p></li>
    }
    .into_any()
}

fn day(day: Option<Date>) -> AnyView {
    day.map_or_else(
        || "no day".into_any(),
        |day| view! { <Day day /> }.into_any(),
    )
}

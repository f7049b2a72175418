//! What if: the owner tries changes and sees which promises move. Nothing is promised by the page,
//! and nothing is stored: its address is the question.

use std::collections::BTreeMap;

use leptos::prelude::*;
use shared_types::brief::PairBrief;
use shared_types::form::what_if::{WhatIfField, rule_code};
use shared_types::form::{Fields, FormErrors};
use shared_types::id::ServiceId;
use shared_types::paths;
use shared_types::promise::order::Rule;
use shared_types::promise::what_if::Moved;
use shared_types::promise::workshop::{Misfit, Tag};
use shared_types::text::Line;

use super::words::Misfitting;
use crate::document::{BackRoom, Desk, Flash, Room};
use crate::elements::field::{Kind, Select, TextField, Tick};
use crate::elements::flash::FlashLine;

pub mod moved;

use moved::MovedPairs;

/// Props of the page.
#[derive(Clone, Debug)]
pub struct WhatIf {
    /// Who asks.
    pub desk: Desk,
    /// What was typed.
    pub fields: Fields,
    /// What is wrong with it.
    pub errors: FormErrors<WhatIfField>,
    /// What the plan answers.
    pub answer: Answer,
    /// Who is at the bench.
    pub hands: Vec<String>,
    /// The open pairs in order of work.
    pub open: Vec<Tag>,
    /// Their lines.
    pub pairs: BTreeMap<Tag, PairBrief>,
    /// What the price book offers.
    pub services: Vec<(ServiceId, Line)>,
}

/// What the plan answers.
#[derive(Clone, Debug)]
pub enum Answer {
    /// Nothing was asked yet.
    NotAsked,
    /// Which pairs move.
    Moved {
        /// Those that do.
        moved: Vec<Moved>,
        /// What the plan calls the rush job.
        rush: Tag,
        /// Whether all that was asked for is help.
        is_help: bool,
    },
    /// There is no such plan, and why.
    Unplanned(Misfit),
}

/// What if.
#[component]
pub fn WhatIfPage(props: WhatIf) -> impl IntoView {
    let answer = match &props.answer {
        Answer::NotAsked => ().into_any(),
        Answer::Unplanned(misfit) => {
            view! { <Misfitting misfit=misfit.clone() may_set=false /> }.into_any()
        }
        Answer::Moved {
            moved,
            rush,
            is_help,
        } => view! {
            <MovedPairs
                chance=props.desk.shop.chance
                moved=moved.clone()
                rush=rush.clone()
                is_help=*is_help
                pairs=props.pairs.clone()
            />
        }
        .into_any(),
    };
    let wrong = match props.errors.iter().count() {
        0 => None,
        1 => Some("One thing is to be put right below before this can be worked out.".to_owned()),
        count => Some(format!(
            "{count} things are to be put right below before this can be worked out."
        )),
    };
    let wrong = wrong.map(|words| view! { <FlashLine flash=Flash::Refused(words) /> });
    let rush = rush(&props);
    let days = days(&props);
    let order = order(&props);
    view! {
        <BackRoom desk=props.desk title="What if".to_owned() here=Room::Plan>
            <div class="page-head">
                <h1>"What if"</h1>
                <p>
                    "Try a change and see which promises move. Nothing is promised by this page, and nothing is stored. "
                    <a href=paths::plan()>"The plan as it is"</a>
                </p>
            </div>
            {wrong}
            {answer}
            <form class="form-rows" method="get" action=paths::what_if()>
                {rush}
                {days}
                {order}
                <div class="acts">
                    <button class="act">"See what moves"</button>
                    <a class="act" data-act="plain" href=paths::what_if()>"Start anew"</a>
                </div>
            </form>
        </BackRoom>
    }
}

impl WhatIf {
    fn typed(&self, field: WhatIfField) -> String {
        self.fields.one(&field.name()).to_owned()
    }

    fn focus(&self, field: WhatIfField) -> bool {
        let first = self.errors.iter().next();
        first.is_some_and(|(first, _)| *first == field)
    }

    fn text(&self, field: WhatIfField, label: &str, hint: &str) -> AnyView {
        let is_days = matches!(field, WhatIfField::Closed | WhatIfField::AwayDays(_));
        let kind = if is_days { Kind::Text } else { Kind::Clock };
        view! {
            <TextField
                label=label
                name=field.name()
                value=self.typed(field)
                error=self.errors.at(&field)
                hint=hint
                kind=kind
                complete="off"
                focus=self.focus(field)
            />
        }
        .into_any()
    }

    /// A list whose first entry is none; what was chosen and is gone stays in it.
    fn select(&self, field: WhatIfField, label: &str, options: Vec<(String, String)>) -> AnyView {
        let typed = self.typed(field);
        let mut options = options;
        if options.iter().all(|(value, _)| *value != typed) {
            options.push((typed.clone(), typed.clone()));
        }
        view! {
            <Select
                label=label
                name=field.name()
                options=options
                selected=typed
                error=self.errors.at(&field)
                focus=self.focus(field)
            />
        }
        .into_any()
    }

    fn open_pairs(&self, none: &str) -> Vec<(String, String)> {
        let called = |tag: &Tag| {
            let title = self.pairs.get(tag).map(|brief| brief.title.clone());
            let words = title.map_or_else(|| tag.to_string(), |title| format!("{tag}, {title}"));
            (tag.0.clone(), words)
        };
        let none = (String::new(), none.to_owned());
        [none]
            .into_iter()
            .chain(self.open.iter().map(called))
            .collect()
    }
}

fn rush(props: &WhatIf) -> AnyView {
    let stations = props.desk.shop.stations.iter().map(ToString::to_string);
    let stations: Vec<_> = [(String::new(), "No station".to_owned())]
        .into_iter()
        .chain(stations.map(|name| (name.clone(), name)))
        .collect();
    let mut before = props.open_pairs("Behind all others");
    before.insert(
        1,
        (
            WhatIfField::BEFORE_ALL.to_owned(),
            "Before all others".to_owned(),
        ),
    );
    for (value, words) in before.iter_mut().skip(2) {
        if !value.is_empty() {
            *words = format!("Before {words}");
        }
    }
    let name = WhatIfField::RushService.name();
    let is_ticked = props.fields.all(&name).next().is_some();
    let services = props.services.iter().map(|(id, title)| {
        let id = id.to_string();
        let checked = props.fields.has(&name, &id);
        view! { <Tick label=title.to_string() name=name.clone() value=id checked=checked /> }
    });
    let services = services.collect_view();
    view! {
        <fieldset class="group">
            <legend>"Take a rush job"</legend>
            <div class="what-if-fields">
                {props.text(WhatIfField::RushMinutes, "Bench minutes", "90, or 1:30.")}
                {props.select(WhatIfField::RushStation, "At a station", stations)}
                {props.text(WhatIfField::RushDay, "Wished day", "As 2026-12-24.")}
            </div>
            {props.select(WhatIfField::RushBefore, "Where it goes", before)}
            <details class="fold" open=is_ticked>
                <summary>"Or work from the price book"</summary>
                <div class="what-if-work">{services}</div>
            </details>
        </fieldset>
    }
    .into_any()
}

fn days(props: &WhatIf) -> AnyView {
    let hands: Vec<_> = [(String::new(), "Nobody".to_owned())]
        .into_iter()
        .chain(props.hands.iter().map(|name| (name.clone(), name.clone())))
        .collect();
    let typed = |row: usize| {
        let fields = [WhatIfField::AwayHand(row), WhatIfField::AwayDays(row)];
        fields.iter().any(|field| !props.typed(*field).is_empty())
    };
    let filled = (0..WhatIfField::AWAY).rfind(|row| typed(*row));
    let shown = (filled.map_or(0, |row| row + 1) + 1).min(WhatIfField::AWAY);
    let away = (0..shown).map(|row| {
        view! {
            <div class="what-if-fields">
                {props.select(WhatIfField::AwayHand(row), "Who is away", hands.clone())}
                {props.text(WhatIfField::AwayDays(row), "On these days", "2026-12-24, or 2026-12-24 to 2027-01-02.")}
            </div>
        }
    });
    let away = away.collect_view();
    view! {
        <fieldset class="group">
            <legend>"Days and hands"</legend>
            {props.text(WhatIfField::Closed, "Stay closed on", "2026-12-24, or 2026-12-24 to 2027-01-02; several with commas.")}
            {away}
            <div class="what-if-fields">
                {props.text(WhatIfField::Help, "One more hand, each open day", "Bench minutes, such as 4:00.")}
                {props.text(WhatIfField::Longer, "Everybody stays longer, each open day", "Minutes, such as 60.")}
            </div>
        </fieldset>
    }
    .into_any()
}

fn order(props: &WhatIf) -> AnyView {
    let rules = vec![
        (String::new(), "As it is".to_owned()),
        (
            rule_code(Rule::EarliestPromise).to_owned(),
            "The earliest promise first".to_owned(),
        ),
        (
            rule_code(Rule::LeastWork).to_owned(),
            "The least work first".to_owned(),
        ),
    ];
    view! {
        <fieldset class="group">
            <legend>"Order of work"</legend>
            {props.select(WhatIfField::First, "Work on this pair first", props.open_pairs("None"))}
            {props.select(WhatIfField::Drop, "Leave this pair out", props.open_pairs("None"))}
            {props.select(WhatIfField::Order, "All pairs", rules)}
        </fieldset>
    }
    .into_any()
}

//! The fields of a rule: services, parts and discoveries from lists, and the two reasons.

use leptos::prelude::*;
use shared_types::form::rule::{ORDINARY, PLACES, PROTECTIVE, RuleField};
use shared_types::form::{Fields, FormErrors};
use shared_types::id::ServiceId;
use shared_types::scope::discovery::{Discovery, Place};
use shared_types::scope::rules::condition::Condition;
use shared_types::scope::rules::wording::Kind;
use shared_types::stage::Stage;
use shared_types::ticket::Construction;

use crate::elements::field::{Select, TextArea, Tick};
use crate::elements::pair_words::begun;

/// A service that can be picked.
#[derive(Clone, Debug)]
pub struct Pickable {
    /// Which.
    pub id: ServiceId,
    /// What it is called.
    pub title: String,
    /// Its stage; nothing for one that is not in the price book.
    pub stage: Option<Stage>,
}

/// What the form shows.
#[derive(Clone, Debug)]
pub struct RuleForm {
    /// The kind of rule.
    pub kind: Kind,
    /// What can be picked.
    pub services: Vec<Pickable>,
    /// What was typed.
    pub fields: Fields,
    /// What is wrong with it.
    pub errors: FormErrors<RuleField>,
}

impl RuleForm {
    fn typed(&self, field: RuleField) -> String {
        self.fields.one(&field.name()).to_owned()
    }

    fn focus(&self, field: RuleField) -> bool {
        let first = self.errors.iter().next();
        first.is_some_and(|(first, _)| *first == field)
    }

    /// The fields of a whole rule.
    pub fn whole(&self) -> AnyView {
        let whole = self.errors.at(&RuleField::Whole);
        let whole = whole.map(|problem| view! { <p class="field-problem">{problem}</p> });
        view! {
            {whole}
            {self.claim()}
            {self.case()}
            {self.reasons()}
        }
        .into_any()
    }

    fn claim(&self) -> AnyView {
        let (these, those) = (RuleField::These, RuleField::Those);
        match self.kind {
            Kind::NeedsWork => view! {
                {self.ticks(these, "Each of these")}
                {self.ticks(those, "needs one of these")}
            }
            .into_any(),
            Kind::NeedsSound => view! {
                {self.ticks(these, "Each of these")}
                {self.condition("needs")}
            }
            .into_any(),
            Kind::OneOf => self.ticks(these, "Only one of these"),
            Kind::Excludes => view! {
                {self.ticks(these, "None of these")}
                {self.ticks(those, "goes with any of these")}
            }
            .into_any(),
            Kind::Spares => view! {
                {self.ticks(these, "Any of these")}
                {self.ticks(those, "makes these pointless")}
            }
            .into_any(),
            Kind::Unfit => self.ticks(these, "These are not done"),
            Kind::Mends => {
                view! { {self.condition("What is to be sound again")} {self.order()} }.into_any()
            }
            Kind::Prefers => self.order(),
            Kind::Together => view! {
                {self.ticks(these, "While one of these is done")}
                {self.also()}
                {self.ticks(those, "Later it would take these as well")}
            }
            .into_any(),
        }
    }

    fn ticks(&self, field: RuleField, legend: &'static str) -> AnyView {
        let name = field.name();
        let stages = Stage::RUNS.map(Some).into_iter().chain([None]);
        let stages: Vec<_> = stages
            .filter_map(|stage| self.stage(&name, stage))
            .collect();
        let error = self.errors.at(&field);
        let id = format!("{name}-problem");
        let about = error.is_some().then(|| id.clone());
        let error = error.map(|words| view! { <p class="field-problem" id=id>{words}</p> });
        view! {
            <fieldset class="group" aria-describedby=about>
                <legend>{legend}</legend>
                {error}
                <div>{stages}</div>
            </fieldset>
        }
        .into_any()
    }

    fn stage(&self, name: &str, stage: Option<Stage>) -> Option<AnyView> {
        let services: Vec<_> = self
            .services
            .iter()
            .filter(|one| one.stage == stage)
            .collect();
        if services.is_empty() {
            return None;
        }
        let ticked = |one: &&&Pickable| self.fields.has(name, &one.id.to_string());
        let count = services.iter().filter(ticked).count();
        let label = stage.map_or("Not in the price book", Stage::label);
        let summary = match count {
            0 => label.to_owned(),
            count => format!("{label}: {count} ticked"),
        };
        let ticks: Vec<_> = services
            .into_iter()
            .map(|one| {
                let (label, name, value) = (one.title.clone(), name.to_owned(), one.id.to_string());
                let checked = self.fields.has(&name, &value);
                view! { <Tick label name value checked /> }
            })
            .collect();
        Some(
            view! { <details class="fold" open={count > 0}><summary>{summary}</summary>{ticks}</details> }
                .into_any(),
        )
    }

    fn condition(&self, label: &'static str) -> AnyView {
        let field = RuleField::Condition;
        let options = Condition::ALL
            .iter()
            .map(|one| (one.code().to_owned(), one.holds().to_owned()));
        view! {
            <Select
                label
                name=field.name()
                options=unchosen(options)
                selected=self.typed(field)
                error=self.errors.at(&field)
                focus=self.focus(field)
            />
        }
        .into_any()
    }

    fn also(&self) -> AnyView {
        let field = RuleField::Also;
        view! {
            <Select
                label="this is better done too"
                name=field.name()
                options=unchosen(self.options())
                selected=self.typed(field)
                error=self.errors.at(&field)
                focus=self.focus(field)
            />
        }
        .into_any()
    }

    fn order(&self) -> AnyView {
        const PLACE: [&str; PLACES] = ["Best", "Second", "Third", "Fourth", "Fifth", "Sixth"];
        let places: Vec<_> = PLACE
            .into_iter()
            .enumerate()
            .map(|(place, label)| {
                let field = RuleField::Place(place);
                view! {
                    <Select
                        label
                        name=field.name()
                        options=unchosen(self.options())
                        selected=self.typed(field)
                        error=self.errors.at(&field)
                        focus=self.focus(field)
                    />
                }
            })
            .collect();
        view! { <fieldset class="group"><legend>"The best first"</legend>{places}</fieldset> }
            .into_any()
    }

    fn options(&self) -> impl Iterator<Item = (String, String)> {
        let services = self.services.iter();
        services.map(|one| (one.id.to_string(), one.title.clone()))
    }

    fn case(&self) -> AnyView {
        let (built, rating) = (RuleField::Construction, RuleField::Rating);
        let found = RuleField::Discovery.name();
        let ways: Vec<_> = Construction::ALL
            .into_iter()
            .map(|way| {
                let checked = self.fields.has(&built.name(), way.code());
                view! { <Tick label=way.label() name=built.name() value=way.code() checked /> }
            })
            .collect();
        let places: Vec<_> = Place::ALL
            .into_iter()
            .map(|place| {
                let here = Discovery::ALL.iter().filter(|one| one.place() == place);
                let ticks: Vec<_> = here
                    .map(|one| {
                        let (name, checked) = (found.clone(), self.fields.has(&found, one.code()));
                        view! { <Tick label=one.for_bench() name value=one.code() checked /> }
                    })
                    .collect();
                view! { <fieldset class="group"><legend>{place.label()}</legend>{ticks}</fieldset> }
            })
            .collect();
        let any = !self.fields.one(&built.name()).is_empty()
            || !self.fields.one(&found).is_empty()
            || !self.fields.one(&rating.name()).is_empty();
        let ratings = [
            ("", "Any pair"),
            (PROTECTIVE, "Pairs with a safety mark"),
            (ORDINARY, "Pairs without a safety mark"),
        ];
        let ratings = ratings.map(|(code, words)| (code.to_owned(), words.to_owned()));
        view! {
            <details class="fold discoveries" open=any>
                <summary>"Only on some pairs"</summary>
                <fieldset class="group">
                    <legend>"Built so; on all if none is ticked"</legend>
                    <div>{ways}</div>
                </fieldset>
                <Select
                    label="Safety mark"
                    name=rating.name()
                    options=ratings.to_vec()
                    selected=self.typed(rating)
                />
                <p>"If the teardown showed one of these; always if none is ticked:"</p>
                <div class="discovery-places">{places}</div>
            </details>
        }
        .into_any()
    }

    /// The two reasons.
    pub fn reasons(&self) -> AnyView {
        let (bench, customer) = (RuleField::Bench, RuleField::Customer);
        view! {
            <TextArea
                label="Why, for the bench"
                name=bench.name()
                value=self.typed(bench)
                error=self.errors.at(&bench)
                rows=2
                focus=self.focus(bench)
            />
            <TextArea
                label="Why, for the customer"
                name=customer.name()
                value=self.typed(customer)
                error=self.errors.at(&customer)
                hint="For someone who has never seen a shoe from inside; it stands on their offer."
                rows=2
                focus=self.focus(customer)
            />
        }
        .into_any()
    }
}

fn unchosen(options: impl Iterator<Item = (String, String)>) -> Vec<(String, String)> {
    let none = (String::new(), "Choose".to_owned());
    let options = options.map(|(code, words)| (code, begun(&words)));
    std::iter::once(none).chain(options).collect()
}

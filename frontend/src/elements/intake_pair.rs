//! One pair on the intake form: what it is, what is wrong, its pictures, its work, its price.

use leptos::prelude::*;
use shared_types::form::advice::Advised;
use shared_types::form::intake::{IntakeAct, IntakeField, PairField, pair_count, work_prefix};
use shared_types::form::{Fields, FormErrors};
use shared_types::paths;
use shared_types::price::PriceRules;
use shared_types::pricebook::Service;
use shared_types::promise::new_pair::NewPair;
use shared_types::scope::ScopeProblem;
use shared_types::size::SizeSystem;
use shared_types::ticket::{Construction, Rating, Tag};

use crate::elements::field::{Kind, PhotoPicker, Select, TextArea, TextField, Tick};
use crate::elements::new_pair_days::NewPairDays;
use crate::elements::terms_fields::TermsHere;
use crate::elements::work_picker::{Picker, PickerErrors, Stages, WorkPicker};

/// What the form knows about one pair.
#[derive(Clone, Debug)]
pub struct PairForm {
    /// Its place among the pairs, from 0.
    pub place: usize,
    /// The price book, for this pair.
    pub services: Vec<Service>,
    /// What work costs.
    pub rules: PriceRules,
    /// What was typed into the whole form.
    pub fields: Fields,
    /// What is wrong with it.
    pub errors: FormErrors<IntakeField>,
    /// Price and day.
    pub worked_out: Option<Result<NewPair, ScopeProblem>>,
    /// What the rules say to its work.
    pub advised: Advised,
}

impl PairForm {
    fn name(&self, field: PairField) -> String {
        IntakeField::Pair(self.place, field).name()
    }

    fn typed(&self, field: PairField) -> String {
        self.fields.one(&self.name(field)).to_owned()
    }

    fn error(&self, field: PairField) -> Option<String> {
        self.errors.at(&IntakeField::Pair(self.place, field))
    }

    fn first(&self) -> Option<PairField> {
        let (IntakeField::Pair(place, field), _) = self.errors.iter().next()? else {
            return None;
        };
        (*place == self.place).then_some(*field)
    }

    fn focus(&self, field: PairField) -> bool {
        self.first() == Some(field) || (field == PairField::Kind && self.is_new())
    }

    /// Whether it was just asked for.
    fn is_new(&self) -> bool {
        let asked = self.fields.one(&IntakeField::Act.name()) == IntakeAct::AddPair.code();
        asked && self.place + 1 == pair_count(&self.fields)
    }

    fn ticked(&self, field: PairField) -> bool {
        self.fields.has(&self.name(field), "yes")
    }
}

/// The pair's part of the form.
#[component]
pub fn IntakePairForm(
    /// What the form knows about it.
    form: PairForm,
) -> impl IntoView {
    let legend = Tag::at(form.place).map_or_else(String::new, |tag| format!("Pair {tag}"));
    let lists = (form.place == 0).then(suggestions);
    let worked_out = form.worked_out.clone();
    view! {
        <fieldset class="choice">
            <legend>{legend}</legend>
            {lists}
            <div class="choice-columns">
                <div>
                    {about(&form)}
                    {safety(&form)}
                    <TextArea
                        label="What is wrong"
                        name=form.name(PairField::Wrong)
                        value=form.typed(PairField::Wrong)
                        error=form.error(PairField::Wrong)
                        hint="In the customer’s words; it is printed on their ticket."
                        rows=2
                        focus=form.focus(PairField::Wrong)
                    />
                    {pictures(&form)}
                </div>
                <div>
                    <WorkPicker picker=picker(&form) />
                    <TextField
                        label="Wished by"
                        name=form.name(PairField::Promise)
                        value=form.typed(PairField::Promise)
                        error=form.error(PairField::Promise)
                        hint="Only if the customer needs it by a day, or has time. A sooner day than its turn gives goes with rush."
                        kind=Kind::Date
                        focus=form.focus(PairField::Promise)
                    />
                    {worked_out.map(|outcome| view! { <NewPairDays outcome /> })}
                </div>
            </div>
        </fieldset>
    }
}

fn about(form: &PairForm) -> AnyView {
    let options = |all: Vec<(&str, &str)>| -> Vec<(String, String)> {
        all.into_iter()
            .map(|(code, label)| (code.to_owned(), label.to_owned()))
            .collect()
    };
    let systems = SizeSystem::ALL.map(|system| (system.code(), system.label()));
    let constructions = Construction::ALL.map(|one| (one.code(), one.label()));
    let construction = match form.typed(PairField::Construction) {
        typed if typed.is_empty() => Construction::Unknown.code().to_owned(),
        typed => typed,
    };
    view! {
        <div class="field-row">
            <TextField
                label="Kind"
                name=form.name(PairField::Kind)
                value=form.typed(PairField::Kind)
                error=form.error(PairField::Kind)
                list=KINDS_ID
                complete="off"
                focus=form.focus(PairField::Kind)
            />
            <TextField
                label="Colour"
                name=form.name(PairField::Colour)
                value=form.typed(PairField::Colour)
                error=form.error(PairField::Colour)
                list=COLOURS_ID
                complete="off"
                focus=form.focus(PairField::Colour)
            />
        </div>
        <div class="field-row">
            <Select
                label="Size system"
                name=form.name(PairField::SizeSystem)
                options=options(systems.to_vec())
                selected=form.typed(PairField::SizeSystem)
            />
            <TextField
                label="Size, as stamped"
                name=form.name(PairField::Size)
                value=form.typed(PairField::Size)
                error=form.error(PairField::Size)
                complete="off"
                focus=form.focus(PairField::Size)
            />
            <Select
                label="How it is built"
                name=form.name(PairField::Construction)
                options=options(constructions.to_vec())
                selected=construction
                error=form.error(PairField::Construction)
                focus=form.focus(PairField::Construction)
            />
        </div>
    }
    .into_any()
}

fn safety(form: &PairForm) -> AnyView {
    let cautions = Rating::Protective.cautions().into_iter();
    let cautions: Vec<_> = cautions
        .map(|words| view! { <p>{words.to_string()}</p> })
        .collect();
    view! {
        <div class="safety">
            <Tick
                label="It carries a safety mark"
                name=form.name(PairField::Protective)
                hint="Safety-rated, electrical-hazard or antistatic footwear."
                checked=form.ticked(PairField::Protective)
            />
            <div class="safety-caution">
                {cautions}
                <Tick
                    label="I have told the customer this"
                    name=form.name(PairField::CautionTold)
                    checked=form.ticked(PairField::CautionTold)
                    error=form.error(PairField::CautionTold)
                    focus=form.focus(PairField::CautionTold)
                />
            </div>
        </div>
    }
    .into_any()
}

fn pictures(form: &PairForm) -> AnyView {
    let name = form.name(PairField::KeptPhoto);
    let kept: Vec<_> = form
        .fields
        .all(&name)
        .enumerate()
        .map(|(index, digest)| {
            let alt = format!("Picture {} of this pair, already here", index + 1);
            view! {
                <li>
                    <input type="hidden" name=name.clone() value=digest.to_owned() />
                    <img src=paths::shop_photo(digest) alt=alt />
                </li>
            }
        })
        .collect();
    let kept = (!kept.is_empty()).then(|| view! { <ul class="picture-row">{kept}</ul> });
    view! {
        <PhotoPicker
            label="Pictures as it came in"
            name=form.name(PairField::Photo)
            error=form.error(PairField::Photo)
            hint="They protect both sides. JPEG, PNG or WebP, up to 15 MB each."
        />
        {kept}
    }
    .into_any()
}

fn picker(form: &PairForm) -> Picker {
    let mut errors = PickerErrors::default();
    for (field, problem) in form.errors.iter() {
        if let IntakeField::Pair(place, PairField::Work(field)) = field
            && *place == form.place
        {
            errors.at.push((*field, problem.to_string()));
        }
    }
    if let Some(PairField::Work(field)) = form.first() {
        errors.first = Some(field);
    }
    Picker {
        legend: "Work on this pair".to_owned(),
        prefix: work_prefix(form.place),
        services: form.services.clone(),
        agreed: Vec::new(),
        rules: form.rules,
        fields: form.fields.clone(),
        errors,
        advised: form.advised.clone(),
        action: paths::intake(),
        stages: Stages::Open,
        terms: TermsHere::Asked,
    }
}

const KINDS_ID: &str = "kinds";
const COLOURS_ID: &str = "colours";

const KINDS: [&str; 12] = [
    "lace-up work boots",
    "pull-on boots",
    "ankle boots",
    "hiking boots",
    "riding boots",
    "derbies",
    "oxfords",
    "brogues",
    "loafers",
    "court shoes",
    "sandals",
    "sports shoes",
];

const COLOURS: [&str; 12] = [
    "black",
    "dark brown",
    "brown",
    "chestnut",
    "tan",
    "oxblood",
    "dark green",
    "navy",
    "grey",
    "ivory",
    "white",
    "two-tone",
];

fn suggestions() -> impl IntoView {
    let list = |words: [&'static str; 12]| {
        words
            .map(|word| view! { <option value=word></option> })
            .into_iter()
            .collect_view()
    };
    view! {
        <datalist id=KINDS_ID>{list(KINDS)}</datalist>
        <datalist id=COLOURS_ID>{list(COLOURS)}</datalist>
    }
}

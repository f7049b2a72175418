//! Picking work: agreed lines to keep, services of the price book by stage, lines of one's own,
//! and rush and discount.

use leptos::prelude::*;
use shared_types::adjust::ScopeTerms;
use shared_types::form::Fields;
use shared_types::form::advice::Advised;
use shared_types::form::scope::{OWN_LINES, ScopeField};
use shared_types::minutes::Minutes;
use shared_types::price::{PriceRules, quote};
use shared_types::pricebook::Service;
use shared_types::scope::ScopeLine;
use shared_types::stage::Stage;

use crate::elements::advice::Advice;
use crate::elements::field::{Kind, TextArea, TextField};
use crate::elements::terms_fields::{TermsHere, terms_fields};

/// One part of a form in which work is picked.
#[derive(Clone, Debug)]
pub struct Picker {
    /// What it is the work of.
    pub legend: String,
    /// What stands before its field names.
    pub prefix: String,
    /// The price book, for this pair.
    pub services: Vec<Service>,
    /// Lines that stand agreed.
    pub agreed: Vec<ScopeLine>,
    /// What a line costs.
    pub rules: PriceRules,
    /// What was typed.
    pub fields: Fields,
    /// What is wrong with it.
    pub errors: PickerErrors,
    /// What the rules say to what is picked.
    pub advised: Advised,
    /// Where the form goes, for the buttons that mend.
    pub action: String,
    /// How the stages stand on the page.
    pub stages: Stages,
    /// Where rush and discount come from.
    pub terms: TermsHere,
}

/// What is wrong in one picker.
#[derive(Clone, Debug, Default)]
pub struct PickerErrors {
    /// Each field with its problem.
    pub at: Vec<(ScopeField, String)>,
    /// The field that is the first of the whole form to put right, if it is in this picker.
    pub first: Option<ScopeField>,
}

/// How the services of a stage stand on the page.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stages {
    /// All in sight, for the counter.
    Open,
    /// Folded unless something of the stage is ticked, for a phone at the bench.
    Folded,
}

/// Tick boxes for agreed lines and services, and fields for own lines.
#[component]
pub fn WorkPicker(
    /// What can be picked and what was.
    picker: Picker,
) -> impl IntoView {
    let nothing_picked = picker.problem(ScopeField::Service);
    let nothing_picked =
        nothing_picked.map(|problem| view! { <p class="field-problem">{problem}</p> });
    view! {
        <fieldset class="work-picker" id=picker.anchor()>
            <legend>{picker.legend.clone()}</legend>
            {nothing_picked}
            <Advice advised=picker.advised.clone() action=format!("{}#{}", picker.action, picker.anchor()) />
            {picker.kept()}
            {Stage::RUNS.map(|stage| picker.stage(stage)).into_iter().collect_view()}
            {picker.own()}
            {terms_fields(&picker)}
        </fieldset>
    }
}

impl Picker {
    /// Where it stands on the page.
    fn anchor(&self) -> String {
        format!("{}work", self.prefix)
    }

    pub(super) fn problem(&self, field: ScopeField) -> Option<String> {
        let found = self.errors.at.iter().find(|(known, _)| *known == field);
        found.map(|(_, problem)| problem.clone())
    }

    pub(super) fn is_first(&self, field: ScopeField) -> bool {
        self.errors.first == Some(field)
    }

    fn kept(&self) -> Option<impl IntoView + use<>> {
        let boxes = self.agreed.iter().enumerate();
        let boxes: Vec<_> = boxes
            .map(|(place, line)| self.tick(ScopeField::Keep, place.to_string(), line))
            .collect();
        (!boxes.is_empty()).then(|| {
            view! {
                <fieldset class="work-picker-stage">
                    <legend>"Agreed already; untick what falls away"</legend>
                    <ul class="choice-lines">{boxes}</ul>
                </fieldset>
            }
        })
    }

    fn stage(&self, stage: Stage) -> Option<AnyView> {
        let services = self
            .services
            .iter()
            .filter(|service| service.stage == stage);
        let services: Vec<&Service> = services.collect();
        if services.is_empty() {
            return None;
        }
        let name = ScopeField::Service.name(&self.prefix);
        let any_ticked = services
            .iter()
            .any(|one| self.fields.has(&name, &one.id.to_string()));
        let count = match services.len() {
            1 => "1 service".to_owned(),
            count => format!("{count} services"),
        };
        let boxes: Vec<_> = services
            .into_iter()
            .map(|one| self.tick(ScopeField::Service, one.id.to_string(), &one.line()))
            .collect();
        let boxes = view! { <ul class="choice-lines">{boxes}</ul> };
        Some(match self.stages {
            Stages::Open => view! {
                <fieldset class="work-picker-stage">
                    <legend>{stage.label()}</legend>
                    {boxes}
                </fieldset>
            }
            .into_any(),
            Stages::Folded => view! {
                <details class="work-picker-stage fold" open=any_ticked>
                    <summary>{stage.label()} ": " {count}</summary>
                    {boxes}
                </details>
            }
            .into_any(),
        })
    }

    fn tick(&self, field: ScopeField, value: String, line: &ScopeLine) -> AnyView {
        let name = field.name(&self.prefix);
        let checked = self.fields.has(&name, &value);
        let price = quote(std::slice::from_ref(line), &ScopeTerms::PLAIN, &self.rules).ok();
        let price = price.map(|quote| {
            let price = quote.subtotal;
            view! { <data value=price.figure()>{price.to_string()}</data> }
        });
        let minutes = (line.minutes != Minutes::ZERO).then(|| format!("{} ", line.minutes));
        view! {
            <li>
                <label class="check">
                    <input type="checkbox" name=name value=value checked=checked />
                    <span>{line.title.to_string()}</span>
                </label>
                <span class="work-picker-cost">{minutes} {price}</span>
            </li>
        }
        .into_any()
    }

    fn own(&self) -> AnyView {
        let rows: Vec<_> = (0..OWN_LINES).map(|row| self.own_line(row)).collect();
        let fields = (0..OWN_LINES).flat_map(own_fields);
        let open = fields.into_iter().any(|field| {
            let typed = self.fields.one(&field.name(&self.prefix));
            !typed.trim().is_empty() || self.problem(field).is_some()
        });
        view! {
            <details class="work-picker-stage fold" open=open>
                <summary>"Work that is not in the price book"</summary>
                {rows}
            </details>
        }
        .into_any()
    }

    fn own_line(&self, row: usize) -> AnyView {
        let [title, minutes, material, reason] = own_fields(row);
        let value = |field: ScopeField| self.fields.one(&field.name(&self.prefix)).to_owned();
        view! {
            <fieldset class="work-picker-own">
                <legend>"Own line " {row + 1}</legend>
                <TextField
                    label="What is done"
                    name=title.name(&self.prefix)
                    value=value(title)
                    error=self.problem(title)
                    focus=self.is_first(title)
                />
                <div class="field-row">
                    <TextField
                        label="Minutes"
                        name=minutes.name(&self.prefix)
                        value=value(minutes)
                        error=self.problem(minutes)
                        kind=Kind::Clock
                        focus=self.is_first(minutes)
                    />
                    <TextField
                        label="Material"
                        name=material.name(&self.prefix)
                        value=value(material)
                        error=self.problem(material)
                        kind=Kind::Amount
                        focus=self.is_first(material)
                    />
                </div>
                <TextArea
                    label="Why, in plain words"
                    name=reason.name(&self.prefix)
                    value=value(reason)
                    error=self.problem(reason)
                    rows=2
                    focus=self.is_first(reason)
                />
            </fieldset>
        }
        .into_any()
    }
}

const fn own_fields(row: usize) -> [ScopeField; 4] {
    [
        ScopeField::OwnTitle(row),
        ScopeField::OwnMinutes(row),
        ScopeField::OwnMaterial(row),
        ScopeField::OwnReason(row),
    ]
}

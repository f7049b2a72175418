//! A length to fill in: a number, its unit beside it, and where it looks wrong the question with a box
//! that says "It is so".

use leptos::prelude::*;
use shared_types::bench::field::Field;
use shared_types::form::measure::MeasureField;
use shared_types::form::{Fields, FormErrors, Problem};

use crate::elements::field::Tick;
use crate::elements::pair_words::begun;

/// One length.
#[component]
pub fn LengthField(
    /// Which.
    field: Field,
    /// The whole form as it was typed.
    fields: Fields,
    /// What is wrong with it.
    errors: FormErrors<MeasureField>,
    /// Whether it is the first to put right.
    focus: bool,
) -> impl IntoView {
    let name = MeasureField::Length(field).name();
    let unit_name = MeasureField::Unit(field).name();
    let is_so = MeasureField::ItIsSo(field).name();
    let label = begun(field.label());
    let value = fields.one(&name).to_owned();
    let picked = fields.one(&unit_name).to_owned();
    let answered = fields.one(&is_so).to_owned();
    let problem = problem_at(&errors, MeasureField::Length(field));
    let question = match &problem {
        Some(Problem::Questioned(words)) => Some((words.clone(), false)),
        None if !answered.is_empty() && !value.trim().is_empty() => Some((answered, true)),
        Some(_) | None => None,
    };
    let is_wrong = problem.is_some();
    let words = problem.map(|problem| problem.to_string());
    let said = words
        .clone()
        .or_else(|| question.as_ref().map(|(words, _)| words.clone()));
    let about = match said {
        Some(_) => format!("{name}-hint {name}-problem"),
        None => format!("{name}-hint"),
    };
    let said = said.map(|said| {
        let class = if is_wrong {
            "field-problem"
        } else {
            "field-hint"
        };
        view! { <p class=class id=format!("{name}-problem")>{said}</p> }
    });
    let units = field.units().iter().map(|unit| {
        let selected = unit.code() == picked;
        view! { <option value=unit.code() selected=selected>{unit.label()}</option> }
    });
    let units = units.collect_view();
    let tick = question.map(|(words, checked)| {
        view! { <Tick label="It is so; I looked again" name=is_so value=words checked /> }
    });
    view! {
        <div class="field length">
            <label for=name.clone()>{label.clone()}</label>
            <p class="field-hint" id=format!("{name}-hint")>{field.how()} " " {left_empty(field)}</p>
            <div class="length-entry">
                <input
                    type="text"
                    id=name.clone()
                    name=name
                    value=value
                    inputmode="decimal"
                    autocomplete="off"
                    autofocus=focus
                    aria-invalid=is_wrong.then_some("true")
                    aria-describedby=about
                />
                <select name=unit_name aria-label=format!("Unit of {}", field.label())>{units}</select>
            </div>
            {said}
            {tick}
        </div>
    }
}

/// What holds where nothing is written.
fn left_empty(field: Field) -> Option<String> {
    let (usual, _) = field.usual()?;
    Some(format!("Left empty: {usual}, as is usual."))
}

/// The problem at a field.
pub fn problem_at(errors: &FormErrors<MeasureField>, field: MeasureField) -> Option<Problem> {
    let mut found = errors.iter().filter(|(known, _)| **known == field);
    found.next().map(|(_, problem)| problem.clone())
}

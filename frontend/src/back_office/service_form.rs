//! The form of one service of the price book.

use leptos::prelude::*;
use shared_types::bench::take_off::TakeOff;
use shared_types::form::service::{FIXED, ServiceField, USES};
use shared_types::form::{Fields, FormErrors};
use shared_types::paths;
use shared_types::stage::Stage;
use shared_types::supply::kept::Supply;

use crate::elements::field::{Kind, Select, TextArea, TextField};
use crate::elements::pair_words::at_the_bench;

/// The fields of one service, with what was typed and what is wrong with it.
pub(super) fn service_fields(
    fields: &Fields,
    errors: &FormErrors<ServiceField>,
    supplies: &[Supply],
) -> AnyView {
    let first = errors.iter().next().map(|(field, _)| *field);
    let typed = |field: ServiceField| fields.one(&field.name()).to_owned();
    let error = |field: ServiceField| errors.at(&field);
    let focus = |field: ServiceField| first == Some(field);
    let untouched = typed(ServiceField::Title).is_empty() && first.is_none();
    let rest = if untouched {
        "0".to_owned()
    } else {
        typed(ServiceField::Rest)
    };
    let stages = Stage::RUNS.map(|stage| {
        let words = format!("{}: {}", stage.label(), at_the_bench(stage));
        (stage.code().to_owned(), words)
    });
    view! {
        <TextField
            label="Name"
            name=ServiceField::Title.name()
            value=typed(ServiceField::Title)
            error=error(ServiceField::Title)
            hint="As bench and customer call it."
            complete="off"
            focus=focus(ServiceField::Title)
        />
        <TextArea
            label="What it is"
            name=ServiceField::About.name()
            value=typed(ServiceField::About)
            error=error(ServiceField::About)
            hint="For a customer who has never heard of it."
            rows=2
            focus=focus(ServiceField::About)
        />
        <Select
            label="Stage"
            name=ServiceField::Stage.name()
            options=stages.to_vec()
            selected=typed(ServiceField::Stage)
            error=error(ServiceField::Stage)
            focus=focus(ServiceField::Stage)
        />
        <div class="field-row">
            <TextField
                label="Bench minutes"
                name=ServiceField::Minutes.name()
                value=typed(ServiceField::Minutes)
                error=error(ServiceField::Minutes)
                hint="90, or 1:30."
                kind=Kind::Clock
                focus=focus(ServiceField::Minutes)
            />
            <TextField
                label="Rest after it"
                name=ServiceField::Rest.name()
                value=rest
                error=error(ServiceField::Rest)
                hint="Minutes to dry."
                kind=Kind::Clock
                focus=focus(ServiceField::Rest)
            />
        </div>
        {uses(fields, errors, supplies)}
        {amounts(fields, errors)}
    }
    .into_any()
}

fn amounts(fields: &Fields, errors: &FormErrors<ServiceField>) -> AnyView {
    let first = errors.iter().next().map(|(field, _)| *field);
    let typed = |field: ServiceField| fields.one(&field.name()).to_owned();
    let error = |field: ServiceField| errors.at(&field);
    let focus = |field: ServiceField| first == Some(field);
    view! {
        <div class="field-row">
            <TextField
                label="Material besides, for a pair"
                name=ServiceField::Material.name()
                value=typed(ServiceField::Material)
                error=error(ServiceField::Material)
                hint="What you charge for what has no supply."
                kind=Kind::Amount
                focus=focus(ServiceField::Material)
            />
            <TextField
                label="Set price"
                name=ServiceField::SetPrice.name()
                value=typed(ServiceField::SetPrice)
                error=error(ServiceField::SetPrice)
                hint="Only if it costs the same whatever the minutes."
                kind=Kind::Amount
                focus=focus(ServiceField::SetPrice)
            />
        </div>
    }
    .into_any()
}

/// The rows in which supplies are chosen; open if one is.
fn uses(fields: &Fields, errors: &FormErrors<ServiceField>, supplies: &[Supply]) -> AnyView {
    if supplies.is_empty() {
        return view! {
            <p class="field-hint">
                "Once there are " <a href=paths::supplies()>"supplies"</a>
                ", a service can take them by quantity."
            </p>
        }
        .into_any();
    }
    let parts = |row| {
        [
            ServiceField::Supply(row),
            ServiceField::HowMuch(row),
            ServiceField::Quantity(row),
        ]
    };
    let any = (0..USES)
        .flat_map(parts)
        .any(|field| !fields.one(&field.name()).is_empty() || errors.at(&field).is_some());
    let rows: Vec<_> = (0..USES)
        .map(|row| use_row(row, fields, errors, supplies))
        .collect();
    view! {
        <details class="fold" open=any>
            <summary>"Supplies that it takes"</summary>
            <div class="form-rows">{rows}</div>
        </details>
    }
    .into_any()
}

fn use_row(
    row: usize,
    fields: &Fields,
    errors: &FormErrors<ServiceField>,
    supplies: &[Supply],
) -> AnyView {
    let [supply, how_much, quantity] = [
        ServiceField::Supply(row),
        ServiceField::HowMuch(row),
        ServiceField::Quantity(row),
    ];
    let typed = |field: ServiceField| fields.one(&field.name()).to_owned();
    let first = errors.iter().next().map(|(field, _)| *field);
    let mut choices = vec![(String::new(), "none".to_owned())];
    choices.extend(supplies.iter().map(|supply| {
        let words = format!("{}, by the {}", supply.name, supply.unit.label());
        (supply.id.to_string(), words)
    }));
    let mut ways = vec![(FIXED.to_owned(), "always as much".to_owned())];
    ways.extend(TakeOff::ALL.map(|one| (one.code().to_owned(), one.label().to_owned())));
    view! {
        <fieldset class="group">
            <legend>"Supply " {row + 1}</legend>
            <Select
                label="Which"
                name=supply.name()
                options=choices
                selected=typed(supply)
                error=errors.at(&supply)
                focus={first == Some(supply)}
            />
            <div class="field-row">
                <Select
                    label="How much"
                    name=how_much.name()
                    options=ways
                    selected=typed(how_much)
                    error=errors.at(&how_much)
                    hint="Off the pair’s bench sheet, or always as much."
                    focus={first == Some(how_much)}
                />
                <TextField
                    label="Always as much"
                    name=quantity.name()
                    value=typed(quantity)
                    error=errors.at(&quantity)
                    hint="Before what is cut away."
                    kind=Kind::Amount
                    focus={first == Some(quantity)}
                />
            </div>
        </fieldset>
    }
    .into_any()
}

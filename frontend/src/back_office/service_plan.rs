//! The part of a service's form that only the plan asks for: its station, its long jobs, and cement
//! that has to be joined in time.

use leptos::prelude::*;
use shared_types::form::service::ServiceField;
use shared_types::form::{Fields, FormErrors};
use shared_types::text::Line;

use crate::elements::field::{Kind, Select, TextField};

/// What only the plan asks: the station, and how long a long job takes.
pub(super) fn plan_fields(
    fields: &Fields,
    errors: &FormErrors<ServiceField>,
    stations: &[Line],
) -> impl IntoView + use<> {
    let first = errors.iter().next().map(|(field, _)| *field);
    let [station, p90] = [ServiceField::Station, ServiceField::P90];
    let chosen = fields.one(&station.name()).to_owned();
    let mut options = vec![(String::new(), "None".to_owned())];
    options.extend(
        stations
            .iter()
            .map(|name| (name.to_string(), name.to_string())),
    );
    let is_missing = !options.iter().any(|(name, _)| *name == chosen);
    if is_missing {
        options.push((
            chosen.clone(),
            format!("{chosen} (not in the shop any more)"),
        ));
    }
    let hint = if is_missing {
        "The shop has not got this station any more: the work is planned as if it needed none."
    } else {
        "Only one pair can be at it."
    };
    view! {
        <div class="field-row">
            <Select
                label="Station that it needs"
                name=station.name()
                options
                selected=chosen
                error=errors.at(&station)
                hint=hint
                focus=first == Some(station)
            />
            <TextField
                label="One job in ten takes over"
                name=p90.name()
                value=fields.one(&p90.name()).to_owned()
                error=errors.at(&p90)
                hint="Empty: half as long again."
                kind=Kind::Clock
                focus=first == Some(p90)
            />
        </div>
        {cement_fields(fields, errors)}
    }
}

fn cement_fields(fields: &Fields, errors: &FormErrors<ServiceField>) -> impl IntoView + use<> {
    let first = errors.iter().next().map(|(field, _)| *field);
    let asked = [
        (
            ServiceField::Dries,
            "Dries for at least",
            "Until it no longer comes off on a finger.",
        ),
        (
            ServiceField::StaysOpen,
            "Stays open for at most",
            "By the sheet of its maker.",
        ),
        (
            ServiceField::Joining,
            "Work from the joining on",
            "So many of the minutes above.",
        ),
    ];
    let inputs = asked.map(|(field, label, hint)| {
        view! {
            <TextField
                label=label
                name=field.name()
                value=fields.one(&field.name()).to_owned()
                error=errors.at(&field)
                hint=hint
                kind=Kind::Clock
                focus=first == Some(field)
            />
        }
    });
    view! {
        <fieldset class="group">
            <legend>"Cement in the middle of it"</legend>
            <p class="field-hint">
                "Empty if nothing is cemented. Otherwise coats and joining are planned on the same day, within \
                 these minutes."
            </p>
            <div class="field-row">{inputs.into_iter().collect_view()}</div>
        </fieldset>
    }
}

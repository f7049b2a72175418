//! Figures that open: the amount in sight, formula, inputs, tolerance and source behind it.

use leptos::prelude::*;
use shared_types::bench::figure::Figure;
use shared_types::bench::sheet::BenchSheet;
use shared_types::bench::sheet::sections::Section;

use crate::elements::pair_words::begun;

/// The figures of a section under its title.
pub(super) fn figure_rows(section: &Section<'_>) -> AnyView {
    view! {
        <h3>{section.title.clone()}</h3>
        {opening_figures(section)}
    }
    .into_any()
}

/// The figures of a section whose title is said already.
pub(super) fn opening_figures(section: &Section<'_>) -> AnyView {
    let rows: Vec<_> = section.figures.iter().map(|figure| row(figure)).collect();
    view! { <div class="measures">{rows}</div> }.into_any()
}

fn row(figure: &Figure) -> AnyView {
    let inputs: Vec<_> = figure
        .inputs
        .iter()
        .map(|input| view! { <li>{input.to_string()}</li> })
        .collect();
    let within = figure.unit.number(figure.within);
    let tolerance = if within == figure.unit.number(0.0) {
        "As exact as it is written.".to_owned()
    } else {
        format!("Within {within}{}.", figure.unit.suffix())
    };
    view! {
        <details class="measure">
            <summary>
                <span>{figure.label}</span>
                " "
                <b>{figure.amount()}</b>
            </summary>
            <div class="measure-how">
                <p>"= " {figure.formula}</p>
                <ul>{inputs}</ul>
                <p>{tolerance}</p>
                <p class="measure-source">"Formula: " {figure.source.to_string()} "."</p>
            </div>
        </details>
    }
    .into_any()
}

/// Which nails to take.
pub(super) fn nails(sheet: &BenchSheet) -> AnyView {
    let rows: Vec<_> = sheet
        .nails
        .iter()
        .map(|nails| {
            let joint = begun(nails.joint.label());
            let take = nails.take.map_or_else(
                || "None at hand holds and stays inside: take a screw, a thinner base, or another length.".to_owned(),
                |length| format!("Take {length}"),
            );
            view! { <li>{joint} ": " <b>{take}</b></li> }
        })
        .collect();
    if rows.is_empty() {
        return ().into_any();
    }
    view! { <ul class="bench-nails">{rows}</ul> }.into_any()
}

/// The size in every system.
pub(super) fn sizes(sheet: &BenchSheet) -> AnyView {
    let stamped = sheet
        .stamped
        .clone()
        .unwrap_or_else(|| "no size".to_owned());
    let rows: Vec<_> = sheet
        .sizes
        .iter()
        .map(|row| {
            view! { <tr><th scope="row">{row.system.label()}</th><td>{row.nearest.clone()}</td></tr> }
        })
        .collect();
    view! {
        <section>
            <h2>"Size"</h2>
            <p id="sizes">
                "Stamped: " {stamped}
                ". Elsewhere, as a guide only (formulas of ISO/TS 19407; no exact conversion exists)."
            </p>
            <table class="bench-table" aria-labelledby="sizes">
                <tbody>{rows}</tbody>
            </table>
        </section>
    }
    .into_any()
}

/// What was measured in thickness, in the trade's units.
pub(super) fn thicknesses(sheet: &BenchSheet) -> AnyView {
    if sheet.thicknesses.is_empty() {
        return ().into_any();
    }
    let rows: Vec<_> = sheet
        .thicknesses
        .iter()
        .map(|row| {
            view! {
                <tr>
                    <th scope="row">{begun(row.field.label())}</th>
                    <td>{format!("{:.1}", row.millimetres.0)}</td>
                    <td>{format!("{:.1}", row.irons.0)}</td>
                    <td>{format!("{:.1}", row.ounces.0)}</td>
                </tr>
            }
        })
        .collect();
    view! {
        <section>
            <h2>"Thickness"</h2>
            <table class="bench-table">
                <thead>
                    <tr>
                        <td></td>
                        <th scope="col">"mm"</th>
                        <th scope="col">"iron"</th>
                        <th scope="col">"ounce"</th>
                    </tr>
                </thead>
                <tbody>{rows}</tbody>
            </table>
        </section>
    }
    .into_any()
}

//! What a scope costs the shop and what it leaves: for the owner's eyes only.

use leptos::prelude::*;
use shared_types::margin::{Margin, Sums};
use shared_types::money::MoneyProblem;

/// A table that opens, line by line and for the whole.
#[component]
pub fn MarginTable(
    /// The margin, or why it can't be worked out.
    margin: Result<Margin, MoneyProblem>,
) -> impl IntoView {
    let margin = match margin {
        Ok(margin) => margin,
        Err(problem) => {
            let words = format!("Cost and margin can’t be worked out: {problem}.");
            return view! { <p class="field-problem">{words}</p> }.into_any();
        }
    };
    let total = margin.total;
    let summary = match total.percent() {
        Some(percent) => format!(
            "Cost and margin, for you only: {} left, {percent}",
            total.margin
        ),
        None => format!("Cost and margin, for you only: {} left", total.margin),
    };
    let lines = margin.lines.iter();
    let rows: Vec<_> = lines
        .map(|line| row(line.title.to_string(), &line.sums))
        .collect();
    let beside = (!margin.beside.is_zero()).then(|| {
        let amount = margin.beside.to_string();
        view! {
            <tr>
                <th scope="row">"Rush, discount, minimum and rounding"</th>
                <td></td>
                <td></td>
                <td data-align="end" data-label="Price before tax">{amount}</td>
                <td></td>
                <td></td>
            </tr>
        }
    });
    let guessed = margin.guessed.then_some(
        " Material without a supply counts at what is charged for it, so the real margin is larger.",
    );
    view! {
        <details class="fold margin">
            <summary>{summary}</summary>
            <div class="ledger-frame">
                <table class="ledger" aria-label="Cost and margin">
                    <thead>
                        <tr>
                            <th scope="col">"Work"</th>
                            <th scope="col" data-align="end">"Bench at cost"</th>
                            <th scope="col" data-align="end">"Material at cost"</th>
                            <th scope="col" data-align="end">"Price before tax"</th>
                            <th scope="col" data-align="end">"Left"</th>
                            <th scope="col" data-align="end">"In percent"</th>
                        </tr>
                    </thead>
                    <tbody>{rows}{beside}</tbody>
                    <tfoot>{row("Together".to_owned(), &total)}</tfoot>
                </table>
            </div>
            <p>
                "An hour at the bench costs " {margin.hour.to_string()}
                ", and supplies with their waste what they cost today."
                {guessed}
            </p>
        </details>
    }
    .into_any()
}

fn row(title: String, sums: &Sums) -> impl IntoView + use<> {
    let Sums {
        labour,
        material,
        price,
        margin,
    } = *sums;
    view! {
        <tr>
            <th scope="row"><span dir="auto">{title}</span></th>
            <td data-align="end" data-label="Bench at cost">{labour.to_string()}</td>
            <td data-align="end" data-label="Material at cost">{material.to_string()}</td>
            <td data-align="end" data-label="Price before tax">{price.to_string()}</td>
            <td data-align="end" data-label="Left">{margin.to_string()}</td>
            <td data-align="end" data-label="In percent">{sums.percent()}</td>
        </tr>
    }
}

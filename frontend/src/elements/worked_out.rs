//! What a scope costs and when it will be ready, as the server worked it out, or why it can't.

use leptos::prelude::*;
use shared_types::adjust::Adjustment;
use shared_types::margin::Margin;
use shared_types::money::{Money, MoneyProblem};
use shared_types::scope::{Scope, ScopeProblem, assumes_size};
use shared_types::size::ShoeSize;
use shared_types::tax::{TaxAmount, TaxBasis};

use crate::elements::how_worked_out::HowWorkedOut;
use crate::elements::margin_table::MarginTable;
use crate::elements::when::Day;
use crate::islands::quote_words::against;

/// Price, tax and day of a scope; beside what stands agreed, where there is that.
#[component]
pub fn WorkedOut(
    /// The scope, or what is wrong with it.
    outcome: Result<Scope, ScopeProblem>,
    /// What stands agreed.
    #[prop(optional_no_strip)]
    agreed: Option<Scope>,
    /// What it leaves the shop, for its owner.
    #[prop(optional_no_strip)]
    margin: Option<Result<Margin, MoneyProblem>>,
) -> impl IntoView {
    let how = outcome.clone().ok();
    let how = how.map(|scope| view! { <HowWorkedOut scope /> });
    let margin = margin.map(|margin| view! { <MarginTable margin /> });
    let body = match outcome {
        Ok(scope) => figures(&scope, agreed.as_ref()),
        Err(problem) => view! { <p class="field-problem">{problem.to_string()}</p> }.into_any(),
    };
    view! {
        <div class="worked-out" role="group" aria-label="Worked out">
            <p class="worked-out-before">"Before your last change:"</p>
            {body}
            {how}
            {margin}
        </div>
    }
}

fn figures(scope: &Scope, agreed: Option<&Scope>) -> AnyView {
    let quote = &scope.quote;
    let added = quote.basis == TaxBasis::Added && !quote.taxes.is_empty();
    let adjusted = !quote.adjustments.is_empty();
    let work = (added || adjusted).then(|| row("Work and material", &quote.subtotal));
    let steps: Vec<_> = quote.adjustments.iter().map(step_row).collect();
    let before_tax = quote.adjusted().ok().filter(|_| added && adjusted);
    let before_tax = before_tax.map(|sum| row("Before tax", &sum));
    let taxes: Vec<_> = quote
        .taxes
        .iter()
        .map(|tax| tax_row(tax, quote.basis))
        .collect();
    let agreed = agreed.map(|agreed| {
        let difference = scope.total().minus(agreed.total());
        let difference = difference.map_or_else(|problem| problem.to_string(), against);
        view! {
            <div>
                <dt>"Agreed until now"</dt>
                <dd><data value=agreed.total().figure()>{agreed.total().to_string()}</data> ", ready " <Day day=agreed.ready_by /></dd>
            </div>
            <div data-line="difference"><dt>"Difference"</dt><dd>{difference}</dd></div>
        }
    });
    let size = assumes_size(&scope.lines).then(|| {
        let words = format!("not known, so {} is taken", ShoeSize::USUAL);
        view! { <div><dt>"Size"</dt><dd>{words}</dd></div> }
    });
    view! {
        <dl class="worked-out-facts">
            {work}
            {steps}
            {before_tax}
            {taxes}
            <div data-line="total">
                <dt>"Together"</dt>
                <dd><data value=scope.total().figure()>{scope.total().to_string()}</data></dd>
            </div>
            {agreed}
            <div><dt>"At the bench"</dt><dd>{scope.minutes().to_string()}</dd></div>
            {size}
            <div data-line="ready"><dt>"Ready"</dt><dd><Day day=scope.ready_by /></dd></div>
        </dl>
    }
    .into_any()
}

fn row(words: &'static str, amount: &Money) -> impl IntoView + use<> {
    view! {
        <div><dt>{words}</dt><dd><data value=amount.figure()>{amount.to_string()}</data></dd></div>
    }
}

fn step_row(step: &Adjustment) -> impl IntoView + use<> {
    let (title, how) = (step.title(), step.how());
    let amount = step
        .signed()
        .map_or_else(|problem| problem.to_string(), Money::signed);
    view! { <div><dt><span dir="auto">{title}</span> ": " <small>{how}</small></dt><dd>{amount}</dd></div> }
}

fn tax_row(tax: &TaxAmount, basis: TaxBasis) -> impl IntoView + use<> {
    let words = match basis {
        TaxBasis::Added => format!("Tax {} % on {}", tax.rate, tax.on),
        TaxBasis::Included => format!("With {} % tax in it", tax.rate),
    };
    let amount = tax.tax;
    view! {
        <div><dt>{words}</dt><dd><data value=amount.figure()>{amount.to_string()}</data></dd></div>
    }
}

//! How each amount of a scope came about, for anyone to work out again. Everything in it comes from
//! the scope as it was shown.

use leptos::prelude::*;
use shared_types::bench::take_off::Known;
use shared_types::money::Money;
use shared_types::price::{PricedLine, Quote};
use shared_types::scope::{Scope, ScopeLine};
use shared_types::supply::sold::Use;
use shared_types::tax::TaxBasis;

/// The fold in which every amount opens.
#[component]
pub fn HowWorkedOut(
    /// The scope.
    scope: Scope,
) -> impl IntoView {
    let Scope { lines, quote, .. } = scope;
    view! {
        <details class="fold price-how">
            <summary>"How it is worked out"</summary>
            <HowEachCame lines quote />
        </details>
    }
}

/// What each amount of a quote came about from.
#[component]
pub fn HowEachCame(
    /// The lines.
    lines: Vec<ScopeLine>,
    /// What they cost.
    quote: Quote,
) -> impl IntoView {
    view! {
        <ul>{how(&lines, &quote)} {how_adjusted(&quote)}</ul>
        {quantities(&lines)}
        <p>{how_taxed(&quote)}</p>
    }
}

fn how_adjusted(quote: &Quote) -> Vec<impl IntoView + use<>> {
    let steps = quote.adjustments.iter();
    steps
        .map(|step| {
            view! { <li><span dir="auto">{step.title()}</span>": " {step.how()}</li> }
        })
        .collect()
}

fn how(lines: &[ScopeLine], quote: &Quote) -> Vec<impl IntoView + use<>> {
    let lines = lines.iter().zip(&quote.lines);
    lines
        .map(|(line, priced)| {
            let words = how_priced(line, priced, quote.hourly);
            let uses = uses(line);
            view! { <li><span dir="auto">{line.title.to_string()}</span>": " {words}{uses}</li> }
        })
        .collect()
}

/// What the line takes of each supply, each amount for anyone to work out again.
fn uses(line: &ScopeLine) -> Option<impl IntoView + use<>> {
    if line.uses.is_empty() {
        return None;
    }
    let besides =
        (!line.material.is_zero()).then(|| format!("Material besides: {}", line.material));
    let words = line.uses.iter().map(Use::words).chain(besides);
    let rows: Vec<_> = words
        .map(|words| view! { <li dir="auto">{words}</li> })
        .collect();
    Some(view! { <ul>{rows}</ul> })
}

/// How the quantities are known.
fn quantities(lines: &[ScopeLine]) -> Option<impl IntoView + use<>> {
    let uses = lines.iter().flat_map(|line| &line.uses);
    let words = Known::sentence(uses.map(|used| used.known))?;
    Some(view! { <p>{words}</p> })
}

fn how_priced(line: &ScopeLine, priced: &PricedLine, hourly: Money) -> String {
    if line.set_price.is_some() {
        return set_words(line, priced);
    }
    let work = format!(
        "{} at the bench at {hourly} an hour {}",
        line.minutes, priced.labour
    );
    let material = (priced.material, format!("material {}", priced.material));
    let rounded_up = (
        priced.rounded_up,
        format!("rounded up by {}", priced.rounded_up),
    );
    let parts = [(priced.labour, work), material, rounded_up];
    let said = parts.into_iter().filter(|(amount, _)| !amount.is_zero());
    let words: Vec<String> = said.map(|(_, words)| words).collect();
    match words.as_slice() {
        [] => "no charge.".to_owned(),
        [one] => format!("{one}."),
        several => format!("{} = {}.", several.join(" + "), priced.price),
    }
}

/// A set price, whatever the minutes, and what of it is material.
fn set_words(line: &ScopeLine, priced: &PricedLine) -> String {
    if priced.material.is_zero() {
        format!("a set price of {}.", priced.price)
    } else if line.uses.is_empty() || !priced.labour.is_zero() {
        let (price, material) = (priced.price, priced.material);
        format!("a set price of {price}, of which {material} is material.")
    } else {
        format!("a set price of {}, all of it for material.", priced.price)
    }
}

fn how_taxed(quote: &Quote) -> String {
    let taxes = quote.taxes.iter().map(|entry| match quote.basis {
        TaxBasis::Added => format!(
            "Tax of {} % on {} adds {}.",
            entry.rate, entry.on, entry.tax
        ),
        TaxBasis::Included => {
            format!(
                "{} holds {} of tax at {} %.",
                entry.on, entry.tax, entry.rate
            )
        }
    });
    let mut words: Vec<String> = taxes.collect();
    if !words.is_empty() && !quote.adjustments.is_empty() {
        words.insert(0, how_adjusted_for_tax(quote));
    }
    if words.is_empty() {
        "No tax is charged.".to_owned()
    } else {
        format!(
            "{} What is taxed, and how, is the law of the place.",
            words.join(" ")
        )
    }
}

/// What is taxed as labour and what as material, once rush, discount and minimum are in it.
fn how_adjusted_for_tax(quote: &Quote) -> String {
    let rule = "For tax a discount comes off labour and material in proportion; rush and minimum \
                charge are labour";
    match (quote.parts_of_lines(), quote.taxed) {
        (Ok(before), Some(after)) => format!(
            "{rule}: the lines are {} of labour and {} of material, and what is taxed is {} of \
             labour and {} of material.",
            before.labour, before.goods, after.labour, after.goods
        ),
        _ => format!("{rule}."),
    }
}

//! A quote as tables for people.

use std::fmt::Write as _;

use shared_types::bench::doubt::Doubt;
use shared_types::bench::take_off::Known;
use shared_types::margin::{Margin, Sums};
use shared_types::money::Money;
use shared_types::price::{PriceRules, Quote};
use shared_types::scope::ScopeLine;
use shared_types::tax::TaxBasis;

pub(super) fn quote(
    lines: &[ScopeLine],
    quote: &Quote,
    rules: &PriceRules,
    doubts: &[Doubt],
) -> anyhow::Result<String> {
    let mut table = String::new();
    let mut row = |cells: [&str; 6]| {
        let [title, minutes, labour, material, rounded, price] = cells;
        writeln!(
            table,
            "{title:<40} {minutes:>10} {labour:>12} {material:>12} {rounded:>12} {price:>14}"
        )
    };
    row([
        "work",
        "minutes",
        "labour",
        "material",
        "rounded up",
        "price",
    ])?;
    for (line, priced) in lines.iter().zip(&quote.lines) {
        row([
            line.title.as_str(),
            &line.minutes.get().to_string(),
            &priced.labour.figure(),
            &priced.material.figure(),
            &priced.rounded_up.figure(),
            &priced.price.figure(),
        ])?;
    }
    if !quote.adjustments.is_empty() {
        row(["lines", "", "", "", "", &quote.subtotal.figure()])?;
    }
    for step in &quote.adjustments {
        let signed = step.signed()?;
        let (amount, sign) = (signed.figure(), if signed.minor() < 0 { "" } else { "+" });
        row([&step.title(), "", "", "", "", &format!("{sign}{amount}")])?;
    }
    row(["before tax", "", "", "", "", &quote.adjusted()?.figure()])?;
    for tax in &quote.taxes {
        let name = match quote.basis {
            TaxBasis::Added => format!("tax {} % on {}", tax.rate, tax.on.figure()),
            TaxBasis::Included => format!("tax {} % in {}", tax.rate, tax.on.figure()),
        };
        row([&name, "", "", "", "", &tax.tax.figure()])?;
    }
    row(["total", "", "", "", "", &quote.total.to_string()])?;
    if let Some(cash) = rules.cash {
        row([
            "total in cash",
            "",
            "",
            "",
            "",
            &cash.of(quote.total)?.to_string(),
        ])?;
    }
    if let Some(deposit) = rules.deposit_on(quote.total)? {
        let name = format!("deposit asked, {} %", rules.deposit);
        row([&name, "", "", "", "", &deposit.to_string()])?;
    }
    for step in &quote.adjustments {
        writeln!(table, "{}: {}", step.title(), step.how())?;
    }
    for line in lines {
        for used in &line.uses {
            writeln!(table, "{}: {}", line.title, used.words())?;
        }
    }
    let uses = lines.iter().flat_map(|line| &line.uses);
    if let Some(words) = Known::sentence(uses.map(|used| used.known)) {
        writeln!(table, "{words}")?;
    }
    for doubt in doubts {
        writeln!(table, "Look again: {}", doubt.words)?;
    }
    Ok(table)
}

/// What the work costs the shop, and what it leaves.
pub(super) fn margin(margin: &Margin) -> anyhow::Result<String> {
    let mut table = String::new();
    let mut row = |title: &str, cells: [&str; 5]| {
        let [labour, material, price, left, percent] = cells;
        writeln!(
            table,
            "{title:<40} {labour:>12} {material:>12} {price:>14} {left:>12} {percent:>10}"
        )
    };
    row(
        "cost, for the shop only",
        ["bench", "material", "before tax", "left", "of price"],
    )?;
    let mut sums = |title: &str, sums: &Sums| {
        let [labour, material, price, left] =
            [sums.labour, sums.material, sums.price, sums.margin].map(Money::figure);
        let percent = sums.percent().unwrap_or_default();
        row(title, [&labour, &material, &price, &left, &percent])
    };
    for line in &margin.lines {
        sums(line.title.as_str(), &line.sums)?;
    }
    sums("together", &margin.total)?;
    if !margin.beside.is_zero() {
        let beside = margin.beside.figure();
        writeln!(
            table,
            "Together holds {beside} of rush, discount, minimum and rounding."
        )?;
    }
    if margin.guessed {
        let words = "Material without a supply counts at what is charged for it.";
        writeln!(table, "{words}")?;
    }
    Ok(table)
}

//! A scope as a table: each piece of work with its reason and its amount, tax, the total, and how
//! every amount came about. Everything in it comes from the scope as it was shown.

use leptos::prelude::*;
use shared_types::adjust::Adjustment;
use shared_types::money::Money;
use shared_types::price::{PricedLine, Quote};
use shared_types::scope::difference::difference;
use shared_types::scope::{Scope, ScopeLine, Side};
use shared_types::tax::TaxBasis;

use crate::elements::how_worked_out::HowWorkedOut;

/// The table, and below it how it is worked out.
#[component]
pub fn PriceTable(
    /// The scope.
    scope: Scope,
    /// What the table is, as its caption.
    caption: String,
    /// The scope before it; what came, changed or went is then marked and said.
    #[prop(optional_no_strip)]
    before: Option<Scope>,
) -> impl IntoView {
    let rows = rows_of(&scope, before.as_ref());
    view! {
        <table class="price-table">
            <caption>{caption}</caption>
            <thead class="visually-hidden">
                <tr>
                    <th scope="col">"Work"</th>
                    <th scope="col">"Amount"</th>
                </tr>
            </thead>
            <tbody>{rows.into_iter().map(row).collect_view()}</tbody>
            <tfoot>{foot(&scope.quote)}</tfoot>
        </table>
        <HowWorkedOut scope />
    }
}

/// One row of the table.
struct Row {
    title: String,
    side: Side,
    reason: Option<String>,
    amount: String,
    mark: Option<(&'static str, &'static str)>,
}

impl Row {
    fn new(
        line: &ScopeLine,
        priced: Option<&PricedLine>,
        mark: Option<(&'static str, &'static str)>,
    ) -> Self {
        Self {
            title: line.title.to_string(),
            side: line.side,
            reason: line.reason.as_ref().map(ToString::to_string),
            amount: priced
                .map(|priced| priced.price.to_string())
                .unwrap_or_default(),
            mark,
        }
    }
}

fn rows_of(scope: &Scope, before: Option<&Scope>) -> Vec<Row> {
    let changes = before.map(|before| difference(before, scope));
    let mark = |line: &ScopeLine| {
        let changes = changes.as_ref()?;
        let is = |other: &ScopeLine| std::ptr::eq(other, line);
        if changes.added.iter().any(|added| is(added)) {
            Some(("added", "Added. "))
        } else if changes.changed.iter().any(|(_, later)| is(later)) {
            Some(("changed", "Changed. "))
        } else {
            None
        }
    };
    let mut rows: Vec<Row> = scope
        .lines
        .iter()
        .zip(&scope.quote.lines)
        .map(|(line, priced)| Row::new(line, Some(priced), mark(line)))
        .collect();
    let gone = changes.iter().flat_map(|changes| &changes.removed);
    rows.extend(gone.map(|line| {
        let earlier = before
            .into_iter()
            .flat_map(|before| before.lines.iter().zip(&before.quote.lines));
        let mut priced = earlier.filter(|(other, _)| std::ptr::eq(*other, *line));
        Row::new(
            line,
            priced.next().map(|(_, priced)| priced),
            Some(("gone", "No longer done. ")),
        )
    }));
    rows
}

fn row(row: Row) -> impl IntoView {
    let side = (row.side != Side::Pair).then(|| format!(", {}", row.side.label()));
    let (code, words) = row.mark.unzip();
    let small = (words.is_some() || row.reason.is_some())
        .then(|| view! { <small dir="auto">{words}{row.reason}</small> });
    view! {
        <tr data-line=code>
            <th scope="row"><span dir="auto">{row.title}</span>{side}" "{small}</th>
            <td>{row.amount}</td>
        </tr>
    }
}

fn foot(quote: &Quote) -> impl IntoView + use<> {
    let added = quote.basis == TaxBasis::Added;
    let adjusted = !quote.adjustments.is_empty();
    let lines = adjusted.then(|| {
        view! { <tr><th scope="row">"Work and material"</th><td>{quote.subtotal.to_string()}</td></tr> }
    });
    let steps: Vec<_> = quote.adjustments.iter().map(step_row).collect();
    let before_tax = quote.adjusted();
    let before_tax = before_tax.map_or_else(|problem| problem.to_string(), |sum| sum.to_string());
    let subtotal = (added && !quote.taxes.is_empty())
        .then(|| view! { <tr><th scope="row">"Before tax"</th><td>{before_tax}</td></tr> });
    let taxes: Vec<_> = quote
        .taxes
        .iter()
        .map(|entry| {
            let tax = if added { "Tax" } else { "Of which tax" };
            let words = format!("{tax} {} % on {}", entry.rate, entry.on);
            view! { <tr><th scope="row">{words}</th><td>{entry.tax.to_string()}</td></tr> }
        })
        .collect();
    let total = view! {
        <tr data-line="total"><th scope="row">"Together"</th><td>{quote.total.to_string()}</td></tr>
    };
    // Tax that is in the price is said after it, tax on top before it.
    if added {
        (lines, steps, subtotal, taxes, total).into_any()
    } else {
        (lines, steps, total, taxes).into_any()
    }
}

fn step_row(step: &Adjustment) -> impl IntoView + use<> {
    let amount = step
        .signed()
        .map_or_else(|problem| problem.to_string(), Money::signed);
    view! { <tr><th scope="row" dir="auto">{step.title()}</th><td>{amount}</td></tr> }
}

#[cfg(all(test, feature = "ssr"))]
mod tests {
    use shared_types::adjust::{Discount, DiscountBy, ScopeTerms};
    use shared_types::price::{PriceRules, quote};
    use shared_types::tax::Rate;
    use shared_types::text::Line;

    use super::*;
    use crate::fixture;

    #[test]
    fn rush_and_discount_stand_between_the_lines_and_tax_with_how_they_came_about() {
        let mut scope = fixture::scope(&fixture::soles_and_heels(), fixture::now());
        scope.terms = ScopeTerms {
            rush: true,
            discount: Some(Discount {
                by: DiscountBy::Percent(Rate::parse("10").unwrap()),
                reason: Line::parse(fixture::WILD).unwrap(),
            }),
        };
        let rules = PriceRules {
            rush: Rate::parse("30").unwrap(),
            ..fixture::shop().prices
        };
        scope.quote = quote(&scope.lines, &scope.terms, &rules).unwrap();
        let adjusted = scope.quote.adjusted().unwrap().to_string();
        let (steps, total) = (scope.quote.adjustments.clone(), scope.total().to_string());
        let html = crate::render::page(|| {
            view! { <PriceTable scope caption="Agreed".to_owned() /> }
        });
        for step in steps {
            assert!(html.contains(&step.signed().unwrap().signed()), "{html}");
        }
        for words in ["30 % of labour ", "10 % of ", &adjusted, &total] {
            assert!(html.contains(words), "{words}: {html}");
        }
        assert!(!html.contains("<script>alert"));
    }
}

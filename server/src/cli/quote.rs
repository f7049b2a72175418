//! A quote from a JSON file: the price rules, the work, and how every amount came about.

use std::fmt::Write as _;
use std::path::Path;

use anyhow::Context as _;
use serde::Deserialize;
use shared_types::adjust::{Discount, DiscountBy, ScopeTerms};
use shared_types::minutes::Minutes;
use shared_types::money::{Currency, Money};
use shared_types::price::{PriceRules, Quote, quote};
use shared_types::scope::{ScopeLine, Side};
use shared_types::stage::Stage;
use shared_types::tax::{CashRounding, Rate, Rounding, TaxBasis, TaxRules, TaxStep};
use shared_types::text::Line;

/// The file: amounts and rates as people write them, so that no float comes near them.
#[derive(Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
struct QuoteFile {
    currency: Currency,
    hourly: String,
    #[serde(default)]
    round_up_to: Option<String>,
    tax: Tax,
    #[serde(default)]
    smallest_coin: Option<String>,
    #[serde(default)]
    minimum: Option<String>,
    /// A percentage of labour.
    #[serde(default)]
    rush_adds: Option<String>,
    /// A percentage of the total.
    #[serde(default)]
    deposit: Option<String>,
    #[serde(default)]
    rush: bool,
    #[serde(default)]
    discount: Option<Off>,
    lines: Vec<Work>,
}

/// A discount: `10 %` or `15.00`, and why.
#[derive(Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
struct Off {
    off: String,
    reason: Line,
}

#[derive(Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
struct Tax {
    labour: String,
    goods: String,
    basis: TaxBasis,
    step: TaxStep,
    rounding: Rounding,
}

#[derive(Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
struct Work {
    title: Line,
    minutes: Minutes,
    #[serde(default)]
    material: Option<String>,
}

/// Reads price rules and work from a JSON file; gives the quote as a table, or as JSON.
pub fn run(file: &Path, json: bool) -> anyhow::Result<String> {
    let text = std::fs::read_to_string(file)
        .with_context(|| format!("{} can't be read", file.display()))?;
    let file: QuoteFile = serde_json::from_str(&text)
        .with_context(|| format!("{} does not have the form of a quote", file.display()))?;
    let rules = file.rules()?;
    let lines = file.lines()?;
    let quote = quote(&lines, &file.terms()?, &rules)?;
    if json {
        return Ok(serde_json::to_string_pretty(&quote)?);
    }
    table(&lines, &quote, &rules)
}

impl QuoteFile {
    fn amount(&self, text: &str) -> anyhow::Result<Money> {
        Money::parse(text, self.currency).with_context(|| format!("the amount {text:?}"))
    }

    fn step(&self, text: &str) -> anyhow::Result<u32> {
        Ok(u32::try_from(self.amount(text)?.minor())?.max(1))
    }

    fn rules(&self) -> anyhow::Result<PriceRules> {
        let rate = |text: &str| Rate::parse(text).with_context(|| format!("the rate {text:?}"));
        let or_zero = |text: &Option<String>| text.as_deref().map_or(Ok(Rate::ZERO), rate);
        let minimum = self.minimum.as_deref().map(|text| self.amount(text));
        let coin = self.smallest_coin.as_deref();
        Ok(PriceRules {
            hourly: self.amount(&self.hourly)?,
            round_up_to: self
                .round_up_to
                .as_deref()
                .map_or(Ok(1), |text| self.step(text))?,
            tax: TaxRules {
                labour: rate(&self.tax.labour)?,
                goods: rate(&self.tax.goods)?,
                basis: self.tax.basis,
                step: self.tax.step,
                rounding: self.tax.rounding,
            },
            cash: coin
                .map(|text| self.step(text))
                .transpose()?
                .map(|step| CashRounding {
                    step,
                    rounding: Rounding::HalfUp,
                }),
            minimum: minimum.transpose()?,
            rush: or_zero(&self.rush_adds)?,
            deposit: or_zero(&self.deposit)?,
        })
    }

    fn terms(&self) -> anyhow::Result<ScopeTerms> {
        let discount = |Off { off, reason }: &Off| {
            let by = DiscountBy::parse_optional(off, self.currency);
            let by = by.with_context(|| format!("the discount {off:?}"))?;
            let reason = reason.clone();
            anyhow::Ok(by.map(|by| Discount { by, reason }))
        };
        let discount = self.discount.as_ref().map(discount).transpose()?;
        Ok(ScopeTerms {
            rush: self.rush,
            discount: discount.flatten(),
        })
    }

    fn lines(&self) -> anyhow::Result<Vec<ScopeLine>> {
        let line = |work: &Work| {
            let material = work.material.as_deref().map(|text| self.amount(text));
            Ok(ScopeLine {
                service: None,
                title: work.title.clone(),
                reason: None,
                side: Side::Pair,
                stage: Stage::Soling,
                minutes: work.minutes,
                rest: Minutes::ZERO,
                material: material.transpose()?.unwrap_or(Money::zero(self.currency)),
                uses: Vec::new(),
                set_price: None,
            })
        };
        self.lines.iter().map(line).collect()
    }
}

fn table(lines: &[ScopeLine], quote: &Quote, rules: &PriceRules) -> anyhow::Result<String> {
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
        let (amount, sign) = (signed.figure(), if signed.minor() < 0 { "-" } else { "+" });
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
    Ok(table)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn example() -> std::path::PathBuf {
        Path::new(env!("CARGO_MANIFEST_DIR")).join("src/cli/quote.example.json")
    }

    /// The worked estimate of `shared_types::price`, with invented prices and exact arithmetic:
    /// 225 min at 72.00 an hour, material 34.76, tax 8.25 % on the whole.
    #[test]
    fn the_example_adds_up_to_the_cent() {
        let table = run(&example(), false).unwrap();
        for amount in ["107.37", "304.76", "25.14", "$329.90"] {
            assert!(table.contains(amount), "{amount} is not in\n{table}");
        }
        let quote: Quote = serde_json::from_str(&run(&example(), true).unwrap()).unwrap();
        assert_eq!(quote.total.minor(), 32_990);
    }

    /// Worked by hand: labour 22.67 + 17.00, lines 49.50; rush 30 % of 39.67 = 11.90; 10 % of 61.40
    /// = 6.14 off, of which the lines bear 4.95 and material 0.92; tax 6.25 % on 8.33 = 0.52; deposit
    /// 20 % of 55.78 = 11.16.
    #[test]
    fn the_example_with_terms_adds_up_to_the_cent() {
        let file = Path::new(env!("CARGO_MANIFEST_DIR")).join("src/cli/quote-terms.example.json");
        let table = run(&file, false).unwrap();
        for words in [
            "49.50",
            "+11.90",
            "-6.14",
            "55.26",
            "on 8.33",
            "0.52",
            "$55.78",
            "$11.16",
            "Rush: 30 % of labour $39.67 = $11.90.",
            "Discount, second pair: 10 % of $61.40 = $6.14 off.",
        ] {
            assert!(table.contains(words), "{words} is not in\n{table}");
        }
        let quote: Quote = serde_json::from_str(&run(&file, true).unwrap()).unwrap();
        assert_eq!(quote.total.minor(), 5_578);
    }

    #[test]
    fn what_does_not_fit_is_named() {
        let folder = tempfile::tempdir().unwrap();
        let file = folder.path().join("quote.json");
        let text = std::fs::read_to_string(example()).unwrap();
        std::fs::write(&file, text.replace("\"72.00\"", "\"72.005\"")).unwrap();
        let error = format!("{:#}", run(&file, false).unwrap_err());
        assert!(
            error.contains("72.005") && error.contains("2 decimals"),
            "{error}"
        );
    }
}

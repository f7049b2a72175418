//! A quote from a JSON file: the price rules, the work, and how every amount came about.

mod file;
mod table;

use std::path::Path;

use anyhow::Context as _;
use shared_types::margin::margin;
use shared_types::price::quote;

use self::file::QuoteFile;

/// What is printed of a quote.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Show {
    /// A table.
    Table,
    /// The table, and what the work costs the shop and leaves.
    Cost,
    /// JSON.
    Json,
}

/// Reads price rules and work from a JSON file; gives the quote as tables, or as JSON.
pub fn run(file: &Path, show: Show) -> anyhow::Result<String> {
    let text = std::fs::read_to_string(file)
        .with_context(|| format!("{} can't be read", file.display()))?;
    let file: QuoteFile = serde_json::from_str(&text)
        .with_context(|| format!("{} does not have the form of a quote", file.display()))?;
    let (rules, costs) = (file.rules()?, file.costs()?);
    let lines = file.lines(&costs.supplies)?;
    let quote = quote(&lines, &file.terms()?, &rules)?;
    let doubts = file.doubts();
    match show {
        Show::Json => Ok(serde_json::to_string_pretty(&quote)?),
        Show::Table => table::quote(&lines, &quote, &rules, &doubts),
        Show::Cost => {
            let hour = costs
                .hour
                .context("the file says no bench-hour, what an hour at the bench costs")?;
            let margin = margin((&lines, &quote), &rules, &costs.supplies, hour)?;
            let tables = [
                table::quote(&lines, &quote, &rules, &doubts)?,
                table::margin(&margin)?,
            ];
            Ok(tables.join("\n"))
        }
    }
}

#[cfg(test)]
mod tests {
    use shared_types::price::Quote;

    use super::*;

    fn example() -> std::path::PathBuf {
        Path::new(env!("CARGO_MANIFEST_DIR")).join("src/cli/quote.example.json")
    }

    /// The worked estimate of `shared_types::price`, with invented prices and exact arithmetic:
    /// 225 min at 72.00 an hour, material 34.76, tax 8.25 % on the whole.
    #[test]
    fn the_example_adds_up_to_the_cent() {
        let table = run(&example(), Show::Table).unwrap();
        for amount in ["107.37", "304.76", "25.14", "$329.90"] {
            assert!(table.contains(amount), "{amount} is not in\n{table}");
        }
        let quote: Quote = serde_json::from_str(&run(&example(), Show::Json).unwrap()).unwrap();
        assert_eq!(quote.total.minor(), 32_990);
    }

    /// Worked by hand: labour 22.67 + 17.00, lines 49.50; rush 30 % of 39.67 = 11.90; 10 % of 61.40
    /// = 6.14 off, of which the lines bear 4.95 and material 0.92; tax 6.25 % on 8.33 = 0.52; deposit
    /// 20 % of 55.78 = 11.16.
    #[test]
    fn the_example_with_terms_adds_up_to_the_cent() {
        let file = Path::new(env!("CARGO_MANIFEST_DIR")).join("src/cli/quote-terms.example.json");
        let table = run(&file, Show::Table).unwrap();
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
        let quote: Quote = serde_json::from_str(&run(&file, Show::Json).unwrap()).unwrap();
        assert_eq!(quote.total.minor(), 5_578);
    }

    /// The worked estimate once more, from quantities: a man's foot of 270 mm has outsoles of
    /// 2 × 231.80 cm² and 2 × 467.9 mm of welt from breast to breast (worked out apart from this
    /// code, areas confirmed with the Python package shapely); waste, costs and markups invented so
    /// that prices of sale are 4.20, 7.80, 2.10, 0.90. Costs by hand: 467 min at 30.00 are 233.50;
    /// material 16.69 + 0.59 + 5.00 + 4.00 + 5.87 + 11.20 + 2.64 + 1.00 = 46.99.
    #[test]
    fn the_worked_estimate_comes_out_of_quantities_waste_and_markup() {
        let file =
            Path::new(env!("CARGO_MANIFEST_DIR")).join("src/cli/quote-supplies.example.json");
        let table = run(&file, Show::Table).unwrap();
        for words in [
            "Sole leather 4.636 dm² + 20 % = 5.5632 dm² at $4.20 a dm²: $23.37",
            "Leather welting 0.936 m + 10 % + 0.1 m for the ends = 1.1296 m at $7.80 a metre: $8.81",
            "Leather lifts 8 pieces at $2.10 a piece: $16.80",
            "Cork sheet 4.4 dm² at $0.90 a dm²: $3.96",
            "626.23",
            "51.66",
            "$677.89",
        ] {
            assert!(table.contains(words), "{words} is not in\n{table}");
        }
        assert!(
            !table.contains("cost") && !table.contains("left"),
            "{table}"
        );
        let costs = run(&file, Show::Cost).unwrap();
        assert!(costs.contains("cost, for the shop only"), "{costs}");
        let together = costs.lines().find(|line| line.starts_with("together"));
        let figures: Vec<&str> = together.unwrap().split_whitespace().skip(1).collect();
        assert_eq!(
            figures,
            ["233.50", "46.99", "626.23", "345.74", "55.2", "%"]
        );
    }

    #[test]
    fn a_quantity_that_does_not_fit_its_supply_is_named() {
        let folder = tempfile::tempdir().unwrap();
        let file = folder.path().join("quote.json");
        let example =
            Path::new(env!("CARGO_MANIFEST_DIR")).join("src/cli/quote-supplies.example.json");
        let text = std::fs::read_to_string(example).unwrap();
        let text = text.replace("\"take-off\": \"outsoles\"", "\"take-off\": \"lifts\"");
        std::fs::write(&file, text).unwrap();
        let error = format!("{:#}", run(&file, Show::Table).unwrap_err());
        assert!(error.contains("counted by the piece"), "{error}");
    }

    fn of_text(text: &str) -> Result<String, String> {
        let folder = tempfile::tempdir().unwrap();
        let file = folder.path().join("quote.json");
        std::fs::write(&file, text).unwrap();
        run(&file, Show::Table).map_err(|error| format!("{error:#}"))
    }

    #[test]
    fn what_does_not_fit_is_named() {
        let example = std::fs::read_to_string(example()).unwrap();
        let supplies =
            Path::new(env!("CARGO_MANIFEST_DIR")).join("src/cli/quote-supplies.example.json");
        let supplies = std::fs::read_to_string(supplies).unwrap();
        for (text, from, to, words) in [
            (
                &example,
                "\"72.00\"",
                "\"72.005\"",
                "\"72.005\": Amounts in this currency have 2",
            ),
            (&example, "\"72.00\"", "\"-72\"", "without a sign"),
            (
                &example,
                "\"USD\"",
                "\"XAU\"",
                "three letters of the currency",
            ),
            (&example, "null", "\"99999999.00\"", "too large to round to"),
            (
                &supplies,
                "Sole thread\", \"unit\"",
                "Sole leather\", \"unit\"",
                "two supplies are called",
            ),
            (
                &supplies,
                "\"foot-length\": 270",
                "\"foot-length\": 27",
                "27 mm can't be",
            ),
            (&supplies, "\"foot-length\": 270", "", "Give the size"),
            (
                &supplies,
                "{ \"supply\": \"Sole thread\"",
                "{ \"supply\": \"Silk\"",
                "is called Silk; add it",
            ),
            (&example, "\"72.00\"", "72.50", "in quotation marks"),
            (
                &example,
                "\"minutes\": 40",
                "\"minutes\": -40",
                "Write minutes such as 90",
            ),
            (
                &example,
                "\"minutes\": 40",
                "\"minutes\": 99999",
                "at most 30 days",
            ),
        ] {
            assert!(text.contains(from), "{from}");
            let error = of_text(&text.replace(from, to)).unwrap_err();
            assert!(error.contains(words), "{words}: {error}");
        }
    }

    #[test]
    fn a_measurement_that_looks_wrong_is_asked_about_beside_its_price() {
        let file =
            Path::new(env!("CARGO_MANIFEST_DIR")).join("src/cli/quote-supplies.example.json");
        let text = std::fs::read_to_string(file).unwrap();
        assert!(!of_text(&text).unwrap().contains("Look again"));
        let table = of_text(&text.replace("270", "360")).unwrap();
        assert!(table.contains("Look again: 360 mm?"), "{table}");
    }

    /// New Zealand: 84.45 in cash is 84.40 where a shop rounds five cents down, as its Retailers
    /// Association recommended, and 84.50 where it rounds them up.
    #[test]
    fn cash_goes_where_the_shop_rounds_it() {
        let cash = |rounding: &str| {
            let text = format!(
                r#"{{"currency": "NZD", "hourly": "60.00", "smallest-coin": "0.10", {rounding}
                "tax": {{"labour": "0", "goods": "0", "basis": "added", "step": "per-total", "rounding": "half-up"}},
                "lines": [{{"title": "Heels", "minutes": 0, "material": "84.45"}}]}}"#
            );
            let table = of_text(&text).unwrap();
            let line = table.lines().find(|line| line.starts_with("total in cash"));
            line.unwrap()
                .split_whitespace()
                .rev()
                .nth(1)
                .unwrap()
                .to_owned()
        };
        assert_eq!(cash(r#""cash-rounding": "half-down","#), "84.40");
        assert_eq!(cash(""), "84.50");
    }
}

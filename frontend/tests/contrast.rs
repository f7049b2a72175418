//! Every pair of text and ground that the tokens name reaches 4.5 : 1, by day and by night.

#![expect(clippy::float_arithmetic, reason = "contrast is a ratio of luminances")]

#[cfg(test)]
mod tests {
    use std::collections::BTreeMap;

    type Tokens = BTreeMap<String, String>;

    fn style() -> String {
        let path = concat!(env!("CARGO_MANIFEST_DIR"), "/../style/tokens.css");
        std::fs::read_to_string(path).unwrap()
    }

    /// The custom properties of a part of the file, later ones over earlier ones.
    fn tokens(css: &str) -> Tokens {
        css.lines()
            .filter_map(|line| {
                let (name, value) = line.trim().strip_prefix("--")?.split_once(':')?;
                let value = value.trim().trim_end_matches(';').to_owned();
                Some((format!("--{name}"), value))
            })
            .collect()
    }

    /// The colour behind a token, through any `var()`.
    fn colour(tokens: &Tokens, name: &str) -> [u8; 3] {
        let value = tokens
            .get(name)
            .unwrap_or_else(|| panic!("no token {name}"));
        if let Some(inner) = value.strip_prefix("var(") {
            return colour(tokens, inner.trim_end_matches(')'));
        }
        let hex = value
            .strip_prefix('#')
            .unwrap_or_else(|| panic!("{name} is no colour"));
        let part = |at: usize| u8::from_str_radix(&hex[at..at + 2], 16).unwrap();
        [part(0), part(2), part(4)]
    }

    /// WCAG 2.2, "relative luminance".
    fn luminance(colour: [u8; 3]) -> f64 {
        let [red, green, blue] = colour.map(|value| {
            let value = f64::from(value) / 255.0;
            if value <= 0.04045 {
                value / 12.92
            } else {
                ((value + 0.055) / 1.055).powf(2.4)
            }
        });
        0.2126 * red + 0.7152 * green + 0.0722 * blue
    }

    /// WCAG 2.2, "contrast ratio".
    fn contrast(one: [u8; 3], other: [u8; 3]) -> f64 {
        let (one, other) = (luminance(one), luminance(other));
        (one.max(other) + 0.05) / (one.min(other) + 0.05)
    }

    /// Known values of the formula on white: #767676 passes at 4.54, #777777 fails at 4.48.
    #[test]
    fn the_formula_is_that_of_wcag() {
        assert!((contrast([0x76; 3], [255; 3]) - 4.5422).abs() < 1e-4);
        assert!((contrast([0x77; 3], [255; 3]) - 4.4781).abs() < 1e-4);
    }

    #[test]
    fn every_named_pair_can_be_read_by_day_and_by_night() {
        let css = style();
        let (day, night) = css.split_once("prefers-color-scheme: dark").unwrap();
        let (system, chosen) = night.split_once("[data-theme=\"dark\"]").unwrap();
        assert_eq!(tokens(system), tokens(chosen.split('}').next().unwrap()));
        let day = tokens(day);
        let mut night = day.clone();
        night.extend(tokens(system));
        let pairs: Vec<(&str, &str)> = css
            .lines()
            .filter_map(|line| line.trim().strip_prefix("* contrast: ")?.split_once(" on "))
            .collect();
        assert!(pairs.len() >= 15, "the list of pairs is there");
        for (theme, tokens) in [("day", day), ("night", night)] {
            for (text, ground) in &pairs {
                let ratio = contrast(colour(&tokens, text), colour(&tokens, ground));
                assert!(ratio >= 4.5, "{text} on {ground} by {theme}: {ratio:.2}");
            }
        }
    }
}

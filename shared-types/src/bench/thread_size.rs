//! How thick a thread is: its tex, and the other counts by which it is sold.
//!
//! All of them tell length by weight, so one follows from the other exactly:
//!
//! - tex: grams for 1,000 m (ISO 1144); denier: grams for 9,000 m
//! - metric ticket: of a thread of three plies, kilometres of one ply in a kilogram
//! - cotton ticket: of three plies, hanks of 840 yards of one ply in a pound

use serde::{Deserialize, Deserializer, de};

/// Denier for one tex: 9,000 m against 1,000 m.
const DENIER: f64 = 9.0;
/// Tex × metric ticket.
const METRIC: f64 = 3_000.0;
/// Tex × cotton count: 453.59237 g for 840 yards of 0.9144 m, in grams for 1,000 m; times three plies.
const COTTON: f64 = 3.0 * 453_592.37 / (840.0 * 0.9144);

/// The denier of a thread of so many tex.
pub fn denier(tex: f64) -> f64 {
    tex * DENIER
}

/// The metric ticket of a thread of so many tex.
pub fn metric_ticket(tex: f64) -> f64 {
    METRIC / tex
}

/// The cotton ticket of a thread of so many tex.
pub fn cotton_ticket(tex: f64) -> f64 {
    COTTON / tex
}

/// The lightest and the heaviest thread for shoes in tex, from a fine upper thread to a cord (common
/// practice, no source).
pub const RANGE: (u16, u16) = (20, 3_000);

/// Why a text is no thread.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error(
    "Write the thread as its tex from 20 to 3,000, such as 270, or as 2430 denier, ticket 11 or cotton ticket 6."
)]
pub struct NotAThread;

/// Reads `270`, `tex 270`, `2430 denier`, `ticket 11` or `cotton ticket 6` as whole tex.
///
/// # Errors
/// If there is no number, its count is not known, or no shoe is sewn with such a thread.
pub fn tex(text: &str) -> Result<u16, NotAThread> {
    let text = text.trim().to_lowercase();
    let is_of_number = |letter: char| letter.is_ascii_digit() || letter == '.';
    let start = text.find(is_of_number).ok_or(NotAThread)?;
    let (before, rest) = text.split_at(start);
    let end = rest.find(|letter| !is_of_number(letter));
    let (number, after) = rest.split_at(end.unwrap_or(rest.len()));
    let number: f64 = number.parse().map_err(|_| NotAThread)?;
    let tex = match (before.trim(), after.trim()) {
        ("" | "tex", "") | ("", "tex") => number,
        ("denier", "") | ("", "denier" | "den") => number / DENIER,
        ("ticket" | "metric ticket", "") if number > 0.0 => METRIC / number,
        ("cotton ticket", "") if number > 0.0 => COTTON / number,
        _ => return Err(NotAThread),
    };
    whole(tex)
}

/// Whole tex, if a shoe is sewn with such a thread.
#[expect(
    clippy::as_conversions,
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "no other way from a float; the range was looked at"
)]
fn whole(tex: f64) -> Result<u16, NotAThread> {
    let (least, most) = RANGE;
    if (f64::from(least)..=f64::from(most)).contains(&tex) {
        Ok(tex.round() as u16)
    } else {
        Err(NotAThread)
    }
}

/// Reads a thread of JSON: a number of tex, or a text with its count.
///
/// # Errors
/// If it is no thread.
pub(super) fn read<'de, D: Deserializer<'de>>(deserializer: D) -> Result<Option<u16>, D::Error> {
    #[derive(Deserialize)]
    #[serde(untagged)]
    enum Written {
        Number(f64),
        Text(String),
    }
    let read = match Written::deserialize(deserializer)? {
        Written::Number(number) => whole(number),
        Written::Text(text) => tex(&text),
    };
    read.map(Some).map_err(de::Error::custom)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn near(what: f64, expected: f64) {
        assert!((what - expected).abs() <= 0.005, "{what} is not {expected}");
    }

    /// By Python's `fractions`: 3000 ÷ tex and 9 × tex; the definitions as in ASTM D3823 (ticket
    /// numbers) and ISO 1144 (tex), cited from memory.
    #[test]
    fn tickets_and_denier_follow_from_tex() {
        for (of, ticket, of_denier) in [
            (135.0, 22.222, 1_215.0),
            (210.0, 14.286, 1_890.0),
            (270.0, 11.111, 2_430.0),
            (350.0, 8.571, 3_150.0),
        ] {
            near(metric_ticket(of), ticket);
            near(denier(of), of_denier);
        }
        // 3 × 590.541 ÷ 270, the pound and the yard by Python's `fractions`.
        near(cotton_ticket(270.0), 6.562);
    }

    #[test]
    fn a_thread_is_read_by_any_of_its_counts() {
        for (text, expected) in [
            ("270", 270),
            ("Tex 350", 350),
            ("210 tex", 210),
            ("2430 denier", 270),
            ("1890den", 210),
            ("ticket 11", 273),
            ("metric ticket 20", 150),
            ("cotton ticket 6", 295),
        ] {
            assert_eq!(tex(text), Ok(expected), "{text}");
        }
        for text in [
            "", "thick", "0", "ticket 0", "-270", "9 lea", "5", "9000", "1.2.3", "ticket",
            "270 270",
        ] {
            assert_eq!(tex(text), Err(NotAThread), "{text}");
        }
    }
}

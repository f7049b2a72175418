//! Text that people type: a line, or words over several lines, cleaned and bounded.

use std::fmt;

use serde::{Deserialize, Serialize};

use crate::form::Problem;

/// Control characters, and the invisible ones that only re-order other text, have no place in a
/// name or a note; line breaks do, where words may have several lines.
fn is_kept(letter: char, breaks: bool) -> bool {
    match letter {
        '\n' => breaks,
        '\u{2028}'
        | '\u{2029}'
        | '\u{202a}'..='\u{202e}'
        | '\u{2066}'..='\u{2069}'
        | '\u{feff}' => false,
        other => !other.is_control(),
    }
}

fn cleaned(text: &str, breaks: bool) -> String {
    let text = text.replace("\r\n", "\n").replace('\r', "\n");
    let spaced = text.replace('\t', " ");
    let spaced = if breaks {
        spaced
    } else {
        spaced.replace('\n', " ")
    };
    spaced
        .chars()
        .filter(|letter| is_kept(*letter, breaks))
        .collect::<String>()
        .trim()
        .to_owned()
}

macro_rules! texts {
    ($($(#[$doc:meta])* $name:ident, $limit:literal, $breaks:literal);* $(;)?) => {$(
        $(#[$doc])*
        #[derive(Clone, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
        #[serde(try_from = "String", into = "String")]
        pub struct $name(String);

        impl $name {
            /// The most characters that it may have.
            pub const LIMIT: usize = $limit;

            /// Cleans and accepts text that is neither empty nor too long.
            pub fn parse(text: &str) -> Result<Self, Problem> {
                match Self::parse_optional(text)? {
                    Some(text) => Ok(text),
                    None => Err(Problem::Missing),
                }
            }

            /// The same, with nothing typed meaning nothing.
            pub fn parse_optional(text: &str) -> Result<Option<Self>, Problem> {
                let text = cleaned(text, $breaks);
                let length = text.chars().count();
                if length > Self::LIMIT {
                    return Err(Problem::TooManyLetters { length, limit: Self::LIMIT });
                }
                Ok((!text.is_empty()).then_some(Self(text)))
            }

            /// The text.
            pub fn as_str(&self) -> &str {
                &self.0
            }
        }

        impl fmt::Display for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str(&self.0)
            }
        }

        impl fmt::Debug for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                write!(f, "{:?}", self.0)
            }
        }

        impl From<$name> for String {
            fn from(text: $name) -> Self {
                text.0
            }
        }

        impl TryFrom<String> for $name {
            type Error = Problem;

            fn try_from(text: String) -> Result<Self, Problem> {
                Self::parse(&text)
            }
        }
    )*};
}

texts! {
    /// One line of text, such as the title of a scope line.
    Line, 160, false;
    /// Words over several lines, such as a progress note.
    Words, 10_000, true;
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_line_stays_one_line_and_keeps_every_script() {
        let parse = |text| Line::parse(text).map(String::from);
        assert_eq!(
            parse("  Ana\r\nBcc: x@example.com "),
            Ok("Ana Bcc: x@example.com".to_owned())
        );
        assert_eq!(parse("نور الحسن 👢"), Ok("نور الحسن 👢".to_owned()));
        assert_eq!(parse("\u{202e}gnp.exe\u{0}"), Ok("gnp.exe".to_owned()));
        assert_eq!(parse(" \u{0} "), Err(Problem::Missing));
    }

    #[test]
    fn ten_thousand_letters_fit_into_words_and_one_more_does_not() {
        assert!(Words::parse(&"é".repeat(10_000)).is_ok());
        assert!(Words::parse(&"é".repeat(10_001)).is_err());
    }
}

//! How a customer is called and reached.

use std::fmt;

use serde::{Deserialize, Serialize};

use crate::form::Problem;
use crate::text::Line;

/// A customer's name as they give it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(transparent)]
pub struct CustomerName(Line);

impl CustomerName {
    /// Accepts one line of at most 100 characters.
    pub fn parse(text: &str) -> Result<Self, Problem> {
        let line = Line::parse(text)?;
        let length = line.as_str().chars().count();
        if length > 100 {
            return Err(Problem::TooManyLetters { length, limit: 100 });
        }
        Ok(Self(line))
    }

    /// The name.
    pub fn as_str(&self) -> &str {
        self.0.as_str()
    }
}

impl fmt::Display for CustomerName {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.as_str())
    }
}

/// A mail address that can be written to: one mailbox, a domain with a dot, no comments.
#[derive(Clone, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
pub struct Email(String);

impl Email {
    /// Accepts the usual form of RFC 5321 §4.1.2 and refuses quoted local parts, address literals
    /// and anything with a line break or another control character in it.
    pub fn parse(text: &str) -> Result<Self, Problem> {
        let text = text.trim_matches(' ');
        let (local, domain) = text.rsplit_once('@').ok_or(Problem::NotAnAddress)?;
        let atom = |letter: char| {
            letter.is_ascii_alphanumeric()
                || "!#$%&'*+-/=?^_`{|}~.".contains(letter)
                || (!letter.is_ascii() && letter.is_alphanumeric())
        };
        let local_fits = !local.is_empty()
            && local.len() <= 64
            && local.chars().all(atom)
            && local.split('.').all(|part| !part.is_empty());
        let label = |label: &str| {
            !label.is_empty()
                && label.len() <= 63
                && !label.starts_with('-')
                && !label.ends_with('-')
                && label
                    .chars()
                    .all(|letter| letter == '-' || letter.is_alphanumeric())
        };
        let domain_fits =
            domain.len() <= 253 && domain.contains('.') && domain.split('.').all(label);
        if local_fits && domain_fits {
            Ok(Self(text.to_owned()))
        } else {
            Err(Problem::NotAnAddress)
        }
    }

    /// Nothing typed means no address.
    pub fn parse_optional(text: &str) -> Result<Option<Self>, Problem> {
        if text.trim().is_empty() {
            Ok(None)
        } else {
            Self::parse(text).map(Some)
        }
    }

    /// The address.
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

impl fmt::Display for Email {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

impl fmt::Debug for Email {
    // An address in a log is one too many.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("Email(…)")
    }
}

impl From<Email> for String {
    fn from(email: Email) -> Self {
        email.0
    }
}

impl TryFrom<String> for Email {
    type Error = Problem;

    fn try_from(text: String) -> Result<Self, Problem> {
        Self::parse(&text)
    }
}

/// A telephone number as people write it.
#[derive(Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
pub struct Phone(String);

impl Phone {
    /// Accepts digits with the usual marks between them; four to twenty digits.
    pub fn parse(text: &str) -> Result<Self, Problem> {
        let text = text.trim();
        let digits = text.chars().filter(char::is_ascii_digit).count();
        let fits = text
            .chars()
            .all(|letter| letter.is_ascii_digit() || " +-()./x".contains(letter));
        if fits && (4..=20).contains(&digits) {
            Ok(Self(text.to_owned()))
        } else {
            Err(Problem::NotAPhone)
        }
    }

    /// Nothing typed means no number.
    pub fn parse_optional(text: &str) -> Result<Option<Self>, Problem> {
        if text.trim().is_empty() {
            Ok(None)
        } else {
            Self::parse(text).map(Some)
        }
    }

    /// The number.
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

impl fmt::Display for Phone {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

impl fmt::Debug for Phone {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("Phone(…)")
    }
}

impl From<Phone> for String {
    fn from(phone: Phone) -> Self {
        phone.0
    }
}

impl TryFrom<String> for Phone {
    type Error = Problem;

    fn try_from(text: String) -> Result<Self, Problem> {
        Self::parse(&text)
    }
}

/// A customer of the shop. Kept apart from the record of the work, so that it can be changed or
/// forgotten without touching what was agreed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Customer {
    /// Which customer.
    pub id: crate::id::CustomerId,
    /// As they are called.
    pub name: CustomerName,
    /// Where letters go; without it the shop rings.
    pub email: Option<Email>,
    /// Where the shop rings.
    pub phone: Option<Phone>,
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn addresses_that_could_carry_a_header_are_refused() {
        for text in [
            "ana@example.com\r\nBcc: eve@example.com",
            "ana@example.com\n",
            "a\u{0}na@example.com",
            "ana@localhost",
            "ana@[127.0.0.1]",
            "a..b@example.com",
            "ana@example.com, eve@example.com",
            "\"ana b\"@example.com",
            "ana",
            "",
        ] {
            assert!(Email::parse(text).is_err(), "{text:?}");
        }
        for text in [
            "ana.lópez@example.com",
            "o'neil+boots@mail.example.org",
            "anna@bücher.example",
        ] {
            assert!(Email::parse(text).is_ok(), "{text:?}");
        }
    }
}

//! The forms for people who work here: signing in, adding someone, setting the shop up.

use crate::form::{Fields, FormErrors, Problem};
use crate::staff::Role;
use crate::text::Line;

/// A field of these forms.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum PersonField {
    /// The shop's name, when it is set up.
    Shop,
    /// The name to sign in with.
    Name,
    /// What they do.
    Role,
    /// The password.
    Password,
}

impl PersonField {
    /// The field's name in the form.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Shop => "shop",
            Self::Name => "name",
            Self::Role => "role",
            Self::Password => "password",
        }
    }
}

/// A password as typed; it is never shown, logged or kept.
#[derive(Clone, PartialEq, Eq)]
pub struct Password(String);

impl Password {
    /// The fewest characters of a password that is the only factor (NIST SP 800-63B-4 §3.1.1.2).
    pub const LEAST: usize = 15;

    /// The most characters that are looked at; more is a mistake or an attack.
    pub const MOST: usize = 256;

    /// Accepts a new password: long enough, and none of those that everybody tries first.
    pub fn parse_new(text: &str) -> Result<Self, Problem> {
        let length = text.chars().count();
        if length < Self::LEAST {
            return Err(Problem::WeakPassword { least: Self::LEAST });
        }
        if length > Self::MOST {
            return Err(Problem::TooManyLetters {
                length,
                limit: Self::MOST,
            });
        }
        let letters: std::collections::BTreeSet<char> = text.to_lowercase().chars().collect();
        let tried_first = [
            "password", "passwort", "qwerty", "12345", "letmein", "lastword",
        ];
        let mut rest = text.to_lowercase();
        for word in tried_first {
            rest = rest.replace(word, "");
        }
        if letters.len() < 5 || rest.chars().filter(|letter| letter.is_alphabetic()).count() < 5 {
            return Err(Problem::CommonPassword);
        }
        Ok(Self(text.to_owned()))
    }

    /// Takes whatever was typed at sign-in, cut at [`Password::MOST`].
    pub fn typed(text: &str) -> Self {
        Self(text.chars().take(Self::MOST).collect())
    }

    /// The bytes to hash.
    pub fn as_bytes(&self) -> &[u8] {
        self.0.as_bytes()
    }
}

impl std::fmt::Debug for Password {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str("Password(…)")
    }
}

/// Someone to be added.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NewPerson {
    /// The name to sign in with.
    pub name: Line,
    /// What they do.
    pub role: Role,
    /// Their password.
    pub password: Password,
}

/// Reads someone to be added; the set-up form has no role and makes an owner.
pub fn read(fields: &Fields, fixed: Option<Role>) -> Result<NewPerson, FormErrors<PersonField>> {
    let mut errors = FormErrors::default();
    let name = Line::parse(fields.one(PersonField::Name.name()));
    let name = errors.take(PersonField::Name, name);
    let role = fixed
        .or_else(|| Role::from_code(fields.one(PersonField::Role.name())))
        .ok_or(Problem::NotChosen);
    let role = errors.take(PersonField::Role, role);
    let password = Password::parse_new(fields.one(PersonField::Password.name()));
    let password = errors.take(PersonField::Password, password);
    match (name, role, password) {
        (Some(name), Some(role), Some(password)) => Ok(NewPerson {
            name,
            role,
            password,
        }),
        _ => Err(errors),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn passwords_are_long_and_not_the_first_that_anyone_tries() {
        for text in [
            "short",
            "aaaaaaaaaaaaaaaaaaaa",
            "password12345678",
            "Qwerty12345Qwerty",
        ] {
            assert!(Password::parse_new(text).is_err(), "{text}");
        }
        assert!(Password::parse_new("waxed linen and beech pegs").is_ok());
        assert!(Password::parse_new("пятнадцать смол").is_ok());
    }
}

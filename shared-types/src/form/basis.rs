//! On which agreed scope a form was filled in.
//!
//! Ticks that keep agreed lines name them by their places, which mean nothing in another scope; so
//! the form names the scope, and once it has moved the ticks are carried over line by line.

use std::fmt;
use std::str::FromStr;

use crate::digest::Digest;
use crate::form::Fields;
use crate::form::scope::ScopeField;
use crate::scope::ScopeLine;
use crate::scope::sheet::{ChoiceKey, Matter};
use crate::ticket::Pair;

/// An agreed scope, by the revision that agreed to it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Basis {
    revision: Digest,
    choice: Option<ChoiceKey>,
}

/// The text names no scope.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error("this names no agreed scope")]
pub struct NotABasis;

impl Basis {
    /// What is agreed on this pair now.
    pub fn of(pair: &Pair) -> Option<Self> {
        let mut revisions = pair.revisions.iter().rev();
        revisions.find_map(|revision| {
            let choice = match revision.sheet.matter {
                Matter::Agreement(_) => None,
                Matter::Offer(_) => Some(revision.accepted()?.key),
            };
            Some(Self {
                revision: revision.digest,
                choice,
            })
        })
    }

    /// The lines of it.
    fn lines(self, pair: &Pair) -> Option<&[ScopeLine]> {
        let mut revisions = pair.revisions.iter();
        let sheet = &revisions.find(|one| one.digest == self.revision)?.sheet;
        Some(match self.choice {
            None => &sheet.agreed.lines,
            Some(key) => &sheet.choice(key)?.scope.lines,
        })
    }
}

impl fmt::Display for Basis {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.choice {
            None => self.revision.fmt(f),
            Some(key) => write!(f, "{}-{}", self.revision, key.code()),
        }
    }
}

impl FromStr for Basis {
    type Err = NotABasis;

    fn from_str(text: &str) -> Result<Self, NotABasis> {
        let (revision, choice) = match text.split_once('-') {
            None => (text, None),
            Some((revision, key)) => {
                let key = ChoiceKey::from_code(key).ok_or(NotABasis)?;
                (revision, Some(key))
            }
        };
        let revision = revision.parse().map_err(|_| NotABasis)?;
        Ok(Self { revision, choice })
    }
}

/// Carries a form's ticks over to what is agreed now, and says whether that had moved since.
///
/// Lines that stand in both keep their ticks, and lines that came since are kept; those that are agreed
/// by now are not asked for once more. `name` is the field that holds the basis; a form without it
/// is from before there was one, and is taken as it is.
pub fn carry_over(fields: &mut Fields, name: &str, prefixes: &[String], pair: &Pair) -> bool {
    let Some(now) = Basis::of(pair) else {
        return false;
    };
    let typed = fields.one(name).parse::<Basis>().ok();
    fields.set(name, now.to_string());
    let Some(then) = typed.filter(|then| *then != now) else {
        return false;
    };
    let before = then.lines(pair).unwrap_or_default();
    let after = &pair.agreed().lines;
    for prefix in prefixes {
        carry(fields, prefix, before, after);
    }
    true
}

fn carry(fields: &mut Fields, prefix: &str, before: &[ScopeLine], after: &[ScopeLine]) {
    let (keep, service) = (
        ScopeField::Keep.name(prefix),
        ScopeField::Service.name(prefix),
    );
    let is_same = |one: &ScopeLine, other: &ScopeLine| {
        (one.service, one.side, &one.title) == (other.service, other.side, &other.title)
    };
    let mut left: Vec<(bool, &ScopeLine)> = before
        .iter()
        .enumerate()
        .map(|(place, line)| (fields.has(&keep, &place.to_string()), line))
        .collect();
    fields.remove(&keep);
    for (place, line) in after.iter().enumerate() {
        let known = left.iter().position(|(_, old)| is_same(old, line));
        let kept = known.is_none_or(|known| left.remove(known).0);
        if kept {
            fields.push(keep.clone(), place.to_string());
            if let Some(id) = line.service {
                fields.untick(&service, &id.to_string());
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::id::ServiceId;
    use crate::minutes::Minutes;
    use crate::money::{Currency, Money};
    use crate::scope::Side;
    use crate::stage::Stage;
    use crate::text::Line;

    fn line(number: u8) -> ScopeLine {
        ScopeLine {
            service: Some(ServiceId::from_bytes([number; 16])),
            title: Line::parse(&format!("Work {number}")).unwrap(),
            reason: None,
            side: Side::Pair,
            stage: Stage::Soling,
            minutes: Minutes::new(10),
            rest: Minutes::ZERO,
            material: Money::zero(Currency::USD),
            uses: Vec::new(),
            set_price: None,
        }
    }

    #[test]
    fn ticks_follow_their_lines_and_not_their_places() {
        let before = [line(1), line(2), line(3)];
        let after = [line(3), line(4), line(5), line(1)];
        let mut fields = Fields::default();
        // 1 and 3 are kept, 2 falls away, and 4 is asked for, which is agreed by now.
        fields.push("a-keep", "0");
        fields.push("a-keep", "2");
        fields.push("a-service", line(4).service.unwrap().to_string());
        fields.push("a-service", line(6).service.unwrap().to_string());
        carry(&mut fields, "a-", &before, &after);
        let kept: Vec<&str> = fields.all("a-keep").collect();
        assert_eq!(kept, ["0", "1", "2", "3"]);
        let asked: Vec<String> = fields.all("a-service").map(str::to_owned).collect();
        assert_eq!(asked, [line(6).service.unwrap().to_string()]);

        let mut fields = Fields::default();
        fields.push("a-keep", "1");
        carry(&mut fields, "a-", &before, &[line(3), line(2), line(1)]);
        let kept: Vec<&str> = fields.all("a-keep").collect();
        assert_eq!(kept, ["1"], "what was dropped stays dropped");
    }

    #[test]
    fn a_basis_comes_back_from_its_text() {
        let revision = Digest::of(b"a sheet");
        for choice in [None, Some(ChoiceKey::B)] {
            let basis = Basis { revision, choice };
            assert_eq!(basis.to_string().parse(), Ok(basis));
        }
        assert_eq!("".parse::<Basis>(), Err(NotABasis));
    }
}

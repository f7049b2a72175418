//! A sheet: one immutable revision of a pair's scope, holding exactly what was shown.
//!
//! Its digest is SHA-256 over its canonical JSON (RFC 8785), and pages, letters and receipts are
//! rendered from the sheet alone, so that what was shown is what was agreed. Pictures are in it
//! by their own digests.

use std::collections::BTreeSet;
use std::fmt;

use serde::{Deserialize, Serialize};
use time::Date;

use crate::digest::{Digest, canonical_json};
use crate::minutes::Minutes;
use crate::moment::Moment;
use crate::money::{Money, MoneyProblem};
use crate::promise::answers::AnswerDay;
use crate::promise::chance::Chance;
use crate::scope::Scope;
use crate::scope::discovery::Discovery;
use crate::scope::offer::{Revision, Word};
use crate::shop::Shop;
use crate::text::{Line, Words};
use crate::ticket::{Tag, TicketNumber};

/// One revision of a pair's scope.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Sheet {
    /// The shop's name.
    pub shop: Line,
    /// The claim number.
    pub ticket: TicketNumber,
    /// The pair's tag.
    pub tag: Tag,
    /// What the pair is, in words.
    pub pair: Line,
    /// Revisions count from 1 for each pair.
    pub revision: u32,
    /// The digest of the revision before it.
    pub before: Option<Digest>,
    /// When it was made.
    pub made_at: Moment,
    /// The chance with which the shop keeps the days that stand here; sheets of shops that did not
    /// plan with one have none.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub chance: Option<Chance>,
    /// The scope that is agreed as far as this sheet goes, with its price and its day.
    pub agreed: Scope,
    /// What the sheet is for.
    pub matter: Matter,
}

/// What a sheet is for.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", tag = "kind")]
pub enum Matter {
    /// It records what was agreed in another way than by answering an offer.
    Agreement(Agreement),
    /// It offers added scope and waits for the customer's word.
    Offer(Offer),
}

/// How the scope of an agreement sheet was agreed.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Agreement {
    /// Where the word was given.
    pub given: Given,
    /// Why the scope changed, or what was said.
    pub words: Option<Words>,
    /// Cautions of which the customer was told before agreeing.
    pub cautions: Vec<Words>,
    /// The deposit that was asked for at taking in.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub deposit: Option<Money>,
}

/// Where a word was given other than by the customer's own link.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Given {
    /// In the shop.
    AtTheCounter,
    /// By telephone.
    ByTelephone,
}

impl Given {
    /// All ways.
    pub const ALL: [Self; 2] = [Self::AtTheCounter, Self::ByTelephone];

    /// Its stored code.
    pub const fn code(self) -> &'static str {
        match self {
            Self::AtTheCounter => "at-the-counter",
            Self::ByTelephone => "by-telephone",
        }
    }

    /// Finds a way by its code.
    pub fn from_code(code: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|given| given.code() == code)
    }

    /// Its name for people.
    pub const fn label(self) -> &'static str {
        match self {
            Self::AtTheCounter => "at the counter",
            Self::ByTelephone => "by telephone",
        }
    }
}

/// Added scope put to the customer: what was found, and one to three choices.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Offer {
    /// What was found, in plain words.
    pub found: Words,
    /// What of it the rules know; offers made before there were rules have none.
    #[serde(default, skip_serializing_if = "BTreeSet::is_empty")]
    pub discoveries: BTreeSet<Discovery>,
    /// Pictures of it.
    pub pictures: Vec<Picture>,
    /// The choices, at least one and at most three.
    pub choices: Vec<Choice>,
    /// What follows from declining, said honestly.
    pub if_declined: Words,
    /// The day by which the pair is ready if the offer is declined at once: the agreed one, or a
    /// later one if that can no longer be kept.
    pub ready_if_declined: Date,
    /// Whether the agreed work can't be done soundly on the pair as it was found, so that a no does
    /// not simply go on with it.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub agreed_fails: bool,
    /// The days if it is declined later, the soonest first; empty if all are that one.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub days_if_declined: Vec<AnswerDay>,
    /// Until when it can be answered; after that it has lapsed.
    pub answer_by: Moment,
    /// How long an answer can be taken back, unless the bench has started.
    pub take_back: Minutes,
    /// Cautions that must be acknowledged before accepting.
    pub cautions: Vec<Words>,
}

/// A picture, by the digest of its file.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Picture {
    /// SHA-256 of the picture's file as it is served.
    pub digest: Digest,
    /// What it shows, also for those who can't see it.
    pub shows: Option<Line>,
}

/// One way to go on, complete with its price and day.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Choice {
    /// Which of the choices.
    pub key: ChoiceKey,
    /// Its name.
    pub title: Line,
    /// What it means, in plain words.
    pub words: Option<Words>,
    /// The whole scope if this is chosen, with the day that an answer in time keeps.
    pub scope: Scope,
    /// The days that answers give, the soonest first; never empty.
    pub days: Vec<AnswerDay>,
}

impl Choice {
    /// The day by which the pair is ready if this is chosen at `at`.
    pub fn ready_if_answered(&self, at: Moment) -> Date {
        day_of_answer(&self.days, at).unwrap_or(self.scope.ready_by)
    }

    /// The days that answers from `at` on give, the soonest first.
    pub fn days_ahead(&self, at: Moment) -> &[AnswerDay] {
        ahead(&self.days, at)
    }

    /// What it costs more (or less) than the agreed scope.
    pub fn difference(&self, agreed: &Scope) -> Result<Money, MoneyProblem> {
        self.scope.total().minus(agreed.total())
    }
}

impl Offer {
    /// The day by which the pair is ready if the offer is declined at `at`.
    pub fn ready_if_declined_at(&self, at: Moment) -> Date {
        day_of_answer(&self.days_if_declined, at).unwrap_or(self.ready_if_declined)
    }

    /// The days that declining from `at` on gives, the soonest first; empty if all are the same.
    pub fn days_ahead_if_declined(&self, at: Moment) -> &[AnswerDay] {
        ahead(&self.days_if_declined, at)
    }

    /// Whether all that is shown still holds `now`, if these are the days of its choices and of
    /// declining as they are worked out now.
    pub fn still_holds(
        &self,
        now: Moment,
        choices: &[&[AnswerDay]],
        declined: &[AnswerDay],
    ) -> bool {
        let if_declined = AnswerDay {
            answered_by: self.answer_by,
            ready_by: self.ready_if_declined,
        };
        let if_declined = match self.days_if_declined.as_slice() {
            [] => std::slice::from_ref(&if_declined),
            days => days,
        };
        let shown = self.choices.iter().map(|choice| choice.days.as_slice());
        now < self.answer_by
            && shown
                .zip(choices)
                .all(|(shown, fresh)| hold(shown, fresh, now))
            && (self.agreed_fails || hold(if_declined, declined, now))
    }
}

/// Whether no answer from `now` on gives a later day than was shown. The moments themselves may
/// have moved by the half hour at which answers are taken up: chances are not known more exactly.
fn hold(shown: &[AnswerDay], fresh: &[AnswerDay], now: Moment) -> bool {
    ahead(shown, now).iter().all(|day| {
        let at = day.answered_by.plus(-time::Duration::minutes(30)).max(now);
        day_of_answer(fresh, at).is_some_and(|fresh| fresh <= day.ready_by)
    })
}

fn ahead(days: &[AnswerDay], at: Moment) -> &[AnswerDay] {
    let past = days.partition_point(|day| day.answered_by < at);
    days.get(past..).unwrap_or_default()
}

fn day_of_answer(days: &[AnswerDay], at: Moment) -> Option<Date> {
    let day = days.iter().find(|day| at <= day.answered_by);
    day.or(days.last()).map(|day| day.ready_by)
}

/// The letter of a choice.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum ChoiceKey {
    /// The first.
    A,
    /// The second.
    B,
    /// The third.
    C,
}

impl ChoiceKey {
    /// All letters.
    pub const ALL: [Self; 3] = [Self::A, Self::B, Self::C];

    /// Its stored code.
    pub const fn code(self) -> &'static str {
        match self {
            Self::A => "a",
            Self::B => "b",
            Self::C => "c",
        }
    }

    /// Finds a letter by its code.
    pub fn from_code(code: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|key| key.code() == code)
    }
}

impl fmt::Display for ChoiceKey {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::A => "A",
            Self::B => "B",
            Self::C => "C",
        })
    }
}

impl Sheet {
    /// The next revision of a pair's scope; the first if the pair has none yet.
    pub fn next(
        shop: &Shop,
        (ticket, tag, pair): (TicketNumber, Tag, Line),
        before: Option<&Revision>,
        (agreed, matter): (Scope, Matter),
        now: Moment,
    ) -> Self {
        Self {
            shop: shop.name.clone(),
            ticket,
            tag,
            pair,
            revision: before.map_or(1, |revision| revision.sheet.revision + 1),
            before: before.map(|revision| revision.digest),
            made_at: now,
            chance: Some(shop.chance),
            agreed,
            matter,
        }
    }

    /// SHA-256 over the canonical JSON of the sheet.
    pub fn digest(&self) -> Result<Digest, serde_json::Error> {
        Ok(Digest::of(canonical_json(self)?.as_bytes()))
    }

    /// The offer, if it is one.
    pub const fn offer(&self) -> Option<&Offer> {
        match &self.matter {
            Matter::Offer(offer) => Some(offer),
            Matter::Agreement(_) => None,
        }
    }

    /// The scope that stands after this word.
    pub fn scope_after(&self, word: Word) -> &Scope {
        let chosen = match word {
            Word::Accept(key) => self.choice(key),
            Word::Decline => None,
        };
        chosen.map_or(&self.agreed, |choice| &choice.scope)
    }

    /// The promise that stands after this word, given at `at`.
    pub fn ready_after(&self, word: Word, at: Moment) -> Date {
        let day = match word {
            Word::Accept(key) => self.choice(key).map(|choice| choice.ready_if_answered(at)),
            Word::Decline => self.offer().map(|offer| offer.ready_if_declined_at(at)),
        };
        day.unwrap_or(self.agreed.ready_by)
    }

    /// The choice with this letter, if the sheet offers it.
    pub fn choice(&self, key: ChoiceKey) -> Option<&Choice> {
        self.offer()?
            .choices
            .iter()
            .find(|choice| choice.key == key)
    }
}

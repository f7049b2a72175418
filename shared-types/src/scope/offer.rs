//! Where an offer stands: a pure function of its sheet, its answers, what came after, and now.

use serde::{Deserialize, Serialize};

use crate::digest::Digest;
use crate::moment::Moment;
use crate::scope::sheet::{Choice, ChoiceKey, Given, Sheet};
use crate::text::{Line, Words};
use crate::ticket::event::Actor;

/// The customer's word on an offer.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", tag = "word", content = "choice")]
pub enum Word {
    /// Yes to this choice.
    Accept(ChoiceKey),
    /// No; the pair goes on as it was agreed.
    Decline,
}

impl Word {
    /// Its code in a form: the letter of a choice, or `decline`.
    pub const fn code(self) -> &'static str {
        match self {
            Self::Accept(key) => key.code(),
            Self::Decline => "decline",
        }
    }

    /// Finds a word by its code.
    pub fn from_code(code: &str) -> Option<Self> {
        if code == Self::Decline.code() {
            Some(Self::Decline)
        } else {
            ChoiceKey::from_code(code).map(Self::Accept)
        }
    }
}

/// How a word reached the shop.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", tag = "by")]
pub enum Via {
    /// On the page behind the customer's link, named by the digest of its key.
    Link {
        /// SHA-256 of the link's key.
        link: Digest,
    },
    /// Told to someone in the shop, who wrote it down.
    Told {
        /// Where.
        given: Given,
        /// Who gave it, and the number that was rung.
        said_by: Line,
    },
}

/// A word once given, and whether it was taken back.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Answer {
    /// Counts the words on one offer from 0; a page names the turn that it answers.
    pub turn: u32,
    /// The word.
    pub word: Word,
    /// How it came.
    pub via: Via,
    /// Who wrote it down.
    pub actor: Actor,
    /// When.
    pub at: Moment,
    /// Whether the sheet's cautions were acknowledged with it.
    pub acknowledged: bool,
    /// When it was taken back.
    pub taken_back_at: Option<Moment>,
}

/// One revision in a pair's record with all that happened to it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Revision {
    /// What was shown.
    pub sheet: Sheet,
    /// The sheet's digest.
    pub digest: Digest,
    /// Who made it.
    pub made_by: Actor,
    /// Words on it, in order.
    pub answers: Vec<Answer>,
    /// When the shop withdrew it, and why.
    pub withdrawn: Option<(Moment, Option<Words>)>,
}

impl Revision {
    /// The word that stands, if one does.
    pub fn standing(&self) -> Option<&Answer> {
        self.answers
            .last()
            .filter(|answer| answer.taken_back_at.is_none())
    }

    /// The turn that a page shown now would answer.
    pub fn turn(&self) -> u32 {
        u32::try_from(self.answers.len()).unwrap_or(u32::MAX)
    }

    /// The choice that was accepted and stands.
    pub fn accepted(&self) -> Option<&Choice> {
        match self.standing()?.word {
            Word::Accept(key) => self.sheet.choice(key),
            Word::Decline => None,
        }
    }
}

/// Where an offer stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum OfferState {
    /// It waits for the customer's word.
    Open {
        /// Until when.
        answer_by: Moment,
    },
    /// The customer gave a word that stands.
    Answered {
        /// The word.
        word: Word,
        /// When.
        at: Moment,
        /// Until when it can be taken back; nothing when it no longer can.
        take_back_until: Option<Moment>,
    },
    /// A later revision took its place.
    Superseded,
    /// The shop withdrew it.
    Withdrawn,
    /// Nobody answered in time.
    Lapsed {
        /// When it lapsed.
        answer_by: Moment,
    },
}

/// Why a word could not be recorded; each says how things stand and what to do.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum Refused {
    /// There is no such offer here.
    #[error("We could not find this offer on your ticket. Below is how things stand.")]
    Unknown,
    /// A later revision took its place.
    #[error(
        "This offer was replaced by a newer one, so nothing was recorded. Below is how things stand now."
    )]
    Superseded,
    /// The shop withdrew it.
    #[error(
        "We have withdrawn this offer, so nothing was recorded. Below is how things stand now."
    )]
    Withdrawn,
    /// Too late to answer.
    #[error(
        "The time to answer this offer has passed, so nothing was recorded. Please ring us or ask below, and we will work out a new day."
    )]
    Lapsed,
    /// Somebody answered it before.
    #[error("This offer already has an answer, so nothing was changed. Below is what was agreed.")]
    AlreadyAnswered,
    /// The page was older than the record.
    #[error(
        "Something changed after this page was opened, so nothing was recorded. Please read it again as it stands now."
    )]
    PageTooOld,
    /// The day that the page showed can no longer be kept.
    #[error(
        "The time to keep that day passed while this page was open, so nothing was recorded. Below \
         is the day that can be kept now; please choose again."
    )]
    DayMoved,
    /// Nothing to take back.
    #[error("There is no answer to take back. Below is how things stand.")]
    NothingToTakeBack,
    /// Too late to take back.
    #[error(
        "The time to take this answer back has passed. Please ring us: as long as nothing is cut, we will find a way."
    )]
    TakeBackOver,
    /// The bench has started.
    #[error(
        "The bench has started on this work, so the answer can no longer be taken back here. Please ring us."
    )]
    BenchStarted,
    /// A caution was not acknowledged.
    #[error(
        "Please read the caution and tick that you have, then choose again. Nothing was recorded yet."
    )]
    CautionNotAcknowledged,
}

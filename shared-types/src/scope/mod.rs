//! Scope: the agreed list of work on a pair, and how it may change.
//!
//! - [`ScopeLine`] and [`Scope`]: the work, its price and its day
//! - [`sheet`]: an immutable revision of a pair's scope, as it was shown
//! - [`offer`]: where an offer of added scope stands, and what may be answered
//! - [`difference`]: what changed from one scope to the next
//! - [`discovery`]: what a teardown can show
//! - [`rules`]: what lines require and exclude, and the choices that follow

pub mod difference;
pub mod discovery;
pub mod offer;
pub mod rules;
pub mod sheet;

use serde::{Deserialize, Serialize};
use time::Date;

use crate::adjust::ScopeTerms;
use crate::bench::take_off::Known;
use crate::id::ServiceId;
use crate::minutes::Minutes;
use crate::money::{Money, MoneyProblem};
use crate::price::{Quote, quote};
use crate::shop::Shop;
use crate::stage::Stage;
use crate::supply::sold::Use;
use crate::text::{Line, Words};

/// Which shoe of the pair a line is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Side {
    /// Both shoes.
    Pair,
    /// The left one.
    Left,
    /// The right one.
    Right,
}

impl Side {
    /// All sides.
    pub const ALL: [Self; 3] = [Self::Pair, Self::Left, Self::Right];

    /// Its stored code.
    pub const fn code(self) -> &'static str {
        match self {
            Self::Pair => "pair",
            Self::Left => "left",
            Self::Right => "right",
        }
    }

    /// Finds a side by its code.
    pub fn from_code(code: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|side| side.code() == code)
    }

    /// Its name for people.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Pair => "both shoes",
            Self::Left => "left shoe",
            Self::Right => "right shoe",
        }
    }
}

/// One piece of work on a pair.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct ScopeLine {
    /// The service of the price book that it came from, if any.
    pub service: Option<ServiceId>,
    /// As bench and customer call it.
    pub title: Line,
    /// Why it is there, in plain words.
    pub reason: Option<Words>,
    /// Which shoe.
    pub side: Side,
    /// The stage in which it is done.
    pub stage: Stage,
    /// Bench minutes.
    pub minutes: Minutes,
    /// Rest after it, in clock minutes.
    pub rest: Minutes,
    /// Material beside the supplies in [`ScopeLine::uses`].
    pub material: Money,
    /// Supplies, each with its quantity and its amount.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub uses: Vec<Use>,
    /// What the line costs before tax, if that is set whatever the minutes.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub set_price: Option<Money>,
}

impl ScopeLine {
    /// Whether it is the same work, for whatever reason.
    pub fn is_same_work(&self, other: &Self) -> bool {
        let reason = &self.reason;
        *self
            == Self {
                reason: reason.clone(),
                ..other.clone()
            }
    }
}

/// The work on a pair and its terms, before it is priced and dated.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Work {
    /// The lines.
    pub lines: Vec<ScopeLine>,
    /// Rush and discount.
    pub terms: ScopeTerms,
}

/// Whether a quantity was worked out for a usual size because the pair's own is not known.
pub fn assumes_size(lines: &[ScopeLine]) -> bool {
    let mut uses = lines.iter().flat_map(|line| &line.uses);
    uses.any(|used| used.known == Known::UsualSize)
}

/// A scope with its price and its day, as it is shown and agreed.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Scope {
    /// The work.
    pub lines: Vec<ScopeLine>,
    /// Rush and discount.
    #[serde(default, skip_serializing_if = "ScopeTerms::is_plain")]
    pub terms: ScopeTerms,
    /// What it costs.
    pub quote: Quote,
    /// The promise: the day by which the pair will be ready.
    pub ready_by: Date,
}

/// Why a scope could not be priced and dated.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum ScopeProblem {
    /// Nothing to do.
    #[error("This scope has no lines. Choose at least one piece of work.")]
    Empty,
    /// More lines than anyone reads.
    #[error(
        "A scope has at most {} lines. Put small work together.",
        Scope::MOST_LINES
    )]
    TooManyLines,
    /// The amounts do not work out.
    #[error(transparent)]
    Price(#[from] MoneyProblem),
    /// A discount that is more than there is to pay.
    #[error(
        "This discount of {discount} is more than the work costs, {price}. Take off that much at \
         most, or write 100 % if it is a gift."
    )]
    DiscountBeyond {
        /// The discount.
        discount: Money,
        /// What it comes off.
        price: Money,
    },
    /// Nobody is at the bench for as far as the plan looks ahead.
    #[error(
        "No day can be given, because nobody is at the bench in the shop's open hours. The owner \
         can set the hours and who is in."
    )]
    NoDay,
}

impl Scope {
    /// The most lines that a scope may have.
    pub const MOST_LINES: usize = 60;

    /// Prices this work, and dates it as `ready_by` says, were it agreed now.
    pub fn work_out(
        work: Work,
        shop: &Shop,
        ready_by: impl FnOnce(&[ScopeLine]) -> Result<Date, ScopeProblem>,
    ) -> Result<Self, ScopeProblem> {
        let Work { lines, terms } = work;
        if lines.is_empty() {
            return Err(ScopeProblem::Empty);
        }
        if lines.len() > Self::MOST_LINES {
            return Err(ScopeProblem::TooManyLines);
        }
        let quote = quote(&lines, &terms, &shop.prices)?;
        let ready_by = ready_by(&lines)?;
        Ok(Self {
            lines,
            terms,
            quote,
            ready_by,
        })
    }

    /// The scope, unless its discount is more than its price. In an offer a standing discount goes
    /// as far as the price of the choice; typed anew it is a slip.
    pub fn refuse_discount_beyond(self) -> Result<Self, ScopeProblem> {
        match self.quote.discount_beyond() {
            Some((discount, price)) => Err(ScopeProblem::DiscountBeyond { discount, price }),
            None => Ok(self),
        }
    }

    /// What the customer pays for it.
    pub const fn total(&self) -> Money {
        self.quote.total
    }

    /// Bench minutes of all lines.
    pub fn minutes(&self) -> Minutes {
        self.lines.iter().map(|line| line.minutes).sum()
    }
}

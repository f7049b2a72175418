//! What was typed, and what is wrong with it, in words that stand beside the field.
//!
//! A form keeps its raw [`Fields`], so that a page can show again exactly what was typed; its
//! `read` function turns them into domain values or [`FormErrors`].

pub mod advice;
pub mod basis;
pub mod hands;
pub mod intake;
pub mod measure;
pub mod mend;
pub mod offer;
pub mod people;
pub mod rule;
pub mod scope;
pub mod service;
pub mod settings;
pub mod supply;
pub mod what_if;

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use time::Date;

use crate::cement::CementProblem;
use crate::minutes::Minutes;
use crate::money::Money;
use crate::scope::ScopeProblem;
use crate::size::ShoeSize;

/// Why a field's text was not accepted.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum Problem {
    /// Nothing was typed where something is needed.
    #[error("Please fill this in.")]
    Missing,
    /// More characters than fit.
    #[error("This has {length} characters; at most {limit} fit. Please shorten it.")]
    TooManyLetters {
        /// Characters typed.
        length: usize,
        /// Characters that fit.
        limit: usize,
    },
    /// Not a mail address that can be written to.
    #[error(
        "This is not a mail address we can write to, such as name@example.com. Check it, or leave it empty and we ring."
    )]
    NotAnAddress,
    /// Not a telephone number.
    #[error("A telephone number has 4 to 20 digits, such as 555-0134.")]
    NotAPhone,
    /// Not an amount of money.
    #[error("Write an amount such as 84 or 1,234.50, without a sign before it.")]
    NotMoney,
    /// More decimals than the currency has.
    #[error("Amounts in this currency have {digits} decimals at most.")]
    TooManyDecimals {
        /// Decimals of the currency.
        digits: u32,
    },
    /// An amount beyond all reason.
    #[error("This amount is too large. Check it for a slipped digit.")]
    TooMuchMoney,
    /// Not a quantity of a supply.
    #[error("Write a quantity such as 2 or 0.35, with at most three decimals.")]
    NotAQuantity,
    /// A quantity of the bench sheet for a supply that is sold by something else.
    #[error("The bench sheet counts this by the {counted}, but the supply goes by the {sold}.")]
    UnitsDiffer {
        /// How the bench sheet counts.
        counted: &'static str,
        /// How the supply is sold.
        sold: &'static str,
    },
    /// A set price that its material alone uses up.
    #[error(
        "The material of a usual pair ({size}) comes to {material}, and a set price has to cover it."
    )]
    BelowMaterial {
        /// The size of a usual pair.
        size: ShoeSize,
        /// What its material comes to.
        material: Money,
    },
    /// Not a number of minutes.
    #[error("Write minutes such as 90, or hours and minutes such as 1:30.")]
    NotMinutes,
    /// A span beyond its limit.
    #[error("This is too long; at most {limit}.")]
    TooLong {
        /// The longest span, in words.
        limit: String,
    },
    /// Not a percentage.
    #[error("Write a percentage from 0 to 100 with at most 4 decimals, such as 6.25.")]
    NotARate,
    /// Not a currency of ISO 4217.
    #[error("Write the three letters of the currency, such as USD, EUR or JPY.")]
    UnknownCurrency,
    /// Not a zone of the IANA database.
    #[error("Write the zone's name as Region/City, such as America/Denver.")]
    UnknownZone,
    /// Not a size of the chosen system.
    #[error(
        "This size does not exist in that system. Copy what is stamped in the shoe, such as 44, 9.5 or 9.5 D, thirds as the nearest half, and check the system."
    )]
    NotASize,
    /// Not a day.
    #[error("Write days as year-month-day, such as 2026-12-24.")]
    NotADay,
    /// A day that can't be promised.
    #[error("{0}")]
    NotKept(String),
    /// Not a time of day, or closing before opening.
    #[error("Write hours such as 9:00–17:30, or leave both empty for a closed day.")]
    NotHours,
    /// No work was picked.
    #[error("Pick at least one piece of work.")]
    NoWork,
    /// Alternatives that are fewer than two.
    #[error("Pick at least two.")]
    PickTwo,
    /// Rules that don't go together, and which to change.
    #[error("{0}")]
    RulesClash(String),
    /// An offer without a choice.
    #[error("An offer needs at least one choice with a title and its work.")]
    NoChoice,
    /// The customer was not told of a caution.
    #[error("Tell the customer of the caution and tick this before you go on.")]
    CautionNotTold,
    /// Work that does not hang together, with what would mend it.
    #[error("{0}")]
    HangsNotTogether(String),
    /// A scope that can't be priced or dated.
    #[error(transparent)]
    Scope(#[from] ScopeProblem),
    /// One of a list must be chosen.
    #[error("Please choose one.")]
    NotChosen,
    /// A password that is too short.
    #[error("A password needs at least {least} characters; a sentence is easiest to keep.")]
    WeakPassword {
        /// Fewest characters.
        least: usize,
    },
    /// A password that everybody tries first.
    #[error("This password is among the first that anyone tries. Take a sentence of your own.")]
    CommonPassword,
    /// The name is already taken.
    #[error("Someone here already has this name. Add an initial.")]
    NameTaken,
    /// A picture was not usable.
    #[error("{0}")]
    Picture(#[from] PictureProblem),
    /// Not a length in a unit that fits.
    #[error("Write a number such as 4.8, in one of these units: {units}.")]
    NotALength {
        /// The units, in words.
        units: String,
    },
    /// A length that can't be.
    #[error("{0}")]
    Impossible(String),
    /// A length that is to be looked at again.
    #[error("{0}")]
    Questioned(String),
    /// A long job that would take less than a usual one.
    #[error(
        "The usual job takes {usual}; one in ten takes longer than that. Leave this empty for half as long again."
    )]
    UnderTheUsual {
        /// The usual minutes.
        usual: Minutes,
    },
    /// Cement that can't be so.
    #[error(transparent)]
    Cement(CementProblem),
    /// Nobody at the bench.
    #[error("Somebody must be at the bench on some day, or no day can be promised.")]
    NobodyAtTheBench,
    /// More bench minutes than the shop is open.
    #[error(
        "The shop is open for {open} that day. Write at most that, or leave it empty for all of it."
    )]
    LongerThanOpen {
        /// The open minutes.
        open: Minutes,
    },
    /// Days away that can't be read.
    #[error(
        "Write a day as 2026-12-24, or the first and the last as 2026-12-24 to 2027-01-02; one a line."
    )]
    NotDaysAway,
    /// A day away that is over.
    #[error("{day} is past. Take it out, or check the year.")]
    DayIsPast {
        /// The day.
        day: Date,
    },
    /// A day away that lies too far ahead.
    #[error("{day} is more than two years ahead. Check the year.")]
    DayTooFar {
        /// The day.
        day: Date,
    },
    /// Two stations of one name.
    #[error(
        "This station stands here already. If there are two, give each a name of its own, such as finisher 2."
    )]
    StationTwice,
    /// A pair that is not open.
    #[error("There is no open pair {tag} any more. Choose another, or leave this empty.")]
    NotOpen {
        /// What was asked for.
        tag: String,
    },
    /// Somebody who is not at the bench.
    #[error("Nobody called {name} is at the bench any more. Choose somebody else.")]
    NotAtTheBench {
        /// Who was asked for.
        name: String,
    },
    /// Something that the shop does not have.
    #[error("The shop has no {name} any more. Choose something else.")]
    NotInTheShop {
        /// What was asked for.
        name: String,
    },
    /// A job without minutes and without work.
    #[error("Write how many minutes it takes, or tick its work below.")]
    NoJob,
    /// A pair that is to be worked on and left at once.
    #[error("This pair is to be left out as well. Take one of the two back.")]
    LeftOut,
    /// A number outside its range.
    #[error("Write a whole number from {least} to {most}.")]
    OutOfRange {
        /// Smallest.
        least: u32,
        /// Largest.
        most: u32,
    },
}

/// Why a picture could not be taken.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum PictureProblem {
    /// Too many bytes.
    #[error(
        "This picture is larger than 15 MB. Take it again at a lower setting; the rest of the form is kept."
    )]
    TooLarge,
    /// Not JPEG, PNG or WebP.
    #[error(
        "This is not a picture we can read. Use JPEG, PNG or WebP; the rest of the form is kept."
    )]
    NotAPicture,
    /// A picture that ends too early.
    #[error(
        "This picture did not arrive whole. Please send it again; the rest of the form is kept."
    )]
    Broken,
    /// Too many pixels.
    #[error("This picture has too many pixels (at most 12,000 a side). Send a smaller one.")]
    TooManyPixels,
}

/// Problems by field, each shown beside its field; `F` is the form's own list of fields.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FormErrors<F: Ord>(BTreeMap<F, Problem>);

impl<F: Ord> Default for FormErrors<F> {
    fn default() -> Self {
        Self(BTreeMap::new())
    }
}

impl<F: Ord + Clone> FormErrors<F> {
    /// Keeps the problem and gives nothing, or gives the value.
    pub fn take<T>(&mut self, field: F, parsed: Result<T, Problem>) -> Option<T> {
        match parsed {
            Ok(value) => Some(value),
            Err(problem) => {
                self.add(field, problem);
                None
            }
        }
    }

    /// Adds a problem; the first of a field stays.
    pub fn add(&mut self, field: F, problem: Problem) {
        self.0.entry(field).or_insert(problem);
    }

    /// Adds these problems; the first of a field stays.
    pub fn extend(&mut self, found: Self) {
        for (field, problem) in found.0 {
            self.add(field, problem);
        }
    }

    /// The problem beside this field.
    pub fn at(&self, field: &F) -> Option<String> {
        self.0.get(field).map(ToString::to_string)
    }

    /// Whether nothing is wrong.
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// All of them, in the order of the fields.
    pub fn iter(&self) -> impl Iterator<Item = (&F, &Problem)> {
        self.0.iter()
    }
}

/// The fields of a form as they were typed, in order; a name may come several times.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Fields(Vec<(String, String)>);

impl Fields {
    /// Adds one field.
    pub fn push(&mut self, name: impl Into<String>, value: impl Into<String>) {
        self.0.push((name.into(), value.into()));
    }

    /// Puts one value in the place of all that this name has.
    pub fn set(&mut self, name: &str, value: impl Into<String>) {
        self.remove(name);
        self.push(name, value);
    }

    /// Takes all values of this name away.
    pub fn remove(&mut self, name: &str) {
        self.0.retain(|(known, _)| known != name);
    }

    /// Takes one value of this name away, as when a box is unticked.
    pub fn untick(&mut self, name: &str, value: &str) {
        self.0
            .retain(|(known, ticked)| known != name || ticked != value);
    }

    /// The first value of this name, or nothing typed.
    pub fn one(&self, name: &str) -> &str {
        let named = self.0.iter().find(|(known, _)| known == name);
        named.map_or("", |(_, value)| value)
    }

    /// All values of this name.
    pub fn all(&self, name: &str) -> impl Iterator<Item = &str> {
        let named = self.0.iter().filter(move |(known, _)| known == name);
        named.map(|(_, value)| value.as_str())
    }

    /// Whether this name has this value, as with a ticked box.
    pub fn has(&self, name: &str, value: &str) -> bool {
        self.all(name).any(|known| known == value)
    }
}

impl FromIterator<(String, String)> for Fields {
    fn from_iter<I: IntoIterator<Item = (String, String)>>(fields: I) -> Self {
        Self(fields.into_iter().collect())
    }
}

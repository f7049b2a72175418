//! Cement that has to be joined while it holds: both faces are coated, dry until they no longer come
//! off on a finger, and are pressed together before they have dried too far.

use serde::{Deserialize, Serialize};

use crate::minutes::Minutes;

/// How long cement dries in the middle of a piece of work, and what is done after it.
///
/// Solvent cements are touch-dry some 15 to 20 minutes after the second coat and stay open for up to
/// an hour; water-based ones take 30 to 60 minutes (common practice; the maker's sheet decides).
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(try_from = "Written", into = "Written")]
pub struct Cement {
    dries: Minutes,
    open: Minutes,
    joining: Minutes,
}

/// Why cement can't be so.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum CementProblem {
    /// It would have dried too far before it is dry enough.
    #[error("Cement stays open at least as long as it has to dry. Look at the maker's sheet.")]
    ClosesBeforeItDries,
    /// No work from the joining on.
    #[error("Joining takes some of the minutes: write how many, or leave all three empty.")]
    NothingToJoin,
    /// Nothing of the work is left for the coats.
    #[error("The whole job takes {usual}: joining has to leave some of it for the coats.")]
    NoTimeForCoats {
        /// The usual minutes.
        usual: Minutes,
    },
}

impl Cement {
    /// Cement that `dries` for so many clock minutes at least, stays `open` for so many at most, and
    /// leaves so many of the bench minutes for the `joining`.
    pub fn new(dries: Minutes, open: Minutes, joining: Minutes) -> Result<Self, CementProblem> {
        if open < dries || open == Minutes::ZERO {
            return Err(CementProblem::ClosesBeforeItDries);
        }
        if joining == Minutes::ZERO {
            return Err(CementProblem::NothingToJoin);
        }
        Ok(Self {
            dries,
            open,
            joining,
        })
    }

    /// Clock minutes that it dries at least.
    pub const fn dries(self) -> Minutes {
        self.dries
    }

    /// Clock minutes that it stays open at most.
    pub const fn open(self) -> Minutes {
        self.open
    }

    /// Bench minutes from the joining on.
    pub const fn joining(self) -> Minutes {
        self.joining
    }

    /// Bench minutes until the cement is on and from the joining on, of a piece of work that usually
    /// takes so many.
    pub fn parts_of(self, usual: Minutes) -> Result<(Minutes, Minutes), CementProblem> {
        match usual.get().checked_sub(self.joining.get()) {
            None | Some(0) => Err(CementProblem::NoTimeForCoats { usual }),
            Some(coats) => Ok((Minutes::new(coats), self.joining)),
        }
    }
}

/// The form in which it is stored.
#[derive(Serialize, Deserialize)]
struct Written {
    dries: Minutes,
    open: Minutes,
    joining: Minutes,
}

impl TryFrom<Written> for Cement {
    type Error = CementProblem;

    fn try_from(written: Written) -> Result<Self, CementProblem> {
        Self::new(written.dries, written.open, written.joining)
    }
}

impl From<Cement> for Written {
    fn from(cement: Cement) -> Self {
        Self {
            dries: cement.dries,
            open: cement.open,
            joining: cement.joining,
        }
    }
}

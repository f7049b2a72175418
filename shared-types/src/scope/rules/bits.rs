//! A small set of services as the bits of one number.

use std::ops::{BitAnd, BitOr, BitOrAssign, Sub};

/// A set of positions below [`Bits::MOST`].
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Bits(u128);

impl Bits {
    /// How many positions there are.
    pub(super) const MOST: usize = 128;

    pub(super) const NONE: Self = Self(0);

    /// The one at this position, which is below [`Bits::MOST`].
    pub(super) const fn one(position: usize) -> Self {
        Self(1 << position)
    }

    pub(super) const fn is_empty(self) -> bool {
        self.0 == 0
    }

    pub(super) const fn count(self) -> u32 {
        self.0.count_ones()
    }

    /// Whether the two have something in common.
    pub(super) const fn meets(self, other: Self) -> bool {
        self.0 & other.0 != 0
    }

    pub(super) const fn has(self, position: usize) -> bool {
        self.meets(Self::one(position))
    }

    /// The positions, rising.
    pub(super) fn positions(self) -> impl Iterator<Item = usize> {
        (0..Self::MOST).filter(move |position| self.has(*position))
    }
}

impl BitOr for Bits {
    type Output = Self;

    fn bitor(self, other: Self) -> Self {
        Self(self.0 | other.0)
    }
}

impl BitOrAssign for Bits {
    fn bitor_assign(&mut self, other: Self) {
        self.0 |= other.0;
    }
}

impl BitAnd for Bits {
    type Output = Self;

    fn bitand(self, other: Self) -> Self {
        Self(self.0 & other.0)
    }
}

impl Sub for Bits {
    type Output = Self;

    fn sub(self, other: Self) -> Self {
        Self(self.0 & !other.0)
    }
}

impl FromIterator<usize> for Bits {
    fn from_iter<I: IntoIterator<Item = usize>>(positions: I) -> Self {
        positions
            .into_iter()
            .fold(Self::NONE, |all, position| all | Self::one(position))
    }
}

/// Follows a relation (by position, what leads there) through every chain of it.
pub(super) fn closed(mut relation: Vec<Bits>) -> Vec<Bits> {
    for between in 0..relation.len() {
        let before = relation[between];
        for bits in &mut relation {
            if bits.has(between) {
                *bits |= before;
            }
        }
    }
    relation
}

//! Lengths, and the ways in which the trade writes them: millimetres, irons, ounces, inches, stitches
//! to the inch.

mod reading;

use std::fmt;
use std::ops::{Add, Mul, Neg, Sub};

use serde::{Deserialize, Serialize};

pub(crate) use reading::length;
pub use reading::{LengthUnit, NotALength, Reading};

/// Millimetres in an inch, exactly (international inch, 1959).
pub const INCH: f64 = 25.4;

macro_rules! quantity {
    ($(#[$doc:meta])* $name:ident) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq, PartialOrd, Serialize, Deserialize)]
        #[serde(transparent)]
        pub struct $name(pub f64);

        impl Add for $name {
            type Output = Self;
            fn add(self, other: Self) -> Self {
                Self(self.0 + other.0)
            }
        }

        impl Sub for $name {
            type Output = Self;
            fn sub(self, other: Self) -> Self {
                Self(self.0 - other.0)
            }
        }

        impl Mul<f64> for $name {
            type Output = Self;
            fn mul(self, times: f64) -> Self {
                Self(self.0 * times)
            }
        }

        impl Neg for $name {
            type Output = Self;
            fn neg(self) -> Self {
                Self(-self.0)
            }
        }
    };
}

quantity!(
    /// A length, a thickness or a change of one.
    Millimetres
);
quantity!(
    /// A thickness of sole leather: 1/48 inch (GNU Units, `shoeiron`).
    Irons
);
quantity!(
    /// A thickness of upper leather: 1/64 inch (GNU Units, `shoeounce`).
    Ounces
);
quantity!(
    /// An area.
    SquareCentimetres
);
quantity!(
    /// An angle.
    Degrees
);

impl Millimetres {
    /// The same in irons.
    pub fn irons(self) -> Irons {
        Irons(self.0 * 48.0 / INCH)
    }

    /// The same in ounces.
    pub fn ounces(self) -> Ounces {
        Ounces(self.0 * 64.0 / INCH)
    }

    /// Without its sign.
    #[must_use]
    pub fn size(self) -> Self {
        Self(self.0.abs())
    }
}

impl fmt::Display for Millimetres {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} mm", plain(self.0))
    }
}

/// A number with one decimal, or none if that is zero; never a negative zero.
pub(crate) fn plain(number: f64) -> String {
    let text = format!("{number:.1}");
    let text = text.strip_suffix(".0").unwrap_or(&text);
    if text == "-0" {
        "0".to_owned()
    } else {
        text.to_owned()
    }
}

//! Typed ids: one macro, so that a pair's id can never be passed where a ticket's is meant.

use std::fmt;
use std::str::FromStr;

use serde::{Deserialize, Serialize};
use uuid::Uuid;

/// The text is not an id of ours.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error("this is not an id of ours")]
pub struct NotAnId;

macro_rules! ids {
    ($($(#[$doc:meta])* $name:ident),* $(,)?) => {$(
        $(#[$doc])*
        #[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
        #[serde(transparent)]
        pub struct $name(Uuid);

        impl $name {
            /// Wraps 16 bytes that the caller made, usually as UUID version 7 (RFC 9562 §5.7).
            pub const fn from_bytes(bytes: [u8; 16]) -> Self {
                Self(Uuid::from_bytes(bytes))
            }
        }

        impl fmt::Display for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                self.0.as_hyphenated().fmt(f)
            }
        }

        impl fmt::Debug for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                write!(f, concat!(stringify!($name), "({})"), self.0.as_hyphenated())
            }
        }

        impl FromStr for $name {
            type Err = NotAnId;

            fn from_str(text: &str) -> Result<Self, NotAnId> {
                // Only the hyphenated form: one id has one spelling.
                if text.len() == 36 {
                    Uuid::try_parse(text).map(Self).map_err(|_| NotAnId)
                } else {
                    Err(NotAnId)
                }
            }
        }
    )*};
}

ids! {
    /// What one customer left at one time.
    TicketId,
    /// One pair of a ticket.
    PairId,
    /// A customer of the shop.
    CustomerId,
    /// Someone who works in the shop.
    StaffId,
    /// A service of the price book.
    ServiceId,
    /// A supply that the shop keeps.
    SupplyId,
    /// A letter in the outbox.
    LetterId,
    /// A progress note.
    NoteId,
}

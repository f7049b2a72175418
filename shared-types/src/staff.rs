//! Who works in the shop and what each may do.

use serde::{Deserialize, Serialize};

use crate::id::StaffId;
use crate::text::Line;

/// What someone does in the shop.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Role {
    /// Runs the shop.
    Owner,
    /// Serves customers.
    Counter,
    /// Works at the bench.
    Bench,
}

impl Role {
    /// All roles.
    pub const ALL: [Self; 3] = [Self::Owner, Self::Counter, Self::Bench];

    /// Its stored code.
    pub const fn code(self) -> &'static str {
        match self {
            Self::Owner => "owner",
            Self::Counter => "counter",
            Self::Bench => "bench",
        }
    }

    /// Its name for people.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Owner => "Owner",
            Self::Counter => "Counter",
            Self::Bench => "Bench",
        }
    }

    /// Finds a role by its code.
    pub fn from_code(code: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|role| role.code() == code)
    }

    /// Whether this role may do that.
    pub const fn may(self, permission: Permission) -> bool {
        match permission {
            Permission::SeeTickets | Permission::PostNotes | Permission::EditScope => true,
            Permission::TakeIn | Permission::TakeMoney | Permission::SeeLetters => {
                matches!(self, Self::Owner | Self::Counter)
            }
            Permission::WorkOnPairs => matches!(self, Self::Owner | Self::Bench),
            Permission::RunTheShop => matches!(self, Self::Owner),
        }
    }
}

/// Something that not everybody in the shop may do.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Permission {
    /// Open tickets and pairs.
    SeeTickets,
    /// Take pairs in, change a customer, renew a link.
    TakeIn,
    /// Record payments and hand pairs over.
    TakeMoney,
    /// Move a pair's stage, hold it, start on agreed work.
    WorkOnPairs,
    /// Write progress notes.
    PostNotes,
    /// Offer added scope, record a word given at the counter or by telephone.
    EditScope,
    /// Read the letters that went out.
    SeeLetters,
    /// Prices, settings and people.
    RunTheShop,
}

/// Someone who works in the shop.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Staff {
    /// Who.
    pub id: StaffId,
    /// The name they sign in with.
    pub name: Line,
    /// What they do.
    pub role: Role,
}

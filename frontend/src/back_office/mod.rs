//! The shop's pages, one file each.

use std::collections::BTreeMap;

use shared_types::id::StaffId;
use shared_types::text::Line;

pub mod bench;
pub mod bench_sheet;
pub mod claim;
pub mod compose;
pub mod edit_scope;
pub mod find;
pub mod hands;
pub mod intake;
pub mod letters;
pub mod measure;
pub mod pair;
pub mod people;
pub mod plan;
pub mod preview;
pub mod prices;
pub mod revisions;
pub mod rules;
#[cfg(all(test, feature = "ssr"))]
mod said;
mod service_form;
mod service_plan;
pub mod settings;
pub mod setup;
pub mod sign_in;
pub mod supplies;
pub mod ticket;
pub mod today;

/// Names of all who ever worked here, for the record's "who".
pub type Names = BTreeMap<StaffId, Line>;

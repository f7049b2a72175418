//! Customers: how they are called and reached. Kept apart from the record of the work.

mod queries;

pub(crate) use queries::{add, change, find, get};

/// A pattern for `like … escape '!'` that finds this text anywhere, whatever signs it has.
pub(crate) fn containing(text: &str) -> String {
    let escaped = text
        .trim()
        .to_lowercase()
        .replace('!', "!!")
        .replace('%', "!%")
        .replace('_', "!_");
    format!("%{escaped}%")
}

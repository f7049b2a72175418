//! What more than one page uses.

pub mod field;
pub mod flash;
pub mod hours;

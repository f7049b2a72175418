//! The customer's pages, one file each.

pub mod home;
pub mod link_unknown;
pub mod offer;
pub mod receipt;
#[cfg(test)]
mod tests;
pub mod ticket;
pub mod trouble;
pub mod word;

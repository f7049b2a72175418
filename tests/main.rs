//! Journeys through the running shop, told as its customers and its people live them.
//!
//! `cargo xtask test` brings what they need: both databases, a browser, a mail server's other end.

#[macro_use]
mod harness;

mod back_office;
mod browser;
mod portal;
mod process;

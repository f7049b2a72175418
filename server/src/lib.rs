//! The Lastword server.
//!
//! Code map: the frame first, then one folder for each feature (a slice).
//! - [`config`], [`clock`], [`db`]: what enters from outside
//! - [`app`]: everything a request needs, and the router, one line for each slice
//! - `request`, `page`, `error`, `guard`, `listen`, `assets`: HTTP, known only here and to handlers
//! - `record`: a ticket's record: load, change, verify; the only writer of entries
//! - slices: `shop`, `pricebook`, `staff`, `customers`, `counter`, `bench`, `scope`, `portal`,
//!   `photos`, `notices`, `today`
//! - `plan`: all open work, ready to be planned
//! - `mail`: the outbox and who delivers it
//! - [`demo`]: fills the invented shop
//! - [`cli`]: the computation from the command line
//!
//! A slice's `queries` is private to it. Slices call each other only through what the top of
//! their `mod.rs` offers.

pub mod app;
mod assets;
mod bench;
pub mod cli;
pub mod clock;
pub mod config;
mod counter;
mod customers;
pub mod db;
pub mod demo;
mod error;
mod guard;
pub mod listen;
pub mod mail;
mod notices;
mod page;
mod photos;
mod plan;
mod portal;
mod pricebook;
pub mod record;
mod request;
mod rules;
mod scope;
mod shop;
mod staff;
mod today;

pub use staff::setup_path;

//! The same shop in a real browser, with scripts and without.

mod accessible;
mod bench;
mod demo;
mod driver;
mod keyboard;
mod pictures;
mod whole_job;

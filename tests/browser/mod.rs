//! The same shop in a real browser, with scripts and without.

mod bench;
mod driver;
mod keyboard;
mod whole_job;

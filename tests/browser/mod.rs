//! The same shop in a real browser, with scripts and without.

mod bench;
mod driver;
mod keyboard;
mod pictures;
mod whole_job;

//! `cargo xtask`: builds, demonstrates and tests Lastword from a bare Rust toolchain.
//!
//! - [`demo`], [`mod@test`], [`ci`], [`tidy`] and [`islands`] are the commands.
//! - [`system`] finds or installs what they need, [`postgres`] lends a database, [`step`] runs programs.

mod ci;
mod demo;
mod islands;
mod postgres;
mod step;
mod system;
mod test;
mod tidy;

use std::process::ExitCode;

use clap::Parser;

/// Builds, demonstrates and tests Lastword.
#[derive(Parser)]
#[command(bin_name = "cargo xtask")]
enum Task {
    /// Build everything and open a shop full of examples.
    Demo(demo::Options),
    /// Check style and run every test, on both databases, over SMTP and in a browser.
    Test(test::Options),
    /// Do what `test` does, and build the documentation of private items too.
    Ci,
    /// Build only what runs in the browser.
    Islands(islands::Options),
    /// Check the rules of the source tree which no compiler knows.
    Tidy,
}

fn main() -> ExitCode {
    let outcome = match Task::parse() {
        Task::Demo(options) => demo::run(&options),
        Task::Test(options) => test::run(&options),
        Task::Ci => ci::run(),
        Task::Islands(options) => islands::run(&options),
        Task::Tidy => tidy::run(),
    };
    outcome.unwrap_or_else(|error| {
        step::say(format!("{error:#}"));
        ExitCode::FAILURE
    })
}

//! `cargo xtask ci`: the tests, and the documentation of everything, private items too.

use std::process::ExitCode;

use anyhow::Result;

use crate::step::{self, cargo, say};
use crate::test::{self, Machine};

pub(crate) fn run() -> Result<ExitCode> {
    let machine = Machine::prepare()?;
    test::check()?;
    say("building the documentation…");
    step::run(
        cargo()
            .args([
                "doc",
                "--workspace",
                "--no-deps",
                "--document-private-items",
            ])
            .env("RUSTDOCFLAGS", "-D warnings"),
    )?;
    test::everything(machine, &[])
}

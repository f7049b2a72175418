//! `cargo xtask test`: everything that must hold, in the order that fails soonest.

use std::path::PathBuf;
use std::process::ExitCode;

use anyhow::Result;

use crate::islands::{self, Toolchain};
use crate::postgres::Cluster;
use crate::step::{self, cargo, say, target};
use crate::{system, tidy};

#[derive(clap::Args)]
pub(crate) struct Options {
    /// What to hand on to `cargo test`, such as part of a test's name.
    #[arg(last = true)]
    filters: Vec<String>,
}

pub(crate) fn run(options: &Options) -> Result<ExitCode> {
    let machine = Machine::prepare()?;
    check()?;
    everything(machine, &options.filters)
}

/// What the tests need around them; gathered first, so that what is missing is known at once.
pub(crate) struct Machine {
    toolchain: Toolchain,
    browser: PathBuf,
    browser_driver: PathBuf,
    postgres: PathBuf,
    smtp_peer_python: PathBuf,
    axe: PathBuf,
}

impl Machine {
    pub(crate) fn prepare() -> Result<Self> {
        system::linters()?;
        Ok(Self {
            toolchain: Toolchain::find()?,
            browser: system::BROWSER.meet()?,
            browser_driver: system::BROWSER_DRIVER.meet()?,
            postgres: system::POSTGRES.meet()?,
            smtp_peer_python: system::smtp_peer_python()?,
            axe: system::axe()?,
        })
    }
}

/// Layout, lints and the rules of the tree.
pub(crate) fn check() -> Result<()> {
    say("checking layout, lints and the rules of the tree…");
    step::run(cargo().args(["fmt", "--all", "--check"]))?;
    tidy::check()?;
    step::run(cargo().args([
        "clippy",
        "--workspace",
        "--all-targets",
        "--",
        "-D",
        "warnings",
    ]))
}

/// Builds all there is and runs all tests; the last word is cargo's.
pub(crate) fn everything(machine: Machine, filters: &[String]) -> Result<ExitCode> {
    let islands = islands::build(machine.toolchain)?;
    say("building the server and its tests (a few minutes the first time)…");
    step::run(cargo().args(["build", "--workspace", "--bins", "--tests"]))?;

    say("starting PostgreSQL…");
    let postgres = Cluster::start(&machine.postgres)?;
    say("running every test…");
    let status = cargo()
        .args(["test", "--workspace", "--no-fail-fast"])
        .args(filters)
        .env("LASTWORD_ISLANDS", islands)
        .env("LASTWORD_TEST_BIN", target().join("debug/lastword"))
        .env("LASTWORD_TEST_POSTGRES", postgres.url())
        .env("LASTWORD_TEST_SMTP_PEER_PYTHON", machine.smtp_peer_python)
        .env("LASTWORD_TEST_AXE", machine.axe)
        .env("CHROMIUM", machine.browser)
        .env("CHROMEDRIVER", machine.browser_driver)
        .status()?;
    Ok(if status.success() {
        ExitCode::SUCCESS
    } else {
        ExitCode::FAILURE
    })
}

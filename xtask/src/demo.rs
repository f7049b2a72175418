//! `cargo xtask demo`: a shop full of examples, from a bare machine to a page in the browser.

use std::os::unix::process::CommandExt;
use std::path::PathBuf;
use std::process::{Command, ExitCode};

use anyhow::{Context, Result};

use crate::islands::{self, Toolchain};
use crate::step::{self, cargo, root, say, target};

#[derive(clap::Args)]
pub(crate) struct Options {
    /// The address the shop is served on.
    #[arg(long, default_value = "127.0.0.1:8080")]
    listen: String,
    /// The folder that keeps the shop's data.
    #[arg(long, default_value = "demo-data")]
    data: PathBuf,
    /// Forget what earlier demonstrations left and fill the shop anew.
    #[arg(long)]
    fresh: bool,
}

/// Becomes the server, so that Ctrl-C and signals reach it and nothing stands between.
pub(crate) fn run(options: &Options) -> Result<ExitCode> {
    let islands = match Toolchain::find() {
        Ok(toolchain) => Some(islands::build(toolchain)?),
        Err(missing) => {
            say(format!("{missing:#}"));
            say("going on without islands: every page works, some are plainer");
            None
        }
    };
    say("building the server (a few minutes the first time)…");
    step::run(cargo().args(["build", "-p", "server", "--bin", "lastword"]))?;

    say("opening the shop…");
    let mut server = Command::new(target().join("debug/lastword"));
    server
        .current_dir(root())
        .args(["demo", "--listen", &options.listen, "--data"])
        .arg(&options.data);
    if options.fresh {
        server.arg("--fresh");
    }
    if let Some(islands) = islands {
        server.arg("--islands").arg(islands);
    }
    Err(server.exec()).context("could not start the server")
}

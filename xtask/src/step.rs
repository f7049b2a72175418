//! One step of a task: say what happens, run a program, insist that it succeeds.

use std::env;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use anyhow::{Context, Result, ensure};

/// Tells the person at the terminal what is going on, between the lines of the programs we run.
#[expect(clippy::print_stderr, reason = "a task's only output is the terminal")]
pub(crate) fn say(message: impl AsRef<str>) {
    eprintln!("xtask: {}", message.as_ref());
}

/// Runs a program with its output on the terminal; failing is an error that names the command.
pub(crate) fn run(command: &mut Command) -> Result<()> {
    let status = command
        .status()
        .with_context(|| format!("could not start {command:?}"))?;
    ensure!(
        status.success(),
        "this command failed ({status}):\n  {command:?}"
    );
    Ok(())
}

/// Whether a program can be started and succeeds; what it prints is of no interest.
pub(crate) fn succeeds(command: &mut Command) -> bool {
    command
        .stdin(Stdio::null())
        .stdout(Stdio::null())
        .stderr(Stdio::null())
        .status()
        .is_ok_and(|status| status.success())
}

/// The cargo that runs this task, at the root of the workspace.
pub(crate) fn cargo() -> Command {
    let mut cargo = Command::new(env::var_os("CARGO").unwrap_or_else(|| "cargo".into()));
    cargo.current_dir(root());
    cargo
}

/// The root of the workspace.
pub(crate) fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
        .parent()
        .expect("xtask lies in the workspace")
}

/// Where cargo puts what it builds.
pub(crate) fn target() -> PathBuf {
    root().join(env::var_os("CARGO_TARGET_DIR").unwrap_or_else(|| "target".into()))
}

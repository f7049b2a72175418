//! The real program, run as a process of its own.

use std::io::{BufRead as _, BufReader};
use std::path::Path;
use std::process::{Child, Command, Output, Stdio};

use anyhow::{Context as _, Result, ensure};

use crate::harness::handed;

/// A running program.
pub(crate) struct Program {
    running: Child,
    /// Where it is up.
    pub(crate) origin: String,
    /// What it said until it was up.
    pub(crate) said: String,
}

impl Program {
    /// Serves from this folder and waits until the program says that it is up.
    pub(crate) fn serve(data: &Path, listen: &str, database: Option<&str>) -> Result<Self> {
        let mut command = command()?;
        command
            .args(["serve", "--listen", listen, "--data"])
            .arg(data);
        if let Some(database) = database {
            command.args(["--database", database]);
        }
        Self::starts(command, |line| line.strip_prefix("Lastword is up at "))
    }

    /// Opens the invented shop in this folder and waits until it has printed its last line.
    pub(crate) fn demo(data: &Path) -> Result<Self> {
        let mut command = command()?;
        command
            .args(["demo", "--listen", "127.0.0.1:0", "--data"])
            .arg(data)
            .args(["--islands", &handed("LASTWORD_ISLANDS")?]);
        // The third customer's link is the last line; the origin stands in it.
        Self::starts(command, |line| {
            let (origin, _) = line.trim().split_once("/t/")?;
            line.contains("two pairs").then_some(origin)
        })
    }

    fn starts(mut command: Command, origin: impl Fn(&str) -> Option<&str>) -> Result<Self> {
        let mut running = command
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()?;
        let lines = BufReader::new(running.stdout.take().context("its output")?).lines();
        let mut said = String::new();
        for line in lines {
            let line = line?;
            said.push_str(&line);
            said.push('\n');
            if let Some(origin) = origin(&line) {
                let origin = origin.to_owned();
                return Ok(Self {
                    running,
                    origin,
                    said,
                });
            }
        }
        let _ = running.wait();
        anyhow::bail!("the program ended before it was up: {said}")
    }

    /// The address that it listens on.
    pub(crate) fn listens_on(&self) -> Result<String> {
        let address = self.origin.strip_prefix("http://");
        Ok(address.context("an address without TLS")?.to_owned())
    }

    /// Kills it without warning.
    pub(crate) fn dies(mut self) -> Result<()> {
        self.running.kill()?;
        self.running.wait()?;
        Ok(())
    }

    /// Asks it to stop, as a service manager does, and waits until it has.
    pub(crate) fn stops(mut self) -> Result<()> {
        let id = self.running.id().to_string();
        ensure!(
            Command::new("kill")
                .args(["-TERM", &id])
                .status()?
                .success()
        );
        let status = self.running.wait()?;
        ensure!(status.success(), "it stopped with {status}");
        Ok(())
    }
}

impl Drop for Program {
    fn drop(&mut self) {
        self.running.kill().ok();
        self.running.wait().ok();
    }
}

/// Runs the program with these arguments to its end.
pub(crate) fn run(arguments: &[&str]) -> Result<Output> {
    Ok(command()?.args(arguments).output()?)
}

/// What it wrote, whichever way.
pub(crate) fn words(output: &Output) -> String {
    let (out, err) = (&output.stdout, &output.stderr);
    format!(
        "{}{}",
        String::from_utf8_lossy(out),
        String::from_utf8_lossy(err)
    )
}

/// The program with nothing set but what a test sets.
fn command() -> Result<Command> {
    let mut command = Command::new(handed("LASTWORD_TEST_BIN")?);
    for name in [
        "DATABASE",
        "LISTEN",
        "PUBLIC_URL",
        "SMTP",
        "DATA",
        "ISLANDS",
        "LOG",
    ] {
        command.env_remove(format!("LASTWORD_{name}"));
    }
    Ok(command)
}

//! What a task needs beyond cargo: found, or installed, or asked for by the command that installs it.

use std::env;
use std::fs;
use std::os::unix::fs::MetadataExt;
use std::path::{Path, PathBuf};
use std::process::Command;

use anyhow::{Context, Result};

use crate::step::{cargo, run, say, succeeds, target};

/// Something from outside the Rust world, and the Debian packages that bring it.
pub(crate) struct Need<T> {
    pub(crate) purpose: &'static str,
    pub(crate) packages: &'static [&'static str],
    pub(crate) find: fn() -> Option<T>,
}

impl<T> Need<T> {
    /// Finds the thing, installing its packages first if that is necessary and possible.
    pub(crate) fn meet(&self) -> Result<T> {
        if let Some(found) = (self.find)() {
            return Ok(found);
        }
        let packages = self.packages.join(" ");
        say(format!("installing {packages} ({})…", self.purpose));
        let installed = install(self.packages);
        (self.find)().with_context(|| {
            let purpose = self.purpose;
            let trouble = installed
                .err()
                .map(|error| format!("\n{error:#}"))
                .unwrap_or_default();
            format!(
                "{purpose}: not found; install it with\n  sudo apt-get install {packages}{trouble}"
            )
        })
    }
}

pub(crate) const BROWSER: Need<PathBuf> = Need {
    purpose: "a browser, for the journeys that customers and staff make",
    packages: &["chromium"],
    find: || {
        named_or(
            "CHROMIUM",
            &["chromium", "chromium-browser", "google-chrome"],
        )
    },
};

pub(crate) const BROWSER_DRIVER: Need<PathBuf> = Need {
    purpose: "the remote control of the browser",
    packages: &["chromium-driver"],
    find: || named_or("CHROMEDRIVER", &["chromedriver"]),
};

/// The folder with `initdb` and `postgres`, which Debian keeps off the `PATH`.
pub(crate) const POSTGRES: Need<PathBuf> = Need {
    purpose: "PostgreSQL's server programs, for the tests on that database",
    packages: &["postgresql"],
    find: || {
        let versions = fs::read_dir("/usr/lib/postgresql")
            .into_iter()
            .flatten()
            .flatten();
        versions
            .map(|version| version.path().join("bin"))
            .filter(|programs| programs.join("initdb").exists())
            .max()
            .or_else(|| on_path("initdb")?.parent().map(Path::to_owned))
    },
};

const SMTP_PEER: Need<PathBuf> = Need {
    purpose: "aiosmtpd, the mail server that the letters are sent to",
    packages: &["python3-aiosmtpd"],
    find: || {
        let interpreters = [
            "python3".into(),
            "/usr/bin/python3".into(),
            smtp_peer_environment().join("bin/python3"),
        ];
        interpreters
            .into_iter()
            .find(|python: &PathBuf| succeeds(Command::new(python).args(["-c", "import aiosmtpd"])))
    },
};

/// A Python that can import aiosmtpd: the system's, or else one of our own.
pub(crate) fn smtp_peer_python() -> Result<PathBuf> {
    SMTP_PEER.meet().or_else(|missing| {
        let environment = smtp_peer_environment();
        say("setting up a Python environment of our own for aiosmtpd…");
        run(Command::new("python3")
            .args(["-m", "venv"])
            .arg(&environment))
        .and_then(|()| {
            run(Command::new(environment.join("bin/pip")).args(["install", "--quiet", "aiosmtpd"]))
        })
        .and_then(|()| SMTP_PEER.meet())
        .map_err(|_| missing)
    })
}

fn smtp_peer_environment() -> PathBuf {
    target().join("smtp-peer")
}

/// The Python package that carries axe-core, with its version: what it calls wrong is then the same
/// everywhere.
const AXE_PACKAGE: &str = "axe-playwright-python==0.1.8";

/// axe-core, the rules of accessibility that pages are held to in the browser.
pub(crate) fn axe() -> Result<PathBuf> {
    let folder = target().join("axe");
    let script = folder.join("axe_playwright_python/axe.min.js");
    if script.is_file() {
        return Ok(script);
    }
    let pip = PIP.meet()?;
    say("fetching axe-core…");
    run(Command::new(pip)
        .args(["-m", "pip", "install", "--quiet", "--no-deps", "--target"])
        .arg(&folder)
        .arg(AXE_PACKAGE))
    .with_context(|| {
        let folder = folder.display();
        format!("axe-core, for the tests of accessibility: fetch it with\n  python3 -m pip install --no-deps --target {folder} {AXE_PACKAGE}")
    })?;
    Ok(script)
}

/// A Python with pip.
const PIP: Need<PathBuf> = Need {
    purpose: "pip, which fetches axe-core",
    packages: &["python3-pip"],
    find: || {
        ["python3", "/usr/bin/python3"]
            .map(PathBuf::from)
            .into_iter()
            .find(|python| succeeds(Command::new(python).args(["-m", "pip", "--version"])))
    },
};

/// Makes sure that `cargo fmt` and `cargo clippy` exist: rustup's minimal profile has neither.
pub(crate) fn linters() -> Result<()> {
    for (subcommand, component) in [("fmt", "rustfmt"), ("clippy", "clippy")] {
        if !succeeds(cargo().args([subcommand, "--version"])) {
            say(format!("adding {component} to the Rust toolchain…"));
            run(Command::new("rustup").args(["component", "add", component]))?;
        }
    }
    Ok(())
}

/// Whether this process may do everything, which PostgreSQL refuses and apt-get demands.
pub(crate) fn is_root() -> bool {
    fs::metadata("/proc/self").is_ok_and(|process| process.uid() == 0)
}

/// Installs Debian packages, without questions; a fresh machine may have no package lists yet.
fn install(packages: &[&str]) -> Result<()> {
    let install = || {
        run(apt_get()
            .args(["install", "--yes", "--no-install-recommends"])
            .args(packages))
    };
    install().or_else(|_| run(apt_get().arg("update")).and_then(|()| install()))
}

/// `apt-get`, by way of a `sudo` that asks for no password unless we are root already.
fn apt_get() -> Command {
    let mut command = if is_root() {
        Command::new("apt-get")
    } else {
        let mut sudo = Command::new("sudo");
        sudo.args(["--non-interactive", "apt-get"]);
        sudo
    };
    command
        .env("DEBIAN_FRONTEND", "noninteractive")
        .arg("--quiet");
    command
}

/// The program that an environment variable names, or the first of these on the `PATH`.
fn named_or(variable: &str, names: &[&str]) -> Option<PathBuf> {
    env::var_os(variable)
        .map(PathBuf::from)
        .or_else(|| names.iter().find_map(|name| on_path(name)))
}

fn on_path(program: &str) -> Option<PathBuf> {
    env::split_paths(&env::var_os("PATH")?)
        .map(|folder| folder.join(program))
        .find(|path| path.is_file())
}

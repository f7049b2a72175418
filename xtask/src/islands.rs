//! What runs in the browser: the frontend compiled to WebAssembly, and the JavaScript that loads it.

use std::env;
use std::fs::{self, File};
use std::path::{Path, PathBuf};
use std::process::{Command, ExitCode, Stdio};

use anyhow::{Context, Result};
use wasm_bindgen_cli_support::Bindgen;

use crate::step::{self, cargo, root, say, succeeds, target};
use crate::system::Need;

const TARGET: &str = "wasm32-unknown-unknown";
const PROFILE: &str = "wasm-release";

#[derive(clap::Args)]
pub(crate) struct Options {
    /// Use Debian's own Rust for WebAssembly even if this toolchain could do it.
    #[arg(long)]
    distribution: bool,
}

pub(crate) fn run(options: &Options) -> Result<ExitCode> {
    let toolchain = if options.distribution {
        Toolchain::distribution()
    } else {
        Toolchain::find()
    };
    let islands = build(toolchain?)?;
    say(format!("the islands are in {}", islands.display()));
    Ok(ExitCode::SUCCESS)
}

/// A compiler that has, or can make, a standard library for WebAssembly.
#[derive(Clone, Copy)]
pub(crate) enum Toolchain {
    /// The one that runs this task.
    Current,
    /// Debian's, which compiles the standard library from its sources.
    Distribution,
}

const DISTRIBUTION: Need<()> = Need {
    purpose: "Debian's Rust for WebAssembly, because this toolchain has no such target",
    packages: &[
        "rustc-web",
        "cargo-web",
        "rust-web-src",
        "libstd-rust-web-dev",
        "rust-web-llvm",
        "lld-22",
    ],
    find: || {
        let tools = ["/usr/bin/cargo", "/usr/bin/rustc", "/usr/bin/wasm-ld-22"];
        tools
            .iter()
            .all(|tool| Path::new(tool).exists())
            .then_some(())
    },
};

impl Toolchain {
    /// The first of: the target that is installed, the one rustup can add, and Debian's packages.
    ///
    /// `LASTWORD_ISLANDS_TOOLCHAIN=distribution` skips to the last.
    pub(crate) fn find() -> Result<Self> {
        let forced = env::var_os("LASTWORD_ISLANDS_TOOLCHAIN")
            .is_some_and(|choice| choice == "distribution");
        if !forced && (target_is_installed() || target_was_added()) {
            return Ok(Self::Current);
        }
        Self::distribution()
    }

    fn distribution() -> Result<Self> {
        DISTRIBUTION.meet().map(|()| Self::Distribution).with_context(|| {
            format!("nothing here compiles for the browser; try `rustup target add {TARGET}`, or else")
        })
    }

    /// Each compiler has a folder of its own, so that changing between them rebuilds nothing.
    fn target(self) -> PathBuf {
        target().join(match self {
            Self::Current => "wasm",
            Self::Distribution => "wasm-distribution",
        })
    }

    fn cargo_rustc(self) -> Command {
        match self {
            Self::Current => {
                let mut cargo = cargo();
                cargo.arg("rustc");
                cargo
            }
            Self::Distribution => {
                let mut cargo = Command::new("/usr/bin/cargo");
                cargo
                    .current_dir(root())
                    // rustup points these at its own toolchain.
                    .env_remove("LD_LIBRARY_PATH")
                    .env_remove("RUSTUP_TOOLCHAIN")
                    .env_remove("CARGO")
                    .env("RUSTC", "/usr/bin/rustc")
                    // The packages hold no compiled library for this target; building it needs unstable cargo.
                    .env("RUSTC_BOOTSTRAP", "1")
                    .env("CARGO_TARGET_WASM32_UNKNOWN_UNKNOWN_LINKER", "wasm-ld-22")
                    .args(["rustc", "-Z", "build-std=std,panic_abort"]);
                cargo
            }
        }
    }
}

fn target_is_installed() -> bool {
    Command::new(env::var_os("RUSTC").unwrap_or_else(|| "rustc".into()))
        .args(["--print", "target-libdir", "--target", TARGET])
        .current_dir(root())
        .stderr(Stdio::null())
        .output()
        .is_ok_and(|output| Path::new(String::from_utf8_lossy(&output.stdout).trim()).is_dir())
}

fn target_was_added() -> bool {
    say(format!(
        "adding {TARGET} to the Rust toolchain, for what runs in the browser…"
    ));
    succeeds(
        Command::new("rustup")
            .args(["target", "add", TARGET])
            .current_dir(root()),
    ) && target_is_installed()
}

/// Builds the folder that the server is given: `islands.js` and `islands_bg.wasm`.
pub(crate) fn build(toolchain: Toolchain) -> Result<PathBuf> {
    say("building the islands (about two minutes the first time)…");
    let target = toolchain.target();
    step::run(
        toolchain
            .cargo_rustc()
            .args([
                "--locked",
                "-p",
                "frontend",
                "--lib",
                "--crate-type",
                "cdylib",
                "--features",
                "hydrate",
            ])
            .args(["--target", TARGET, "--profile", PROFILE, "--target-dir"])
            .arg(&target),
    )?;
    let wasm = target.join(TARGET).join(PROFILE).join("frontend.wasm");
    bind(&wasm).with_context(|| format!("could not make JavaScript for {}", wasm.display()))
}

/// Writes the JavaScript side, unless what is there was made from this very file.
fn bind(wasm: &Path) -> Result<PathBuf> {
    let islands = target().join("islands");
    let built = fs::metadata(wasm)?.modified()?;
    let bound = fs::metadata(islands.join("islands_bg.wasm")).and_then(|file| file.modified());
    if bound.is_ok_and(|bound| bound == built) {
        return Ok(islands);
    }
    let fresh = target().join("islands.new");
    Bindgen::new()
        .input_path(wasm)
        .out_name("islands")
        .web(true)?
        .typescript(false)
        .remove_name_section(true)
        .remove_producers_section(true)
        .generate(&fresh)?;
    File::options()
        .write(true)
        .open(fresh.join("islands_bg.wasm"))?
        .set_modified(built)?;
    // Complete or not at all: an interrupted task leaves nothing half written.
    if islands.exists() {
        fs::remove_dir_all(&islands)?;
    }
    fs::rename(fresh, &islands)?;
    Ok(islands)
}

//! A real mail server to which the shop's letters go, and a reader of what arrived.

use std::io::{BufRead as _, BufReader};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};

use anyhow::{Context as _, Result, ensure};
use serde_json::Value;
use tempfile::TempDir;

use super::handed;

/// A mail server with a folder of its own.
pub(crate) struct SmtpPeer {
    running: Option<Child>,
    port: u16,
    folder: TempDir,
}

impl SmtpPeer {
    /// Starts one on a free port.
    pub(crate) fn start() -> Result<Self> {
        let mut peer = Self {
            running: None,
            port: 0,
            folder: tempfile::tempdir()?,
        };
        peer.starts_again()?;
        Ok(peer)
    }

    /// Starts it where it was before.
    pub(crate) fn starts_again(&mut self) -> Result<()> {
        let mut running = Command::new(handed("LASTWORD_TEST_SMTP_PEER_PYTHON")?)
            .arg(script("smtp_peer.py"))
            .arg(self.folder.path())
            .arg(self.port.to_string())
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .spawn()?;
        let said = running.stdout.take().context("its output")?;
        self.running = Some(running);
        let mut port = String::new();
        BufReader::new(said).read_line(&mut port)?;
        self.port = port
            .trim()
            .parse()
            .context("the mail server did not start")?;
        Ok(())
    }

    /// Stops it.
    pub(crate) fn stops(&mut self) -> Result<()> {
        if let Some(mut running) = self.running.take() {
            running.kill()?;
            running.wait()?;
        }
        Ok(())
    }

    /// Its address as the program takes it.
    pub(crate) fn address(&self) -> String {
        format!("smtp://127.0.0.1:{}", self.port)
    }

    /// The files of all that arrived, in order.
    pub(crate) fn arrived(&self) -> Result<Vec<PathBuf>> {
        let mut files = Vec::new();
        for file in std::fs::read_dir(self.folder.path())? {
            let path = file?.path();
            if path.extension().is_some_and(|extension| extension == "eml") {
                files.push(path);
            }
        }
        files.sort();
        Ok(files)
    }

    /// All that arrived, as a mail program reads it.
    pub(crate) fn letters(&self) -> Result<Vec<Letter>> {
        self.arrived()?
            .iter()
            .map(|file| Letter::read(file))
            .collect()
    }

    /// The letter whose subject has these words.
    pub(crate) fn letter(&self, subject: &str) -> Result<Letter> {
        let letters = self.letters()?;
        let subjects: Vec<String> = letters.iter().map(|letter| letter.of("subject")).collect();
        let found = letters
            .into_iter()
            .find(|letter| letter.of("subject").contains(subject));
        found.with_context(|| format!("no letter about {subject:?} among {subjects:?}"))
    }
}

impl Drop for SmtpPeer {
    fn drop(&mut self) {
        self.stops().ok();
    }
}

/// A letter that arrived.
pub(crate) struct Letter {
    pub(crate) read: Value,
    /// To whom the envelope went.
    pub(crate) envelope: String,
}

impl Letter {
    fn read(file: &Path) -> Result<Self> {
        let output = Command::new(handed("LASTWORD_TEST_SMTP_PEER_PYTHON")?)
            .arg(script("read_letter.py"))
            .arg(file)
            .output()?;
        let trouble = String::from_utf8_lossy(&output.stderr);
        ensure!(output.status.success(), "{}: {trouble}", file.display());
        Ok(Self {
            read: serde_json::from_slice(&output.stdout)?,
            envelope: std::fs::read_to_string(file.with_extension("to"))?,
        })
    }

    /// A part or a header as text.
    pub(crate) fn of(&self, name: &str) -> String {
        self.read[name].as_str().unwrap_or_default().to_owned()
    }

    /// Both parts have these words.
    pub(crate) fn must_say(&self, words: &str) -> Result<()> {
        let (text, html) = (self.of("text"), self.of("html"));
        let subject = self.of("subject");
        ensure!(
            text.contains(words),
            "the text of {subject:?} lacks {words:?}: {text}"
        );
        ensure!(
            html.contains(words),
            "the HTML of {subject:?} lacks {words:?}: {html}"
        );
        Ok(())
    }
}

fn script(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("harness")
        .join(name)
}

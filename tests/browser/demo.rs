//! The invented shop with its people and the customers' links that it prints.

use anyhow::{Context as _, Result, ensure};
use shared_types::paths;
use tempfile::TempDir;

use super::driver::Browser;
use crate::process::program::Program;

/// The running demo.
pub(super) struct Demo {
    pub(super) shop: Program,
    /// Paths of customers' pages: an open offer, one with a caution, and two pairs.
    pub(super) links: Vec<String>,
    /// Names and passwords of those who work there, the owner first.
    pub(super) people: Vec<(String, String)>,
    _data: TempDir,
}

impl Demo {
    /// Fills the shop and opens it.
    pub(super) fn opens() -> Result<Self> {
        let data = tempfile::tempdir()?;
        let shop = Program::demo(data.path())?;
        let lines = || shop.said.lines().map(str::trim);
        let links: Vec<String> = lines()
            .filter_map(|line| line.strip_prefix(&shop.origin)?.split_whitespace().next())
            .filter(|path| path.starts_with("/t/"))
            .map(str::to_owned)
            .collect();
        let people: Vec<(String, String)> = lines()
            .filter_map(|line| {
                let (person, password) = line.split_once(", password: ")?;
                Some((person.split(" (").next()?.to_owned(), password.to_owned()))
            })
            .collect();
        ensure!((links.len(), people.len()) == (3, 3), "{}", shop.said);
        Ok(Self {
            shop,
            links,
            people,
            _data: data,
        })
    }

    /// The owner signs in.
    pub(super) async fn owner_signs_in(&self, browser: &Browser) -> Result<()> {
        let (name, password) = self.people.first().context("an owner")?;
        signs_in(browser, name, password).await
    }
}

/// Somebody signs in and stands at the bench.
pub(super) async fn signs_in(browser: &Browser, name: &str, password: &str) -> Result<()> {
    browser.opens(&paths::bench()).await?;
    browser.types("Your name", name).await?;
    browser.types("Password", password).await?;
    browser.presses("Sign in").await?;
    browser.sees("Work down from the top").await
}

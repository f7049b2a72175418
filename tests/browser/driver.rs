//! A browser of its own for each person, found by what stands on the page.

use std::io::{BufRead as _, BufReader};
use std::path::PathBuf;
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};

use anyhow::{Context as _, Result, bail, ensure};
use serde_json::{Value, json};
use tempfile::TempDir;
use thirtyfour::prelude::*;

use crate::harness::handed;

/// How long a page may take.
const PATIENCE: Duration = Duration::from_secs(20);

/// Whether pages may run scripts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Scripts {
    On,
    Off,
}

/// What somebody holds in their hands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Screen {
    Telephone,
    /// A telephone as long as a picture in the README.
    LongTelephone,
    Desk,
}

impl Screen {
    const fn size(self) -> (u32, u32) {
        match self {
            Self::Telephone => (390, 844),
            Self::LongTelephone => (390, 1300),
            Self::Desk => (1280, 900),
        }
    }
}

/// A browser with nothing in it.
pub(super) struct Browser {
    driver: WebDriver,
    origin: String,
    scripts: Scripts,
    // Dropped last, in this order: the browser ends with its driver, then its folder goes.
    _process: Process,
    _profile: TempDir,
}

/// Ends chromedriver, and with it the browser, also when a test fails.
struct Process(Child);

impl Drop for Process {
    fn drop(&mut self) {
        self.0.kill().ok();
        self.0.wait().ok();
    }
}

impl Browser {
    /// Starts one.
    pub(super) async fn start(origin: &str, screen: Screen, scripts: Scripts) -> Result<Self> {
        let profile = tempfile::tempdir()?;
        let (process, port) = start_driver(&profile)?;
        let mut caps = DesiredCapabilities::chrome();
        caps.set_binary(&handed("CHROMIUM")?)?;
        let (width, height) = screen.size();
        for flag in [
            "--headless=new",
            "--no-sandbox",
            "--disable-gpu",
            "--disable-quic",
            "--disable-dev-shm-usage",
            "--no-first-run",
            "--disable-background-networking",
            "--disable-component-update",
            "--disable-sync",
            "--hide-scrollbars",
            &format!(
                "--user-data-dir={}",
                profile.path().join("profile").display()
            ),
            &format!("--window-size={width},{height}"),
        ] {
            caps.add_arg(flag)?;
        }
        if scripts == Scripts::Off {
            let blocked = json!({ "profile.managed_default_content_settings.javascript": 2 });
            caps.add_experimental_option("prefs", blocked)?;
        }
        if screen != Screen::Desk {
            let metrics =
                json!({ "width": width, "height": height, "pixelRatio": 2.0, "touch": true });
            caps.add_experimental_option("mobileEmulation", json!({ "deviceMetrics": metrics }))?;
        }
        caps.set("goog:loggingPrefs", json!({ "browser": "ALL" }))?;
        let driver = WebDriver::builder(format!("http://127.0.0.1:{port}"), caps);
        let driver = driver.request_timeout(PATIENCE).connect().await?;
        Ok(Self {
            driver,
            origin: origin.to_owned(),
            scripts,
            _process: process,
            _profile: profile,
        })
    }

    /// Opens a page of the shop.
    pub(super) async fn opens(&self, path: &str) -> Result<()> {
        self.driver.goto(format!("{}{path}", self.origin)).await?;
        Ok(())
    }

    /// The path and the query of the page that is open.
    pub(super) async fn place(&self) -> Result<String> {
        let address = self.driver.current_url().await?;
        Ok(address.as_str().trim_start_matches(&self.origin).to_owned())
    }

    /// What a reader sees.
    pub(super) async fn words(&self) -> Result<String> {
        Ok(self.driver.find(By::Css("body")).await?.text().await?)
    }

    /// Fails unless these words are seen before the patience ends.
    pub(super) async fn sees(&self, words: &str) -> Result<()> {
        let begun = Instant::now();
        loop {
            // A page that is just going away has no words.
            let seen = self.words().await.unwrap_or_default();
            if seen.contains(words) {
                return Ok(());
            }
            if begun.elapsed() > PATIENCE {
                bail!("{} does not show {words:?}: {seen}", self.place().await?);
            }
            tokio::time::sleep(Duration::from_millis(50)).await;
        }
    }

    /// Presses (without scripts by the Enter key: the driver's own click waits for a script there)
    /// the first shown button or link that has these words.
    pub(super) async fn presses(&self, words: &str) -> Result<()> {
        let path = format!(
            "//*[self::button or self::a or self::summary][contains(normalize-space(.), {})]",
            quoted(words)
        );
        let shown = self.shown(By::XPath(path)).await?;
        let pressed = match self.scripts {
            Scripts::On => shown.click().await,
            Scripts::Off => shown.send_keys(Key::Enter).await,
        };
        pressed.with_context(|| format!("{words:?} could not be pressed"))
    }

    /// Ticks or picks what stands beside these words; the first that is shown.
    pub(super) async fn ticks(&self, words: &str) -> Result<()> {
        let path = format!("//label[contains(normalize-space(.), {})]", quoted(words));
        let label = self.shown(By::XPath(path)).await?;
        let ticked = match self.scripts {
            Scripts::On => label.click().await,
            Scripts::Off => label.find(By::Css("input")).await?.send_keys(" ").await,
        };
        ticked.with_context(|| format!("{words:?} could not be ticked"))
    }

    /// Types into the field with this label, instead of what stands there.
    pub(super) async fn types(&self, label: &str, text: &str) -> Result<()> {
        let field = self.field(label).await?;
        field.clear().await?;
        field.send_keys(text).await?;
        Ok(())
    }

    /// Picks a picture for the field with this label.
    pub(super) async fn picks_picture(&self, label: &str, file: &std::path::Path) -> Result<()> {
        let field = self.field_of(label).await?;
        field.send_keys(file.display().to_string()).await?;
        Ok(())
    }

    /// Chooses from the list with this label.
    pub(super) async fn chooses(&self, label: &str, option: &str) -> Result<()> {
        let list = self.field(label).await?;
        let path = format!("./option[normalize-space(.)={}]", quoted(option));
        list.find(By::XPath(path)).await?.click().await?;
        Ok(())
    }

    async fn field(&self, label: &str) -> Result<WebElement> {
        let field = self.field_of(label).await?;
        field.scroll_into_view().await?;
        Ok(field)
    }

    async fn field_of(&self, label: &str) -> Result<WebElement> {
        let path = format!(
            "//label[starts-with(normalize-space(.), {0})]/descendant::*[self::input or self::textarea or self::select] | //*[@id=//label[starts-with(normalize-space(.), {0})]/@for]",
            quoted(label)
        );
        let found = self.driver.find_all(By::XPath(path)).await?;
        for field in &found {
            if field.is_displayed().await? {
                return Ok(field.clone());
            }
        }
        found
            .into_iter()
            .next()
            .with_context(|| format!("no field is called {label:?}"))
    }

    async fn shown(&self, by: By) -> Result<WebElement> {
        let begun = Instant::now();
        loop {
            for found in self.driver.find_all(by.clone()).await? {
                if found.is_displayed().await.unwrap_or(false) {
                    found.scroll_into_view().await?;
                    return Ok(found);
                }
            }
            if begun.elapsed() > PATIENCE {
                bail!(
                    "{} has no {by}: {}",
                    self.place().await?,
                    self.words().await?
                );
            }
            tokio::time::sleep(Duration::from_millis(50)).await;
        }
    }

    /// Presses these keys wherever the focus is.
    pub(super) async fn keys(&self, keys: impl Into<TypingData>) -> Result<()> {
        self.driver.action_chain().send_keys(keys).perform().await?;
        Ok(())
    }

    /// What has the focus, in words.
    pub(super) async fn focus(&self) -> Result<String> {
        Ok(self.driver.active_element().await?.text().await?)
    }

    /// Runs a script of the test's own, and gives its value.
    async fn evaluates(&self, script: &str) -> Result<Value> {
        let value = self.driver.execute(script, Vec::new()).await?;
        Ok(value.json().clone())
    }

    /// Fails if the page is wider than its screen: nobody should have to push it sideways.
    pub(super) async fn fits(&self) -> Result<()> {
        // Not innerWidth: on a telephone that grows with a page that is too wide.
        let widths = "const page = document.documentElement;
            return [page.scrollWidth, page.clientWidth];";
        let widths = self.evaluates(widths).await?;
        let [page, screen]: [u32; 2] = serde_json::from_value(widths)?;
        ensure!(
            page <= screen,
            "{} is {page} wide on {screen}",
            self.place().await?
        );
        Ok(())
    }

    /// Fails if the page breaks a rule of axe-core in the light theme or in the dark one, with
    /// everything opened that opens.
    pub(super) async fn is_accessible(&self) -> Result<()> {
        self.fits().await?;
        let axe = std::fs::read_to_string(handed("LASTWORD_TEST_AXE")?)?;
        let opened = "document.querySelectorAll('details').forEach((one) => { one.open = true; });";
        self.evaluates(opened).await?;
        self.evaluates(&axe).await?;
        for theme in ["light", "dark"] {
            let dressed = format!("document.documentElement.dataset.theme = '{theme}';");
            self.evaluates(&dressed).await?;
            let broken = self.driver.execute_async(BROKEN, Vec::new()).await?;
            let broken: Vec<String> = serde_json::from_value(broken.json().clone())?;
            ensure!(
                broken.is_empty(),
                "{}, {theme}: {broken:#?}",
                self.place().await?
            );
        }
        self.fits().await
    }

    /// With scripts: every island of the page has its code, and has come to life.
    pub(super) async fn islands_wake(&self) -> Result<()> {
        if self.scripts == Scripts::Off {
            return Ok(());
        }
        let begun = Instant::now();
        loop {
            let asleep = self.driver.execute_async(ASLEEP, Vec::new()).await?;
            let missing: Vec<String> = serde_json::from_value(asleep.json().clone())?;
            if missing.is_empty() {
                return Ok(());
            }
            ensure!(
                begun.elapsed() < PATIENCE,
                "islands without code: {missing:?}"
            );
            tokio::time::sleep(Duration::from_millis(50)).await;
        }
    }

    /// Fails if the browser complained about anything.
    pub(super) async fn complains_of_nothing(&self) -> Result<()> {
        let complaints = self.complaints().await?;
        ensure!(complaints.is_empty(), "{complaints:#?}");
        Ok(())
    }

    /// Fails unless the one thing that the browser complained about is a form that was refused.
    pub(super) async fn complains_of_a_refused_form(&self) -> Result<()> {
        let complaints = self.complaints().await?;
        ensure!(
            matches!(&complaints[..], [one] if one.contains("status of 422")),
            "{complaints:#?}"
        );
        Ok(())
    }

    /// What the browser complained about since it was last asked.
    async fn complaints(&self) -> Result<Vec<String>> {
        let log = self.driver.browser_log().await?;
        let complaints = log.into_iter().filter(|entry| entry.level != "DEBUG");
        Ok(complaints
            .map(|entry| format!("{}: {}", entry.level, entry.message))
            .collect())
    }

    /// Keeps a picture of the screen for the README, if somebody asks for pictures
    /// by naming a folder in `LASTWORD_PICTURES`.
    pub(super) async fn keeps_picture(&self, name: &str) -> Result<()> {
        let folder = std::env::var_os("LASTWORD_PICTURES");
        let Some(folder) = folder else {
            return Ok(());
        };
        // A relative folder is meant from the root of the workspace.
        let folder = PathBuf::from(concat!(env!("CARGO_MANIFEST_DIR"), "/..")).join(folder);
        self.evaluates("window.scrollTo(0, 0);").await?;
        self.has_all_pictures().await?;
        std::fs::create_dir_all(&folder)?;
        let picture = self.driver.screenshot_as_png().await?;
        std::fs::write(folder.join(name), picture)?;
        Ok(())
    }

    /// Waits until every picture of the page has arrived, and fails if one does not.
    pub(super) async fn has_all_pictures(&self) -> Result<()> {
        let begun = Instant::now();
        let missing = "const images = [...document.images];
            images.forEach((image) => { image.loading = 'eager'; });
            return images.filter((image) => !image.complete || !image.naturalWidth).length;";
        while self.evaluates(missing).await? != json!(0) {
            ensure!(begun.elapsed() < PATIENCE, "a picture is missing");
            tokio::time::sleep(Duration::from_millis(50)).await;
        }
        Ok(())
    }

    /// Closes it.
    pub(super) async fn closes(self) -> Result<()> {
        self.driver.quit().await?;
        Ok(())
    }
}

/// Names of islands on the page for which the shop has no code.
const ASLEEP: &str = r#"
    const done = arguments[arguments.length - 1];
    const islands = [...document.querySelectorAll("leptos-island")];
    const names = islands.map((island) => island.dataset.component);
    if (names.length === 0) { done([]); } else {
        import("/assets/islands/islands.js").then(
            (code) => done(names.filter((name) => typeof code[name] !== "function")),
            (error) => done([String(error)]),
        );
    }
"#;

/// What axe-core finds wrong: the rule, and where.
const BROKEN: &str = r#"
    const done = arguments[arguments.length - 1];
    const tags = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"];
    axe.run(document, { resultTypes: ["violations"], runOnly: tags }).then(
        ({ violations }) => done(violations.flatMap(({ id, help, nodes }) =>
            nodes.map((node) => `${id}, ${help}: ${node.target.join(" ")}`))),
        (error) => done([String(error)]),
    );
"#;

fn start_driver(profile: &TempDir) -> Result<(Process, u16)> {
    let mut process = Command::new(handed("CHROMEDRIVER")?)
        .arg("--port=0")
        .env("TMPDIR", profile.path())
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()?;
    let said = process.stdout.take().context("its output")?;
    let process = Process(process);
    for line in BufReader::new(said).lines() {
        let line = line?;
        if let Some((_, port)) = line.split_once("started successfully on port ") {
            return Ok((process, port.trim_end_matches('.').parse()?));
        }
    }
    bail!("chromedriver did not start")
}

/// Words as an `XPath` expression has them.
fn quoted(words: &str) -> String {
    if words.contains('\'') {
        format!("\"{words}\"")
    } else {
        format!("'{words}'")
    }
}

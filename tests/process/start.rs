//! Starting: help, the first set-up, and sentences for what does not fit.

use anyhow::{Context as _, Result, ensure};
use shared_types::paths;
use tokio::net::TcpListener;

use super::program::{Program, run, words};
use crate::harness::shop;
use crate::harness::visitor::Visitor;

#[tokio::test]
async fn help_says_what_it_is_and_how_it_is_run() -> Result<()> {
    let help = run(&["--help"])?;
    ensure!(help.status.success());
    for part in ["boot- and shoe-repair shop", "serve", "verify", "demo"] {
        ensure!(words(&help).contains(part), "{part}: {}", words(&help));
    }
    let help = run(&["serve", "--help"])?;
    ensure!(help.status.success());
    for part in [
        "--listen",
        "--public-url",
        "--smtp",
        "--data",
        "LASTWORD_DATABASE",
        "postgres://",
        "reverse proxy",
    ] {
        ensure!(words(&help).contains(part), "{part}: {}", words(&help));
    }
    ensure!(!run(&["frobnicate"])?.status.success());
    Ok(())
}

#[tokio::test]
async fn the_first_start_prints_a_link_that_sets_the_shop_up_once() -> Result<()> {
    let data = tempfile::tempdir()?;
    let program = Program::serve(data.path(), "127.0.0.1:0", None)?;
    let link = program
        .said
        .split(&program.origin)
        .nth(1)
        .context("a link")?;
    let setup = link.split_whitespace().next().context("a link")?.to_owned();
    let stranger = Visitor::new(&program.origin)?;
    ensure!(stranger.get(&paths::health()).await?.expects(200)?.words() == "ok");
    stranger.get(&setup).await?.expects(200)?;

    let (owner, _) = shop::set_up(&program.origin, &setup).await?;
    stranger.get(&setup).await?.expects(404)?;
    owner.get(&paths::today()).await?.expects(200)?;

    let address = program.listens_on()?;
    program.stops()?;
    let program = Program::serve(data.path(), &address, None)?;
    ensure!(
        !program.said.contains("Set the shop up"),
        "{}",
        program.said
    );
    owner
        .get(&paths::today())
        .await?
        .expects(200)?
        .must_say("Ines Calloway")?;
    program.stops()
}

#[tokio::test]
async fn what_does_not_fit_is_said_in_a_sentence() -> Result<()> {
    let folder = tempfile::tempdir()?;
    let data = folder.path().display().to_string();
    let taken = TcpListener::bind("127.0.0.1:0").await?;
    let taken = taken.local_addr()?.to_string();
    for (arguments, sentence) in [
        (
            ["--listen", taken.as_str()],
            "can't be listened on; choose another with --listen",
        ),
        (
            ["--smtp", "smtp://mail.example.com"],
            "may be reached without encryption",
        ),
        (["--smtp", "mail.example.com"], "--smtp must be smtps://"),
        (
            ["--public-url", "boots.example.com"],
            "it must be the plain address that customers open",
        ),
        (
            ["--database", "postgres://nobody@127.0.0.1:1/none"],
            "the database can't be opened",
        ),
        (["--listen", "here"], "--listen"),
    ] {
        let mut all = vec!["serve", "--data", &data, "--listen", "127.0.0.1:0"];
        if arguments[0] == "--listen" {
            all.truncate(3);
        }
        all.extend(arguments);
        let output = run(&all)?;
        ensure!(!output.status.success(), "{arguments:?} was taken");
        let said = words(&output)
            .split_whitespace()
            .collect::<Vec<_>>()
            .join(" ");
        ensure!(said.contains(sentence), "{arguments:?}: {said}");
        ensure!(!said.contains("panicked"), "{said}");
    }
    std::fs::write(folder.path().join("link-secret"), b"short")?;
    let output = run(&["serve", "--data", &data, "--listen", "127.0.0.1:0"])?;
    ensure!(
        words(&output).contains("is not 32 bytes long; restore it"),
        "{}",
        words(&output)
    );
    Ok(())
}

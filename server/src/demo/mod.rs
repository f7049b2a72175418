//! Fills the invented shop of Juniper Row, so that each screen has something true to show.
//!
//! - `shop`: its settings and people
//! - `story`: what a ticket's story is made of
//! - `stories`: the tickets worth a look, each told in full
//! - `everyday`: all the others, made from tables
//! - `hands`: carries the stories out through the shop's own actions
//! - `pictures`: draws what the pictures show

mod everyday;
mod hands;
mod pictures;
mod shop;
mod stories;
mod story;

use anyhow::{Context as _, ensure};
use shared_types::id::TicketId;
use shared_types::moment::Moment;
use shared_types::paths;
use time::Duration;

use crate::app::App;
use crate::clock::{Clock, TurnedClock};
use crate::config::Config;
use crate::{record, staff};

/// When the shop opened, before now.
const AGE: Duration = Duration::days(2 * 365);

/// Fills the shop as it would stand at `now`, unless it was filled before.
pub async fn fill(config: &Config, now: Moment) -> anyhow::Result<()> {
    let clock = TurnedClock::at(now.plus(-AGE));
    let config = Config {
        smtp: None,
        ..config.clone()
    };
    let app = App::build(config, Clock::Turned(clock.clone())).await?;
    let filled = fill_unless_there(&app, clock, now).await;
    app.db.close().await;
    filled
}

async fn fill_unless_there(app: &App, clock: TurnedClock, now: Moment) -> anyhow::Result<()> {
    let first = TicketId::from_bytes(stories::SPLIT_WELT);
    let is_there = record::load(&mut app.db.read().await?, first)
        .await?
        .is_some();
    if is_there {
        return Ok(());
    }
    ensure!(
        staff::setup_path(app).await?.is_some(),
        "this database holds another shop, or a demo that was not filled to its end; choose \
         another folder with --data, or begin anew with --fresh"
    );
    tracing::info!("filling two years of Juniper Row; this takes some seconds");
    let mut hands = hands::Hands::open(app.clone(), clock).await?;
    let everyday = everyday::all();
    let everyday = everyday.iter().map(everyday::Ordinary::story);
    let stories: Vec<_> = stories::all().chain(everyday).collect();
    hands.tell(&stories, now).await
}

/// What to tell whoever started the demo: the address, who can sign in, and links worth opening.
pub async fn lines(app: &App) -> anyhow::Result<Vec<String>> {
    let mut lines = vec![
        format!("Juniper Row is open at {}", app.absolute(&paths::today())),
        "Sign in as".to_owned(),
    ];
    for hand in [shop::OWNER, shop::BENCH, shop::COUNTER] {
        let role = hand.role.label();
        lines.push(format!(
            "  {} ({role}), password: {}",
            hand.name, hand.password
        ));
    }
    lines.push("or open a customer's page".to_owned());
    for (id, what) in stories::WORTH_OPENING {
        let ticket = record::load(&mut app.db.read().await?, TicketId::from_bytes(id)).await?;
        let ticket =
            ticket.context("the demo was not filled to its end; begin anew with --fresh")?;
        let link = app
            .link_of(&ticket)
            .unwrap_or_else(|| "its link was stopped".to_owned());
        lines.push(format!("  {link}  {what}"));
    }
    Ok(lines)
}

#[cfg(test)]
mod tests {
    use time::macros::datetime;

    use super::*;
    use crate::record::verify;

    /// Filled on a Monday, when the shop is closed: no step breaks a rule, the record is sound,
    /// and a second start changes nothing.
    #[tokio::test(flavor = "multi_thread")]
    async fn the_shop_fills_once_and_its_record_is_sound() {
        let folder = tempfile::tempdir().unwrap();
        let config = Config {
            database: folder.path().join("demo.db").display().to_string(),
            public_url: "http://127.0.0.1:8080".to_owned(),
            smtp: None,
            data: folder.path().to_owned(),
            islands: None,
        };
        let now = Moment::from_utc(datetime!(2026-03-09 18:20 UTC));
        fill(&config, now).await.unwrap();
        fill(&config, now.plus(Duration::days(3))).await.unwrap();
        let app = App::build(config, Clock::System).await.unwrap();
        let verdict = verify::verify(&app.db).await.unwrap();
        assert_eq!(verdict.troubles, Vec::<String>::new());
        assert!(verdict.tickets > 100, "{} tickets", verdict.tickets);
        assert_eq!(lines(&app).await.unwrap().len(), 9);
    }
}

//! Without a mouse and without a finger.

use anyhow::{Result, ensure};
use shared_types::paths;
use thirtyfour::Key;

use super::driver::{Browser, Screen, Scripts};
use crate::harness::{Engine, TestApp};

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn an_offer_can_be_answered_with_the_keyboard_alone() -> Result<()> {
    let app = TestApp::start(Engine::Sqlite).await?;
    let ticket = app.takes_boots_in().await?;
    let offer = app.offers(&ticket).await?;
    app.clock.advance(time::Duration::minutes(5));
    let customer = Browser::start(&app.origin, Screen::Desk, Scripts::On).await?;
    customer.opens(&paths::offer(&ticket.key, &offer)).await?;
    customer.sees("We need your word").await?;

    let before = app.entries().await?;
    let mut focused = Vec::new();
    loop {
        customer.keys(Key::Tab).await?;
        let focus = customer.focus().await?;
        focused.push(focus.clone());
        if focus.starts_with("Yes, do it: $189.64 more") {
            break;
        }
        ensure!(focused.len() < 60, "Tab does not reach it: {focused:?}");
    }
    ensure!(
        app.entries().await? == before,
        "moving about decides nothing"
    );
    customer.keys(Key::Enter).await?;
    customer.sees("Your word, kept").await?;
    customer.sees("A new welt").await?;
    ensure!(app.entries().await? == before + 1);
    customer.complains_of_nothing().await?;
    customer.closes().await?;
    app.ends().await
}

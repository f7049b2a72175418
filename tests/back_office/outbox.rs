//! Letters that do not find their way at once: kept, tried again, shown to staff, never doubled.

use anyhow::{Result, ensure};
use server::mail::worker;
use shared_types::form::intake::IntakeField;
use shared_types::paths;
use time::Duration;
use tokio::task::JoinSet;

use crate::harness::TestApp;
use crate::harness::form::Form;
use crate::harness::smtp_peer::SmtpPeer;
use crate::harness::ticket::Taken;

on_both_engines!(with a mail server:
    letters_wait_for_a_stopped_mail_server_and_arrive_once,
    a_letter_that_is_put_off_is_sent_again_with_the_very_same_bytes,
    a_letter_to_nobody_is_given_up_shown_and_sent_again_on_request,
    a_letter_that_finds_no_server_for_three_days_is_given_up,
    two_workers_at_once_send_each_letter_once,
);

async fn taken_in_for(app: &TestApp, address: &str) -> Result<Taken> {
    let form = app
        .intake_form()
        .await?
        .set(IntakeField::Email.name(), address);
    app.takes_in(form).await
}

async fn letters_wait_for_a_stopped_mail_server_and_arrive_once(
    app: &TestApp,
    peer: &mut SmtpPeer,
) -> Result<()> {
    peer.stops()?;
    let ticket = taken_in_for(app, "nadia@example.com").await?;
    ticket.opens(app).await?.must_say("$123.40")?;
    app.delivers_letters().await?;
    let letters = app.counter.get(&paths::letters()).await?.expects(200)?;
    letters.must_say("Your ticket 1001 at Juniper Row")?;
    ensure!(
        app.number("select count(*) from letter where trouble is not null")
            .await?
            == 1
    );
    app.counter
        .get(&paths::today())
        .await?
        .must_say("Your ticket 1001 at Juniper Row")?;

    peer.starts_again()?;
    ensure!(
        app.delivers_letters().await? == 0,
        "it is not tried again at once"
    );
    app.time_passes(Duration::minutes(1)).await?;
    ensure!(app.delivers_letters().await? == 1);
    app.time_passes(Duration::hours(4)).await?;
    ensure!(app.delivers_letters().await? == 0);
    ensure!(peer.arrived()?.len() == 1);
    app.counter
        .get(&paths::today())
        .await?
        .must_not_say("Your ticket 1001 at Juniper Row")
}

/// `grey` is refused at first; `dropafter` is taken, but the server never says so.
async fn a_letter_that_is_put_off_is_sent_again_with_the_very_same_bytes(
    app: &TestApp,
    peer: &mut SmtpPeer,
) -> Result<()> {
    taken_in_for(app, "grey@example.com").await?;
    app.delivers_letters().await?;
    ensure!(peer.arrived()?.is_empty());
    app.counter
        .get(&paths::letters())
        .await?
        .must_say("Not now, please try again later")?;
    app.time_passes(Duration::minutes(1)).await?;
    app.delivers_letters().await?;
    ensure!(peer.arrived()?.len() == 1);

    taken_in_for(app, "dropafter@example.com").await?;
    app.delivers_letters().await?;
    ensure!(peer.arrived()?.len() == 2);
    app.time_passes(Duration::minutes(1)).await?;
    app.delivers_letters().await?;
    let arrived = peer.arrived()?;
    ensure!(arrived.len() == 3);
    ensure!(std::fs::read(&arrived[1])? == std::fs::read(&arrived[2])?);
    let letters = peer.letters()?;
    ensure!(
        letters[1].of("id") == letters[2].of("id") && letters[0].of("id") != letters[1].of("id")
    );
    ensure!(
        app.number("select count(*) from letter where state = 'sent'")
            .await?
            == 2
    );
    Ok(())
}

async fn a_letter_to_nobody_is_given_up_shown_and_sent_again_on_request(
    app: &TestApp,
    peer: &mut SmtpPeer,
) -> Result<()> {
    taken_in_for(app, "gone@example.com").await?;
    app.delivers_letters().await?;
    let letters = app.counter.get(&paths::letters()).await?.expects(200)?;
    letters.must_say("There is no such mailbox here")?;
    app.counter
        .get(&paths::today())
        .await?
        .must_say("There is no such mailbox here")?;
    app.time_passes(Duration::hours(100)).await?;
    ensure!(
        app.delivers_letters().await? == 0,
        "nobody asked for it again"
    );
    let retry = paths::retry_letter(letters.after(&paths::letter(""))?);
    app.counter.post(&retry, Form::new()).await?.expects(303)?;
    ensure!(app.delivers_letters().await? == 1);
    ensure!(peer.arrived()?.is_empty());

    app.time_passes(Duration::minutes(1)).await?;
    taken_in_for(app, "moved@example.com").await?;
    app.delivers_letters().await?;
    let letters = app.counter.get(&paths::letters()).await?.expects(200)?;
    let retry = paths::retry_letter(letters.after(&paths::letter(""))?);
    app.counter.post(&retry, Form::new()).await?.expects(303)?;
    app.delivers_letters().await?;
    ensure!(peer.arrived()?.len() == 1);
    app.counter.post(&retry, Form::new()).await?.expects(404)?;
    ensure!(
        app.delivers_letters().await? == 0,
        "a letter that arrived is not sent again"
    );
    Ok(())
}

async fn a_letter_that_finds_no_server_for_three_days_is_given_up(
    app: &TestApp,
    peer: &mut SmtpPeer,
) -> Result<()> {
    peer.stops()?;
    taken_in_for(app, "nadia@example.com").await?;
    let mut tries = 0;
    let mut hours = 0;
    while app
        .number("select count(*) from letter where state = 'waiting'")
        .await?
        == 1
    {
        tries += app.delivers_letters().await?;
        app.clock.advance(Duration::hours(1));
        hours += 1;
        ensure!(hours < 100, "still waiting after {hours} hours");
    }
    ensure!((72..=77).contains(&hours), "given up after {hours} hours");
    ensure!((15..=25).contains(&tries), "{tries} tries");
    ensure!(
        app.number("select count(*) from letter where state = 'given-up'")
            .await?
            == 1
    );
    Ok(())
}

async fn two_workers_at_once_send_each_letter_once(
    app: &TestApp,
    peer: &mut SmtpPeer,
) -> Result<()> {
    for _ in 0..12 {
        taken_in_for(app, "nadia@example.com").await?;
    }
    let mut workers = JoinSet::new();
    for _ in 0..4 {
        let app = app.app.clone();
        workers.spawn(async move {
            while worker::deliver_next(&app).await? {}
            anyhow::Ok(())
        });
    }
    for worker in workers.join_all().await {
        worker?;
    }
    let ids: std::collections::BTreeSet<String> = peer
        .letters()?
        .iter()
        .map(|letter| letter.of("id"))
        .collect();
    ensure!(ids.len() == 12 && peer.arrived()?.len() == 12);
    Ok(())
}

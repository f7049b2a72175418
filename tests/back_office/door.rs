//! Signing in, and what ends a session.

use anyhow::{Result, ensure};
use shared_types::form::people::PersonField;
use shared_types::paths;
use time::Duration;

use crate::harness::TestApp;
use crate::harness::form::Form;
use crate::harness::shop::{COUNTER, OWNER, PASSWORD, sign_in};

on_both_engines!(
    a_wrong_password_and_an_unknown_name_look_alike,
    guessing_is_slowed_down_and_time_ends_the_wait,
    a_session_ends_when_nobody_uses_it,
    whoever_is_locked_out_is_out_at_once,
    signing_in_leads_back_to_where_somebody_wanted_to_go_and_nowhere_else,
    the_shop_is_set_up_once,
);

fn account(name: &str, password: &str) -> Form {
    Form::new()
        .with(PersonField::Name.name(), name)
        .with(PersonField::Password.name(), password)
}

async fn a_wrong_password_and_an_unknown_name_look_alike(app: &TestApp) -> Result<()> {
    let stranger = app.stranger()?;
    let wrong = stranger
        .post(&paths::sign_in(), account(OWNER, "beeswax"))
        .await?
        .expects(422)?;
    let unknown = stranger
        .post(&paths::sign_in(), account("Nobody", "beeswax"))
        .await?
        .expects(422)?;
    ensure!(wrong.html().replace(OWNER, "") == unknown.html().replace("Nobody", ""));
    ensure!(wrong.header("set-cookie").is_empty());
    ensure!(
        !wrong.html().contains("beeswax"),
        "a password is never shown"
    );
    wrong.must_say("This name and password don't fit together.")
}

async fn guessing_is_slowed_down_and_time_ends_the_wait(app: &TestApp) -> Result<()> {
    let stranger = app.stranger()?;
    for _ in 0..5 {
        stranger
            .post(&paths::sign_in(), account(COUNTER, "guess"))
            .await?
            .expects(422)?;
    }
    for password in ["guess", PASSWORD] {
        let early = stranger
            .post(&paths::sign_in(), account(COUNTER, password))
            .await?;
        early.expects(429)?.must_say("Please wait a moment")?;
    }
    sign_in(&app.stranger()?, OWNER).await?;
    app.time_passes(Duration::minutes(15)).await?;
    sign_in(&stranger, COUNTER).await
}

async fn a_session_ends_when_nobody_uses_it(app: &TestApp) -> Result<()> {
    app.clock
        .advance(Duration::hours(4) + Duration::minutes(59));
    app.counter.get(&paths::today()).await?.expects(200)?;
    app.clock.advance(Duration::hours(5));
    let out = app.counter.get(&paths::bench()).await?.expects(303)?;
    ensure!(out.location()? == format!("{}?onward=%2Fshop%2Fbench", paths::sign_in()));
    sign_in(&app.counter, COUNTER).await?;
    for _ in 0..13 {
        app.clock.advance(Duration::minutes(60));
        app.counter.get(&paths::today()).await?.expects(200)?;
    }
    app.clock.advance(Duration::minutes(61));
    app.counter.get(&paths::today()).await?.expects(303)?;
    Ok(())
}

async fn whoever_is_locked_out_is_out_at_once(app: &TestApp) -> Result<()> {
    let people = app.owner.get(&paths::people()).await?.expects(200)?.html();
    let ids: Vec<&str> = people
        .split("/shop/people/")
        .skip(1)
        .map(|rest| &rest[..36])
        .collect();
    for id in ids {
        let form = Form::new().with("act", "disable");
        app.owner.post(&paths::person(id), form).await?;
    }
    app.owner.get(&paths::people()).await?.expects(200)?;
    app.counter.get(&paths::today()).await?.expects(303)?;
    app.bench.get(&paths::bench()).await?.expects(303)?;
    let refused = app
        .counter
        .post(&paths::sign_in(), account(COUNTER, PASSWORD))
        .await?;
    refused.expects(422)?;
    app.owner
        .post(&paths::sign_out(), Form::new())
        .await?
        .expects(303)?;
    app.owner.get(&paths::today()).await?.expects(303)?;
    Ok(())
}

async fn signing_in_leads_back_to_where_somebody_wanted_to_go_and_nowhere_else(
    app: &TestApp,
) -> Result<()> {
    for (onward, leads_to) in [
        ("/shop/bench", "/shop/bench"),
        ("//evil.example/shop", "/shop"),
        ("https://evil.example/shop", "/shop"),
        ("/shop\\@evil.example", "/shop"),
        ("/shop\r\nSet-Cookie: x=y", "/shop"),
        ("", "/shop"),
    ] {
        let form = account(OWNER, PASSWORD).with("onward", onward);
        let into = app
            .stranger()?
            .post(&paths::sign_in(), form)
            .await?
            .expects(303)?;
        ensure!(
            into.location()? == leads_to,
            "{onward:?} leads to {}",
            into.location()?
        );
        let cookie = into.header("set-cookie");
        ensure!(
            cookie.contains("HttpOnly") && cookie.contains("SameSite=Lax"),
            "{cookie}"
        );
    }
    Ok(())
}

async fn the_shop_is_set_up_once(app: &TestApp) -> Result<()> {
    ensure!(server::setup_path(&app.app).await?.is_none());
    for code in ["", "x", "AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA"] {
        let form = account("Eve", PASSWORD).with("shop", "Eve's");
        let answer = app.stranger()?.post(&paths::setup(code), form).await?;
        answer.expects(404)?;
    }
    ensure!(app.number("select count(*) from staff").await? == 3);
    Ok(())
}

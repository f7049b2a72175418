//! Opening a link decides nothing and shows nothing of anybody else.

use std::collections::BTreeSet;

use anyhow::{Result, ensure};
use reqwest::Method;
use shared_types::form::intake::{IntakeField, PairField};
use shared_types::paths;
use shared_types::stage::Stage;
use time::Duration;

use crate::harness::TestApp;
use crate::harness::form::{Form, picture};

on_both_engines!(
    opening_following_and_looking_ahead_change_nothing,
    unknown_stopped_and_mistyped_links_look_exactly_alike,
    a_renewed_link_opens_and_the_one_before_no_longer_does,
    one_customer_sees_nothing_of_another,
    a_picture_kept_in_the_shop_is_shown_only_once_it_is_offered,
    a_question_is_answered_where_it_was_asked,
);

/// As a mail scanner does: every address on every page, in every way that is not a form.
async fn opening_following_and_looking_ahead_change_nothing(app: &TestApp) -> Result<()> {
    let photo = IntakeField::Pair(0, PairField::Photo).name();
    let form = app.intake_form().await?.picture(photo, picture(120, 10)?);
    let ticket = app.takes_in(form).await?;
    let offer = app.offers(&ticket).await?;
    app.moves(&ticket, Stage::Ready).await?;
    let before = app.holdings().await?;

    let key = &ticket.key;
    let mut to_open: Vec<String> = vec![
        paths::home(),
        paths::ticket(key),
        paths::offer(key, &offer),
        paths::give_word(key, &offer),
        paths::take_back(key, &offer),
        paths::word(key, &offer),
        paths::ask(key),
        paths::pickup(key),
        paths::receipt(key),
        format!("{}?word=a&turn=0", paths::give_word(key, &offer)),
        format!("{}?word=a&turn=0", paths::offer(key, &offer)),
    ];
    let mut opened = BTreeSet::new();
    let scanner = app.stranger()?;
    while let Some(path) = to_open.pop() {
        if !opened.insert(path.clone()) {
            continue;
        }
        let page = scanner.get(&path).await?;
        ensure!(page.status < 500, "{path}: {}", page.status);
        for attribute in ["href=\"", "src=\"", "action=\""] {
            let html = page.html();
            let addresses = html
                .split(attribute)
                .skip(1)
                .filter_map(|rest| rest.split('"').next());
            to_open.extend(
                addresses
                    .filter(|address| address.starts_with('/'))
                    .map(str::to_owned),
            );
        }
        scanner.raw(Method::HEAD, &path).send().await?;
        for purpose in ["prefetch", "prefetch;prerender"] {
            scanner
                .raw(Method::GET, &path)
                .header("sec-purpose", purpose)
                .send()
                .await?;
        }
    }
    ensure!(
        opened.iter().any(|path| path.contains("/photo/")),
        "{opened:?}"
    );
    ensure!(app.holdings().await? == before);
    app.time_passes(Duration::minutes(1)).await?;
    Ok(())
}

async fn unknown_stopped_and_mistyped_links_look_exactly_alike(app: &TestApp) -> Result<()> {
    let (ticket, other) = (app.takes_boots_in().await?, app.takes_boots_in().await?);
    let offer = app.offers(&ticket).await?;
    app.counter
        .post(&paths::revoke_link(&ticket.id), Form::new())
        .await?
        .expects(303)?;
    let stranger = app.stranger()?;
    let unknown = stranger
        .get(&paths::ticket("A".repeat(43)))
        .await?
        .expects(404)?;
    ensure!(unknown.says("Juniper Row"));

    let mistyped = format!("{}x{}", &other.key[..20], &other.key[21..]);
    let mistyped = if mistyped == other.key {
        other.key.replace('x', "y")
    } else {
        mistyped
    };
    for key in [
        ticket.key.clone(),
        mistyped,
        other.key[..42].to_owned(),
        other.key.to_uppercase(),
        format!("{}A", other.key),
        "%00".to_owned(),
        "..%2f..%2fetc".to_owned(),
        "x".repeat(4_000),
    ] {
        for path in [
            paths::ticket(&key),
            paths::offer(&key, &offer),
            paths::word(&key, &offer),
            paths::receipt(&key),
            paths::pickup(&key),
            paths::photo(&key, &offer),
        ] {
            let page = stranger.get(&path).await?;
            ensure!(page.status == 404, "{path}: {}", page.status);
            ensure!(
                page.bytes == unknown.bytes,
                "{path} tells that it was once a link"
            );
        }
    }
    let word = ticket.says(app, &offer, (0, "a")).await?.expects(404)?;
    ensure!(word.bytes == unknown.bytes);
    // What a mail program leaves behind the address is not the customer's mistake.
    stranger
        .get(&paths::ticket(format!("{}.", other.key)))
        .await?
        .expects(200)?;
    Ok(())
}

async fn a_renewed_link_opens_and_the_one_before_no_longer_does(app: &TestApp) -> Result<()> {
    let ticket = app.takes_boots_in().await?;
    app.counter
        .post(
            &paths::renew_link(&ticket.id),
            Form::new().with("renewals", "1"),
        )
        .await?
        .expects(303)?;
    app.stranger()?
        .get(&paths::ticket(&ticket.key))
        .await?
        .expects(404)?;
    let claim = app
        .counter
        .get(&paths::claim(&ticket.id))
        .await?
        .expects(200)?;
    let key = claim.after(&format!("{}{}", app.origin, paths::ticket("")))?;
    app.stranger()?
        .get(&paths::ticket(key))
        .await?
        .expects(200)?
        .must_say("$123.40")?;
    ensure!(app.letters("link-renewed").await?.len() == 1);
    Ok(())
}

async fn one_customer_sees_nothing_of_another(app: &TestApp) -> Result<()> {
    let photo = IntakeField::Pair(0, PairField::Photo).name();
    let form = app.intake_form().await?.picture(photo, picture(120, 10)?);
    let nadia = app.takes_in(form).await?;
    let form = app
        .intake_form()
        .await?
        .set(IntakeField::Name.name(), "Otis Marsh");
    let otis = app.takes_in(form).await?;
    let offer = app.offers(&nadia).await?;
    let shown = nadia
        .opens(app)
        .await?
        .after(&paths::photo(&nadia.key, ""))?;

    let stranger = app.stranger()?;
    for path in [
        paths::offer(&otis.key, &offer),
        paths::word(&otis.key, &offer),
        paths::photo(&otis.key, &shown),
        paths::shop_photo(&shown),
    ] {
        let page = stranger.get(&path).await?;
        ensure!([303, 404].contains(&page.status), "{path}: {}", page.status);
    }
    stranger
        .get(&paths::photo(&nadia.key, &shown))
        .await?
        .expects(200)?;
    let page = otis.opens(app).await?;
    for secret in [
        "Nadia",
        "nadia@example.com",
        "555-0199",
        nadia.key.as_str(),
        shown.as_str(),
    ] {
        ensure!(!page.html().contains(secret), "{secret}");
    }
    let question = Form::new()
        .with("words", "May I?")
        .with("pair", &nadia.pair);
    let before = app.entries().await?;
    stranger
        .post(&paths::ask(&otis.key), question)
        .await?
        .expects(422)?;
    ensure!(app.entries().await? == before);
    Ok(())
}

async fn a_picture_kept_in_the_shop_is_shown_only_once_it_is_offered(app: &TestApp) -> Result<()> {
    let ticket = app.takes_boots_in().await?;
    let note = Form::new()
        .with("words", "For us.")
        .with("audience", "shop");
    let note = note.picture("photo", picture(150, 30)?);
    app.bench
        .post(&paths::post_note(&ticket.pair), note)
        .await?
        .expects(303)?;
    let pair = app
        .bench
        .get(&paths::pair(&ticket.pair))
        .await?
        .expects(200)?;
    let kept = pair.after(&paths::shop_photo(""))?;
    app.bench
        .get(&paths::shop_photo(&kept))
        .await?
        .expects(200)?;

    let for_customer = paths::photo(&ticket.key, &kept);
    app.stranger()?.get(&for_customer).await?.expects(404)?;
    app.sends(&ticket, app.offer_form().with("picture", &kept))
        .await?;
    app.stranger()?.get(&for_customer).await?.expects(200)?;
    Ok(())
}

async fn a_question_is_answered_where_it_was_asked(app: &TestApp) -> Result<()> {
    let ticket = app.takes_boots_in().await?;
    let stranger = app.stranger()?;
    stranger
        .post(&paths::ask(&ticket.key), Form::new())
        .await?
        .expects(422)?;
    let back = paths::ticket(&ticket.key);
    for elsewhere in [
        "//evil.example",
        "https://evil.example/",
        "/shop",
        &format!("{back}\\@evil.example"),
    ] {
        let words = format!("Can they be resoled? {elsewhere}");
        let form = Form::new().with("words", words).with("back", elsewhere);
        let asked = stranger
            .post(&paths::ask(&ticket.key), form)
            .await?
            .expects(303)?;
        ensure!(
            asked.location()?.split('?').next() == Some(back.as_str()),
            "{elsewhere}"
        );
    }
    app.bench
        .get(&paths::pair(&ticket.pair))
        .await?
        .must_say("Can they be resoled?")?;
    let reply = Form::new()
        .with("words", "Yes, twice more.")
        .with("audience", "reply");
    app.bench
        .post(&paths::post_note(&ticket.pair), reply)
        .await?
        .expects(303)?;
    ticket.opens(app).await?.must_say("Yes, twice more.")?;
    ensure!(app.letters("replied").await?.len() == 1);
    Ok(())
}

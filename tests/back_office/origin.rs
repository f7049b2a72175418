//! Forms from elsewhere change nothing, and every answer carries the headers that guard it.

use anyhow::{Result, ensure};
use reqwest::Method;
use shared_types::paths;
use shared_types::stage::Stage;

use crate::harness::TestApp;
use crate::harness::form::Form;
use crate::harness::page::Page;

on_both_engines!(
    a_form_from_another_site_changes_nothing,
    a_browser_without_fetch_metadata_is_known_by_its_origin,
    every_kind_of_answer_carries_the_guarding_headers,
    no_page_has_a_script_or_a_style_of_its_own_in_it,
);

async fn a_form_from_another_site_changes_nothing(app: &TestApp) -> Result<()> {
    let ticket = app.takes_boots_in().await?;
    let offer = app.offers(&ticket).await?;
    let before = app.holdings().await?;
    let own = app.origin.as_str();
    let elsewhere: [&[(&str, &str)]; 8] = [
        &[],
        &[("sec-fetch-site", "cross-site"), ("origin", own)],
        &[("sec-fetch-site", "same-site"), ("origin", own)],
        &[("sec-fetch-site", "none")],
        &[("origin", "https://evil.example")],
        &[("origin", "null")],
        &[("origin", "http://127.0.0.1:1")],
        &[("referer", own)],
    ];
    for headers in elsewhere {
        for (visitor, path, body) in [
            (
                app.stranger()?,
                paths::give_word(&ticket.key, &offer),
                "word=a&turn=0",
            ),
            (app.stranger()?, paths::ask(&ticket.key), "words=hello"),
            (
                app.bench.clone(),
                paths::move_stage(&ticket.pair),
                "to=ready",
            ),
            (app.counter.clone(), paths::revoke_link(&ticket.id), ""),
            (
                app.owner.clone(),
                paths::people(),
                "name=Eve&role=owner&password=waxed+linen+and+pegs",
            ),
        ] {
            let request = visitor.raw(Method::POST, &path);
            let request = request.header("content-type", "application/x-www-form-urlencoded");
            let request = headers.iter().fold(request, |request, (name, value)| {
                request.header(*name, *value)
            });
            let answer = request.body(body).send().await?;
            ensure!(
                answer.status() == 403,
                "{path} with {headers:?}: {}",
                answer.status()
            );
        }
    }
    ensure!(app.holdings().await? == before);
    Ok(())
}

async fn a_browser_without_fetch_metadata_is_known_by_its_origin(app: &TestApp) -> Result<()> {
    let ticket = app.takes_boots_in().await?;
    let request = app
        .bench
        .raw(Method::POST, &paths::move_stage(&ticket.pair));
    let request = request
        .header("origin", &app.origin)
        .form(&[("to", Stage::Ready.code())]);
    ensure!(request.send().await?.status() == 303);
    Ok(())
}

fn is_guarded(page: &Page, kind: &str) -> Result<()> {
    for (name, part) in [
        ("content-security-policy", "default-src 'none'"),
        ("content-security-policy", "frame-ancestors 'none'"),
        ("content-security-policy", "form-action 'self'"),
        ("x-content-type-options", "nosniff"),
        ("referrer-policy", "same-origin"),
        ("cross-origin-opener-policy", "same-origin"),
        ("cross-origin-resource-policy", "same-origin"),
        ("permissions-policy", "geolocation=()"),
    ] {
        ensure!(
            page.header(name).contains(part),
            "{kind}: {name} is {:?}",
            page.header(name)
        );
    }
    let policy = page.header("content-security-policy");
    ensure!(
        !policy.contains("unsafe-inline") && !policy.contains("'unsafe-eval'"),
        "{policy}"
    );
    Ok(())
}

async fn every_kind_of_answer_carries_the_guarding_headers(app: &TestApp) -> Result<()> {
    let ticket = app.takes_boots_in().await?;
    app.moves(&ticket, Stage::Ready).await?;
    let (stranger, bench, owner) = (app.stranger()?, &app.bench, &app.owner);
    let too_large = Form::new().with("name", "x".repeat(300_000));
    let private = [
        (200, stranger.get(&paths::ticket(&ticket.key)).await?),
        (200, stranger.get(&paths::pickup(&ticket.key)).await?),
        (200, stranger.get(&paths::health()).await?),
        (200, owner.get(&paths::settings()).await?),
        (303, stranger.get(&paths::bench()).await?),
        (403, bench.get(&paths::settings()).await?),
        (404, stranger.get("/nowhere").await?),
        (404, stranger.get(&paths::ticket("x")).await?),
        (
            409,
            bench
                .post(
                    &paths::move_stage(&ticket.pair),
                    Form::new().with("to", "ready"),
                )
                .await?,
        ),
        (422, owner.post(&paths::settings(), Form::new()).await?),
        (400, owner.post(&paths::settings(), too_large).await?),
        (405, stranger.get(&paths::ask(&ticket.key)).await?),
    ];
    for (status, page) in private {
        let kind = format!("{status}");
        let page = page.expects(status)?;
        is_guarded(&page, &kind)?;
        ensure!(
            page.header("cache-control").contains("no-store"),
            "{kind} may be stored"
        );
        ensure!(
            page.header("x-robots-tag").contains("noindex"),
            "{kind} may be indexed"
        );
    }
    let style = stranger.get(&paths::style()).await?.expects(200)?;
    ensure!(style.header("content-type").starts_with("text/css"));
    ensure!(style.header("cache-control").contains("public"));
    let loader = stranger.get(&paths::loader()).await?.expects(200)?;
    ensure!(loader.header("content-type").starts_with("text/javascript"));
    let no_font = stranger
        .get(&paths::font("..%2f..%2fsecret"))
        .await?
        .expects(404)?;
    for (kind, page) in [("style", style), ("loader", loader), ("no font", no_font)] {
        is_guarded(&page, kind)?;
    }
    Ok(())
}

/// The policy would refuse them, so a page that has one is broken.
async fn no_page_has_a_script_or_a_style_of_its_own_in_it(app: &TestApp) -> Result<()> {
    let ticket = app.takes_boots_in().await?;
    let offer = app.offers(&ticket).await?;
    let stranger = app.stranger()?;
    let mut pages = vec![
        stranger.get(&paths::home()).await?,
        ticket.opens(app).await?,
        ticket.opens_offer(app, &offer).await?,
        stranger.get(&paths::sign_in()).await?,
    ];
    for path in [
        paths::today(),
        paths::bench(),
        paths::find(),
        paths::intake(),
        paths::shop_ticket(&ticket.id),
        paths::claim(&ticket.id),
        paths::pair(&ticket.pair),
        paths::compose(&ticket.pair),
        paths::edit_scope(&ticket.pair),
        paths::revisions(&ticket.pair),
        paths::letters(),
        paths::prices(),
        paths::settings(),
        paths::people(),
    ] {
        pages.push(app.owner.get(&path).await?.expects(200)?);
    }
    for page in pages {
        let html = page.html();
        for tag in html.split('<').skip(1) {
            let tag = tag.split('>').next().unwrap_or(tag);
            let is_own_script = tag.starts_with("script") && !tag.contains(" src=");
            let is_inline = [" style=\"", " onclick=", " onload=", " onerror="];
            let is_inline = inline_style(tag, &is_inline);
            ensure!(
                !is_own_script && !is_inline && !tag.starts_with("style"),
                "<{tag}>"
            );
        }
    }
    Ok(())
}

fn inline_style(tag: &str, signs: &[&str]) -> bool {
    signs.iter().any(|sign| tag.contains(sign))
}

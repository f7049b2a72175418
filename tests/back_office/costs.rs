//! What only the owner sees: what supplies and bench hours cost, and what is left.

use anyhow::{Context as _, Result, ensure};
use shared_types::bench::take_off::TakeOff;
use shared_types::form::offer::OfferField;
use shared_types::form::scope::ScopeField;
use shared_types::form::service::ServiceField;
use shared_types::form::supply::SupplyField;
use shared_types::paths;
use shared_types::scope::sheet::ChoiceKey;
use shared_types::stage::Stage;

use crate::harness::TestApp;
use crate::harness::form::Form;
use crate::harness::shop::{SOLES, WELT, service_form};
use crate::harness::smtp_peer::SmtpPeer;
use crate::harness::ticket::Taken;

on_both_engines!(with a mail server:
    cost_and_margin_are_seen_by_the_owner_alone,
    what_was_agreed_keeps_its_price_when_a_supply_costs_more,
);

/// Figures that stand nowhere else: cost, markup, cost of an hour. The price of sale is 11.13.
const COST: &str = "7.57";
const MARKUP: &str = "47";
const HOUR: &str = "31.37";
const SECRETS: [&str; 6] = ["7.57", "757", "47 %", "31.37", "3137", "Cost and margin"];

/// The owner keeps rubber, and soles and welts take it: by the bench sheet, and always as much.
async fn keeps_rubber(app: &TestApp) -> Result<String> {
    let rubber = supply_form(COST);
    app.owner
        .post(&paths::supplies(), rubber)
        .await?
        .expects(303)?;
    let hour = Form::new().with(SupplyField::BenchHour.name(), HOUR);
    app.owner
        .post(&paths::bench_hour(), hour)
        .await?
        .expects(303)?;
    let page = app.owner.get(&paths::supplies()).await?.expects(200)?;
    let supply = page
        .html()
        .split("Brown rubber</a>")
        .next()
        .and_then(|before| before.rsplit(&paths::supply("")).next())
        .and_then(|id| id.get(..36))
        .context("the supply is listed")?
        .to_owned();
    let uses = |form: Form, how_much: &str, quantity: &str| {
        form.with(ServiceField::Supply(0).name(), &supply)
            .with(ServiceField::HowMuch(0).name(), how_much)
            .with(ServiceField::Quantity(0).name(), quantity)
    };
    let soles = service_form((SOLES, Stage::Soling, "60", "720", "0"));
    let welt = service_form((WELT, Stage::Structure, "150", "1440", "0"));
    for (title, form) in [
        (SOLES, uses(soles, TakeOff::Outsoles.code(), "")),
        (WELT, uses(welt, "fixed", "1.5")),
    ] {
        app.owner
            .post(&paths::service(&app.book[title]), form)
            .await?
            .expects(303)?;
    }
    Ok(supply)
}

fn supply_form(cost: &str) -> Form {
    Form::new()
        .with(SupplyField::Name.name(), "Brown rubber")
        .with(SupplyField::Unit.name(), "square-decimetre")
        .with(SupplyField::Cost.name(), cost)
        .with(SupplyField::Waste.name(), "13")
        .with(SupplyField::Markup.name(), MARKUP)
}

fn keeps_the_secrets(html: &str, whose: &str) -> Result<()> {
    for secret in SECRETS {
        // Digests and ids are full of digits, so only whole figures count.
        let found = html
            .match_indices(secret)
            .find(|(at, _)| is_a_word(html, *at, secret.len()));
        ensure!(found.is_none(), "{whose} shows {secret}: {found:?}");
    }
    Ok(())
}

fn is_a_word(html: &str, at: usize, length: usize) -> bool {
    let before = html[..at].chars().next_back();
    let after = html[at + length..].chars().next();
    let joins = |letter: Option<char>| letter.is_some_and(char::is_alphanumeric);
    !joins(before) && !joins(after)
}

async fn offer_sent(app: &TestApp) -> Result<(Taken, String)> {
    let ticket = app.takes_boots_in().await?;
    app.moves(&ticket, Stage::Teardown).await?;
    let offer = app.offers(&ticket).await?;
    Ok((ticket, offer))
}

async fn cost_and_margin_are_seen_by_the_owner_alone(
    app: &TestApp,
    peer: &mut SmtpPeer,
) -> Result<()> {
    keeps_rubber(app).await?;
    let (ticket, offer) = offer_sent(app).await?;
    let pair = &ticket.pair;

    let seen = app.owner.get(&paths::pair(pair)).await?.expects(200)?;
    seen.must_say("Cost and margin, for you only")?;
    seen.must_say(HOUR)?;
    // By hand: 1 dm² costs 7.57, sold at 7.57 × 1.47 = 11.1279.
    seen.must_say("at $11.13 a dm²")?;

    for path in [
        paths::ticket(&ticket.key),
        paths::offer(&ticket.key, &offer),
    ] {
        let page = app.stranger()?.get(&path).await?.expects(200)?;
        page.must_say("at $11.13 a dm²")?;
        keeps_the_secrets(&page.html(), &path)?;
    }
    let composed = app.offer_form();
    let composed = composed.with(OfferField::Act.name(), "price");
    for (who, visitor) in [("counter", &app.counter), ("bench", &app.bench)] {
        for path in [
            paths::today(),
            paths::bench(),
            paths::pair(pair),
            paths::compose(pair),
            paths::edit_scope(pair),
            paths::revisions(pair),
            paths::bench_sheet(pair),
            paths::shop_ticket(&ticket.id),
        ] {
            let page = visitor.get(&path).await?.expects(200)?;
            keeps_the_secrets(&page.html(), &format!("{path} for the {who}"))?;
        }
        let work = OfferField::Work(ChoiceKey::A, ScopeField::Service).name();
        let form = composed.clone().with(work, &app.book[SOLES]);
        let page = visitor.post(&paths::compose(pair), form).await?;
        keeps_the_secrets(&page.html(), &format!("the composer for the {who}"))?;
    }
    for path in [paths::intake(), paths::claim(&ticket.id), paths::letters()] {
        let page = app.counter.get(&path).await?.expects(200)?;
        keeps_the_secrets(&page.html(), &path)?;
    }
    app.delivers_letters().await?;
    let letters = peer.letters()?;
    ensure!(letters.len() >= 2, "{} letters", letters.len());
    for letter in letters {
        for part in ["subject", "text", "html"] {
            keeps_the_secrets(&letter.of(part), "a letter")?;
        }
    }
    Ok(())
}

async fn what_was_agreed_keeps_its_price_when_a_supply_costs_more(
    app: &TestApp,
    _: &mut SmtpPeer,
) -> Result<()> {
    let supply = keeps_rubber(app).await?;
    let (ticket, offer) = offer_sent(app).await?;
    let shown = ticket.opens_offer(app, &offer).await?.words();
    let agreed = ticket.opens(app).await?.words();
    app.owner
        .post(&paths::supply(&supply), supply_form("97.00"))
        .await?
        .expects(303)?;
    ensure!(shown == ticket.opens_offer(app, &offer).await?.words());
    ensure!(agreed == ticket.opens(app).await?.words());
    let fresh = app.takes_boots_in().await?;
    fresh.opens(app).await?.must_say("at $142.59 a dm²")?;

    let retire = Form::new().with("act", "retire");
    let refused = app.owner.post(&paths::supply(&supply), retire).await?;
    refused
        .expects(409)?
        .must_say("These services still use it")
}

//! One job as the counter, the bench and the customer see it, with scripts and without.

use anyhow::{Context as _, Result, ensure};
use shared_types::paths;

use super::driver::{Browser, Screen, Scripts};
use crate::harness::form::picture;
use crate::harness::shop::{BENCH, COUNTER, LIFTS, PASSWORD, SOLES, WELT};
use crate::harness::{Engine, TestApp};

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn a_job_goes_its_way_with_scripts() -> Result<()> {
    walk(Scripts::On).await
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn a_job_goes_its_way_without_scripts() -> Result<()> {
    walk(Scripts::Off).await
}

async fn walk(scripts: Scripts) -> Result<()> {
    let app = TestApp::start(Engine::Sqlite).await?;
    let counter = Browser::start(&app.origin, Screen::Desk, scripts).await?;
    signs_in(&counter, COUNTER).await?;
    let link = takes_in(&app, &counter, scripts).await?;

    let customer = Browser::start(&app.origin, Screen::Telephone, scripts).await?;
    customer.opens(&link).await?;
    customer.sees("$123.40").await?;
    customer.fits().await?;

    let bench = Browser::start(&app.origin, Screen::Telephone, scripts).await?;
    signs_in(&bench, BENCH).await?;
    takes_apart(&bench).await?;
    makes_an_offer(&app, &bench, scripts).await?;
    answers(&customer, &link).await?;
    finishes(&bench).await?;
    is_collected(&counter).await?;

    customer.opens(&link).await?;
    customer.sees("Your pair is with you again.").await?;
    for browser in [counter, bench, customer] {
        browser.complains_of_nothing().await?;
        browser.closes().await?;
    }
    app.ends().await
}

async fn signs_in(browser: &Browser, name: &str) -> Result<()> {
    browser.opens(&paths::bench()).await?;
    browser.types("Your name", name).await?;
    browser.types("Password", PASSWORD).await?;
    browser.presses("Sign in").await?;
    browser.sees("Sign out").await
}

/// The counter takes Nadia Okafor's boots in; gives the customer's link.
async fn takes_in(app: &TestApp, counter: &Browser, scripts: Scripts) -> Result<String> {
    counter.presses("Take in").await?;
    counter
        .types("Name of a new customer", "Nadia Okafor")
        .await?;
    counter.types("Mail address", "nadia@example.com").await?;
    counter.types("Kind", "lace-up work boots").await?;
    counter.types("Colour", "dark green").await?;
    counter.chooses("Size system", "EU").await?;
    counter.types("Size, as stamped", "44").await?;
    counter
        .types("What is wrong", "The soles are through at the ball.")
        .await?;
    let photo = app.data().join("boots.jpg");
    std::fs::write(&photo, picture(900, 70)?)?;
    counter.picks_picture("Pictures", &photo).await?;
    counter.islands_wake().await?;
    counter.ticks(SOLES).await?;
    counter.ticks(LIFTS).await?;
    if scripts == Scripts::On {
        counter
            .sees("together $123.40; promised by Wed 2 Dec")
            .await?;
    }
    counter.presses("Work out price and day").await?;
    counter.sees("$123.40").await?;
    counter.sees("Wed 2 Dec").await?;
    counter
        .presses("Take in and print the claim ticket")
        .await?;
    counter.sees("Point a phone here").await?;
    let words = counter.words().await?;
    let link = words
        .split_whitespace()
        .find(|word| word.contains(&paths::ticket("")));
    let link = link.with_context(|| format!("the claim ticket has the link: {words}"))?;
    Ok(link.trim_start_matches(&app.origin).to_owned())
}

async fn takes_apart(bench: &Browser) -> Result<()> {
    bench.opens(&paths::bench()).await?;
    bench.fits().await?;
    bench.presses("Dark green lace-up work boots").await?;
    bench.presses("On to teardown").await?;
    bench.sees("The pair has moved on.").await?;
    bench.types("A few words", "Both soles are off.").await?;
    bench.presses("Show the customer").await?;
    bench.sees("The note is in the journal.").await?;
    bench.sees("Both soles are off.").await?;
    bench.fits().await
}

async fn makes_an_offer(app: &TestApp, bench: &Browser, scripts: Scripts) -> Result<()> {
    app.clock.advance(time::Duration::hours(4));
    bench.presses("Offer").await?;
    bench
        .types(
            "What was found",
            "The welt is split at the ball of both boots.",
        )
        .await?;
    bench.types("Name of choice A", "A new welt").await?;
    bench
        .types(
            "What it means",
            "Sewn in by hand; it can be resoled twice more.",
        )
        .await?;
    bench
        .types(
            "If they say no",
            "We glue the soles on; they will hold for a season.",
        )
        .await?;
    bench.islands_wake().await?;
    bench.presses("Structure: ").await?;
    bench.ticks(WELT).await?;
    if scripts == Scripts::On {
        bench
            .sees("$189.64 more than agreed; ready by Thu 3 Dec if agreed now")
            .await?;
    }
    bench.presses("Look at it as the customer will").await?;
    bench.sees("$313.04").await?;
    bench.sees("Thu 3 Dec").await?;
    bench.fits().await?;
    bench.presses("Send it to Nadia Okafor by mail").await?;
    bench.sees("The offer is with the customer.").await
}

/// Answers in the very minute in which the offer was made: a later answer has a later day.
async fn answers(customer: &Browser, link: &str) -> Result<()> {
    customer.opens(link).await?;
    customer.sees("Both soles are off.").await?;
    customer.fits().await?;
    customer.presses("See what we found").await?;
    customer.sees("We need your word").await?;
    customer.islands_wake().await?;
    customer.fits().await?;
    customer
        .presses("Yes, do it: $189.64 more, ready Thu 3 Dec")
        .await?;
    customer.sees("Your word, kept").await?;
    customer.sees("$313.04").await?;
    customer.islands_wake().await?;
    customer.fits().await?;
    customer.presses("Take my answer back").await?;
    customer.sees("Your answer is taken back.").await?;
    customer.presses("Yes, do it: ").await?;
    customer.sees("Your word, kept").await?;
    ensure!(customer.place().await?.starts_with(link));
    Ok(())
}

async fn finishes(bench: &Browser) -> Result<()> {
    bench.opens(&paths::bench()).await?;
    bench.presses("Dark green lace-up work boots").await?;
    bench.sees("The customer said yes").await?;
    bench.presses("Start on what is agreed").await?;
    bench.sees("Work has started on what is agreed.").await?;
    for next in [
        "On to structure",
        "On to soling",
        "On to heeling",
        "On to finishing",
        "Ready for pickup",
    ] {
        bench.presses(next).await?;
        bench.sees("The pair has moved on.").await?;
    }
    bench.sees("Ready").await
}

async fn is_collected(counter: &Browser) -> Result<()> {
    counter
        .opens(&format!("{}?q=okafor", paths::find()))
        .await?;
    counter.presses("1001").await?;
    counter.presses("Ticket 1001").await?;
    counter.ticks("Card").await?;
    counter.presses("Record the payment").await?;
    counter.sees("The payment is recorded.").await?;
    counter.presses("Hand over").await?;
    counter.sees("Handed over.").await
}

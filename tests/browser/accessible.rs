//! Every page of the invented shop in both themes, held to the rules of axe-core (WCAG 2.2 A and AA,
//! and its best practices), as wide as a telephone and with all that opens opened.

use anyhow::{Context as _, Result};
use shared_types::form::what_if::WhatIfField;
use shared_types::paths;

use super::demo::Demo;
use super::driver::{Browser, Screen, Scripts};

/// A pair that waits for nothing at the bench.
const PAIR: &str = "Walnut pull-on boots";

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn the_shops_pages_can_be_used_by_everyone() -> Result<()> {
    let demo = Demo::opens()?;
    let owner = Browser::start(&demo.shop.origin, Screen::Telephone, Scripts::On).await?;
    demo.owner_signs_in(&owner).await?;
    lists_and_settings(&owner).await?;
    what_is_sold(&owner).await?;
    a_pair(&owner).await?;
    the_counter(&owner).await?;
    owner.complains_of_nothing().await?;
    owner.closes().await?;
    demo.shop.stops()
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn the_customers_pages_can_be_used_by_everyone() -> Result<()> {
    let demo = Demo::opens()?;
    let customer = Browser::start(&demo.shop.origin, Screen::Telephone, Scripts::On).await?;
    for link in &demo.links {
        customer.opens(link).await?;
        customer.is_accessible().await?;
    }
    let asked = demo.links.first().context("a link")?;
    customer.opens(asked).await?;
    customer.presses("See what we found").await?;
    customer.sees("We need your word").await?;
    customer.is_accessible().await?;
    customer.presses("Yes, do it: ").await?;
    customer.sees("Your word, kept").await?;
    customer.is_accessible().await?;
    customer.complains_of_nothing().await?;
    customer.closes().await?;
    demo.shop.stops()
}

async fn lists_and_settings(owner: &Browser) -> Result<()> {
    let what_if = format!(
        "{}?{}=90&{}=2027-01-02",
        paths::what_if(),
        WhatIfField::RushMinutes.name(),
        WhatIfField::RushDay.name(),
    );
    for path in [
        paths::today(),
        paths::bench(),
        paths::plan(),
        what_if,
        paths::letters(),
        format!("{}?q=okafor", paths::find()),
        paths::settings(),
        paths::hands(),
        paths::people(),
    ] {
        owner.opens(&path).await?;
        owner.is_accessible().await?;
    }
    Ok(())
}

async fn what_is_sold(owner: &Browser) -> Result<()> {
    for (list, one) in [
        (paths::supplies(), "Cork sheet"),
        (paths::prices(), "Soles stitched by hand"),
    ] {
        owner.opens(&list).await?;
        owner.is_accessible().await?;
        owner.presses(one).await?;
        owner.sees("Take it out of the").await?;
        owner.is_accessible().await?;
    }
    owner.opens(&paths::rules()).await?;
    owner.is_accessible().await?;
    owner.presses("each need “Top lifts”").await?;
    owner.sees("Say it in your words").await?;
    owner.is_accessible().await?;
    for kind in ["needs-work", "needs-sound", "unfit", "mends", "together"] {
        owner.opens(&paths::new_rule(kind)).await?;
        owner.sees("A new rule").await?;
        owner.is_accessible().await?;
    }
    Ok(())
}

async fn a_pair(owner: &Browser) -> Result<()> {
    owner.opens(&paths::bench()).await?;
    owner.presses(PAIR).await?;
    owner.sees("Figures and drawings").await?;
    owner.is_accessible().await?;
    let place = owner.place().await?;
    let pair = place.split(['?', '#']).next().unwrap_or_default();
    let pair = pair.trim_start_matches(&paths::pair("")).to_owned();
    for path in [
        paths::bench_sheet(&pair),
        paths::bench_paper(&pair),
        paths::edit_scope(&pair),
        paths::revisions(&pair),
    ] {
        owner.opens(&path).await?;
        owner.is_accessible().await?;
    }
    owner.opens(&paths::measure(&pair)).await?;
    owner.types("Insole length", "2 930").await?;
    owner.types("Insole width at the ball", "broad").await?;
    owner.presses("Keep these measurements").await?;
    owner.sees("to be put right below").await?;
    owner.complains_of_a_refused_form().await?;
    owner.is_accessible().await?;
    owner.opens(&paths::compose(&pair)).await?;
    owner.presses("Propose choices from this").await?;
    owner.sees("Agreed until now").await?;
    owner.is_accessible().await
}

async fn the_counter(owner: &Browser) -> Result<()> {
    owner.opens(&paths::intake()).await?;
    owner.is_accessible().await?;
    owner.ticks("Rubber soles with deep lugs").await?;
    owner.sees("Pair A: ").await?;
    owner.presses("Work out price and day").await?;
    owner.sees("At the bench").await?;
    owner.is_accessible().await?;
    owner.opens(&paths::today()).await?;
    owner.presses("Hand it over").await?;
    owner.sees("Print the claim ticket").await?;
    owner.is_accessible().await?;
    owner.presses("Print the claim ticket").await?;
    owner.sees("Point a phone here").await?;
    owner.is_accessible().await
}

//! The invented shop as the README shows it: what the demo prints opens, whole and without complaint.

use anyhow::{Context as _, Result};
use shared_types::paths;

use super::demo::{Demo, signs_in};
use super::driver::{Browser, Screen, Scripts};

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn the_demo_shop_opens_as_it_says_and_looks_as_the_readme_shows() -> Result<()> {
    let demo = Demo::opens()?;
    let (shop, links) = (&demo.shop, &demo.links);
    let customer = Browser::start(&shop.origin, Screen::LongTelephone, Scripts::On).await?;
    for link in links {
        customer.opens(link).await?;
        customer.fits().await?;
        customer.has_all_pictures().await?;
    }
    customer.opens(links.first().context("a link")?).await?;
    customer.sees("Dark green lace-up work boots").await?;
    customer.keeps_picture("customer.png").await?;
    customer.presses("See what we found").await?;
    customer.sees("Leather welt").await?;
    customer.keeps_picture("offer.png").await?;
    customer.complains_of_nothing().await?;
    customer.closes().await?;

    let desk = Browser::start(&shop.origin, Screen::Desk, Scripts::On).await?;
    for (name, password) in &demo.people {
        signs_in(&desk, name, password).await?;
        if name.starts_with("Mina") {
            desk.keeps_picture("bench.png").await?;
            desk.presses("Dark green lace-up work boots").await?;
            desk.presses("Figures and drawings").await?;
            desk.sees("Drawn to scale").await?;
            desk.keeps_picture("bench-sheet.png").await?;
            desk.opens(&paths::plan()).await?;
            desk.sees("In order of work").await?;
            desk.keeps_picture("plan.png").await?;
            desk.opens(&paths::intake()).await?;
            desk.ticks("Rubber soles with deep lugs").await?;
            desk.sees("; promised by ").await?;
            desk.keeps_picture("intake.png").await?;
        }
        desk.presses("Sign out").await?;
        desk.sees("Sign in").await?;
    }
    desk.complains_of_nothing().await?;
    desk.closes().await?;
    demo.shop.stops()
}

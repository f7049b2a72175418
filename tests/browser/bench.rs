//! The bench's queue on a telephone that leans on the shelf.

use anyhow::{Result, ensure};
use shared_types::form::intake::{IntakeField, PairField};
use shared_types::paths;
use shared_types::stage::Stage;

use super::driver::{Browser, Screen, Scripts};
use crate::harness::form::Form;
use crate::harness::shop::{BENCH, PASSWORD};
use crate::harness::ticket::Taken;
use crate::harness::{Engine, TestApp};

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn the_bench_sees_its_pairs_in_the_order_of_work() -> Result<()> {
    let app = TestApp::start(Engine::Sqlite).await?;
    let boots = takes_in(&app, "Nadia Okafor", "dark green", "lace-up work boots").await?;
    let brogues = takes_in(&app, "Otis Marsh", "chestnut", "wingtip brogues").await?;
    let riding = takes_in(&app, "Ana Lima", "black", "riding boots").await?;
    takes_in(&app, "Cem Acar", "oxblood", "penny loafers").await?;
    app.moves(&brogues, Stage::Soling).await?;
    app.moves(&riding, Stage::Finishing).await?;
    let drying = Form::new().with("hold", "drying");
    app.bench
        .post(&paths::set_hold(&riding.pair), drying)
        .await?
        .expects(303)?;
    app.moves(&boots, Stage::Teardown).await?;
    app.offers(&boots).await?;

    let bench = Browser::start(&app.origin, Screen::Telephone, Scripts::On).await?;
    bench.opens(&paths::bench()).await?;
    bench.types("Your name", BENCH).await?;
    bench.types("Password", PASSWORD).await?;
    bench.presses("Sign in").await?;
    bench.sees("4 pairs").await?;
    let words = bench.words().await?;
    let place = |title: &str| words.find(title);
    let workable = [place("Chestnut wingtip"), place("Oxblood penny")];
    ensure!(
        workable[0].is_some() && workable[0] < workable[1],
        "{words}"
    );
    for waits in ["Dark green lace-up", "Black riding boots"] {
        ensure!(
            place(waits) > workable[1],
            "{waits} can't be worked on now: {words}"
        );
    }
    bench.fits().await?;
    bench.complains_of_nothing().await?;
    bench.closes().await?;
    app.ends().await
}

async fn takes_in(app: &TestApp, name: &str, colour: &str, kind: &str) -> Result<Taken> {
    let pair = |field| IntakeField::Pair(0, field).name();
    let form = app
        .intake_form()
        .await?
        .set(IntakeField::Name.name(), name)
        .set(pair(PairField::Colour), colour)
        .set(pair(PairField::Kind), kind);
    app.takes_in(form).await
}

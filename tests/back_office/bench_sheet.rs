//! The bench measures a pair, is asked back where something can't be right, and reads its sheet.

use anyhow::{Result, ensure};
use shared_types::form::measure::MeasureField;
use shared_types::paths;

use crate::harness::TestApp;
use crate::harness::form::Form;
use crate::harness::page::Page;
use crate::harness::ticket::Taken;

on_both_engines!(
    the_bench_measures_a_pair_and_its_sheet_keeps_the_pitch,
    a_doubt_is_asked_about_at_its_field_and_kept_once_it_is_so,
    what_another_hand_measured_is_not_written_over,
    neither_customer_nor_stranger_nor_counter_gets_at_the_measurements,
);

/// The thick sole of trade-facts: 4 mm more under the ball, a top lift of 12 mm.
fn thick_sole() -> Form {
    [
        ("insole-length", "293"),
        ("old-sole-at-ball", "5"),
        ("old-sole-at-seat", "5"),
        ("old-heel-base", "24"),
        ("old-top-lift", "6"),
        ("new-sole", "lug"),
        ("new-sole-at-ball", "9"),
        ("new-sole-at-seat", "5"),
        ("new-top-lift", "12"),
    ]
    .into_iter()
    .fold(Form::new(), |form, (name, value)| form.with(name, value))
}

async fn measures(app: &TestApp, ticket: &Taken, form: Form) -> Result<Page> {
    app.bench.post(&paths::measure(&ticket.pair), form).await
}

async fn the_bench_measures_a_pair_and_its_sheet_keeps_the_pitch(app: &TestApp) -> Result<()> {
    let ticket = app.takes_boots_in().await?;
    let sheet = paths::bench_sheet(&ticket.pair);
    let before = app.counter.get(&sheet).await?.expects(200)?;
    before.must_say("Nothing is measured yet")?;
    before.must_say("The heel is not worked out yet")?;

    let entries = app.entries().await?;
    let kept = measures(app, &ticket, thick_sole()).await?.expects(303)?;
    ensure!(app.entries().await? == entries + 1);
    let page = app.bench.follow(&kept).await?.expects(200)?;
    page.must_say("The measurements are kept.")?;
    page.must_say("New heel base 22 ± 0.8 mm")?;
    page.must_say("Against the old heel base −2 ± 0.8 mm")?;
    page.must_say("a shoe that stands level on the bench")?;
    ensure!(page.html().contains("class=\"bench-drawing\""));

    let paper = app.bench.get(&paths::bench_paper(&ticket.pair)).await?;
    let paper = paper.expects(200)?;
    paper.must_say("Dark green lace-up work boots, EU 44")?;
    for hidden in ["Nadia", "Okafor", "$"] {
        paper.must_not_say(hidden)?;
    }

    // The form shows what was kept; sent once more it changes nothing.
    let form = app.bench.get(&paths::measure(&ticket.pair)).await?;
    ensure!(form.value_of("old-heel-base")? == "24");
    let again = thick_sole().with("seen", form.value_of("seen")?);
    measures(app, &ticket, again).await?.expects(303)?;
    ensure!(app.entries().await? == entries + 1);
    Ok(())
}

async fn a_doubt_is_asked_about_at_its_field_and_kept_once_it_is_so(app: &TestApp) -> Result<()> {
    let ticket = app.takes_boots_in().await?;
    let entries = app.entries().await?;
    let doubtful = || {
        Form::new()
            .with("insole-length", "293")
            .with("outsole-length", "333")
            .with("insole-ball", "95 iron")
            .with("cork-sheet", "2 mm thick")
    };
    let asked = measures(app, &ticket, doubtful()).await?.expects(422)?;
    asked.must_say("40 mm longer than its insole")?;
    asked.must_say("Write a number such as 4.8, in one of these units: mm, cm, in.")?;
    asked.must_say("3 things are to be put right")?;
    ensure!(asked.value_of("insole-ball")? == "95 iron");
    ensure!(asked.value_of("outsole-length")? == "333");
    ensure!(asked.value_of("cork-sheet")? == "2 mm thick");
    ensure!(app.entries().await? == entries, "nothing was recorded");

    let so = "outsole-length-is-so";
    let answered = doubtful()
        .set("insole-ball", "95")
        .set("cork-sheet", "2")
        .with(so, asked.value_of(so)?);
    let kept = measures(app, &ticket, answered).await?.expects(303)?;
    let sheet = app.bench.follow(&kept).await?.expects(200)?;
    sheet.must_not_say("40 mm longer")?;
    let form = app.bench.get(&paths::measure(&ticket.pair)).await?;
    form.must_say("40 mm longer than its insole")?;
    ensure!(form.value_of("outsole-length")? == "333");
    Ok(())
}

async fn what_another_hand_measured_is_not_written_over(app: &TestApp) -> Result<()> {
    let ticket = app.takes_boots_in().await?;
    let open = app.owner.get(&paths::measure(&ticket.pair)).await?;
    let seen = open.value_of(&MeasureField::Seen.name())?;
    measures(app, &ticket, thick_sole()).await?.expects(303)?;
    let late = Form::new().with("seen", seen).with("insole-length", "290");
    let path = paths::measure(&ticket.pair);
    let refused = app.owner.post(&path, late).await?.expects(409)?;
    refused.must_say("Something changed after this page was opened")?;
    ensure!(refused.value_of("insole-length")? == "290", "it is kept");
    let form = app.owner.get(&path).await?.expects(200)?;
    ensure!(form.value_of("insole-length")? == "293");
    Ok(())
}

async fn neither_customer_nor_stranger_nor_counter_gets_at_the_measurements(
    app: &TestApp,
) -> Result<()> {
    let ticket = app.takes_boots_in().await?;
    measures(app, &ticket, thick_sole()).await?.expects(303)?;
    let before = app.entries().await?;
    let form = || Form::new().with("insole-length", "290");
    let stranger = app.stranger()?;
    for path in [
        paths::bench_sheet(&ticket.pair),
        paths::bench_paper(&ticket.pair),
        paths::measure(&ticket.pair),
    ] {
        let answer = stranger.get(&path).await?.expects(303)?;
        ensure!(answer.location()?.starts_with(paths::SIGN_IN));
    }
    stranger
        .post(&paths::measure(&ticket.pair), form())
        .await?
        .expects(303)?;
    app.counter
        .post(&paths::measure(&ticket.pair), form())
        .await?
        .expects(403)?;
    ensure!(app.entries().await? == before);
    let page = ticket.opens(app).await?;
    page.must_not_say("Measured")?;
    page.must_not_say("heel base")?;
    Ok(())
}

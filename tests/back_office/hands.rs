//! Hands and stations: set by the owner, followed by the price book and by the plan.

use anyhow::{Result, ensure};
use shared_types::form::hands::{HandsField, fields_of};
use shared_types::form::service::ServiceField;
use shared_types::paths;
use shared_types::stage::Stage;
use time::macros::date;

use crate::harness::TestApp;
use crate::harness::database::Database;
use crate::harness::form::Form;
use crate::harness::shop::{juniper_row, service_form};

on_both_engines!(
    the_owner_names_who_works_and_what_stands_there,
    a_bench_that_does_not_fit_is_refused_and_kept,
    what_an_older_program_wrote_of_a_pair_is_written_anew,
);

/// The form as it stands at first; it is Tuesday 1 December.
fn form() -> Result<Form> {
    Form::shown(&fields_of(&juniper_row()?, date!(2026 - 12 - 01)))
}

async fn the_owner_names_who_works_and_what_stands_there(app: &TestApp) -> Result<()> {
    let service = service_form(("Sewn at the machine", Stage::Soling, "35", "0", "4.00"))
        .with(ServiceField::Station.name(), "outsole stitcher")
        .set(ServiceField::P90.name(), "1:00");
    app.owner
        .post(&paths::prices(), service)
        .await?
        .expects(303)?;
    let page = app.owner.get(&paths::hands()).await?.expects(200)?;
    ensure!(page.html().contains("<option value=\"Walt Brandvold\">"));
    let form = form()?
        .set(HandsField::Name(0).name(), "Walt Brandvold")
        .with(HandsField::Name(1).name(), "Ines Calloway")
        .with(HandsField::Minutes(1, 1).name(), "0")
        .with(HandsField::Away(1).name(), "2026-12-24 to 2027-01-02")
        .set(HandsField::Station(0).name(), "stitcher")
        .set(HandsField::Chance.name(), "90");
    app.owner
        .post(&paths::hands(), form.clone())
        .await?
        .expects(303)?;
    let page = app.owner.get(&paths::hands()).await?.expects(200)?;
    ensure!(page.value_of("hand-1-name")? == "Ines Calloway");
    ensure!(page.value_of("hand-1-minutes-1")? == "0:00");
    ensure!(page.html().contains("2026-12-24 to 2027-01-02"));
    ensure!(page.value_of("chance")? == "90");
    page.must_not_say("The price book still names")?;

    // The settings' own form leaves all that alone.
    let settings = shared_types::form::settings::fields_of(&juniper_row()?);
    app.owner
        .post(&paths::settings(), Form::shown(&settings)?)
        .await?
        .expects(303)?;
    let page = app.owner.get(&paths::hands()).await?.expects(200)?;
    ensure!(page.value_of("hand-0-name")? == "Walt Brandvold");

    // The work has followed its station to the new name; without the station it is said.
    let gone = form.set(HandsField::Station(0).name(), "");
    app.owner.post(&paths::hands(), gone).await?.expects(303)?;
    let page = app.owner.get(&paths::hands()).await?.expects(200)?;
    page.must_say("The price book still names stitcher, which is not here any more.")?;
    let book = app.owner.get(&paths::prices()).await?.expects(200)?;
    let html = book.html();
    let (before, _) = html.split_once("Sewn at the machine<").unwrap_or_default();
    let (_, id) = before.rsplit_once(&paths::service("")).unwrap_or_default();
    let service = paths::service(id.split('"').next().unwrap_or_default());
    let page = app.owner.get(&service).await?.expects(200)?;
    page.must_say("stitcher (not in the shop any more)")?;
    ensure!(page.value_of("p90")? == "60");
    Ok(())
}

async fn a_bench_that_does_not_fit_is_refused_and_kept(app: &TestApp) -> Result<()> {
    let before = app.holdings().await?;
    let form = form()?;
    for (field, typed, reason) in [
        (
            HandsField::Name(1),
            "hand 1",
            "Someone here already has this name",
        ),
        (
            HandsField::Minutes(0, 5),
            "5:00",
            "The shop is open for 4 h that day",
        ),
        (HandsField::Away(0), "2026-11-30", "2026-11-30 is past"),
        (
            HandsField::Station(2),
            "FINISHER",
            "This station stands here already",
        ),
        (
            HandsField::Chance,
            "all",
            "Write a whole number from 50 to 99",
        ),
    ] {
        let form = form.clone().set(field.name(), typed);
        let refused = app.owner.post(&paths::hands(), form).await?.expects(422)?;
        refused.must_say(reason)?;
        ensure!(refused.html().contains(typed), "{typed:?} is kept");
    }
    let nobody = form.with(HandsField::Gone(0).name(), "yes");
    let refused = app
        .owner
        .post(&paths::hands(), nobody)
        .await?
        .expects(422)?;
    refused.must_say("Somebody must be at the bench")?;
    ensure!(app.holdings().await? == before);
    Ok(())
}

async fn what_an_older_program_wrote_of_a_pair_is_written_anew(app: &TestApp) -> Result<()> {
    app.takes_boots_in().await?;
    let as_now = "select count(*) from pair where brief like '%\"left\":{\"lines\":[{%'";
    ensure!(app.number(as_now).await? == 1);
    let page = app.owner.get(&paths::hands()).await?.expects(200)?;
    let (_, day) = page
        .words()
        .split_once("One pair is open; with these hands it is ready by ")
        .map(|(before, day)| (before.to_owned(), day.chars().take(9).collect::<String>()))
        .unwrap_or_default();
    ensure!(!day.is_empty(), "{}", page.words());

    let as_before = "update pair set brief = \
                     replace(replace(brief, '\"form\":', '\"once\":'), '\"left\":', '\"unknown\":')";
    Database::tamper(&app.app.db, as_before).await?;
    ensure!(app.number(as_now).await? == 0);
    let entries = app.entries().await?;
    server::record::renew_briefs(&app.app.db).await?;
    ensure!(app.number(as_now).await? == 1);
    ensure!(app.entries().await? == entries);
    app.owner
        .get(&paths::hands())
        .await?
        .must_say(&format!("it is ready by {day}"))
}

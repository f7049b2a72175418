//! One pair through its whole life, with every amount and day worked out here by hand.
//!
//! Juniper Row asks 68.00 an hour, rounds a line up to 0.50 and adds 6.25 % tax on goods:
//!
//! | line     | labour           | goods | line   |
//! |----------|------------------|-------|--------|
//! | soles    | 60 min: 68.00    | 24.00 | 92.00  |
//! | lifts    | 20 min: 22.67    |  6.40 | 29.50  |
//! | welt     | 150 min: 170.00  | 18.20 | 188.50 |
//! | rib      | 45 min: 51.00    |  3.00 | 54.00  |
//!
//! - soles, lifts: 121.50, tax on 30.40 is 1.90: 123.40
//! - and welt: 310.00, tax on 48.60 is 3.0375: 313.04, which is 189.64 more
//! - and rib: 364.00, tax on 51.60 is 3.225: 367.23
//! - soles, welt: 280.50, tax on 42.20 is 2.6375: 283.14

use anyhow::{Result, ensure};
use shared_types::form::intake::{IntakeField, PairField};
use shared_types::form::offer::{ACT_RECORD, EditField};
use shared_types::form::scope::ScopeField;
use shared_types::paths;
use shared_types::stage::Stage;
use time::Duration;

use crate::harness::TestApp;
use crate::harness::form::{Form, picture};
use crate::harness::ticket::Taken;

on_both_engines!(
    a_pair_goes_through_its_whole_life,
    days_in_an_offer_follow_from_the_queue_and_the_rests,
    reminders_come_on_the_days_that_the_shop_set_and_then_no_more,
);

async fn a_pair_goes_through_its_whole_life(app: &TestApp) -> Result<()> {
    let ticket = is_taken_in_with_a_picture(app).await?;
    is_taken_apart_and_noted(app, &ticket).await?;
    let offer = app.offers(&ticket).await?;
    changes_their_mind_once(app, &ticket, &offer).await?;
    bench_starts_and_the_word_stands(app, &ticket, &offer).await?;
    scope_changes_only_with_a_new_word(app, &ticket).await?;
    is_ready(app, &ticket).await?;
    is_paid_and_collected(app, &ticket).await
}

async fn is_taken_in_with_a_picture(app: &TestApp) -> Result<Taken> {
    let photo = IntakeField::Pair(0, PairField::Photo).name();
    let form = app.intake_form().await?.picture(photo, picture(300, 90)?);
    let ticket = app.takes_in(form).await?;

    let claim = app
        .counter
        .get(&paths::claim(&ticket.id))
        .await?
        .expects(200)?;
    ensure!(
        claim.html().contains("<svg"),
        "the claim ticket has a code to scan"
    );
    claim.must_say(&format!("{}{}", app.origin, paths::ticket(&ticket.key)))?;
    let page = ticket.opens(app).await?;
    page.must_say("$123.40")?;
    page.must_say("Wed 2 Dec")?;
    let shown = page.after(&paths::photo(&ticket.key, ""))?;
    let photo = app
        .stranger()?
        .get(&paths::photo(&ticket.key, shown))
        .await?
        .expects(200)?;
    ensure!(photo.header("content-type") == "image/jpeg" && photo.bytes.starts_with(b"\xFF\xD8"));
    ensure!(app.letters("taken-in").await?.len() == 1);
    Ok(ticket)
}

async fn is_taken_apart_and_noted(app: &TestApp, ticket: &Taken) -> Result<()> {
    app.time_passes(Duration::hours(4)).await?;
    app.moves(ticket, Stage::Teardown).await?;
    for (audience, words) in [
        ("customer", "Both soles are off."),
        ("shop", "Glue pot is empty."),
    ] {
        let note = Form::new().with("words", words).with("audience", audience);
        app.bench
            .post(&paths::post_note(&ticket.pair), note)
            .await?
            .expects(303)?;
    }
    let page = ticket.opens(app).await?;
    page.must_say("We are taking your pair apart")?;
    page.must_say("Both soles are off.")?;
    page.must_not_say("Glue pot is empty.")?;
    let pair = app
        .bench
        .get(&paths::pair(&ticket.pair))
        .await?
        .expects(200)?;
    pair.must_say("Glue pot is empty.")
}

async fn changes_their_mind_once(app: &TestApp, ticket: &Taken, offer: &str) -> Result<()> {
    let page = ticket.opens_offer(app, offer).await?.expects(200)?;
    for words in [
        "$123.40",
        "$313.04",
        "$189.64",
        "$367.23",
        "Thu 3 Dec",
        "Fri 4 Dec, 17:30",
    ] {
        page.must_say(words)?;
    }
    app.time_passes(Duration::minutes(5)).await?;
    let yes = ticket.says(app, offer, (0, "b")).await?.expects(303)?;
    let receipt = app.stranger()?.follow(&yes).await?.expects(200)?;
    for words in ["$367.23", "A new welt and rib", "Fri 4 Dec", offer] {
        receipt.must_say(words)?;
    }
    app.time_passes(Duration::minutes(30)).await?;
    ticket.takes_back(app, offer, 0).await?.expects(303)?;
    ticket.opens(app).await?.must_say("$123.40")?;
    let yes = ticket.says(app, offer, (1, "a")).await?.expects(303)?;
    let receipt = app.stranger()?.follow(&yes).await?.expects(200)?;
    receipt.must_say("$313.04")?;
    ensure!(app.letters("word-recorded").await?.len() == 2);
    ensure!(app.letters("word-taken-back").await?.len() == 1);
    Ok(())
}

async fn bench_starts_and_the_word_stands(
    app: &TestApp,
    ticket: &Taken,
    offer: &str,
) -> Result<()> {
    app.bench
        .post(&paths::start_work(&ticket.pair), Form::new())
        .await?
        .expects(303)?;
    let refused = ticket.takes_back(app, offer, 1).await?.expects(409)?;
    refused.must_say("The bench has started on this work")?;
    refused.must_say("$313.04")
}

/// The lines agreed by now are soles, lifts and welt; the lifts go.
async fn scope_changes_only_with_a_new_word(app: &TestApp, ticket: &Taken) -> Result<()> {
    let path = paths::edit_scope(&ticket.pair);
    let agreed = app.bench.get(&path).await?.expects(200)?;
    let keep = EditField::Work(ScopeField::Keep).name();
    let without_lifts = |before: String| {
        Form::new()
            .with(EditField::Given.name(), "by-telephone")
            .with(
                EditField::Words.name(),
                "Leave the top lifts, they are fine.",
            )
            .with(EditField::Before.name(), before)
            .with(EditField::Act.name(), ACT_RECORD)
            .with(keep.clone(), "0")
            .with(keep.clone(), "2")
    };
    let form = Form::new()
        .with("a-title", "And the rib after all")
        .with("found", "The rib has let go on the left.")
        .with("if-declined", "It may squeak.")
        .with("act", "prepare")
        .with("a-keep", "0")
        .with("a-keep", "1")
        .with("a-keep", "2")
        .with("a-service", &app.book[crate::harness::shop::RIB]);
    let second = app.sends(ticket, form).await?;
    let edit = || app.bench.post(&path, without_lifts(second.clone()));
    edit()
        .await?
        .expects(409)?
        .must_say("An offer waits for the customer's word.")?;

    let reason = Form::new().with("reason", "The rib holds; our mistake.");
    app.bench
        .post(&paths::withdraw(&ticket.pair), reason)
        .await?
        .expects(303)?;
    let stale = without_lifts(agreed.value_of(&EditField::Before.name())?);
    let stale = app.bench.post(&path, stale).await?.expects(409)?;
    stale.must_say("The pair's scope changed after this was prepared.")?;
    edit().await?.expects(303)?;

    ticket.opens(app).await?.must_say("$283.14")?;
    let revisions = app
        .bench
        .get(&paths::revisions(&ticket.pair))
        .await?
        .expects(200)?;
    for words in [
        "$123.40",
        "$313.04",
        "$283.14",
        "Leave the top lifts, they are fine.",
    ] {
        revisions.must_say(words)?;
    }
    ensure!(app.letters("scope-changed").await?.len() == 1);
    Ok(())
}

async fn is_ready(app: &TestApp, ticket: &Taken) -> Result<()> {
    app.time_passes(Duration::minutes(5)).await?;
    app.moves(ticket, Stage::Ready).await?;
    let page = ticket.opens(app).await?;
    page.must_say("Your pair is ready. You can collect it.")?;
    page.must_say("$283.14")?;
    let entry = app
        .stranger()?
        .get(&paths::pickup(&ticket.key))
        .await?
        .expects(200)?;
    let entry = entry.html();
    // Wednesday 2 December, 9:00 in Denver.
    for line in [
        "BEGIN:VCALENDAR\r\n",
        "DTSTART:20261202T160000Z\r\n",
        "END:VCALENDAR\r\n",
    ] {
        ensure!(entry.contains(line), "{entry}");
    }
    ensure!(app.letters("ready").await?.len() == 1);
    app.delivers_letters().await?;
    let letters = app.counter.get(&paths::letters()).await?.expects(200)?;
    let latest = letters.after(&paths::letter(""))?;
    let letter = app
        .counter
        .get(&paths::letter(latest))
        .await?
        .expects(200)?;
    letter.must_say("pickup.ics")?;
    letter.must_say("$283.14")
}

async fn is_paid_and_collected(app: &TestApp, ticket: &Taken) -> Result<()> {
    let nobody_paid = Form::new()
        .with("pair", &ticket.pair)
        .with("to", "Nadia Okafor");
    let refused = app
        .counter
        .post(&paths::hand_over(&ticket.id), nobody_paid)
        .await?;
    refused
        .expects(409)?
        .must_say("These pairs are not paid yet.")?;

    app.is_collected(ticket).await?;

    let receipt = app
        .stranger()?
        .get(&paths::receipt(&ticket.key))
        .await?
        .expects(200)?;
    receipt.must_say("$283.14")?;
    receipt.must_say("Nadia Okafor")?;
    ticket
        .opens(app)
        .await?
        .must_say("Your pair is with you again.")?;
    ensure!(app.letters("handed-over").await?.len() == 1);
    let again = Form::new().with("to", Stage::Finishing.code());
    let refused = app
        .bench
        .post(&paths::move_stage(&ticket.pair), again)
        .await?
        .expects(409)?;
    refused.must_say("This pair has been handed over")
}

/// At 14:00 on Tuesday: the welt until 16:30 and a day's rest, then the soles until Wednesday's
/// closing, half a day's rest, lifts and the last check on Thursday morning. With the rib the
/// soles run into Thursday, and their rest into its night: Friday.
async fn days_in_an_offer_follow_from_the_queue_and_the_rests(app: &TestApp) -> Result<()> {
    let ticket = app.takes_boots_in().await?;
    app.time_passes(Duration::hours(4)).await?;
    app.moves(&ticket, Stage::Teardown).await?;
    let offer = app.offers(&ticket).await?;
    let page = ticket.opens_offer(app, &offer).await?.expects(200)?.words();
    let [first, second] = [page.find("A new welt"), page.find("A new welt and rib")];
    let thursday = page.find("Thu 3 Dec");
    ensure!(first < thursday && thursday < second, "{page}");

    // Another pair, taken in now, waits for 80 minutes of the boots and takes as long as they did.
    let behind = app.takes_boots_in().await?;
    behind.opens(app).await?.must_say("Wed 2 Dec")
}

async fn reminders_come_on_the_days_that_the_shop_set_and_then_no_more(
    app: &TestApp,
) -> Result<()> {
    let ticket = app.takes_boots_in().await?;
    app.moves(&ticket, Stage::Ready).await?;
    let mut day = 0;
    for (until, due) in [(6, 0), (7, 1), (20, 0), (21, 1), (44, 0), (45, 1), (300, 0)] {
        app.time_passes(Duration::days(until - day)).await?;
        day = until;
        let reminded = app.reminders_fall_due().await?;
        ensure!(reminded == due, "day {day}: {reminded} and not {due}");
        ensure!(app.reminders_fall_due().await? == 0, "day {day}: twice");
    }
    ensure!(app.letters("reminder").await?.len() == 3);
    app.is_collected(&ticket).await
}

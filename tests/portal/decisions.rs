//! A customer's word: what is recorded, what is refused, and what stands afterwards.

use anyhow::{Result, ensure};
use shared_types::form::intake::{IntakeField, PairField};
use shared_types::form::offer::ToldField;
use shared_types::paths;
use shared_types::stage::Stage;
use time::Duration;

use crate::harness::TestApp;
use crate::harness::form::Form;
use crate::harness::ticket::Taken;

on_both_engines!(
    a_double_tap_gives_one_word_and_the_same_receipt,
    a_second_word_changes_nothing_and_shows_the_first,
    customer_cannot_accept_an_offer_that_was_replaced_meanwhile,
    customer_cannot_accept_an_offer_that_was_withdrawn,
    an_offer_can_be_answered_until_the_very_second_that_it_names,
    a_word_on_an_older_page_is_refused,
    a_page_left_open_until_its_day_is_lost_agrees_to_nothing,
    a_word_that_is_not_offered_here_is_refused,
    a_word_can_be_taken_back_until_the_very_second_that_the_receipt_names,
    declining_leaves_everything_as_agreed_before,
    a_word_given_by_telephone_stands_like_any_other,
    a_caution_must_be_read_before_a_protective_pair_is_changed,
    a_price_edit_changes_nothing_that_was_offered_or_agreed,
);

async fn asked(app: &TestApp) -> Result<(Taken, String)> {
    let ticket = app.takes_boots_in().await?;
    app.moves(&ticket, Stage::Teardown).await?;
    let offer = app.offers(&ticket).await?;
    app.time_passes(Duration::minutes(5)).await?;
    Ok((ticket, offer))
}

/// Gives a word that must be refused with this status and these words, and leave no entry.
async fn is_refused(
    app: &TestApp,
    (ticket, offer): (&Taken, &str),
    word: (u32, &str),
    (status, words): (u16, &str),
) -> Result<()> {
    let before = app.holdings().await?;
    ticket
        .says(app, offer, word)
        .await?
        .expects(status)?
        .must_say(words)?;
    ensure!(
        app.holdings().await? == before,
        "{word:?} was refused and changed something"
    );
    Ok(())
}

/// An answer after three days can't keep the day of an answer at once: the page that still shows it
/// is refused, and the one made now names a later day.
async fn a_page_left_open_until_its_day_is_lost_agrees_to_nothing(app: &TestApp) -> Result<()> {
    let (ticket, offer) = asked(app).await?;
    let page = paths::offer(&ticket.key, &offer);
    let early = app.stranger()?.get(&page).await?.expects(200)?;
    early.must_say("to keep this day; after that it is")?;
    let read_at = early.value_of("read-at")?;
    app.time_passes(Duration::hours(72)).await?;
    let before = app.holdings().await?;
    let say = |read_at: &str| {
        Form::new()
            .with("word", "a")
            .with("turn", "0")
            .with("read-at", read_at)
    };
    let give = paths::give_word(&ticket.key, &offer);
    let refused = app.stranger()?.post(&give, say(&read_at)).await?;
    let late = refused.expects(409)?;
    late.must_say("The time to keep that day passed while this page was open")?;
    ensure!(
        app.holdings().await? == before,
        "it was refused and recorded"
    );
    let again = say(&late.value_of("read-at")?);
    app.stranger()?.post(&give, again).await?.expects(303)?;
    Ok(())
}

async fn a_double_tap_gives_one_word_and_the_same_receipt(app: &TestApp) -> Result<()> {
    let (ticket, offer) = asked(app).await?;
    let first = ticket.says(app, &offer, (0, "a")).await?.expects(303)?;
    let before = app.holdings().await?;
    let second = ticket.says(app, &offer, (0, "a")).await?.expects(303)?;
    ensure!(app.holdings().await? == before);
    ensure!(first.location()? == second.location()?);
    let receipts = [
        app.stranger()?.follow(&first).await?,
        app.stranger()?.follow(&second).await?,
    ];
    ensure!(receipts[0].bytes == receipts[1].bytes);
    receipts[0].must_say("$313.04")
}

async fn a_second_word_changes_nothing_and_shows_the_first(app: &TestApp) -> Result<()> {
    let (ticket, offer) = asked(app).await?;
    ticket.says(app, &offer, (0, "a")).await?.expects(303)?;
    let refusal = "This offer already has an answer, so nothing was changed.";
    for word in ["b", "decline"] {
        is_refused(app, (&ticket, &offer), (0, word), (409, refusal)).await?;
    }
    is_refused(app, (&ticket, &offer), (1, "a"), (409, refusal)).await?;
    let page = ticket.says(app, &offer, (0, "b")).await?;
    page.must_say("Yes to “A new welt”")
}

async fn customer_cannot_accept_an_offer_that_was_replaced_meanwhile(app: &TestApp) -> Result<()> {
    let (ticket, first) = asked(app).await?;
    let other = app.offer_form().set("found", "The rib has let go as well.");
    let second = app.sends(&ticket, other).await?;
    ensure!(first != second);
    let refusal = "This offer was replaced by a newer one, so nothing was recorded.";
    is_refused(app, (&ticket, &first), (0, "a"), (409, refusal)).await?;
    ticket.says(app, &second, (0, "a")).await?.expects(303)?;
    Ok(())
}

async fn customer_cannot_accept_an_offer_that_was_withdrawn(app: &TestApp) -> Result<()> {
    let (ticket, offer) = asked(app).await?;
    let form = Form::new().with("reason", "The welt will do.");
    app.counter
        .post(&paths::withdraw(&ticket.pair), form)
        .await?
        .expects(303)?;
    let refusal = "We have withdrawn this offer, so nothing was recorded.";
    is_refused(app, (&ticket, &offer), (0, "a"), (409, refusal)).await?;
    let page = ticket.opens_offer(app, &offer).await?.expects(200)?;
    page.must_say("The welt will do.")?;
    ensure!(app.letters("offer-withdrawn").await?.len() == 1);
    Ok(())
}

/// Sent on Tuesday at 10:00, with three open days to answer: until Friday, 17:30.
async fn an_offer_can_be_answered_until_the_very_second_that_it_names(app: &TestApp) -> Result<()> {
    let (late, at_last) = (asked(app).await?, asked(app).await?);
    late.0
        .opens_offer(app, &late.1)
        .await?
        .must_say("Fri 4 Dec, 17:30")?;
    let until = TestApp::OPENED.plus(Duration::hours(3 * 24) + Duration::minutes(450));
    app.clock.set(until.plus(Duration::microseconds(-1)));
    at_last
        .0
        .says(app, &at_last.1, (0, "a"))
        .await?
        .expects(303)?;
    app.clock.set(until);
    let refusal = "The time to answer this offer has passed, so nothing was recorded.";
    is_refused(app, (&late.0, &late.1), (0, "a"), (409, refusal)).await?;
    let page = late.0.opens(app).await?;
    page.must_say("$123.40")
}

async fn a_word_on_an_older_page_is_refused(app: &TestApp) -> Result<()> {
    let (ticket, offer) = asked(app).await?;
    ticket.says(app, &offer, (0, "a")).await?.expects(303)?;
    ticket.takes_back(app, &offer, 0).await?.expects(303)?;
    let refusal = "Something changed after this page was opened, so nothing was recorded.";
    is_refused(app, (&ticket, &offer), (0, "a"), (409, refusal)).await?;
    is_refused(app, (&ticket, &offer), (7, "a"), (409, refusal)).await?;
    ticket.says(app, &offer, (1, "a")).await?.expects(303)?;
    let before = app.holdings().await?;
    ticket
        .takes_back(app, &offer, 0)
        .await?
        .expects(409)?
        .must_say("Something changed after")?;
    ensure!(app.holdings().await? == before);
    Ok(())
}

async fn a_word_that_is_not_offered_here_is_refused(app: &TestApp) -> Result<()> {
    let (ticket, offer) = asked(app).await?;
    let (other, others) = asked(app).await?;
    let unknown = "We could not find this offer on your ticket.";
    is_refused(app, (&ticket, &others), (0, "a"), (404, unknown)).await?;
    is_refused(app, (&ticket, &"0".repeat(64)), (0, "a"), (404, unknown)).await?;
    is_refused(app, (&ticket, &offer), (0, "c"), (404, unknown)).await?;
    is_refused(
        app,
        (&ticket, "none"),
        (0, "a"),
        (404, "This page does not exist"),
    )
    .await?;
    let incomplete = "Your answer did not arrive whole, so nothing was recorded.";
    is_refused(app, (&ticket, &offer), (0, "maybe"), (400, incomplete)).await?;
    let before = app.holdings().await?;
    for form in [
        Form::new(),
        Form::new().with("word", "a"),
        Form::new().with("turn", "0"),
    ] {
        let path = paths::give_word(&ticket.key, &offer);
        app.stranger()?
            .post(&path, form)
            .await?
            .expects(400)?
            .must_say(incomplete)?;
    }
    ensure!(app.holdings().await? == before);
    other.says(app, &others, (0, "a")).await?.expects(303)?;
    Ok(())
}

async fn a_word_can_be_taken_back_until_the_very_second_that_the_receipt_names(
    app: &TestApp,
) -> Result<()> {
    let (late, at_last) = (asked(app).await?, asked(app).await?);
    let yes = late.0.says(app, &late.1, (0, "a")).await?.expects(303)?;
    at_last
        .0
        .says(app, &at_last.1, (0, "decline"))
        .await?
        .expects(303)?;
    app.stranger()?
        .follow(&yes)
        .await?
        .must_say("Tue 1 Dec, 12:10")?;
    app.time_passes(Duration::minutes(120) - Duration::microseconds(1))
        .await?;
    at_last
        .0
        .takes_back(app, &at_last.1, 0)
        .await?
        .expects(303)?;
    let before = app.entries().await?;
    at_last
        .0
        .takes_back(app, &at_last.1, 0)
        .await?
        .expects(303)?;
    ensure!(
        app.entries().await? == before,
        "a second tap takes nothing back"
    );
    app.time_passes(Duration::microseconds(1)).await?;
    let refused = late.0.takes_back(app, &late.1, 0).await?.expects(409)?;
    refused.must_say("The time to take this answer back has passed.")?;
    ensure!(app.entries().await? == before);
    Ok(())
}

async fn declining_leaves_everything_as_agreed_before(app: &TestApp) -> Result<()> {
    let (ticket, offer) = asked(app).await?;
    let no = ticket
        .says(app, &offer, (0, "decline"))
        .await?
        .expects(303)?;
    let receipt = app.stranger()?.follow(&no).await?.expects(200)?;
    receipt.must_say("$123.40")?;
    receipt.must_say("Wed 2 Dec")?;
    receipt.must_not_say("$313.04")?;
    app.moves(&ticket, Stage::Ready).await?;
    app.counter
        .get(&paths::shop_ticket(&ticket.id))
        .await?
        .must_say("$123.40")?;
    app.is_collected(&ticket).await
}

async fn a_word_given_by_telephone_stands_like_any_other(app: &TestApp) -> Result<()> {
    let (ticket, offer) = asked(app).await?;
    let told = |turn: &str, word: &str| {
        Form::new()
            .with(ToldField::Sheet.name(), &offer)
            .with(ToldField::Turn.name(), turn)
            .with(ToldField::Word.name(), word)
            .with(ToldField::Given.name(), "by-telephone")
            .with(ToldField::SaidBy.name(), "Nadia Okafor, 555-0199")
    };
    let path = paths::told_word(&ticket.pair);
    app.counter
        .post(&path, told("0", "a").set("said-by", " "))
        .await?
        .expects(422)?;
    app.counter
        .post(&path, told("1", "a"))
        .await?
        .expects(409)?;
    app.counter
        .post(&path, told("0", "a"))
        .await?
        .expects(303)?;
    let before = app.entries().await?;
    app.counter
        .post(&path, told("0", "a"))
        .await?
        .expects(303)?;
    app.counter
        .post(&path, told("0", "b"))
        .await?
        .expects(409)?;
    ensure!(
        app.entries().await? == before,
        "the same word again, or another, adds nothing"
    );
    let receipt = app
        .stranger()?
        .get(&paths::word(&ticket.key, &offer))
        .await?
        .expects(200)?;
    receipt.must_say("by telephone, told by Nadia Okafor, 555-0199")?;
    receipt.must_say("$313.04")?;
    ensure!(app.letters("word-recorded").await?.len() == 1);
    Ok(())
}

async fn a_caution_must_be_read_before_a_protective_pair_is_changed(app: &TestApp) -> Result<()> {
    let pair = |field| IntakeField::Pair(0, field).name();
    let form = app
        .intake_form()
        .await?
        .with(pair(PairField::Protective), "yes");
    let untold = app
        .counter
        .post(&paths::intake(), form.clone())
        .await?
        .expects(422)?;
    untold.must_say("Tell the customer of the caution and tick this before you go on.")?;
    let ticket = app
        .takes_in(form.with(pair(PairField::CautionTold), "yes"))
        .await?;
    app.moves(&ticket, Stage::Teardown).await?;
    let offer = app.offers(&ticket).await?;

    let page = ticket.opens_offer(app, &offer).await?.expects(200)?;
    page.must_say("This pair carries a safety mark.")?;
    let refusal = "Please read the caution and tick that you have";
    is_refused(app, (&ticket, &offer), (0, "a"), (422, refusal)).await?;
    let form = Form::new()
        .with("word", "a")
        .with("turn", "0")
        .with("acknowledged", "yes");
    let path = paths::give_word(&ticket.key, &offer);
    let yes = app.stranger()?.post(&path, form).await?.expects(303)?;
    app.stranger()?
        .follow(&yes)
        .await?
        .must_say("You confirmed that you had read this:")
}

async fn a_price_edit_changes_nothing_that_was_offered_or_agreed(app: &TestApp) -> Result<()> {
    let (ticket, offer) = asked(app).await?;
    let shown = ticket.opens_offer(app, &offer).await?;
    for (title, id) in &app.book {
        let dearer = (*title, Stage::Soling, "600", "0", "999.00");
        let form = crate::harness::shop::service_form(dearer);
        app.owner
            .post(&paths::service(id), form)
            .await?
            .expects(303)?;
    }
    let shown_now = ticket.opens_offer(app, &offer).await?;
    ensure!(shown.words() == shown_now.words());
    let yes = ticket.says(app, &offer, (0, "b")).await?.expects(303)?;
    app.stranger()?.follow(&yes).await?.must_say("$367.23")?;
    app.time_passes(Duration::hours(2)).await?;
    app.moves(&ticket, Stage::Ready).await?;
    app.counter
        .get(&paths::shop_ticket(&ticket.id))
        .await?
        .must_say("$367.23")?;
    app.is_collected(&ticket).await
}

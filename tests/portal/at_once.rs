//! Many at the same instant: exactly one word is recorded, and everybody is told the same.

use std::collections::BTreeSet;
use std::sync::Arc;

use anyhow::{Result, ensure};
use shared_types::form::intake::IntakeField;
use shared_types::paths;
use shared_types::stage::Stage;
use time::Duration;
use tokio::sync::Barrier;
use tokio::task::JoinSet;

use crate::harness::TestApp;
use crate::harness::form::Form;
use crate::harness::page::Page;
use crate::harness::visitor::Visitor;

on_both_engines!(
    sixteen_taps_at_once_record_exactly_one_word,
    a_word_and_a_withdrawal_at_once_leave_exactly_one_of_them,
    a_word_and_a_newer_offer_at_once_leave_exactly_one_of_them,
    two_counters_at_once_get_two_claim_numbers,
    a_payment_sent_twice_at_once_is_taken_once,
);

/// Sends all these forms as nearly at once as it can be done; answers come in the same order.
async fn at_once(forms: Vec<(Visitor, String, Form)>) -> Result<Vec<Page>> {
    let start = Arc::new(Barrier::new(forms.len()));
    let mut running = JoinSet::new();
    for (place, (visitor, path, form)) in forms.into_iter().enumerate() {
        let start = Arc::clone(&start);
        running.spawn(async move {
            start.wait().await;
            anyhow::Ok((place, visitor.post(&path, form).await?))
        });
    }
    let mut answers = running
        .join_all()
        .await
        .into_iter()
        .collect::<Result<Vec<_>>>()?;
    answers.sort_by_key(|(place, _)| *place);
    Ok(answers.into_iter().map(|(_, answer)| answer).collect())
}

async fn sixteen_taps_at_once_record_exactly_one_word(app: &TestApp) -> Result<()> {
    let ticket = app.takes_boots_in().await?;
    for round in 0..20 {
        let form = app.offer_form().set("a-keep", "0").set("b-keep", "0");
        let form = form.set("found", format!("Round {round}: the welt is split."));
        let offer = app.sends(&ticket, form).await?;
        app.time_passes(Duration::minutes(1)).await?;
        let before = app.entries().await?;
        let tap = |place: usize| {
            let word = ["a", "decline", "b", "a"][place % 4];
            let form = Form::new().with("word", word).with("turn", "0");
            Ok((app.stranger()?, paths::give_word(&ticket.key, &offer), form))
        };
        let answers = at_once((0..16).map(tap).collect::<Result<_>>()?).await?;

        let words: BTreeSet<&str> = (0..16)
            .filter(|place| answers[*place].status == 303)
            .map(|place| ["a", "decline", "b", "a"][place % 4])
            .collect();
        let statuses: Vec<u16> = answers.iter().map(|answer| answer.status).collect();
        ensure!(words.len() == 1, "round {round}: {statuses:?}");
        ensure!(
            statuses.iter().all(|status| [303, 409].contains(status)),
            "{statuses:?}"
        );
        ensure!(
            app.entries().await? == before + 1,
            "round {round}: one entry"
        );
        let recorded = app.letters("word-recorded").await?.len();
        ensure!(
            recorded == round + 1,
            "round {round}: one letter, not {recorded}"
        );
        for answer in answers.iter().filter(|answer| answer.status == 303) {
            ensure!(answer.location()? == paths::word(&ticket.key, &offer));
        }
    }
    Ok(())
}

async fn a_word_and_a_withdrawal_at_once_leave_exactly_one_of_them(app: &TestApp) -> Result<()> {
    let ticket = app.takes_boots_in().await?;
    for round in 0..10 {
        let offer = app.offers(&ticket).await?;
        app.time_passes(Duration::minutes(1)).await?;
        let before = app.entries().await?;
        let word = Form::new().with("word", "decline").with("turn", "0");
        let mut forms = vec![(
            app.counter.clone(),
            paths::withdraw(&ticket.pair),
            Form::new(),
        )];
        for _ in 0..7 {
            forms.push((
                app.stranger()?,
                paths::give_word(&ticket.key, &offer),
                word.clone(),
            ));
        }
        forms.rotate_left(round % 8);
        let mut answers = at_once(forms).await?;
        answers.rotate_right(round % 8);

        let (withdrawal, words) = answers.split_at(1);
        let said = words.iter().filter(|answer| answer.status == 303).count();
        match withdrawal[0].status {
            303 => ensure!(said == 0, "round {round}: withdrawn, and {said} words"),
            409 => ensure!(said == 7, "round {round}: not withdrawn, and {said} words"),
            status => anyhow::bail!("round {round}: {status}"),
        }
        ensure!(
            app.entries().await? == before + 1,
            "round {round}: one entry"
        );
    }
    Ok(())
}

/// The newer offer was prepared on the scope without what the word would add to it.
async fn a_word_and_a_newer_offer_at_once_leave_exactly_one_of_them(app: &TestApp) -> Result<()> {
    for round in 0..10 {
        let ticket = app.takes_boots_in().await?;
        let first = app.offers(&ticket).await?;
        app.time_passes(Duration::minutes(1)).await?;
        let newer = app
            .prepares(&ticket, app.offer_form().set("found", "More is split."))
            .await?;
        let before = app.entries().await?;
        let send = Form::new().with("digest", &newer);
        let word = Form::new().with("word", "a").with("turn", "0");
        let mut forms = vec![(app.bench.clone(), paths::send_offer(&ticket.pair), send)];
        for _ in 0..7 {
            forms.push((
                app.stranger()?,
                paths::give_word(&ticket.key, &first),
                word.clone(),
            ));
        }
        forms.rotate_left(round % 8);
        let mut answers = at_once(forms).await?;
        answers.rotate_right(round % 8);

        let (sending, words) = answers.split_at(1);
        let said = words.iter().filter(|answer| answer.status == 303).count();
        match sending[0].status {
            303 => ensure!(said == 0, "round {round}: replaced, and {said} words"),
            409 => ensure!(said == 7, "round {round}: not replaced, and {said} words"),
            status => anyhow::bail!("round {round}: {status}"),
        }
        ensure!(
            app.entries().await? == before + 1,
            "round {round}: one entry"
        );
    }
    Ok(())
}

async fn two_counters_at_once_get_two_claim_numbers(app: &TestApp) -> Result<()> {
    let mut forms = Vec::new();
    for name in [
        "Ana Lima", "Bo Holm", "Cem Acar", "Dee Ray", "Eva Roth", "Finn Aho",
    ] {
        let form = app.intake_form().await?.set(IntakeField::Name.name(), name);
        forms.push((app.counter.clone(), paths::intake(), form));
    }
    let answers = at_once(forms.clone()).await?;
    for answer in answers {
        answer.expects(303)?;
    }
    ensure!(
        app.number("select count(distinct number) from ticket")
            .await?
            == 6
    );
    let again = at_once(forms).await?;
    ensure!(again.iter().all(|answer| answer.status == 303));
    ensure!(
        app.number("select count(*) from ticket").await? == 6,
        "a form sent again adds nothing"
    );
    ensure!(app.letters("taken-in").await?.len() == 6);
    Ok(())
}

async fn a_payment_sent_twice_at_once_is_taken_once(app: &TestApp) -> Result<()> {
    let ticket = app.takes_boots_in().await?;
    app.moves(&ticket, Stage::Ready).await?;
    let page = app.counter.get(&paths::shop_ticket(&ticket.id)).await?;
    let half = Form::new()
        .with("amount", "20.00")
        .with("length", page.value_of("length")?)
        .with("method", "cash");
    let press = || (app.counter.clone(), paths::pay(&ticket.id), half.clone());
    let answers = at_once(vec![press(), press(), press()]).await?;
    let taken = answers.iter().filter(|answer| answer.status == 303).count();
    ensure!(taken == 1, "taken {taken} times");
    app.counter
        .get(&paths::shop_ticket(&ticket.id))
        .await?
        .must_say("$103.40")
}

//! Letters as they arrive at a real mail server and are read by a mail program.

use std::collections::BTreeSet;

use anyhow::{Context as _, Result, ensure};
use shared_types::form::intake::{IntakeField, PairField};
use shared_types::form::offer::{ACT_RECORD, EditField};
use shared_types::form::scope::ScopeField;
use shared_types::paths;
use shared_types::stage::Stage;
use time::Duration;

use crate::harness::TestApp;
use crate::harness::form::Form;
use crate::harness::smtp_peer::SmtpPeer;

on_both_engines!(with a mail server:
    every_letter_of_a_job_arrives_whole_and_leads_to_the_shop,
    a_name_can_not_slip_a_header_into_a_letter,
    every_script_and_face_arrives_as_it_was_typed,
    who_gave_no_address_gets_no_letter_and_loses_nothing,
);

async fn every_letter_of_a_job_arrives_whole_and_leads_to_the_shop(
    app: &TestApp,
    peer: &mut SmtpPeer,
) -> Result<()> {
    a_job_with_every_letter(app).await?;
    app.delivers_letters().await?;

    for (subject, words) in [
        ("Your ticket 1001 at Juniper Row", "$123.40"),
        ("we need your word on your lace-up work boots", "$313.04"),
        ("our question is withdrawn", "The welt will do."),
        ("your word on your lace-up work boots", "$313.04"),
        ("your answer is taken back", "$123.40"),
        ("the agreed work has changed", "$92.00"),
        (": our answer", "Yes, twice more."),
        ("A new link to your ticket 1001", "See your ticket"),
        ("ready to collect, your lace-up work boots", "$93.50"),
        ("ready and waiting for you", "$93.50"),
        ("your receipt", "$93.50"),
    ] {
        peer.letter(subject)?.must_say(words)?;
    }
    let letters = peer.letters()?;
    let ids: BTreeSet<String> = letters.iter().map(|letter| letter.of("id")).collect();
    ensure!(ids.len() == letters.len(), "{ids:?}");
    for letter in &letters {
        is_whole(app, letter)?;
    }
    comes_with_a_calendar_entry(peer)
}

/// Soles alone: 92.00, tax on 24.00 is 1.50: 93.50.
async fn a_job_with_every_letter(app: &TestApp) -> Result<()> {
    let ticket = app.takes_boots_in().await?;
    app.moves(&ticket, Stage::Teardown).await?;
    app.offers(&ticket).await?;
    let reason = Form::new().with("reason", "The welt will do.");
    app.bench
        .post(&paths::withdraw(&ticket.pair), reason)
        .await?
        .expects(303)?;
    let offer = app.offers(&ticket).await?;
    app.time_passes(Duration::minutes(5)).await?;
    ticket.says(app, &offer, (0, "a")).await?.expects(303)?;
    ticket.takes_back(app, &offer, 0).await?.expects(303)?;
    app.bench
        .post(&paths::withdraw(&ticket.pair), Form::new())
        .await?
        .expects(303)?;
    let edit = Form::new()
        .with(EditField::Given.name(), "at-the-counter")
        .with(EditField::Words.name(), "Only the soles.")
        .with(EditField::Before.name(), &offer)
        .with(EditField::Act.name(), ACT_RECORD)
        .with(EditField::Work(ScopeField::Keep).name(), "0");
    app.counter
        .post(&paths::edit_scope(&ticket.pair), edit)
        .await?
        .expects(303)?;
    let question = Form::new().with("words", "Can they be resoled again?");
    app.stranger()?
        .post(&paths::ask(&ticket.key), question)
        .await?
        .expects(303)?;
    let reply = Form::new()
        .with("words", "Yes, twice more.")
        .with("audience", "reply");
    app.bench
        .post(&paths::post_note(&ticket.pair), reply)
        .await?
        .expects(303)?;
    app.counter
        .post(
            &paths::renew_link(&ticket.id),
            Form::new().with("renewals", "1"),
        )
        .await?
        .expects(303)?;
    app.moves(&ticket, Stage::Ready).await?;
    app.time_passes(Duration::days(7)).await?;
    ensure!(app.reminders_fall_due().await? == 1);
    app.is_collected(&ticket).await
}

fn is_whole(app: &TestApp, letter: &crate::harness::smtp_peer::Letter) -> Result<()> {
    let subject = letter.of("subject");
    let read = &letter.read;
    ensure!(
        read["defects"].as_array().is_some_and(Vec::is_empty),
        "{subject}: {}",
        read["defects"]
    );
    ensure!(read["bare"] == 0, "{subject}: a bare line break");
    ensure!(
        read["longest"]
            .as_u64()
            .is_some_and(|longest| longest <= 998),
        "{subject}"
    );
    ensure!(
        letter.envelope == "nadia@example.com",
        "{subject}: {}",
        letter.envelope
    );
    ensure!(
        letter.of("to") == "Nadia Okafor <nadia@example.com>",
        "{}",
        letter.of("to")
    );
    ensure!(
        letter.of("from") == "Juniper Row <bench@juniper-row.example>",
        "{}",
        letter.of("from")
    );
    ensure!(letter.of("automatic") == "auto-generated");
    ensure!(
        letter.of("date").starts_with("2026-12-"),
        "{subject}: {}",
        letter.of("date")
    );
    letter.must_say("Dear Nadia Okafor")?;
    letter.must_say("555-0134")?;

    let own = format!("{}/", app.origin);
    let links = |part: &str, beginning: &str| -> Vec<String> {
        let part = letter.of(part);
        let rests = part.split(beginning).skip(1);
        let ends = ['"', '\n', '\r', ' ', '<'];
        rests
            .filter_map(|rest| rest.split(ends).next())
            .map(str::to_owned)
            .collect()
    };
    let in_html = links("html", "href=\"");
    let in_text: Vec<String> = links("text", "http")
        .iter()
        .map(|rest| format!("http{rest}"))
        .collect();
    ensure!(
        in_html.iter().all(|link| link.starts_with(&own)),
        "{subject}: {in_html:?}"
    );
    ensure!(in_html == in_text, "{subject}: {in_html:?} and {in_text:?}");
    ensure!(
        !in_html.is_empty() || subject.contains("withdrawn"),
        "{subject} leads nowhere"
    );
    Ok(())
}

/// Ready on Tuesday: an hour from Wednesday 2 December, 9:00 in Denver.
fn comes_with_a_calendar_entry(peer: &SmtpPeer) -> Result<()> {
    let ready = peer.letter("ready to collect")?;
    let attached = ready.read["attached"].as_array().context("attachments")?;
    ensure!(attached.len() == 1);
    ensure!(attached[0]["name"] == "pickup.ics" && attached[0]["kind"] == "text/calendar");
    let entry = &attached[0]["calendar"];
    for (property, value) in [
        ("BEGIN", "VCALENDAR"),
        ("VERSION", "2.0"),
        ("DTSTART", "20261202T160000Z"),
        ("DTEND", "20261202T170000Z"),
    ] {
        ensure!(entry[property] == value, "{property}: {entry}");
    }
    ensure!(
        entry["longest"]
            .as_u64()
            .is_some_and(|longest| longest <= 75),
        "{entry}"
    );
    let location = entry["LOCATION"].as_str().unwrap_or_default();
    ensure!(
        location.replace('\\', "") == "12 Juniper Row, Alder Falls",
        "{location}"
    );
    ensure!(
        entry["UID"]
            .as_str()
            .is_some_and(|uid| uid.starts_with("pickup-"))
    );
    Ok(())
}

async fn a_name_can_not_slip_a_header_into_a_letter(
    app: &TestApp,
    peer: &mut SmtpPeer,
) -> Result<()> {
    let pair = |field| IntakeField::Pair(0, field).name();
    for breach in [
        "\r\nBcc: eve@example.com",
        "\nX-Evil: 1\n\n<b>hello</b>",
        "\r\n.\r\nMAIL FROM:<x@y.example>",
    ] {
        let form = app
            .intake_form()
            .await?
            .set(IntakeField::Name.name(), format!("Nadia{breach}"))
            .set(pair(PairField::Kind), format!("boots{breach}"))
            .set(pair(PairField::Wrong), breach);
        let ticket = app.takes_in(form).await?;
        app.offers(&ticket).await?;
    }
    app.delivers_letters().await?;
    let letters = peer.letters()?;
    ensure!(letters.len() == 6, "{}", letters.len());
    for letter in letters {
        ensure!(
            letter.envelope == "nadia@example.com",
            "{}",
            letter.envelope
        );
        ensure!(letter.of("to").contains("<nadia@example.com>"));
        let headers = letter.read["headers"].to_string();
        ensure!(
            !headers.contains("bcc") && !headers.contains("x-evil"),
            "{headers}"
        );
        ensure!(
            letter.read["defects"].as_array().is_some_and(Vec::is_empty),
            "{}",
            letter.read["defects"]
        );
        ensure!(!letter.of("html").contains("<b>hello"));
    }
    Ok(())
}

async fn every_script_and_face_arrives_as_it_was_typed(
    app: &TestApp,
    peer: &mut SmtpPeer,
) -> Result<()> {
    let pair = |field| IntakeField::Pair(0, field).name();
    let names = [
        "نور الحسن",
        "Ελένη Παπαδοπούλου",
        "山田 花子",
        "Zoë “Zed” O'Neil, Jr. 👢",
        &"Ш".repeat(100),
    ];
    for name in names {
        let form = app
            .intake_form()
            .await?
            .set(IntakeField::Name.name(), name)
            .set(pair(PairField::Kind), format!("{name} 👢"));
        let ticket = app.takes_in(form).await?;
        let found = format!("{}.\n.\n..\nFrom here on.", "Длинное слово ".repeat(600));
        app.sends(&ticket, app.offer_form().set("found", found))
            .await?;
    }
    app.delivers_letters().await?;
    let letters = peer.letters()?;
    ensure!(letters.len() == 10);
    for name in names {
        // Python's parser puts a blank between two encoded parts of a long name.
        let bare = |to: &str| to.replace(['"', '\\', ' '], "");
        let theirs: Vec<_> = letters
            .iter()
            .filter(|letter| bare(&letter.of("to")).starts_with(&format!("{}<", bare(name))))
            .collect();
        ensure!(theirs.len() == 2, "{name}: {}", theirs.len());
        for letter in theirs {
            ensure!(
                letter.of("text").contains(&format!("Dear {name},")),
                "{}",
                letter.of("text")
            );
            ensure!(
                letter.read["longest"]
                    .as_u64()
                    .is_some_and(|longest| longest <= 998)
            );
            ensure!(
                letter.read["defects"].as_array().is_some_and(Vec::is_empty),
                "{}",
                letter.read["defects"]
            );
        }
    }
    let long = peer.letter("we need your word")?;
    let text = long.of("text").replace("\r\n", "\n");
    ensure!(
        text.contains("Длинное слово .\n.\n..\nFrom here on."),
        "{text}"
    );
    Ok(())
}

async fn who_gave_no_address_gets_no_letter_and_loses_nothing(
    app: &TestApp,
    peer: &mut SmtpPeer,
) -> Result<()> {
    let form = app.intake_form().await?.set(IntakeField::Email.name(), "");
    let ticket = app.takes_in(form).await?;
    let offer = app.offers(&ticket).await?;
    app.time_passes(Duration::minutes(5)).await?;
    ticket.says(app, &offer, (0, "a")).await?.expects(303)?;
    app.moves(&ticket, Stage::Ready).await?;
    app.time_passes(Duration::days(7)).await?;
    app.reminders_fall_due().await?;
    ensure!(app.delivers_letters().await? == 0 && peer.arrived()?.is_empty());
    app.is_collected(&ticket).await?;
    let receipt = app
        .stranger()?
        .get(&paths::receipt(&ticket.key))
        .await?
        .expects(200)?;
    receipt.must_say("$313.04")
}

//! Pictures: taken whole and without what they carry along, or refused with the form kept.

use anyhow::{Context as _, Result, ensure};
use shared_types::form::intake::{IntakeField, PairField};
use shared_types::paths;

use crate::harness::TestApp;
use crate::harness::form::{Form, picture};

on_both_engines!(
    a_picture_that_cannot_be_used_is_refused_and_the_words_kept,
    a_picture_that_was_fine_is_not_asked_for_again,
    a_picture_loses_where_it_was_taken,
    a_picture_that_vanished_from_the_disk_is_missing_and_nothing_else,
);

fn photo() -> String {
    IntakeField::Pair(0, PairField::Photo).name()
}

async fn a_picture_that_cannot_be_used_is_refused_and_the_words_kept(app: &TestApp) -> Result<()> {
    let ticket = app.takes_boots_in().await?;
    let whole = picture(400, 7)?;
    let mut too_large = whole.clone();
    too_large.resize(15 * 1024 * 1024 + 1, 0);
    let page = b"<html><script>alert(1)</script></html>".to_vec();
    let cut = whole[..whole.len() / 2].to_vec();
    let before = app.holdings().await?;
    for (bytes, reason) in [
        (too_large, "This picture is larger than 15 MB."),
        (page, "This is not a picture we can read."),
        (
            b"<svg xmlns='http://www.w3.org/2000/svg'/>".to_vec(),
            "This is not a picture we can read.",
        ),
        (
            b"GIF89a\x01\0\x01\0\0\0\0;".to_vec(),
            "This is not a picture we can read.",
        ),
        (cut, "This picture did not arrive whole."),
    ] {
        let form = app.intake_form().await?.picture(photo(), bytes.clone());
        let refused = app
            .counter
            .post(&paths::intake(), form)
            .await?
            .expects(422)?;
        refused.must_say(reason)?;
        ensure!(refused.value_of(&IntakeField::Name.name())? == "Nadia Okafor");
        refused.must_say("The soles are through at the ball.")?;

        let note = Form::new()
            .with("words", "Look at this.")
            .with("audience", "customer");
        let note = note.picture("photo", bytes);
        let refused = app
            .bench
            .post(&paths::post_note(&ticket.pair), note)
            .await?
            .expects(422)?;
        refused.must_say(reason)?;
        refused.must_say("Look at this.")?;
    }
    ensure!(app.holdings().await? == before);
    Ok(())
}

async fn a_picture_that_was_fine_is_not_asked_for_again(app: &TestApp) -> Result<()> {
    let form = app.intake_form().await?.set(IntakeField::Name.name(), "");
    let form = form.picture(photo(), picture(200, 1)?);
    let refused = app
        .counter
        .post(&paths::intake(), form.clone())
        .await?
        .expects(422)?;
    let kept = IntakeField::Pair(0, PairField::KeptPhoto).name();
    let digest = refused.value_of(&kept)?;
    let form = app.intake_form().await?.with(kept, &digest);
    let ticket = app.takes_in(form).await?;
    ensure!(
        ticket
            .opens(app)
            .await?
            .after(&paths::photo(&ticket.key, ""))?
            == digest
    );
    Ok(())
}

/// An EXIF part (APP1) behind the start of the picture, with a place in it.
async fn a_picture_loses_where_it_was_taken(app: &TestApp) -> Result<()> {
    let plain = picture(200, 2)?;
    let place = b"Exif\0\0MM\0*\0\0\0\x08\0\0 GPSLatitude 39.7392 Serial CANARY-8841";
    let length = u16::try_from(place.len() + 2)?.to_be_bytes();
    let (start, rest) = plain.split_at(2);
    let telling = [
        start,
        b"\xFF\xE1".as_slice(),
        &length,
        place,
        rest,
        b"<script>CANARY-8841",
    ]
    .concat();
    let form = app.intake_form().await?.picture(photo(), telling);
    let ticket = app.takes_in(form).await?;

    let digest = ticket
        .opens(app)
        .await?
        .after(&paths::photo(&ticket.key, ""))?;
    let shown = app
        .stranger()?
        .get(&paths::photo(&ticket.key, &digest))
        .await?
        .expects(200)?;
    ensure!(shared_types::digest::Digest::of(&shown.bytes).to_string() == digest);
    ensure!(shown.header("x-content-type-options") == "nosniff");
    ensure!(shown.header("cache-control").contains("private"));
    let tells = |bytes: &[u8]| bytes.windows(11).any(|part| part == b"CANARY-8841");
    ensure!(!tells(&shown.bytes));
    for folder in std::fs::read_dir(app.data().join("photos"))? {
        for file in std::fs::read_dir(folder?.path())? {
            ensure!(!tells(&std::fs::read(file?.path())?));
        }
    }
    Ok(())
}

async fn a_picture_that_vanished_from_the_disk_is_missing_and_nothing_else(
    app: &TestApp,
) -> Result<()> {
    let form = app.intake_form().await?.picture(photo(), picture(100, 3)?);
    let ticket = app.takes_in(form).await?;
    let digest = ticket
        .opens(app)
        .await?
        .after(&paths::photo(&ticket.key, ""))?;
    let folder = digest.get(..2).context("a digest")?;
    std::fs::remove_file(
        app.data()
            .join("photos")
            .join(folder)
            .join(format!("{digest}.jpg")),
    )?;
    app.stranger()?
        .get(&paths::photo(&ticket.key, &digest))
        .await?
        .expects(404)?;
    app.bench
        .get(&paths::shop_photo(&digest))
        .await?
        .expects(404)?;
    ticket.opens(app).await?.must_say("$123.40")
}

//! Whatever is typed: shown as it was typed, or refused with a reason and kept.

use anyhow::{Result, ensure};
use shared_types::form::intake::{IntakeField, PairField};
use shared_types::form::people::PersonField;
use shared_types::form::scope::ScopeField;
use shared_types::paths;
use shared_types::stage::Stage;
use time::Duration;

use crate::harness::TestApp;
use crate::harness::form::Form;

on_both_engines!(
    markup_and_every_script_are_shown_as_they_were_typed,
    ten_thousand_characters_fit_and_one_more_is_refused_and_kept,
    an_address_with_a_line_break_is_refused_and_the_form_kept,
    every_address_that_is_accepted_can_be_written_to,
    work_may_cost_nothing,
    work_may_cost_millions_to_the_cent,
    no_text_breaks_a_search_or_the_door,
    settings_that_do_not_fit_are_refused_and_kept,
);

/// Markup, quotes, two directions of writing, a face, and what a template might choke on.
const ODD: [&str; 5] = [
    "<script>alert(1)</script>",
    "\"><img src=x onerror=alert(1)>",
    "نور الحسن 👢 ‹علي›",
    "O'Neil & Söhne {{7*7}} ${8*8}",
    "</textarea></title><!-- Ελένη",
];

async fn markup_and_every_script_are_shown_as_they_were_typed(app: &TestApp) -> Result<()> {
    for odd in ODD {
        let pair = |field| IntakeField::Pair(0, field).name();
        let form = app.intake_form().await?;
        let form = form
            .set(IntakeField::Name.name(), odd)
            .set(pair(PairField::Kind), odd)
            .set(pair(PairField::Colour), odd)
            .set(pair(PairField::Wrong), odd)
            .with(pair(PairField::Work(ScopeField::OwnTitle(0))), odd)
            .with(pair(PairField::Work(ScopeField::OwnReason(0))), odd);
        let ticket = app.takes_in(form).await?;
        let note = Form::new().with("words", odd).with("audience", "customer");
        app.bench
            .post(&paths::post_note(&ticket.pair), note)
            .await?
            .expects(303)?;
        let asked = Form::new().with("words", odd);
        app.stranger()?
            .post(&paths::ask(&ticket.key), asked)
            .await?
            .expects(303)?;
        app.time_passes(Duration::minutes(1)).await?;
        let form = app
            .offer_form()
            .set("found", odd)
            .set("a-title", odd)
            .set("if-declined", odd);
        let offer = app.sends(&ticket, form).await?;

        let letter = app
            .owner
            .get(&paths::letters())
            .await?
            .after(&paths::letter(""))?;
        let mut pages = vec![
            ticket.opens(app).await?,
            ticket.opens_offer(app, &offer).await?,
        ];
        for path in [
            paths::today(),
            paths::bench(),
            paths::find(),
            paths::shop_ticket(&ticket.id),
            paths::claim(&ticket.id),
            paths::pair(&ticket.pair),
            paths::revisions(&ticket.pair),
            paths::letters(),
            paths::letter(letter),
        ] {
            pages.push(app.owner.get(&path).await?.expects(200)?);
        }
        for page in pages {
            ensure!(page.status == 200);
            page.must_say(odd)?;
            let html = page.html();
            for raw in [
                "<script>alert",
                "<img src=x",
                "</textarea></title>",
                "<!-- Ελένη",
            ] {
                ensure!(!html.contains(raw), "{raw} in {html}");
            }
        }
    }
    Ok(())
}

async fn ten_thousand_characters_fit_and_one_more_is_refused_and_kept(app: &TestApp) -> Result<()> {
    let ticket = app.takes_boots_in().await?;
    let path = paths::post_note(&ticket.pair);
    for letter in ["é", "👢"] {
        let long = letter.repeat(10_000);
        let note = Form::new()
            .with("words", &long)
            .with("audience", "customer");
        app.bench.post(&path, note).await?.expects(303)?;
        ensure!(ticket.opens(app).await?.says(&long));
    }
    let before = app.entries().await?;
    let longer = "ü".repeat(10_001);
    let note = Form::new()
        .with("words", &longer)
        .with("audience", "customer");
    let refused = app.bench.post(&path, note).await?.expects(422)?;
    refused.must_say("This has 10001 characters; at most 10000 fit.")?;
    ensure!(refused.says(&longer), "the words are kept");
    let asked = Form::new().with("words", &longer);
    let refused = app
        .stranger()?
        .post(&paths::ask(&ticket.key), asked)
        .await?
        .expects(422)?;
    ensure!(refused.says(&longer) && refused.says("at most 10000 fit"));
    let form = app
        .intake_form()
        .await?
        .set(IntakeField::Name.name(), "n".repeat(101));
    let refused = app
        .counter
        .post(&paths::intake(), form)
        .await?
        .expects(422)?;
    refused.must_say("This has 101 characters; at most 100 fit.")?;
    ensure!(refused.value_of(&IntakeField::Name.name())? == "n".repeat(101));
    ensure!(app.entries().await? == before);
    Ok(())
}

async fn an_address_with_a_line_break_is_refused_and_the_form_kept(app: &TestApp) -> Result<()> {
    let before = app.holdings().await?;
    for address in [
        "ana@example.com\r\nBcc: eve@example.com",
        "ana@example.com\nSubject: x",
        "ana@example.com, eve@example.com",
        "<ana@example.com>",
        "ana@",
        "ana\u{1}@example.com",
    ] {
        let form = app
            .intake_form()
            .await?
            .set(IntakeField::Email.name(), address);
        let refused = app.counter.post(&paths::intake(), form).await?;
        ensure!(refused.status == 422, "{address:?}: {}", refused.status);
        refused.must_say("This is not a mail address we can write to")?;
        ensure!(refused.value_of(&IntakeField::Name.name())? == "Nadia Okafor");
        refused.must_say("The soles are through at the ball.")?;
    }
    ensure!(app.holdings().await? == before);
    Ok(())
}

/// What the form lets through must not fail when the letter is written.
async fn every_address_that_is_accepted_can_be_written_to(app: &TestApp) -> Result<()> {
    let long = format!("{}@{}.example.com", "a".repeat(64), "b".repeat(63));
    for address in [
        "nadia+boots@mail.example.org",
        "o'neil@example.com",
        "ana.lópez@example.com",
        "anna@bücher.example",
        "用户@例え.example",
        "!#$%&'*/=?^_`{|}~@example.com",
        "nadia@mail-.example.com",
        "nadia@-mail.example.com",
        "nadia@1.2.3.4",
        "nadia@example.123",
        "nadia@exa_mple.com",
        "nadia@xn--a.example",
        long.as_str(),
    ] {
        let form = app
            .intake_form()
            .await?
            .set(IntakeField::Email.name(), address);
        let answer = app.counter.post(&paths::intake(), form).await?;
        ensure!(
            [303, 422].contains(&answer.status),
            "{address}: {}",
            answer.status
        );
    }
    let written = app.letters("taken-in").await?.len();
    ensure!(written >= 4, "only {written}");
    Ok(())
}

async fn work_may_cost_nothing(app: &TestApp) -> Result<()> {
    let pair = |field| IntakeField::Pair(0, field).name();
    let title = pair(PairField::Work(ScopeField::OwnTitle(0)));
    let form = app
        .intake_form()
        .await?
        .set(pair(PairField::Work(ScopeField::Service)), "")
        .with(title, "A look inside, as promised");
    let ticket = app.takes_in(form).await?;
    ticket.opens(app).await?.must_say("$0.00")?;
    app.moves(&ticket, Stage::Ready).await?;
    let hand_over = Form::new()
        .with("pair", &ticket.pair)
        .with("to", "Nadia Okafor");
    app.counter
        .post(&paths::hand_over(&ticket.id), hand_over)
        .await?
        .expects(303)?;
    ticket
        .opens(app)
        .await?
        .must_say("Your pair is with you again.")
}

/// Soles, lifts and gold for 4,000,000.00: 4,000,121.50, tax on 4,000,030.40 is 250,001.90.
async fn work_may_cost_millions_to_the_cent(app: &TestApp) -> Result<()> {
    let own = |field| IntakeField::Pair(0, PairField::Work(field)).name();
    let form = app
        .intake_form()
        .await?
        .with(own(ScopeField::OwnTitle(0)), "Eyelets of gold")
        .with(own(ScopeField::OwnMaterial(0)), "4,000,000.00");
    let ticket = app.takes_in(form).await?;
    ticket.opens(app).await?.must_say("$4,250,123.40")?;
    app.moves(&ticket, Stage::Ready).await?;
    app.is_collected(&ticket).await?;
    let receipt = app.stranger()?.get(&paths::receipt(&ticket.key)).await?;
    receipt.must_say("$4,250,123.40")?;

    for (amount, reason) in [
        ("99999999999999", "This amount is too large."),
        ("-1", "Write an amount such as 84 or 1,234.50"),
        ("1.234", "Amounts in this currency have 2 decimals at most."),
        ("1e9", "Write an amount such as 84 or 1,234.50"),
    ] {
        let form = app
            .intake_form()
            .await?
            .with(own(ScopeField::OwnTitle(0)), "Eyelets")
            .with(own(ScopeField::OwnMaterial(0)), amount);
        let refused = app
            .counter
            .post(&paths::intake(), form)
            .await?
            .expects(422)?;
        refused.must_say(reason)?;
        ensure!(refused.value_of(&own(ScopeField::OwnMaterial(0)))? == amount);
    }
    Ok(())
}

async fn no_text_breaks_a_search_or_the_door(app: &TestApp) -> Result<()> {
    for text in [
        "\0",
        "a\0b",
        "%",
        "_",
        "!",
        "'",
        "\\",
        "\u{202e}",
        "👢",
        &"x".repeat(5_000),
        "1001 A",
        "٣",
    ] {
        let typed = Form::new()
            .with(PersonField::Name.name(), text)
            .with("password", text);
        let answer = app.stranger()?.post(&paths::sign_in(), typed).await?;
        ensure!(
            answer.status == 422,
            "sign-in as {text:?}: {}",
            answer.status
        );
        let query = app
            .counter
            .raw(reqwest::Method::GET, &paths::find())
            .query(&[("q", text)]);
        let status = query.send().await?.status();
        ensure!(status == 200, "search for {text:?}: {status}");
        let form = app.intake_form().await?;
        let form = form
            .set(IntakeField::Act.name(), "lookup")
            .with(IntakeField::Lookup.name(), text);
        let answer = app.counter.post(&paths::intake(), form).await?;
        ensure!(
            answer.status == 200,
            "look-up of {text:?}: {}",
            answer.status
        );
    }
    for query in ["?q=%ff", "?q", "?&&&", "?q=a&q=b", "?done=%00"] {
        let status = app
            .counter
            .get(&format!("{}{query}", paths::find()))
            .await?
            .status;
        ensure!(status < 500, "{query}: {status}");
    }
    let found = app.takes_boots_in().await?;
    for query in [
        "1001", "1001-A", "okafor", "NADIA", "555-0199", "5550199", "nadia@",
    ] {
        let page = app
            .counter
            .get(&format!("{}?q={query}", paths::find()))
            .await?
            .expects(200)?;
        ensure!(
            page.html().contains(&found.pair) || page.html().contains(&found.id),
            "{query}"
        );
    }
    Ok(())
}

async fn settings_that_do_not_fit_are_refused_and_kept(app: &TestApp) -> Result<()> {
    let before = app.holdings().await?;
    let shop = crate::harness::shop::juniper_row()?;
    let settings = Form::shown(&shared_types::form::settings::fields_of(&shop))?;
    for (field, typed, reason) in [
        ("zone", "Denver", "Write the zone's name as Region/City"),
        ("currency", "XYZ", "Write the three letters of the currency"),
        ("hourly", "a lot", "Write an amount such as"),
        ("tax-goods", "6.25.1", "Write a percentage from 0 to 100"),
        ("opens-1", "18:00", "Write hours such as 9:00–17:30"),
        ("closed-days", "24 Dec", "Write days as year-month-day"),
        ("reminders", "7, soon", "Write a whole number from 1 to 365"),
        ("email", "nowhere", "This is not a mail address"),
        ("name", "", "Please fill this in."),
    ] {
        let form = settings.clone().set(field, typed);
        let refused = app
            .owner
            .post(&paths::settings(), form)
            .await?
            .expects(422)?;
        refused.must_say(reason)?;
        ensure!(refused.html().contains(typed), "{typed:?} is kept");
    }
    ensure!(app.holdings().await? == before);
    Ok(())
}

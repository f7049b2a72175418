//! Rush, discount, minimum charge and deposit: set by the owner, agreed at the counter, and the
//! same to the cent on every page.

use anyhow::{Result, ensure};
use shared_types::form::intake::{IntakeField, PairField};
use shared_types::form::scope::ScopeField;
use shared_types::form::settings::{ShopField, fields_of};
use shared_types::paths;

use crate::harness::TestApp;
use crate::harness::form::Form;
use crate::harness::shop::{SOLES, juniper_row};
use crate::harness::ticket::Taken;

on_both_engines!(
    rush_discount_and_deposit_add_up_on_every_page,
    a_discount_beyond_the_price_is_refused_at_its_field_and_kept,
    a_small_job_costs_the_minimum,
    two_pairs_say_what_is_due_for_the_ready_one_alone,
);

async fn sets_terms(app: &TestApp) -> Result<()> {
    let form = Form::shown(&fields_of(&juniper_row()?))?
        .set(ShopField::Minimum.name(), "18.00")
        .set(ShopField::Rush.name(), "30")
        .set(ShopField::Deposit.name(), "20");
    let answer = app.owner.post(&paths::settings(), form).await?;
    answer.expects(303)?;
    Ok(())
}

fn work(field: ScopeField) -> String {
    IntakeField::Pair(0, PairField::Work(field)).name()
}

async fn takes_in_on_terms(app: &TestApp) -> Result<Taken> {
    sets_terms(app).await?;
    let form = app.intake_form().await?;
    let form = form
        .with(work(ScopeField::Rush), "yes")
        .with(work(ScopeField::Discount), "10 %")
        .with(work(ScopeField::DiscountReason), "second pair");
    app.takes_in(form).await
}

/// Worked by hand. Soles 68.00 + 24.00, lifts 22.67 + 6.40 rounded up to 29.50: 121.50. Rush 30 %
/// of 90.67 = 27.20; 10 % of 148.70 = 14.87 off, 3.04 of it off the material; tax 6.25 % on 27.36
/// = 1.71; together 135.54, deposit 27.11. With the welt: 310.00 + 78.20 − 38.82 + 2.73 = 352.11.
async fn rush_discount_and_deposit_add_up_on_every_page(app: &TestApp) -> Result<()> {
    let ticket = takes_in_on_terms(app).await?;
    let claim = app.counter.get(&paths::claim(&ticket.id)).await?;
    let page = ticket.opens(app).await?;
    for (page, what) in [
        (&claim, "Deposit asked $27.11; paid $0.00"),
        (&page, "$27.11 of it is open"),
    ] {
        page.must_say(what)?;
        for amount in [
            "$92.00",
            "$29.50",
            "+$27.20",
            "\u{2212}$14.87",
            "$27.36",
            "$1.71",
            "$135.54",
        ] {
            page.must_say(amount)?;
        }
        page.must_say("Discount, second pair")?;
    }
    for words in [
        "30 % of labour $90.67 = $27.20.",
        "10 % of $148.70 = $14.87 off.",
        "$133.83",
    ] {
        page.must_say(words)?;
    }

    ensure!(
        claim.value_of("amount")? == "27.11",
        "the deposit stands in the form"
    );
    let pay = Form::new()
        .with("amount", "27.11")
        .with("length", claim.value_of("length")?)
        .with("method", "card");
    app.counter
        .post(&paths::pay(&ticket.id), pay)
        .await?
        .expects(303)?;
    let money = app.counter.get(&paths::shop_ticket(&ticket.id)).await?;
    money.must_say("$108.43")?;
    money.must_say("Nothing of it is open")?;
    ticket.opens(app).await?.must_not_say("of it is open")?;

    let offer = app.offers(&ticket).await?;
    let shown = ticket.opens_offer(app, &offer).await?;
    for words in [
        "$352.11",
        "+$78.20",
        "\u{2212}$38.82",
        "Discount, second pair",
        "$216.57 more",
    ] {
        shown.must_say(words)?;
    }
    ticket.says(app, &offer, (0, "a")).await?.expects(303)?;
    ticket.opens(app).await?.must_say("$352.11")
}

async fn a_discount_beyond_the_price_is_refused_at_its_field_and_kept(app: &TestApp) -> Result<()> {
    let before = app.holdings().await?;
    let beyond = |form: Form| {
        form.with(work(ScopeField::Discount), "500")
            .with(work(ScopeField::DiscountReason), "goodwill")
    };
    let form = beyond(app.intake_form().await?);
    let refused = app
        .counter
        .post(&paths::intake(), form)
        .await?
        .expects(422)?;
    refused.must_say("This discount of $500.00 is more than the work costs, $121.50.")?;
    ensure!(refused.value_of(&work(ScopeField::Discount))? == "500");
    let form = app.intake_form().await?;
    let form = form.with(work(ScopeField::Discount), "5.00");
    let refused = app
        .counter
        .post(&paths::intake(), form)
        .await?
        .expects(422)?;
    refused.must_say("Please fill this in.")?;
    ensure!(app.holdings().await? == before);
    Ok(())
}

/// Ten minutes at 68.00 an hour are 11.33, rounded up to 11.50, and 6.50 more are 18.00.
async fn a_small_job_costs_the_minimum(app: &TestApp) -> Result<()> {
    sets_terms(app).await?;
    let form = app
        .intake_form()
        .await?
        .set(work(ScopeField::Service), "")
        .with(work(ScopeField::OwnTitle(0)), "A stitch")
        .with(work(ScopeField::OwnMinutes(0)), "10");
    let page = app.takes_in(form).await?.opens(app).await?;
    for words in ["$11.50", "Up to the minimum charge", "+$6.50", "$18.00"] {
        page.must_say(words)?;
    }
    Ok(())
}

/// The boots cost 123.40, the second pair's soles 93.50 (92.00, and 6.25 % on 24.00).
async fn two_pairs_say_what_is_due_for_the_ready_one_alone(app: &TestApp) -> Result<()> {
    let second = |field| IntakeField::Pair(1, field).name();
    let form = app.intake_form().await?;
    let form = form
        .set(IntakeField::Pairs.name(), "2")
        .with(second(PairField::Kind), "loafers")
        .with(second(PairField::Colour), "tan")
        .with(second(PairField::Construction), "cemented")
        .with(second(PairField::Wrong), "Worn through.")
        .with(
            second(PairField::Work(ScopeField::Service)),
            &app.book[SOLES],
        );
    let ticket = app.takes_in(form).await?;
    app.moves(&ticket, shared_types::stage::Stage::Ready)
        .await?;
    let page = ticket.opens(app).await?;
    page.must_say("$216.90")?;
    page.must_say("To collect what is ready now, $123.40 of it is due")?;
    let shop = app.counter.get(&paths::shop_ticket(&ticket.id)).await?;
    shop.must_say("For what is ready $123.40 is due, of $216.90 for the whole ticket.")
}

//! The plan, promises at risk and what if: seen by those who work here, changed by nobody's asking.

use anyhow::{Result, ensure};
use shared_types::form::hands::{HandsField, fields_of};
use shared_types::form::intake::{IntakeField, PairField};
use shared_types::form::scope::ScopeField;
use shared_types::form::service::ServiceField;
use shared_types::form::what_if::WhatIfField;
use shared_types::paths;
use shared_types::stage::Stage;
use time::Duration;
use time::macros::date;

use crate::harness::TestApp;
use crate::harness::form::Form;
use crate::harness::shop::{juniper_row, service_form};

on_both_engines!(
    a_hand_away_moves_the_day_and_is_only_a_question,
    two_pairs_at_one_stitcher_are_at_risk_and_said_why,
    a_pair_that_waits_for_its_owner_is_said_to_wait,
);

/// The address of a question.
fn asks(typed: &[(WhatIfField, &str)]) -> String {
    let typed = typed.iter().map(|(field, value)| {
        let value = value.replace(' ', "+").replace('\u{a0}', "%C2%A0");
        format!("{}={value}", field.name())
    });
    let typed: Vec<String> = typed.collect();
    format!("{}?{}", paths::what_if(), typed.join("&"))
}

/// It is Tuesday 1 December, 10:00. The boots' soles take until 11:00 and rest twelve hours; top lifts
/// and the final check are done on Wednesday by 9:30. With nobody in until Thursday the soles are put
/// on on Friday, and the boots are ready on Saturday.
async fn a_hand_away_moves_the_day_and_is_only_a_question(app: &TestApp) -> Result<()> {
    let nothing = app.owner.get(&paths::plan()).await?.expects(200)?;
    nothing.must_say("Nothing is open.")?;
    app.takes_boots_in().await?;
    let before = (app.holdings().await?, app.entries().await?);
    let settings = app.owner.get(&paths::hands()).await?.html();

    let away = [
        (WhatIfField::AwayHand(0), "Hand 1"),
        (WhatIfField::AwayDays(0), "2026-12-01 to 2026-12-03"),
    ];
    let page = app.owner.get(&asks(&away)).await?.expects(200)?;
    page.must_say("Nothing is promised by this page")?;
    page.must_say("Ready, 80 % sure: Wed 2 Dec → Sat 5 Dec")?;
    ensure!(page.value_of("away-0-days")? == "2026-12-01 to 2026-12-03");
    let rush = [
        (WhatIfField::RushMinutes, "30"),
        (WhatIfField::RushBefore, WhatIfField::BEFORE_ALL),
        (WhatIfField::RushDay, "2026-12-01"),
    ];
    let page = app.owner.get(&asks(&rush)).await?.expects(200)?;
    page.must_say("The rush job would be ready by Tue 1 Dec, 80 % sure.")?;
    let help = app.owner.get(&asks(&[(WhatIfField::Help, "4:00")])).await?;
    help.expects(200)?.must_say("No other promise moves.")?;

    let wrong = [
        (WhatIfField::Closed, "Friday"),
        (WhatIfField::First, "1099\u{a0}A"),
    ];
    let page = app.owner.get(&asks(&wrong)).await?.expects(422)?;
    page.must_say("There is no open pair 1099 A any more.")?;
    ensure!(page.value_of("closed")? == "Friday");
    let nobody = [
        (WhatIfField::AwayHand(0), "Hand 1"),
        (WhatIfField::AwayDays(0), "2026-12-01 to 2028-11-30"),
    ];
    let page = app.owner.get(&asks(&nobody)).await?.expects(200)?;
    page.must_say("No day can be worked out")?;

    ensure!((app.holdings().await?, app.entries().await?) == before);
    ensure!(app.owner.get(&paths::hands()).await?.html() == settings);
    for visitor in [&app.bench, &app.counter] {
        let page = visitor.get(&paths::plan()).await?.expects(200)?;
        page.must_say("Lace-up work boots")
            .or_else(|_| page.must_say("Dark green lace-up work boots"))?;
        visitor.get(&asks(&away)).await?.expects(403)?;
    }
    let stranger = app.stranger()?.get(&asks(&away)).await?.expects(303)?;
    ensure!(stranger.location()?.starts_with(paths::SIGN_IN));
    Ok(())
}

/// Two hands, one stitcher, two pairs of five hours' stitching each, and nothing done for a week: at
/// 10:00 on Tuesday 8 December the second waits for the first, until 15:00.
async fn two_pairs_at_one_stitcher_are_at_risk_and_said_why(app: &TestApp) -> Result<()> {
    let service = service_form(("Sewn by machine", Stage::Soling, "300", "0", "4.00"))
        .with(ServiceField::Station.name(), "outsole stitcher");
    app.owner
        .post(&paths::prices(), service)
        .await?
        .expects(303)?;
    let book = app.owner.get(&paths::prices()).await?.html();
    let (before, _) = book.split_once("Sewn by machine<").unwrap_or_default();
    let (_, id) = before.rsplit_once(&paths::service("")).unwrap_or_default();
    let id = id.split('"').next().unwrap_or_default().to_owned();
    let hands = Form::shown(&fields_of(&juniper_row()?, date!(2026 - 12 - 01)))?
        .with(HandsField::Name(1).name(), "Ines Calloway");
    app.owner.post(&paths::hands(), hands).await?.expects(303)?;

    let work = IntakeField::Pair(0, PairField::Work(ScopeField::Service)).name();
    for _ in 0..2 {
        let form = app.intake_form().await?.set(work.clone(), &id);
        app.takes_in(form).await?;
    }
    app.time_passes(Duration::days(7)).await?;
    let page = app.bench.get(&paths::plan()).await?.expects(200)?;
    page.must_say("2 promises are less sure than the 80 % that you want.")?;
    page.must_say("it waits behind one pair for the outsole stitcher, 5 h")?;
    page.must_say("Tue 8 Dec could be given instead, 80 % sure.")?;
    // Today lists them as late, once, with the same day.
    let today = app.bench.get(&paths::today()).await?.expects(200)?;
    today.must_say("2 due by today")?;
    today.must_say("0 at risk")?;
    today.must_say("Tue 8 Dec could be given instead")?;
    Ok(())
}

async fn a_pair_that_waits_for_its_owner_is_said_to_wait(app: &TestApp) -> Result<()> {
    let ticket = app.takes_boots_in().await?;
    app.moves(&ticket, Stage::Teardown).await?;
    app.offers(&ticket).await?;
    let today = app.counter.get(&paths::today()).await?.expects(200)?;
    today.must_say("1 unanswered")?;
    today.must_say("Answered now, with the most that was offered, it is ready by")?;
    today.must_not_say("is promised for today")?;
    let plan = app.counter.get(&paths::plan()).await?.expects(200)?;
    plan.must_say("Waits for its owner’s word. Answered now")?;
    Ok(())
}

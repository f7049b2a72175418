//! The rules between services: the shop's own, and what they hold back at counter and bench.

use anyhow::{Result, ensure};
use shared_types::form::intake::{IntakeField, PairField};
use shared_types::form::mend;
use shared_types::form::offer::{ACT_RECORD, EditField, OfferField};
use shared_types::form::rule::{RuleAct, RuleField};
use shared_types::form::scope::ScopeField;
use shared_types::id::ServiceId;
use shared_types::paths;
use shared_types::scope::rules::mend::Mend;
use shared_types::scope::rules::shipped::service;
use shared_types::scope::rules::wording::Kind;
use shared_types::scope::sheet::ChoiceKey;
use shared_types::stage::Stage;

use crate::harness::TestApp;
use crate::harness::form::Form;
use crate::harness::page::Page;
use crate::harness::shop::{LIFTS, RIB, SOLES, WELT};

on_both_engines!(
    a_rule_that_is_switched_off_holds_nothing_back,
    intake_that_does_not_hang_together_is_refused_and_mended_by_one_tap,
    a_rule_of_the_shops_own_binds_and_explains,
    rules_that_contradict_each_other_are_refused_and_what_was_typed_is_kept,
    an_agreed_scope_is_changed_only_into_one_that_hangs_together,
    an_offer_that_does_not_hang_together_stays_a_draft,
    what_is_better_done_now_is_added_or_told_with_both_prices,
    ticks_follow_their_lines_when_what_is_agreed_moves,
);

const TEARDOWN: ServiceId = service(1);
const RUBBER_SOLES: ServiceId = service(17);
const STITCHED: ServiceId = service(21);
const TOP_LIFTS: ServiceId = service(23);
const EDGES: ServiceId = service(28);

fn work(field: ScopeField) -> String {
    IntakeField::Pair(0, PairField::Work(field)).name()
}

/// Soles with all they need but top lifts.
async fn soles_without_lifts(app: &TestApp) -> Result<Form> {
    let name = work(ScopeField::Service);
    let form = app.intake_form().await?.set(&name, TEARDOWN.to_string());
    let more = [RUBBER_SOLES, STITCHED, EDGES];
    Ok(more
        .into_iter()
        .fold(form, |form, id| form.with(&name, id.to_string())))
}

fn needs(these: &str, those: &str) -> Form {
    Form::new()
        .with(RuleField::These.name(), these)
        .with(RuleField::Those.name(), those)
        .with(RuleField::Bench.name(), "The bench knows why.")
        .with(
            RuleField::Customer.name(),
            "The old heel does not fit new soles.",
        )
}

async fn adds(app: &TestApp, kind: Kind, form: Form) -> Result<Page> {
    app.owner.post(&paths::new_rule(kind.code()), form).await
}

/// Soles of the shop's own book need its top lifts.
async fn soles_need_lifts(app: &TestApp) -> Result<()> {
    let form = needs(&app.book[SOLES], &app.book[LIFTS]);
    adds(app, Kind::NeedsWork, form).await?.expects(303)?;
    Ok(())
}

fn id(text: &str) -> Result<ServiceId> {
    Ok(text.parse()?)
}

async fn a_rule_that_is_switched_off_holds_nothing_back(app: &TestApp) -> Result<()> {
    let page = app.owner.get(&paths::rules()).await?.expects(200)?;
    page.must_say("Needs other work")?;
    let form = soles_without_lifts(app).await?;
    app.counter
        .post(&paths::intake(), form.clone())
        .await?
        .expects(422)?;
    let rule = paths::rule("sole-needs-top-lifts");
    let switch = |act: RuleAct| Form::new().with(RuleField::Act.name(), act.code());
    app.owner
        .post(&rule, switch(RuleAct::SwitchOff))
        .await?
        .expects(303)?;
    app.owner.get(&rule).await?.must_say("Switched off.")?;
    app.takes_in(form.clone()).await?;
    app.owner
        .post(&rule, switch(RuleAct::SwitchOn))
        .await?
        .expects(303)?;
    let token = IntakeField::Token.name();
    let fresh = app.counter.get(&paths::intake()).await?.value_of(&token)?;
    let form = form.set(token, fresh);
    app.counter
        .post(&paths::intake(), form)
        .await?
        .expects(422)?;
    Ok(())
}

async fn intake_that_does_not_hang_together_is_refused_and_mended_by_one_tap(
    app: &TestApp,
) -> Result<()> {
    let form = soles_without_lifts(app).await?;
    let before = app.holdings().await?;
    let refused = app.counter.post(&paths::intake(), form.clone()).await?;
    let refused = refused.expects(422)?;
    refused.must_say("This work does not hang together yet")?;
    refused.must_say("“Rubber soles” can't stand alone.")?;
    refused.must_say("Add: Top lifts, ")?;
    ensure!(app.holdings().await? == before, "nothing was taken in");
    let tap = mend::code("p0-", &Mend::Add(vec![TOP_LIFTS]));
    ensure!(refused.html().contains(&format!("value=\"{tap}\"")));
    let mended = form.clone().set(IntakeField::Act.name(), tap);
    let mended = app
        .counter
        .post(&paths::intake(), mended)
        .await?
        .expects(200)?;
    let ticked = format!("value=\"{TOP_LIFTS}\" checked");
    ensure!(mended.html().contains(&ticked), "the box is ticked");
    ensure!(
        mended.html().contains("value=\"Nadia Okafor\""),
        "what was typed is kept"
    );
    mended.must_not_say("can't stand alone")?;
    mended.must_say("Together")?;
    let name = work(ScopeField::Service);
    let ticket = app.takes_in(form.with(name, TOP_LIFTS.to_string())).await?;
    let pair = app.bench.get(&paths::pair(&ticket.pair)).await?;
    pair.must_say("Why each line is there")?;
    pair.must_say("The heel comes off for it, and the old top lift can't be nailed again.")?;
    ticket
        .opens(app)
        .await?
        .must_say("The heel comes off for a new sole, and gets a new top lift")
}

async fn a_rule_of_the_shops_own_binds_and_explains(app: &TestApp) -> Result<()> {
    soles_need_lifts(app).await?;
    let list = app.owner.get(&paths::rules()).await?;
    list.must_say("“Full rubber soles” needs “New top lifts”")?;
    list.must_say("Your own rule.")?;
    let ticket = app.takes_boots_in().await?;
    ticket
        .opens(app)
        .await?
        .must_say("The old heel does not fit new soles.")?;
    let own = list.after(&format!("{}own-", paths::rule("")))?;
    let own = paths::rule(format!("own-{own}"));
    let reworded = needs(&app.book[SOLES], &app.book[LIFTS])
        .set(RuleField::Customer.name(), "It would wobble.");
    app.owner.post(&own, reworded).await?.expects(303)?;
    app.takes_boots_in()
        .await?
        .opens(app)
        .await?
        .must_say("It would wobble.")?;
    // What was agreed keeps the words that were shown.
    ticket
        .opens(app)
        .await?
        .must_say("The old heel does not fit new soles.")?;
    let remove = Form::new().with(RuleField::Act.name(), RuleAct::Remove.code());
    app.owner.post(&own, remove).await?.expects(303)?;
    app.owner.get(&own).await?.expects(404)?;
    Ok(())
}

async fn rules_that_contradict_each_other_are_refused_and_what_was_typed_is_kept(
    app: &TestApp,
) -> Result<()> {
    soles_need_lifts(app).await?;
    let before = app.holdings().await?;
    let excludes =
        needs(&app.book[SOLES], &app.book[LIFTS]).set(RuleField::Bench.name(), "Typed at length.");
    let refused = adds(app, Kind::Excludes, excludes).await?.expects(422)?;
    refused.must_say("“Full rubber soles” could never be done")?;
    refused.must_say("“Full rubber soles” needs “New top lifts”")?;
    refused.must_say("“Full rubber soles” does not go with “New top lifts”")?;
    refused.must_say("Change one of them or switch it off.")?;
    ensure!(refused.html().contains("Typed at length."));
    let ticked = format!("value=\"{}\" checked", app.book[SOLES]);
    ensure!(refused.html().contains(&ticked));
    ensure!(app.holdings().await? == before);
    let circle = needs(&app.book[SOLES], &app.book[RIB]);
    adds(app, Kind::Spares, circle).await?.expects(303)?;
    let back = needs(&app.book[RIB], &app.book[SOLES]);
    adds(app, Kind::Spares, back)
        .await?
        .expects(422)?
        .must_say("make each other pointless in a circle")
}

async fn an_agreed_scope_is_changed_only_into_one_that_hangs_together(app: &TestApp) -> Result<()> {
    // The pair was taken in before there was the rule, and stays as it is.
    let name = work(ScopeField::Service);
    let form = app.intake_form().await?.set(&name, &app.book[SOLES]);
    let ticket = app.takes_in(form).await?;
    soles_need_lifts(app).await?;
    app.moves(&ticket, Stage::Soling).await?;
    let path = paths::edit_scope(&ticket.pair);
    let page = app.counter.get(&path).await?.expects(200)?;
    let form = Form::new()
        .with(EditField::Before.name(), page.value_of("before")?)
        .with(EditField::Basis.name(), page.value_of("basis")?)
        .with(EditField::Given.name(), "at-the-counter")
        .with(EditField::Words.name(), "Wants the rib done as well.")
        .with(EditField::Work(ScopeField::Keep).name(), "0")
        .with(EditField::Work(ScopeField::Service).name(), &app.book[RIB])
        .with(EditField::Act.name(), ACT_RECORD);
    let before = app.entries().await?;
    let refused = app.counter.post(&path, form.clone()).await?.expects(422)?;
    refused.must_say("“Full rubber soles” can't stand alone. The bench knows why.")?;
    ensure!(refused.html().contains("Wants the rib done as well."));
    ensure!(app.entries().await? == before);
    let tap = mend::code("", &Mend::TakeOut(id(&app.book[SOLES])?));
    ensure!(refused.html().contains(&format!("value=\"{tap}\"")));
    let tapped = form.clone().set(EditField::Act.name(), tap);
    let mended = app.counter.post(&path, tapped).await?.expects(200)?;
    mended.must_not_say("can't stand alone")?;
    ensure!(
        mended.html().contains("name=\"keep\" value=\"0\">"),
        "it is unticked"
    );
    let service = EditField::Work(ScopeField::Service).name();
    let whole = form.with(service, &app.book[LIFTS]);
    app.counter.post(&path, whole).await?.expects(303)?;
    Ok(())
}

async fn an_offer_that_does_not_hang_together_stays_a_draft(app: &TestApp) -> Result<()> {
    let form = needs(&app.book[WELT], &app.book[RIB]);
    adds(app, Kind::NeedsWork, form).await?.expects(303)?;
    let ticket = app.takes_boots_in().await?;
    app.moves(&ticket, Stage::Teardown).await?;
    let path = paths::compose(&ticket.pair);
    let refused = app
        .bench
        .post(&path, app.offer_form())
        .await?
        .expects(422)?;
    refused.must_say("so it can only be kept as a draft")?;
    refused.must_say("Add: Rib rebuilt")?;
    let draft = app.bench.get(&path).await?.expects(200)?;
    ensure!(
        draft.html().contains("The welt is split at the ball"),
        "the draft is kept"
    );
    let preview = app.bench.get(&paths::preview(&ticket.pair)).await?;
    ensure!(preview.status == 303, "and there is nothing to send");
    let tap = mend::code("a-", &Mend::Add(vec![id(&app.book[RIB])?]));
    let tapped = app.offer_form().set(OfferField::Act.name(), tap);
    app.bench
        .post(&path, tapped)
        .await?
        .expects(200)?
        .must_not_say("can't stand alone")?;
    let service = OfferField::Work(ChoiceKey::A, ScopeField::Service).name();
    let whole = app.offer_form().with(service, &app.book[RIB]);
    let digest = app.prepares(&ticket, whole).await?;
    // The rules change between the look and the sending: it is not sent.
    let excludes = needs(&app.book[WELT], &app.book[LIFTS]);
    adds(app, Kind::Excludes, excludes).await?.expects(303)?;
    let before = app.entries().await?;
    let send = Form::new().with("digest", digest);
    app.bench
        .post(&paths::send_offer(&ticket.pair), send)
        .await?
        .expects(409)?
        .must_say("don't go together")?;
    ensure!(app.entries().await? == before);
    Ok(())
}

/// 45 minutes at 68.00 and 3.00 of material taxed at 6.25 %: 54.19. Later also 150 minutes and 18.20,
/// rounded up to 188.50, with tax on the material 189.64: 243.83.
async fn what_is_better_done_now_is_added_or_told_with_both_prices(app: &TestApp) -> Result<()> {
    let form = Form::new()
        .with(RuleField::These.name(), &app.book[SOLES])
        .with(RuleField::Also.name(), &app.book[RIB])
        .with(RuleField::Those.name(), &app.book[WELT])
        .with(RuleField::Bench.name(), "It is open.")
        .with(RuleField::Customer.name(), "The shoe is open anyway.");
    adds(app, Kind::Together, form).await?.expects(303)?;
    let ticket = app.takes_boots_in().await?;
    app.moves(&ticket, Stage::Teardown).await?;
    let path = paths::compose(&ticket.pair);
    let priced = app.offer_form().set(OfferField::Act.name(), "price");
    let page = app.bench.post(&path, priced).await?.expects(200)?;
    page.must_say("It is open. Rib rebuilt: $54.19 now, $243.83 later.")?;
    let told = format!("tell:a-:{}", app.book[RIB]);
    ensure!(page.html().contains(&told));
    let tapped = app.offer_form().set(OfferField::Act.name(), told);
    let sentence = "The shoe is open anyway. “Rib rebuilt” costs $54.19 now and $243.83 later.";
    app.bench
        .post(&path, tapped)
        .await?
        .expects(200)?
        .must_say(sentence)?;
    // Choice B has the rib: its line says so.
    let offer = app.offers(&ticket).await?;
    let shown = ticket.opens_offer(app, &offer).await?.expects(200)?;
    shown.must_say(sentence)
}

async fn ticks_follow_their_lines_when_what_is_agreed_moves(app: &TestApp) -> Result<()> {
    let ticket = app.takes_boots_in().await?;
    let path = paths::compose(&ticket.pair);
    let page = app.bench.get(&path).await?.expects(200)?;
    let form = app
        .offer_form()
        .with(OfferField::Basis.name(), page.value_of("basis")?)
        .set(OfferField::Act.name(), "price");
    app.bench.post(&path, form.clone()).await?.expects(200)?;
    // The first of two agreed lines falls away, and another comes.
    let edit = paths::edit_scope(&ticket.pair);
    let page = app.counter.get(&edit).await?;
    let changed = Form::new()
        .with(EditField::Before.name(), page.value_of("before")?)
        .with(EditField::Basis.name(), page.value_of("basis")?)
        .with(EditField::Given.name(), "at-the-counter")
        .with(EditField::Words.name(), "No soles.")
        .with(EditField::Work(ScopeField::Keep).name(), "1")
        .with(EditField::Act.name(), ACT_RECORD);
    app.counter
        .post(&edit, changed.clone())
        .await?
        .expects(303)?;
    let draft = app.bench.get(&path).await?.expects(200)?;
    draft.must_say("What is agreed has changed since this was composed.")?;
    ensure!(draft.html().contains("name=\"a-keep\" value=\"0\" checked"));
    ensure!(!draft.html().contains("name=\"a-keep\" value=\"1\""));
    let stale = form.set(OfferField::Act.name(), "prepare");
    app.bench
        .post(&path, stale)
        .await?
        .expects(409)?
        .must_say("What is agreed has changed")?;
    let before = app.entries().await?;
    app.counter
        .post(&edit, changed)
        .await?
        .expects(409)?
        .must_say("so nothing was recorded")?;
    ensure!(app.entries().await? == before);
    Ok(())
}

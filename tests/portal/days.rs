//! The days that customers are given, worked out here by hand.
//!
//! Juniper Row has one hand, who is at the bench while the shop is open: Tue–Fri 9–17:30, Sat 9–13.
//! It is Tuesday, 1 December. A welt takes 150 minutes and rests a day, soles take 60 and rest half
//! a day, lifts take 20 and the last check ten; nothing ever takes longer.
//!
//! A welt is offered at 14:00 for boots with soles and lifts. It can be answered until Friday 17:30:
//!
//! | answered     | welt until | rests until | soles until | rest until | lifts, check |
//! |--------------|------------|-------------|-------------|------------|--------------|
//! | Tue 14:00    | Tue 16:30  | Wed 16:30   | Wed 17:30   | Thu  5:30  | Thu 3 Dec    |
//! | Tue 14:30    | Tue 17:00  | Wed 17:00   | Thu  9:30   | Thu 21:30  | Fri 4 Dec    |
//! | Wed 14:00    | Wed 16:30  | Thu 16:30   | Thu 17:30   | Fri  5:30  | Fri 4 Dec    |
//! | Wed 14:30    | Wed 17:00  | Thu 17:00   | Fri  9:30   | Fri 21:30  | Sat 5 Dec    |
//! | Thu 14:00    | Thu 16:30  | Fri 16:30   | Fri 17:30   | Sat  5:30  | Sat 5 Dec    |
//! | Thu 14:30    | Thu 17:00  | Fri 17:00   | Sat  9:30   | Sat 21:30  | Tue 8 Dec    |
//! | Fri  9:30    | Fri 12:00  | Sat 12:00   | Sat 13:00   | Sun  1:00  | Tue 8 Dec    |
//! | Fri 10:00    | Fri 12:30  | Sat 12:30   | Tue  9:30   | Tue 21:30  | Wed 9 Dec    |
//! | Fri 17:30    | Sat 11:30  | Sun 11:30   | Tue 10:00   | Tue 22:00  | Wed 9 Dec    |

use anyhow::{Context as _, Result, ensure};
use shared_types::form::hands::{self, HandsField};
use shared_types::form::intake::{IntakeField, PairField};
use shared_types::form::offer::{ACT_PREPARE, OfferField};
use shared_types::form::scope::ScopeField;
use shared_types::form::service::ServiceField;
use shared_types::form::settings::{ShopField, fields_of};
use shared_types::paths;
use shared_types::scope::sheet::ChoiceKey;
use shared_types::stage::Stage;
use shared_types::ticket::Construction;
use time::Duration;
use time::macros::date;

use crate::harness::TestApp;
use crate::harness::form::Form;
use crate::harness::page::Page;
use crate::harness::shop::{LIFTS, RIB, SOLES, WELT, juniper_row, service_form};
use crate::harness::ticket::Taken;

on_both_engines!(
    an_offer_says_which_day_an_answer_until_when_keeps,
    an_answer_after_the_moment_gives_the_later_day_everywhere,
    a_day_that_the_shop_closes_meanwhile_is_shown_before_anything_is_sent,
    pairs_that_come_together_stand_behind_each_other,
    a_wished_day_is_promised_only_if_it_can_be_kept,
    an_offer_waits_for_the_pair_before_it_at_the_stitcher,
    a_rush_job_names_the_promise_that_it_costs,
);

/// Taken in at 10:00 and torn down at 14:00.
async fn torn_down(app: &TestApp) -> Result<Taken> {
    let ticket = app.takes_boots_in().await?;
    app.time_passes(Duration::hours(4)).await?;
    app.moves(&ticket, Stage::Teardown).await?;
    Ok(ticket)
}

async fn an_offer_says_which_day_an_answer_until_when_keeps(app: &TestApp) -> Result<()> {
    let ticket = torn_down(app).await?;
    let offer = app.offers(&ticket).await?;
    let page = ticket.opens_offer(app, &offer).await?.expects(200)?;
    page.must_say("Answer by Tue 1 Dec, 14:00 to keep this day; after that it is Fri 4 Dec.")?;
    page.must_say(
        "Answered by Tue 1 Dec, 14:00 ready Thu 3 Dec \
         Answered by Wed 2 Dec, 14:00 ready Fri 4 Dec \
         Answered by Thu 3 Dec, 14:00 ready Sat 5 Dec \
         Answered by Fri 4 Dec, 09:30 ready Tue 8 Dec \
         Answered by Fri 4 Dec, 17:30 ready Wed 9 Dec",
    )?;
    page.must_say("We plan such days so that we keep four out of five.")?;
    let bench = app.bench.get(&paths::pair(&ticket.pair)).await?;
    bench
        .expects(200)?
        .must_say("Answered by Thu 3 Dec, 14:00 ready Sat 5 Dec")
}

async fn an_answer_after_the_moment_gives_the_later_day_everywhere(app: &TestApp) -> Result<()> {
    let ticket = torn_down(app).await?;
    let offer = app.offers(&ticket).await?;
    app.time_passes(Duration::minutes(31)).await?;
    let page = ticket.opens_offer(app, &offer).await?.expects(200)?;
    page.must_say("ready Fri 4 Dec")?;
    page.must_say("Answer by Wed 2 Dec, 14:00 to keep this day; after that it is Sat 5 Dec.")?;
    let answer = ticket.says(app, &offer, (0, "a")).await?.expects(303)?;
    let receipt = app.stranger()?.follow(&answer).await?.expects(200)?;
    receipt.must_say("Fri 4 Dec")?;
    ensure!(!receipt.words().contains("Ready by Thu 3 Dec"));
    let letters = app.counter.get(&paths::letters()).await?.expects(200)?;
    let last = letters.after(&paths::letter(""))?;
    let last = app.counter.get(&paths::letter(last)).await?.expects(200)?;
    last.must_say("Fri 4 Dec")
}

/// The Wednesday is closed after the offer was prepared: the welt rests on it all the same, and the
/// soles come on Thursday, the lifts on Friday.
async fn a_day_that_the_shop_closes_meanwhile_is_shown_before_anything_is_sent(
    app: &TestApp,
) -> Result<()> {
    let ticket = torn_down(app).await?;
    let digest = app.prepares(&ticket, app.offer_form()).await?;
    let settings = Form::shown(&fields_of(&juniper_row()?))?;
    let settings = settings.set(ShopField::ClosedDays.name(), "2026-12-02");
    app.owner
        .post(&paths::settings(), settings)
        .await?
        .expects(303)?;
    let send = Form::new().with("digest", &digest);
    let again = app
        .bench
        .post(&paths::send_offer(&ticket.pair), send)
        .await?;
    let again = again.expects(409)?;
    again.must_say("The days moved after you looked at this, so it was not sent.")?;
    again.must_say("ready Fri 4 Dec")?;
    let fresh = again.value_of("digest")?;
    ensure!(fresh != digest);
    let send = Form::new().with("digest", &fresh);
    app.bench
        .post(&paths::send_offer(&ticket.pair), send)
        .await?
        .expects(303)?;
    ticket
        .opens_offer(app, &fresh)
        .await?
        .expects(200)?
        .must_say("ready Fri 4 Dec")
}

/// The form in which two pairs are brought for welts and soles.
async fn two_pairs(app: &TestApp) -> Result<Form> {
    let page = app.counter.get(&paths::intake()).await?.expects(200)?;
    let mut form = Form::new()
        .with(
            IntakeField::Token.name(),
            page.value_of(&IntakeField::Token.name())?,
        )
        .with(IntakeField::Name.name(), "Nadia Okafor")
        .with(IntakeField::Pairs.name(), "2")
        .with(IntakeField::Act.name(), "take-in");
    for place in [0, 1] {
        let pair = |field| IntakeField::Pair(place, field).name();
        let service = pair(PairField::Work(ScopeField::Service));
        form = form
            .with(pair(PairField::Kind), "lace-up work boots")
            .with(pair(PairField::Colour), "dark green")
            .with(pair(PairField::Construction), Construction::Welt270.code())
            .with(pair(PairField::Wrong), "The soles are through at the ball.")
            .with(service.clone(), &app.book[SOLES])
            .with(service, &app.book[WELT]);
    }
    Ok(form)
}

/// At 14:00: the first is ready on Thursday, as in the table. The second has Tuesday from 16:30 and
/// Wednesday until 10:30 for its welt, its soles on Thursday from 10:30, and its check on Friday.
async fn pairs_that_come_together_stand_behind_each_other(app: &TestApp) -> Result<()> {
    app.time_passes(Duration::hours(4)).await?;
    let form = two_pairs(app).await?;
    let seen = form.clone().set(IntakeField::Act.name(), "price");
    let seen = app
        .counter
        .post(&paths::intake(), seen)
        .await?
        .expects(200)?;
    seen.must_say("promised in its turn by Thu 3 Dec")?;
    seen.must_say("promised in its turn by Fri 4 Dec")?;
    let ticket = app.takes_in(form).await?;
    let page = ticket.opens(app).await?.words();
    let (first, second) = (page.find("Thu 3 Dec"), page.find("Fri 4 Dec"));
    ensure!(first.is_some() && first < second, "{page}");
    Ok(())
}

/// At 14:00 the boots are taken in behind a pair that is promised for Thursday and keeps the bench
/// until 16:30: soles until 17:30, lifts on Wednesday. Wished for the Saturday, that is promised;
/// wished for today, the soles would have to rest less than they do.
async fn a_wished_day_is_promised_only_if_it_can_be_kept(app: &TestApp) -> Result<()> {
    app.time_passes(Duration::hours(4)).await?;
    let wish = IntakeField::Pair(0, PairField::Promise).name();
    let form = app.intake_form().await?;
    let soon = form.clone().with(wish.clone(), "2026-12-01");
    let refused = app
        .counter
        .post(&paths::intake(), soon)
        .await?
        .expects(422)?;
    refused.must_say("In its turn, Tue 1 Dec would be kept 0 times in 100, and in rush 0.")?;
    refused.must_say("The first day that we can promise in its turn is Wed 2 Dec")?;
    let later = form.with(wish, "2026-12-05");
    let ticket = app.takes_in(later).await?;
    ticket.opens(app).await?.must_say("Sat 5 Dec")
}

/// The id of a service, as the form of intake offers it.
fn service_called(page: &Page, title: &str) -> Result<String> {
    let html = page.html();
    let (before, _) = html.split_once(title).context("the service is offered")?;
    let (_, id) = before.rsplit_once("value=\"").context("with its id")?;
    Ok(id[..36].to_owned())
}

/// Two hands and one stitcher, at which a pair of soles takes 240 minutes. At 10:00 the boots have
/// the stitcher until 14:00; the brogues have it until 17:30 and on Wednesday until 9:30, though the
/// other hand is free. A rib of 45 minutes is offered for the brogues: while they wait for the
/// stitcher it costs no time. Answered on Wednesday at 12:30, the rib is done at 13:15, the stitching
/// at 17:15 and the check at 17:25; answered at 13:00, the stitching is not done that day.
async fn an_offer_waits_for_the_pair_before_it_at_the_stitcher(app: &TestApp) -> Result<()> {
    let hands = Form::shown(&hands::fields_of(&juniper_row()?, date!(2026 - 12 - 01)))?
        .with(HandsField::Name(1).name(), "Ines Calloway");
    app.owner.post(&paths::hands(), hands).await?.expects(303)?;
    let stitched = service_form(("Sewn at the machine", Stage::Soling, "240", "0", "4.00"))
        .with(ServiceField::Station.name(), "outsole stitcher");
    app.owner
        .post(&paths::prices(), stitched)
        .await?
        .expects(303)?;
    let page = app.counter.get(&paths::intake()).await?.expects(200)?;
    let stitched = service_called(&page, "Sewn at the machine")?;
    let service = IntakeField::Pair(0, PairField::Work(ScopeField::Service)).name();
    let soles = |form: Form| form.set(service.clone(), &stitched);
    let boots = app.takes_in(soles(app.intake_form().await?)).await?;
    boots.opens(app).await?.must_say("Tue 1 Dec")?;
    let brogues = app.takes_in(soles(app.intake_form().await?)).await?;
    brogues.opens(app).await?.must_say("Wed 2 Dec")?;
    app.moves(&brogues, Stage::Teardown).await?;
    let work = |field| OfferField::Work(ChoiceKey::A, field).name();
    let form = Form::new()
        .with(OfferField::Found.name(), "The rib has let go.")
        .with(OfferField::IfDeclined.name(), "We sew them as they are.")
        .with(OfferField::Title(ChoiceKey::A).name(), "With a new rib")
        .with(work(ScopeField::Keep), "0")
        .with(work(ScopeField::Service), &app.book[RIB])
        .with(OfferField::Act.name(), ACT_PREPARE);
    let offer = app.sends(&brogues, form).await?;
    let page = brogues.opens_offer(app, &offer).await?.expects(200)?;
    page.must_say("Answer by Wed 2 Dec, 12:30 to keep this day; after that it is Thu 3 Dec.")?;
    // The pair before it keeps its day, whatever is answered.
    app.time_passes(Duration::minutes(26 * 60 + 31)).await?;
    let late = brogues.opens_offer(app, &offer).await?.expects(200)?;
    late.must_say("ready Thu 3 Dec")?;
    boots.opens(app).await?.must_say("Tue 1 Dec")
}

/// One hand. Work of 900 minutes and its check leave 50 minutes of Wednesday when it is taken in on
/// Tuesday at 10:00. Lifts and their check take 30 and go first at no cost; with a rib they take 75.
async fn a_rush_job_names_the_promise_that_it_costs(app: &TestApp) -> Result<()> {
    let long = service_form(("Rebuilt from the insole", Stage::Structure, "900", "0", ""));
    app.owner.post(&paths::prices(), long).await?.expects(303)?;
    let page = app.counter.get(&paths::intake()).await?.expects(200)?;
    let long = service_called(&page, "Rebuilt from the insole")?;
    let pair = |field| IntakeField::Pair(0, field).name();
    let service = pair(PairField::Work(ScopeField::Service));
    let boots = app.intake_form().await?.set(service.clone(), long);
    let boots = app.takes_in(boots).await?;
    boots.opens(app).await?.must_say("Wed 2 Dec")?;
    let rush = app
        .intake_form()
        .await?
        .set(service.clone(), &app.book[LIFTS])
        .with(pair(PairField::Work(ScopeField::Rush)), "yes")
        .with(pair(PairField::Promise), "2026-12-01")
        .set(IntakeField::Act.name(), "price");
    let warned = "In rush this goes before promises that are then no longer sure.";
    let seen = app.counter.post(&paths::intake(), rush.clone()).await?;
    let seen = seen.expects(200)?;
    seen.must_say("This day is promised.")?;
    seen.must_not_say(warned)?;
    let longer = rush.with(service, &app.book[RIB]);
    let seen = app.counter.post(&paths::intake(), longer.clone()).await?;
    let seen = seen.expects(200)?;
    seen.must_say("This day is promised.")?;
    seen.must_say(warned)?;
    seen.must_say("promised by Wed 2 Dec: kept 100 times in 100 now, 0 then.")?;
    // It is for the counter to weigh up, not for the program.
    let taken = longer.set(IntakeField::Act.name(), "take-in");
    app.takes_in(taken)
        .await?
        .opens(app)
        .await?
        .must_say("Tue 1 Dec")?;
    let today = app.owner.get(&paths::today()).await?.expects(200)?;
    today.must_say("is promised for Wed 2 Dec and will not be kept as things stand")
}

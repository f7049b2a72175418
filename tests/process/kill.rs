//! Killed without warning, again and again, while customers decide: what a customer was told is
//! recorded stays recorded, and once.

use std::path::Path;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};
use std::time::{Duration, Instant};

use anyhow::{Context as _, Result, ensure};
use server::clock::Clock;
use server::db::Db;
use shared_types::paths;
use tokio::task::JoinSet;

use super::program::{Program, run, words};
use crate::harness::database::Database;
use crate::harness::form::Form;
use crate::harness::ticket::Taken;
use crate::harness::visitor::Visitor;
use crate::harness::{Engine, Left, TestApp};

const KILLS: usize = 16;

/// Each kill waits for so many more words to be recorded.
const WORDS: usize = 6;

const PATIENCE: Duration = Duration::from_mins(2);

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn no_recorded_word_is_lost_or_doubled_on_sqlite() -> Result<()> {
    nothing_is_lost(Engine::Sqlite).await
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn no_recorded_word_is_lost_or_doubled_on_postgres() -> Result<()> {
    nothing_is_lost(Engine::Postgres).await
}

async fn nothing_is_lost(engine: Engine) -> Result<()> {
    let (left, asked) = shop_with_questions(engine).await?;
    let database = left.database.address().to_owned();
    let mut program = Program::serve(left.data.path(), "127.0.0.1:0", Some(&database))?;
    let address = program.listens_on()?;

    let (recorded, stop) = (
        Arc::new(AtomicUsize::new(0)),
        Arc::new(AtomicBool::new(false)),
    );
    let mut customers = JoinSet::new();
    for (ticket, offer) in asked.clone() {
        let visitor = Visitor::new(&program.origin)?;
        let customer = Customer {
            visitor,
            ticket,
            offer,
            recorded: Arc::clone(&recorded),
            stop: Arc::clone(&stop),
        };
        customers.spawn(customer.decides_over_and_over());
    }
    for _ in 0..KILLS {
        until_recorded(&recorded, recorded.load(Ordering::SeqCst) + WORDS).await?;
        program.dies()?;
        program = Program::serve(left.data.path(), &address, Some(&database))?;
    }
    until_recorded(&recorded, recorded.load(Ordering::SeqCst) + WORDS).await?;
    stop.store(true, Ordering::SeqCst);
    let told: usize = customers
        .join_all()
        .await
        .into_iter()
        .sum::<Result<usize>>()?;

    everything_is_there(&program, &asked, &database, told).await?;
    program.stops()?;
    let sound = run(&["verify", "--database", &database])?;
    ensure!(sound.status.success(), "{}", words(&sound));
    left.database.remove().await
}

/// Four tickets, each with an open offer, made at the machine's own time.
async fn shop_with_questions(engine: Engine) -> Result<(Left, Vec<(Taken, String)>)> {
    let app = TestApp::start(engine).await?;
    app.clock.set(Clock::System.now());
    app.time_passes(time::Duration::ZERO).await?;
    app.everybody_signs_in().await?;
    let mut asked = Vec::new();
    for _ in 0..4 {
        let ticket = app.takes_boots_in().await?;
        let offer = app.offers(&ticket).await?;
        asked.push((ticket, offer));
    }
    Ok((app.closes().await?, asked))
}

async fn until_recorded(recorded: &AtomicUsize, enough: usize) -> Result<()> {
    let begun = Instant::now();
    while recorded.load(Ordering::SeqCst) < enough {
        ensure!(begun.elapsed() < PATIENCE, "no word is recorded any more");
        tokio::time::sleep(Duration::from_millis(2)).await;
    }
    Ok(())
}

struct Customer {
    visitor: Visitor,
    ticket: Taken,
    offer: String,
    recorded: Arc<AtomicUsize>,
    stop: Arc<AtomicBool>,
}

impl Customer {
    /// Says yes and takes it back in turn, and says how many acts were acknowledged. Ends on a yes.
    async fn decides_over_and_over(self) -> Result<usize> {
        let mut acts = 0;
        for turn in 0_u32.. {
            let turn = turn.to_string();
            let yes = Form::new().with("word", "a").with("turn", &turn);
            let path = paths::give_word(&self.ticket.key, &self.offer);
            acts += self.until_acknowledged(&path, &yes).await?;
            if self.stop.load(Ordering::SeqCst) {
                break;
            }
            let back = Form::new().with("turn", &turn);
            let path = paths::take_back(&self.ticket.key, &self.offer);
            acts += self.until_acknowledged(&path, &back).await?;
        }
        Ok(acts)
    }

    /// Sends the same form again until an answer comes; a program that is away does not answer.
    async fn until_acknowledged(&self, path: &str, form: &Form) -> Result<usize> {
        let begun = Instant::now();
        loop {
            if let Ok(answer) = self.visitor.post(path, form.clone()).await {
                answer.expects(303)?;
                self.recorded.fetch_add(1, Ordering::SeqCst);
                return Ok(1);
            }
            ensure!(begun.elapsed() < PATIENCE, "the program does not come back");
            tokio::time::sleep(Duration::from_millis(5)).await;
        }
    }
}

async fn everything_is_there(
    program: &Program,
    asked: &[(Taken, String)],
    database: &str,
    told: usize,
) -> Result<()> {
    let visitor = Visitor::new(&program.origin)?;
    for (ticket, offer) in asked {
        let receipt = visitor
            .get(&paths::word(&ticket.key, offer))
            .await?
            .expects(200)?;
        receipt.must_say("$313.04")?;
    }
    let is_file = Path::new(database).exists();
    let db = Db::open(database)
        .await
        .context("the database opens beside the program")?;
    let words = "select count(*) from entry where body like '%\"event\":\"word-%'";
    let recorded = Database::number(&db, words).await?;
    let letters =
        "select count(*) from letter where notice in ('word-recorded', 'word-taken-back')";
    let letters = Database::number(&db, letters).await?;
    db.close().await;
    ensure!(
        recorded == i64::try_from(told)?,
        "{told} were told, {recorded} are recorded ({is_file})"
    );
    ensure!(
        letters == recorded,
        "{recorded} are recorded, {letters} letters written"
    );
    ensure!(told >= KILLS * WORDS);
    Ok(())
}

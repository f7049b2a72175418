//! `lastword verify`: an honest record is sound, and every change behind the program's back is found.

use std::path::Path;

use anyhow::{Context as _, Result, ensure};
use server::db::Db;
use time::Duration;

use super::program::{run, words};
use crate::harness::database::Database;
use crate::harness::{Engine, TestApp};

on_both_engines!(the_record_can_be_added_to_and_never_changed);

async fn the_record_can_be_added_to_and_never_changed(app: &TestApp) -> Result<()> {
    app.takes_boots_in().await?;
    let before = app.entries().await?;
    for sql in [
        "update entry set body = '{}'",
        "update entry set at = 0",
        "delete from entry",
    ] {
        let refused = Database::tamper(&app.app.db, sql).await;
        let reason = refused.err().context("it was changed")?.to_string();
        ensure!(reason.contains("append-only"), "{sql}: {reason}");
    }
    ensure!(app.entries().await? == before);
    Ok(())
}

/// Two tickets, with an offer, a word, and a word taken back.
async fn some_records(engine: Engine) -> Result<TestApp> {
    let app = TestApp::start(engine).await?;
    app.takes_boots_in().await?;
    let ticket = app.takes_boots_in().await?;
    let offer = app.offers(&ticket).await?;
    app.time_passes(Duration::minutes(5)).await?;
    ticket.says(&app, &offer, (0, "a")).await?.expects(303)?;
    ticket.takes_back(&app, &offer, 0).await?.expects(303)?;
    ticket.says(&app, &offer, (1, "b")).await?.expects(303)?;
    Ok(app)
}

const OPEN_SQLITE: &str =
    "drop trigger entry_is_never_changed; drop trigger entry_is_never_removed;";
const OPEN_POSTGRES: &str = "drop trigger entry_is_never_changed on entry;";

/// What somebody with the database in hand might try on ticket 1002.
const BREACHES: [(&str, &str); 9] = [
    (
        "the last entry removed",
        "delete from entry
         where ticket_id = (select ticket_id from ticket where number = 1002)
           and seq = (
               select max(seq) from entry
               where ticket_id = (select ticket_id from ticket where number = 1002)
           )",
    ),
    (
        "a price made smaller",
        "update entry set body = replace(body, '31304', '11304')
         where ticket_id = (select ticket_id from ticket where number = 1002)",
    ),
    (
        "a word turned round",
        r#"update entry set body = replace(body, '"choice":"b"', '"choice":"a"')
           where ticket_id = (select ticket_id from ticket where number = 1002)"#,
    ),
    (
        "a moment moved",
        "update entry set at = at - 1000000 where seq = 4
         and ticket_id = (select ticket_id from ticket where number = 1002)",
    ),
    (
        "somebody else named",
        r#"update entry set actor = '{"who":"program"}' where seq = 4
           and ticket_id = (select ticket_id from ticket where number = 1002)"#,
    ),
    (
        "an entry removed from the middle",
        "delete from entry where seq = 5
         and ticket_id = (select ticket_id from ticket where number = 1002)",
    ),
    (
        "an entry removed and the gap closed",
        "delete from entry where seq = 5
         and ticket_id = (select ticket_id from ticket where number = 1002);
         update entry set seq = 5 where seq = 6
         and ticket_id = (select ticket_id from ticket where number = 1002);",
    ),
    (
        "a whole ticket removed",
        "delete from entry where ticket_id = (select ticket_id from ticket where number = 1002)",
    ),
    (
        "two entries swapped",
        "update entry set seq = 1000 where seq = 4
         and ticket_id = (select ticket_id from ticket where number = 1002);
         update entry set seq = 4 where seq = 5
         and ticket_id = (select ticket_id from ticket where number = 1002);
         update entry set seq = 5 where seq = 1000
         and ticket_id = (select ticket_id from ticket where number = 1002);",
    ),
];

async fn tamper(address: &str, sql: &'static str) -> Result<()> {
    let db = Db::open(address).await?;
    Database::tamper(&db, sql).await?;
    db.close().await;
    Ok(())
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn every_change_to_a_copy_of_the_file_is_found() -> Result<()> {
    let left = some_records(Engine::Sqlite).await?.closes().await?;
    let honest = left.database.address().to_owned();
    let sound = run(&["verify", "--database", &honest])?;
    ensure!(sound.status.success(), "{}", words(&sound));
    ensure!(words(&sound).contains("2 tickets"), "{}", words(&sound));
    tamper(&honest, OPEN_SQLITE).await?;
    for (breach, sql) in BREACHES {
        let copy = left.data.path().join("copy.db").display().to_string();
        remove(&copy)?;
        std::fs::copy(&honest, &copy)?;
        tamper(&copy, sql).await?;
        is_found(&copy, breach)?;
    }
    let sound = run(&["verify", "--database", &honest])?;
    ensure!(sound.status.success(), "{}", words(&sound));
    Ok(())
}

fn remove(copy: &str) -> Result<()> {
    for part in ["", "-wal", "-shm"] {
        let file = format!("{copy}{part}");
        if Path::new(&file).exists() {
            std::fs::remove_file(file)?;
        }
    }
    Ok(())
}

fn is_found(database: &str, breach: &str) -> Result<()> {
    let found = run(&["verify", "--database", database])?;
    ensure!(
        !found.status.success(),
        "{breach} was not found: {}",
        words(&found)
    );
    ensure!(
        words(&found).contains("ticket"),
        "{breach}: {}",
        words(&found)
    );
    Ok(())
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn a_change_on_the_server_is_found_too() -> Result<()> {
    let left = some_records(Engine::Postgres).await?.closes().await?;
    let address = left.database.address().to_owned();
    ensure!(run(&["verify", "--database", &address])?.status.success());
    tamper(&address, OPEN_POSTGRES).await?;
    let (breach, sql) = BREACHES[1];
    tamper(&address, sql).await?;
    is_found(&address, breach)?;
    left.database.remove().await
}

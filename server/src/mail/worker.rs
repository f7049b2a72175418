//! Delivers what is due, and finds the reminders that are.

use shared_types::moment::Moment;
use shared_types::ticket::event::Actor;
use time::Duration;

use super::{Delivery, outbox};
use crate::app::App;
use crate::{record, shop};

/// While one try runs, nobody else takes the letter; after a crash it is due again then.
const LEASE: Duration = Duration::minutes(2);

/// When a letter that found no taker for so long is given up.
const PATIENCE: Duration = Duration::hours(72);

/// Minutes until the next try after the first, second, … one; then every four hours.
const WAITS: [i64; 4] = [1, 5, 15, 60];

/// Runs until the program stops.
pub async fn run(app: App) {
    loop {
        if let Err(error) = remind(&app).await {
            tracing::error!(
                error = format!("{error:#}"),
                "reminders could not be looked for"
            );
        }
        while match deliver_next(&app).await {
            Ok(delivered) => delivered,
            Err(error) => {
                tracing::error!(
                    error = format!("{error:#}"),
                    "a letter could not be handled"
                );
                false
            }
        } {}
        tokio::select! {
            () = app.outbox.notified() => {}
            () = tokio::time::sleep(std::time::Duration::from_secs(20)) => {}
        }
    }
}

/// Delivers the letter that is due longest, if one is.
pub async fn deliver_next(app: &App) -> anyhow::Result<bool> {
    let now = app.now();
    let mut conn = app.db.write().await?;
    let letter = outbox::take_due(&mut conn, now, now.plus(LEASE)).await?;
    conn.commit().await?;
    let Some(letter) = letter else {
        return Ok(false);
    };
    let delivery = app
        .mailer
        .deliver(&letter.sender, &letter.recipient, &letter.message)
        .await;
    let now = app.now();
    let mut conn = app.db.write().await?;
    match delivery {
        Delivery::Taken => outbox::settle(&mut conn, letter.id, ("sent", now), None).await?,
        Delivery::Kept => outbox::settle(&mut conn, letter.id, ("kept", now), None).await?,
        Delivery::Later(trouble) if now.since(letter.written_at) < PATIENCE => {
            tracing::warn!(letter.id = %letter.id, trouble, "a letter is tried again later");
            let next = ("waiting", now.plus(wait_after(letter.tries)));
            outbox::settle(&mut conn, letter.id, next, Some(&trouble)).await?;
        }
        Delivery::Later(trouble) | Delivery::Never(trouble) => {
            tracing::warn!(letter.id = %letter.id, trouble, "a letter is given up");
            outbox::settle(&mut conn, letter.id, ("given-up", now), Some(&trouble)).await?;
        }
    }
    conn.commit().await?;
    Ok(true)
}

fn wait_after(tries: i64) -> Duration {
    let place = usize::try_from(tries.saturating_sub(1)).unwrap_or(0);
    Duration::minutes(WAITS.get(place).copied().unwrap_or(240))
}

/// Records the pickup reminders that are due; each writes its letter.
pub async fn remind(app: &App) -> anyhow::Result<usize> {
    let mut conn = app.db.read().await?;
    let shop = shop::current(&mut conn).await?;
    let tickets = record::tickets_ready(&mut conn).await?;
    drop(conn);
    let mut reminded = 0;
    for id in tickets {
        let due = |ticket: &shared_types::ticket::Ticket, now: Moment| {
            Ok::<_, std::convert::Infallible>(ticket.due_reminder(&shop, now).into_iter().collect())
        };
        let before = record::load(&mut app.db.read().await?, id).await?;
        if before.is_none_or(|ticket| ticket.due_reminder(&shop, app.now()).is_none()) {
            continue;
        }
        match record::change(app, id, Actor::Program, due).await {
            Ok(_) => reminded += 1,
            Err(error) => anyhow::bail!("ticket {id}: {error:?}"),
        }
    }
    Ok(reminded)
}

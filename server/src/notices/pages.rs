//! The list of letters, and one letter to read.

use axum::extract::State;
use axum::http::StatusCode;
use frontend::back_office::letters::{Letter, LetterPage, Letters, LettersPage};
use leptos::prelude::*;
use shared_types::id::LetterId;
use shared_types::paths;
use shared_types::staff::Permission;

use crate::app::App;
use crate::error::{AppError, AppResult};
use crate::mail::outbox;
use crate::page::{self, Done};
use crate::request::{At, Said};
use crate::staff::session::SignedIn;

pub(super) async fn letters(State(app): State<App>, staff: SignedIn, said: Said) -> AppResult {
    staff.require(Permission::SeeLetters)?;
    let letters = outbox::latest(&mut app.db.read().await?).await?;
    let desk = staff.desk(said.0);
    let is_sending = app.mailer.is_sending();
    Ok(page::render(StatusCode::OK, move || {
        let props = Letters {
            desk,
            letters,
            is_sending,
        };
        view! { <LettersPage props=props /> }
    }))
}

pub(super) async fn letter(
    State(app): State<App>,
    staff: SignedIn,
    At(id): At<LetterId>,
) -> AppResult {
    staff.require(Permission::SeeLetters)?;
    let found = outbox::get(&mut app.db.read().await?, id).await?;
    let (letter, message) = found.ok_or(AppError::NotFound)?;
    let (text, attached) = crate::mail::message::read(&message);
    let desk = staff.desk(None);
    Ok(page::render(StatusCode::OK, move || {
        let props = Letter {
            desk,
            letter,
            text,
            attached,
        };
        view! { <LetterPage props=props /> }
    }))
}

pub(super) async fn retry(
    State(app): State<App>,
    staff: SignedIn,
    At(id): At<LetterId>,
) -> AppResult {
    staff.require(Permission::SeeLetters)?;
    let mut conn = app.db.write().await?;
    if outbox::retry(&mut conn, id, app.now()).await? == 0 {
        return Err(AppError::NotFound);
    }
    conn.commit().await?;
    app.outbox.notify_one();
    Ok(page::see_done(&paths::letters(), Done::LetterQueued))
}

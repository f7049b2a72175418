//! Signing in and out, the one-time set-up, and who works here.

use std::collections::HashMap;

use axum::extract::{Query, State};
use axum::http::{HeaderMap, StatusCode, header};
use axum::response::{IntoResponse as _, Response};
use frontend::back_office::people::{People, PeoplePage};
use frontend::back_office::setup::{SetUp, SetUpPage};
use frontend::back_office::sign_in::{SignIn, SignInPage};
use frontend::document::Flash;
use leptos::prelude::*;
use shared_types::contact::Email;
use shared_types::form::people::{self, Password, PersonField};
use shared_types::form::{Fields, FormErrors, Problem};
use shared_types::id::StaffId;
use shared_types::paths;
use shared_types::shop::Shop;
use shared_types::staff::{Permission, Role};
use shared_types::text::{Line, Words};
use subtle::ConstantTimeEq as _;

use super::{password, queries, session};
use crate::app::App;
use crate::db::DbError;
use crate::error::{AppError, AppResult};
use crate::page::{self, Done, see_other};
use crate::request::{At, Said, Typed};
use crate::staff::session::SignedIn;
use crate::{pricebook, shop};

/// Whether this is the one-time code, while there is no owner.
fn is_setup_code(app: &App, code: &str) -> bool {
    let known = app
        .setup
        .lock()
        .unwrap_or_else(std::sync::PoisonError::into_inner);
    known
        .as_ref()
        .is_some_and(|known| bool::from(known.as_bytes().ct_eq(code.as_bytes())))
}

pub(super) async fn setup(State(app): State<App>, At(code): At<String>) -> AppResult {
    if !is_setup_code(&app, &code) {
        return Err(AppError::NotFound);
    }
    Ok(setup_page(
        StatusCode::OK,
        code,
        Fields::default(),
        FormErrors::default(),
    ))
}

fn setup_page(
    status: StatusCode,
    code: String,
    fields: Fields,
    errors: FormErrors<PersonField>,
) -> Response {
    page::render(status, move || {
        let props = SetUp {
            code,
            fields,
            errors,
        };
        view! { <SetUpPage props=props /> }
    })
}

/// Makes the first owner and the shop, once.
pub(super) async fn set_up(
    State(app): State<App>,
    At(code): At<String>,
    typed: Typed,
) -> AppResult {
    if !is_setup_code(&app, &code) {
        return Err(AppError::NotFound);
    }
    let owner = people::read(&typed.fields, Some(Role::Owner));
    let name = Line::parse(typed.fields.one(PersonField::Shop.name()));
    let (owner, name) = match (owner, name) {
        (Ok(owner), Ok(name)) => (owner, name),
        (owner, name) => {
            let mut errors = owner.err().unwrap_or_default();
            errors.take(PersonField::Shop, name);
            let mut fields = typed.fields;
            fields.set(PersonField::Password.name(), "");
            let status = StatusCode::UNPROCESSABLE_ENTITY;
            return Ok(setup_page(status, code, fields, errors));
        }
    };
    let hash = password::hash(&app, owner.password).await?;
    let id = StaffId::from_bytes(crate::clock::new_id(app.now()));
    let mut conn = app.db.write().await?;
    if queries::has_owner(&mut conn).await? {
        return Err(AppError::NotFound);
    }
    queries::add(&mut conn, id, (&owner.name, Role::Owner), &hash, app.now()).await?;
    let unset = |problem: Problem| AppError::Internal(problem.into());
    let address = Words::parse("The shop's address is not set yet.").map_err(unset)?;
    let email = Email::parse("shop@example.invalid").map_err(unset)?;
    let shop = Shop::new(name, address, email);
    shop::store(&mut conn, &shop, app.now()).await?;
    let stock = pricebook::starter::stock(shop.currency())?;
    pricebook::stock(&mut conn, &stock).await?;
    conn.commit().await?;
    *app.setup
        .lock()
        .unwrap_or_else(std::sync::PoisonError::into_inner) = None;
    let cookie = session::begin(&app, id).await?;
    Ok((
        [(header::SET_COOKIE, cookie)],
        see_other(&paths::settings()),
    )
        .into_response())
}

pub(super) async fn sign_in(
    State(app): State<App>,
    Query(query): Query<HashMap<String, String>>,
) -> AppResult {
    let onward = query.get("onward").cloned().unwrap_or_default();
    sign_in_page(&app, StatusCode::OK, (String::new(), onward), None).await
}

async fn sign_in_page(
    app: &App,
    status: StatusCode,
    (name, onward): (String, String),
    trouble: Option<String>,
) -> AppResult {
    let shop = shop::current(&mut app.db.read().await?).await?.name;
    Ok(page::render(status, move || {
        let props = SignIn {
            shop,
            name,
            trouble,
            onward,
        };
        view! { <SignInPage props=props /> }
    }))
}

/// Checks name and password. Whatever is wrong, the answer and its cost are the same.
pub(super) async fn enter(State(app): State<App>, typed: Typed) -> AppResult {
    let name = typed.fields.one(PersonField::Name.name()).to_owned();
    let onward = typed.fields.one("onward").to_owned();
    let now = app.now();
    if !throttle(&app).admits(&name, now) {
        return Err(AppError::TooMany);
    }
    let known = queries::by_name(&mut app.db.read().await?, &name).await?;
    let (staff, hash) = known.unzip();
    let password = Password::typed(typed.fields.one(PersonField::Password.name()));
    let fits = password::fits(&app, password, hash).await?;
    match staff {
        Some(staff) if fits => {
            throttle(&app).right(&name);
            let cookie = session::begin(&app, staff.id).await?;
            tracing::info!(staff.id = %staff.id, "signed in");
            // Only a path of ours: a link must not lead elsewhere by way of the sign-in.
            let is_ours = paths::is_of_the_shop(&onward);
            let onward = if is_ours { onward } else { paths::today() };
            Ok(([(header::SET_COOKIE, cookie)], see_other(&onward)).into_response())
        }
        _ => {
            throttle(&app).wrong(&name, now);
            tracing::info!("a sign-in was refused");
            let words = "This name and password don't fit together. Check both; the owner can set \
                         a new password.";
            let status = StatusCode::UNPROCESSABLE_ENTITY;
            sign_in_page(&app, status, (name, onward), Some(words.to_owned())).await
        }
    }
}

fn throttle(app: &App) -> std::sync::MutexGuard<'_, super::throttle::Throttle> {
    app.sign_ins
        .lock()
        .unwrap_or_else(std::sync::PoisonError::into_inner)
}

pub(super) async fn leave(State(app): State<App>, headers: HeaderMap) -> AppResult {
    let cookie = session::end(&app, &headers).await?;
    Ok(([(header::SET_COOKIE, cookie)], see_other(&paths::sign_in())).into_response())
}

pub(super) async fn people(State(app): State<App>, staff: SignedIn, said: Said) -> AppResult {
    staff.require(Permission::RunTheShop)?;
    people_page(
        &app,
        &staff,
        StatusCode::OK,
        (said.0, Fields::default(), FormErrors::default()),
    )
    .await
}

async fn people_page(
    app: &App,
    staff: &SignedIn,
    status: StatusCode,
    (flash, fields, errors): (Option<Flash>, Fields, FormErrors<PersonField>),
) -> AppResult {
    let people = queries::everyone(&mut app.db.read().await?).await?;
    let desk = staff.desk(flash);
    Ok(page::render(status, move || {
        let props = People {
            desk,
            people,
            fields,
            errors,
        };
        view! { <PeoplePage props=props /> }
    }))
}

pub(super) async fn add(State(app): State<App>, staff: SignedIn, typed: Typed) -> AppResult {
    staff.require(Permission::RunTheShop)?;
    let mut errors = match people::read(&typed.fields, None) {
        Ok(person) => match super::add(&app, person).await {
            Ok(_) => return Ok(page::see_done(&paths::people(), Done::Saved)),
            Err(AppError::Internal(error))
                if matches!(error.downcast_ref(), Some(DbError::Taken)) =>
            {
                let mut errors = FormErrors::default();
                errors.add(PersonField::Name, Problem::NameTaken);
                errors
            }
            Err(error) => return Err(error),
        },
        Err(errors) => errors,
    };
    let mut fields = typed.fields;
    fields.set(PersonField::Password.name(), "");
    let status = StatusCode::UNPROCESSABLE_ENTITY;
    people_page(
        &app,
        &staff,
        status,
        (None, fields, std::mem::take(&mut errors)),
    )
    .await
}

/// Disables, enables, or sets a new password; either ends all sessions of that person.
pub(super) async fn change(
    State(app): State<App>,
    staff: SignedIn,
    At(id): At<StaffId>,
    typed: Typed,
) -> AppResult {
    staff.require(Permission::RunTheShop)?;
    let refuse = |words: &str| Some(Flash::Refused(words.to_owned()));
    let again = |flash| (flash, Fields::default(), FormErrors::default());
    let act = typed.fields.one("act");
    if id == staff.staff.id && act == "disable" {
        let flash = refuse("You can't lock yourself out. Another owner can.");
        return people_page(&app, &staff, StatusCode::CONFLICT, again(flash)).await;
    }
    let hash = if act == "password" {
        match Password::parse_new(typed.fields.one(PersonField::Password.name())) {
            Ok(password) => Some(password::hash(&app, password).await?),
            Err(problem) => {
                let flash = refuse(&problem.to_string());
                let status = StatusCode::UNPROCESSABLE_ENTITY;
                return people_page(&app, &staff, status, again(flash)).await;
            }
        }
    } else {
        None
    };
    let mut conn = app.db.write().await?;
    let touched = match (act, hash) {
        ("disable", _) => queries::set_disabled(&mut conn, id, Some(app.now())).await?,
        ("enable", _) => queries::set_disabled(&mut conn, id, None).await?,
        (_, Some(hash)) => queries::set_password(&mut conn, id, &hash).await?,
        (_, None) => return Err(AppError::NotFound),
    };
    if touched == 0 {
        return Err(AppError::NotFound);
    }
    queries::end_sessions_of(&mut conn, id).await?;
    conn.commit().await?;
    Ok(page::see_done(&paths::people(), Done::Saved))
}

//! What a handler may answer instead of a page; the only place with these status codes, and the
//! only one that logs an internal failure.

use axum::http::{StatusCode, header};
use axum::response::{IntoResponse, Redirect, Response};
use frontend::portal::trouble::{Trouble, TroublePage};
use frontend::render;
use leptos::prelude::*;
use shared_types::paths;

use crate::db::DbError;
use crate::page;

/// The answer of a handler.
pub(crate) type AppResult<T = Response> = Result<T, AppError>;

/// Why there is no ordinary answer.
#[derive(Debug)]
pub(crate) enum AppError {
    /// Nothing is there, or nothing that this visitor may know of.
    NotFound,
    /// Somebody of the shop must sign in first, and then goes on to this path.
    SignInRequired {
        /// Where to go on.
        onward: String,
    },
    /// Signed in, with too little right.
    Forbidden,
    /// The form came from elsewhere, or not from a browser that says where it came from.
    CrossSite,
    /// What arrived could not be read.
    Unreadable(&'static str),
    /// Too many tries.
    TooMany,
    /// Somebody else was faster, several times over.
    Stale,
    /// We failed.
    Internal(anyhow::Error),
}

impl From<DbError> for AppError {
    fn from(error: DbError) -> Self {
        Self::Internal(error.into())
    }
}

impl From<anyhow::Error> for AppError {
    fn from(error: anyhow::Error) -> Self {
        Self::Internal(error)
    }
}

impl From<serde_json::Error> for AppError {
    fn from(error: serde_json::Error) -> Self {
        Self::Internal(error.into())
    }
}

impl IntoResponse for AppError {
    fn into_response(self) -> Response {
        let (status, title, words) = match self {
            Self::SignInRequired { onward } => {
                let query = serde_urlencoded::to_string([("onward", onward)]).unwrap_or_default();
                let to = format!("{}?{query}", paths::sign_in());
                return Redirect::to(&to).into_response();
            }
            Self::NotFound => (
                StatusCode::NOT_FOUND,
                "This page does not exist",
                "The address may have been cut off. If it came in a letter of ours, open it from there again.",
            ),
            Self::Forbidden => (
                StatusCode::FORBIDDEN,
                "This is not yours to do",
                "You are signed in, but this belongs to someone else's work here. Ask the owner if it should be yours.",
            ),
            Self::CrossSite => (
                StatusCode::FORBIDDEN,
                "Nothing was recorded",
                "This did not come from one of our own pages, or your browser does not say where it came from. Open the page again and press the button there.",
            ),
            Self::Unreadable(words) => (StatusCode::BAD_REQUEST, "This could not be read", words),
            Self::TooMany => (
                StatusCode::TOO_MANY_REQUESTS,
                "Please wait a moment",
                "There were many tries in a short time. Wait a minute, then try again.",
            ),
            Self::Stale => (
                StatusCode::CONFLICT,
                "Someone was faster",
                "Someone else changed this at the same moment, so nothing was recorded. Open the page again and look at it as it stands now.",
            ),
            Self::Internal(error) => {
                tracing::error!(error = format!("{error:#}"), "a request failed");
                (
                    StatusCode::INTERNAL_SERVER_ERROR,
                    "Something went wrong on our side",
                    "We can't say whether it was recorded. Open the page again: it shows what stands. If this comes again, please ring the shop.",
                )
            }
        };
        let trouble = Trouble {
            title: title.to_owned(),
            words: words.to_owned(),
            onward: Some(("To the shop's front page".to_owned(), paths::home())),
            request: None,
        };
        let html = render::page(move || view! { <TroublePage props=trouble /> });
        let mut response = page::html(status, html);
        if status == StatusCode::TOO_MANY_REQUESTS {
            let wait = header::HeaderValue::from_static("60");
            response.headers_mut().insert(header::RETRY_AFTER, wait);
        }
        response
    }
}

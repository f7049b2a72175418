//! What handlers take from a request, already parsed: ids, the customer's door, forms.

use std::collections::HashMap;
use std::str::FromStr;

use axum::extract::{FromRequest, FromRequestParts, Multipart, Path, Query, Request};
use axum::http::header;
use axum::http::request::Parts;
use frontend::document::Flash;
use shared_types::form::{Fields, PictureProblem};

use crate::app::App;
use crate::error::AppError;
use crate::page::Done;

/// The most bytes of one picture.
pub(crate) const PICTURE_LIMIT: usize = 15 * 1024 * 1024;

/// The most bytes of a form with pictures.
pub(crate) const UPLOAD_LIMIT: usize = 10 * PICTURE_LIMIT + 1024 * 1024;

/// The id, name or digest in the path; what can't be one leads nowhere.
pub(crate) struct At<T>(pub(crate) T);

impl<T: FromStr> FromRequestParts<App> for At<T> {
    type Rejection = AppError;

    async fn from_request_parts(parts: &mut Parts, app: &App) -> Result<Self, AppError> {
        let parts = Path::<HashMap<String, String>>::from_request_parts(parts, app)
            .await
            .map_err(|_| AppError::NotFound)?;
        let text = ["id", "sheet", "digest", "name", "code"]
            .iter()
            .find_map(|name| parts.get(*name));
        let value = text.and_then(|text| text.parse().ok());
        value.map(Self).ok_or(AppError::NotFound)
    }
}

/// The line about the form that led here.
pub(crate) struct Said(pub(crate) Option<Flash>);

impl FromRequestParts<App> for Said {
    type Rejection = AppError;

    async fn from_request_parts(parts: &mut Parts, app: &App) -> Result<Self, AppError> {
        let query = Query::<HashMap<String, String>>::from_request_parts(parts, app).await;
        let code = query.ok().and_then(|mut query| query.0.remove("done"));
        let done = code.and_then(|code| Done::from_code(&code));
        Ok(Self(done.map(|done| Flash::Done(done.words().to_owned()))))
    }
}

/// A form as it was typed, and the pictures that came with it.
#[derive(Debug, Default)]
pub(crate) struct Typed {
    /// The fields.
    pub(crate) fields: Fields,
    /// Pictures by field name, or why one could not be taken.
    pub(crate) pictures: Vec<(String, Result<Vec<u8>, PictureProblem>)>,
}

impl FromRequest<App> for Typed {
    type Rejection = AppError;

    async fn from_request(request: Request, app: &App) -> Result<Self, AppError> {
        let kind = request.headers().get(header::CONTENT_TYPE);
        let is_multipart = kind
            .and_then(|kind| kind.to_str().ok())
            .is_some_and(|kind| kind.starts_with("multipart/form-data"));
        if is_multipart {
            let form = Multipart::from_request(request, app)
                .await
                .map_err(|_| AppError::Unreadable("The form did not arrive whole. Go back and send it again; your browser kept what you typed."))?;
            return read_multipart(form).await;
        }
        let body = axum::body::Bytes::from_request(request, app)
            .await
            .map_err(|_| AppError::Unreadable("The form was too large or did not arrive whole. Go back, shorten it and send it again."))?;
        let fields: Vec<(String, String)> = serde_urlencoded::from_bytes(&body).map_err(|_| {
            AppError::Unreadable("The form could not be read. Go back and send it again.")
        })?;
        let fields = fields
            .into_iter()
            .map(|(name, value)| (name, without_nul(&value)));
        Ok(Self {
            fields: fields.collect(),
            pictures: Vec::new(),
        })
    }
}

/// No text of ours has the character NUL, and PostgreSQL takes none.
pub(crate) fn without_nul(text: &str) -> String {
    text.replace('\0', "")
}

async fn read_multipart(mut form: Multipart) -> Result<Typed, AppError> {
    const CUT: AppError = AppError::Unreadable(
        "The form did not arrive whole, perhaps because the pictures together are too large (at \
         most ten of 15 MB). Go back and send fewer at a time; your browser kept what you typed.",
    );
    let mut typed = Typed::default();
    while let Some(mut part) = form.next_field().await.map_err(|_| CUT)? {
        let Some(name) = part.name().map(str::to_owned) else {
            continue;
        };
        let is_file = part.file_name().is_some();
        let mut bytes = Vec::new();
        let mut too_large = false;
        while let Some(chunk) = part.chunk().await.map_err(|_| CUT)? {
            too_large = too_large || bytes.len() + chunk.len() > PICTURE_LIMIT;
            // What is too large is still read to its end, so that the rest of the form is kept.
            if !too_large {
                bytes.extend_from_slice(&chunk);
            }
        }
        if !is_file {
            typed
                .fields
                .push(name, without_nul(&String::from_utf8_lossy(&bytes)));
        } else if too_large {
            typed.pictures.push((name, Err(PictureProblem::TooLarge)));
        } else if !bytes.is_empty() {
            typed.pictures.push((name, Ok(bytes)));
        }
    }
    Ok(typed)
}

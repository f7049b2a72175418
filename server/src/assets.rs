//! The stylesheet, its fonts, the loader and the islands.

use std::collections::HashMap;
use std::path::Path;

use axum::Router;
use axum::extract::State;
use axum::http::{HeaderValue, StatusCode, header};
use axum::response::{IntoResponse, Response};
use axum::routing::get;
use shared_types::paths;

use crate::app::App;
use crate::error::{AppError, AppResult};
use crate::request::At;

include!(concat!(env!("OUT_DIR"), "/style.rs"));

const ICON: &str = include_str!("../../style/icon.svg");
const LOADER: &str = include_str!("../../frontend/assets/loader.js");

/// The names under which the islands are served.
const ISLAND_FILES: [(&str, &str); 2] = [
    ("islands.js", "text/javascript; charset=utf-8"),
    ("islands_bg.wasm", "application/wasm"),
];

pub(crate) fn routes() -> Router<App> {
    Router::new()
        .route(paths::HEALTH, get(health))
        .route(
            paths::STYLE,
            get(async || file(STYLE, "text/css; charset=utf-8")),
        )
        .route(paths::ICON, get(async || file(ICON, "image/svg+xml")))
        .route(
            paths::LOADER,
            get(async || file(LOADER, "text/javascript; charset=utf-8")),
        )
        .route(paths::FONT, get(font))
        .route(paths::ISLAND, get(island))
}

/// Reads the islands, if they were built.
pub(crate) fn read_islands(folder: Option<&Path>) -> HashMap<&'static str, Vec<u8>> {
    let Some(folder) = folder else {
        return HashMap::new();
    };
    let files = ISLAND_FILES.iter().map(|(name, _)| {
        let bytes = std::fs::read(folder.join(name));
        bytes.map(|bytes| (*name, bytes))
    });
    files.collect::<Result<_, _>>().unwrap_or_else(|error| {
        tracing::warn!(%error, folder = %folder.display(), "the islands can't be read; pages work without them");
        HashMap::new()
    })
}

/// Answers when the program is up and its database answers.
async fn health(State(app): State<App>) -> AppResult {
    app.db.read().await?.ping().await?;
    Ok("ok\n".into_response())
}

fn file(bytes: impl IntoResponse, kind: &'static str) -> Response {
    let mut response = bytes.into_response();
    let headers = response.headers_mut();
    headers.insert(header::CONTENT_TYPE, HeaderValue::from_static(kind));
    headers.insert(
        header::CACHE_CONTROL,
        HeaderValue::from_static("public, max-age=300"),
    );
    response
}

async fn font(At(name): At<String>) -> AppResult {
    let font = FONTS.iter().find(|(known, _)| *known == name);
    let (_, bytes) = font.ok_or(AppError::NotFound)?;
    Ok(file(*bytes, "font/woff2"))
}

async fn island(State(app): State<App>, At(name): At<String>) -> AppResult {
    let known = ISLAND_FILES.iter().find(|(known, _)| *known == name);
    let (name, kind) = known.ok_or(AppError::NotFound)?;
    match app.islands.get(name) {
        Some(bytes) => Ok(file(bytes.clone(), kind)),
        None => Ok((StatusCode::NOT_FOUND, "the islands were not built\n").into_response()),
    }
}

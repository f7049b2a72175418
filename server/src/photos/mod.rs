//! Pictures: checked by content, turned upright, made smaller, written anew (which drops where and
//! with what they were taken), and kept under the digest of the result.

mod decode;

use std::path::PathBuf;

use axum::Router;
use axum::extract::State;
use axum::http::{HeaderValue, header};
use axum::response::{IntoResponse as _, Response};
use axum::routing::get;
use shared_types::digest::Digest;
use shared_types::form::PictureProblem;
use shared_types::paths;
use shared_types::scope::sheet::Picture;
use shared_types::staff::Permission;
use shared_types::text::Line;

use crate::app::App;
use crate::error::{AppError, AppResult};
use crate::request::{At, Typed};
use crate::staff::session::SignedIn;

pub(crate) fn routes() -> Router<App> {
    Router::new().route(paths::SHOP_PHOTO, get(show))
}

async fn show(State(app): State<App>, staff: SignedIn, At(digest): At<Digest>) -> AppResult {
    staff.require(Permission::SeeTickets)?;
    file(&app, digest).await
}

/// Why pictures could not be kept.
pub(crate) enum NotKept {
    /// One of them can't be used.
    Unusable(PictureProblem),
    /// We failed.
    Failed(AppError),
}

/// Keeps all pictures of a form's field; either all can be used, or the first reason.
pub(crate) async fn keep_all(
    app: &App,
    typed: &mut Typed,
    field: &str,
) -> Result<Vec<Digest>, NotKept> {
    let mut kept = Vec::new();
    for (name, picture) in std::mem::take(&mut typed.pictures) {
        if name != field {
            typed.pictures.push((name, picture));
            continue;
        }
        let bytes = picture.map_err(NotKept::Unusable)?;
        kept.push(keep(app, bytes).await?);
    }
    Ok(kept)
}

/// The pictures of a form's field with what they show, ready for a note or an offer.
pub(crate) async fn keep_pictures(
    app: &App,
    typed: &mut Typed,
    field: &str,
    shows: Option<&Line>,
) -> Result<Vec<Picture>, NotKept> {
    let kept = keep_all(app, typed, field).await?;
    let picture = |digest| Picture {
        digest,
        shows: shows.cloned(),
    };
    Ok(kept.into_iter().map(picture).collect())
}

/// Keeps one picture: on disk, synced, before anything speaks of it.
pub(crate) async fn keep(app: &App, bytes: Vec<u8>) -> Result<Digest, NotKept> {
    let permit = app.decoding.acquire().await;
    let folder = app.config.data.join("photos");
    let done = tokio::task::spawn_blocking(move || {
        let picture = decode::rewrite(&bytes).map_err(NotKept::Unusable)?;
        let digest = Digest::of(&picture);
        store(&folder, digest, &picture)
            .map_err(|error| NotKept::Failed(AppError::Internal(error.into())))?;
        Ok(digest)
    })
    .await;
    drop(permit);
    done.unwrap_or_else(|error| Err(NotKept::Failed(AppError::Internal(error.into()))))
}

fn path_of(folder: &std::path::Path, digest: Digest) -> PathBuf {
    let name = digest.to_string();
    folder.join(&name[..2]).join(format!("{name}.jpg"))
}

fn store(folder: &std::path::Path, digest: Digest, picture: &[u8]) -> std::io::Result<()> {
    use std::io::Write as _;
    let path = path_of(folder, digest);
    if path.exists() {
        return Ok(());
    }
    let parent = path.parent().unwrap_or(folder);
    std::fs::create_dir_all(parent)?;
    let unfinished = path.with_extension(format!(
        "{:x}.part",
        u64::from_be_bytes(crate::clock::random())
    ));
    let mut file = std::fs::File::create(&unfinished)?;
    file.write_all(picture)?;
    file.sync_all()?;
    std::fs::rename(&unfinished, &path)?;
    std::fs::File::open(parent)?.sync_all()
}

/// A picture as an answer; whoever calls has checked that it may be seen.
pub(crate) async fn file(app: &App, digest: Digest) -> AppResult<Response> {
    let path = path_of(&app.config.data.join("photos"), digest);
    let bytes = match tokio::fs::read(&path).await {
        Ok(bytes) => bytes,
        Err(error) if error.kind() == std::io::ErrorKind::NotFound => {
            return Err(AppError::NotFound);
        }
        Err(error) => return Err(AppError::Internal(error.into())),
    };
    let mut response = bytes.into_response();
    let headers = response.headers_mut();
    for (name, value) in [
        (header::CONTENT_TYPE, "image/jpeg"),
        (
            header::CONTENT_DISPOSITION,
            "inline; filename=\"photo.jpg\"",
        ),
        (header::CACHE_CONTROL, "private, max-age=86400, immutable"),
    ] {
        headers.insert(name, HeaderValue::from_static(value));
    }
    Ok(response)
}

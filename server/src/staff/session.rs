//! Sessions: a random token in a cookie, its digest in the database, two limits of time.

use axum::extract::FromRequestParts;
use axum::http::request::Parts;
use axum::http::{HeaderMap, HeaderValue, header};
use data_encoding::BASE64URL_NOPAD;
use frontend::document::{Desk, Flash};
use shared_types::digest::Digest;
use shared_types::id::StaffId;
use shared_types::moment::Moment;
use shared_types::shop::Shop;
use shared_types::staff::{Permission, Staff};
use shared_types::ticket::event::Actor;
use time::Duration;

use super::queries;
use crate::app::App;
use crate::clock::random;
use crate::error::AppError;
use crate::shop;

/// A session ends after a day at the latest, and after half a working day without use: the bench's
/// tablet lies there between two pairs (NIST SP 800-63B-4 asks for at most 24 hours overall).
const LONGEST: Duration = Duration::hours(14);
const IDLE: Duration = Duration::hours(5);

/// Somebody of the shop, signed in, with the shop as it is set and the present moment.
pub(crate) struct SignedIn {
    /// Who.
    pub(crate) staff: Staff,
    /// The shop.
    pub(crate) shop: Shop,
    /// Now.
    pub(crate) now: Moment,
}

impl SignedIn {
    /// Goes on only with this permission; the first line of every handler.
    pub(crate) fn require(&self, permission: Permission) -> Result<(), AppError> {
        if self.staff.role.may(permission) {
            Ok(())
        } else {
            Err(AppError::Forbidden)
        }
    }

    /// What a page shows of who works on it.
    pub(crate) fn desk(&self, flash: Option<Flash>) -> Desk {
        Desk {
            shop: self.shop.clone(),
            staff: self.staff.clone(),
            now: self.now,
            flash,
        }
    }

    /// Who made something happen.
    pub(crate) fn actor(&self) -> Actor {
        Actor::Staff(self.staff.id)
    }
}

impl FromRequestParts<App> for SignedIn {
    type Rejection = AppError;

    async fn from_request_parts(parts: &mut Parts, app: &App) -> Result<Self, AppError> {
        let now = app.now();
        let required = || AppError::SignInRequired {
            // After a form the visitor goes on to the page that it was on, as far as we know it.
            onward: if parts.method == axum::http::Method::GET {
                parts.uri.to_string()
            } else {
                shared_types::paths::today()
            },
        };
        let token = token(&parts.headers, app).ok_or_else(required)?;
        let digest = Digest::of(token.as_bytes());
        let mut conn = app.db.read().await?;
        let limits = (now.plus(-LONGEST), now.plus(-IDLE));
        let found = queries::session(&mut conn, digest, limits).await?;
        let (staff, seen_at) = found.ok_or_else(required)?;
        let shop = shop::current(&mut conn).await?;
        drop(conn);
        if now.since(seen_at) > Duration::minutes(5) {
            let mut conn = app.db.write().await?;
            queries::touch_session(&mut conn, digest, now).await?;
            conn.commit().await?;
        }
        Ok(Self { staff, shop, now })
    }
}

/// Begins a session and gives the cookie that carries it.
pub(crate) async fn begin(app: &App, id: StaffId) -> Result<HeaderValue, AppError> {
    let token = BASE64URL_NOPAD.encode(&random::<32>());
    let mut conn = app.db.write().await?;
    queries::begin_session(&mut conn, Digest::of(token.as_bytes()), id, app.now()).await?;
    conn.commit().await?;
    cookie(app, &token, LONGEST)
}

/// Ends the session of this request and gives the cookie that forgets it.
pub(crate) async fn end(app: &App, headers: &HeaderMap) -> Result<HeaderValue, AppError> {
    if let Some(token) = token(headers, app) {
        let mut conn = app.db.write().await?;
        queries::end_session(&mut conn, Digest::of(token.as_bytes())).await?;
        conn.commit().await?;
    }
    cookie(app, "", Duration::ZERO)
}

/// `__Host-` binds the cookie to this very host over TLS; without TLS a browser would drop it.
fn cookie_name(app: &App) -> &'static str {
    if app.config.is_secure() {
        "__Host-lastword"
    } else {
        "lastword"
    }
}

fn cookie(app: &App, token: &str, age: Duration) -> Result<HeaderValue, AppError> {
    let secure = if app.config.is_secure() {
        "; Secure"
    } else {
        ""
    };
    let text = format!(
        "{}={token}; Path=/; HttpOnly; SameSite=Lax; Max-Age={}{secure}",
        cookie_name(app),
        age.whole_seconds()
    );
    HeaderValue::from_str(&text).map_err(|error| AppError::Internal(error.into()))
}

fn token(headers: &HeaderMap, app: &App) -> Option<String> {
    let name = cookie_name(app);
    let cookies = headers.get_all(header::COOKIE).iter();
    let mut pairs = cookies
        .filter_map(|cookie| cookie.to_str().ok())
        .flat_map(|cookie| cookie.split(';'));
    pairs.find_map(|pair| {
        let (known, token) = pair.trim().split_once('=')?;
        (known == name && !token.is_empty()).then(|| token.to_owned())
    })
}

//! What stands round every request: security headers, the check of where a form came from,
//! limits, and the last net under a panic.

use std::time::Duration;

use axum::Router;
use axum::extract::{DefaultBodyLimit, Request, State};
use axum::http::{HeaderMap, HeaderName, HeaderValue, Method, header};
use axum::middleware::{self, Next};
use axum::response::{IntoResponse, Response};
use tower_http::catch_panic::CatchPanicLayer;
use tower_http::compression::CompressionLayer;
use tower_http::timeout::RequestBodyTimeoutLayer;

use crate::app::App;
use crate::error::AppError;

/// Nothing but our own stylesheet, fonts, pictures and islands; forms go to us only; nobody
/// frames us.
const CONTENT_POLICY: &str = "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; \
    style-src 'self'; img-src 'self' data:; font-src 'self'; connect-src 'self'; \
    form-action 'self'; base-uri 'none'; frame-ancestors 'none'";

const HEADERS: [(&str, &str); 6] = [
    ("content-security-policy", CONTENT_POLICY),
    ("x-content-type-options", "nosniff"),
    // Not "no-referrer": a form's Origin would then be null. The key in a link stays on our site.
    ("referrer-policy", "same-origin"),
    ("cross-origin-opener-policy", "same-origin"),
    ("cross-origin-resource-policy", "same-origin"),
    (
        "permissions-policy",
        "camera=(self), geolocation=(), microphone=()",
    ),
];

/// Puts everything round the routes.
pub(crate) fn around(routes: Router<App>, app: &App) -> Router<App> {
    routes
        .fallback(|| async { AppError::NotFound })
        .layer(DefaultBodyLimit::max(256 * 1024))
        .layer(middleware::from_fn_with_state(app.clone(), check_origin))
        .layer(RequestBodyTimeoutLayer::new(Duration::from_secs(20)))
        .layer(CompressionLayer::new())
        .layer(CatchPanicLayer::custom(|_| {
            AppError::Internal(anyhow::anyhow!("a handler panicked")).into_response()
        }))
        .layer(middleware::from_fn_with_state(app.clone(), add_headers))
}

/// Lets a request that changes something through only from one of our own pages.
async fn check_origin(State(app): State<App>, request: Request, next: Next) -> Response {
    let is_safe = matches!(*request.method(), Method::GET | Method::HEAD);
    if is_safe || is_own(&app, request.headers()) {
        next.run(request).await
    } else {
        AppError::CrossSite.into_response()
    }
}

/// Whether a request comes from one of our own pages: by Fetch Metadata, else by Origin; a browser
/// sends at least one with a form.
fn is_own(app: &App, headers: &HeaderMap) -> bool {
    let text = |name: &str| headers.get(name).and_then(|value| value.to_str().ok());
    match (text("sec-fetch-site"), text("origin")) {
        (Some(site), _) => site == "same-origin",
        (None, Some(origin)) => {
            let host = origin
                .strip_prefix("https://")
                .or_else(|| origin.strip_prefix("http://"));
            origin == app.config.public_url || (host.is_some() && host == text("host"))
        }
        (None, None) => false,
    }
}

async fn add_headers(State(app): State<App>, request: Request, next: Next) -> Response {
    let is_asset = request.uri().path().starts_with("/assets/");
    let mut response = next.run(request).await;
    let headers = response.headers_mut();
    for (name, value) in HEADERS {
        headers.insert(
            HeaderName::from_static(name),
            HeaderValue::from_static(value),
        );
    }
    if app.config.is_secure() {
        headers.insert(
            header::STRICT_TRANSPORT_SECURITY,
            HeaderValue::from_static("max-age=31536000"),
        );
    }
    if !is_asset {
        let robots = HeaderName::from_static("x-robots-tag");
        headers.insert(robots, HeaderValue::from_static("noindex, nofollow"));
        let kept = HeaderValue::from_static("no-store");
        headers.entry(header::CACHE_CONTROL).or_insert(kept);
    }
    response
}

//! What the customer's link opens: the ticket, offers and words on them, questions, receipts.
//!
//! The link is the login. Opening a page changes nothing; every act is a form.

mod actions;
mod pages;

use axum::Router;
use axum::extract::{FromRequestParts, Path};
use axum::http::StatusCode;
use axum::http::request::Parts;
use axum::response::{IntoResponse, Response};
use axum::routing::{get, post};
use frontend::portal::link_unknown::{LinkUnknown, LinkUnknownPage};
use leptos::prelude::*;
use shared_types::key::PortalKey;
use shared_types::moment::Moment;
use shared_types::paths;
use shared_types::shop::Shop;
use shared_types::ticket::Ticket;

use crate::app::App;
use crate::error::AppError;
use crate::{page, record, shop};

pub(crate) fn routes() -> Router<App> {
    Router::new()
        .route(paths::HOME, get(pages::home))
        .route(paths::TICKET, get(pages::ticket))
        .route(paths::OFFER, get(pages::offer))
        .route(paths::GIVE_WORD, post(actions::give_word))
        .route(paths::TAKE_BACK, post(actions::take_back))
        .route(paths::WORD, get(pages::word))
        .route(paths::ASK, post(actions::ask))
        .route(paths::PHOTO, get(pages::photo))
        .route(paths::PICKUP, get(pages::pickup))
        .route(paths::RECEIPT, get(pages::receipt))
}

/// A link that opened: whoever came through it may see this ticket and nothing else.
pub(crate) struct Door {
    /// The shop.
    pub(crate) shop: Shop,
    /// The link's key.
    pub(crate) key: PortalKey,
    /// The ticket, without what is for the shop only.
    pub(crate) ticket: Ticket,
    /// Now.
    pub(crate) now: Moment,
}

/// Why a door stays shut. Unknown, stopped and mistyped links look the same.
pub(crate) enum Shut {
    /// The link opens nothing.
    Unknown(Box<Shop>),
    /// We failed.
    Failed(AppError),
}

impl From<AppError> for Shut {
    fn from(error: AppError) -> Self {
        Self::Failed(error)
    }
}

impl From<crate::db::DbError> for Shut {
    fn from(error: crate::db::DbError) -> Self {
        Self::Failed(error.into())
    }
}

impl IntoResponse for Shut {
    fn into_response(self) -> Response {
        match self {
            Self::Unknown(shop) => page::render(StatusCode::NOT_FOUND, move || {
                let props = LinkUnknown { shop: *shop };
                view! { <LinkUnknownPage props=props /> }
            }),
            Self::Failed(error) => error.into_response(),
        }
    }
}

impl FromRequestParts<App> for Door {
    type Rejection = Shut;

    async fn from_request_parts(parts: &mut Parts, app: &App) -> Result<Self, Shut> {
        let path =
            Path::<std::collections::HashMap<String, String>>::from_request_parts(parts, app);
        let key = path
            .await
            .ok()
            .and_then(|path| PortalKey::parse(path.get("key")?).ok());
        let mut conn = app.db.read().await?;
        let shop = shop::current(&mut conn).await?;
        let Some(key) = key else {
            return Err(Shut::Unknown(Box::new(shop)));
        };
        match record::by_link(&mut conn, key.digest()).await? {
            Some(ticket) => Ok(Self {
                shop,
                key,
                ticket: ticket.for_customer(),
                now: app.now(),
            }),
            None => Err(Shut::Unknown(Box::new(shop))),
        }
    }
}

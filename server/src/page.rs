//! Answers: a page, a redirect after a form, a file.

use axum::http::{HeaderValue, StatusCode, header};
use axum::response::{IntoResponse, Response};
use leptos::prelude::IntoView;

/// A rendered page.
pub(crate) fn html(status: StatusCode, html: String) -> Response {
    let kind = HeaderValue::from_static("text/html; charset=utf-8");
    (status, [(header::CONTENT_TYPE, kind)], html).into_response()
}

/// Renders a view as a page.
pub(crate) fn render<V: IntoView>(status: StatusCode, view: impl FnOnce() -> V) -> Response {
    html(status, frontend::render::page(view))
}

/// After a form that was taken: see the result there.
pub(crate) fn see_other(path: &str) -> Response {
    axum::response::Redirect::to(path).into_response()
}

/// After a form that was taken, with a line about it.
pub(crate) fn see_done(path: &str, done: Done) -> Response {
    see_other(&format!("{path}?done={}", done.code()))
}

macro_rules! done {
    ($($variant:ident $code:literal $words:literal;)*) => {
        /// What a page may say about the form that led to it. A code in the address and not a
        /// text, so that nobody can put words into the shop's mouth by a link.
        #[derive(Clone, Copy, Debug, PartialEq, Eq)]
        pub(crate) enum Done { $($variant),* }

        impl Done {
            const ALL: &[Self] = &[$(Self::$variant),*];

            const fn code(self) -> &'static str {
                match self { $(Self::$variant => $code),* }
            }

            pub(crate) const fn words(self) -> &'static str {
                match self { $(Self::$variant => $words),* }
            }

            pub(crate) fn from_code(code: &str) -> Option<Self> {
                Self::ALL.iter().copied().find(|done| done.code() == code)
            }
        }
    };
}

done! {
    Moved "moved" "The pair has moved on.";
    Held "held" "The hold is noted.";
    Lifted "lifted" "Nothing holds the pair any more.";
    Started "started" "Work has started on what is agreed.";
    Measured "measured" "The measurements are kept.";
    Noted "noted" "The note is in the journal.";
    OfferSent "offer-sent" "The offer is with the customer.";
    Withdrawn "withdrawn" "The offer is withdrawn and the customer is told.";
    WordWritten "word-written" "The word is recorded.";
    ScopeChanged "scope-changed" "The changed scope is recorded as a new revision.";
    Paid "paid" "The payment is recorded.";
    GivenBack "given-back" "What was given back is recorded.";
    HandedOver "handed-over" "Handed over. The receipt is on its way.";
    LinkRenewed "link-renewed" "The customer has a new link; the old one opens nothing now.";
    LinkStopped "link-stopped" "The link opens nothing now.";
    ContactChanged "contact-changed" "The contact is changed.";
    Saved "saved" "Saved.";
    Asked "asked" "Your question is with us. We answer here and by mail.";
    TakenBack "taken-back" "Your answer is taken back. Nothing beyond the first agreement will be done until you answer again.";
    LetterQueued "letter-queued" "The letter is tried again now.";
}

//! A page as text. Nothing is awaited and nothing fetched: a page is made from its props alone.

use std::sync::Arc;

use leptos::prelude::{IntoView, Owner, RenderHtml};

/// Renders a whole page, `<!DOCTYPE html>` included.
pub fn page<V: IntoView>(view: impl FnOnce() -> V) -> String {
    let context = Arc::new(hydration_context::SsrSharedContext::new_islands());
    let owner = Owner::new_root(Some(context));
    let html = owner.with(|| view().into_view().to_html());
    owner.unset_with_forced_cleanup();
    format!("<!DOCTYPE html>{html}")
}

//! The pages of Lastword: props in, HTML out, and a handful of islands.
//!
//! Code map:
//! - [`render`]: a page as text, made on the server
//! - [`document`]: the frames round every page
//! - [`elements`]: what more than one page uses
//! - [`portal`]: the customer's pages, one file each
//! - [`back_office`]: the shop's pages, one file each
//! - [`islands`]: what the browser brings to life
//!
//! Every page works without the islands; they only make it nicer.

// The type of a page is as deep as its markup.
#![recursion_limit = "256"]
#![expect(clippy::needless_pass_by_value, reason = "a component owns its props")]

pub mod back_office;
pub mod document;
pub mod elements;
#[cfg(test)]
pub(crate) mod fixture;
pub mod islands;
pub mod portal;
#[cfg(feature = "ssr")]
pub mod render;

/// The browser's entry point: makes ready for the loader, which then brings each island to life.
#[cfg(feature = "hydrate")]
#[wasm_bindgen::prelude::wasm_bindgen]
pub fn hydrate() {
    leptos::mount::hydrate_islands();
}

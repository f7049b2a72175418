//! The islands. Each does one thing that HTML and CSS can't, on a page that works without it.

#[cfg(feature = "hydrate")]
mod browser;
pub mod live_days;
pub mod live_quote;
pub mod live_rules;
pub mod quote_words;
#[cfg(feature = "hydrate")]
mod reckoning;

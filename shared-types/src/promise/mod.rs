//! When a pair can be ready: the shop's [`calendar`] and the [`forecast`] over it.

pub mod calendar;
pub mod forecast;

//! The bench sheet: dimensions worked out from a few measurements.
//!
//! - [`outline`]: the sole's outline, its area and its edge

pub mod outline;

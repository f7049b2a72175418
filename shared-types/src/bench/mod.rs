//! The bench sheet: what one pair takes, worked out from a few measurements or from its size alone.
//!
//! - input: [`length`] (what was typed, in any of the trade's units), [`field`] and [`measure`] (what
//!   was measured), [`measurements`] (what a pair's record keeps of it), [`habits`] (what a
//!   shop does its own way), [`doubt`] (what can't be right)
//! - [`figure`]: a number with its formula, its inputs, its tolerance and its source
//! - parts: [`sizing`], [`outline`], [`insole`] and [`sole`], [`welt`], [`thread`] and [`thread_size`], [`filler`], [`heel`],
//!   [`nails`]
//! - [`cautions`]: what can hurt, by step
//! - [`take_off`]: quantities for the price
//! - output: [`sheet`] puts the parts together, [`drawing`] shows them to scale
#![expect(
    clippy::float_arithmetic,
    reason = "lengths, areas and angles are measured; no money is worked out here"
)]

pub mod cautions;
pub mod doubt;
pub mod drawing;
pub mod field;
pub mod figure;
pub mod filler;
pub mod habits;
pub mod heel;
pub mod insole;
pub mod length;
pub mod measure;
pub mod measurements;
pub mod nails;
pub mod outline;
pub mod sheet;
pub mod sizing;
pub mod sole;
pub mod take_off;
pub mod thread;
pub mod thread_size;
pub mod welt;

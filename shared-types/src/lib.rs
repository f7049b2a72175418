//! The pure domain of Lastword: no I/O, no clock, no randomness; it decides everything.
//!
//! Code map, in reading order:
//! - values: [`id`], [`moment`], [`minutes`], [`money`], [`text`], [`contact`], [`digest`], [`size`]
//! - the shop: [`shop`] (its settings), [`hands`], [`staff`], [`pricebook`], [`supply`]
//! - computation: [`tax`], [`price`] and [`adjust`], [`margin`], [`promise`], [`mod@bench`]
//! - the record: [`stage`], [`scope`], [`ticket`] (events, commands, the chain), [`notice`]
//! - the edge: [`form`] (what was typed, and what is wrong with it), [`brief`] and [`letter`] (lines
//!   of a list), [`key`] (the secret of a link), [`paths`] (every URL)

pub mod adjust;
pub mod bench;
pub mod brief;
pub mod cement;
pub mod contact;
pub mod digest;
pub mod form;
pub mod hands;
pub mod id;
pub mod key;
pub mod letter;
pub mod margin;
pub mod minutes;
pub mod moment;
pub mod money;
pub mod notice;
pub mod paths;
pub mod price;
pub mod pricebook;
pub mod promise;
pub mod scope;
pub mod shop;
pub mod size;
pub mod staff;
pub mod stage;
pub mod supply;
pub mod tax;
pub mod text;
pub mod ticket;

//! When a pair can be ready.
//!
//! - the shop: its [`calendar`]; hands, stations and open pairs ([`workshop`]), laid out on a
//!   [`board`]
//! - from the shop's records to a workshop: [`open_work`], [`practice`]; to the browser: [`laid_out`]
//! - minutes and chances: [`labour`], [`chance`]
//! - the answers: [`dates`] and [`new_pair`] (what customers are given), [`plan`] and each pair's [`reason`]s,
//!   [`outlook`] (days with their chance, promises at risk), [`turn`] and [`answers`] (what an offer
//!   needs)
//! - the owner's questions: [`evening`], [`days`], [`what_if`], [`order`]
//! - underneath: `axis` and `free` (time), `place` and `dispatch` (the placing), `luck` and
//!   `log_normal` (the draws)

pub mod answers;
mod axis;
pub mod board;
pub mod calendar;
pub mod chance;
pub mod dates;
pub mod days;
mod dispatch;
pub mod evening;
mod free;
pub mod labour;
pub mod laid_out;
mod log_normal;
mod luck;
pub mod new_pair;
pub mod open_work;
pub mod order;
pub mod outlook;
mod place;
pub mod plan;
pub mod practice;
pub mod reason;
pub mod turn;
pub mod what_if;
pub mod workshop;

#[cfg(test)]
mod tests;

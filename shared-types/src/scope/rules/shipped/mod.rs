//! The rules of a new shop, over the services of the shipped price book.
//!
//! - `services`: which services; `row`: how a rule is written down here
//! - `bottom`: what agreed work says of welt, seams and soles
//! - `insole`: insole and rib; `structure`: welt, filler, shank; `soles`; `heels`; `whole`: what
//!   concerns the pair as a whole
//!
//! What holds to what is common practice of the trade, without a source to cite; the shop edits it.

mod bottom;
mod heels;
mod insole;
mod row;
mod services;
mod soles;
mod structure;
#[cfg(test)]
mod tests;
mod whole;

pub use bottom::WorkAtTheBottom;
pub use services::service;

use crate::scope::rules::{PutBack, RuleSet};

/// The shipped rules.
pub fn rules() -> RuleSet {
    let rows = [
        insole::ROWS,
        structure::ROWS,
        soles::ROWS,
        heels::ROWS,
        whole::ROWS,
    ]
    .concat();
    RuleSet {
        rules: rows.iter().map(row::Row::rule).collect(),
        put_back: Some(PutBack {
            opened_by: service(services::TEARDOWN),
            closed_by: service(services::PUT_BACK),
        }),
    }
}

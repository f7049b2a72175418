//! What agreed work says of welt, seams and soles, for the bench sheet. Only services of the shipped
//! price book say anything; of a shop's own the sheet has to assume.

use super::service;
use super::services::{
    HAND_SEWN_INSOLE, LEATHER_SOLES, LEATHER_WELT, LUGGED_SOLES, PRESCRIBED_LIFT, RUBBER_SOLES,
    STITCHED, STITCHED_BY_HAND, SYNTHETIC_WELT, WELT_ALL_ROUND,
};
use crate::bench::measure::SoleKind;
use crate::bench::thread::Stitch;
use crate::bench::welt::WeltRun;
use crate::scope::ScopeLine;

/// What some lines say of a pair's bottom.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct WorkAtTheBottom {
    /// The new welt.
    pub welt: Option<WeltRun>,
    /// Whether an insole with its own rib is sewn in by hand.
    pub insole_by_hand: bool,
    /// What the new soles are.
    pub new_sole: Option<SoleKind>,
    /// How they are sewn on.
    pub sole_sewn: Option<Stitch>,
    /// Whether one shoe's lift is renewed as a clinician prescribed.
    pub prescribed_lift: bool,
}

impl WorkAtTheBottom {
    /// Reads them off the services that the lines came from.
    pub fn of(lines: &[ScopeLine]) -> Self {
        let has = |number: u8| {
            let service = Some(service(number));
            lines.iter().any(|line| line.service == service)
        };
        let first = |rows: &[u8]| rows.iter().any(|number| has(*number));
        Self {
            welt: if has(WELT_ALL_ROUND) {
                Some(WeltRun::AllRound)
            } else {
                first(&[LEATHER_WELT, SYNTHETIC_WELT]).then_some(WeltRun::BreastToBreast)
            },
            insole_by_hand: has(HAND_SEWN_INSOLE),
            new_sole: [
                (LUGGED_SOLES, SoleKind::Lug),
                (RUBBER_SOLES, SoleKind::Rubber),
                (LEATHER_SOLES, SoleKind::Leather),
            ]
            .into_iter()
            .find_map(|(number, kind)| has(number).then_some(kind)),
            sole_sewn: [(STITCHED_BY_HAND, Stitch::Hand), (STITCHED, Stitch::Lock)]
                .into_iter()
                .find_map(|(number, stitch)| has(number).then_some(stitch)),
            prescribed_lift: has(PRESCRIBED_LIFT),
        }
    }
}

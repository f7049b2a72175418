//! Nails by length: the longest that holds without coming through.
//!
//! Lengths, bite and clearance are common practice, no source; the list is the shop's to edit.

use serde::Serialize;

use super::field::Field;
use super::figure::{Figure, Input, Recipe, Source, Unit};
use super::length::Millimetres;
use super::measure::Measured;

/// Nails that a shop commonly has.
pub fn usual_lengths() -> Vec<Millimetres> {
    [10, 13, 16, 19, 22, 25, 29, 32, 38, 45]
        .map(|length: u8| Millimetres(f64::from(length)))
        .to_vec()
}

/// What a nail must reach into the second part to hold.
const BITE: f64 = 6.0;

/// Where a nail is driven.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum NailJoint {
    /// From inside, through insole and sole into the heel base.
    HeelSeat,
    /// From below, through the top lift into the heel base.
    TopLift,
}

impl NailJoint {
    /// In words.
    pub const fn label(self) -> &'static str {
        match self {
            Self::HeelSeat => "heel seat, from inside",
            Self::TopLift => "top lift, from below",
        }
    }
}

/// Nails for one joint.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct NailFigures {
    /// Where they go.
    pub joint: NailJoint,
    /// No shorter than this, or they do not hold.
    pub at_least: Figure,
    /// No longer than this, or they come through.
    pub at_most: Figure,
    /// The nail to take; none of those at hand fits if this is empty.
    pub take: Option<Millimetres>,
}

/// The longest nail within a span.
pub fn longest(
    nails: &[Millimetres],
    at_least: Millimetres,
    at_most: Millimetres,
) -> Option<Millimetres> {
    nails
        .iter()
        .copied()
        .filter(|nail| *nail >= at_least && *nail <= at_most)
        .reduce(|longest, nail| if nail > longest { nail } else { longest })
}

impl NailFigures {
    /// Nails for the heel seat and the top lift of a heel with that base.
    ///
    /// Worked out on the safe side: the longest nail fits even if every thickness is at the thin end
    /// of its tolerance.
    pub fn work_out(measured: &Measured, base: Input, seat: Input, top_lift: Input) -> Vec<Self> {
        let insole = measured.given(Field::InsoleThickness);
        let clearance = measured.given(Field::NailClearance);
        let bite = Input::usual("bite", BITE, Unit::Millimetre, Source::Practice);
        let heel_seat = Self::of(
            measured,
            NailJoint::HeelSeat,
            recipe("At least", "insole + sole at the seat + bite")
                .of([insole, seat, bite], |[insole, sole, bite]| {
                    insole + sole + bite
                }),
            recipe(
                "At most",
                "insole + sole at the seat + heel base − clearance",
            )
            .of(
                [insole, seat, base, clearance],
                |[insole, sole, base, clearance]| insole + sole + base - clearance,
            ),
        );
        let top = Self::of(
            measured,
            NailJoint::TopLift,
            recipe("At least", "top lift + bite").of([top_lift, bite], |[top, bite]| top + bite),
            recipe("At most", "top lift + heel base − clearance")
                .of([top_lift, base, clearance], |[top, base, clearance]| {
                    top + base - clearance
                }),
        );
        vec![heel_seat, top]
    }

    fn of(measured: &Measured, joint: NailJoint, at_least: Figure, at_most: Figure) -> Self {
        let take = longest(
            &measured.nails,
            Millimetres(at_least.value),
            Millimetres(at_most.value - at_most.within),
        );
        Self {
            joint,
            at_least,
            at_most,
            take,
        }
    }
}

const fn recipe(label: &'static str, formula: &'static str) -> Recipe {
    Recipe {
        label,
        unit: Unit::Millimetre,
        formula,
        source: Source::Practice,
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn nails(base: f64) -> Vec<NailFigures> {
        let mm = |label, value| Input::chosen(label, value, Unit::Millimetre);
        let base = mm("base", base);
        NailFigures::work_out(
            &Measured::default(),
            base,
            mm("sole", 5.0),
            mm("top lift", 6.0),
        )
    }

    /// By hand: 4 (± 1) + 5 + 20 − 3 = 26, less the insole's tolerance; 6 + 20 − 3 = 23.
    #[test]
    fn the_longest_nail_that_stays_inside_is_taken() {
        let taken: Vec<_> = nails(20.0).iter().map(|nails| nails.take).collect();
        assert_eq!(taken, [Some(Millimetres(25.0)), Some(Millimetres(22.0))]);
    }

    /// By hand: 26 mm at most, and the insole may be 1 mm thinner than is usual, so 26 would come through.
    #[test]
    fn a_nail_that_fits_only_by_luck_is_not_taken() {
        let measured = Measured {
            nails: [25.0, 26.0].map(Millimetres).to_vec(),
            ..Measured::default()
        };
        let mm = |label, value| Input::chosen(label, value, Unit::Millimetre);
        let [base, seat, top] = [mm("base", 20.0), mm("sole", 5.0), mm("top lift", 6.0)];
        let nails = NailFigures::work_out(&measured, base, seat, top);
        assert_eq!(nails[0].take, Some(Millimetres(25.0)));
        // 4 + 5 and 6 mm of bite; 6 and 6.
        let least: Vec<f64> = nails.iter().map(|nails| nails.at_least.value).collect();
        assert_eq!(least, [15.0, 12.0]);
    }

    #[test]
    fn no_nail_holds_in_a_base_that_is_too_thin() {
        assert!(nails(5.0).iter().all(|nails| nails.take.is_none()));
    }

    proptest! {
        #[test]
        fn a_nail_never_comes_through(base in 0.0_f64..60.0) {
            for nails in nails(base) {
                if let Some(nail) = nails.take {
                    prop_assert!(nail.0 <= nails.at_most.value && nail.0 >= nails.at_least.value);
                }
            }
        }
    }
}

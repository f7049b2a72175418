//! What does not fit about a heel, in words for the bench.

use serde::Serialize;

use super::stance::{Case, Stance};
use crate::bench::field::Field;
use crate::bench::length::Millimetres;
use crate::bench::measure::Measured;

/// Why parts do not fit, or need a word.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, thiserror::Error)]
#[serde(rename_all = "kebab-case", tag = "misfit")]
pub enum Misfit {
    /// Sole and top lift alone are higher than the last allows.
    #[error(
        "There is no room for a heel base: sole and top lift alone stand {over} too high. Take a thinner top lift, a sole that is thinner at the seat, or one that is thicker at the ball."
    )]
    NoRoom {
        /// By how much.
        over: Millimetres,
    },
    /// The base would be thinner than one lift.
    #[error(
        "The heel base would be {base}, thinner than one lift of {lift}. Skive one lift to it, or take a thinner top lift and a whole lift."
    )]
    ThinBase {
        /// The base.
        base: Millimetres,
        /// One lift.
        lift: Millimetres,
    },
    /// The base runs out before it reaches the breast.
    #[error(
        "The seat slopes more than the base is high: at the breast it would end in nothing. Take a thinner top lift, or a rand under the seat."
    )]
    RunsOut,
    /// A whole lift would be sanded away.
    #[error(
        "{trim} would be sanded away, a whole lift of {lift} or nearly. Take one lift fewer without sanding, or one thinner lift."
    )]
    LiftSandedAway {
        /// What would come off.
        trim: Millimetres,
        /// One lift.
        lift: Millimetres,
    },
    /// The old base under the new parts would change the pitch.
    #[error("Left on its old heel base the pair would stand {by} off its pitch.")]
    OldBaseOff {
        /// By how much.
        by: Millimetres,
    },
    /// The best that the parts allow is off by more than is worth a word.
    #[error(
        "The pitch would be {by} off; more than {allowed} is felt. Tell the customer, or choose other parts."
    )]
    PitchOff {
        /// By how much.
        by: Millimetres,
        /// What passes without a word.
        allowed: Millimetres,
    },
    /// The best that the parts allow is off by too much.
    #[error(
        "The pitch would be {by} off, more than {allowed}. Do not build this without a reason written down; choose other parts."
    )]
    PitchFarOff {
        /// By how much.
        by: Millimetres,
        /// What passes with a reason.
        allowed: Millimetres,
    },
    /// The old parts do not add up to the last's pitch.
    #[error(
        "The old parts add up to a pitch that is {by} off the last's: worn, or repaired before with other parts. The new heel follows the last."
    )]
    OldPartsDisagree {
        /// By how much.
        by: Millimetres,
    },
    /// Left and right differ.
    #[error(
        "Left and right differ by {by}. Level wear can be made good; if the difference is meant, it is a clinician's to prescribe, and this sheet does not advise."
    )]
    Uneven {
        /// By how much.
        by: Millimetres,
    },
}

/// Whether a way of standing is off its pitch, and what that means there.
pub(super) fn off(stance: &Stance, measured: &Measured) -> Option<Misfit> {
    let by = Millimetres(stance.change.value).size();
    let (asks, stops) = (
        measured.tolerances.pitch_asks,
        measured.tolerances.pitch_stops,
    );
    // As stored numbers go, 6.000 000 1 is 6.
    let beyond = |allowed: Millimetres| by.0 > allowed.0 + 1e-6;
    let misfit = match stance.case {
        Case::AsItCame => Misfit::OldPartsDisagree { by },
        Case::OldBaseKept => Misfit::OldBaseOff { by },
        Case::AsBuilt | Case::OneLiftFewer if beyond(stops) => {
            Misfit::PitchFarOff { by, allowed: stops }
        }
        Case::AsBuilt | Case::OneLiftFewer => Misfit::PitchOff { by, allowed: asks },
    };
    beyond(asks).then_some(misfit)
}

/// Whether left and right differ by more than wear explains.
pub(super) fn uneven(measured: &Measured) -> Option<Misfit> {
    let left = measured.length(Field::LeftHeel)?;
    let right = measured.length(Field::RightHeel)?;
    let by = (left - right).size();
    (by.0 > measured.tolerances.level.0 + 1e-6).then_some(Misfit::Uneven { by })
}

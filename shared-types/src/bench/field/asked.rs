//! How a form asks for lengths: in groups, the needed ones first, each with how it is taken and the
//! units in which the trade writes it.

use super::Field;
use crate::bench::length::LengthUnit;

/// Lengths that are asked for together.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Group {
    /// The insole and the sole on it.
    Bottom,
    /// What stood under the last when the pair came.
    OldParts,
    /// What was chosen to go under it.
    NewParts,
    /// Both heels as they came.
    Heels,
    /// What the pair was made on and for.
    LastAndFoot,
    /// Edge, stitch line, rib and the welt's ends.
    Edge,
    /// Pitch and thickness of the seams.
    Seams,
    /// The hollow and the cork in it.
    Filler,
    /// The shape of the heel, its lifts and nails.
    HeelShape,
}

impl Group {
    /// All groups, in the order in which a form asks.
    pub const ALL: [Self; 9] = [
        Self::Bottom,
        Self::OldParts,
        Self::NewParts,
        Self::Heels,
        Self::LastAndFoot,
        Self::Edge,
        Self::Seams,
        Self::Filler,
        Self::HeelShape,
    ];

    /// Its title.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Bottom => "Insole and sole",
            Self::OldParts => "Old parts, as they came",
            Self::NewParts => "New parts, as chosen",
            Self::Heels => "Both heels, as they came",
            Self::LastAndFoot => "Last and foot",
            Self::Edge => "Welt and edge",
            Self::Seams => "Seams",
            Self::Filler => "Filler",
            Self::HeelShape => "Shape of the heel, lifts, nails",
        }
    }

    /// Whether most pairs need it; the others are folded away.
    pub const fn is_needed_first(self) -> bool {
        matches!(self, Self::Bottom | Self::OldParts | Self::NewParts)
    }

    /// Its fields, in the order in which a form asks.
    pub fn fields(self) -> impl Iterator<Item = Field> {
        Field::ALL
            .into_iter()
            .filter(move |field| field.group() == self)
    }
}

impl Field {
    /// The group in which a form asks for it.
    pub const fn group(self) -> Group {
        match self {
            Self::InsoleLength | Self::InsoleBall | Self::InsoleHeel | Self::OutsoleLength => {
                Group::Bottom
            }
            Self::OldSoleAtBall | Self::OldSoleAtSeat | Self::OldHeelBase | Self::OldTopLift => {
                Group::OldParts
            }
            Self::NewSoleAtBall | Self::NewSoleAtSeat | Self::NewTopLift => Group::NewParts,
            Self::LeftHeel | Self::RightHeel => Group::Heels,
            Self::FootLength
            | Self::ToeExtra
            | Self::LastPitch
            | Self::ToeSpring
            | Self::InsoleThickness => Group::LastAndFoot,
            Self::SoleEdge | Self::StitchLine | Self::RibInset | Self::WeltJoint => Group::Edge,
            Self::InseamPitch | Self::InseamThrough | Self::OutsolePitch | Self::OutsoleThrough => {
                Group::Seams
            }
            Self::FillerDepth | Self::CorkSheet => Group::Filler,
            Self::Rand
            | Self::Lift
            | Self::Sanding
            | Self::HeelLength
            | Self::BackSet
            | Self::BreastSet
            | Self::NailClearance => Group::HeelShape,
        }
    }

    /// The units in which it may be written, the usual one first.
    pub const fn units(self) -> &'static [LengthUnit] {
        use LengthUnit::{Centimetre, Inch, Iron, Millimetre, Ounce, PerInch};
        if self.is_pitch() {
            &[PerInch, Millimetre]
        } else if self.is_thickness() {
            &[Millimetre, Iron, Ounce, Inch]
        } else {
            &[Millimetre, Centimetre, Inch]
        }
    }

    /// How it is taken, in a few words.
    pub const fn how(self) -> &'static str {
        match self {
            Self::FootLength => "Heel to longest toe, standing.",
            Self::InsoleLength => {
                "Back of the heel seat to the tip of the toe, in a straight line."
            }
            Self::InsoleBall => "Full width where it is widest.",
            Self::InsoleHeel => "Full width where the heel seat is widest.",
            Self::ToeExtra => "What a long toe adds beyond the usual.",
            Self::OutsoleLength => "Back to tip, in a straight line.",
            Self::SoleEdge => "How far the outsole stands proud, all round.",
            Self::StitchLine => "How far outside the insole the outsole is sewn.",
            Self::RibInset => "From the insole’s edge in to the rib.",
            Self::WeltJoint => "What tapered ends or the skived joint take, each shoe.",
            Self::InseamPitch | Self::OutsolePitch => {
                "Stitches to the inch, or from one stitch to the next."
            }
            Self::InseamThrough => "Welt, upper and rib together.",
            Self::OutsoleThrough => "Welt, midsole and sole together.",
            Self::FillerDepth => "From the insole down to the top of the rib.",
            Self::CorkSheet => "The sheet at hand.",
            Self::InsoleThickness => "At the heel seat.",
            Self::LastPitch => "How much higher the heel seat stands than the ball.",
            Self::OldSoleAtBall | Self::NewSoleAtBall => "With midsole, under the ball.",
            Self::OldSoleAtSeat | Self::NewSoleAtSeat => "With midsole, under the heel seat.",
            Self::OldHeelBase => "Without top lift and sole, at the middle of the seat.",
            Self::OldTopLift => "As thick as it was when new.",
            Self::LeftHeel | Self::RightHeel => "Floor to sole, at the middle of the seat.",
            Self::NewTopLift => "At the middle of the seat.",
            Self::Rand => "Between sole and heel base, if there is one.",
            Self::Lift => "One lift of the new heel base.",
            Self::Sanding => "What sanding takes off the finished base.",
            Self::HeelLength => "Back to breast, at the seat.",
            Self::BackSet => "How far the back stands forward of the seat at the floor.",
            Self::BreastSet => "How far the breast stands behind its top at the floor.",
            Self::ToeSpring => "How high the tip of the toe stands.",
            Self::NailClearance => "What must stay between a nail’s point and the next surface.",
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_field_is_asked_for_once() {
        let asked: Vec<Field> = Group::ALL.into_iter().flat_map(Group::fields).collect();
        assert_eq!(asked.len(), Field::ALL.len());
        for field in Field::ALL {
            assert!(asked.contains(&field), "{field:?}");
        }
    }
}

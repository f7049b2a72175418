//! The lengths that can be measured or chosen, each with what is likely for it.
//!
//! - `likely`: what each usually is, and what raises a question
//! - [`asked`]: how a form asks for them

pub mod asked;
mod likely;

use serde::{Deserialize, Serialize};

use super::length::Millimetres;

/// A length on the bench sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Field {
    /// The foot itself, heel to longest toe.
    FootLength,
    /// The insole, back of the heel seat to the tip of the toe.
    InsoleLength,
    /// The insole's full width at the ball.
    InsoleBall,
    /// The insole's full width at the widest of the heel seat.
    InsoleHeel,
    /// What a long toe adds to the insole beyond its usual length.
    ToeExtra,
    /// The outsole, back to tip.
    OutsoleLength,
    /// How far the outsole stands proud of the insole, all round.
    SoleEdge,
    /// How far outside the insole's edge the outsole is stitched.
    StitchLine,
    /// How far inside the insole's edge the rib stands.
    RibInset,
    /// What the ends of a welt take beyond its way, for each shoe.
    WeltJoint,
    /// From one stitch of the inseam to the next.
    InseamPitch,
    /// The thickness which the inseam goes through.
    InseamThrough,
    /// From one stitch of the outsole to the next.
    OutsolePitch,
    /// The thickness which the outsole's seam goes through.
    OutsoleThrough,
    /// The depth of the hollow that the filler fills.
    FillerDepth,
    /// The thickness of a sheet of cork.
    CorkSheet,
    /// The insole's thickness at the heel seat.
    InsoleThickness,
    /// How much higher the last's heel seat stands than its ball.
    LastPitch,
    /// The old sole, with midsole, under the ball.
    OldSoleAtBall,
    /// The old sole, with midsole, under the heel seat.
    OldSoleAtSeat,
    /// The old heel base, without top lift, at the middle of the seat.
    OldHeelBase,
    /// The old top lift as it was when new.
    OldTopLift,
    /// The left heel as it came, floor to sole, at the middle of the seat.
    LeftHeel,
    /// The right heel as it came, in the same place.
    RightHeel,
    /// The new sole, with midsole, under the ball.
    NewSoleAtBall,
    /// The new sole, with midsole, under the heel seat.
    NewSoleAtSeat,
    /// The new top lift.
    NewTopLift,
    /// A rand or wedge between sole and heel base.
    Rand,
    /// One lift of the new heel base.
    Lift,
    /// What sanding takes off the finished base.
    Sanding,
    /// The heel's length at the seat, back to breast.
    HeelLength,
    /// How far the heel's back stands forward of the seat at the floor.
    BackSet,
    /// How far the heel's breast stands behind its top at the floor.
    BreastSet,
    /// How high the tip of the toe stands as the pair came.
    ToeSpring,
    /// What must stay between a nail's point and the next surface.
    NailClearance,
}

/// How a length is taken.
enum Taken {
    /// With a tape or a rule.
    Tape,
    /// With a gauge or a calliper.
    Gauge,
    /// It is a decision.
    Choice,
}

impl Field {
    /// All fields, in the order in which a form asks for them.
    pub const ALL: [Self; 35] = [
        Self::FootLength,
        Self::InsoleLength,
        Self::InsoleBall,
        Self::InsoleHeel,
        Self::ToeExtra,
        Self::OutsoleLength,
        Self::SoleEdge,
        Self::StitchLine,
        Self::RibInset,
        Self::WeltJoint,
        Self::InseamPitch,
        Self::InseamThrough,
        Self::OutsolePitch,
        Self::OutsoleThrough,
        Self::FillerDepth,
        Self::CorkSheet,
        Self::InsoleThickness,
        Self::LastPitch,
        Self::OldSoleAtBall,
        Self::OldSoleAtSeat,
        Self::OldHeelBase,
        Self::OldTopLift,
        Self::LeftHeel,
        Self::RightHeel,
        Self::NewSoleAtBall,
        Self::NewSoleAtSeat,
        Self::NewTopLift,
        Self::Rand,
        Self::Lift,
        Self::Sanding,
        Self::HeelLength,
        Self::BackSet,
        Self::BreastSet,
        Self::ToeSpring,
        Self::NailClearance,
    ];

    /// Its name in a form's fields and in JSON.
    pub const fn code(self) -> &'static str {
        self.names().0
    }

    /// Its name for people.
    pub const fn label(self) -> &'static str {
        self.names().1
    }

    /// Finds a field by its code.
    pub fn from_code(code: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|field| field.code() == code)
    }

    const fn names(self) -> (&'static str, &'static str) {
        match self {
            Self::FootLength => ("foot-length", "foot length"),
            Self::InsoleLength => ("insole-length", "insole length"),
            Self::InsoleBall => ("insole-ball", "insole width at the ball"),
            Self::InsoleHeel => ("insole-heel", "insole width at the heel"),
            Self::ToeExtra => ("toe-extra", "extra length of the toe"),
            Self::OutsoleLength => ("outsole-length", "outsole length"),
            Self::SoleEdge => ("sole-edge", "edge of the outsole beyond the insole"),
            Self::StitchLine => ("stitch-line", "stitch line beyond the insole"),
            Self::RibInset => ("rib-inset", "rib inside the insole's edge"),
            Self::WeltJoint => ("welt-joint", "welt for its ends"),
            Self::InseamPitch => ("inseam-pitch", "pitch of the inseam"),
            Self::InseamThrough => ("inseam-through", "thickness under the inseam"),
            Self::OutsolePitch => ("outsole-pitch", "pitch of the outsole seam"),
            Self::OutsoleThrough => ("outsole-through", "thickness under the outsole seam"),
            Self::FillerDepth => ("filler-depth", "depth of the hollow"),
            Self::CorkSheet => ("cork-sheet", "cork sheet"),
            Self::InsoleThickness => ("insole-thickness", "insole thickness at the seat"),
            Self::LastPitch => ("last-pitch", "pitch of the last"),
            Self::OldSoleAtBall => ("old-sole-at-ball", "old sole at the ball"),
            Self::OldSoleAtSeat => ("old-sole-at-seat", "old sole at the seat"),
            Self::OldHeelBase => ("old-heel-base", "old heel base"),
            Self::OldTopLift => ("old-top-lift", "old top lift"),
            Self::LeftHeel => ("left-heel", "left heel as it came"),
            Self::RightHeel => ("right-heel", "right heel as it came"),
            Self::NewSoleAtBall => ("new-sole-at-ball", "new sole at the ball"),
            Self::NewSoleAtSeat => ("new-sole-at-seat", "new sole at the seat"),
            Self::NewTopLift => ("new-top-lift", "new top lift"),
            Self::Rand => ("rand", "rand or wedge under the seat"),
            Self::Lift => ("lift", "one lift"),
            Self::Sanding => ("sanding", "allowance for sanding"),
            Self::HeelLength => ("heel-length", "heel length at the seat"),
            Self::BackSet => ("back-set", "back of the heel, set in at the floor"),
            Self::BreastSet => ("breast-set", "breast of the heel, set back at the floor"),
            Self::ToeSpring => ("toe-spring", "toe spring as it came"),
            Self::NailClearance => ("nail-clearance", "clearance before a nail's point"),
        }
    }

    const fn taken(self) -> Taken {
        match self {
            Self::FootLength
            | Self::InsoleLength
            | Self::InsoleBall
            | Self::InsoleHeel
            | Self::OutsoleLength
            | Self::LastPitch
            | Self::HeelLength
            | Self::ToeExtra
            | Self::ToeSpring => Taken::Tape,
            Self::SoleEdge
            | Self::StitchLine
            | Self::RibInset
            | Self::InseamThrough
            | Self::OutsoleThrough
            | Self::FillerDepth
            | Self::InsoleThickness
            | Self::OldSoleAtBall
            | Self::OldSoleAtSeat
            | Self::OldHeelBase
            | Self::OldTopLift
            | Self::LeftHeel
            | Self::RightHeel
            | Self::NewSoleAtBall
            | Self::NewSoleAtSeat
            | Self::NewTopLift
            | Self::Rand
            | Self::BackSet
            | Self::BreastSet => Taken::Gauge,
            Self::WeltJoint
            | Self::InseamPitch
            | Self::OutsolePitch
            | Self::CorkSheet
            | Self::Lift
            | Self::Sanding
            | Self::NailClearance => Taken::Choice,
        }
    }

    /// Whether it is a decision and no measurement.
    pub const fn is_choice(self) -> bool {
        matches!(self.taken(), Taken::Choice)
    }

    /// How well it can be measured at the bench, nineteen times of twenty (common practice).
    pub const fn tolerance(self) -> Millimetres {
        Millimetres(match self.taken() {
            Taken::Tape => 1.0,
            Taken::Gauge => 0.3,
            Taken::Choice => 0.0,
        })
    }

    /// Whether it is a thickness that the trade also gives in irons and ounces.
    pub const fn is_thickness(self) -> bool {
        matches!(
            self,
            Self::InsoleThickness
                | Self::OldSoleAtBall
                | Self::OldSoleAtSeat
                | Self::OldTopLift
                | Self::NewSoleAtBall
                | Self::NewSoleAtSeat
                | Self::NewTopLift
                | Self::Rand
                | Self::Lift
                | Self::CorkSheet
        )
    }

    /// Whether it is a pitch, which may be given as so many to the inch.
    pub const fn is_pitch(self) -> bool {
        matches!(self, Self::InseamPitch | Self::OutsolePitch)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_code_is_the_name_in_json() {
        for field in Field::ALL {
            let json = serde_json::to_string(&field).unwrap();
            assert_eq!(json, format!("\"{}\"", field.code()));
            assert_eq!(Field::from_code(field.code()), Some(field));
        }
    }
}

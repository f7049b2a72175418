//! What each length usually is, and what is likely for it.
//!
//! Ranges are those of common practice (no source, where none is named); they raise a question and
//! refuse nothing.

use std::ops::RangeInclusive;

use super::Field;
use crate::bench::length::Millimetres;
use crate::bench::measure::SoleKind;

impl Field {
    /// What it usually is and within how much, by common practice; nothing where that depends on the
    /// pair or has to be measured.
    pub const fn usual(self) -> Option<(Millimetres, Millimetres)> {
        let (usual, within) = match self {
            Self::ToeExtra => (0.0, 5.0),
            Self::SoleEdge => (6.0, 2.0),
            Self::StitchLine => (3.0, 1.0),
            Self::RibInset | Self::OutsoleThrough => (8.0, 2.0),
            Self::FillerDepth | Self::InsoleThickness => (4.0, 1.0),
            Self::CorkSheet => (2.0, 0.0),
            Self::Rand => (0.0, 0.0),
            Self::Lift => (5.0, 0.0),
            Self::Sanding => (1.5, 0.0),
            Self::BackSet => (4.0, 2.0),
            Self::BreastSet => (0.0, 1.0),
            Self::ToeSpring => (10.0, 4.0),
            Self::NailClearance => (3.0, 0.0),
            Self::FootLength
            | Self::InsoleLength
            | Self::InsoleBall
            | Self::InsoleHeel
            | Self::OutsoleLength
            | Self::WeltJoint
            | Self::InseamPitch
            | Self::InseamThrough
            | Self::OutsolePitch
            | Self::LastPitch
            | Self::OldSoleAtBall
            | Self::OldSoleAtSeat
            | Self::OldHeelBase
            | Self::OldTopLift
            | Self::LeftHeel
            | Self::RightHeel
            | Self::NewSoleAtBall
            | Self::NewSoleAtSeat
            | Self::NewTopLift
            | Self::HeelLength => return None,
        };
        Some((Millimetres(usual), Millimetres(within)))
    }

    /// Millimetres that raise no question. Leather soles run from 8 to 12 irons.
    pub const fn likely(self, old_sole: SoleKind, new_sole: SoleKind) -> RangeInclusive<f64> {
        match self {
            Self::FootLength => 90.0..=330.0,
            Self::InsoleLength => 100.0..=350.0,
            Self::InsoleBall => 45.0..=120.0,
            Self::InsoleHeel => 32.0..=90.0,
            Self::ToeExtra => 0.0..=25.0,
            Self::OutsoleLength => 105.0..=375.0,
            Self::SoleEdge => 0.0..=12.0,
            Self::StitchLine => 0.0..=8.0,
            Self::RibInset => 3.0..=15.0,
            Self::WeltJoint => 0.0..=120.0,
            Self::InseamPitch => 4.0..=10.0,
            Self::InseamThrough => 3.0..=14.0,
            Self::OutsolePitch => 1.8..=6.5,
            Self::OutsoleThrough => 3.0..=20.0,
            Self::FillerDepth => 1.0..=7.0,
            Self::CorkSheet => 1.0..=6.0,
            Self::InsoleThickness => 1.5..=6.0,
            Self::LastPitch => 0.0..=90.0,
            Self::OldHeelBase => 3.0..=90.0,
            Self::OldTopLift | Self::NewTopLift => 3.0..=13.0,
            Self::LeftHeel | Self::RightHeel => 5.0..=110.0,
            Self::OldSoleAtBall | Self::OldSoleAtSeat => sole(old_sole),
            Self::NewSoleAtBall | Self::NewSoleAtSeat => sole(new_sole),
            Self::Rand => 0.0..=10.0,
            Self::Lift => 2.5..=8.0,
            Self::Sanding => 0.0..=4.0,
            Self::HeelLength => 35.0..=100.0,
            Self::BackSet => 0.0..=15.0,
            Self::BreastSet | Self::ToeSpring => 0.0..=30.0,
            Self::NailClearance => 1.0..=8.0,
        }
    }

    /// Millimetres beyond which nothing can be worked out: half or double what is likely and more.
    /// A flat pair has no heel base, and a sole may end before the seat.
    pub fn possible(self, old_sole: SoleKind, new_sole: SoleKind) -> RangeInclusive<f64> {
        let likely = self.likely(old_sole, new_sole);
        let (least, most) = likely.into_inner();
        let may_be_none = matches!(
            self,
            Self::OldHeelBase | Self::OldSoleAtSeat | Self::NewSoleAtSeat
        );
        let least = if may_be_none { 0.0 } else { least * 0.4 };
        least..=most * 4.0
    }
}

/// What is likely for a sole with its midsole; worn through under the ball it may be thin.
const fn sole(kind: SoleKind) -> RangeInclusive<f64> {
    match kind {
        SoleKind::Leather => 2.0..=7.5,
        SoleKind::Rubber => 2.0..=10.0,
        SoleKind::Lug => 4.0..=22.0,
    }
}

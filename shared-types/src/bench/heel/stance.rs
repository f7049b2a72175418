//! How a pair stands on some parts: its pitch, the slope from seat to ball, and the toe.

use serde::Serialize;

use crate::bench::figure::{Figure, Input, Recipe, Source, Unit};
use crate::bench::length::{Degrees, Millimetres};
use crate::bench::outline::BALL;

/// The middle of the heel seat, as a share of the length from the back.
pub const MID_SEAT: f64 = 0.125;

/// Where the level condition comes from.
pub(super) const LEVEL: Source = Source::Definition("a shoe that stands level on the bench");
const ROCKING: Source = Source::Model(
    "the shoe rocks about its ball, which is 70 % of its length from the back; the middle of the seat is at 12.5 %",
);

/// What stands between last and floor.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct Parts {
    /// Sole and midsole under the ball.
    pub sole_at_ball: Millimetres,
    /// Sole and midsole under the heel seat.
    pub sole_at_seat: Millimetres,
    /// Rand or wedge under the seat.
    pub rand: Millimetres,
    /// Heel base at the middle of the seat.
    pub base: Millimetres,
    /// Top lift.
    pub top_lift: Millimetres,
}

impl Parts {
    /// How much higher the seat stands than the ball.
    pub fn pitch(self) -> Millimetres {
        self.sole_at_seat + self.rand + self.base + self.top_lift - self.sole_at_ball
    }

    /// The same parts on another base.
    #[must_use]
    pub const fn on_base(self, base: Millimetres) -> Self {
        Self { base, ..self }
    }
}

/// The slope from the middle of the heel seat down to the ball, for a bottom of that length.
pub fn wedge_angle(pitch: Millimetres, length: Millimetres) -> Degrees {
    let run = length * (BALL - MID_SEAT);
    Degrees((pitch.0 / run.0).atan().to_degrees())
}

/// How much the tip of the toe rises if the pitch changes by that much: a lower heel lifts the toe.
pub fn toe_rise(pitch_change: Millimetres) -> Millimetres {
    -pitch_change * ((1.0 - BALL) / (BALL - MID_SEAT))
}

/// Which way of standing is worked out.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Case {
    /// The old parts.
    AsItCame,
    /// The new parts on the old heel base.
    OldBaseKept,
    /// The new parts on the new heel base.
    AsBuilt,
    /// The new parts on one lift fewer, with nothing sanded.
    OneLiftFewer,
}

impl Case {
    /// In words.
    pub const fn label(self) -> &'static str {
        match self {
            Self::AsItCame => "as it came",
            Self::OldBaseKept => "with the new parts on the old heel base",
            Self::AsBuilt => "as built",
            Self::OneLiftFewer => "with one lift fewer, unsanded",
        }
    }
}

/// How the pair stands on some parts.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct Stance {
    /// Which parts.
    pub case: Case,
    /// Their thicknesses.
    pub parts: Parts,
    /// The pitch as it stands.
    pub pitch: Figure,
    /// Its difference from the pitch that is wanted.
    pub change: Figure,
    /// The slope from seat to ball.
    pub wedge_angle: Figure,
    /// How much higher the tip of the toe stands than as the last was made.
    pub toe_rise: Figure,
}

impl Stance {
    /// Works out how parts with that pitch stand, against the pitch that is wanted.
    pub(super) fn work_out(
        case: Case,
        parts: Parts,
        pitch: Figure,
        wanted: Input,
        length: Input,
    ) -> Self {
        let change = Recipe {
            label: "Change of pitch",
            unit: Unit::Millimetre,
            formula: "pitch as it stands − pitch that is wanted",
            source: LEVEL,
        }
        .of([pitch.input(), wanted], |[pitch, wanted]| pitch - wanted);
        let wedge_angle = Recipe {
            label: "Wedge angle",
            unit: Unit::Degree,
            formula: "arc tangent of pitch ÷ the run from mid seat to ball, 0.575 × length",
            source: ROCKING,
        }
        .of([pitch.input(), length], |[pitch, length]| {
            wedge_angle(Millimetres(pitch), Millimetres(length)).0
        });
        let toe_rise = Recipe {
            label: "Rise of the toe",
            unit: Unit::Millimetre,
            formula: "−change of pitch × 0.30 ÷ 0.575",
            source: ROCKING,
        }
        .of([change.input()], |[change]| toe_rise(Millimetres(change)).0);
        Self {
            case,
            parts,
            pitch,
            change,
            wedge_angle,
            toe_rise,
        }
    }
}

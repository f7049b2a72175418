//! The heel as a body: how its base is cut to the slope of the seat, and the angles of its back and
//! its breast.

use serde::Serialize;

use super::stance::Parts;
use crate::bench::field::Field;
use crate::bench::figure::{Figure, Input, Recipe, Source, Unit};
use crate::bench::length::{Degrees, Millimetres};
use crate::bench::measure::Measured;
use crate::bench::outline::HEEL_BREAST;

const SLOPE: Source = Source::Published(
    "Footbed shapes for enhanced footwear comfort, Ergonomics 52(5), 2009, 617–628, abstract: 4–5° at 25 mm, 10–11° at 50 mm, 16–18° at 75 mm; straight lines between the middles",
);
const TRIANGLE: Source = Source::Definition("a right-angled triangle");

/// The heights of heels and the slopes of the seats that were found comfortable, in mm and degrees.
const SLOPES: [(f64, f64); 4] = [(0.0, 0.0), (25.0, 4.5), (50.0, 10.5), (75.0, 17.0)];
/// Beyond the study the line runs on, but no foot stands on a steeper seat than this; no source.
const STEEPEST: f64 = 40.0;
/// How much seats differ from that; an estimate, no source.
const SEATS_DIFFER: f64 = 2.0;

/// The slope of the heel seat of a last with that pitch.
pub fn seat_slope(pitch: Millimetres) -> Degrees {
    let pitch = pitch.0.max(0.0);
    let span = SLOPES
        .windows(2)
        .find(|span| matches!(span, [_, (end, _)] if pitch <= *end))
        .or_else(|| SLOPES.windows(2).last());
    match span {
        Some([(from, low), (to, high)]) => {
            let slope = low + (high - low) * (pitch - from) / (to - from);
            Degrees(slope.min(STEEPEST))
        }
        _ => Degrees(0.0),
    }
}

/// The angle at the floor, inside the heel, of a face that is so high and set in by so much: 90° if
/// it stands upright.
pub fn face_angle(height: Millimetres, set: Millimetres) -> Degrees {
    Degrees(height.0.max(0.0).atan2(set.0).to_degrees())
}

/// Slopes, angles and lengths of the new heel.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct HeelShape {
    /// Back to breast at the seat.
    pub length: Input,
    /// The slope of the seat.
    pub seat_slope: Figure,
    /// The base at its back.
    pub base_at_back: Figure,
    /// The base at its breast; below zero it runs out before.
    pub base_at_breast: Figure,
    /// The angle of the back at the floor.
    pub back_angle: Figure,
    /// The angle of the breast at the floor.
    pub breast_angle: Figure,
    /// How far the new heel's back is set in at the floor.
    pub back_set: Figure,
    /// How far the new heel's breast is set back at the floor.
    pub breast_set: Figure,
    /// The top lift, back to breast.
    pub top_lift_length: Figure,
}

impl HeelShape {
    /// Works the heel's body out. Back and breast keep the angles of the old heel, if it is known.
    pub fn work_out(
        measured: &Measured,
        insole_length: Input,
        pitch: Input,
        new: Parts,
        old: Option<Parts>,
    ) -> Self {
        let quarter = Recipe {
            label: "heel length at the seat",
            unit: Unit::Millimetre,
            formula: "a quarter of the insole's length",
            source: Source::Practice,
        }
        .of([insole_length], |[length]| HEEL_BREAST * length);
        let length = measured
            .input(Field::HeelLength)
            .unwrap_or_else(|| quarter.input().known_within(4.0));
        let seats_differ = Input::usual("how seats differ", 0.0, Unit::Degree, Source::Practice)
            .known_within(SEATS_DIFFER);
        let slope = Recipe {
            label: "Slope of the heel seat",
            unit: Unit::Degree,
            formula: "from the pitch, by the published slopes; lay a rule on the seat if it matters",
            source: SLOPE,
        }
        .of([pitch, seats_differ], |[pitch, differ]| {
            seat_slope(Millimetres(pitch)).0 + differ
        });
        let base = Input::chosen("heel base at mid seat", new.base.0, Unit::Millimetre);
        let at = |label: &'static str, formula: &'static str, sign: f64| {
            Recipe {
                label,
                unit: Unit::Millimetre,
                formula,
                source: TRIANGLE,
            }
            .of([base, length, slope.input()], |[base, length, slope]| {
                base + sign * length / 2.0 * slope.to_radians().tan()
            })
        };
        let base_at_back = at(
            "Heel base at its back",
            "heel base + half the heel's length × tangent of the seat's slope",
            1.0,
        );
        let base_at_breast = at(
            "Heel base at its breast",
            "heel base − half the heel's length × tangent of the seat's slope",
            -1.0,
        );
        let back = Face::of(
            ["Angle of the back at the floor", "Back set in at the floor"],
            measured.given(Field::BackSet),
            &Faces::new(&base_at_back, new, old),
        );
        let breast = Face::of(
            [
                "Angle of the breast at the floor",
                "Breast set back at the floor",
            ],
            measured.given(Field::BreastSet),
            &Faces::new(&base_at_breast, new, old),
        );
        let top_lift_length = Recipe {
            label: "Top lift, back to breast",
            unit: Unit::Millimetre,
            formula: "heel length × cosine of the seat's slope − what back and breast are set in",
            source: TRIANGLE,
        }
        .of(
            [length, slope.input(), back.set.input(), breast.set.input()],
            |[length, slope, back, breast]| length * slope.to_radians().cos() - back - breast,
        );
        Self {
            length,
            seat_slope: slope,
            base_at_back,
            base_at_breast,
            back_angle: back.angle,
            breast_angle: breast.angle,
            back_set: back.set,
            breast_set: breast.set,
            top_lift_length,
        }
    }
}

/// How high a face of the heel is, new and on the heel whose set was measured.
struct Faces {
    new: Input,
    measured: Input,
}

impl Faces {
    fn new(base: &Figure, new: Parts, old: Option<Parts>) -> Self {
        let height = |label, more: f64| Input {
            label,
            value: (base.value + more).max(0.1),
            ..base.input()
        };
        let new_height = height("height of that face", new.top_lift.0);
        let old_height = old.map(|old| {
            let more = old.base.0 - new.base.0 + old.top_lift.0;
            height("height of that face on the old heel", more)
        });
        Self {
            new: new_height,
            measured: old_height.unwrap_or(new_height),
        }
    }
}

/// A face's angle, and its set on the new heel.
struct Face {
    angle: Figure,
    set: Figure,
}

impl Face {
    fn of([angle_label, set_label]: [&'static str; 2], set: Input, heights: &Faces) -> Self {
        let angle = Recipe {
            label: angle_label,
            unit: Unit::Degree,
            formula: "arc tangent of the face's height ÷ what it is set in; the old heel's, if that was measured",
            source: TRIANGLE,
        }
        .of([heights.measured, set], |[height, set]| {
            face_angle(Millimetres(height), Millimetres(set)).0
        });
        let set = Recipe {
            label: set_label,
            unit: Unit::Millimetre,
            formula: "what it was set in × height of the new face ÷ height of the old one: the angle stays",
            source: TRIANGLE,
        }
        .of(
            [set, heights.new, heights.measured],
            |[set, new, old]| set * new / old.max(0.1),
        );
        Self { angle, set }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn near(what: f64, expected: f64, within: f64) {
        assert!(
            (what - expected).abs() <= within,
            "{what} is not {expected}"
        );
    }

    /// The ranges that the named study found comfortable.
    #[test]
    fn seats_slope_as_was_found_comfortable() {
        for (pitch, range) in [(25.0, 4.0..=5.0), (50.0, 10.0..=11.0), (75.0, 16.0..=18.0)] {
            assert!(range.contains(&seat_slope(Millimetres(pitch)).0), "{pitch}");
        }
        near(seat_slope(Millimetres(0.0)).0, 0.0, 0.0);
        // The last line goes on: 17 + 6.5 × 45 ÷ 25 at 120 mm, and ends where no seat is steeper.
        near(seat_slope(Millimetres(120.0)).0, 28.7, 1e-9);
        near(seat_slope(Millimetres(360.0)).0, 40.0, 0.0);
    }

    /// The triangle of sides 3, 4 and 5, and an upright face.
    #[test]
    fn a_face_s_angle_is_that_of_its_triangle() {
        near(
            face_angle(Millimetres(40.0), Millimetres(30.0)).0,
            53.130_102,
            1e-6,
        );
        near(
            face_angle(Millimetres(40.0), Millimetres(0.0)).0,
            90.0,
            1e-12,
        );
    }
}

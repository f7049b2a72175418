//! Tests of the heel: exact identities, and cases in which the parts do not fit.

use proptest::prelude::*;

use super::misfit::Misfit;
use super::stance::{Case, toe_rise, wedge_angle};
use super::*;
use crate::bench::habits::Tolerances;
use crate::bench::length::Reading;

fn near(what: f64, expected: f64, within: f64) {
    assert!(
        (what - expected).abs() <= within,
        "{what} is not {expected}"
    );
}

fn measured(lengths: &[(Field, f64)]) -> Measured {
    let reading = |(field, mm): &(Field, f64)| (*field, Reading::in_millimetres(*mm));
    Measured {
        lengths: lengths.iter().map(reading).collect(),
        ..Measured::default()
    }
}

fn heel(lengths: &[(Field, f64)]) -> HeelFigures {
    let length = Input::chosen("insole length", 285.0, Unit::Millimetre);
    match Heel::work_out(&measured(lengths), length) {
        Heel::Worked(heel) => *heel,
        Heel::Missing(fields) => unreachable!("missing {fields:?}"),
        Heel::Prescribed => unreachable!(),
    }
}

fn new_parts(pitch: f64, ball: f64, seat: f64, top: f64) -> Vec<(Field, f64)> {
    vec![
        (Field::LastPitch, pitch),
        (Field::NewSoleAtBall, ball),
        (Field::NewSoleAtSeat, seat),
        (Field::NewTopLift, top),
    ]
}

/// Pitch, sole at ball, sole at seat, top lift, lift, sanding; base, lifts, trim by hand.
#[test]
fn the_base_brings_the_pair_to_its_last_s_pitch() {
    for [pitch, ball, seat, top, lift, sanding, base, lifts, trim] in [
        [20.0, 8.0, 5.0, 6.0, 5.0, 1.5, 17.0, 4.0, 3.0],
        [25.0, 10.0, 6.0, 7.0, 5.0, 1.5, 22.0, 5.0, 3.0],
        [40.0, 9.0, 4.5, 6.0, 6.0, 2.0, 38.5, 7.0, 3.5],
        [12.0, 9.0, 5.0, 6.0, 5.0, 1.0, 10.0, 3.0, 5.0],
    ] {
        let mut lengths = new_parts(pitch, ball, seat, top);
        lengths.extend([(Field::Lift, lift), (Field::Sanding, sanding)]);
        let heel = heel(&lengths);
        near(heel.base.value, base, 1e-9);
        near(heel.lifts.value, lifts, 0.0);
        near(heel.trim.value, trim, 1e-9);
        near(heel.stance(Case::AsBuilt).unwrap().change.value, 0.0, 1e-9);
    }
}

#[test]
fn a_lift_that_would_be_sanded_away_is_left_out() {
    let mut lengths = new_parts(12.0, 9.0, 5.0, 6.0);
    lengths.extend([(Field::Lift, 5.0), (Field::Sanding, 1.0)]);
    let heel = heel(&lengths);
    let fewer = heel.stance(Case::OneLiftFewer).unwrap();
    near(fewer.parts.base.0, 10.0, 1e-9);
    near(fewer.change.value, 0.0, 1e-9);
    assert!(matches!(heel.misfits[..], [Misfit::LiftSandedAway { .. }]));
}

/// Plane trigonometry, worked out apart from this code.
#[test]
fn stance_follows_from_pitch_and_length() {
    for (length, pitch, angle) in [
        (285.0, 20.0, 6.958),
        (285.0, 25.0, 8.674),
        (253.0, 40.0, 15.374),
        (253.0, 50.0, 18.968),
    ] {
        let worked = wedge_angle(Millimetres(pitch), Millimetres(length));
        near(worked.0, angle, 0.001);
    }
    for (lower, rise) in [(2.0, 1.043), (3.0, 1.565), (5.0, 2.609)] {
        near(toe_rise(Millimetres(-lower)).0, rise, 0.001);
    }
    let tilt = wedge_angle(Millimetres(3.0), Millimetres(285.0));
    near(tilt.0, 1.049, 0.001);
}

fn old_parts(ball: f64, seat: f64, base: f64, top: f64) -> [(Field, f64); 4] {
    [
        (Field::OldSoleAtBall, ball),
        (Field::OldSoleAtSeat, seat),
        (Field::OldHeelBase, base),
        (Field::OldTopLift, top),
    ]
}

/// A sole thicker in front alone takes just that off the pitch: the commonest hidden mistake.
#[test]
fn a_half_sole_in_front_alone_lowers_the_heel() {
    let mut lengths = old_parts(8.0, 5.0, 17.0, 6.0).to_vec();
    lengths.extend([
        (Field::NewSoleAtBall, 11.5),
        (Field::NewSoleAtSeat, 5.0),
        (Field::NewTopLift, 6.0),
    ]);
    let heel = heel(&lengths);
    let kept = heel.stance(Case::OldBaseKept).unwrap();
    near(kept.change.value, -3.5, 1e-9);
    near(kept.toe_rise.value, 3.5 * 0.5217, 0.001);
    near(heel.base.value, 20.5, 1e-9);
    let off = Misfit::OldBaseOff {
        by: Millimetres(3.5),
    };
    assert!(heel.misfits.contains(&off), "{:?}", heel.misfits);
}

#[test]
fn parts_that_do_not_fit_are_named() {
    let over = heel(&new_parts(10.0, 6.0, 8.0, 12.0));
    assert_eq!(
        over.misfits,
        [
            Misfit::NoRoom {
                over: Millimetres(4.0)
            },
            Misfit::PitchOff {
                by: Millimetres(4.0),
                allowed: Millimetres(3.0)
            }
        ]
    );
    near(over.lifts.value, 0.0, 0.0);

    let far = heel(&new_parts(6.0, 6.0, 8.0, 12.0));
    assert!(matches!(far.misfits[1], Misfit::PitchFarOff { .. }));

    let thin = heel(&new_parts(15.0, 6.0, 6.0, 12.0));
    assert_eq!(
        thin.misfits,
        [Misfit::ThinBase {
            base: Millimetres(3.0),
            lift: Millimetres(5.0)
        }]
    );
}

#[test]
fn left_and_right_may_differ_by_a_millimetre_and_no_more() {
    let differs = |left, right| {
        let mut lengths = new_parts(25.0, 10.0, 6.0, 7.0);
        lengths.extend([(Field::LeftHeel, left), (Field::RightHeel, right)]);
        heel(&lengths).misfits
    };
    assert_eq!(differs(30.0, 31.0), []);
    assert!(matches!(differs(30.0, 31.5)[..], [Misfit::Uneven { .. }]));
}

/// By hand: with 3 mm of rand under the seat, 20 + 8 − 5 − 3 − 6 is 14 mm.
#[test]
fn a_rand_under_the_seat_lowers_the_base() {
    let mut lengths = new_parts(20.0, 8.0, 5.0, 6.0);
    lengths.push((Field::Rand, 3.0));
    near(heel(&lengths).base.value, 14.0, 1e-9);
}

/// By hand: a seat of 71 mm that slopes by the 10.5° of the study at a pitch of 50 mm is 69.811 mm on the
/// floor, less 5 and 2 mm.
#[test]
fn a_top_lift_is_as_long_as_the_heel_at_the_floor() {
    let mut lengths = new_parts(50.0, 6.0, 4.0, 6.0);
    lengths.extend([
        (Field::HeelLength, 71.0),
        (Field::BackSet, 5.0),
        (Field::BreastSet, 2.0),
    ]);
    near(heel(&lengths).shape.top_lift_length.value, 62.811, 0.001);
}

/// A shop's own tolerances, not ours: by hand, 4 mm off is felt at 3 mm and too much at 3.5 mm.
#[test]
fn tolerances_are_the_shop_s() {
    let with = |tolerances| {
        let mut lengths = new_parts(10.0, 6.0, 8.0, 12.0);
        lengths.extend([(Field::LeftHeel, 30.0), (Field::RightHeel, 31.5)]);
        let measured = Measured {
            tolerances,
            ..measured(&lengths)
        };
        let length = Input::chosen("insole length", 285.0, Unit::Millimetre);
        let worked = Heel::work_out(&measured, length);
        worked.misfits()[1..].to_vec()
    };
    let usual = Tolerances::default();
    assert!(matches!(
        with(usual)[..],
        [Misfit::PitchOff { .. }, Misfit::Uneven { .. }]
    ));
    let strict = Tolerances {
        pitch_stops: Millimetres(3.5),
        level: Millimetres(2.0),
        ..usual
    };
    assert!(matches!(with(strict)[..], [Misfit::PitchFarOff { .. }]));
}

#[test]
fn a_prescribed_difference_is_never_worked_out() {
    let measured = Measured {
        stand: Stand::Prescribed,
        ..measured(&new_parts(25.0, 10.0, 6.0, 7.0))
    };
    let length = Input::chosen("insole length", 285.0, Unit::Millimetre);
    assert_eq!(Heel::work_out(&measured, length), Heel::Prescribed);
}

#[test]
fn what_is_missing_for_the_heel_is_said() {
    let length = Input::chosen("insole length", 285.0, Unit::Millimetre);
    let known = measured(&[(Field::NewTopLift, 6.0)]);
    assert_eq!(
        Heel::work_out(&known, length),
        Heel::Missing(vec![
            Field::NewSoleAtBall,
            Field::NewSoleAtSeat,
            Field::LastPitch
        ])
    );
}

#[test]
fn a_lower_heel_keeps_the_angle_of_its_back() {
    let mut lengths = old_parts(8.0, 6.0, 25.0, 6.0).to_vec();
    lengths.extend(new_parts(29.0, 12.0, 8.0, 12.0));
    lengths.push((Field::BackSet, 5.0));
    let shape = heel(&lengths).shape;
    let angle = |set: f64, height: f64| height.atan2(set).to_degrees();
    let new_height = shape.base_at_back.value + 12.0;
    near(
        angle(shape.back_set.value, new_height),
        shape.back_angle.value,
        1e-9,
    );
    near(
        shape.base_at_back.value - shape.base_at_breast.value,
        shape.length.value * shape.seat_slope.value.to_radians().tan(),
        1e-9,
    );
}

proptest! {
    #[test]
    fn a_base_that_fits_always_brings_the_pitch_back(
        pitch in 5.0_f64..60.0, ball in 3.0_f64..14.0, seat in 2.0_f64..10.0, top in 3.0_f64..13.0,
    ) {
        let heel = heel(&new_parts(pitch, ball, seat, top));
        let built = heel.stance(Case::AsBuilt).unwrap();
        if heel.base.value >= 0.0 {
            prop_assert!(built.change.value.abs() < 1e-9);
            prop_assert!((built.parts.pitch().0 - pitch).abs() < 1e-9);
            prop_assert!(heel.trim.value >= 1.5 - 0.006);
            prop_assert!(heel.trim.value < 1.5 + 5.0);
        } else {
            prop_assert!(built.change.value > 0.0);
        }
    }
}

/// The demo's thick sole, by hand: 4 mm more under the ball and 6 mm more under the top lift leave a
/// base that is 2 mm lower, and the pitch stays.
#[test]
fn a_thicker_sole_and_top_lift_shorten_the_base_and_keep_the_pitch() {
    let heel = heel(&[
        (Field::OldSoleAtBall, 5.0),
        (Field::OldSoleAtSeat, 5.0),
        (Field::OldHeelBase, 24.0),
        (Field::OldTopLift, 6.0),
        (Field::NewSoleAtBall, 9.0),
        (Field::NewSoleAtSeat, 5.0),
        (Field::NewTopLift, 12.0),
    ]);
    let against = heel.against_old.as_ref().unwrap();
    near(against.value, -2.0, 1e-9);
    // Eight thicknesses, each within 0.3 mm: 0.3 × √8 = 0.85.
    near(against.within, 0.848_528, 1e-6);
    assert_eq!(against.amount(), "−2 ± 0.8 mm");
    near(heel.stance(Case::AsBuilt).unwrap().change.value, 0.0, 1e-9);
}

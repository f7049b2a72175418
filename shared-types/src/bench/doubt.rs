//! Measurements that can hardly be right, each questioned at its field.
//!
//! A doubt refuses nothing: whoever has looked again confirms the field, and it is quiet. Only what
//! nothing can be worked out from is refused.

use serde::Serialize;

use super::field::Field;
use super::insole::Insole;
use super::length::{LengthUnit, Millimetres, Reading, plain};
use super::measure::{Measured, Stand};

/// A question about one field.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct Doubt {
    /// The field.
    pub field: Field,
    /// The question, to stand beside it.
    pub words: String,
}

impl Doubt {
    fn new(field: Field, words: String) -> Self {
        Self { field, words }
    }
}

/// What can't be: nothing is worked out until it is mended.
pub fn impossible(measured: &Measured) -> Vec<Doubt> {
    let mut found = Vec::new();
    for (&field, &reading) in &measured.lengths {
        let length = reading.millimetres();
        if reading.unit() == LengthUnit::PerInch && !field.is_pitch() {
            let words = format!(
                "{} is a pitch of stitches. Write a length here.",
                reading.words()
            );
            found.push(Doubt::new(field, words));
        } else if !field
            .possible(measured.old_sole, measured.new_sole)
            .contains(&length.0)
        {
            let written = written(reading);
            let words = format!("{written} can't be: {}", range_words(measured, field));
            let words = format!("{words}. {}", meant_words(measured, field, reading));
            found.push(Doubt::new(field, words));
        }
    }
    found.extend(toe_beyond_its_insole(measured));
    found
}

/// A toe that would leave no foot behind it.
fn toe_beyond_its_insole(measured: &Measured) -> Option<Doubt> {
    let toe = measured.length(Field::ToeExtra)?;
    let insole = measured.length(Field::InsoleLength)?;
    (toe.0 * 2.0 > insole.0).then(|| {
        let words = format!(
            "A toe can't make an insole of {insole} longer by {toe}. Write only what it adds beyond the usual."
        );
        Doubt::new(Field::ToeExtra, words)
    })
}

/// What should be looked at again, without the fields that were.
pub fn doubts(measured: &Measured) -> Vec<Doubt> {
    let mut found: Vec<Doubt> = measured
        .lengths
        .iter()
        .filter_map(|(&field, &reading)| unlikely(measured, field, reading))
        .collect();
    found.extend(sole_against_insole(measured));
    found.extend(insole_against_size(measured));
    found.extend(widths(measured));
    found.extend(top_lift_against_sole(measured));
    found.retain(|doubt| !measured.confirmed.contains(&doubt.field));
    found
}

/// A length outside what is likely; a thickness may have been meant in another unit.
fn unlikely(measured: &Measured, field: Field, reading: Reading) -> Option<Doubt> {
    let likely = field.likely(measured.old_sole, measured.new_sole);
    let length = reading.millimetres();
    if likely.contains(&length.0) {
        return None;
    }
    let range = range_words(measured, field);
    let meant = meant_words(measured, field, reading);
    let words = format!("{}? {range}. {meant}", written(reading));
    Some(Doubt::new(field, words))
}

/// As it was written, with its millimetres.
fn written(reading: Reading) -> String {
    let length = reading.millimetres();
    match reading.unit() {
        LengthUnit::Millimetre => length.to_string(),
        LengthUnit::Centimetre
        | LengthUnit::Inch
        | LengthUnit::Iron
        | LengthUnit::Ounce
        | LengthUnit::PerInch => format!("{} ({length})", reading.words()),
    }
}

/// The same number in the units in which it would be likely, if there are any.
fn meant_words(measured: &Measured, field: Field, reading: Reading) -> String {
    let likely = field.likely(measured.old_sole, measured.new_sole);
    let others = [
        LengthUnit::Iron,
        LengthUnit::Millimetre,
        LengthUnit::PerInch,
        LengthUnit::Centimetre,
        LengthUnit::Inch,
    ];
    let meant: Vec<String> = others
        .into_iter()
        .filter(|unit| *unit != reading.unit() && field.units().contains(unit))
        .map(|unit| reading.taken_as(unit))
        .filter(|meant| likely.contains(&meant.millimetres().0))
        .map(|meant| {
            if meant.unit() == LengthUnit::Millimetre {
                meant.words()
            } else {
                format!("{}, which is {}", meant.words(), meant.millimetres())
            }
        })
        .collect();
    if meant.is_empty() {
        "Please measure again.".to_owned()
    } else {
        format!("Did you mean {}?", meant.join(", or "))
    }
}

fn range_words(measured: &Measured, field: Field) -> String {
    let (least, most) = field
        .likely(measured.old_sole, measured.new_sole)
        .into_inner();
    let label = field.label();
    let (least, most) = (plain(least), plain(most));
    format!("{label} is usually {least} to {most} mm")
}

/// An outsole stands a little proud of its insole at either end.
fn sole_against_insole(measured: &Measured) -> Option<Doubt> {
    let outsole = measured.length(Field::OutsoleLength)?;
    let insole = measured.length(Field::InsoleLength).or_else(|| {
        let estimate = Insole::of(measured)?.length;
        // The size alone tells the insole's length only so well.
        let longest = Millimetres(estimate.value + estimate.within);
        (outsole > longest).then_some(longest)
    })?;
    let longer = outsole - insole;
    let words = if longer.0 < 0.0 {
        format!(
            "The outsole is {} shorter than its insole. One of them was measured wrong.",
            longer.size()
        )
    } else if longer.0 > 25.0 {
        format!(
            "The outsole is {longer} longer than its insole; usually it is 6 to 20 mm. Measure both in a straight line, heel to toe."
        )
    } else {
        return None;
    };
    Some(Doubt::new(Field::OutsoleLength, words))
}

/// The insole against the size that is stamped.
fn insole_against_size(measured: &Measured) -> Option<Doubt> {
    let size = measured.size?;
    let length = measured.length(Field::InsoleLength)?;
    let mut by_size = Measured::of_size(size.0);
    by_size.wearer = measured.wearer;
    by_size.lengths = measured
        .lengths
        .iter()
        .filter(|(field, _)| **field == Field::ToeExtra)
        .map(|(field, reading)| (*field, *reading))
        .collect();
    let expected = Insole::of(&by_size)?.length;
    let expected_length = Millimetres(expected.value);
    let apart = length - expected_length;
    (apart.size().0 > 1.5 * expected.within.max(8.0)).then(|| {
        let words = format!(
            "Size {} has an insole of about {}; this one is {} {}. Check the size, its system, or the tape.",
            size.0,
            Millimetres(expected_length.0.round()),
            Millimetres(apart.size().0.round()),
            if apart.0 > 0.0 { "longer" } else { "shorter" },
        );
        Doubt::new(Field::InsoleLength, words)
    })
}

/// Widths against the length and against each other (proportions of ANSUR II, widened).
fn widths(measured: &Measured) -> Vec<Doubt> {
    let mut found = Vec::new();
    let ball = measured.length(Field::InsoleBall);
    if let (Some(ball), Some(length)) = (ball, measured.length(Field::InsoleLength)) {
        let share = ball.0 / length.0;
        if !(0.25..=0.42).contains(&share) {
            let words = format!(
                "A width of {ball} on a length of {length} is {} %; 28 to 38 % is usual.",
                plain(100.0 * share)
            );
            found.push(Doubt::new(Field::InsoleBall, words));
        }
    }
    if let (Some(ball), Some(heel)) = (ball, measured.length(Field::InsoleHeel))
        && !(0.55..=0.9).contains(&(heel.0 / ball.0))
    {
        let words = format!(
            "A heel of {heel} beside a ball of {ball}: the heel is usually 65 to 80 % as wide. Were the two exchanged?"
        );
        found.push(Doubt::new(Field::InsoleHeel, words));
    }
    found
}

/// The old heel, measured whole, against its parts; a lift on prescription is no part of either.
fn top_lift_against_sole(measured: &Measured) -> Vec<Doubt> {
    if measured.stand == Stand::Prescribed {
        return Vec::new();
    }
    let (Some(base), Some(top)) = (
        measured.length(Field::OldHeelBase),
        measured.length(Field::OldTopLift),
    ) else {
        return Vec::new();
    };
    let whole = base + top;
    let differs = |field: Field| {
        let heel = measured.length(field)?;
        let apart = heel - whole;
        // Wear takes some millimetres off a heel, and never adds any.
        (!(-8.0..=2.0).contains(&apart.0)).then(|| {
            let words = format!(
                "Base and top lift make {whole}, but this heel was measured at {heel}. Was the sole measured with it?"
            );
            Doubt::new(field, words)
        })
    };
    [Field::LeftHeel, Field::RightHeel]
        .into_iter()
        .filter_map(differs)
        .collect()
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::bench::measure::{SoleKind, StampedSize};
    use crate::size::{ShoeSize, SizeSystem};

    fn measured(lengths: &[(Field, &str)]) -> Measured {
        let reading = |(field, text): &(Field, &str)| (*field, Reading::parse(text).unwrap());
        Measured {
            lengths: lengths.iter().map(reading).collect(),
            ..Measured::default()
        }
    }

    fn doubted(measured: &Measured) -> Vec<Field> {
        doubts(measured).iter().map(|doubt| doubt.field).collect()
    }

    #[test]
    fn a_sole_40_mm_longer_than_its_insole_is_questioned() {
        let pair = measured(&[(Field::InsoleLength, "285"), (Field::OutsoleLength, "325")]);
        let doubts = doubts(&pair);
        assert_eq!(doubts[0].field, Field::OutsoleLength);
        assert!(doubts[0].words.contains("40 mm longer"), "{doubts:?}");
        let fine = measured(&[(Field::InsoleLength, "285"), (Field::OutsoleLength, "297")]);
        assert_eq!(doubted(&fine), []);
        let short = measured(&[(Field::InsoleLength, "285"), (Field::OutsoleLength, "280")]);
        assert_eq!(doubted(&short), [Field::OutsoleLength]);
    }

    #[test]
    fn irons_typed_as_millimetres_are_questioned_with_what_may_be_meant() {
        let doubts = doubts(&measured(&[(Field::NewSoleAtBall, "9")]));
        assert_eq!(
            doubts[0].words,
            "9 mm? new sole at the ball is usually 2 to 7.5 mm. Did you mean 9 iron, which is 4.8 mm?"
        );
        let doubts = super::doubts(&measured(&[(Field::NewSoleAtBall, "3 iron")]));
        assert!(doubts[0].words.contains("Did you mean 3 mm?"), "{doubts:?}");
        let mut lugs = measured(&[(Field::NewSoleAtBall, "9")]);
        lugs.new_sole = SoleKind::Lug;
        assert_eq!(doubted(&lugs), []);
    }

    #[test]
    fn stitches_to_the_inch_typed_as_millimetres_are_questioned() {
        let doubts = doubts(&measured(&[(Field::OutsolePitch, "9")]));
        assert!(doubts[0].words.contains("9 per inch"), "{doubts:?}");
        assert_eq!(doubted(&measured(&[(Field::OutsolePitch, "9 spi")])), []);
    }

    #[test]
    fn the_insole_is_held_against_the_size() {
        let mut pair = measured(&[(Field::InsoleLength, "250")]);
        pair.size = Some(StampedSize(ShoeSize::parse(SizeSystem::Eu, "44").unwrap()));
        assert_eq!(doubted(&pair), [Field::InsoleLength]);
        pair.lengths
            .insert(Field::InsoleLength, Reading::in_millimetres(293.0));
        assert_eq!(doubted(&pair), []);
    }

    #[test]
    fn exchanged_widths_and_a_heel_with_its_sole_are_questioned() {
        let pair = measured(&[
            (Field::InsoleBall, "65"),
            (Field::InsoleHeel, "88"),
            (Field::OldHeelBase, "25"),
            (Field::OldTopLift, "6"),
            (Field::LeftHeel, "38"),
            (Field::RightHeel, "30"),
        ]);
        assert_eq!(doubted(&pair), [Field::InsoleHeel, Field::LeftHeel]);
        let lifted = Measured {
            stand: Stand::Prescribed,
            ..pair
        };
        assert_eq!(doubted(&lifted), [Field::InsoleHeel]);
    }

    #[test]
    fn a_field_that_was_looked_at_again_is_quiet() {
        let mut pair = measured(&[(Field::NewSoleAtBall, "9")]);
        pair.confirmed.insert(Field::NewSoleAtBall);
        assert_eq!(doubted(&pair), []);
    }

    #[test]
    fn a_toe_that_leaves_no_foot_is_refused() {
        let refused = impossible(&measured(&[
            (Field::InsoleLength, "100"),
            (Field::ToeExtra, "60"),
        ]));
        assert_eq!(refused[0].field, Field::ToeExtra);
        let long = measured(&[(Field::InsoleLength, "310"), (Field::ToeExtra, "25")]);
        assert_eq!(impossible(&long), []);
    }

    #[test]
    fn a_flat_pair_without_a_heel_base_is_asked_about_and_not_refused() {
        let flat = measured(&[(Field::OldHeelBase, "0"), (Field::NewSoleAtSeat, "0")]);
        assert_eq!(impossible(&flat), []);
        assert_eq!(doubted(&flat), [Field::OldHeelBase, Field::NewSoleAtSeat]);
    }

    #[test]
    fn what_cannot_be_is_told_with_what_may_be_meant() {
        let said = |field, text| impossible(&measured(&[(field, text)]))[0].words.clone();
        assert_eq!(
            said(Field::InsoleLength, "28.5"),
            "28.5 mm can't be: insole length is usually 100 to 350 mm. Did you mean 28.5 cm, which is 285 mm?"
        );
        assert!(said(Field::InsoleLength, "11 1/4").ends_with(
            "Did you mean 11.25 cm, which is 112.5 mm, or 11.25 in, which is 285.8 mm?"
        ));
        assert!(said(Field::InsoleBall, "1/3 in").starts_with("0.3333 in (8.5 mm) can't be"));
        assert!(said(Field::Lift, "90").ends_with("Please measure again."));
    }

    #[test]
    fn a_metre_of_insole_is_refused() {
        let refused = impossible(&measured(&[(Field::InsoleLength, "285 cm")]));
        assert_eq!(refused[0].field, Field::InsoleLength);
        let refused = impossible(&measured(&[(Field::InsoleLength, "9 spi")]));
        assert!(refused[0].words.contains("pitch"), "{refused:?}");
    }

    proptest! {
        #[test]
        fn what_is_likely_is_never_questioned_alone(index in 0_usize..35, share in 0.0_f64..=1.0) {
            let field = Field::ALL[index];
            let (least, most) = field
                .likely(SoleKind::default(), SoleKind::default())
                .into_inner();
            let mut pair = Measured::default();
            let length = least + share * (most - least);
            pair.lengths.insert(field, Reading::in_millimetres(length));
            prop_assert_eq!(doubts(&pair), vec![]);
            prop_assert_eq!(impossible(&pair), vec![]);
        }
    }
}

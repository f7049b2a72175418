//! Tests of the whole sheet: what it says of a size alone, and that nothing that can be makes nonsense.

use proptest::prelude::{ProptestConfig, Strategy, any, prop_assert, prop_assert_eq, proptest};

use super::*;
use crate::bench::drawing::plan::plan;
use crate::bench::drawing::side::side_view;
use crate::bench::figure::Figure;
use crate::bench::length::Reading;
use crate::bench::measure::{FillerRun, SeamChoice, SoleKind};
use crate::bench::sizing::Wearer;
use crate::bench::take_off::TakeOffs;
use crate::bench::thread::Stitch;
use crate::size::{ShoeSize, SizeSystem};

#[test]
fn a_size_alone_gives_everything_but_the_heel() {
    let size = ShoeSize::parse(SizeSystem::UsMen, "9").unwrap();
    let sheet = BenchSheet::work_out(&Measured::of_size(size)).unwrap();
    assert!(sheet.welt.is_some() && sheet.inseam.is_some());
    assert!(matches!(sheet.heel, Heel::Missing(_)));
    assert_eq!(sheet.doubts, []);
    for section in sheet.sections() {
        for figure in section.figures {
            assert!(figure.value.is_finite() && figure.within.is_finite());
            assert!(!figure.formula.is_empty() && !figure.inputs.is_empty());
        }
    }
}

#[test]
fn nothing_to_go_by_and_what_cannot_be_are_refused() {
    let nothing = Measured::default();
    assert_eq!(
        BenchSheet::work_out(&nothing),
        Err(SheetProblem::NothingToGoBy)
    );
    let mut absurd = Measured::default();
    absurd
        .lengths
        .insert(Field::InsoleLength, Reading::in_millimetres(28.5));
    let problem = BenchSheet::work_out(&absurd).unwrap_err();
    assert!(matches!(problem, SheetProblem::Impossible(_)));
}

#[test]
fn a_cemented_pair_has_no_seams() {
    let size = ShoeSize::parse(SizeSystem::Eu, "38").unwrap();
    let measured = Measured {
        welt: WeltRun::None,
        outsole_seam: None,
        ..Measured::of_size(size)
    };
    let sheet = BenchSheet::work_out(&measured).unwrap();
    assert!(sheet.welt.is_none() && sheet.inseam.is_none() && sheet.outsole_seam.is_none());
}

/// By numeric integration (mpmath) of a man's foot of 270 mm: 467.909 mm of inseam at the hand's 4 to the
/// inch are 74 holes, at a machine's 5 they are 93 stitches; the outsole's 477.333 mm at 11 and 9 to the
/// inch are 207 and 170; a seam through the insole, 8 mm inside, 442.776 mm at 5, takes 88.
#[test]
fn each_stitch_has_its_own_usual_pitch_and_line() {
    let stitches = |stitch| {
        let measured = Measured {
            wearer: Some(Wearer::Man),
            inseam: Some(SeamChoice::inseam_by(stitch)),
            outsole_seam: Some(SeamChoice::outsole_by(stitch)),
            lengths: [(Field::FootLength, Reading::in_millimetres(270.0))].into(),
            ..Measured::default()
        };
        let sheet = BenchSheet::work_out(&measured).unwrap();
        [sheet.inseam, sheet.outsole_seam]
            .map(|seam| Unit::Count.number(seam.unwrap().stitches.value))
    };
    assert_eq!(stitches(Stitch::Hand), ["74", "207"]);
    assert_eq!(stitches(Stitch::Lock), ["93", "170"]);
    assert_eq!(stitches(Stitch::Chain), ["93", "88"]);
}

/// Every length that can be, in any choice of fields.
fn any_lengths() -> impl Strategy<Value = Vec<Option<f64>>> {
    let share = proptest::option::weighted(0.6, 0.0_f64..=1.0);
    proptest::collection::vec(share, Field::ALL.len())
}

fn said(figure: &Figure) -> String {
    let inputs = figure.inputs.iter().map(ToString::to_string);
    let amounts = std::iter::once(figure.amount()).chain(inputs);
    amounts.collect::<Vec<_>>().join("; ")
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(40))]

    #[test]
    fn whatever_can_be_measured_has_a_sheet_of_plain_numbers(
        shares in any_lengths(), size in 0_usize..SizeSystem::ALL.len(), share in 0.0_f64..=1.0,
        (welt, seam, lug, forepart, has_size) in
            (0_usize..3, 0_usize..4, any::<bool>(), any::<bool>(), any::<bool>()),
    ) {
        let system = SizeSystem::ALL[size];
        let (least, most) = system.halves();
        let halves = f64::from(least) + share * f64::from(most - least);
        let size = ShoeSize::parse(system, &format!("{:.1}", halves.round() / 2.0)).unwrap();
        let stitch = [None, Some(Stitch::Chain), Some(Stitch::Lock), Some(Stitch::Hand)][seam];
        let mut measured = Measured {
            welt: [WeltRun::None, WeltRun::BreastToBreast, WeltRun::AllRound][welt],
            inseam: stitch.map(SeamChoice::inseam_by),
            outsole_seam: stitch.map(SeamChoice::outsole_by),
            new_sole: if lug { SoleKind::Lug } else { SoleKind::Leather },
            filler: if forepart { FillerRun::Forepart } else { FillerRun::Whole },
            ..Measured::of_size(size)
        };
        if !has_size {
            measured.size = None;
            measured.lengths.insert(Field::InsoleLength, Reading::in_millimetres(250.0));
        }
        for (field, share) in Field::ALL.into_iter().zip(shares) {
            let Some(share) = share else { continue };
            let (least, most) = field.possible(measured.old_sole, measured.new_sole).into_inner();
            let length = least + share * (most - least);
            measured.lengths.insert(field, Reading::in_millimetres(length.clamp(least, most)));
        }
        if !impossible(&measured).is_empty() {
            measured.lengths.remove(&Field::ToeExtra);
        }
        let sheet = BenchSheet::work_out(&measured).unwrap();
        for section in sheet.sections() {
            for figure in section.figures {
                prop_assert!(figure.value.is_finite() && figure.within.is_finite(), "{}", said(figure));
                let words = said(figure);
                let is_nonsense = ["NaN", "inf ", "-0", "−0 "].iter().any(|bad| words.contains(bad));
                prop_assert!(!is_nonsense, "{} {words}", figure.label);
                let may_be_below_zero = matches!(figure.unit, Unit::Millimetre | Unit::Degree);
                prop_assert!(may_be_below_zero || figure.value >= 0.0, "{} {words}", figure.label);
            }
        }
        prop_assert!(TakeOffs::of_measured(&measured).is_some());
        let drawings = [Some(plan(&measured, &sheet)), side_view(&measured, &sheet)];
        for drawing in drawings.into_iter().flatten() {
            let svg = drawing.svg(2.5);
            prop_assert!(!svg.contains("NaN") && !svg.contains("inf"), "{svg}");
        }
        // The sheet's JSON can be written, and the measurements come back as they were.
        prop_assert!(serde_json::to_string(&sheet).is_ok());
        let json = serde_json::to_string(&measured).unwrap();
        prop_assert_eq!(serde_json::from_str::<Measured>(&json).unwrap(), measured);
    }
}

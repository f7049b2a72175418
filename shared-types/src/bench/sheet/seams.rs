//! The seams of a pair: where they run, and what is usual for them.

use crate::bench::field::Field;
use crate::bench::figure::{Input, Unit};
use crate::bench::habits::share_of_waste;
use crate::bench::length::INCH;
use crate::bench::measure::{Measured, SeamChoice};
use crate::bench::sole::SoleFigures;
use crate::bench::thread::{Seam, SeamFigures, Stitch};
use crate::bench::welt::WeltRun;

/// Usual pitches, as stitches to the inch, and thicknesses: common practice.
pub(in crate::bench) fn inseam(
    measured: &Measured,
    choice: SeamChoice,
    length: Input,
) -> SeamFigures {
    let (per_inch, through) = match choice.stitch {
        Stitch::Chain | Stitch::Lock => (5.0, 6.0),
        Stitch::Hand => (4.0, 9.0),
    };
    seam(
        measured,
        choice,
        length,
        measured.input_or(Field::InseamPitch, INCH / per_inch, 0.0),
        measured.input_or(Field::InseamThrough, through, 1.0),
    )
}

/// A chain stitch goes through sole and insole, inside the rib's line; the others lie on the welt.
pub(in crate::bench) fn outsole(
    measured: &Measured,
    choice: SeamChoice,
    sole: &SoleFigures,
) -> SeamFigures {
    let all_round = measured.welt == WeltRun::AllRound;
    let outside = measured.given(Field::StitchLine);
    let (per_inch, distance) = match choice.stitch {
        Stitch::Chain => {
            let inset = measured.given(Field::RibInset);
            let inside = Input {
                value: -inset.value,
                ..inset
            };
            (5.0, inside)
        }
        Stitch::Lock => (9.0, outside),
        Stitch::Hand => (11.0, outside),
    };
    seam(
        measured,
        choice,
        sole.stitch_line(all_round, distance),
        measured.input_or(Field::OutsolePitch, INCH / per_inch, 0.0),
        measured.given(Field::OutsoleThrough),
    )
}

fn seam(
    measured: &Measured,
    choice: SeamChoice,
    length: Input,
    pitch: Input,
    through: Input,
) -> SeamFigures {
    Seam {
        stitch: choice.stitch,
        length,
        pitch,
        through,
        tex: Input::chosen("tex", f64::from(choice.tex), Unit::Tex),
        waste: share_of_waste(measured.waste.thread),
    }
    .work_out()
}

//! What fills the hollow between insole and outsole: cork or paste, and the shank.

use serde::Serialize;

use super::field::Field;
use super::figure::{Figure, Input, Recipe, Source, Unit};
use super::habits::share_of_waste;
use super::insole::Insole;
use super::length::Millimetres;
use super::measure::{FillerRun, Measured};
use super::outline::HEEL_BREAST;
use super::sole::area_ahead_mm2;

/// Where the forepart begins, as a share of the length from the back.
const FOREPART: f64 = 0.62;
/// From inside the heel seat to the line where the foot bends, as a share of the length.
const SHANK_SHARE: f64 = 0.48;
/// What a shank ends before that line: it must never cross it.
const SHORT_OF_FLEX: f64 = 15.0;
/// What a cover is longer than its shank.
const COVER_MORE: f64 = 20.0;

/// The number of sheets that fill a depth.
pub fn layers(depth: Millimetres, sheet: Millimetres) -> f64 {
    // A thousandth of a sheet is no sheet, only how numbers are stored.
    (depth.0 / sheet.0 - 0.001).ceil().max(1.0)
}

/// The filler's figures, for one shoe unless they say otherwise.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct FillerFigures {
    /// The hollow's area.
    pub hollow: Figure,
    /// The hollow's volume: paste to take.
    pub volume: Figure,
    /// Layers of cork sheet.
    pub layers: Figure,
    /// What is sanded off the last layer.
    pub sanded_off: Figure,
    /// Cork sheet to take for the pair.
    pub sheet_for_pair: Figure,
}

impl FillerFigures {
    /// Works the filler out.
    pub fn work_out(measured: &Measured, insole: &Insole) -> Self {
        let inset = measured.given(Field::RibInset);
        let (from, formula) = match measured.filler {
            FillerRun::Whole => (
                HEEL_BREAST,
                "the insole ahead of the heel breast, inside the rib",
            ),
            FillerRun::Forepart => (
                FOREPART,
                "the insole ahead of the waist (62 % of its length), inside the rib",
            ),
        };
        let hollow = insole.figure_with(
            inset,
            Recipe {
                label: "Hollow",
                unit: Unit::SquareCentimetre,
                formula,
                source: Source::Model(
                    "the outline of the insole, drawn in by the rib (Steiner's formula)",
                ),
            },
            |bottom, inset| (area_ahead_mm2(bottom, from, -inset) / 100.0).max(0.0),
        );
        let depth = measured.given(Field::FillerDepth);
        let sheet = measured.given(Field::CorkSheet);
        Self::of_hollow(hollow, depth, sheet, share_of_waste(measured.waste.cork))
    }

    fn of_hollow(hollow: Figure, depth: Input, sheet: Input, waste: Input) -> Self {
        let volume = Recipe {
            label: "Volume, each shoe",
            unit: Unit::CubicCentimetre,
            formula: "hollow × depth",
            source: Source::Definition("a flat hollow of even depth"),
        }
        .of([hollow.input(), depth], |[area, depth]| area * depth / 10.0);
        let layers_figure = Recipe {
            label: "Layers of cork sheet",
            unit: Unit::Count,
            formula: "depth ÷ sheet, rounded up",
            source: Source::Definition("a division"),
        }
        .of(
            [
                Input {
                    within: 0.0,
                    ..depth
                },
                sheet,
            ],
            |[depth, sheet]| layers(Millimetres(depth), Millimetres(sheet)),
        );
        let sanded_off = Recipe {
            label: "Sanded off the last layer",
            unit: Unit::Millimetre,
            formula: "layers × sheet − depth",
            source: Source::Definition("what stands proud"),
        }
        .of(
            [layers_figure.input(), sheet, depth],
            |[layers, sheet, depth]| layers * sheet - depth,
        );
        let sheet_for_pair = Recipe {
            label: "Cork sheet, the pair",
            unit: Unit::SquareCentimetre,
            formula: "2 × layers × hollow × (1 + waste)",
            source: Source::Practice,
        }
        .of(
            [layers_figure.input(), hollow.input(), waste],
            |[layers, area, waste]| 2.0 * layers * area * (1.0 + waste),
        );
        Self {
            hollow,
            volume,
            layers: layers_figure,
            sanded_off,
            sheet_for_pair,
        }
    }
}

/// A shank's figures.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct ShankFigures {
    /// Its length.
    pub length: Figure,
    /// The length of its cover.
    pub cover: Figure,
}

impl ShankFigures {
    /// Works the shank out.
    pub fn work_out(insole: &Insole) -> Self {
        let length = Recipe {
            label: "Shank",
            unit: Unit::Millimetre,
            formula: "0.48 × insole length − 15 mm: from inside the seat to 15 mm behind the line where the foot bends, which it must never cross",
            source: Source::Model("set to the customary sizes of some 95 to 125 mm"),
        }
        .of([insole.length], |[length]| {
            (SHANK_SHARE * length - SHORT_OF_FLEX).max(0.0)
        });
        let cover = Recipe {
            label: "Shank cover, 35 to 45 mm wide",
            unit: Unit::Millimetre,
            formula: "shank + 20 mm",
            source: Source::Practice,
        }
        .of([length.input()], |[shank]| shank + COVER_MORE);
        Self { length, cover }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::bench::length::Reading;
    use crate::bench::sizing::Wearer;

    fn near(what: f64, expected: f64, within: f64) {
        assert!(
            (what - expected).abs() <= within,
            "{what} is not {expected}"
        );
    }

    fn filled(area: f64, depth: f64, sheet: f64) -> FillerFigures {
        let mm = |label, value| Input::chosen(label, value, Unit::Millimetre);
        let hollow = Recipe {
            label: "Hollow",
            unit: Unit::SquareCentimetre,
            formula: "",
            source: Source::Practice,
        }
        .of([], |[]| area);
        FillerFigures::of_hollow(
            hollow,
            mm("depth", depth),
            mm("sheet", sheet),
            share_of_waste(15),
        )
    }

    /// Round numbers by hand.
    #[test]
    fn sheets_are_counted_up_and_sanded_back() {
        let filler = filled(110.0, 3.0, 2.0);
        near(filler.layers.value, 2.0, 0.0);
        near(filler.volume.value, 33.0, 1e-9);
        near(filler.sanded_off.value, 1.0, 1e-9);
        // 2 shoes × 2 layers × 110 cm² × 1.15.
        near(filler.sheet_for_pair.value, 506.0, 1e-9);
        let filler = filled(110.0, 2.5, 3.0);
        near(filler.layers.value, 1.0, 0.0);
        near(filler.volume.value, 27.5, 1e-9);
        let filler = filled(116.89, 4.0, 3.0);
        near(filler.layers.value, 2.0, 0.0);
        near(filler.volume.value, 46.76, 0.01);
        near(filler.sanded_off.value, 2.0, 1e-9);
        near(filled(116.89, 4.0, 2.0).layers.value, 2.0, 0.0);
        near(filled(116.89, 0.6, 0.2).layers.value, 3.0, 0.0);
    }

    fn of_foot(foot: f64, wearer: Wearer, filler: FillerRun) -> (FillerFigures, ShankFigures) {
        let mut measured = Measured {
            wearer: Some(wearer),
            filler,
            ..Measured::default()
        };
        measured
            .lengths
            .insert(Field::FootLength, Reading::in_millimetres(foot));
        let insole = Insole::of(&measured).unwrap();
        let filler = FillerFigures::work_out(&measured, &insole);
        (filler, ShankFigures::work_out(&insole))
    }

    /// Polygons of the Python package shapely: `buffer(-8)`, cut at 25 % and at 62 % of the length.
    #[test]
    fn the_hollow_is_that_of_a_polygon_library() {
        let (filler, shank) = of_foot(270.0, Wearer::Man, FillerRun::Whole);
        near(filler.hollow.value, 116.89, 0.2);
        near(shank.length.value, 121.0, 0.1);
        let (filler, shank) = of_foot(240.0, Wearer::Woman, FillerRun::Whole);
        near(filler.hollow.value, 90.91, 0.2);
        near(shank.length.value, 106.6, 0.1);
        let (filler, _) = of_foot(270.0, Wearer::Man, FillerRun::Forepart);
        near(filler.hollow.value, 61.84, 0.6);
    }
}

//! The sole of one pair: areas, edges, and what is cut for it.

use std::f64::consts::PI;

use serde::Serialize;

use super::field::Field;
use super::figure::{Figure, Input, Recipe, Source, Unit};
use super::habits::share_of_waste;
use super::insole::{Insole, OUTLINE};
use super::measure::Measured;
use super::outline::{Bottom, arc_grown_mm};

/// Where a half sole ends, as a share of the length from the back.
const HALF_SOLE: f64 = 0.50;
const STEINER: Source =
    Source::Definition("Steiner's formulas for a line that runs beside a curve");

/// The area ahead of a share of the length, in a line that runs `by_mm` further out.
///
/// Steiner's formula for an open edge whose ends both run along the shoe: it turns by half a circle.
pub fn area_ahead_mm2(bottom: Bottom, from: f64, by_mm: f64) -> f64 {
    let turned = PI / 2.0 * by_mm * by_mm;
    bottom.area_between_mm2(from, 1.0) + by_mm * bottom.edge_between_mm(from, 1.0) + turned
}

/// Figures of the bottom of one shoe, unless they say otherwise.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct SoleFigures {
    /// What was estimated because it was not measured.
    pub estimates: Vec<Figure>,
    /// The insole's area.
    pub insole_area: Figure,
    /// The way round the insole.
    pub insole_edge: Figure,
    /// From heel breast round the toe to heel breast, along the insole.
    pub breast_to_breast: Figure,
    /// How far the outsole stands proud of the insole.
    pub edge_beyond: Input,
    /// The outsole's area.
    pub outsole_area: Figure,
    /// The way round the outsole.
    pub outsole_edge: Figure,
    /// A half sole's area.
    pub half_sole_area: Figure,
    /// Sole leather to take for the pair.
    pub leather_for_pair: Figure,
    /// Cement for the pair, wet.
    pub cement_for_pair: Figure,
}

impl SoleFigures {
    /// Works the bottom out.
    pub fn work_out(measured: &Measured, insole: &Insole) -> Self {
        let insole_area = insole.figure(
            Recipe {
                label: "Insole",
                unit: Unit::SquareCentimetre,
                formula: "length × (0.266 × heel width + 0.553 × ball width), the sum of the outline's four pieces",
                source: OUTLINE,
            },
            |bottom| bottom.extent().area_mm2 / 100.0,
        );
        let insole_edge = insole.figure(edge("Edge of the insole, all round"), |bottom| {
            bottom.extent().edge_mm
        });
        let breast_to_breast = insole.figure(
            edge("Edge of the insole, heel breast to heel breast"),
            Bottom::breast_to_breast_mm,
        );
        let proud = Self::edge_beyond(measured, insole);
        let outsole_area = Recipe {
            label: "Outsole",
            unit: Unit::SquareCentimetre,
            formula: "area of the insole + its edge × d + π × d², d being the edge beyond the insole",
            source: STEINER,
        }
        .of(
            [insole_area.input(), insole_edge.input(), proud],
            |[area, edge, by]| area + (edge * by + PI * by * by) / 100.0,
        );
        let outsole_edge = Recipe {
            label: "Edge of the outsole, all round",
            unit: Unit::Millimetre,
            formula: "edge of the insole + 2π × the edge beyond it",
            source: STEINER,
        }
        .of([insole_edge.input(), proud], |[edge, by]| {
            edge + 2.0 * PI * by
        });
        let half_sole_area = insole.figure_with(
            proud,
            Recipe {
                label: "Half sole",
                unit: Unit::SquareCentimetre,
                formula: "the outsole ahead of half its length",
                source: OUTLINE,
            },
            |bottom, by| area_ahead_mm2(bottom, HALF_SOLE, by) / 100.0,
        );
        Self {
            estimates: insole.estimates.clone(),
            leather_for_pair: leather(&outsole_area, share_of_waste(measured.waste.leather)),
            cement_for_pair: cement(&outsole_area),
            insole_area,
            insole_edge,
            breast_to_breast,
            edge_beyond: proud,
            outsole_area,
            outsole_edge,
            half_sole_area,
        }
    }

    /// How far the outsole stands proud: measured, or half of what it is longer, or as is usual.
    fn edge_beyond(measured: &Measured, insole: &Insole) -> Input {
        let from_length = || {
            let outsole = measured.input(Field::OutsoleLength)?;
            let recipe = Recipe {
                label: "Edge of the outsole beyond the insole",
                unit: Unit::Millimetre,
                formula: "(outsole length − insole length) ÷ 2",
                source: Source::Definition("half of the difference at either end"),
            };
            let figure = recipe.of([outsole, insole.length], |[outsole, insole]| {
                ((outsole - insole) / 2.0).max(0.0)
            });
            Some(figure.input())
        };
        measured
            .input(Field::SoleEdge)
            .or_else(from_length)
            .unwrap_or_else(|| measured.given(Field::SoleEdge))
    }

    /// The stitch line of the outsole from breast to breast or all round, `by` outside the insole.
    pub fn stitch_line(&self, all_round: bool, by: Input) -> Input {
        let (arc, recipe) = if all_round {
            (
                &self.insole_edge,
                Recipe {
                    label: "Stitch line, all round",
                    unit: Unit::Millimetre,
                    formula: "edge of the insole + 2π × its distance",
                    source: STEINER,
                },
            )
        } else {
            (
                &self.breast_to_breast,
                Recipe {
                    label: "Stitch line, heel breast to heel breast",
                    unit: Unit::Millimetre,
                    formula: "edge of the insole between the breasts + π × its distance",
                    source: STEINER,
                },
            )
        };
        let figure = recipe.of([arc.input(), by], |[arc, by]| {
            let line = if all_round {
                arc + 2.0 * PI * by
            } else {
                arc_grown_mm(arc, by)
            };
            line.max(0.0)
        });
        figure.input()
    }
}

const fn edge(label: &'static str) -> Recipe {
    Recipe {
        label,
        unit: Unit::Millimetre,
        formula: "sum of 8,000 short pieces along both sides of the outline",
        source: OUTLINE,
    }
}

fn leather(outsole: &Figure, waste: Input) -> Figure {
    Recipe {
        label: "Sole leather or sheet, the pair",
        unit: Unit::SquareCentimetre,
        formula: "2 × outsole × (1 + waste)",
        source: Source::Practice,
    }
    .of([outsole.input(), waste], |[area, waste]| {
        2.0 * area * (1.0 + waste)
    })
}

fn cement(outsole: &Figure) -> Figure {
    let coat = Input {
        within: 0.005,
        ..Input::usual(
            "wet cement for each cm², in grams",
            0.015,
            Unit::Gram,
            Source::Published("adhesive makers' guides: 100 to 200 g/m² of contact cement"),
        )
    };
    let coats = Input::usual("coats", 2.0, Unit::Count, Source::Practice);
    Recipe {
        label: "Contact cement, the pair",
        unit: Unit::Gram,
        formula: "2 shoes × 2 faces × outsole × coats × cement for each cm²",
        source: Source::Practice,
    }
    .of([outsole.input(), coat, coats], |[area, coat, coats]| {
        4.0 * area * coat * coats
    })
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::bench::length::Reading;
    use crate::bench::sizing::Wearer;
    use crate::size::{ShoeSize, SizeSystem};

    fn near(what: f64, expected: f64, within: f64) {
        assert!(
            (what - expected).abs() <= within,
            "{what} is not {expected}"
        );
    }

    fn of_foot(foot: f64, wearer: Wearer) -> (Insole, SoleFigures) {
        let mut measured = Measured {
            wearer: Some(wearer),
            ..Measured::default()
        };
        let length = Reading::in_millimetres(foot);
        measured.lengths.insert(Field::FootLength, length);
        let insole = Insole::of(&measured).unwrap();
        let figures = SoleFigures::work_out(&measured, &insole);
        (insole, figures)
    }

    /// Regressions over ANSUR II and the outline's areas, worked out apart from this code; areas
    /// confirmed with the Python package shapely 2.1.2.
    #[test]
    fn a_foot_s_length_gives_an_average_insole() {
        let (insole, sole) = of_foot(270.0, Wearer::Man);
        near(insole.length.value, 283.33, 0.01);
        near(insole.ball.value, 91.44, 0.01);
        near(insole.heel.value, 65.03, 0.01);
        near(sole.insole_area.value, 192.24, 0.1);
        near(sole.outsole_area.value, 231.80, 0.1);
        near(sole.outsole_edge.value, 678.1, 0.2);
        near(sole.breast_to_breast.value, 467.9, 0.1);
        near(sole.half_sole_area.value, 127.60, 0.2);
        near(sole.cement_for_pair.value, 2.0 * 13.9, 0.05);
        let (insole, sole) = of_foot(240.0, Wearer::Woman);
        near(insole.length.value, 253.33, 0.01);
        near(insole.ball.value, 82.24, 0.01);
        near(sole.outsole_area.value, 190.65, 0.1);
        let line = sole.stitch_line(false, Input::chosen("out", 3.0, Unit::Millimetre));
        near(line.value, 428.1, 0.1);
    }

    /// 640.372 mm by numeric integration (mpmath), and 2π × 3 mm.
    #[test]
    fn a_stitch_line_all_round_is_longer_by_a_whole_turn() {
        let (_, sole) = of_foot(270.0, Wearer::Man);
        let line = sole.stitch_line(true, Input::chosen("out", 3.0, Unit::Millimetre));
        near(line.value, 659.222, 0.001);
    }

    #[test]
    fn an_outsole_stands_proud_by_half_of_what_it_is_longer() {
        let mut measured = Measured::default();
        for (field, mm) in [(Field::InsoleLength, 285.0), (Field::OutsoleLength, 301.0)] {
            let reading = Reading::in_millimetres(mm);
            measured.lengths.insert(field, reading);
        }
        let figures = SoleFigures::work_out(&measured, &Insole::of(&measured).unwrap());
        near(figures.edge_beyond.value, 8.0, 1e-9);
    }

    #[test]
    fn a_size_alone_says_how_little_it_knows() {
        let size = ShoeSize::parse(SizeSystem::Eu, "43").unwrap();
        let measured = Measured::of_size(size);
        let by_size = SoleFigures::work_out(&measured, &Insole::of(&measured).unwrap());
        assert_eq!(by_size.estimates.len(), 4);
        let mut measured = measured;
        for (field, mm) in [
            (Field::InsoleLength, 287.0),
            (Field::InsoleBall, 92.0),
            (Field::InsoleHeel, 65.0),
        ] {
            let reading = Reading::in_millimetres(mm);
            measured.lengths.insert(field, reading);
        }
        let taped = SoleFigures::work_out(&measured, &Insole::of(&measured).unwrap());
        assert!(taped.insole_area.within * 2.0 < by_size.insole_area.within);
        // The two agree within what the size alone claims to know.
        let apart = (taped.insole_area.value - by_size.insole_area.value).abs();
        assert!(apart < by_size.insole_area.within);
    }

    proptest! {
        #[test]
        fn a_wider_edge_never_takes_less_leather(by in 0.0_f64..12.0, more in 0.0_f64..5.0) {
            let grown = |by| area_ahead_mm2(Bottom::EXAMPLE, HALF_SOLE, by);
            prop_assert!(grown(by + more) >= grown(by));
        }
    }
}

//! A welt or rand: its way round the insole, and the strip to cut for it.

use serde::{Deserialize, Serialize};

use super::field::Field;
use super::figure::{Figure, Input, Recipe, Source, Unit};
use super::habits::share_of_waste;
use super::length::Millimetres;
use super::measure::Measured;

/// How far a welt goes round. The names are no measured angles: a 270 takes some 73 % of the edge.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum WeltRun {
    /// No welt.
    None,
    /// From heel breast round the toe to heel breast: a 270.
    #[default]
    BreastToBreast,
    /// All the way round: a 360.
    AllRound,
}

impl WeltRun {
    /// How the bench calls it.
    pub const fn label(self) -> &'static str {
        match self {
            Self::None => "no welt",
            Self::BreastToBreast => "270, heel breast to heel breast",
            Self::AllRound => "360, all round",
        }
    }

    /// What its ends take: two tapered ends, or one skived joint.
    const fn usual_joint(self) -> Millimetres {
        Millimetres(match self {
            Self::None => 0.0,
            Self::BreastToBreast => 50.0,
            Self::AllRound => 30.0,
        })
    }
}

/// The strip to cut for one shoe.
pub fn strip(way: Millimetres, joint: Millimetres, waste: f64) -> Millimetres {
    way * (1.0 + waste) + joint
}

/// A welt's figures.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct WeltFigures {
    /// How far it goes.
    pub run: WeltRun,
    /// Its way along the insole's edge, each shoe.
    pub way: Input,
    /// The strip to cut for each shoe.
    pub strip: Figure,
    /// The strip to cut for the pair.
    pub strip_for_pair: Figure,
}

impl WeltFigures {
    /// Works a welt out that goes `way` along the insole's edge.
    pub fn work_out(measured: &Measured, way: Input) -> Self {
        let joint = measured.input_or(Field::WeltJoint, measured.welt.usual_joint().0, 0.0);
        let waste = share_of_waste(measured.waste.welt);
        let strip = Recipe {
            label: "Strip to cut, each shoe",
            unit: Unit::Millimetre,
            formula: "way along the insole's edge × (1 + waste) + what the ends take",
            source: Source::Practice,
        }
        .of([way, joint, waste], |[way, joint, waste]| {
            strip(Millimetres(way), Millimetres(joint), waste).0
        });
        let strip_for_pair = Recipe {
            label: "Strip to cut, the pair",
            unit: Unit::Millimetre,
            formula: "2 × strip of one shoe",
            source: Source::Definition("two shoes"),
        }
        .of([strip.input()], |[one]| 2.0 * one);
        Self {
            run: measured.welt,
            way,
            strip,
            strip_for_pair,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn pair(welt: WeltRun, way: f64) -> f64 {
        let measured = Measured {
            welt,
            ..Measured::default()
        };
        let way = Input::chosen("way", way, Unit::Millimetre);
        WeltFigures::work_out(&measured, way).strip_for_pair.value
    }

    /// By hand: 2 × 467.9 × 1.10 + 2 × 50 and 2 × 640.4 × 1.10 + 2 × 30; a man's foot of 270 mm.
    #[test]
    fn a_pair_s_strip_has_waste_and_its_ends() {
        assert!((pair(WeltRun::BreastToBreast, 467.9) - 1129.38).abs() < 1e-9);
        assert!((pair(WeltRun::AllRound, 640.4) - 1468.88).abs() < 1e-9);
    }
}

//! The bench sheet as a whole: every figure of one pair, what is in doubt, and what can hurt.
//!
//! - [`sections`]: the figures in the order in which the bench needs them
//! - `seams`: what inseam and outsole seam go through, and where they run

pub(super) mod seams;
pub mod sections;

use serde::Serialize;

use super::cautions::{Caution, cautions};
use super::doubt::{Doubt, doubts, impossible};
use super::field::Field;
use super::figure::{Input, Unit};
use super::filler::{FillerFigures, ShankFigures};
use super::heel::misfit::Misfit;
use super::heel::stance::Case;
use super::heel::{Heel, HeelFigures};
use super::insole::Insole;
use super::length::{Irons, Millimetres, Ounces};
use super::measure::Measured;
use super::nails::NailFigures;
use super::sizing::{SizeRow, size_rows};
use super::sole::SoleFigures;
use super::thread::SeamFigures;
use super::welt::{WeltFigures, WeltRun};

/// Why no sheet could be worked out.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum SheetProblem {
    /// Neither size nor a length to begin with.
    #[error(
        "Give the size that is stamped in the pair, or the length of its insole or of the foot."
    )]
    NothingToGoBy,
    /// Lengths that can't be.
    #[error("{}", said(.0))]
    Impossible(Vec<Doubt>),
}

fn said(doubts: &[Doubt]) -> String {
    let words: Vec<_> = doubts.iter().map(|doubt| doubt.words.as_str()).collect();
    words.join(" ")
}

/// A thickness in the trade's units.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct ThicknessRow {
    /// Which.
    pub field: Field,
    /// In millimetres.
    pub millimetres: Millimetres,
    /// In irons.
    pub irons: Irons,
    /// In ounces.
    pub ounces: Ounces,
}

/// All figures of one pair.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct BenchSheet {
    /// The pair in a few words.
    pub pair: String,
    /// The size that is stamped.
    pub stamped: Option<String>,
    /// The size in every system, a guide only.
    pub sizes: Vec<SizeRow>,
    /// What was measured in thickness, in every unit.
    pub thicknesses: Vec<ThicknessRow>,
    /// The insole's length, width at the ball and width at the heel.
    pub insole: [Input; 3],
    /// The bottom.
    pub sole: SoleFigures,
    /// The welt, if there is one.
    pub welt: Option<WeltFigures>,
    /// The inseam, if it is sewn.
    pub inseam: Option<SeamFigures>,
    /// The outsole's seam, if it is sewn.
    pub outsole_seam: Option<SeamFigures>,
    /// The filler.
    pub filler: FillerFigures,
    /// The shank.
    pub shank: ShankFigures,
    /// The heel.
    pub heel: Heel,
    /// Nails, if the heel was worked out.
    pub nails: Vec<NailFigures>,
    /// Measurements to look at again.
    pub doubts: Vec<Doubt>,
    /// What can hurt, by step.
    pub cautions: Vec<Caution>,
}

impl BenchSheet {
    /// Works a pair's sheet out.
    ///
    /// # Errors
    /// If there is nothing to go by, or a length can't be.
    pub fn work_out(measured: &Measured) -> Result<Self, SheetProblem> {
        let refused = impossible(measured);
        if !refused.is_empty() {
            return Err(SheetProblem::Impossible(refused));
        }
        let insole = Insole::of(measured).ok_or(SheetProblem::NothingToGoBy)?;
        let sole = SoleFigures::work_out(measured, &insole);
        let way = match measured.welt {
            WeltRun::AllRound => sole.insole_edge.input(),
            WeltRun::None | WeltRun::BreastToBreast => sole.breast_to_breast.input(),
        };
        let has_welt = measured.welt != WeltRun::None;
        let welt = has_welt.then(|| WeltFigures::work_out(measured, way));
        let inseam = measured
            .inseam
            .filter(|_| has_welt)
            .map(|choice| seams::inseam(measured, choice, way));
        let outsole_seam = measured
            .outsole_seam
            .map(|choice| seams::outsole(measured, choice, &sole));
        let heel = Heel::work_out(measured, insole.length);
        let nails = match &heel {
            Heel::Worked(heel) => nails(measured, heel),
            Heel::Missing(_) | Heel::Prescribed => Vec::new(),
        };
        let is_uneven = heel
            .misfits()
            .iter()
            .any(|misfit| matches!(misfit, Misfit::Uneven { .. }));
        Ok(Self {
            pair: measured.pair.clone(),
            stamped: measured.size.map(|size| size.0.to_string()),
            sizes: size_rows(Millimetres(insole.foot.value), measured.wearer()),
            thicknesses: thicknesses(measured),
            insole: [insole.length, insole.ball, insole.heel],
            filler: FillerFigures::work_out(measured, &insole),
            shank: ShankFigures::work_out(&insole),
            welt,
            inseam,
            outsole_seam,
            sole,
            heel,
            nails,
            doubts: doubts(measured),
            cautions: cautions(measured, is_uneven),
        })
    }
}

impl Heel {
    /// What does not fit, if the heel was worked out.
    pub fn misfits(&self) -> &[Misfit] {
        match self {
            Self::Worked(heel) => &heel.misfits,
            Self::Missing(_) | Self::Prescribed => &[],
        }
    }
}

fn nails(measured: &Measured, heel: &HeelFigures) -> Vec<NailFigures> {
    let built = heel.stance(Case::AsBuilt).map(|stance| stance.parts);
    let seat = measured.input(Field::NewSoleAtSeat);
    let top_lift = measured.input(Field::NewTopLift);
    let (Some(built), Some(seat), Some(top_lift)) = (built, seat, top_lift) else {
        return Vec::new();
    };
    if built.base.0 <= 0.0 {
        return Vec::new();
    }
    // The base is built to its height, so its own tolerance is that of a gauge.
    let base = Input::chosen("heel base", built.base.0, Unit::Millimetre)
        .known_within(Field::OldHeelBase.tolerance().0);
    NailFigures::work_out(measured, base, seat, top_lift)
}

fn thicknesses(measured: &Measured) -> Vec<ThicknessRow> {
    let row = |field: Field| {
        let millimetres = measured.length(field)?;
        Some(ThicknessRow {
            field,
            millimetres,
            irons: millimetres.irons(),
            ounces: millimetres.ounces(),
        })
    };
    Field::ALL
        .into_iter()
        .filter(|field| field.is_thickness())
        .filter_map(row)
        .collect()
}

#[cfg(test)]
mod tests;

//! The figures of a bench sheet in the order in which the bench needs them.

use super::BenchSheet;
use crate::bench::cautions::Step;
use crate::bench::figure::Figure;
use crate::bench::heel::stance::Case;
use crate::bench::heel::{Heel, HeelFigures};
use crate::bench::thread::SeamFigures;

/// What figures are about.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Topic {
    /// What was not measured but follows from the size.
    Estimates,
    /// Outline, leather and cement.
    Sole,
    /// The welt.
    Welt,
    /// The seam that holds it.
    Inseam,
    /// The seam that holds the outsole.
    OutsoleSeam,
    /// Cork.
    Filler,
    /// The shank.
    Shank,
    /// Heel base and lifts.
    Heel,
    /// How the pair stands.
    Stance,
    /// Nails.
    Nails,
}

impl Topic {
    /// The step of the work that uses them.
    pub const fn step(self) -> Option<Step> {
        match self {
            Self::Estimates | Self::Stance => None,
            Self::Sole => Some(Step::Cementing),
            Self::Welt | Self::Inseam => Some(Step::Welting),
            Self::OutsoleSeam => Some(Step::Stitching),
            Self::Filler | Self::Shank => Some(Step::Filling),
            Self::Heel | Self::Nails => Some(Step::Heel),
        }
    }
}

/// Figures that belong together, under a title.
#[derive(Clone, Debug, PartialEq)]
pub struct Section<'sheet> {
    /// What they are about.
    pub topic: Topic,
    /// The title.
    pub title: String,
    /// The figures.
    pub figures: Vec<&'sheet Figure>,
}

impl<'sheet> Section<'sheet> {
    fn new(topic: Topic, title: impl Into<String>, figures: Vec<&'sheet Figure>) -> Self {
        Self {
            topic,
            title: title.into(),
            figures,
        }
    }
}

impl BenchSheet {
    /// The figures in the order in which the bench needs them.
    pub fn sections(&self) -> Vec<Section<'_>> {
        let filler = &self.filler;
        let mut sections = self.of_sole();
        sections.extend(self.of_welt_and_seams());
        sections.push(Section::new(
            Topic::Filler,
            "Filler",
            vec![
                &filler.hollow,
                &filler.volume,
                &filler.layers,
                &filler.sanded_off,
                &filler.sheet_for_pair,
            ],
        ));
        sections.push(Section::new(
            Topic::Shank,
            "Shank",
            vec![&self.shank.length, &self.shank.cover],
        ));
        sections.extend(self.of_heel());
        sections.retain(|section| !section.figures.is_empty());
        sections
    }

    fn of_sole(&self) -> Vec<Section<'_>> {
        let sole = &self.sole;
        let estimates = sole.estimates.iter().collect();
        let figures = vec![
            &sole.insole_area,
            &sole.insole_edge,
            &sole.breast_to_breast,
            &sole.outsole_area,
            &sole.outsole_edge,
            &sole.half_sole_area,
            &sole.leather_for_pair,
            &sole.cement_for_pair,
        ];
        vec![
            Section::new(Topic::Estimates, "Estimated from the size", estimates),
            Section::new(Topic::Sole, "Sole", figures),
        ]
    }

    fn of_welt_and_seams(&self) -> Vec<Section<'_>> {
        let welt = self.welt.iter().map(|welt| {
            let left_alone = if self.inseam.is_some() {
                ""
            } else {
                ", if it is renewed"
            };
            let title = format!("Welt: {}{left_alone}", welt.run.label());
            let figures = vec![&welt.strip, &welt.strip_for_pair];
            Section::new(Topic::Welt, title, figures)
        });
        let seams = [
            (Topic::Inseam, "Inseam", &self.inseam),
            (Topic::OutsoleSeam, "Outsole seam", &self.outsole_seam),
        ];
        let seams = seams.into_iter().filter_map(|(topic, name, seam)| {
            let seam = seam.as_ref()?;
            let title = format!("{name}: {}", seam.stitch.label());
            Some(Section::new(topic, title, seam.figures()))
        });
        welt.chain(seams).collect()
    }

    fn of_heel(&self) -> Vec<Section<'_>> {
        let mut sections = Vec::new();
        if let Heel::Worked(heel) = &self.heel {
            sections.push(Section::new(Topic::Heel, "Heel", heel.figures()));
            sections.extend(heel.stances.iter().map(|stance| {
                let title = format!("Stance {}", stance.case.label());
                let figures = vec![
                    &stance.pitch,
                    &stance.change,
                    &stance.wedge_angle,
                    &stance.toe_rise,
                ];
                Section::new(Topic::Stance, title, figures)
            }));
        }
        sections.extend(self.nails.iter().map(|nails| {
            let title = format!("Nails: {}", nails.joint.label());
            Section::new(Topic::Nails, title, vec![&nails.at_least, &nails.at_most])
        }));
        sections
    }
}

impl BenchSheet {
    /// The few figures that hands at the bench look up, for a sheet that is propped up there.
    pub fn at_a_glance(&self) -> Vec<Section<'_>> {
        let mut sections = Vec::new();
        if let Heel::Worked(heel) = &self.heel {
            let shape = &heel.shape;
            let mut figures = vec![&heel.base];
            figures.extend(&heel.against_old);
            figures.extend([
                &heel.lifts,
                &heel.trim,
                &shape.base_at_back,
                &shape.base_at_breast,
                &shape.back_angle,
                &shape.breast_angle,
            ]);
            sections.push(Section::new(Topic::Heel, "Heel", figures));
            if let Some(built) = heel.stance(Case::AsBuilt) {
                let figures = vec![&built.pitch, &built.change, &built.toe_rise];
                sections.push(Section::new(Topic::Stance, "Stance", figures));
            }
        }
        if let Some(welt) = &self.welt {
            let figures = vec![&welt.strip, &welt.strip_for_pair];
            sections.push(Section::new(Topic::Welt, "Welt", figures));
        }
        for (topic, name, seam) in [
            (Topic::Inseam, "Inseam", &self.inseam),
            (Topic::OutsoleSeam, "Outsole seam", &self.outsole_seam),
        ] {
            if let Some(seam) = seam {
                let title = format!("{name}, {}", seam.stitch.label());
                let figures = vec![&seam.stitches, &seam.thread_for_pair];
                sections.push(Section::new(topic, title, figures));
            }
        }
        let (sole, filler) = (&self.sole, &self.filler);
        let figures = vec![
            &sole.outsole_edge,
            &sole.outsole_area,
            &sole.leather_for_pair,
        ];
        sections.push(Section::new(Topic::Sole, "Sole", figures));
        let figures = vec![&filler.layers, &filler.sheet_for_pair, &self.shank.length];
        sections.push(Section::new(Topic::Filler, "Filler and shank", figures));
        sections
    }
}

impl HeelFigures {
    /// The figures of the base and its cut.
    pub fn figures(&self) -> Vec<&Figure> {
        let shape = &self.shape;
        let mut figures = vec![&self.base];
        figures.extend(&self.against_old);
        figures.extend([
            &self.lifts,
            &self.trim,
            &shape.seat_slope,
            &shape.base_at_back,
            &shape.base_at_breast,
            &shape.back_angle,
            &shape.breast_angle,
            &shape.back_set,
            &shape.breast_set,
            &shape.top_lift_length,
        ]);
        figures
    }
}

impl SeamFigures {
    /// Its figures.
    pub fn figures(&self) -> Vec<&Figure> {
        vec![
            &self.stitches,
            &self.thread,
            &self.thread_for_pair,
            &self.weight_for_pair,
            &self.denier,
            &self.ticket,
        ]
    }
}

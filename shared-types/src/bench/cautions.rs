//! What can hurt at the bench, at the steps that need the word.
//!
//! A source cited from memory says so; law and licensed practice come first.

use serde::Serialize;

use super::measure::{Measured, Stand};

/// A step of the work, in its order.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Step {
    /// Before anything is agreed or cut.
    Before,
    /// Taking the pair apart.
    Teardown,
    /// Sewing the welt.
    Welting,
    /// Filling, and the shank.
    Filling,
    /// Cementing the sole.
    Cementing,
    /// Stitching the sole.
    Stitching,
    /// Building and nailing the heel.
    Heel,
    /// Trimming and sanding.
    Sanding,
    /// Dyeing, burnishing and polishing.
    Finishing,
}

impl Step {
    /// In words.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Before => "Before you begin",
            Self::Teardown => "Teardown",
            Self::Welting => "Welt",
            Self::Filling => "Filler and shank",
            Self::Cementing => "Cementing",
            Self::Stitching => "Outsole seam",
            Self::Heel => "Heel",
            Self::Sanding => "Trimming and sanding",
            Self::Finishing => "Dye, burnish, polish",
        }
    }
}

/// What hurts.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Hazard {
    /// Vapours that burn and harm.
    Solvents,
    /// Dust of leather, rubber and fibre.
    Dust,
    /// Hot tools.
    HotTools,
    /// Knives, awls and needles.
    Blades,
    /// Machines with moving needles, wheels and cutters.
    Machines,
    /// Nails, old and new.
    Nails,
    /// Protection that a repair can end.
    SafetyRated,
    /// Bodies that need a clinician's measure.
    Clinician,
}

impl Hazard {
    /// What to do, in the few words that fit on a sheet beside the work.
    pub const fn in_short(self) -> &'static str {
        match self {
            Self::Solvents => "vapours: extraction on, no flame or spark, gloves, lids on",
            Self::Dust => "dust: extraction on, respirator, vacuum, never sweep",
            Self::HotTools => "hot tools: hands out, solvent flashed off first",
            Self::Blades => "blades: cut away from you, eye protection",
            Self::Machines => "machines: guards on, sleeves tied, stop before a hand goes in",
            Self::Nails => "nails: eye protection, feel inside for points",
            Self::SafetyRated => "safety mark: the customer must be told first",
            Self::Clinician => "left and right differ: only to a clinician’s written measurements",
        }
    }
}

/// A caution.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct Caution {
    /// Where it is needed.
    pub step: Step,
    /// What hurts.
    pub hazard: Hazard,
    /// What to do.
    pub words: &'static str,
    /// Where more stands.
    pub more: &'static str,
}

/// Cautions of the ordinary work.
const WORK: &[Caution] = &[
    Caution {
        step: Step::Teardown,
        hazard: Hazard::Blades,
        words: "Cut away from hand and body; hold the shoe in a jack or on the bench, never against you. Gather old nails and needles at once.",
        more: "common practice, no source",
    },
    Caution {
        step: Step::Teardown,
        hazard: Hazard::Dust,
        words: "Old cork, foam and mould are dusty: extraction on, respirator on, no dry sweeping.",
        more: "IARC Monographs 100C (2012): leather dust causes cancer in people (Group 1)",
    },
    Caution {
        step: Step::Welting,
        hazard: Hazard::Blades,
        words: "Awl and curved needle come out where the other hand is: eye protection, a thumb guard, hands out of the line.",
        more: "common practice, no source",
    },
    Caution {
        step: Step::Filling,
        hazard: Hazard::Solvents,
        words: "Cork paste and cement give off vapours: extraction on, no flame or spark, gloves, lid on.",
        more: "the maker's safety data sheet",
    },
    Caution {
        step: Step::Cementing,
        hazard: Hazard::Solvents,
        words: "Contact cement and its thinner catch fire far below room temperature. Extraction on, nothing that sparks or glows in the room, solvent-proof gloves, lids on, soaked rags in a closed metal bin. Never dry near finisher or heat activator.",
        more: "the maker's safety data sheet; 29 CFR 1910.106 and 1910.1000 in the USA, COSHH and EH40 in Great Britain (from memory)",
    },
    Caution {
        step: Step::Cementing,
        hazard: Hazard::HotTools,
        words: "The heat activator runs at some 70 °C at the film and is far hotter inside: let the solvent flash off first, and keep hands out.",
        more: "adhesive makers' guides",
    },
    Caution {
        step: Step::Stitching,
        hazard: Hazard::Machines,
        words: "Needle and awl stop for nothing: foot off the treadle before a hand goes in, guards on, hair and sleeves tied.",
        more: "29 CFR 1910.212 in the USA, PUWER 1998 in Great Britain (from memory)",
    },
    Caution {
        step: Step::Heel,
        hazard: Hazard::Nails,
        words: "Eye protection when nailing. Feel inside for points before the pair goes on: one that came through is drawn, not hammered flat.",
        more: "common practice, no source",
    },
    Caution {
        step: Step::Heel,
        hazard: Hazard::Blades,
        words: "Skive lifts on the bench, blade away from you.",
        more: "common practice, no source",
    },
    Caution {
        step: Step::Sanding,
        hazard: Hazard::Dust,
        words: "Leather dust causes cancer of the nose, and chrome-tanned leather can carry chromium(VI). Extraction at the wheel, a fitted respirator, eye and ear protection; vacuum, never sweep or blow.",
        more: "IARC Monographs 100C (2012); boot and shoe repair: Supplement 7 (1987); HSE HSG258 (from memory)",
    },
    Caution {
        step: Step::Sanding,
        hazard: Hazard::Machines,
        words: "Cutter and wheel take what they catch: no gloves at a running cutter, work rest close, sleeves tied. Stop it before you clear it.",
        more: "29 CFR 1910.212 and 1910.215 in the USA (from memory)",
    },
    Caution {
        step: Step::Finishing,
        hazard: Hazard::Solvents,
        words: "Dyes, edge dressings and polishes are solvents: extraction on, gloves, no spark.",
        more: "the maker's safety data sheet",
    },
    Caution {
        step: Step::Finishing,
        hazard: Hazard::HotTools,
        words: "Burnishing irons burn skin and light solvents: let the dye dry first, and lay the iron on its stand.",
        more: "common practice, no source",
    },
];

const SAFETY_RATED: Caution = Caution {
    step: Step::Before,
    hazard: Hazard::SafetyRated,
    words: "This pair carries a safety mark. New soles, heels, insoles or seams can end the protection it was tested for, and this shop can't certify it again. The customer must be told, and agree, before anything is cut; afterwards the mark counts as no longer valid unless its maker says otherwise in writing. No nail or metal shank may pass through a sole that is to insulate.",
    more: "29 CFR 1910.136 and ASTM F2413 in the USA, Regulation (EU) 2016/425 in the EU; the maker's word",
};

const CLINICIAN: Caution = Caution {
    step: Step::Before,
    hazard: Hazard::Clinician,
    words: "Left and right are not alike. A raise, a wedge or a lowered heel on one side is built only to the written measurements of a licensed clinician. This sheet does not assess legs, feet or gait, and advises no height.",
    more: "licensed practice where you work",
};

/// The cautions of a pair, in the order of the work.
///
/// `is_uneven` says that left and right were found to differ.
pub fn cautions(measured: &Measured, is_uneven: bool) -> Vec<Caution> {
    let mut found = Vec::new();
    if measured.safety_rated {
        found.push(SAFETY_RATED);
    }
    if is_uneven || measured.stand == Stand::Prescribed {
        found.push(CLINICIAN);
    }
    let needed = |caution: &&Caution| match caution.step {
        Step::Welting => measured.inseam.is_some(),
        Step::Stitching => measured.outsole_seam.is_some(),
        Step::Before
        | Step::Teardown
        | Step::Filling
        | Step::Cementing
        | Step::Heel
        | Step::Sanding
        | Step::Finishing => true,
    };
    found.extend(WORK.iter().filter(needed));
    found
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn cautions_come_in_the_order_of_the_work() {
        assert!(WORK.is_sorted_by_key(|caution| caution.step));
    }

    #[test]
    fn a_safety_mark_and_an_uneven_pair_are_said_first() {
        let plain = Measured::default();
        assert_eq!(cautions(&plain, false).len(), WORK.len());
        assert_eq!(cautions(&plain, true)[0].hazard, Hazard::Clinician);
        let rated = Measured {
            safety_rated: true,
            ..plain
        };
        assert_eq!(cautions(&rated, false)[0].hazard, Hazard::SafetyRated);
    }
}

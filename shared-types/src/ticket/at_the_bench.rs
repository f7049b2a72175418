//! What the bench sheet is worked out from for one pair: what it is, what is agreed on it, and what
//! was measured, with all that had to be assumed.

use std::fmt;

use super::{Construction, Pair, PairAbout, Rating};
use crate::bench::measure::{Measured, SeamChoice, SoleKind, StampedSize, Stand};
use crate::bench::measurements::{Measurements, SeamPlan};
use crate::bench::sheet::{BenchSheet, SheetProblem};
use crate::bench::take_off::TakeOffs;
use crate::bench::thread::Stitch;
use crate::bench::welt::WeltRun;
use crate::scope::ScopeLine;
use crate::scope::rules::shipped::WorkAtTheBottom;
use crate::size::ShoeSize;

/// Something that the sheet takes for granted because nobody said otherwise.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Assumption {
    /// Nothing was measured: size and construction alone.
    SizeAlone,
    /// How the pair is built is not known.
    Built,
    /// No new welt is agreed.
    WeltInCase,
    /// A stitch-down pair's seam.
    StitchDownToTheBreast,
    /// The agreed work says nothing of the new sole.
    LeatherSole,
    /// The agreed work puts new soles on and does not say how they are sewn.
    SewnAsBuilt,
}

impl fmt::Display for Assumption {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::SizeAlone => {
                "Nothing is measured yet: all figures come from the size and the way the pair is built, and are as uncertain as they say."
            }
            Self::Built => {
                "How the pair is built is not known: a welt from heel breast to heel breast is assumed."
            }
            Self::WeltInCase => {
                "No new welt is agreed: welt and inseam are worked out in case one is needed."
            }
            Self::StitchDownToTheBreast => {
                "Stitch-down: the seam is taken from heel breast to heel breast. If it goes all round, say so under Welt."
            }
            Self::LeatherSole => "What is agreed does not say what the new sole is of: leather is assumed.",
            Self::SewnAsBuilt => {
                "What is agreed does not say how the soles are sewn: as the pair was built is assumed."
            }
        })
    }
}

/// What a pair's bench sheet is worked out from.
#[derive(Clone, Debug, PartialEq)]
pub struct AtTheBench {
    /// All that is known.
    pub measured: Measured,
    /// What had to be assumed, in the order in which it is said.
    pub assumed: Vec<Assumption>,
}

impl AtTheBench {
    /// Puts together what a pair is, what was measured on it, and the work on it.
    pub fn of(about: &PairAbout, taken: Option<&Measurements>, lines: &[ScopeLine]) -> Self {
        let work = WorkAtTheBottom::of(lines);
        let known = known(about, work);
        let mut measured = match taken {
            Some(taken) => taken.measured(known),
            None => known,
        };
        measured.pair = about.title();
        let assumed = assumed(about, taken, work, &measured);
        Self { measured, assumed }
    }

    /// The quantities for its price; of a length that can't be nothing is believed but the size.
    pub fn take_offs(&self) -> TakeOffs {
        TakeOffs::of_measured(&self.measured).unwrap_or_else(|| TakeOffs::assumed(&self.measured))
    }

    /// The bench sheet.
    ///
    /// # Errors
    /// If there is nothing to go by, or a length can't be.
    pub fn sheet(&self) -> Result<BenchSheet, SheetProblem> {
        BenchSheet::work_out(&self.measured)
    }
}

impl Pair {
    /// What its bench sheet is worked out from, with the work that is agreed.
    pub fn at_the_bench(&self) -> AtTheBench {
        self.at_the_bench_with(&self.agreed().lines)
    }

    /// The same, were these lines the agreed work.
    pub fn at_the_bench_with(&self, lines: &[ScopeLine]) -> AtTheBench {
        let taken = self.measured.as_ref().map(|taken| &taken.measurements);
        AtTheBench::of(&self.about, taken, lines)
    }
}

/// What is known of a pair as it comes over the counter.
pub fn at_the_counter(size: Option<ShoeSize>, construction: Construction) -> Measured {
    let built = Built::of(construction);
    Measured {
        size: size.map(StampedSize),
        welt: built.welt,
        inseam: built.inseam,
        outsole_seam: built.outsole_seam,
        ..Measured::default()
    }
}

/// What is known without measuring.
fn known(about: &PairAbout, work: WorkAtTheBottom) -> Measured {
    let built = at_the_counter(about.size, about.construction);
    let sewn_by_hand = work.welt.is_some() || work.insole_by_hand;
    Measured {
        welt: work.welt.unwrap_or(built.welt),
        inseam: if sewn_by_hand {
            Some(SeamChoice::inseam_by(Stitch::Hand))
        } else {
            built.inseam
        },
        outsole_seam: match work.sole_sewn {
            Some(Stitch::Hand) => Some(SeamChoice::outsole_by(Stitch::Hand)),
            // A machine sews a sole on as the shoe was made for.
            Some(Stitch::Lock | Stitch::Chain) => built.outsole_seam.or(Some(SeamChoice::OUTSOLE)),
            None => built.outsole_seam,
        },
        new_sole: work.new_sole.unwrap_or(SoleKind::Leather),
        stand: if work.prescribed_lift {
            Stand::Prescribed
        } else {
            Stand::Even
        },
        safety_rated: about.rating == Rating::Protective,
        ..built
    }
}

/// What nobody said, as far as it matters for what was `measured`.
fn assumed(
    about: &PairAbout,
    taken: Option<&Measurements>,
    work: WorkAtTheBottom,
    measured: &Measured,
) -> Vec<Assumption> {
    let welt_is_told = taken.is_some_and(|taken| taken.welt.is_some());
    let sole_is_told = taken.is_some_and(|taken| taken.new_sole.is_some());
    let seam_is_told = taken.is_some_and(|taken| taken.outsole_seam != SeamPlan::AsBuilt);
    let has_welt = measured.welt != WeltRun::None;
    [
        (
            Assumption::SizeAlone,
            taken.is_none_or(|taken| taken.lengths.is_empty()),
        ),
        (
            Assumption::Built,
            about.construction == Construction::Unknown && !welt_is_told && work.welt.is_none(),
        ),
        (
            Assumption::StitchDownToTheBreast,
            about.construction == Construction::StitchDown && !welt_is_told,
        ),
        (
            Assumption::WeltInCase,
            work.welt.is_none() && has_welt && measured.inseam.is_some(),
        ),
        (
            Assumption::LeatherSole,
            work.new_sole.is_none() && !sole_is_told,
        ),
        (
            Assumption::SewnAsBuilt,
            work.new_sole.is_some()
                && work.sole_sewn.is_none()
                && !seam_is_told
                && measured.outsole_seam.is_some(),
        ),
    ]
    .into_iter()
    .filter_map(|(assumption, holds)| holds.then_some(assumption))
    .collect()
}

/// Welt and seams of a pair as its construction has them.
struct Built {
    welt: WeltRun,
    inseam: Option<SeamChoice>,
    outsole_seam: Option<SeamChoice>,
}

impl Built {
    const fn of(construction: Construction) -> Self {
        let (welt, inseam, outsole_seam) = match construction {
            Construction::Welt270 | Construction::Unknown => (
                WeltRun::BreastToBreast,
                Some(SeamChoice::INSEAM),
                Some(SeamChoice::OUTSOLE),
            ),
            Construction::Welt360 => (
                WeltRun::AllRound,
                Some(SeamChoice::INSEAM),
                Some(SeamChoice::OUTSOLE),
            ),
            Construction::HandWelted => (
                WeltRun::BreastToBreast,
                Some(SeamChoice::inseam_by(Stitch::Hand)),
                Some(SeamChoice::OUTSOLE),
            ),
            Construction::BlakeStitched => {
                let through = SeamChoice::outsole_by(Stitch::Chain);
                (WeltRun::None, None, Some(through))
            }
            Construction::StitchDown => (WeltRun::None, None, Some(SeamChoice::OUTSOLE)),
            Construction::Cemented | Construction::Moulded => (WeltRun::None, None, None),
        };
        Self {
            welt,
            inseam,
            outsole_seam,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::bench::field::Field;
    use crate::bench::length::Reading;
    use crate::scope::rules::shipped::service;
    use crate::ticket::tests::{pair_built, work};

    fn pair(construction: Construction, services: &[u8]) -> Pair {
        let lines = services.iter().map(|number| ScopeLine {
            service: Some(service(*number)),
            ..work("work", 10)
        });
        pair_built(construction, lines.collect())
    }

    #[test]
    fn the_sheet_follows_how_a_pair_is_built() {
        let welt = |construction| pair(construction, &[]).at_the_bench().measured.welt;
        assert_eq!(welt(Construction::Welt360), WeltRun::AllRound);
        assert_eq!(welt(Construction::Welt270), WeltRun::BreastToBreast);
        let cemented = pair(Construction::Cemented, &[]).at_the_bench().measured;
        assert_eq!(
            (cemented.welt, cemented.outsole_seam),
            (WeltRun::None, None)
        );
        let blake = pair(Construction::BlakeStitched, &[21]).at_the_bench();
        let seam = blake.measured.outsole_seam.map(|seam| seam.stitch);
        assert_eq!(seam, Some(Stitch::Chain));
    }

    /// Services 11, 18, 22 and 27 of the shipped price book: a welt all round, lugged soles, soles
    /// stitched by hand, a lift as prescribed.
    #[test]
    fn the_sheet_follows_what_is_agreed() {
        let known = pair(Construction::Welt270, &[11, 18, 22, 27]).at_the_bench();
        let measured = known.measured;
        assert_eq!(measured.welt, WeltRun::AllRound);
        assert_eq!(measured.new_sole, SoleKind::Lug);
        assert_eq!(measured.stand, Stand::Prescribed);
        let stitches =
            [measured.inseam, measured.outsole_seam].map(|seam| seam.map(|seam| seam.stitch));
        assert_eq!(stitches, [Some(Stitch::Hand); 2]);
        assert_eq!(known.assumed, [Assumption::SizeAlone]);
    }

    #[test]
    fn what_was_measured_counts_more_and_what_is_assumed_is_said() {
        let mut pair = pair(Construction::Unknown, &[17]);
        assert_eq!(
            pair.at_the_bench().assumed,
            [
                Assumption::SizeAlone,
                Assumption::Built,
                Assumption::WeltInCase,
                Assumption::SewnAsBuilt,
            ]
        );
        let measurements = Measurements {
            welt: Some(WeltRun::None),
            lengths: [(Field::InsoleLength, Reading::in_millimetres(285.0))].into(),
            ..Measurements::default()
        };
        pair.measured = Some(super::super::PairMeasured {
            measurements,
            actor: super::super::Actor::Program,
            at: pair.stage_since,
        });
        let known = pair.at_the_bench();
        assert_eq!(known.measured.welt, WeltRun::None);
        assert_eq!(known.measured.new_sole, SoleKind::Rubber);
        assert_eq!(known.assumed, [Assumption::SewnAsBuilt]);
        assert!(known.sheet().is_ok());
    }
}

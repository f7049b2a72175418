//! Stitches and thread of a seam through leather.

use serde::{Deserialize, Serialize};

use super::figure::{Figure, Input, Recipe, Source, Unit};
use super::length::Millimetres;
use super::thread_size::{denier, metric_ticket};

/// Where the counts of threads come from.
const COUNTS: Source = Source::Definition(
    "grams for 1,000 m are tex, for 9,000 m denier (ISO 1144); metric tickets as in ASTM D3823, all cited from memory",
);

/// How a seam is sewn.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Stitch {
    /// One thread in loops, as a welt machine sews (akin to ISO 4915 type 101).
    Chain,
    /// Two threads that lock inside the leather (ISO 4915 type 301).
    Lock,
    /// Both ends of one thread through every hole (ISO 4915 type 209).
    Hand,
}

impl Stitch {
    /// How it is called at the bench.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Chain => "chain stitch",
            Self::Lock => "lockstitch",
            Self::Hand => "sewn by hand",
        }
    }

    /// Thread for each length of seam, as a ratio, without waste.
    ///
    /// A lock or a hand stitch lies twice along its pitch and goes twice through; a chain stitch
    /// lies three times along its pitch.
    pub fn thread_ratio(self, pitch: Millimetres, through: Millimetres) -> f64 {
        let along = match self {
            Self::Chain => 3.0,
            Self::Lock | Self::Hand => 2.0,
        };
        along + 2.0 * through.0 / pitch.0
    }

    const fn formula(self) -> &'static str {
        match self {
            Self::Chain => "length of the seam × (3 + 2 × thickness sewn ÷ pitch) × (1 + waste)",
            Self::Lock => {
                "length of the seam × 2 × (1 + thickness sewn ÷ pitch) × (1 + waste); half of it on each spool"
            }
            Self::Hand => {
                "length of the seam × 2 × (1 + thickness sewn ÷ pitch) + 0.5 m to hold the ends"
            }
        }
    }
}

/// What both hands hold at the end of a thread, in metres, common practice.
const HAND_TAILS: f64 = 0.5;

/// The number of stitches on a seam: the last one may be short.
pub fn stitches(length: Millimetres, pitch: Millimetres) -> f64 {
    // A thousandth of a stitch is no stitch, only how numbers are stored.
    (length.0 / pitch.0 - 0.001).ceil().max(0.0)
}

/// Metres of thread for one shoe; a hand thread has no waste but its two ends.
pub fn thread_metres(
    stitch: Stitch,
    length: Millimetres,
    pitch: Millimetres,
    through: Millimetres,
    machine_waste: f64,
) -> f64 {
    let sewn = length.0 / 1000.0 * stitch.thread_ratio(pitch, through);
    match stitch {
        Stitch::Chain | Stitch::Lock => sewn * (1.0 + machine_waste),
        Stitch::Hand => sewn + HAND_TAILS,
    }
}

/// What a seam is worked out from, for one shoe.
#[derive(Clone, Copy, Debug)]
pub struct Seam {
    /// How it is sewn.
    pub stitch: Stitch,
    /// Its length.
    pub length: Input,
    /// From one stitch to the next.
    pub pitch: Input,
    /// The thickness that is sewn through.
    pub through: Input,
    /// The thread's weight: grams for a thousand metres.
    pub tex: Input,
    /// What a machine wastes, as a share.
    pub waste: Input,
}

/// A seam's figures, for one shoe unless it says otherwise.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct SeamFigures {
    /// How it is sewn.
    pub stitch: Stitch,
    /// Its length.
    pub length: Input,
    /// Number of stitches.
    pub stitches: Figure,
    /// Thread.
    pub thread: Figure,
    /// Thread for the pair.
    pub thread_for_pair: Figure,
    /// The pair's thread in grams.
    pub weight_for_pair: Figure,
    /// The thread's count in denier.
    pub denier: Figure,
    /// Its metric ticket.
    pub ticket: Figure,
}

impl Seam {
    /// Works the seam out.
    pub fn work_out(self) -> SeamFigures {
        let Self {
            stitch,
            length,
            pitch,
            through,
            tex,
            waste,
        } = self;
        let stitches = Recipe {
            label: "Stitches, each shoe",
            unit: Unit::Count,
            formula: "length of the seam ÷ pitch, rounded up",
            source: Source::Definition("a division"),
        }
        .of([length, pitch], |[length, pitch]| {
            stitches(Millimetres(length), Millimetres(pitch))
        });
        let thread = Recipe {
            label: "Thread, each shoe",
            unit: Unit::Metre,
            formula: stitch.formula(),
            source: Source::Model(
                "the way of the thread along and through the leather; on cloth it gives the ratios of thread makers' leaflets (2.5 for a lockstitch, 4 to 5 for a chain). Waste, and 0.5 m for the hands, are common practice, no source",
            ),
        }
        .of([length, pitch, through, waste], |[length, pitch, through, waste]| {
            let [length, pitch, through] = [length, pitch, through].map(Millimetres);
            thread_metres(stitch, length, pitch, through, waste)
        });
        let thread_for_pair = Recipe {
            label: "Thread, the pair",
            unit: Unit::Metre,
            formula: "2 × thread of one shoe",
            source: Source::Definition("two shoes"),
        }
        .of([thread.input()], |[one]| 2.0 * one);
        let weight_for_pair = Recipe {
            label: "Thread, the pair, by weight",
            unit: Unit::Gram,
            formula: "metres × tex ÷ 1,000",
            source: Source::Definition(
                "tex is grams for a thousand metres (ISO 1144, cited from memory)",
            ),
        }
        .of([thread_for_pair.input(), tex], |[metres, tex]| {
            metres * tex / 1000.0
        });
        let denier = Recipe {
            label: "The thread in denier",
            unit: Unit::Count,
            formula: "9 × tex",
            source: COUNTS,
        }
        .of([tex], |[tex]| denier(tex));
        let ticket = Recipe {
            label: "Its metric ticket",
            unit: Unit::Ratio,
            formula: "3,000 ÷ tex",
            source: COUNTS,
        }
        .of([tex], |[tex]| metric_ticket(tex));
        SeamFigures {
            stitch,
            length,
            stitches,
            thread,
            thread_for_pair,
            weight_for_pair,
            denier,
            ticket,
        }
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn near(what: f64, expected: f64, within: f64) {
        assert!(
            (what - expected).abs() <= within,
            "{what} is not {expected}"
        );
    }

    fn per_inch(count: f64) -> Millimetres {
        Millimetres(25.4 / count)
    }

    #[test]
    fn stitches_are_counted_up() {
        for (count, expected) in [
            (4.0, 75.0),
            (5.0, 93.0),
            (6.0, 112.0),
            (8.0, 149.0),
            (9.0, 167.0),
            (10.0, 186.0),
            (12.0, 223.0),
        ] {
            near(stitches(Millimetres(470.7), per_inch(count)), expected, 0.0);
        }
        near(stitches(Millimetres(477.3), per_inch(9.0)), 170.0, 0.0);
        // Exactly whole inches take no stitch more, whatever a division leaves over.
        for inches in 1..40_u32 {
            let length = Millimetres(25.4 * f64::from(inches));
            near(stitches(length, per_inch(9.0)), f64::from(9 * inches), 0.0);
        }
        // A maker's figure for a fine forepart: about 150 stitches at 11 to the inch.
        near(stitches(Millimetres(346.4), per_inch(11.0)), 150.0, 1.0);
    }

    /// Thread makers' leaflets for cloth: 1 to 2.5 for type 301, 1 to 4 up to 5 for type 101.
    #[test]
    fn on_cloth_the_ratios_are_those_of_thread_makers() {
        let pitch = Millimetres(2.5);
        let ratio = |stitch: Stitch, share: f64| stitch.thread_ratio(pitch, pitch * share);
        near(ratio(Stitch::Lock, 0.25), 2.5, 1e-12);
        near(ratio(Stitch::Chain, 0.5), 4.0, 1e-12);
        near(ratio(Stitch::Chain, 1.0), 5.0, 1e-12);
    }

    #[test]
    fn through_leather_the_way_through_counts_most() {
        for (stitch, count, through, expected) in [
            (Stitch::Lock, 9.0, 8.0, 7.6693),
            (Stitch::Lock, 8.0, 10.0, 8.2992),
            (Stitch::Chain, 5.0, 6.0, 5.3622),
            (Stitch::Chain, 4.0, 7.0, 5.2047),
            (Stitch::Hand, 4.0, 9.0, 4.8346),
            (Stitch::Hand, 5.0, 8.0, 5.1496),
        ] {
            let ratio = stitch.thread_ratio(per_inch(count), Millimetres(through));
            near(ratio, expected, 1e-4);
        }
        let lock = thread_metres(
            Stitch::Lock,
            Millimetres(477.3),
            per_inch(9.0),
            Millimetres(8.0),
            0.15,
        );
        near(lock, 3.661 * 1.15, 0.001);
        let hand = thread_metres(
            Stitch::Hand,
            Millimetres(467.9),
            per_inch(4.0),
            Millimetres(9.0),
            0.15,
        );
        near(hand, 2.262 + 0.5, 0.001);
        near(stitches(Millimetres(467.9), per_inch(4.0)), 74.0, 0.0);
        // 467.9086 mm of arc by numeric integration (mpmath), × (3 + 2 × 6 ÷ 5.08).
        let chain = thread_metres(
            Stitch::Chain,
            Millimetres(467.9086),
            per_inch(5.0),
            Millimetres(6.0),
            0.0,
        );
        near(chain, 2.50902, 1e-5);
    }

    /// Tex by its definition; 3.661 m of tex 270 weigh 0.988 g.
    #[test]
    fn a_pair_s_thread_weighs_what_tex_says() {
        let mm = |label, value| Input::chosen(label, value, Unit::Millimetre);
        let seam = Seam {
            stitch: Stitch::Lock,
            length: mm("seam", 477.3),
            pitch: mm("pitch", 25.4 / 9.0),
            through: mm("through", 8.0),
            tex: Input::chosen("tex", 270.0, Unit::Tex),
            waste: Input::chosen("waste", 0.15, Unit::Ratio),
        }
        .work_out();
        near(seam.weight_for_pair.value, 2.0 * 0.988 * 1.15, 0.001);
        assert_eq!(seam.stitches.amount(), "170");
        assert_eq!(seam.denier.amount(), "2430");
        assert_eq!(seam.ticket.amount(), "11.11");
    }

    proptest! {
        #[test]
        fn a_longer_or_finer_seam_never_takes_fewer_stitches(
            length in 50.0_f64..800.0, pitch in 1.5_f64..9.0, more in 0.0_f64..50.0,
        ) {
            let count = |length, pitch| stitches(Millimetres(length), Millimetres(pitch));
            prop_assert!(count(length + more, pitch) >= count(length, pitch));
            prop_assert!(count(length, pitch / 1.1) >= count(length, pitch));
            prop_assert!(count(length, pitch) * pitch >= length - 0.01 * pitch);
        }
    }
}

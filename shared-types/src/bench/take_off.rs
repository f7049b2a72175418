//! Quantities for the price, taken off the bench sheet: for a pair, without waste.
//!
//! What is wasted is said once, by the supply, so the sheet's own allowances for waste are left out
//! here. What joints and thread ends take is no waste and stays apart.

use std::collections::{BTreeMap, BTreeSet};

use serde::{Deserialize, Serialize};

use super::doubt::impossible;
use super::field::Field;
use super::filler::{FillerFigures, ShankFigures};
use super::habits::Waste;
use super::heel::Heel;
use super::insole::Insole;
use super::length::Millimetres;
use super::measure::{Measured, SeamChoice, StampedSize};
use super::sheet::seams;
use super::sole::SoleFigures;
use super::thread::{SeamFigures, Stitch};
use super::welt::{WeltFigures, WeltRun};
use crate::size::ShoeSize;
use crate::supply::{Quantity, SupplyUnit};
use crate::ticket::Construction;
use crate::ticket::at_the_counter;

/// What can be taken off a pair's bench sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum TakeOff {
    /// Strip of welt from heel breast to heel breast.
    WeltHeelToHeel,
    /// Strip of welt all the way round.
    WeltAllRound,
    /// Both outsoles.
    Outsoles,
    /// Both half soles.
    HalfSoles,
    /// Both insoles.
    Insoles,
    /// Cork sheet, all layers.
    Cork,
    /// Paste that fills the hollows.
    Filler,
    /// Strip over the shanks.
    ShankCovers,
    /// Thread of the inseams.
    Inseams,
    /// Thread of inseams that are sewn by hand.
    InseamsByHand,
    /// Thread of the outsoles' seams.
    OutsoleSeams,
    /// Thread of the outsoles' seams, if they are sewn by hand.
    OutsoleSeamsByHand,
    /// Lifts of both heel bases.
    Lifts,
    /// The edges of both outsoles.
    SoleEdges,
    /// Contact cement.
    Cement,
}

impl TakeOff {
    /// All of them, in the order in which a pair is built.
    pub const ALL: [Self; 15] = [
        Self::Insoles,
        Self::WeltHeelToHeel,
        Self::WeltAllRound,
        Self::Inseams,
        Self::InseamsByHand,
        Self::ShankCovers,
        Self::Cork,
        Self::Filler,
        Self::Cement,
        Self::Outsoles,
        Self::HalfSoles,
        Self::OutsoleSeams,
        Self::OutsoleSeamsByHand,
        Self::Lifts,
        Self::SoleEdges,
    ];

    /// Its stored code.
    pub const fn code(self) -> &'static str {
        match self {
            Self::WeltHeelToHeel => "welt-heel-to-heel",
            Self::WeltAllRound => "welt-all-round",
            Self::Outsoles => "outsoles",
            Self::HalfSoles => "half-soles",
            Self::Insoles => "insoles",
            Self::Cork => "cork",
            Self::Filler => "filler",
            Self::ShankCovers => "shank-covers",
            Self::Inseams => "inseams",
            Self::InseamsByHand => "inseams-by-hand",
            Self::OutsoleSeams => "outsole-seams",
            Self::OutsoleSeamsByHand => "outsole-seams-by-hand",
            Self::Lifts => "lifts",
            Self::SoleEdges => "sole-edges",
            Self::Cement => "cement",
        }
    }

    /// Finds one by its code.
    pub fn from_code(code: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|one| one.code() == code)
    }

    /// In a list to choose from.
    pub const fn label(self) -> &'static str {
        match self {
            Self::WeltHeelToHeel => "welt, heel to heel",
            Self::WeltAllRound => "welt, all round",
            Self::Outsoles => "outsoles",
            Self::HalfSoles => "half soles",
            Self::Insoles => "insoles",
            Self::Cork => "cork, all layers",
            Self::Filler => "filler, by volume",
            Self::ShankCovers => "shank covers, by length",
            Self::Inseams => "thread of the inseams",
            Self::InseamsByHand => "thread of the inseams, by hand",
            Self::OutsoleSeams => "thread of the outsoles",
            Self::OutsoleSeamsByHand => "thread of the outsoles, by hand",
            Self::Lifts => "lifts of the heels",
            Self::SoleEdges => "edges of the soles, by length",
            Self::Cement => "cement for the soles",
        }
    }

    /// In what it is counted.
    pub const fn unit(self) -> SupplyUnit {
        match self {
            Self::WeltHeelToHeel
            | Self::WeltAllRound
            | Self::ShankCovers
            | Self::Inseams
            | Self::InseamsByHand
            | Self::OutsoleSeams
            | Self::OutsoleSeamsByHand
            | Self::SoleEdges => SupplyUnit::Metre,
            Self::Outsoles | Self::HalfSoles | Self::Insoles | Self::Cork => {
                SupplyUnit::SquareDecimetre
            }
            Self::Filler => SupplyUnit::CubicCentimetre,
            Self::Lifts => SupplyUnit::Piece,
            Self::Cement => SupplyUnit::Gram,
        }
    }
}

/// How a quantity is known.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Known {
    /// The service always takes as much.
    #[default]
    Fixed,
    /// Worked out from what was measured on the pair.
    Measured,
    /// Worked out from the pair's size alone.
    Size,
    /// The size is not known: worked out for a usual one.
    UsualSize,
    /// The heels are not measured: as many lifts as is usual.
    UsualHeel,
}

impl Known {
    /// Whether there is nothing to say about it; for serde, which then leaves it away.
    pub const fn is_fixed(&self) -> bool {
        matches!(self, Self::Fixed)
    }

    fn words(self) -> Option<String> {
        let words = match self {
            Self::Fixed => return None,
            Self::Measured => "from what was measured on the pair".to_owned(),
            Self::Size => "worked out from the pair’s size".to_owned(),
            Self::UsualSize => format!(
                "worked out for {}, as the pair’s size is not known",
                ShoeSize::USUAL
            ),
            Self::UsualHeel => {
                "of lifts as many as is usual, as the heels are not measured".to_owned()
            }
        };
        Some(words)
    }

    /// What a reader should know of several quantities, as a sentence that names each way once.
    pub fn sentence(of: impl Iterator<Item = Self>) -> Option<String> {
        let ways: BTreeSet<Self> = of.collect();
        let words: Vec<String> = ways.into_iter().filter_map(Self::words).collect();
        (!words.is_empty()).then(|| format!("Quantities are {}.", words.join("; others ")))
    }
}

/// What one pair takes of something.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Taken {
    /// What gets into the pair.
    pub quantity: Quantity,
    /// What joints and thread ends take besides, of which nothing is wasted.
    pub ends: Quantity,
    /// Whether more than the quantity is cut.
    pub wastes: bool,
    /// How it is known.
    pub known: Known,
}

impl Taken {
    /// Always as much.
    pub const fn fixed(quantity: Quantity) -> Self {
        Self {
            quantity,
            ends: Quantity::ZERO,
            wastes: true,
            known: Known::Fixed,
        }
    }
}

/// Lifts of a pair whose heels were not measured: four to a base, common practice, no source.
const USUAL_LIFTS: f64 = 8.0;

/// All that can be taken off one pair's sheet.
#[derive(Clone, Debug, PartialEq)]
pub struct TakeOffs {
    measured: Measured,
    insole: Insole,
    sole: SoleFigures,
    lifts: Option<f64>,
    known: Known,
}

impl TakeOffs {
    /// Of a pair as it comes over the counter: its size, if that is known, and how it is built.
    pub fn of_size(size: Option<ShoeSize>, construction: Construction) -> Self {
        Self::assumed(&at_the_counter(size, construction))
    }

    /// Of a pair of which no length is believed: by its size, or by a usual one.
    pub fn assumed(measured: &Measured) -> Self {
        let known = match measured.size {
            Some(_) => Known::Size,
            None => Known::UsualSize,
        };
        let StampedSize(size) = measured.size.unwrap_or(StampedSize(ShoeSize::USUAL));
        let measured = Measured {
            size: Some(StampedSize(size)),
            lengths: BTreeMap::new(),
            ..measured.clone()
        };
        let insole = Insole::of_size(&measured, size);
        Self::new(measured, insole, known)
    }

    /// Of a pair that was measured; nothing if a length can't be, or there is nothing to go by.
    pub fn of_measured(measured: &Measured) -> Option<Self> {
        if !impossible(measured).is_empty() {
            return None;
        }
        let insole = Insole::of(measured)?;
        let known = if measured.lengths.is_empty() {
            Known::Size
        } else {
            Known::Measured
        };
        let lifts = match Heel::work_out(measured, insole.length) {
            Heel::Worked(heel) => Some(2.0 * heel.lifts.value),
            Heel::Missing(_) | Heel::Prescribed => None,
        };
        let this = Self::new(measured.clone(), insole, known);
        Some(Self { lifts, ..this })
    }

    fn new(measured: Measured, insole: Insole, known: Known) -> Self {
        let measured = Measured {
            waste: Waste::NONE,
            ..measured
        };
        Self {
            sole: SoleFigures::work_out(&measured, &insole),
            measured,
            insole,
            lifts: None,
            known,
        }
    }

    /// The size that they are worked out from, if one is known or assumed.
    pub fn size(&self) -> Option<ShoeSize> {
        self.measured.size.map(|StampedSize(size)| size)
    }

    /// How much of this the pair takes.
    pub fn of(&self, take_off: TakeOff) -> Taken {
        let sole = &self.sole;
        match take_off {
            TakeOff::WeltHeelToHeel => self.welt(WeltRun::BreastToBreast),
            TakeOff::WeltAllRound => self.welt(WeltRun::AllRound),
            TakeOff::Outsoles => self.area(2.0 * sole.outsole_area.value),
            TakeOff::HalfSoles => self.area(2.0 * sole.half_sole_area.value),
            TakeOff::Insoles => self.area(2.0 * sole.insole_area.value),
            TakeOff::Cork => self.area(self.filler().sheet_for_pair.value),
            TakeOff::Filler => self.taken(2.0 * self.filler().volume.value),
            TakeOff::ShankCovers => {
                let cover = ShankFigures::work_out(&self.insole).cover;
                self.length(Millimetres(2.0 * cover.value))
            }
            TakeOff::Inseams => {
                let choice = self.measured.inseam.unwrap_or(SeamChoice::INSEAM);
                self.thread(&self.inseam(choice))
            }
            TakeOff::InseamsByHand => {
                let own = self.measured.inseam;
                if let Some(choice) = own.filter(|seam| seam.stitch == Stitch::Hand) {
                    return self.thread(&self.inseam(choice));
                }
                // Pitch and thickness were those of a machine's seam.
                let pair = self.without([Field::InseamPitch, Field::InseamThrough]);
                pair.thread(&pair.inseam(SeamChoice::inseam_by(Stitch::Hand)))
            }
            TakeOff::OutsoleSeams => {
                let choice = self.measured.outsole_seam.unwrap_or(SeamChoice::OUTSOLE);
                self.thread(&seams::outsole(&self.measured, choice, sole))
            }
            TakeOff::OutsoleSeamsByHand => {
                let own = self.measured.outsole_seam;
                if let Some(choice) = own.filter(|seam| seam.stitch == Stitch::Hand) {
                    return self.thread(&seams::outsole(&self.measured, choice, sole));
                }
                let pair = self.without([Field::OutsolePitch]);
                let choice = SeamChoice::outsole_by(Stitch::Hand);
                pair.thread(&seams::outsole(&pair.measured, choice, sole))
            }
            TakeOff::Lifts => Taken {
                known: if self.lifts.is_some() {
                    self.known
                } else {
                    Known::UsualHeel
                },
                ..self.taken(self.lifts.unwrap_or(USUAL_LIFTS))
            },
            TakeOff::SoleEdges => self.length(Millimetres(2.0 * sole.outsole_edge.value)),
            TakeOff::Cement => self.taken(sole.cement_for_pair.value),
        }
    }

    /// The same pair without lengths that belong to another kind of work.
    fn without<const N: usize>(&self, fields: [Field; N]) -> Self {
        let mut pair = self.clone();
        for field in fields {
            pair.measured.lengths.remove(&field);
        }
        pair
    }

    fn welt(&self, welt: WeltRun) -> Taken {
        let measured = Measured {
            welt,
            ..self.measured.clone()
        };
        let way = match welt {
            WeltRun::AllRound => self.sole.insole_edge.input(),
            WeltRun::None | WeltRun::BreastToBreast => self.sole.breast_to_breast.input(),
        };
        let strip = WeltFigures::work_out(&measured, way).strip_for_pair.value;
        let net = self.length(Millimetres(2.0 * way.value));
        let ends = self.length(Millimetres(strip - 2.0 * way.value));
        Taken {
            ends: ends.quantity,
            ..net
        }
    }

    fn inseam(&self, choice: SeamChoice) -> SeamFigures {
        let way = match self.measured.welt {
            WeltRun::AllRound => self.sole.insole_edge.input(),
            WeltRun::None | WeltRun::BreastToBreast => self.sole.breast_to_breast.input(),
        };
        seams::inseam(&self.measured, choice, way)
    }

    /// A hand's thread wastes nothing but its ends, which are in it.
    fn thread(&self, seam: &SeamFigures) -> Taken {
        Taken {
            wastes: seam.stitch != Stitch::Hand,
            ..self.taken(seam.thread_for_pair.value)
        }
    }

    fn filler(&self) -> FillerFigures {
        FillerFigures::work_out(&self.measured, &self.insole)
    }

    fn length(&self, length: Millimetres) -> Taken {
        self.taken(length.0 / 1000.0)
    }

    fn area(&self, square_centimetres: f64) -> Taken {
        self.taken(square_centimetres / 100.0)
    }

    fn taken(&self, units: f64) -> Taken {
        Taken {
            quantity: thousandths(units),
            ends: Quantity::ZERO,
            wastes: true,
            known: self.known,
        }
    }
}

/// Where a measured number becomes one that is paid for: to the nearest thousandth of its unit.
#[expect(
    clippy::as_conversions,
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "no other way from a float; the cast cuts at the limits, and a quantity at its own"
)]
fn thousandths(units: f64) -> Quantity {
    Quantity::thousandths((units * 1000.0).round() as u32)
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::bench::length::Reading;
    use crate::bench::sheet::BenchSheet;
    use crate::bench::sizing::Wearer;
    use crate::size::SizeSystem;

    fn man_of_270() -> Measured {
        let mut measured = Measured {
            wearer: Some(Wearer::Man),
            ..Measured::default()
        };
        let foot = Reading::in_millimetres(270.0);
        measured.lengths.insert(Field::FootLength, foot);
        measured
    }

    /// The areas and lengths of a man's foot of 270 mm, worked out apart from this code (regressions
    /// over ANSUR II; areas confirmed with the Python package shapely 2.1.2): an outsole of
    /// 231.80 cm², 467.9 mm from breast to breast, 50 mm for the two ends of each strip.
    #[test]
    fn a_man_s_foot_of_270_takes_what_the_worked_estimate_says() {
        let pair = TakeOffs::of_measured(&man_of_270()).unwrap();
        let shown = |take_off| pair.of(take_off).quantity.to_string();
        assert_eq!(shown(TakeOff::Outsoles), "4.636");
        assert_eq!(shown(TakeOff::WeltHeelToHeel), "0.936");
        assert_eq!(pair.of(TakeOff::WeltHeelToHeel).ends.to_string(), "0.1");
        assert_eq!(pair.of(TakeOff::Lifts).known, Known::UsualHeel);
        assert_eq!(pair.of(TakeOff::Outsoles).known, Known::Measured);
    }

    /// By numeric integration of the outline (mpmath) and by hand: half soles of 127.604 cm², insoles of
    /// 192.245 cm², edges of 678.071 and 640.372 mm, shanks of 0.48 × 283.33 − 15 mm under covers 20 mm
    /// longer; cement 4 × 231.798 cm² × 2 coats of 0.015 g. The hollow of 116.89 cm² is that of a polygon
    /// library, 4 mm deep, in two sheets of 2 mm.
    #[test]
    fn every_take_off_is_for_the_pair() {
        let pair = TakeOffs::of_measured(&man_of_270()).unwrap();
        for (take_off, expected, within) in [
            (TakeOff::HalfSoles, 2.552, 0.001),
            (TakeOff::Insoles, 3.845, 0.001),
            (TakeOff::SoleEdges, 1.356, 0.001),
            (TakeOff::WeltAllRound, 1.281, 0.001),
            (TakeOff::ShankCovers, 0.282, 0.001),
            (TakeOff::Cement, 27.816, 0.01),
            (TakeOff::Cork, 4.676, 0.01),
            (TakeOff::Filler, 93.51, 0.2),
        ] {
            let found = f64::from(pair.of(take_off).quantity.get()) / 1000.0;
            assert!((found - expected).abs() <= within, "{take_off:?}: {found}");
        }
        assert_eq!(pair.of(TakeOff::WeltAllRound).ends.to_string(), "0.06");
    }

    /// By hand: 20 + 8 − 5 − 6 is a base of 17 mm, with 1.5 mm to sand four lifts of 5 mm on each heel.
    #[test]
    fn lifts_are_counted_for_both_heels_once_they_are_measured() {
        let mut measured = man_of_270();
        for (field, mm) in [
            (Field::LastPitch, 20.0),
            (Field::NewSoleAtBall, 8.0),
            (Field::NewSoleAtSeat, 5.0),
            (Field::NewTopLift, 6.0),
            (Field::Lift, 3.0),
        ] {
            let reading = Reading::in_millimetres(mm);
            measured.lengths.insert(field, reading);
        }
        let lifts = TakeOffs::of_measured(&measured).unwrap().of(TakeOff::Lifts);
        // Of 3 mm it takes seven: (17 + 1.5) ÷ 3, rounded up.
        assert_eq!(
            (lifts.quantity, lifts.known),
            (Quantity::whole(14), Known::Measured)
        );
        measured.lengths.remove(&Field::Lift);
        let lifts = TakeOffs::of_measured(&measured).unwrap().of(TakeOff::Lifts);
        assert_eq!(lifts.quantity, Quantity::whole(8));
    }

    #[test]
    fn a_hand_s_thread_wastes_nothing() {
        let pair = TakeOffs::of_measured(&man_of_270()).unwrap();
        assert!(!pair.of(TakeOff::InseamsByHand).wastes);
        assert!(!pair.of(TakeOff::OutsoleSeamsByHand).wastes);
        assert!(pair.of(TakeOff::Inseams).wastes && pair.of(TakeOff::Outsoles).wastes);
    }

    #[test]
    fn with_its_waste_a_take_off_is_the_figure_of_the_sheet() {
        let measured = man_of_270();
        let pair = TakeOffs::of_measured(&measured).unwrap();
        let sheet = BenchSheet::work_out(&measured).unwrap();
        let near = |take_off, waste: u8, figure: f64| {
            let taken = pair.of(take_off);
            let net = f64::from(taken.quantity.get()) / 1000.0;
            let ends = f64::from(taken.ends.get()) / 1000.0;
            let whole = net * (1.0 + f64::from(waste) / 100.0) + ends;
            assert!(
                (whole - figure).abs() < 0.001,
                "{take_off:?}: {whole} is not {figure}"
            );
        };
        let waste = Waste::default();
        let strip = sheet.welt.unwrap().strip_for_pair.value / 1000.0;
        near(TakeOff::WeltHeelToHeel, waste.welt, strip);
        near(
            TakeOff::Outsoles,
            waste.leather,
            sheet.sole.leather_for_pair.value / 100.0,
        );
        near(
            TakeOff::Cork,
            waste.cork,
            sheet.filler.sheet_for_pair.value / 100.0,
        );
        near(
            TakeOff::Inseams,
            waste.thread,
            sheet.inseam.unwrap().thread_for_pair.value,
        );
        near(
            TakeOff::OutsoleSeams,
            waste.thread,
            sheet.outsole_seam.unwrap().thread_for_pair.value,
        );
    }

    /// By numeric integration (mpmath) and by hand: 2 × (467.9086 mm × 2 × (1 + 9 × 4 ÷ 25.4) + 0.5 m)
    /// of inseam; 2 × (477.3334 mm × 2 × (1 + 8 × 11 ÷ 25.4) + 0.5 m) of outsole seam.
    #[test]
    fn thread_by_hand_follows_the_hand_and_not_the_machine_s_pitch() {
        let mut measured = man_of_270();
        let machine = [
            (Field::InseamPitch, "5 spi"),
            (Field::OutsolePitch, "6 spi"),
            (Field::InseamThrough, "6"),
        ];
        for (field, text) in machine {
            measured
                .lengths
                .insert(field, Reading::parse(text).unwrap());
        }
        let by_hand = |measured: &Measured| {
            let pair = TakeOffs::of_measured(measured).unwrap();
            [TakeOff::InseamsByHand, TakeOff::OutsoleSeamsByHand]
                .map(|one| pair.of(one).quantity.get())
        };
        assert_eq!(by_hand(&measured), [5_524, 9_524]);
        // Once the hand's own pitch is said, it counts: 2 × (0.9358172 × (1 + 54 ÷ 25.4) ÷ 1 + 0.5).
        measured.inseam = Some(SeamChoice::inseam_by(Stitch::Hand));
        measured
            .lengths
            .insert(Field::InseamPitch, Reading::parse("3 spi").unwrap());
        measured
            .lengths
            .insert(Field::InseamThrough, Reading::parse("9").unwrap());
        assert_eq!(by_hand(&measured)[0], 4_861);
    }

    #[test]
    fn a_pair_without_a_size_is_taken_for_a_usual_one_and_says_so() {
        let unknown = TakeOffs::of_size(None, Construction::Unknown);
        let usual = TakeOffs::of_size(Some(ShoeSize::USUAL), Construction::Unknown);
        for take_off in TakeOff::ALL {
            assert_eq!(unknown.of(take_off).quantity, usual.of(take_off).quantity);
        }
        let known = [TakeOff::Outsoles, TakeOff::Cork].map(|one| unknown.of(one).known);
        assert_eq!(
            Known::sentence(known.into_iter()).unwrap(),
            "Quantities are worked out for EU 42, as the pair’s size is not known."
        );
    }

    #[test]
    fn what_cannot_be_gives_nothing() {
        let mut measured = Measured::default();
        assert_eq!(TakeOffs::of_measured(&measured), None);
        let slip = Reading::in_millimetres(28.5);
        measured.lengths.insert(Field::InsoleLength, slip);
        assert_eq!(TakeOffs::of_measured(&measured), None);
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(20))]
        #[test]
        fn a_larger_size_never_takes_less(halves in 70_u32..100, more in 1_u32..4) {
            let size = |halves: u32| {
                let text = format!("{}.{}", halves / 2, halves % 2 * 5);
                TakeOffs::of_size(ShoeSize::parse(SizeSystem::Eu, &text).ok(), Construction::Welt270)
            };
            let (small, large) = (size(halves), size(halves + more));
            for take_off in TakeOff::ALL {
                prop_assert!(large.of(take_off).quantity >= small.of(take_off).quantity, "{take_off:?}");
            }
        }
    }
}

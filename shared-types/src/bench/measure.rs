//! What was measured or chosen for a pair; everything else takes its usual value, and says so.

use std::collections::{BTreeMap, BTreeSet};

use serde::{Deserialize, Deserializer, Serialize};

use super::field::Field;
use super::figure::{Input, Origin, Source, Unit};
use super::habits::{Tolerances, Waste};
use super::length::{Millimetres, Reading};
use super::sizing::Wearer;
use super::thread::Stitch;
use super::welt::WeltRun;
use crate::size::{ShoeSize, SizeSystem};

/// What an outsole is made of, as far as its thickness goes.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum SoleKind {
    /// Leather.
    #[default]
    Leather,
    /// Plain rubber or a thin unit.
    Rubber,
    /// Rubber with deep lugs, or a thick wedge.
    Lug,
}

/// Whether both shoes are meant to stand at the same height.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Stand {
    /// Both alike.
    #[default]
    Even,
    /// One higher than the other, on a clinician's prescription.
    Prescribed,
}

/// How a seam is to be sewn.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub struct SeamChoice {
    /// The stitch.
    pub stitch: Stitch,
    /// The thread's weight: grams for a thousand metres.
    pub tex: u16,
}

impl SeamChoice {
    /// As a machine usually sews welt and upper on.
    pub const INSEAM: Self = Self::inseam_by(Stitch::Chain);
    /// As a machine usually sews the outsole on.
    pub const OUTSOLE: Self = Self::outsole_by(Stitch::Lock);

    /// Welt, upper and insole sewn so, with a thread that is usual for it.
    ///
    /// A machine's thread is common practice, no source. A hand's has 10 to 16 strands
    /// (shoemaker.org.uk, The hand-sewn shoe): 13 of linen of 16 lea, which another maker takes
    /// (raisedheels.com, Sewing the treadsole), are 1,343 tex.
    pub const fn inseam_by(stitch: Stitch) -> Self {
        let tex = match stitch {
            Stitch::Chain | Stitch::Lock => 350,
            Stitch::Hand => 1_350,
        };
        Self { stitch, tex }
    }

    /// The outsole sewn so, with a thread that is usual for it.
    ///
    /// By hand 5 to 8 strands, from the same sources: 6½ of 16 lea are 672 tex.
    pub const fn outsole_by(stitch: Stitch) -> Self {
        let tex = match stitch {
            Stitch::Chain | Stitch::Lock => 270,
            Stitch::Hand => 670,
        };
        Self { stitch, tex }
    }

    #[expect(
        clippy::unnecessary_wraps,
        reason = "serde wants the type of the field: no seam is written as null"
    )]
    const fn inseam() -> Option<Self> {
        Some(Self::INSEAM)
    }

    #[expect(
        clippy::unnecessary_wraps,
        reason = "serde wants the type of the field: no seam is written as null"
    )]
    const fn outsole() -> Option<Self> {
        Some(Self::OUTSOLE)
    }
}

/// A seam as it is written in JSON; without a thread it takes the one that is usual for its stitch.
#[derive(Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
struct WrittenSeam {
    stitch: Stitch,
    #[serde(default, deserialize_with = "super::thread_size::read")]
    tex: Option<u16>,
}

impl WrittenSeam {
    fn or(self, usual: fn(Stitch) -> SeamChoice) -> SeamChoice {
        let usual = usual(self.stitch);
        SeamChoice {
            tex: self.tex.unwrap_or(usual.tex),
            ..usual
        }
    }
}

fn read_inseam<'de, D: Deserializer<'de>>(from: D) -> Result<Option<SeamChoice>, D::Error> {
    let written = Option::<WrittenSeam>::deserialize(from)?;
    Ok(written.map(|seam| seam.or(SeamChoice::inseam_by)))
}

fn read_outsole<'de, D: Deserializer<'de>>(from: D) -> Result<Option<SeamChoice>, D::Error> {
    let written = Option::<WrittenSeam>::deserialize(from)?;
    Ok(written.map(|seam| seam.or(SeamChoice::outsole_by)))
}

/// How far the filler goes.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum FillerRun {
    /// From heel breast to toe.
    #[default]
    Whole,
    /// The forepart alone.
    Forepart,
}

/// All that is known of one pair. Its JSON is what the command line reads.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub struct Measured {
    /// The pair in a few words, for the head of the sheet.
    #[serde(default)]
    pub pair: String,
    /// The size that is stamped, if one can be read.
    #[serde(default)]
    pub size: Option<StampedSize>,
    /// For whom it was made, if known.
    #[serde(default)]
    pub wearer: Option<Wearer>,
    /// How far the welt goes round.
    #[serde(default)]
    pub welt: WeltRun,
    /// The seam that holds welt, upper and insole; none if it is left alone.
    #[serde(default = "SeamChoice::inseam", deserialize_with = "read_inseam")]
    pub inseam: Option<SeamChoice>,
    /// The seam that holds the outsole; none if the sole is only cemented.
    #[serde(default = "SeamChoice::outsole", deserialize_with = "read_outsole")]
    pub outsole_seam: Option<SeamChoice>,
    /// How far the filler goes.
    #[serde(default)]
    pub filler: FillerRun,
    /// What the old outsole is.
    #[serde(default)]
    pub old_sole: SoleKind,
    /// What the new outsole is.
    #[serde(default)]
    pub new_sole: SoleKind,
    /// Whether both shoes are meant to stand alike.
    #[serde(default)]
    pub stand: Stand,
    /// Whether the pair carries a mark of safety, electrical-hazard or antistatic footwear.
    #[serde(default)]
    pub safety_rated: bool,
    /// Lengths, each with the unit in which it was written.
    #[serde(default)]
    pub lengths: BTreeMap<Field, Reading>,
    /// Nails at hand, by length in millimetres.
    #[serde(
        default = "super::nails::usual_lengths",
        deserialize_with = "super::habits::read_nails"
    )]
    pub nails: Vec<Millimetres>,
    /// What is wasted.
    #[serde(default)]
    pub waste: Waste,
    /// How far a heel may be off.
    #[serde(default)]
    pub tolerances: Tolerances,
    /// Fields which somebody has looked at again and found right.
    #[serde(default)]
    pub confirmed: BTreeSet<Field>,
}

impl Default for Measured {
    fn default() -> Self {
        Self {
            pair: String::new(),
            size: None,
            wearer: None,
            welt: WeltRun::default(),
            inseam: SeamChoice::inseam(),
            outsole_seam: SeamChoice::outsole(),
            filler: FillerRun::default(),
            old_sole: SoleKind::default(),
            new_sole: SoleKind::default(),
            stand: Stand::default(),
            safety_rated: false,
            lengths: BTreeMap::new(),
            nails: super::nails::usual_lengths(),
            waste: Waste::default(),
            tolerances: Tolerances::default(),
            confirmed: BTreeSet::new(),
        }
    }
}

impl Measured {
    /// A pair of which only the size is known.
    pub fn of_size(size: ShoeSize) -> Self {
        Self {
            size: Some(StampedSize(size)),
            ..Self::default()
        }
    }

    /// For whom the pair was made: as told, or as its size's system has it.
    pub fn wearer(&self) -> Wearer {
        let told = self.wearer;
        let stamped = self.size.map(|size| Wearer::of(size.0.system()));
        told.or(stamped).unwrap_or(Wearer::Adult)
    }

    /// A length, if it was measured or chosen.
    pub fn length(&self, field: Field) -> Option<Millimetres> {
        self.lengths
            .get(&field)
            .map(|reading| reading.millimetres())
    }

    /// A length as an input, if it was measured or chosen.
    pub fn input(&self, field: Field) -> Option<Input> {
        self.length(field).map(|length| Input {
            label: field.label(),
            value: length.0,
            within: field.tolerance().0,
            unit: Unit::Millimetre,
            origin: if field.is_choice() {
                Origin::Chosen
            } else {
                Origin::Measured
            },
        })
    }

    /// A length as an input: measured, or what it usually is. A field without a usual value is zero.
    pub fn given(&self, field: Field) -> Input {
        let zero = (Millimetres(0.0), Millimetres(0.0));
        let (usual, within) = field.usual().unwrap_or(zero);
        self.input_or(field, usual.0, within.0)
    }

    /// A length as an input; if it was not measured, `usual` within a tolerance, by common practice.
    pub fn input_or(&self, field: Field, usual: f64, within: f64) -> Input {
        self.input(field).unwrap_or_else(|| {
            Input::usual(field.label(), usual, Unit::Millimetre, Source::Practice)
                .known_within(within)
        })
    }
}

/// The size that is stamped in the shoe: `{"system": "eu", "number": "44"}`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct StampedSize(pub ShoeSize);

/// A size as it is written in JSON.
#[derive(Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
struct Written {
    system: SizeSystem,
    number: WrittenNumber,
}

/// `44` and `"9.5 D"` alike.
#[derive(Serialize, Deserialize)]
#[serde(untagged)]
enum WrittenNumber {
    Text(String),
    Number(f64),
}

impl Serialize for StampedSize {
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let written = Written {
            system: self.0.system(),
            number: WrittenNumber::Text(self.0.figure()),
        };
        written.serialize(serializer)
    }
}

impl<'de> Deserialize<'de> for StampedSize {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let Written { system, number } = Written::deserialize(deserializer)?;
        let number = match number {
            WrittenNumber::Text(text) => text,
            WrittenNumber::Number(number) => number.to_string(),
        };
        ShoeSize::parse(system, &number)
            .map(Self)
            .map_err(serde::de::Error::custom)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_size_alone_is_enough_and_the_rest_is_usual() {
        let json = r#"{"size": {"system": "us-women", "number": "7.5"}}"#;
        let read: Measured = serde_json::from_str(json).unwrap();
        let size = ShoeSize::parse(SizeSystem::UsWomen, "7.5").unwrap();
        assert_eq!(read, Measured::of_size(size));
        assert_eq!(read.wearer(), Wearer::Woman);
    }

    #[test]
    fn what_was_measured_comes_back_as_it_was_written() {
        let json = r#"{"lengths": {"insole-length": 285, "new-sole-at-ball": "9 iron"}, "outsole-seam": null}"#;
        let read: Measured = serde_json::from_str(json).unwrap();
        let again: Measured = serde_json::from_str(&serde_json::to_string(&read).unwrap()).unwrap();
        assert_eq!(read, again);
        assert_eq!(read.outsole_seam, None);
        assert_eq!(read.inseam, Some(SeamChoice::INSEAM));
        assert_eq!(read.length(Field::NewSoleAtBall), Some(Millimetres(4.7625)));
    }

    #[test]
    fn a_slip_in_a_name_or_a_size_is_said() {
        for json in [
            r#"{"lenghts": {}}"#,
            r#"{"lengths": {"insole-lenght": 285}}"#,
            r#"{"size": {"system": "uk", "number": "44"}}"#,
        ] {
            assert!(serde_json::from_str::<Measured>(json).is_err(), "{json}");
        }
    }
}

//! What the bench measured and chose for a pair, as the pair's record keeps it.
//!
//! Only what somebody said is in here. What a pair is, what is agreed on it and what is usual come in
//! when [`Measurements::measured`] puts a [`Measured`] together. Lengths are kept as they were
//! written, unit and all, so the record's JSON holds no fractions.

use std::collections::{BTreeMap, BTreeSet};

use serde::{Deserialize, Serialize};

use super::field::Field;
use super::length::Reading;
use super::measure::{FillerRun, Measured, SeamChoice, SoleKind, StampedSize, Stand};
use super::sizing::Wearer;
use super::welt::WeltRun;

/// What is to become of a seam.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum SeamPlan {
    /// As the pair is built and the agreed work has it.
    #[default]
    AsBuilt,
    /// It is left alone, or there is none.
    LeftAlone,
    /// It is sewn so.
    Sewn(SeamChoice),
}

impl SeamPlan {
    fn or(self, built: Option<SeamChoice>) -> Option<SeamChoice> {
        match self {
            Self::AsBuilt => built,
            Self::LeftAlone => None,
            Self::Sewn(choice) => Some(choice),
        }
    }
}

/// What was measured and chosen. Whatever is not in here follows from the pair, or is usual.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", default)]
pub struct Measurements {
    /// The size, where the bench could read what the counter could not.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub size: Option<StampedSize>,
    /// For whom the pair was made.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub wearer: Option<Wearer>,
    /// How far the welt goes, where it is not as the pair was taken in.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub welt: Option<WeltRun>,
    /// The seam that holds welt, upper and insole.
    pub inseam: SeamPlan,
    /// The seam that holds the outsole.
    pub outsole_seam: SeamPlan,
    /// How far the filler goes.
    pub filler: FillerRun,
    /// What the old outsole is.
    pub old_sole: SoleKind,
    /// What the new outsole is, where the agreed work does not say it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub new_sole: Option<SoleKind>,
    /// Whether both shoes are meant to stand alike, where the agreed work does not say it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub stand: Option<Stand>,
    /// Lengths, as they were written.
    pub lengths: BTreeMap<Field, Reading>,
    /// Fields that looked wrong and were looked at again.
    pub confirmed: BTreeSet<Field>,
}

impl Measurements {
    /// Puts them over what is `known` of the pair already.
    #[must_use]
    pub fn measured(&self, known: Measured) -> Measured {
        Measured {
            size: self.size.or(known.size),
            wearer: self.wearer.or(known.wearer),
            welt: self.welt.unwrap_or(known.welt),
            inseam: self.inseam.or(known.inseam),
            outsole_seam: self.outsole_seam.or(known.outsole_seam),
            filler: self.filler,
            old_sole: self.old_sole,
            new_sole: self.new_sole.unwrap_or(known.new_sole),
            stand: self.stand.unwrap_or(known.stand),
            lengths: self.lengths.clone(),
            confirmed: self.confirmed.clone(),
            ..known
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::bench::thread::Stitch;
    use crate::digest::canonical_json;

    fn measurements() -> Measurements {
        let reading = |text| Reading::parse(text).unwrap();
        Measurements {
            outsole_seam: SeamPlan::Sewn(SeamChoice {
                stitch: Stitch::Hand,
                tex: 350,
            }),
            lengths: [
                (Field::InsoleLength, reading("285")),
                (Field::NewSoleAtBall, reading("9 iron")),
                (Field::Lift, reading("3/16 in")),
                (Field::OutsolePitch, reading("9 per inch")),
            ]
            .into(),
            confirmed: [Field::InsoleLength].into(),
            ..Measurements::default()
        }
    }

    #[test]
    fn a_record_keeps_lengths_as_they_were_written() {
        let json = canonical_json(&measurements()).unwrap();
        assert!(json.contains(r#""new-sole-at-ball":"9 iron""#), "{json}");
        assert!(json.contains(r#""lift":"0.1875 in""#), "{json}");
        let again: Measurements = serde_json::from_str(&json).unwrap();
        assert_eq!(again, measurements());
        assert_eq!(canonical_json(&again).unwrap(), json);
    }

    #[test]
    fn what_was_not_said_stays_as_it_is_known() {
        let known = Measured {
            welt: WeltRun::AllRound,
            safety_rated: true,
            ..Measured::default()
        };
        let both = measurements().measured(known.clone());
        assert_eq!(both.welt, WeltRun::AllRound);
        assert!(both.safety_rated);
        assert_eq!(both.inseam, known.inseam);
        let stitch = both.outsole_seam.map(|seam| seam.stitch);
        assert_eq!(stitch, Some(Stitch::Hand));
        assert_eq!(Measurements::default().measured(known.clone()), known);
    }
}

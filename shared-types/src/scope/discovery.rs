//! What a teardown can show, in words for bench and customer, and which conditions it breaks.

use serde::{Deserialize, Serialize};

use crate::scope::rules::condition::Condition;

/// Where on the pair a discovery is, in the order in which a form groups them.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Place {
    /// The inside as a whole.
    Inside,
    /// Insole.
    Insole,
    /// Rib.
    Rib,
    /// Welt.
    Welt,
    /// Filler and shank.
    FillerAndShank,
    /// Heel seat, heel base and what stands on it.
    Heel,
    /// Midsole, old sole and unit sole.
    Sole,
    /// Upper, counter, lining and zip.
    Upper,
    /// Safety parts.
    SafetyParts,
    /// What an earlier repair left.
    EarlierRepair,
}

impl Place {
    /// All places in order.
    pub const ALL: [Self; 10] = [
        Self::Inside,
        Self::Insole,
        Self::Rib,
        Self::Welt,
        Self::FillerAndShank,
        Self::Heel,
        Self::Sole,
        Self::Upper,
        Self::SafetyParts,
        Self::EarlierRepair,
    ];

    /// Its name above a group.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Inside => "Inside",
            Self::Insole => "Insole",
            Self::Rib => "Rib",
            Self::Welt => "Welt",
            Self::FillerAndShank => "Filler and shank",
            Self::Heel => "Heel",
            Self::Sole => "Sole",
            Self::Upper => "Upper",
            Self::SafetyParts => "Safety parts",
            Self::EarlierRepair => "Earlier repair",
        }
    }
}

macro_rules! discoveries {
    ($($name:ident, $code:literal, $place:ident, [$($breaks:ident),*], $bench:literal, $customer:literal);* $(;)?) => {
        /// Damage that the teardown showed.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
        pub enum Discovery {
            $(#[doc = $bench] #[serde(rename = $code)] $name,)*
        }

        impl Discovery {
            /// All discoveries, grouped by place.
            pub const ALL: &[Self] = &[$(Self::$name),*];

            /// Its stored code, which stays the same for ever.
            pub const fn code(self) -> &'static str {
                match self { $(Self::$name => $code),* }
            }

            /// Where it is.
            pub const fn place(self) -> Place {
                match self { $(Self::$name => Place::$place),* }
            }

            /// What no longer holds.
            pub const fn breaks(self) -> &'static [Condition] {
                match self { $(Self::$name => &[$(Condition::$breaks),*]),* }
            }

            /// Its title for the bench.
            pub const fn for_bench(self) -> &'static str {
                match self { $(Self::$name => $bench),* }
            }

            /// What the customer reads: a whole sentence without jargon.
            pub const fn for_customer(self) -> &'static str {
                match self { $(Self::$name => $customer),* }
            }
        }
    };
}

discoveries! {
    Damp, "damp", Inside, [TakesCement], "Damp inside",
        "It is damp inside, and glue does not hold on damp leather.";
    Mould, "mould", Inside, [TakesCement], "Mould inside",
        "There is mould inside.";
    Grease, "grease", Inside, [TakesCement], "Oil or grease in the bottom",
        "Oil or grease has soaked into the bottom, and glue does not hold on it.";
    InsoleCracked, "insole-cracked", Insole, [InsoleSound], "Insole cracked across the ball",
        "The insole, the base that you stand on, is cracked where the foot bends.";
    InsoleBroken, "insole-broken", Insole, [InsoleSound, InsolePatchable],
        "Insole broken through or brittle",
        "The insole, the base that you stand on, is broken through or too brittle to mend.";
    RibLoosePart, "rib-loose-part", Rib, [RibSound], "Rib loose, less than a third",
        "The rib, the ridge inside to which everything is sewn, has come loose in places.";
    RibLooseMost, "rib-loose-most", Rib, [RibSound, RibGluable], "Rib loose, a third or more",
        "The rib, the ridge inside to which everything is sewn, has come loose along most of its \
         length.";
    RibTorn, "rib-torn", Rib, [RibSound, RibGluable], "Rib torn or holdfast worn out",
        "The rib, the ridge inside to which everything is sewn, is torn.";
    WeltSplitShort, "welt-split-short", Welt, [WeltSound], "Welt split in one place, up to 80 mm",
        "The welt, the strip to which the sole is sewn, is split in one short place.";
    WeltSplitLong, "welt-split-long", Welt, [WeltSound, WeltSpliceable],
        "Welt split or worn along the ball or in several places",
        "The welt, the strip to which the sole is sewn, is split along the front of the shoe.";
    WeltHoled, "welt-holed", Welt, [WeltSound, WeltSpliceable], "Welt full of old stitch holes",
        "The welt, the strip to which the sole is sewn, has too many old holes to hold a new seam.";
    FillerCrumbled, "filler-crumbled", FillerAndShank, [FillerSound, FillerLevel],
        "Filler crumbled or gone",
        "The cork under the foot has crumbled to dust.";
    FillerPressed, "filler-pressed", FillerAndShank, [FillerLevel], "Filler pressed hollow",
        "The cork under the foot is pressed hollow.";
    ShankBroken, "shank-broken", FillerAndShank, [ShankFirm], "Shank broken, bent or rusted through",
        "The shank, the stiff spring under the arch, is rusted or broken.";
    ShankBare, "shank-bare", FillerAndShank, [ShankQuiet], "Shank firm, but bare or creaking",
        "The shank, the stiff spring under the arch, lies bare and can creak.";
    HeelBaseCrumbling, "heel-base-crumbling", Heel, [HeelBaseSound], "Heel base crumbling",
        "The body of the heel falls apart, so that nothing can be nailed to it.";
    HeelBaseSplit, "heel-base-split", Heel, [HeelBaseSound], "Heel base split or lifts loose",
        "The body of the heel is split or its layers have come loose.";
    HeelSeatRusted, "heel-seat-rusted", Heel, [HeelSeatSound], "Nails rusted through the heel seat",
        "Old nails have rusted through the place where the heel is fixed, and new ones would not \
         hold.";
    MidsoleCrumbling, "midsole-crumbling", Sole, [MidsoleSound], "Midsole crumbling",
        "The layer between shoe and sole crumbles, and glue does not hold to it.";
    SoleBroken, "sole-broken", Sole, [SoleSound], "Sole cracked across or worn beyond the ball",
        "The old sole is cracked across or worn further back than a half sole would cover.";
    UnitBroken, "unit-broken", Sole, [UnitSound], "Unit sole worn through or split",
        "The sole is moulded in one piece with its heel, and it is worn through or split.";
    UpperTornAtEdge, "upper-torn-at-edge", Upper, [UpperEdgeSound], "Upper torn at the feather line",
        "The leather is torn where it meets the sole.";
    UpperTorn, "upper-torn", Upper, [UpperSound], "Upper torn or worn through elsewhere",
        "The leather of the upper is torn or worn through.";
    CounterSoft, "counter-soft", Upper, [CounterFirm], "Counter soft",
        "The stiff piece that holds your heel has gone soft.";
    LiningWorn, "lining-worn", Upper, [LiningSound], "Heel lining worn through",
        "The lining at the heel is worn through.";
    ZipBroken, "zip-broken", Upper, [ZipSound], "Zip broken",
        "The zip does not close any more.";
    ToeCapDamaged, "toe-cap-damaged", SafetyParts, [SafetyPartsWhole], "Safety toe cap damaged",
        "The protective toe cap is damaged.";
    PlateDamaged, "plate-damaged", SafetyParts, [SafetyPartsWhole],
        "Puncture plate bent, cracked or rusted",
        "The plate that protects against nails from below is damaged.";
    UnequalHeels, "unequal-heels", EarlierRepair, [HeelsLevel],
        "Heels of unequal height from an earlier repair",
        "An earlier repair left the two heels at different heights.";
    NailedWelt, "nailed-welt", EarlierRepair, [WeltSound, WeltSpliceable],
        "Welt nailed or stapled through by an earlier repair",
        "An earlier repair put nails through the welt, the strip to which the sole is sewn.";
}

impl Discovery {
    /// Finds a discovery by its code.
    pub fn from_code(code: &str) -> Option<Self> {
        Self::ALL.iter().copied().find(|one| one.code() == code)
    }
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use super::*;

    #[test]
    fn codes_lead_back_to_their_discovery_and_are_what_is_stored() {
        for discovery in Discovery::ALL {
            assert_eq!(Discovery::from_code(discovery.code()), Some(*discovery));
            let stored = serde_json::to_string(discovery).unwrap();
            assert_eq!(stored, format!("\"{}\"", discovery.code()));
        }
    }

    #[test]
    fn every_place_has_discoveries_and_every_condition_can_be_broken() {
        let places: BTreeSet<_> = Discovery::ALL.iter().map(|one| one.place()).collect();
        assert!(places.into_iter().eq(Place::ALL));
        let broken: BTreeSet<_> = Discovery::ALL.iter().flat_map(|one| one.breaks()).collect();
        assert!(broken.into_iter().eq(Condition::ALL));
    }

    #[test]
    fn discoveries_are_listed_place_by_place() {
        assert!(Discovery::ALL.is_sorted_by_key(|one| one.place()));
    }
}

//! What a pair must be sound in before work can be built on it. Everything is taken to be sound
//! until the teardown shows otherwise.

use serde::{Deserialize, Serialize};

macro_rules! conditions {
    ($($(#[$doc:meta])* $name:ident, $code:literal, $holds:literal, $broken:literal);* $(;)?) => {
        /// A part or a property of a pair that work relies on. Without a discovery to the
        /// contrary, it holds.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
        pub enum Condition {
            $($(#[$doc])* #[serde(rename = $code)] $name,)*
        }

        impl Condition {
            /// All conditions, from the inside of the shoe outwards.
            pub const ALL: &[Self] = &[$(Self::$name),*];

            /// Its stored code.
            pub const fn code(self) -> &'static str {
                match self { $(Self::$name => $code),* }
            }

            /// What holds, to follow "needs": `a sound welt`.
            pub const fn holds(self) -> &'static str {
                match self { $(Self::$name => $holds),* }
            }

            /// What is wrong when it does not hold, as a clause: `the welt is not sound`.
            pub const fn broken(self) -> &'static str {
                match self { $(Self::$name => $broken),* }
            }
        }
    };
}

conditions! {
    /// Cement holds: neither damp nor mould nor grease.
    TakesCement, "takes-cement", "a dry and clean inside", "cement will not hold inside it";
    /// The insole is whole.
    InsoleSound, "insole-sound", "a sound insole", "the insole is not sound";
    /// If the insole is cracked, a patch can hold it.
    InsolePatchable, "insole-patchable", "an insole that takes a patch",
        "the insole is too far gone for a patch";
    /// The rib, glued or carved, holds.
    RibSound, "rib-sound", "a sound rib", "the rib has let go";
    /// If the rib is loose, glue can hold it.
    RibGluable, "rib-gluable", "a rib that glue can hold", "the rib is too far gone for glue";
    /// The welt holds a seam all along.
    WeltSound, "welt-sound", "a sound welt", "the welt is not sound";
    /// If the welt is damaged, it is in one short place.
    WeltSpliceable, "welt-spliceable", "a welt that is damaged in one short place only",
        "the welt is damaged along more than one short place";
    /// The filler is whole and does not crumble.
    FillerSound, "filler-sound", "sound filler", "the filler has crumbled";
    /// The filler lies level.
    FillerLevel, "filler-level", "level filler", "the filler is pressed hollow";
    /// The shank carries.
    ShankFirm, "shank-firm", "a firm shank", "the shank no longer carries";
    /// The shank is covered and does not creak.
    ShankQuiet, "shank-quiet", "a covered shank", "the shank lies bare";
    /// The heel base is whole.
    HeelBaseSound, "heel-base-sound", "a sound heel base", "the heel base is not sound";
    /// Nails hold in the heel seat.
    HeelSeatSound, "heel-seat-sound", "a heel seat that holds nails",
        "nails do not hold in the heel seat";
    /// Both heels have one height.
    HeelsLevel, "heels-level", "heels of one height", "the heels differ in height";
    /// The midsole, if there is one, is whole and glue holds to it.
    MidsoleSound, "midsole-sound", "a sound midsole", "the midsole is not sound";
    /// The old sole is whole where it is to stay.
    SoleSound, "sole-sound", "an old sole that is whole", "the old sole is broken";
    /// A moulded unit is whole.
    UnitSound, "unit-sound", "a unit sole that is whole", "the unit sole is worn through or broken";
    /// The upper is whole where it meets the bottom.
    UpperEdgeSound, "upper-edge-sound", "an upper that is whole at its lower edge",
        "the upper is torn where it meets the sole";
    /// The upper is whole elsewhere.
    UpperSound, "upper-sound", "a whole upper", "the upper is torn or worn through";
    /// The counter is stiff.
    CounterFirm, "counter-firm", "a firm counter", "the counter has gone soft";
    /// The heel lining is whole.
    LiningSound, "lining-sound", "a whole lining", "the lining is worn through";
    /// The zip closes.
    ZipSound, "zip-sound", "a zip that closes", "the zip does not close";
    /// Toe cap and plate are undamaged.
    SafetyPartsWhole, "safety-parts-whole", "undamaged safety parts", "a safety part is damaged";
}

impl Condition {
    /// Finds a condition by its code.
    pub fn from_code(code: &str) -> Option<Self> {
        Self::ALL.iter().copied().find(|one| one.code() == code)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn codes_lead_back_to_their_condition_and_are_what_is_stored() {
        for condition in Condition::ALL {
            assert_eq!(Condition::from_code(condition.code()), Some(*condition));
            let stored = serde_json::to_string(condition).unwrap();
            assert_eq!(stored, format!("\"{}\"", condition.code()));
        }
    }
}

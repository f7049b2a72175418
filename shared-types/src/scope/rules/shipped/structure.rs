//! Shipped rules for welt, filler and shank.

use super::row::On::{Built, BuiltAndFound, Every, Found};
use super::row::Says::{Mends, NeedsLine, NeedsSound, OneOf, Spares, Together, Unfit};
use super::row::{Row, WELTED, row};
use super::services::{
    FILLER, HAND_SEWN_INSOLE, LEATHER_SOLES, LEATHER_WELT, LUGGED_SOLES, NEW_RIB, NEW_WELTS,
    PUT_BACK, RIB_REGLUED, RUBBER_SOLES, SHANK_COVERS, SHANKS, SOLES, SYNTHETIC_WELT, TEARDOWN,
    UPPER_PANEL, UPPER_PATCHED, WELT_ALL_ROUND, WELT_SPLICED, WELTS,
};
use crate::scope::discovery::Discovery;
use crate::scope::rules::condition::Condition;
use crate::ticket::Construction;

/// Built without a welt.
const NO_WELT: &[Construction] = &[
    Construction::BlakeStitched,
    Construction::StitchDown,
    Construction::Cemented,
    Construction::Moulded,
];

pub(super) const ROWS: &[Row] = &[
    // Welt.
    row(
        "welt-needs-rib",
        Every,
        NeedsSound(WELTS, Condition::RibSound),
        "The welt is sewn to the rib.",
        "The welt is sewn to the rib inside, and a loose rib doesn't hold it.",
    ),
    row(
        "new-welt-needs-filler",
        Every,
        NeedsLine(NEW_WELTS, &[FILLER]),
        "A new inseam disturbs the filler.",
        "Sewing on a new welt breaks up the cork under the foot.",
    ),
    row(
        "welt-needs-upper-edge",
        Every,
        NeedsSound(WELTS, Condition::UpperEdgeSound),
        "The inseam goes through the upper: mend the tear before the welt is sewn.",
        "The welt is sewn through the leather of the upper, which has to be whole there.",
    ),
    row(
        "splice-needs-short-damage",
        Every,
        NeedsSound(&[WELT_SPLICED], Condition::WeltSpliceable),
        "A splice is for one damaged length of at most 80 mm.",
        "Too much of the welt is damaged to replace only a piece of it.",
    ),
    row(
        "welt-remedies",
        Built(&[Construction::Welt270, Construction::HandWelted]),
        Mends(
            Condition::WeltSound,
            &[LEATHER_WELT, WELT_ALL_ROUND, SYNTHETIC_WELT, WELT_SPLICED],
        ),
        "Leather can be resoled most often; synthetic may split again; a splice stays visible.",
        "The sole is sewn to the welt, which has to hold it.",
    ),
    row(
        "welt-remedies-all-round",
        Built(&[Construction::Welt360]),
        Mends(
            Condition::WeltSound,
            &[WELT_ALL_ROUND, LEATHER_WELT, SYNTHETIC_WELT, WELT_SPLICED],
        ),
        "A welt that goes all round is best renewed all round.",
        "The sole is sewn to the welt, which has to hold it.",
    ),
    row(
        "one-welt",
        Every,
        OneOf(WELTS),
        "One remedy for the welt.",
        "The welt needs one of these only.",
    ),
    row(
        "new-welt-spares-splice",
        Every,
        Spares(NEW_WELTS, &[WELT_SPLICED]),
        "A new welt leaves nothing to splice.",
        "With a new welt there is no old one to mend.",
    ),
    row(
        "no-welt-no-rib",
        Built(NO_WELT),
        Unfit(&[
            RIB_REGLUED,
            NEW_RIB,
            HAND_SEWN_INSOLE,
            WELT_SPLICED,
            LEATHER_WELT,
            SYNTHETIC_WELT,
            WELT_ALL_ROUND,
        ]),
        "This construction has neither rib nor welt.",
        "This pair is built without a welt.",
    ),
    row(
        "torn-edge-needs-welt",
        BuiltAndFound(WELTED, &[Discovery::UpperTornAtEdge]),
        NeedsLine(&[UPPER_PATCHED, UPPER_PANEL], WELTS),
        "To get at a tear in the feather line, the inseam is opened: splice or renew the welt there.",
        "The tear runs under the welt, which is opened there to get at it.",
    ),
    // Filler and shank.
    row(
        "filler-needs-shank",
        Every,
        NeedsSound(&[FILLER], Condition::ShankFirm),
        "The filler closes over the shank.",
        "New cork closes over the shank, the stiff spring under the arch, which has to be firm.",
    ),
    row(
        "shank-remedies",
        Every,
        Mends(Condition::ShankFirm, &[SHANKS]),
        "A broken or rusted shank is renewed.",
        "The shank, the stiff spring under the arch, has to carry you.",
    ),
    row(
        "bare-shank-remedies",
        Every,
        Mends(Condition::ShankQuiet, &[SHANK_COVERS]),
        "A cover stops squeaks and print-through.",
        "A bare shank can creak.",
    ),
    row(
        "filler-remedies",
        Every,
        Mends(Condition::FillerSound, &[FILLER]),
        "Crumbled filler is renewed.",
        "Without firm cork under the foot the new sole would not lie flat.",
    ),
    row(
        "level-remedies",
        Every,
        Mends(Condition::FillerLevel, &[FILLER]),
        "Pressed filler is renewed.",
        "Fresh cork makes the shoe level under the foot again.",
    ),
    row(
        "filler-while-open",
        Found(&[Discovery::FillerPressed]),
        Together(SOLES, FILLER, &[TEARDOWN, PUT_BACK]),
        "The bottom is open: fill it now.",
        "The shoe is open anyway, so the cork is best renewed now.",
    ),
    row(
        "shank-cover-while-open",
        Found(&[Discovery::ShankBare, Discovery::ShankBroken]),
        Together(
            &[LEATHER_SOLES, RUBBER_SOLES, LUGGED_SOLES, SHANKS, FILLER],
            SHANK_COVERS,
            &[TEARDOWN, PUT_BACK],
        ),
        "The bottom is open: cover the shanks now.",
        "The shoe is open anyway, so the spring under the arch is best covered now; bare, it can \
         creak.",
    ),
];

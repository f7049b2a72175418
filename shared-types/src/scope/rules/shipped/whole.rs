//! Shipped rules for the pair as a whole: opening, damp, upper, safety, and going home as it is.

use super::row::On::{Every, Protective};
use super::row::Says::{Excludes, Mends, NeedsLine, NeedsSound, Spares, Unfit};
use super::row::{Row, row};
use super::services::{
    DRIED, EDGES, FIBRE_BASES, FILLER, HALF_SOLES, HAND_SEWN_INSOLE, HEEL_EDGES, HEEL_LININGS,
    INSOLE_PATCHED, LEATHER_BASES, LEATHER_SOLES, LEATHER_WELT, LINING_PATCHED, LUGGED_SOLES,
    MIDSOLES, NEW_INSOLE, NEW_RIB, PRESCRIBED_LIFT, PUT_BACK, RIB_REGLUED, RUBBER_BLOCKS,
    RUBBER_SOLES, SEAT_PIECES, SEATS_RENAILED, SHANK_COVERS, SHANKS, STITCHED, STITCHED_BY_HAND,
    SYNTHETIC_WELT, TEARDOWN, THIN_RUBBER, TOP_LIFTS, UNIT_SOLES, UPPER_PANEL, UPPER_PATCHED,
    WELT_ALL_ROUND, WELT_SPLICED, ZIP,
};
use crate::scope::rules::condition::Condition;

/// Done on an open bottom only.
const OPEN: &[u8] = &[
    PUT_BACK,
    RIB_REGLUED,
    NEW_RIB,
    HAND_SEWN_INSOLE,
    INSOLE_PATCHED,
    NEW_INSOLE,
    LEATHER_WELT,
    SYNTHETIC_WELT,
    WELT_ALL_ROUND,
    SHANKS,
    SHANK_COVERS,
    FILLER,
    MIDSOLES,
    LEATHER_SOLES,
    RUBBER_SOLES,
    LUGGED_SOLES,
    SEATS_RENAILED,
    SEAT_PIECES,
    UNIT_SOLES,
];

/// Held by cement.
const CEMENTED: &[u8] = &[
    RIB_REGLUED,
    NEW_RIB,
    HAND_SEWN_INSOLE,
    INSOLE_PATCHED,
    NEW_INSOLE,
    FILLER,
    MIDSOLES,
    LEATHER_SOLES,
    RUBBER_SOLES,
    LUGGED_SOLES,
    HALF_SOLES,
    THIN_RUBBER,
    FIBRE_BASES,
    LEATHER_BASES,
    RUBBER_BLOCKS,
    SEAT_PIECES,
    UNIT_SOLES,
    UPPER_PATCHED,
    HEEL_LININGS,
    LINING_PATCHED,
];

/// Everything between teardown and the finished edge.
const BOTTOM: &[u8] = &[
    RIB_REGLUED,
    NEW_RIB,
    HAND_SEWN_INSOLE,
    INSOLE_PATCHED,
    NEW_INSOLE,
    WELT_SPLICED,
    LEATHER_WELT,
    SYNTHETIC_WELT,
    WELT_ALL_ROUND,
    SHANKS,
    SHANK_COVERS,
    FILLER,
    MIDSOLES,
    LEATHER_SOLES,
    RUBBER_SOLES,
    LUGGED_SOLES,
    HALF_SOLES,
    THIN_RUBBER,
    STITCHED,
    STITCHED_BY_HAND,
    TOP_LIFTS,
    FIBRE_BASES,
    LEATHER_BASES,
    RUBBER_BLOCKS,
    PRESCRIBED_LIFT,
    EDGES,
    HEEL_EDGES,
    SEATS_RENAILED,
    SEAT_PIECES,
    UNIT_SOLES,
];

/// What a customer would lean on after damage to a safety part.
const TRUSTED: &[u8] = &[
    HAND_SEWN_INSOLE,
    INSOLE_PATCHED,
    NEW_INSOLE,
    MIDSOLES,
    LEATHER_SOLES,
    RUBBER_SOLES,
    LUGGED_SOLES,
    HALF_SOLES,
    THIN_RUBBER,
    STITCHED,
    STITCHED_BY_HAND,
    TOP_LIFTS,
    FIBRE_BASES,
    LEATHER_BASES,
    RUBBER_BLOCKS,
    PRESCRIBED_LIFT,
    UNIT_SOLES,
];

pub(super) const ROWS: &[Row] = &[
    row(
        "open-first",
        Every,
        NeedsLine(OPEN, &[TEARDOWN]),
        "The bottom has to be open for it.",
        "The shoe has to be opened for it.",
    ),
    row(
        "as-it-was-or-repaired",
        Every,
        Excludes(&[PUT_BACK], BOTTOM),
        "A pair is put back as it was, or repaired.",
        "The pair goes home as it was, or repaired.",
    ),
    row(
        "cement-needs-dry",
        Every,
        NeedsSound(CEMENTED, Condition::TakesCement),
        "Cement doesn't hold on damp, mould or grease.",
        "Glue doesn't hold on leather that is damp or greasy.",
    ),
    row(
        "damp-remedies",
        Every,
        Mends(Condition::TakesCement, &[DRIED]),
        "Dry on trees for 48 to 72 hours, never on a heater; clean and treat.",
        "The pair has to dry slowly and be cleaned before anything is glued.",
    ),
    // Upper.
    row(
        "torn-edge-remedies",
        Every,
        Mends(Condition::UpperEdgeSound, &[UPPER_PATCHED]),
        "A tear at the feather line is patched from inside.",
        "The leather has to be whole where the sole is fixed to it.",
    ),
    row(
        "torn-upper-remedies",
        Every,
        Mends(Condition::UpperSound, &[UPPER_PANEL, UPPER_PATCHED]),
        "A new panel hides the damage; a patch shows.",
        "A torn upper gets a new panel or a patch.",
    ),
    row(
        "counter-remedies",
        Every,
        Mends(Condition::CounterFirm, &[HEEL_LININGS]),
        "A soft counter is renewed with its lining.",
        "The stiff piece behind the heel is renewed with its lining.",
    ),
    row(
        "lining-remedies",
        Every,
        Mends(Condition::LiningSound, &[HEEL_LININGS, LINING_PATCHED]),
        "A new lining lasts longer than a patch.",
        "A worn lining is renewed or patched.",
    ),
    row(
        "lining-spares-patch",
        Every,
        Spares(&[HEEL_LININGS], &[LINING_PATCHED]),
        "A new lining needs no patch.",
        "A new lining needs no patch.",
    ),
    row(
        "zip-remedies",
        Every,
        Mends(Condition::ZipSound, &[ZIP]),
        "A broken zip is renewed.",
        "A broken zip is replaced.",
    ),
    // Protection. What ends it is for the law and the maker to say (29 CFR 1910.136 with ASTM F2413,
    // Regulation (EU) 2016/425, both cited from memory); here the shop stays on the safe side.
    row(
        "keep-protective-build",
        Protective,
        Unfit(&[
            HAND_SEWN_INSOLE,
            NEW_INSOLE,
            SHANKS,
            FIBRE_BASES,
            LEATHER_BASES,
        ]),
        "Another insole, metal or nails through the bottom can end electrical or puncture \
         protection.",
        "Another insole, or metal and nails in the bottom, could end the protection of this pair.",
    ),
    row(
        "damaged-protection",
        Every,
        NeedsSound(TRUSTED, Condition::SafetyPartsWhole),
        "With a damaged cap or plate the pair protects nobody: return it unrepaired.",
        "A part that protects you is damaged. We can't mend that, and new soles or heels would \
         only make the pair look safe.",
    ),
];

//! Shipped rules for the insole and the rib under it.

use super::row::On::{Built, BuiltAndFound, Every};
use super::row::Says::{Mends, NeedsLine, NeedsSound, OneOf, Spares, Together, Unfit};
use super::row::{Row, WELTED, row};
use super::services::{
    FILLER, HAND_SEWN_INSOLE, INSOLE_PATCHED, LEATHER_SOLES, LEATHER_WELT, LUGGED_SOLES,
    NEW_INSOLE, NEW_RIB, PUT_BACK, RIB_REGLUED, RUBBER_SOLES, SOLES, TEARDOWN, WELT_ALL_ROUND,
    WELT_SPLICED,
};
use crate::scope::discovery::Discovery;
use crate::scope::rules::condition::Condition;
use crate::ticket::Construction;

/// Built with a glued rib or none at all.
const NO_CARVED_RIB: &[Construction] = &[
    Construction::Welt270,
    Construction::Welt360,
    Construction::BlakeStitched,
    Construction::StitchDown,
    Construction::Cemented,
    Construction::Moulded,
    Construction::Unknown,
];

const NEW_BASES: &[u8] = &[NEW_INSOLE, HAND_SEWN_INSOLE];

pub(super) const ROWS: &[Row] = &[
    // Insole.
    row(
        "patch-needs-firm-insole",
        Every,
        NeedsSound(&[INSOLE_PATCHED], Condition::InsolePatchable),
        "A patch holds only on an insole that is cracked, not broken through or brittle.",
        "The insole is too far gone for a patch.",
    ),
    row(
        "insole-remedies",
        Built(NO_CARVED_RIB),
        Mends(
            Condition::InsoleSound,
            &[NEW_INSOLE, INSOLE_PATCHED, HAND_SEWN_INSOLE],
        ),
        "A new insole lasts longest; a patch keeps going for a while.",
        "The insole, the base that you stand on, has to hold everything else.",
    ),
    row(
        "insole-remedies-hand-welted",
        Built(&[Construction::HandWelted]),
        Mends(Condition::InsoleSound, &[HAND_SEWN_INSOLE, INSOLE_PATCHED]),
        "A carved rib needs a thick leather insole.",
        "The insole, the base that you stand on, has to hold everything else.",
    ),
    row(
        "one-insole",
        Every,
        OneOf(&[INSOLE_PATCHED, NEW_INSOLE, HAND_SEWN_INSOLE]),
        "One remedy for the insole.",
        "The insole needs one of these only.",
    ),
    row(
        "new-insole-spares-patch",
        Every,
        Spares(NEW_BASES, &[INSOLE_PATCHED]),
        "A new insole needs no patch.",
        "A new insole needs no patch.",
    ),
    row(
        "new-insole-needs-rib",
        Built(WELTED),
        NeedsLine(&[NEW_INSOLE], &[NEW_RIB]),
        "A new insole has no rib of its own.",
        "A new insole needs a new rib, the ridge to which everything is sewn.",
    ),
    row(
        "new-insole-needs-welt",
        Built(WELTED),
        NeedsLine(NEW_BASES, &[LEATHER_WELT, WELT_ALL_ROUND]),
        "The inseam is opened for a new insole, and a used welt doesn't take a second one.",
        "With a new insole the welt, the strip to which the sole is sewn, has to be sewn on anew.",
    ),
    row(
        "new-insole-needs-filler",
        Every,
        NeedsLine(NEW_BASES, &[FILLER]),
        "The filler goes with the old insole.",
        "The cork under the foot goes with the old insole.",
    ),
    row(
        "new-insole-needs-sole",
        Every,
        NeedsLine(NEW_BASES, SOLES),
        "The old sole doesn't go back on a new insole.",
        "The old sole can't go back on a new insole.",
    ),
    // Rib.
    row(
        "rib-needs-insole",
        Every,
        NeedsSound(&[RIB_REGLUED, NEW_RIB], Condition::InsoleSound),
        "The rib is glued to the insole.",
        "The rib, the ridge to which everything is sewn, is glued to the insole.",
    ),
    row(
        "reglue-needs-good-rib",
        Every,
        NeedsSound(&[RIB_REGLUED], Condition::RibGluable),
        "Gluing holds if less than a third has let go and the rib is whole.",
        "Too much of the rib has come loose for glue.",
    ),
    row(
        "rib-remedies",
        Built(NO_CARVED_RIB),
        Mends(
            Condition::RibSound,
            &[NEW_RIB, RIB_REGLUED, HAND_SEWN_INSOLE],
        ),
        "A new rib is a sure hold; gluing is enough where little is loose.",
        "The rib, the ridge to which everything is sewn, has to hold.",
    ),
    row(
        "rib-remedies-hand-welted",
        Built(&[Construction::HandWelted]),
        Mends(Condition::RibSound, &[HAND_SEWN_INSOLE]),
        "A torn holdfast is renewed with its insole.",
        "The rib is carved from the insole itself and is renewed with it.",
    ),
    row(
        "one-rib",
        Every,
        OneOf(&[RIB_REGLUED, NEW_RIB, HAND_SEWN_INSOLE]),
        "One remedy for the rib.",
        "The rib needs one of these only.",
    ),
    row(
        "new-rib-spares-gluing",
        Every,
        Spares(&[NEW_RIB, HAND_SEWN_INSOLE], &[RIB_REGLUED]),
        "A new rib needs no gluing of the old one.",
        "With a new rib there is no old one to glue.",
    ),
    row(
        "hand-sewn-spares-insole-and-rib",
        Every,
        Spares(&[HAND_SEWN_INSOLE], &[NEW_INSOLE, NEW_RIB]),
        "The hand-sewn insole brings its own rib.",
        "The leather insole brings its own rib.",
    ),
    row(
        "no-glued-rib-on-hand-welted",
        Built(&[Construction::HandWelted]),
        Unfit(&[RIB_REGLUED, NEW_RIB, NEW_INSOLE]),
        "A hand-welted shoe has a rib carved from its insole.",
        "This pair is built on a carved leather insole.",
    ),
    row(
        "rib-while-open",
        BuiltAndFound(WELTED, &[Discovery::RibLoosePart]),
        Together(
            &[LEATHER_SOLES, RUBBER_SOLES, LUGGED_SOLES, WELT_SPLICED],
            RIB_REGLUED,
            &[TEARDOWN, PUT_BACK],
        ),
        "The bottom is open: glue the rib now.",
        "The shoe is open anyway, so the loose rib is best glued now.",
    ),
];

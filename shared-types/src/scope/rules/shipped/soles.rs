//! Shipped rules for soles and the seams that hold them.

use super::row::On::{Built, BuiltAndFound, Every};
use super::row::Says::{Excludes, Mends, NeedsLine, NeedsSound, OneOf, Spares, Unfit};
use super::row::{Row, SEWN, WELTED, row};
use super::services::{
    HALF_SOLES, LEATHER_SOLES, LUGGED_SOLES, MIDSOLES, RUBBER_SOLES, SEAMS, SOLES, STITCHED,
    STITCHED_BY_HAND, THIN_RUBBER, TOP_LIFTS, UNIT_SOLES,
};
use crate::scope::discovery::Discovery;
use crate::scope::rules::condition::Condition;
use crate::ticket::Construction;

/// Whatever goes on the bottom and leans on what is above it.
const ON_MIDSOLE: &[u8] = &[
    LEATHER_SOLES,
    RUBBER_SOLES,
    LUGGED_SOLES,
    HALF_SOLES,
    THIN_RUBBER,
    STITCHED,
    STITCHED_BY_HAND,
];

pub(super) const ROWS: &[Row] = &[
    // Soles.
    row(
        "one-sole",
        Every,
        OneOf(&[
            LEATHER_SOLES,
            RUBBER_SOLES,
            LUGGED_SOLES,
            HALF_SOLES,
            UNIT_SOLES,
        ]),
        "One sole for each shoe.",
        "A shoe gets one sole.",
    ),
    row(
        "full-sole-spares-half",
        Every,
        Spares(SOLES, &[HALF_SOLES]),
        "A sole from toe to heel leaves nothing for a half sole.",
        "A new sole from toe to heel takes the place of the half sole.",
    ),
    row(
        "sole-needs-top-lifts",
        Every,
        NeedsLine(SOLES, &[TOP_LIFTS]),
        "The heel comes off for it, and the old top lift can't be nailed again.",
        "The heel comes off for a new sole, and gets a new top lift when it goes on again.",
    ),
    row(
        "sole-needs-shank",
        Every,
        NeedsSound(SOLES, Condition::ShankFirm),
        "A new sole closes over the shank.",
        "A new sole closes over the shank, the stiff spring under the arch, which has to be firm.",
    ),
    row(
        "sole-needs-filler",
        Built(WELTED),
        NeedsSound(SOLES, Condition::FillerSound),
        "A new sole on crumbled filler lies hollow.",
        "The new sole lies flat only on firm cork.",
    ),
    row(
        "sole-needs-insole",
        Every,
        NeedsSound(SOLES, Condition::InsoleSound),
        "A sound sole on a broken insole is wasted.",
        "A new sole is wasted on a broken insole, because everything is built on that.",
    ),
    row(
        "sole-needs-rib",
        BuiltAndFound(WELTED, &[Discovery::RibLooseMost, Discovery::RibTorn]),
        NeedsSound(SOLES, Condition::RibSound),
        "With that much of the rib gone, the inseam doesn't hold the welt that holds the sole.",
        "The new sole hangs on the rib inside, of which too much has let go.",
    ),
    row(
        "sole-needs-seam",
        Built(SEWN),
        NeedsLine(SOLES, SEAMS),
        "On this construction the sole is sewn, not only cemented.",
        "On this pair the new sole is sewn on, not only glued.",
    ),
    row(
        "seam-needs-welt",
        Built(WELTED),
        NeedsSound(SEAMS, Condition::WeltSound),
        "The outsole seam holds in the welt.",
        "The new sole is stitched, and stitches hold only in a sound welt.",
    ),
    row(
        "seam-needs-insole",
        Built(&[Construction::BlakeStitched]),
        NeedsSound(SEAMS, Condition::InsoleSound),
        "The seam goes through the insole.",
        "The sole is stitched through the insole, which has to be whole.",
    ),
    row(
        "seam-needs-upper-edge",
        Built(&[Construction::StitchDown]),
        NeedsSound(SEAMS, Condition::UpperEdgeSound),
        "The seam goes through the turned-out upper.",
        "The sole is stitched to the edge of the upper, which has to be whole.",
    ),
    row(
        "one-seam",
        Every,
        OneOf(SEAMS),
        "One outsole seam.",
        "A sole is stitched once.",
    ),
    row(
        "half-sole-needs-welt",
        Built(WELTED),
        NeedsSound(&[HALF_SOLES], Condition::WeltSound),
        "In the forepart the welt carries the half sole.",
        "The half sole is held by the welt, which has to be sound there.",
    ),
    row(
        "half-sole-needs-sole",
        Every,
        NeedsSound(&[HALF_SOLES, THIN_RUBBER], Condition::SoleSound),
        "The rest of the sole stays and has to be whole.",
        "The old sole stays under it, and it is broken: this would be wasted money.",
    ),
    row(
        "sole-remedies",
        Every,
        Mends(Condition::SoleSound, SOLES),
        "A broken sole is replaced from toe to heel.",
        "A broken sole is replaced from toe to heel.",
    ),
    row(
        "sole-needs-midsole",
        Every,
        NeedsSound(ON_MIDSOLE, Condition::MidsoleSound),
        "Neither cement nor stitches hold to a crumbling midsole.",
        "The layer above the sole crumbles, and nothing holds to it.",
    ),
    row(
        "midsole-remedies",
        Every,
        Mends(Condition::MidsoleSound, &[MIDSOLES]),
        "A crumbling midsole is renewed.",
        "The layer between shoe and sole has to be firm.",
    ),
    row(
        "midsole-needs-sole",
        Every,
        NeedsLine(&[MIDSOLES], SOLES),
        "The old sole doesn't go back on a new midsole.",
        "The old sole can't go back on a new layer.",
    ),
    row(
        "no-rubber-over-lugs",
        Every,
        Excludes(&[THIN_RUBBER], &[LUGGED_SOLES]),
        "A sheet doesn't lie on a coarse tread.",
        "A thin sheet doesn't hold on a coarse tread.",
    ),
    row(
        "unit-remedies",
        Every,
        Mends(Condition::UnitSound, &[UNIT_SOLES]),
        "A broken unit is replaced; the look changes.",
        "A sole moulded in one piece is replaced as one; the look changes.",
    ),
    row(
        "rubber-needs-unit",
        Built(&[Construction::Moulded]),
        NeedsSound(&[THIN_RUBBER], Condition::UnitSound),
        "A sheet over a broken unit is wasted.",
        "A thin sheet over a broken sole would be wasted money.",
    ),
    row(
        "new-unit-spares-rubber",
        Every,
        Spares(&[UNIT_SOLES], &[THIN_RUBBER]),
        "A new unit needs no sheet over it.",
        "A new sole needs no sheet over it.",
    ),
    row(
        "only-units-on-moulded",
        Built(&[Construction::Moulded]),
        Unfit(&[
            LEATHER_SOLES,
            RUBBER_SOLES,
            LUGGED_SOLES,
            HALF_SOLES,
            MIDSOLES,
            STITCHED,
            STITCHED_BY_HAND,
        ]),
        "A moulded unit can only be replaced as one, or covered.",
        "The sole of this pair is moulded in one piece.",
    ),
    row(
        "no-seam-on-cemented",
        Built(&[Construction::Cemented]),
        Unfit(SEAMS),
        "There is nothing to stitch a cemented sole to.",
        "The sole of this pair is glued; there is nothing to stitch it to.",
    ),
    row(
        "no-units-on-sewn",
        Built(SEWN),
        Unfit(&[UNIT_SOLES]),
        "A unit sole goes on a cemented or moulded shoe.",
        "This pair has no moulded sole.",
    ),
];

//! Shipped rules for heels, and for the edges of soles and heels.

use super::row::On::Every;
use super::row::Says::{Mends, NeedsLine, NeedsSound, OneOf, Spares};
use super::row::{Row, row};
use super::services::{
    EDGES, FIBRE_BASES, HALF_SOLES, HAND_SEWN_INSOLE, HEEL_BASES, HEEL_EDGES, LEATHER_BASES,
    LEATHER_SOLES, LUGGED_SOLES, MIDSOLES, NEW_INSOLE, PRESCRIBED_LIFT, RUBBER_BLOCKS,
    RUBBER_SOLES, SEAT_PIECES, SEATS_RENAILED, STITCHED, STITCHED_BY_HAND, THIN_RUBBER, TOP_LIFTS,
};
use crate::scope::rules::condition::Condition;

/// Whatever is nailed or fixed at the heel seat.
const AT_HEEL_SEAT: &[u8] = &[
    LEATHER_SOLES,
    RUBBER_SOLES,
    LUGGED_SOLES,
    FIBRE_BASES,
    LEATHER_BASES,
    RUBBER_BLOCKS,
];

/// Better ones first; where height is wrong or the body broken, all of them help.
const BASES_BEST_FIRST: &[u8] = &[LEATHER_BASES, RUBBER_BLOCKS, FIBRE_BASES];

pub(super) const ROWS: &[Row] = &[
    // Heels.
    row(
        "base-needs-top-lifts",
        Every,
        NeedsLine(HEEL_BASES, &[TOP_LIFTS]),
        "The old top lift can't be used again.",
        "A new heel needs a new layer to walk on; the old one can't be used again.",
    ),
    row(
        "top-lift-needs-base",
        Every,
        NeedsSound(&[TOP_LIFTS, PRESCRIBED_LIFT], Condition::HeelBaseSound),
        "Nails don't hold in a broken base.",
        "The new top lift is nailed to the body of the heel, which has to be sound.",
    ),
    row(
        "base-remedies",
        Every,
        Mends(Condition::HeelBaseSound, BASES_BEST_FIRST),
        "Stacked leather can be renewed layer by layer; fibre dislikes the wet.",
        "The body of the heel has to hold nails.",
    ),
    row(
        "top-lift-needs-level",
        Every,
        NeedsSound(&[TOP_LIFTS], Condition::HeelsLevel),
        "New top lifts on unequal bases keep the difference: build both anew, level.",
        "The two heels differ in height, and new top lifts alone would keep the difference.",
    ),
    row(
        "level-heel-remedies",
        Every,
        Mends(Condition::HeelsLevel, BASES_BEST_FIRST),
        "Both bases are built anew to one height.",
        "Both heels are built anew to one height.",
    ),
    row(
        "one-base",
        Every,
        OneOf(HEEL_BASES),
        "One kind of heel base.",
        "A heel has one body.",
    ),
    row(
        "heel-needs-seat",
        Every,
        NeedsSound(AT_HEEL_SEAT, Condition::HeelSeatSound),
        "Neither sole nor base can be nailed to a rusted seat.",
        "The heel is nailed through the sole to the heel seat, where nails have to hold.",
    ),
    row(
        "seat-remedies",
        Every,
        Mends(
            Condition::HeelSeatSound,
            &[SEAT_PIECES, SEATS_RENAILED, NEW_INSOLE, HAND_SEWN_INSOLE],
        ),
        "A new piece is the sure hold; plugging is enough where the leather is sound.",
        "The heel seat has to hold nails.",
    ),
    row(
        "one-seat",
        Every,
        Spares(
            &[NEW_INSOLE, HAND_SEWN_INSOLE, SEAT_PIECES],
            &[SEATS_RENAILED],
        ),
        "On new leather there are no old holes to plug.",
        "With new leather there are no old holes to close.",
    ),
    row(
        "insole-spares-seat",
        Every,
        Spares(&[NEW_INSOLE, HAND_SEWN_INSOLE], &[SEAT_PIECES]),
        "A new insole brings its heel seat.",
        "A new insole brings its own heel seat.",
    ),
    // Edges.
    row(
        "sole-needs-edges",
        Every,
        NeedsLine(
            &[
                LEATHER_SOLES,
                RUBBER_SOLES,
                LUGGED_SOLES,
                HALF_SOLES,
                MIDSOLES,
                STITCHED,
                STITCHED_BY_HAND,
            ],
            &[EDGES],
        ),
        "A new sole is cut proud and has to be trimmed.",
        "New soles are trimmed to the shoe, and their edges sealed.",
    ),
    row(
        "heel-needs-edges",
        Every,
        NeedsLine(
            &[
                TOP_LIFTS,
                FIBRE_BASES,
                LEATHER_BASES,
                RUBBER_BLOCKS,
                PRESCRIBED_LIFT,
                THIN_RUBBER,
            ],
            &[EDGES, HEEL_EDGES],
        ),
        "New layers are cut proud and have to be finished.",
        "New layers are trimmed to the shoe, and their edges sealed.",
    ),
    row(
        "edges-spare-heel-edges",
        Every,
        Spares(&[EDGES], &[HEEL_EDGES]),
        "All edges include the heel's.",
        "When all edges are finished, those of the heel are among them.",
    ),
];

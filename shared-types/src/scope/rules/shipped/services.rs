//! The services of the shipped price book that the shipped rules know, by number.

use crate::id::ServiceId;

pub(super) const TEARDOWN: u8 = 1;
pub(super) const PUT_BACK: u8 = 2;
pub(super) const RIB_REGLUED: u8 = 3;
pub(super) const NEW_RIB: u8 = 4;
pub(super) const HAND_SEWN_INSOLE: u8 = 5;
pub(super) const INSOLE_PATCHED: u8 = 6;
pub(super) const NEW_INSOLE: u8 = 7;
pub(super) const WELT_SPLICED: u8 = 8;
pub(super) const LEATHER_WELT: u8 = 9;
pub(super) const SYNTHETIC_WELT: u8 = 10;
pub(super) const WELT_ALL_ROUND: u8 = 11;
pub(super) const SHANKS: u8 = 12;
pub(super) const SHANK_COVERS: u8 = 13;
pub(super) const FILLER: u8 = 14;
pub(super) const MIDSOLES: u8 = 15;
pub(super) const LEATHER_SOLES: u8 = 16;
pub(super) const RUBBER_SOLES: u8 = 17;
pub(super) const LUGGED_SOLES: u8 = 18;
pub(super) const HALF_SOLES: u8 = 19;
pub(super) const THIN_RUBBER: u8 = 20;
pub(super) const STITCHED: u8 = 21;
pub(super) const STITCHED_BY_HAND: u8 = 22;
pub(super) const TOP_LIFTS: u8 = 23;
pub(super) const FIBRE_BASES: u8 = 24;
pub(super) const LEATHER_BASES: u8 = 25;
pub(super) const RUBBER_BLOCKS: u8 = 26;
pub(super) const PRESCRIBED_LIFT: u8 = 27;
pub(super) const EDGES: u8 = 28;
pub(super) const HEEL_EDGES: u8 = 29;
pub(super) const UPPER_PATCHED: u8 = 30;
pub(super) const UPPER_PANEL: u8 = 31;
pub(super) const HEEL_LININGS: u8 = 32;
pub(super) const ZIP: u8 = 33;
pub(super) const DRIED: u8 = 37;
pub(super) const SEATS_RENAILED: u8 = 38;
pub(super) const SEAT_PIECES: u8 = 39;
pub(super) const LINING_PATCHED: u8 = 40;
pub(super) const UNIT_SOLES: u8 = 41;

/// Soles from toe to heel that are built on the shoe; what can be resoled most often comes first.
pub(super) const SOLES: &[u8] = &[LEATHER_SOLES, RUBBER_SOLES, LUGGED_SOLES];
/// Welts that are new along their whole length.
pub(super) const NEW_WELTS: &[u8] = &[LEATHER_WELT, SYNTHETIC_WELT, WELT_ALL_ROUND];
/// Whatever is done to a welt.
pub(super) const WELTS: &[u8] = &[LEATHER_WELT, SYNTHETIC_WELT, WELT_ALL_ROUND, WELT_SPLICED];
/// Seams between sole and shoe.
pub(super) const SEAMS: &[u8] = &[STITCHED, STITCHED_BY_HAND];
/// Bodies of heels.
pub(super) const HEEL_BASES: &[u8] = &[FIBRE_BASES, LEATHER_BASES, RUBBER_BLOCKS];

/// The id of a service of the shipped price book, which never changes.
pub const fn service(number: u8) -> ServiceId {
    let mut id = *b"starter service ";
    id[15] = number;
    ServiceId::from_bytes(id)
}

//! The shipped rules against cases that were worked out by hand.

mod choices;

use std::collections::BTreeSet;

use super::services::{
    EDGES, FILLER, HALF_SOLES, HAND_SEWN_INSOLE, HEEL_EDGES, INSOLE_PATCHED, LEATHER_BASES,
    LEATHER_SOLES, LEATHER_WELT, NEW_INSOLE, NEW_RIB, RIB_REGLUED, SHANK_COVERS, SHANKS, STITCHED,
    SYNTHETIC_WELT, TEARDOWN, TOP_LIFTS, WELT_ALL_ROUND, WELT_SPLICED,
};
use super::{rules, service};
use crate::id::ServiceId;
use crate::minutes::Minutes;
use crate::money::{Currency, Money};
use crate::scope::discovery::Discovery::{
    self, HeelBaseCrumbling, InsoleCracked, RibLoosePart, ShankBroken, WeltSplitLong,
    WeltSplitShort,
};
use crate::scope::rules::consistency::{Inconsistency, check_scope};
use crate::scope::rules::{AsFound, Effort, Efforts};
use crate::ticket::{Construction, Rating};

/// Number, minutes, and material in minor units: as in the shipped price book, and for the numbers
/// from 37 as proposed for it.
const PRICE_BOOK: [(u8, u32, i64); 41] = [
    (1, 40, 0),
    (2, 40, 350),
    (3, 30, 200),
    (4, 90, 950),
    (5, 320, 3800),
    (6, 35, 600),
    (7, 130, 2200),
    (8, 45, 300),
    (9, 150, 1850),
    (10, 130, 900),
    (11, 200, 2400),
    (12, 18, 700),
    (13, 12, 350),
    (14, 20, 500),
    (15, 30, 1600),
    (16, 70, 3800),
    (17, 60, 3400),
    (18, 65, 4200),
    (19, 45, 1900),
    (20, 20, 1100),
    (21, 35, 400),
    (22, 240, 600),
    (23, 15, 850),
    (24, 35, 900),
    (25, 60, 2100),
    (26, 40, 1650),
    (27, 50, 1200),
    (28, 65, 400),
    (29, 15, 150),
    (30, 45, 700),
    (31, 80, 1500),
    (32, 60, 1200),
    (33, 70, 1400),
    (34, 12, 0),
    (35, 75, 1800),
    (36, 30, 300),
    (37, 25, 300),
    (38, 25, 150),
    (39, 50, 700),
    (40, 25, 400),
    (41, 75, 4200),
];

/// One unit of money for a minute, and the material.
fn efforts() -> Efforts {
    let effort = |(number, minutes, material): (u8, u32, i64)| {
        let price = Money::new(i64::from(minutes) * 100 + material, Currency::USD).unwrap();
        let minutes = Minutes::new(minutes);
        (service(number), Effort { minutes, price })
    };
    PRICE_BOOK.into_iter().map(effort).collect()
}

fn lines(numbers: &[u8]) -> BTreeSet<ServiceId> {
    numbers.iter().copied().map(service).collect()
}

fn pair(construction: Construction, discoveries: &[Discovery]) -> AsFound {
    AsFound {
        construction,
        rating: Rating::Ordinary,
        discoveries: discoveries.iter().copied().collect(),
    }
}

fn welted(discoveries: &[Discovery]) -> AsFound {
    pair(Construction::Welt270, discoveries)
}

const RESOLE: [u8; 5] = [TEARDOWN, LEATHER_SOLES, STITCHED, TOP_LIFTS, EDGES];

fn with(more: &[u8]) -> Vec<u8> {
    [&RESOLE, more].concat()
}

fn wrong(found: &AsFound, numbers: &[u8]) -> Vec<Inconsistency> {
    let offered = efforts().keys().copied().collect();
    check_scope(&rules(), found, &lines(numbers), &offered).unwrap()
}

fn minutes(numbers: &[u8]) -> u32 {
    let all = efforts();
    numbers
        .iter()
        .map(|one| all[&service(*one)].minutes.get())
        .sum()
}

/// Whether that line is refused, with exactly these ways to mend it.
fn refused(found: &AsFound, numbers: &[u8], (line, rule): (u8, &str), mends: &[u8]) -> bool {
    wrong(found, numbers).iter().any(|one| {
        matches!(one, Inconsistency::Lacks { line: of, rule: by, mended_by, .. }
            if *of == service(line)
                && by.as_str() == rule
                && mended_by.iter().copied().eq(lines(mends)))
    })
}

#[test]
fn the_shipped_rules_have_no_trouble() {
    let offered = efforts().keys().copied().collect();
    let title = |id: ServiceId| id.to_string();
    let troubles = rules().check(&offered).err().unwrap_or_default();
    let troubles = troubles.iter().map(|one| one.message(&rules(), &title));
    let troubles: Vec<_> = troubles.collect();
    assert_eq!(troubles, [""; 0]);
}

#[test]
fn the_shipped_rules_do_without_the_services_that_an_older_price_book_lacks() {
    let offered = lines(&(1..=36).collect::<Vec<_>>());
    assert_eq!(rules().check(&offered), Ok(()));
}

/// What the trade's own list of rules asks for (its numbers R, E and P), and the rules that say it;
/// common practice, no source. What it asks for beyond is no condition on a set of lines:
/// R15 to R17 in part and P6 and P8 are about the order of work and its rests, which the plan of the
/// bench keeps; R19's tick stands in the forms; R20's prescription is kept on paper, not on file;
/// R13's seam is left out, because half soles are also only glued; R4's thickness, because a
/// hand-sewn insole is a new one here; E7 reads: put back as it was, or repaired; E9, P4, P5 and P7
/// need a flag, a value or a service that the price book does not have.
#[test]
fn every_rule_of_the_trade_has_its_shipped_one() {
    let table: [(&str, &[&str]); 30] = [
        (
            "R1",
            &[
                "seam-needs-welt",
                "welt-remedies",
                "welt-remedies-all-round",
            ],
        ),
        (
            "R2",
            &["welt-needs-rib", "rib-remedies", "rib-remedies-hand-welted"],
        ),
        ("R3", &["rib-needs-insole", "insole-remedies"]),
        ("R4", &["hand-sewn-spares-insole-and-rib"]),
        ("R5", &["open-first", "new-welt-needs-filler"]),
        (
            "R6",
            &[
                "new-insole-needs-welt",
                "new-insole-needs-filler",
                "new-insole-needs-sole",
            ],
        ),
        ("R6b", &["new-insole-needs-rib"]),
        (
            "R7",
            &["open-first", "sole-needs-top-lifts", "top-lift-needs-base"],
        ),
        ("R8", &["base-needs-top-lifts"]),
        ("R9", &["top-lift-needs-base", "base-remedies"]),
        ("R10", &["filler-needs-shank", "shank-remedies"]),
        ("R11", &["open-first"]),
        ("R12", &["sole-needs-seam"]),
        ("R13", &["half-sole-needs-welt"]),
        ("R14", &["sole-needs-edges", "heel-needs-edges"]),
        ("R15", &["welt-needs-upper-edge", "torn-edge-needs-welt"]),
        ("R18", &["midsole-needs-sole"]),
        ("R19", &["damaged-protection"]),
        ("R21", &["cement-needs-dry", "damp-remedies"]),
        ("E1", &["one-sole"]),
        ("E2", &["one-welt"]),
        ("E3", &["one-base"]),
        ("E4", &["one-rib"]),
        ("E5", &["one-insole"]),
        ("E6", &["one-seam"]),
        ("E7", &["as-it-was-or-repaired"]),
        ("E8", &["no-rubber-over-lugs"]),
        ("E10", &["keep-protective-build"]),
        (
            "P1, P3",
            &["full-sole-spares-half", "new-welt-spares-splice"],
        ),
        ("P2", &["new-insole-spares-patch", "new-rib-spares-gluing"]),
    ];
    let rules = rules();
    for (asked, named) in table {
        for id in named {
            let is_shipped = rules.rules.keys().any(|rule| rule.as_str() == *id);
            assert!(is_shipped, "{asked}: {id}");
        }
    }
}

/// Each row of the table of rule-engine tests.
#[test]
fn what_hangs_together_is_told_from_what_does_not() {
    let sound = welted(&[]);
    assert_eq!(wrong(&sound, &RESOLE), []);
    assert_eq!(minutes(&RESOLE), 225);

    let any_welt = [WELT_SPLICED, LEATHER_WELT, SYNTHETIC_WELT, WELT_ALL_ROUND];
    let split = welted(&[WeltSplitShort]);
    assert!(refused(
        &split,
        &RESOLE,
        (STITCHED, "seam-needs-welt"),
        &any_welt
    ));
    let split = welted(&[WeltSplitLong]);
    assert!(refused(
        &split,
        &RESOLE,
        (STITCHED, "seam-needs-welt"),
        &any_welt[1..]
    ));

    let worst = welted(&[WeltSplitLong, HeelBaseCrumbling]);
    let mended = with(&[LEATHER_WELT, FILLER, SHANK_COVERS, LEATHER_BASES]);
    assert_eq!(wrong(&worst, &mended), []);
    assert_eq!(minutes(&mended), 467);

    let new_welt = with(&[LEATHER_WELT, FILLER]);
    let loose = welted(&[WeltSplitLong, RibLoosePart]);
    let any_rib = [RIB_REGLUED, NEW_RIB, HAND_SEWN_INSOLE];
    assert!(refused(
        &loose,
        &new_welt,
        (LEATHER_WELT, "welt-needs-rib"),
        &any_rib
    ));

    let cracked = welted(&[WeltSplitLong, RibLoosePart, InsoleCracked]);
    let glued = with(&[LEATHER_WELT, FILLER, RIB_REGLUED]);
    let any_insole = [HAND_SEWN_INSOLE, INSOLE_PATCHED, NEW_INSOLE];
    assert!(refused(
        &cracked,
        &glued,
        (RIB_REGLUED, "rib-needs-insole"),
        &any_insole
    ));

    let rusted = welted(&[WeltSplitLong, ShankBroken]);
    assert!(refused(
        &rusted,
        &new_welt,
        (FILLER, "filler-needs-shank"),
        &[SHANKS]
    ));

    assert_eq!(wrong(&sound, &[TOP_LIFTS, HEEL_EDGES]), []);
    assert_eq!(minutes(&[TOP_LIFTS, HEEL_EDGES]), 30);

    let both = wrong(&sound, &with(&[HALF_SOLES]));
    assert!(
        matches!(&both[..], [Inconsistency::Clash { rule, .. }] if rule.as_str() == "one-sole")
    );
}

//! What is proposed by the shipped rules.

use std::collections::BTreeSet;

use proptest::collection::btree_set;
use proptest::prelude::{ProptestConfig, Strategy, prop_assert_eq, proptest};
use proptest::sample::select;

use super::super::services::{
    DRIED, EDGES, FIBRE_BASES, FILLER, HALF_SOLES, HAND_SEWN_INSOLE, HEEL_EDGES, HEEL_LININGS,
    LEATHER_BASES, LEATHER_SOLES, LEATHER_WELT, LINING_PATCHED, NEW_INSOLE, NEW_RIB, PUT_BACK,
    RIB_REGLUED, RUBBER_BLOCKS, RUBBER_SOLES, SHANK_COVERS, STITCHED, SYNTHETIC_WELT, TEARDOWN,
    THIN_RUBBER, TOP_LIFTS, UNIT_SOLES, WELT_ALL_ROUND, WELT_SPLICED, ZIP,
};
use super::{RESOLE, efforts, lines, pair, welted, with, wrong};
use crate::id::ServiceId;
use crate::scope::discovery::Discovery::{
    self, Damp, HeelBaseCrumbling, InsoleBroken, LiningWorn, PlateDamaged, RibLoosePart, RibTorn,
    ShankBare, ShankBroken, SoleBroken, ToeCapDamaged, UnitBroken, WeltSplitLong, WeltSplitShort,
};
use crate::scope::rules::AsFound;
use crate::scope::rules::consistency::check_scope;
use crate::scope::rules::propose::{Proposals, propose};
use crate::scope::rules::shipped::{rules, service};
use crate::scope::rules::together::better_together;
use crate::ticket::{Construction, Rating};

fn choices(found: &AsFound, agreed: &[u8]) -> Proposals {
    propose(&rules(), found, &lines(agreed), &efforts()).unwrap()
}

fn cheapest(found: &AsFound, agreed: &[u8]) -> Option<BTreeSet<ServiceId>> {
    let cheapest = choices(found, agreed).cheapest?;
    Some(cheapest.lines.into_iter().collect())
}

fn best(found: &AsFound, agreed: &[u8]) -> Option<BTreeSet<ServiceId>> {
    let best = choices(found, agreed).best?;
    Some(best.lines.into_iter().collect())
}

/// The pair of the product's own example: a split welt, a crumbling heel base, a loose rib.
#[test]
fn a_split_welt_leads_to_everything_that_hangs_on_it() {
    let found = welted(&[WeltSplitLong, HeelBaseCrumbling, RibLoosePart]);
    assert_eq!(
        cheapest(&found, &RESOLE),
        Some(lines(&with(&[
            SYNTHETIC_WELT,
            FILLER,
            RIB_REGLUED,
            FIBRE_BASES
        ])))
    );
    assert_eq!(
        best(&found, &RESOLE),
        Some(lines(&with(&[
            LEATHER_WELT,
            FILLER,
            NEW_RIB,
            LEATHER_BASES
        ])))
    );
    let as_it_is = choices(&found, &RESOLE).as_it_is.unwrap();
    assert!(as_it_is.lines.into_iter().eq(lines(&[TEARDOWN, PUT_BACK])));
}

#[test]
fn a_short_split_is_spliced_at_the_least() {
    let found = welted(&[WeltSplitShort]);
    assert_eq!(
        cheapest(&found, &RESOLE),
        Some(lines(&with(&[WELT_SPLICED])))
    );
    assert_eq!(
        best(&found, &RESOLE),
        Some(lines(&with(&[LEATHER_WELT, FILLER])))
    );
    let all_round = pair(Construction::Welt360, &[WeltSplitShort]);
    assert_eq!(
        best(&all_round, &RESOLE),
        Some(lines(&with(&[WELT_ALL_ROUND, FILLER])))
    );
}

/// A broken insole cannot be patched, and a new one draws rib, welt and filler after it.
#[test]
fn a_new_insole_brings_what_it_needs() {
    let found = welted(&[InsoleBroken]);
    let all = with(&[NEW_INSOLE, NEW_RIB, LEATHER_WELT, FILLER]);
    assert_eq!(cheapest(&found, &RESOLE), Some(lines(&all)));
}

#[test]
fn an_agreed_half_sole_gives_way_to_a_whole_one_on_a_broken_sole() {
    let found = pair(Construction::Cemented, &[SoleBroken]);
    let proposal = choices(&found, &[TEARDOWN, HALF_SOLES, EDGES])
        .cheapest
        .unwrap();
    assert!(proposal.lines.contains(&service(RUBBER_SOLES)));
    assert_eq!(proposal.dropped, [service(HALF_SOLES)]);
    let title = |id: ServiceId| {
        let number = id.to_string();
        if id == service(HALF_SOLES) {
            "Half soles".to_owned()
        } else {
            number
        }
    };
    let why = &proposal.why[&service(RUBBER_SOLES)];
    assert_eq!(
        why[0].for_customer(&title),
        "It takes the place of “Half soles”. A new sole from toe to heel takes the place of the \
         half sole."
    );
}

#[test]
fn every_reason_is_told_on_both_sides() {
    let found = welted(&[WeltSplitLong]);
    let proposal = choices(&found, &RESOLE).cheapest.unwrap();
    let title = |id: ServiceId| {
        let known = [
            (STITCHED, "Soles stitched"),
            (SYNTHETIC_WELT, "Synthetic welt"),
        ];
        let title = known.iter().find(|(number, _)| service(*number) == id);
        title.map_or_else(|| id.to_string(), |(_, title)| (*title).to_owned())
    };
    let why = &proposal.why[&service(SYNTHETIC_WELT)];
    assert_eq!(
        why[0].for_customer(&title),
        "The new sole is stitched, and stitches hold only in a sound welt."
    );
    assert_eq!(
        why[0].for_bench(&title),
        "For “Soles stitched”: The outsole seam holds in the welt."
    );
    assert_eq!(
        why[1].for_customer(&title),
        "The welt, the strip to which the sole is sewn, is split along the front of the shoe."
    );
    let problem = &wrong(
        &welted(&[WeltSplitLong, RibTorn]),
        &with(&[SYNTHETIC_WELT, FILLER]),
    )[0];
    let message = problem.message(&rules(), &title);
    assert!(
        message.starts_with("“Synthetic welt” can't stand alone."),
        "{message}"
    );
    assert!(message.contains("But the rib has let go."), "{message}");
}

#[test]
fn a_damaged_safety_part_leaves_the_pair_as_it_is() {
    let mut found = pair(Construction::Welt360, &[PlateDamaged]);
    found.rating = Rating::Protective;
    let choices = choices(&found, &RESOLE);
    assert_eq!((choices.cheapest, choices.best), (None, None));
    assert!(
        choices
            .in_the_way
            .iter()
            .any(|rule| rule.as_str() == "damaged-protection")
    );
    assert!(
        choices
            .as_it_is
            .unwrap()
            .lines
            .into_iter()
            .eq(lines(&[TEARDOWN, PUT_BACK]))
    );
}

#[test]
fn protective_pairs_get_no_metal_and_no_nails() {
    let mut found = welted(&[HeelBaseCrumbling]);
    found.rating = Rating::Protective;
    let blocks = Some(lines(&with(&[RUBBER_BLOCKS])));
    assert_eq!(cheapest(&found, &RESOLE), blocks);
    found.discoveries = [ShankBroken].into();
    assert_eq!(cheapest(&found, &RESOLE), None);
}

#[test]
fn damp_is_dried_before_anything_is_glued() {
    let found = welted(&[Damp]);
    assert_eq!(cheapest(&found, &RESOLE), Some(lines(&with(&[DRIED]))));
    assert_eq!(cheapest(&found, &[ZIP]), Some(lines(&[ZIP])));
    let mut book = efforts();
    book.remove(&service(DRIED));
    let choices = propose(&rules(), &found, &lines(&RESOLE), &book).unwrap();
    assert_eq!(choices.cheapest, None);
    assert!(
        choices
            .in_the_way
            .iter()
            .any(|rule| rule.as_str() == "cement-needs-dry")
    );
}

/// Damage that no line relies on is left by the cheapest choice and mended by the best.
#[test]
fn the_best_choice_mends_what_the_cheapest_leaves() {
    let found = welted(&[LiningWorn, ShankBare]);
    let cheapest = choices(&found, &RESOLE).cheapest.unwrap();
    assert!(cheapest.lines.into_iter().eq(lines(&RESOLE)));
    assert_eq!(cheapest.unmended.len(), 2);
    assert_eq!(
        best(&found, &RESOLE),
        Some(lines(&with(&[HEEL_LININGS, SHANK_COVERS])))
    );
    let patched = with(&[LINING_PATCHED]);
    assert_eq!(wrong(&found, &patched), []);
}

#[test]
fn a_moulded_unit_is_replaced_as_one() {
    let found = pair(Construction::Moulded, &[UnitBroken]);
    let agreed = [THIN_RUBBER, HEEL_EDGES];
    let unit = lines(&[TEARDOWN, UNIT_SOLES, HEEL_EDGES]);
    assert_eq!(cheapest(&found, &agreed), Some(unit));
}

/// A hand-welted pair gets no glued rib: rib and insole are one.
#[test]
fn a_worn_holdfast_is_renewed_with_its_insole() {
    let found = pair(Construction::HandWelted, &[RibTorn]);
    let all = with(&[HAND_SEWN_INSOLE, LEATHER_WELT, FILLER]);
    assert_eq!(cheapest(&found, &RESOLE), Some(lines(&all)));
}

/// 30 minutes and 2.00 of material now; later also 40 and 40 minutes and 3.50.
#[test]
fn what_is_cheaper_now_is_said_with_both_prices() {
    let found = welted(&[RibLoosePart]);
    let suggestions = better_together(&rules(), &found, &lines(&RESOLE), &efforts()).unwrap();
    assert_eq!(suggestions.len(), 1);
    let glue = &suggestions[0];
    assert_eq!(
        (glue.also, glue.during.as_slice()),
        (service(RIB_REGLUED), &[service(LEATHER_SOLES)][..])
    );
    assert_eq!(
        (glue.now.minutes.get(), glue.later.minutes.get()),
        (30, 110)
    );
    assert_eq!(glue.saves().unwrap().to_string(), "$83.50");
    let title = |_: ServiceId| "Rib reglued".to_owned();
    assert_eq!(
        glue.for_customer(&title),
        "The shoe is open anyway, so the loose rib is best glued now. “Rib reglued” costs $32.00 \
         now and $115.50 later."
    );
    let glued = lines(&with(&[RIB_REGLUED]));
    assert_eq!(
        better_together(&rules(), &found, &glued, &efforts()).unwrap(),
        []
    );
}

/// On every kind of pair, with any one or two discoveries, each choice hangs together.
#[test]
fn every_choice_on_every_pair_hangs_together() {
    let rules = rules();
    let efforts = efforts();
    let offered = efforts.keys().copied().collect();
    let agreed = lines(&[TEARDOWN, RUBBER_SOLES, STITCHED, TOP_LIFTS, EDGES]);
    for construction in [
        Construction::Welt360,
        Construction::HandWelted,
        Construction::StitchDown,
    ] {
        for (place, first) in Discovery::ALL.iter().enumerate() {
            for second in Discovery::ALL.iter().skip(place).step_by(3) {
                let found = pair(construction, &[*first, *second]);
                let choices = propose(&rules, &found, &agreed, &efforts).unwrap();
                for choice in [choices.cheapest, choices.best, choices.as_it_is]
                    .into_iter()
                    .flatten()
                {
                    let set = choice.lines.into_iter().collect();
                    let wrong = check_scope(&rules, &found, &set, &offered).unwrap();
                    assert_eq!(wrong, [], "{construction:?} {first:?} {second:?}");
                }
            }
        }
    }
}

/// Everything wrong at once, but for what nobody mends.
#[test]
fn a_wreck_is_worked_out_too() {
    for construction in Construction::ALL {
        let mut found = pair(construction, Discovery::ALL);
        found.discoveries.remove(&ToeCapDamaged);
        found.discoveries.remove(&PlateDamaged);
        let agreed = lines(&RESOLE);
        assert!(
            propose(&rules(), &found, &agreed, &efforts()).is_ok(),
            "{construction:?}"
        );
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(100))]

    /// Whatever was agreed and discovered, choices are found and hang together.
    #[test]
    fn choices_hang_together(
        construction in select(&Construction::ALL[..]),
        rating in select(&[Rating::Ordinary, Rating::Protective][..]),
        discoveries in btree_set(select(Discovery::ALL), 0..6),
        agreed in btree_set((1_u8..=41).prop_map(service), 0..8),
    ) {
        let found = AsFound { construction, rating, discoveries };
        let offered = efforts().keys().copied().collect();
        let choices = propose(&rules(), &found, &agreed, &efforts()).unwrap();
        for choice in [choices.cheapest, choices.best, choices.as_it_is].into_iter().flatten() {
            let set = choice.lines.into_iter().collect();
            prop_assert_eq!(check_scope(&rules(), &found, &set, &offered).unwrap(), vec![]);
        }
    }
}

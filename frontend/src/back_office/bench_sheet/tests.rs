//! What the bench reads of a pair: figures that open, drawings, cautions, and neither name nor price.

use shared_types::bench::field::Field;
use shared_types::bench::length::Reading;
use shared_types::bench::measure::Stand;
use shared_types::bench::measurements::Measurements;
use shared_types::staff::Role;
use shared_types::ticket::event::{Actor, Event};

use super::paper::BenchPaperPage;
use super::*;
use crate::fixture::{BOOTS, Record, SAFETY, STAFF, december, desk, line, split_welt, two_pairs};

fn measured(lengths: &[(Field, &str)], stand: Option<Stand>) -> Record {
    let mut record = split_welt();
    let reading = |(field, text): &(Field, &str)| (*field, Reading::parse(text).expect("a length"));
    let measurements = Measurements {
        lengths: lengths.iter().map(reading).collect(),
        stand,
        ..Measurements::default()
    };
    let event = Event::Measured {
        pair: BOOTS,
        measurements: Box::new(measurements),
    };
    record.add(december(8, 15, 0), Actor::Staff(STAFF), &event);
    record
}

const THICK_SOLE: [(Field, &str); 7] = [
    (Field::OldSoleAtBall, "5"),
    (Field::OldSoleAtSeat, "5"),
    (Field::OldHeelBase, "24"),
    (Field::OldTopLift, "6"),
    (Field::NewSoleAtBall, "9"),
    (Field::NewSoleAtSeat, "5"),
    (Field::NewTopLift, "12"),
];

fn props(record: &Record, pair: PairId, role: Role) -> BenchSheetView {
    BenchSheetView {
        desk: desk(role),
        ticket: record.ticket(),
        pair,
        names: [(STAFF, line("Ines"))].into(),
    }
}

fn page(record: &Record, pair: PairId, role: Role) -> String {
    let props = props(record, pair, role);
    crate::render::page(|| view! { <BenchSheetPage props /> })
}

fn paper(record: &Record, pair: PairId) -> String {
    let props = props(record, pair, Role::Bench);
    crate::render::page(|| view! { <BenchPaperPage props /> })
}

#[test]
fn a_figure_opens_to_formula_inputs_tolerance_and_source() {
    let html = page(&measured(&THICK_SOLE, None), BOOTS, Role::Bench);
    let (_, base) = html.split_once("<span>New heel base</span>").expect("it");
    let base = base.split_once("</details>").expect("its end").0;
    assert!(base.contains("22 ± "), "{base}");
    assert!(base.contains("pitch + new sole at the ball"), "{base}");
    assert!(
        base.contains("new top lift 12 ± 0.3 mm, measured"),
        "{base}"
    );
    assert!(base.contains("a shoe that stands level"), "{base}");
    assert!(html.contains("Measured by <bdi>Ines</bdi>"), "{html}");
    assert!(html.contains("class=\"bench-drawing\""));
    assert!(html.contains("as built: sole at the ball 9 mm, heel base 22 mm"));
    assert!(html.contains("1 : 3 on paper"));
}

#[test]
fn a_pair_that_nobody_measured_says_what_it_is_worked_out_from() {
    let html = page(&split_welt(), BOOTS, Role::Bench);
    assert!(html.contains("Nothing is measured yet"), "{html}");
    assert!(html.contains("The heel is not worked out yet"), "{html}");
    assert!(html.contains(&paths::measure(BOOTS)));
    let html = page(&split_welt(), BOOTS, Role::Counter);
    assert!(!html.contains(&paths::measure(BOOTS)), "the counter reads");
}

#[test]
fn cautions_stand_at_their_steps_and_a_safety_mark_comes_first() {
    let mut record = two_pairs();
    let html = page(&record, SAFETY, Role::Bench);
    assert!(html.contains("There is nothing to go by yet"), "{html}");
    assert!(html.contains("This pair carries a safety mark"), "{html}");
    let event = Event::Measured {
        pair: SAFETY,
        measurements: Box::new(Measurements {
            lengths: [(Field::InsoleLength, Reading::in_millimetres(285.0))].into(),
            ..Measurements::default()
        }),
    };
    record.add(december(8, 15, 0), Actor::Staff(STAFF), &event);
    let html = page(&record, SAFETY, Role::Bench);
    let mark = html
        .find("This pair carries a safety mark")
        .expect("the mark");
    let dust = html.find("Leather dust causes cancer").expect("the dust");
    assert!(mark < dust);
    for record in [&record, &two_pairs()] {
        assert!(paper(record, SAFETY).contains("Safety mark: our work can end it"));
    }
}

#[test]
fn a_prescribed_pair_is_advised_no_height() {
    let record = measured(&THICK_SOLE, Some(Stand::Prescribed));
    for html in [page(&record, BOOTS, Role::Bench), paper(&record, BOOTS)] {
        assert!(html.contains("like for like"), "{html}");
        assert!(!html.contains("New heel base"), "{html}");
        assert!(!html.contains("Lifts"), "{html}");
    }
}

#[test]
fn the_paper_has_tag_and_pair_and_neither_name_nor_price() {
    let record = measured(&THICK_SOLE, None);
    let total = record.ticket().pairs[0].agreed().total().to_string();
    let html = paper(&record, BOOTS);
    assert!(html.contains("Dark green"), "{html}");
    assert!(html.contains("EU 44"));
    for hidden in [total.as_str(), "Nadia", "Okafor", "$"] {
        assert!(!html.contains(hidden), "{hidden}");
    }
}

//! Tests of the form for the bench.

use time::macros::date;

use super::*;
use crate::contact::Email;
use crate::text::Words;

const TODAY: Date = date!(2026 - 12 - 01);

fn shop() -> Shop {
    Shop::new(
        Line::parse("Juniper Row").unwrap(),
        Words::parse("12 Juniper Row").unwrap(),
        Email::parse("bench@example.com").unwrap(),
    )
}

fn problem(field: HandsField, typed: &str) -> String {
    let shop = shop();
    let mut fields = fields_of(&shop, TODAY);
    fields.set(&field.name(), typed);
    let errors = read(&fields, &shop, TODAY).unwrap_err();
    errors.at(&field).unwrap()
}

#[test]
fn the_bench_survives_its_own_form() {
    let mut shop = shop();
    shop.hands = BenchHand::numbered(2);
    shop.hands[1].week[4] = Some(Minutes::new(185));
    let holidays = [
        date!(2026 - 12 - 24),
        date!(2026 - 12 - 31),
        date!(2027 - 01 - 01),
    ];
    shop.hands[1].away = holidays.into();
    let fields = fields_of(&shop, TODAY);
    assert_eq!(fields.one("hand-1-minutes-4"), "3:05");
    assert_eq!(
        fields.one("hand-1-away"),
        "2026-12-24\n2026-12-31 to 2027-01-01"
    );
    let bench = read(&fields, &shop, TODAY).unwrap();
    assert_eq!(
        (bench.hands, bench.stations, bench.chance),
        (shop.hands, shop.stations, shop.chance)
    );
    assert_eq!(bench.renamed, []);
    assert_eq!((hand_rows(&fields), station_rows(&fields)), (3, 3));
}

#[test]
fn settings_that_only_count_their_hands_are_read_as_so_many_hands_in_all_open_hours() {
    let mut stored = serde_json::to_value(shop()).unwrap();
    let fields = stored.as_object_mut().unwrap();
    fields.insert("hands".to_owned(), 2.into());
    fields.remove("stations");
    fields.remove("chance");
    let read: Shop = serde_json::from_value(stored).unwrap();
    assert_eq!(read.hands, BenchHand::numbered(2));
    assert_eq!(read.hand_count(), 2);
    assert_eq!(read.chance, Chance::EIGHTY);
    assert_eq!(read.stations.len(), 2);
    // Monday 9:00–17:30, Saturday closed.
    assert_eq!(
        read.hands[0].minutes_on(0, &read.calendar),
        Minutes::new(510)
    );
    assert_eq!(read.hands[0].minutes_on(5, &read.calendar), Minutes::ZERO);
    let again = serde_json::to_string(&read).unwrap();
    assert_eq!(serde_json::from_str::<Shop>(&again).unwrap(), read);
}

#[test]
fn what_can_not_be_is_said_at_its_field() {
    for (field, typed, reason) in [
        (
            HandsField::Minutes(0, 0),
            "9:00",
            "The shop is open for 8 h 30 min that day",
        ),
        (
            HandsField::Minutes(0, 0),
            "a lot",
            "Write minutes such as 90",
        ),
        (HandsField::Away(0), "2026-11-30", "2026-11-30 is past"),
        (
            HandsField::Away(0),
            "2036-12-24",
            "more than two years ahead",
        ),
        (HandsField::Away(0), "24 Dec", "Write a day as 2026-12-24"),
        (
            HandsField::Away(0),
            "2026-12-24 to 2026-12-23",
            "Write a day as 2026-12-24",
        ),
        (HandsField::Name(1), "hand 1", "already has this name"),
        (
            HandsField::Station(2),
            "Finisher",
            "This station stands here already",
        ),
        (HandsField::Chance, "100", "from 50 to 99"),
    ] {
        let said = problem(field, typed);
        assert!(said.contains(reason), "{typed}: {said}");
    }
}

#[test]
fn somebody_must_stay_at_the_bench() {
    let shop = shop();
    let mut gone = fields_of(&shop, TODAY);
    gone.push(HandsField::Gone(0).name(), "yes");
    let mut idle = fields_of(&shop, TODAY);
    for day in 0..7 {
        idle.set(&HandsField::Minutes(0, day).name(), "0");
    }
    for fields in [gone, idle] {
        let errors = read(&fields, &shop, TODAY).unwrap_err();
        let said = errors.at(&HandsField::Name(0)).unwrap();
        assert!(said.contains("Somebody must be at the bench"), "{said}");
    }
}

#[test]
fn a_station_may_get_another_name_or_go() {
    let shop = shop();
    let mut fields = fields_of(&shop, TODAY);
    fields.set(&HandsField::Station(0).name(), "stitcher");
    fields.set(&HandsField::Station(1).name(), "");
    let bench = read(&fields, &shop, TODAY).unwrap();
    let line = |text| Line::parse(text).unwrap();
    assert_eq!(bench.stations, [line("stitcher")]);
    assert_eq!(
        bench.renamed,
        [(line("outsole stitcher"), line("stitcher"))]
    );
}

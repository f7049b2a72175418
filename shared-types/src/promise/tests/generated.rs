//! Generated workshops: short days, few minutes, and everything that can get in the way.

use proptest::prelude::*;

use super::*;
use crate::promise::workshop::Rest;

/// A shop that is open for one to three hours on some days of the week.
fn calendars() -> impl Strategy<Value = Calendar> {
    let hours = (540_u32..600, 60_u32..180).prop_map(|(opens, open)| {
        let clock = |minute: u32| format!("{}:{:02}", minute / 60, minute % 60);
        Hours::parse(&clock(opens), &clock(opens + open)).unwrap()
    });
    let day = prop_oneof![3 => hours, 1 => Just(None)];
    let week = prop::array::uniform7(day);
    (week, any::<bool>()).prop_map(|(mut week, closed_on_wednesday)| {
        // At least one day has an hour for work that must be done in one sitting.
        week[1] = Hours::parse("9:00", "11:00").unwrap();
        let wednesday = time::macros::date!(2026 - 03 - 11);
        Calendar {
            // The clocks of Denver change on 8 March 2026, two days before the plans begin, and
            // those of Berlin on 29 March, in the midst of long ones.
            zone: Zone::parse("Europe/Berlin").unwrap(),
            week,
            closed: closed_on_wednesday
                .then_some(wednesday)
                .into_iter()
                .collect(),
        }
    })
}

fn hands_at_work() -> impl Strategy<Value = Vec<Hand>> {
    prop::collection::vec(prop::array::uniform7(0_u32..150), 0..3).prop_map(|weeks| {
        let mut hands = vec![Hand::every_day("first", minutes(24 * 60))];
        for (number, week) in weeks.into_iter().enumerate() {
            hands.push(Hand {
                name: format!("other {number}"),
                week: week.map(minutes),
                away: [time::macros::date!(2026 - 03 - 10)].into(),
            });
        }
        hands
    })
}

fn labours() -> impl Strategy<Value = Labour> {
    (0_u32..60, 0_u32..30).prop_map(|(usual, more)| {
        let more = if usual == 0 { 0 } else { more };
        Labour::new(minutes(usual), minutes(usual + more)).unwrap()
    })
}

fn steps() -> impl Strategy<Value = Step> {
    let station =
        prop_oneof![3 => Just(None), 1 => Just(Some("stitcher")), 1 => Just(Some("finisher"))];
    let rest = prop_oneof![Just(0_u32), 1_u32..40, 200_u32..3_000];
    (labours(), station, rest, any::<bool>()).prop_map(|(labour, station, rest, one_sitting)| {
        Step {
            name: "work".to_owned(),
            labour,
            station: station.map(str::to_owned),
            rest: Rest {
                at_least: minutes(rest),
                at_most: None,
            },
            one_sitting,
        }
    })
}

/// Two steps with cement between them, short enough for the longest day.
fn cemented() -> impl Strategy<Value = Vec<Step>> {
    (1_u32..30, 0_u32..30, 0_u32..20, 1_u32..30).prop_map(|(first, rest, open, second)| {
        vec![
            Step::new("coat", Labour::usual(minutes(first)))
                .resting_between(minutes(rest), minutes(rest + open)),
            Step::new("lay", Labour::usual(minutes(second))),
        ]
    })
}

fn work() -> impl Strategy<Value = Vec<Step>> {
    let some = prop_oneof![4 => steps().prop_map(|step| vec![step]), 1 => cemented()];
    prop::collection::vec(some, 0..4).prop_map(|parts| parts.concat())
}

/// Workshops with a few open pairs on Monday, 9 March 2026.
pub(super) fn workshops() -> impl Strategy<Value = Workshop> {
    let begins = prop_oneof![
        4 => Just(Begins::Now),
        1 => Just(Begins::AfterTheWord),
        2 => (0_i64..6_000).prop_map(|minutes| {
            Begins::At(monday().plus(time::Duration::minutes(minutes)))
        }),
    ];
    let promised = prop::option::of(0_i64..20);
    let pairs = prop::collection::vec(
        (work(), begins, promised, any::<prop::sample::Index>(), 0..4),
        1..7,
    );
    (calendars(), hands_at_work(), pairs).prop_map(|(calendar, hands, parts)| {
        let mut pairs: Vec<Pair> = Vec::new();
        for (place, (steps, begins, promised, other, waits)) in parts.into_iter().enumerate() {
            let waits = waits == 0 && place > 0;
            let other = waits.then(|| pairs[other.index(place)].tag.clone());
            let first_day = time::macros::date!(2026 - 03 - 09);
            pairs.push(Pair {
                promised: promised.map(|days| first_day + time::Duration::days(days)),
                begins,
                waits_for: other.into_iter().collect(),
                ..pair(&place.to_string(), steps)
            });
        }
        Workshop {
            calendar,
            hands,
            stations: vec!["stitcher".to_owned(), "finisher".to_owned()],
            pairs,
        }
    })
}

//! The form for the bench: its hands, its stations, and how sure a promise is to be.

use std::collections::BTreeSet;

use time::format_description::well_known::Iso8601;
use time::{Date, Duration};

use crate::form::{Fields, FormErrors, Problem};
use crate::hands::BenchHand;
use crate::minutes::Minutes;
use crate::promise::chance::Chance;
use crate::shop::Shop;
use crate::text::Line;

/// A field of the form; hands and stations are counted from 0.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum HandsField {
    /// What a hand is called.
    Name(usize),
    /// Their bench minutes on a weekday, Monday first.
    Minutes(usize, usize),
    /// Days on which they are not there.
    Away(usize),
    /// Ticked if they no longer work at the bench.
    Gone(usize),
    /// What a station is called.
    Station(usize),
    /// What it was called before.
    StationWas(usize),
    /// The chance with which promises are given.
    Chance,
}

impl HandsField {
    /// The most stations that a shop may have.
    pub const MOST_STATIONS: usize = 20;

    /// The field's name in the form.
    pub fn name(self) -> String {
        match self {
            Self::Name(hand) => format!("hand-{hand}-name"),
            Self::Minutes(hand, day) => format!("hand-{hand}-minutes-{day}"),
            Self::Away(hand) => format!("hand-{hand}-away"),
            Self::Gone(hand) => format!("hand-{hand}-gone"),
            Self::Station(place) => format!("station-{place}"),
            Self::StationWas(place) => format!("station-{place}-was"),
            Self::Chance => "chance".to_owned(),
        }
    }
}

/// What the form says.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Bench {
    /// The hands; at least one.
    pub hands: Vec<BenchHand>,
    /// The stations.
    pub stations: Vec<Line>,
    /// Stations with a new name: the old one and the new one.
    pub renamed: Vec<(Line, Line)>,
    /// The chance with which promises are given.
    pub chance: Chance,
}

/// The form's fields as the shop stands; days away that are over are left out.
pub fn fields_of(shop: &Shop, today: Date) -> Fields {
    let mut fields = Fields::default();
    let mut put = |field: HandsField, value: String| fields.push(field.name(), value);
    for (place, hand) in shop.hands.iter().enumerate() {
        put(HandsField::Name(place), hand.name.to_string());
        for (day, minutes) in hand.week.iter().enumerate() {
            let minutes = minutes.map(hours_and_minutes);
            put(HandsField::Minutes(place, day), minutes.unwrap_or_default());
        }
        put(HandsField::Away(place), away_words(&hand.away, today));
    }
    for (place, station) in shop.stations.iter().enumerate() {
        put(HandsField::Station(place), station.to_string());
        put(HandsField::StationWas(place), station.to_string());
    }
    put(HandsField::Chance, shop.chance.percent().to_string());
    fields
}

fn hours_and_minutes(minutes: Minutes) -> String {
    format!("{}:{:02}", minutes.get() / 60, minutes.get() % 60)
}

/// `2026-12-24 to 2027-01-02`, days in a row together, one a line.
fn away_words(away: &BTreeSet<Date>, today: Date) -> String {
    let mut rows: Vec<(Date, Date)> = Vec::new();
    for day in away.range(today..) {
        match rows.last_mut() {
            Some((_, last)) if last.next_day() == Some(*day) => *last = *day,
            _ => rows.push((*day, *day)),
        }
    }
    let words = rows.into_iter().map(|(first, last)| {
        if first == last {
            first.to_string()
        } else {
            format!("{first} to {last}")
        }
    });
    words.collect::<Vec<_>>().join("\n")
}

/// How many rows for hands a form needs that shows these fields: those that are filled in, and one
/// for somebody new.
pub fn hand_rows(fields: &Fields) -> usize {
    let filled = (0..BenchHand::MOST).rfind(|hand| !is_empty_row(fields, *hand));
    (filled.map_or(0, |last| last + 1) + 1).min(BenchHand::MOST)
}

/// How many rows for stations it needs: those that are filled in, and one for a new one.
pub fn station_rows(fields: &Fields) -> usize {
    let typed = |place: usize| fields.one(&HandsField::Station(place).name()).trim();
    let filled = (0..HandsField::MOST_STATIONS).rfind(|place| !typed(*place).is_empty());
    (filled.map_or(0, |last| last + 1) + 1).min(HandsField::MOST_STATIONS)
}

fn is_empty_row(fields: &Fields, hand: usize) -> bool {
    let days = (0..7).map(|day| HandsField::Minutes(hand, day));
    let all = days.chain([HandsField::Name(hand), HandsField::Away(hand)]);
    all.into_iter()
        .all(|field| fields.one(&field.name()).trim().is_empty())
}

/// Reads the form of this shop on a day.
pub fn read(fields: &Fields, shop: &Shop, today: Date) -> Result<Bench, FormErrors<HandsField>> {
    let mut errors = FormErrors::default();
    let hands = read_hands(fields, shop, today, &mut errors);
    let (stations, renamed) = read_stations(fields, &mut errors);
    let chance = fields.one(&HandsField::Chance.name()).trim().parse::<u8>();
    let chance = chance.ok().filter(|percent| (50..=99).contains(percent));
    let chance = chance.and_then(|percent| Chance::try_from(percent).ok());
    let outside = Problem::OutOfRange {
        least: 50,
        most: 99,
    };
    match errors.take(HandsField::Chance, chance.ok_or(outside)) {
        Some(chance) if errors.is_empty() => Ok(Bench {
            hands,
            stations,
            renamed,
            chance,
        }),
        _ => Err(errors),
    }
}

fn read_hands(
    fields: &Fields,
    shop: &Shop,
    today: Date,
    errors: &mut FormErrors<HandsField>,
) -> Vec<BenchHand> {
    let mut hands: Vec<BenchHand> = Vec::new();
    for place in 0..BenchHand::MOST {
        let gone = !fields.one(&HandsField::Gone(place).name()).is_empty();
        if gone || is_empty_row(fields, place) {
            continue;
        }
        let typed = |field: HandsField| fields.one(&field.name());
        let name = Line::parse(typed(HandsField::Name(place)));
        let mut week = [None; 7];
        for (day, minutes) in week.iter_mut().enumerate() {
            let field = HandsField::Minutes(place, day);
            let read = read_minutes(typed(field), shop.calendar.open_minutes(day));
            *minutes = errors.take(field, read).flatten();
        }
        let away = read_away(typed(HandsField::Away(place)), today);
        let away = errors.take(HandsField::Away(place), away);
        let Some(name) = errors.take(HandsField::Name(place), name) else {
            continue;
        };
        if hands.iter().any(|other| is_same(&other.name, &name)) {
            errors.add(HandsField::Name(place), Problem::NameTaken);
        }
        hands.push(BenchHand {
            name,
            week,
            away: away.unwrap_or_default(),
        });
    }
    let works =
        |hand: &BenchHand| (0..7).any(|day| hand.minutes_on(day, &shop.calendar) > Minutes::ZERO);
    let is_open = (0..7).any(|day| shop.calendar.open_minutes(day) > Minutes::ZERO);
    if errors.is_empty() && (hands.is_empty() || is_open && !hands.iter().any(works)) {
        errors.add(HandsField::Name(0), Problem::NobodyAtTheBench);
    }
    hands
}

fn is_same(one: &Line, other: &Line) -> bool {
    one.as_str().to_lowercase() == other.as_str().to_lowercase()
}

/// Nothing typed means as long as the shop is open; so does a day on which it is closed.
fn read_minutes(text: &str, open: Minutes) -> Result<Option<Minutes>, Problem> {
    if text.trim().is_empty() || open == Minutes::ZERO {
        return Ok(None);
    }
    let minutes = Minutes::parse(text)?;
    if minutes > open {
        return Err(Problem::LongerThanOpen { open });
    }
    Ok(Some(minutes))
}

/// Days, or the first and the last of some, one a line; none is over.
pub(super) fn read_away(text: &str, today: Date) -> Result<BTreeSet<Date>, Problem> {
    let mut away = BTreeSet::new();
    for line in text
        .split(['\n', ','])
        .map(str::trim)
        .filter(|line| !line.is_empty())
    {
        let (first, last) = line.split_once("to").unwrap_or((line, line));
        let read = |day: &str| Date::parse(day.trim(), &Iso8601::DATE);
        let (Ok(first), Ok(last)) = (read(first), read(last)) else {
            return Err(Problem::NotDaysAway);
        };
        if first > last {
            return Err(Problem::NotDaysAway);
        }
        if first < today {
            return Err(Problem::DayIsPast { day: first });
        }
        if last - today > Duration::days(2 * 366) {
            return Err(Problem::DayTooFar { day: last });
        }
        let days = std::iter::successors(Some(first), |day| day.next_day());
        away.extend(days.take_while(|day| *day <= last));
    }
    Ok(away)
}

fn read_stations(
    fields: &Fields,
    errors: &mut FormErrors<HandsField>,
) -> (Vec<Line>, Vec<(Line, Line)>) {
    let mut stations: Vec<Line> = Vec::new();
    let mut renamed = Vec::new();
    for place in 0..HandsField::MOST_STATIONS {
        let field = HandsField::Station(place);
        let name = Line::parse_optional(fields.one(&field.name()));
        let Some(Some(name)) = errors.take(field, name) else {
            continue;
        };
        if stations.iter().any(|other| is_same(other, &name)) {
            errors.add(field, Problem::StationTwice);
        }
        let was = fields.one(&HandsField::StationWas(place).name());
        if let Ok(was) = Line::parse(was)
            && was != name
        {
            renamed.push((was, name.clone()));
        }
        stations.push(name);
    }
    (stations, renamed)
}

#[cfg(test)]
mod tests;

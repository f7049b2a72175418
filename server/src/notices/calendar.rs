//! The pickup as a calendar entry (RFC 5545).

use icalendar::{Calendar, Component as _, Event, EventLike as _};
use shared_types::moment::Moment;
use shared_types::shop::Shop;
use shared_types::ticket::Ticket;
use time::Duration;

/// An hour on the next open day from which the pairs can be collected; nothing if the shop never
/// opens. The same ticket always gives the same entry, so that it is moved and not doubled.
pub(crate) fn pickup(shop: &Shop, ticket: &Ticket, now: Moment) -> Option<String> {
    let shift = shop.calendar.shifts(now).find(|shift| shift.opens > now)?;
    let pairs: Vec<String> = ticket
        .ready_pairs()
        .map(|pair| pair.about.title())
        .collect();
    let summary = format!("Collect at {}: {}", shop.name, pairs.join(" and "));
    let hours = shop.calendar.week_words().join("\n");
    let mut entry = Event::new();
    entry
        .uid(&format!("pickup-{}@lastword", ticket.id))
        .summary(&summary)
        .description(&format!("Claim number {}.\n{hours}", ticket.number))
        .location(&shop.address.as_str().replace('\n', ", "))
        .add_property("DTSTAMP", stamp(now))
        .add_property("DTSTART", stamp(shift.opens))
        .add_property(
            "DTEND",
            stamp(shift.opens.plus(Duration::hours(1)).min(shift.closes)),
        );
    let mut calendar = Calendar::empty();
    calendar
        .append_property(("VERSION", "2.0"))
        .append_property(("PRODID", "-//Lastword//Pickup//EN"))
        .append_property(("CALSCALE", "GREGORIAN"))
        .push(entry.done());
    Some(calendar.to_string())
}

/// A moment in the basic form of UTC: `20261212T160000Z`.
fn stamp(moment: Moment) -> String {
    let utc = moment.to_utc();
    format!(
        "{:04}{:02}{:02}T{:02}{:02}{:02}Z",
        utc.year(),
        u8::from(utc.month()),
        utc.day(),
        utc.hour(),
        utc.minute(),
        utc.second()
    )
}

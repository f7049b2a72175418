//! A day at the bench, drawn as stitched runs along a welt for each hand and station, and the same
//! as a table.

use std::fmt::Write as _;

use leptos::prelude::*;
use shared_types::moment::{Moment, Zone, clock_words, day_words};
use shared_types::promise::days::{BenchDay, Piece, Row, Whose};

/// Across, in units of the drawing.
const LEFT: f64 = 6.0;
const WIDTH: f64 = 348.0;
const ALL: f64 = 360.0;
/// Down: from one row's name to the next one's.
const PITCH: f64 = 52.0;
const BAND: f64 = 11.0;
/// From stitch to stitch.
const STITCH: f64 = 7.0;
/// A run that is shorter has no room for its pair's number.
const NAMED: f64 = 42.0;

/// The day.
#[component]
pub fn BenchDayView(
    /// Which.
    day: BenchDay,
    /// The shop's zone.
    zone: Zone,
) -> impl IntoView {
    let is_used = |row: &&Row| !row.pieces.is_empty() || matches!(row.whose, Whose::Hand { .. });
    let rows: Vec<&Row> = day.rows.iter().filter(is_used).collect();
    let drawing = drawing(&day, &rows, &zone);
    let hands = rows
        .iter()
        .filter(|row| matches!(row.whose, Whose::Hand { .. }));
    let mut pieces: Vec<&Piece> = hands.flat_map(|row| &row.pieces).collect();
    pieces.sort_by_key(|piece| piece.starts);
    let clock = |at: Moment| clock_words(zone.local(at).time());
    let title = day_words(day.day);
    let table = if pieces.is_empty() {
        view! { <p>"Nothing is planned."</p> }.into_any()
    } else {
        let rows = pieces.into_iter().map(|piece| {
            view! {
                <tr>
                    <th scope="row">{format!("{}–{}", clock(piece.starts), clock(piece.ends))}</th>
                    <td>{piece.tag.to_string()}</td>
                    <td>{piece.step.clone()} {piece.station.clone().map(|station| view! { <small>{format!("at the {station}")}</small> })}</td>
                    <td>{piece.hand.clone()}</td>
                </tr>
            }
        });
        let rows = rows.collect_view();
        view! {
            <details class="fold" data-print>
                <summary>"Hour by hour" <span class="visually-hidden">{format!(", {title}")}</span></summary>
                <table class="day-table">
                    <caption class="visually-hidden">{format!("What is planned on {title}")}</caption>
                    <thead><tr>
                        <th scope="col">"When"</th>
                        <th scope="col">"Pair"</th>
                        <th scope="col">"Work"</th>
                        <th scope="col">"By"</th>
                    </tr></thead>
                    <tbody>{rows}</tbody>
                </table>
            </details>
        }
        .into_any()
    };
    view! {
        <section class="bench-day">
            <h3>{title.clone()}</h3>
            <div class="bench-day-drawing" inner_html=drawing></div>
            {table}
        </section>
    }
}

/// The drawing; its words stand in the table as well, so it is nothing to a screen reader.
fn drawing(day: &BenchDay, rows: &[&Row], zone: &Zone) -> String {
    let height = PITCH * f64::from(u32::try_from(rows.len()).unwrap_or(0)) + 16.0;
    let mut svg = format!(
        "<svg class=\"bench-day-svg\" viewBox=\"0 0 {ALL} {height}\" aria-hidden=\"true\" focusable=\"false\">"
    );
    let scale = Scale {
        opens: day.opens,
        minutes: minutes(day.opens, day.closes),
    };
    let mut y = 13.0;
    for row in rows {
        lane(&mut svg, &scale, row, y);
        y += PITCH;
    }
    hours(&mut svg, &scale, day, (zone, height));
    svg.push_str("</svg>");
    svg
}

struct Scale {
    opens: Moment,
    minutes: f64,
}

impl Scale {
    fn x(&self, at: Moment) -> f64 {
        LEFT + WIDTH * (minutes(self.opens, at) / self.minutes.max(1.0)).clamp(0.0, 1.0)
    }
}

fn minutes(from: Moment, to: Moment) -> f64 {
    to.since(from).as_seconds_f64() / 60.0
}

fn lane(svg: &mut String, scale: &Scale, row: &Row, y: f64) {
    let band = y + 18.0;
    let end = match row.whose {
        Whose::Hand { until, .. } => until.map(|until| scale.x(until)),
        Whose::Station { .. } => Some(LEFT + WIDTH),
    };
    let away = if end.is_none() { ", not in" } else { "" };
    let name = escaped(row.whose.name());
    let _ = write!(
        svg,
        "<text class=\"day-name\" x=\"{LEFT}\" y=\"{y:.1}\">{name}{away}</text>"
    );
    let Some(end) = end else { return };
    let _ = write!(
        svg,
        "<rect class=\"day-band\" x=\"{LEFT}\" y=\"{band:.1}\" width=\"{:.1}\" height=\"{BAND}\" rx=\"3\"/>",
        end - LEFT
    );
    let is_free = |x: f64| {
        let taken = |piece: &Piece| scale.x(piece.starts) <= x && x < scale.x(piece.ends);
        !row.pieces.iter().any(taken)
    };
    stitches(svg, "day-prick", (LEFT + 3.0, end - 3.0), band, is_free);
    for piece in &row.pieces {
        let (from, to) = (scale.x(piece.starts), scale.x(piece.ends));
        stitches(svg, "day-stitch", (from + 1.5, to - 1.5), band, |_| true);
        let _ = write!(
            svg,
            "<path class=\"day-knot\" d=\"M{from:.1} {:.1}V{:.1}\"/>",
            band - 2.0,
            band + BAND + 2.0
        );
        if to - from >= NAMED {
            let _ = write!(
                svg,
                "<text class=\"day-pair\" x=\"{:.1}\" y=\"{:.1}\">{}</text>",
                from + 1.0,
                band - 4.0,
                escaped(&piece.tag.0)
            );
        }
    }
}

/// Stitches or pricked holes, slanted as a lockstitch lies.
fn stitches(
    svg: &mut String,
    class: &str,
    (from, to): (f64, f64),
    band: f64,
    lies: impl Fn(f64) -> bool,
) {
    let middle = band + BAND / 2.0;
    let long = if class == "day-prick" {
        1.2
    } else {
        STITCH - 1.8
    };
    let mut path = String::new();
    let mut x = from;
    while x + long <= to + 0.5 {
        if lies(x) {
            let _ = write!(path, "M{x:.1} {:.1}l{long:.1} -2.6", middle + 1.3);
        }
        x += STITCH;
    }
    // Work of a few minutes is one short stitch.
    if path.is_empty() && class == "day-stitch" {
        let _ = write!(path, "M{from:.1} {:.1}l1.2 -2.6", middle + 1.3);
    }
    if !path.is_empty() {
        let _ = write!(svg, "<path class=\"{class}\" d=\"{path}\"/>");
    }
}

/// The clock under the lanes: every second full hour.
fn hours(svg: &mut String, scale: &Scale, day: &BenchDay, (zone, height): (&Zone, f64)) {
    let first = zone.local(day.opens).time().hour();
    let first = if zone.local(day.opens).time().minute() > 0 {
        first + 1
    } else {
        first
    };
    for hour in (first..24).step_by(2) {
        let Ok(clock) = time::Time::from_hms(hour, 0, 0) else {
            continue;
        };
        let at = zone.moment(day.day.with_time(clock));
        if at > day.closes {
            break;
        }
        let x = scale.x(at);
        let anchor = if x > LEFT + WIDTH - 16.0 {
            "end"
        } else if x < LEFT + 8.0 {
            "start"
        } else {
            "middle"
        };
        let _ = write!(
            svg,
            "<text class=\"day-hour\" x=\"{x:.1}\" y=\"{:.1}\" text-anchor=\"{anchor}\">{hour}</text>",
            height - 4.0
        );
    }
}

/// Text inside of SVG.
fn escaped(text: &str) -> String {
    text.replace('&', "&amp;")
        .replace('<', "&lt;")
        .replace('>', "&gt;")
}

//! A day at the bench, drawn as stitched runs along a welt for each hand and station, and the same
//! as a table.

use std::fmt::Write as _;

use leptos::prelude::*;
use shared_types::moment::{Moment, Zone, clock_words, day_words};
use shared_types::promise::days::{BenchDay, Piece, Row, Whose};

/// Across, in units of the drawing: ten are a pixel on a phone.
const LEFT: i64 = 60;
const WIDTH: i64 = 3_480;
const ALL: i64 = 3_600;
/// Down: from one row's name to the next one's.
const PITCH: i64 = 520;
const BAND: i64 = 110;
/// From stitch to stitch.
const STITCH: i64 = 70;
/// How far a stitch rises.
const SLANT: i64 = 26;
/// A run that is shorter has no room for its pair's number.
const NAMED: i64 = 420;

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
    let height = PITCH * i64::try_from(rows.len()).unwrap_or(0) + 160;
    let mut svg = format!(
        "<svg class=\"bench-day-svg\" viewBox=\"0 0 {ALL} {height}\" aria-hidden=\"true\" focusable=\"false\">"
    );
    let scale = Scale {
        opens: day.opens,
        minutes: minutes(day.opens, day.closes).max(1),
    };
    let tops = (0..).map(|row| 130 + row * PITCH);
    for (row, y) in rows.iter().zip(tops) {
        lane(&mut svg, &scale, row, y);
    }
    hours(&mut svg, &scale, day, (zone, height));
    svg.push_str("</svg>");
    svg
}

struct Scale {
    opens: Moment,
    minutes: i64,
}

impl Scale {
    fn x(&self, at: Moment) -> i64 {
        LEFT + (WIDTH * minutes(self.opens, at) / self.minutes).clamp(0, WIDTH)
    }
}

fn minutes(from: Moment, to: Moment) -> i64 {
    to.since(from).whole_minutes()
}

fn lane(svg: &mut String, scale: &Scale, row: &Row, y: i64) {
    let band = y + 180;
    let end = match row.whose {
        Whose::Hand { until, .. } => until.map(|until| scale.x(until)),
        Whose::Station { .. } => Some(LEFT + WIDTH),
    };
    let away = if end.is_none() { ", not in" } else { "" };
    let name = escaped(row.whose.name());
    let _ = write!(
        svg,
        "<text class=\"day-name\" x=\"{LEFT}\" y=\"{y}\">{name}{away}</text>"
    );
    let Some(end) = end else { return };
    let _ = write!(
        svg,
        "<rect class=\"day-band\" x=\"{LEFT}\" y=\"{band}\" width=\"{}\" height=\"{BAND}\" rx=\"30\"/>",
        end - LEFT
    );
    let is_free = |x: i64| {
        let taken = |piece: &Piece| scale.x(piece.starts) <= x && x < scale.x(piece.ends);
        !row.pieces.iter().any(taken)
    };
    run(svg, Run::Pricked, (LEFT + 30, end - 30), band, is_free);
    for piece in &row.pieces {
        let (from, to) = (scale.x(piece.starts), scale.x(piece.ends));
        run(svg, Run::Stitched, (from + 15, to - 15), band, |_| true);
        let _ = write!(
            svg,
            "<path class=\"day-knot\" d=\"M{from} {}V{}\"/>",
            band - 20,
            band + BAND + 20
        );
        if to - from >= NAMED {
            let _ = write!(
                svg,
                "<text class=\"day-pair\" x=\"{}\" y=\"{}\">{}</text>",
                from + 10,
                band - 40,
                escaped(&piece.tag.0)
            );
        }
    }
}

/// Thread that lies in its holes, or holes for thread to come.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Run {
    Stitched,
    Pricked,
}

/// A run along the band, slanted as a lockstitch lies.
fn run(svg: &mut String, run: Run, (from, to): (i64, i64), band: i64, lies: impl Fn(i64) -> bool) {
    const SHORT: i64 = 12;
    let (class, long) = match run {
        Run::Stitched => ("day-stitch", STITCH - 18),
        Run::Pricked => ("day-prick", SHORT),
    };
    let y = band + i64::midpoint(BAND, SLANT);
    let mut path = String::new();
    let mut x = from;
    while x + long <= to {
        if lies(x) {
            let _ = write!(path, "M{x} {y}l{long} -{SLANT}");
        }
        x += STITCH;
    }
    // Work of a few minutes is one short stitch.
    if path.is_empty() && run == Run::Stitched {
        let _ = write!(path, "M{from} {y}l{SHORT} -{SLANT}");
    }
    if !path.is_empty() {
        let _ = write!(svg, "<path class=\"{class}\" d=\"{path}\"/>");
    }
}

/// The clock under the lanes: every second full hour.
fn hours(svg: &mut String, scale: &Scale, day: &BenchDay, (zone, height): (&Zone, i64)) {
    let opens = zone.local(day.opens).time();
    let first = opens.hour() + u8::from(opens.minute() > 0);
    let clocks = (first..24)
        .step_by(2)
        .filter_map(|hour| time::Time::from_hms(hour, 0, 0).ok());
    for clock in clocks {
        let at = zone.moment(day.day.with_time(clock));
        if at > day.closes {
            break;
        }
        let (x, hour) = (scale.x(at), clock.hour());
        let anchor = match x - LEFT {
            ..80 => "start",
            80..3_320 => "middle",
            _ => "end",
        };
        let _ = write!(
            svg,
            "<text class=\"day-hour\" x=\"{x}\" y=\"{}\" text-anchor=\"{anchor}\">{hour}</text>",
            height - 40
        );
    }
}

/// Text inside of SVG.
fn escaped(text: &str) -> String {
    text.replace('&', "&amp;")
        .replace('<', "&lt;")
        .replace('>', "&gt;")
}

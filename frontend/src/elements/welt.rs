//! The stitched welt: how far a pair has come, drawn as stitches round the outline of its sole.
//!
//! The drawing is one string of SVG without styles of its own; `style/components/welt.css` gives its
//! parts their colours, on screen, at night and on paper.

use std::fmt::Write as _;

use leptos::prelude::*;
use shared_types::bench::outline::{Bottom, Curve, Point, Silhouette, Spot};

/// How far a pair has come.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct WeltProgress {
    /// The working stages, each a run of stitches.
    pub runs: u8,
    /// How many of them are finished.
    pub done: u8,
    /// What happens in the next one.
    pub now: WeltNow,
    /// Whether the welt goes round the heel as well: a 360.
    pub all_round: bool,
}

/// What happens at the place where the thread ends.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum WeltNow {
    /// No hole has thread in it.
    NotStarted,
    /// The needle stands in the next hole.
    Stitching,
    /// The thread hangs loose, with a knot to tie.
    WaitingForWord,
    /// The thread is coiled and laid aside: something dries, or has to come first.
    Resting,
    /// Every hole has its thread.
    Finished,
}

/// The drawing of a pair's progress; `label` says the same in words.
#[component]
pub fn Welt(
    /// What is drawn.
    progress: WeltProgress,
    /// The same in words.
    label: String,
) -> impl IntoView {
    view! { <div class="welt-frame" inner_html=welt_svg(&progress, &label)></div> }
}

/// A line of stitches between two parts of a page.
pub fn divider_stitch() -> impl IntoView {
    view! { <hr class="stitches" /> }
}

/// Draws one sole, inner side on the right.
pub fn welt_svg(progress: &WeltProgress, label: &str) -> String {
    let mut svg = String::with_capacity(5_000);
    open(&mut svg, label, "-55 -20 110 240");
    svg.push_str(&sole(*progress));
    svg.push_str("</svg>");
    svg
}

/// Draws both soles as they stand side by side, mirrored.
pub fn welt_pair_svg(progress: &WeltProgress, label: &str) -> String {
    let sole = sole(*progress);
    let mut svg = String::with_capacity(10_000);
    open(&mut svg, label, "-55 -20 220 240");
    svg.push_str(&sole);
    svg.push_str("<g transform=\"matrix(-1 0 0 1 110 0)\">");
    svg.push_str(&sole);
    svg.push_str("</g></svg>");
    svg
}

/// The sole's height in the drawing's units; all measures below are in these.
const HEIGHT: f64 = 200.0;
/// The outer edge of the band, from the edge of the insole.
const OUTER: f64 = 6.5;
/// The inner edge of the band.
const INNER: f64 = -4.5;
/// The row of holes.
const SEAM: f64 = 0.9;
/// Stitches in a run of a 270. Few and large, so that a tag can show them.
const STITCHES: u16 = 7;
/// Stitches in a run of a 360, whose runs are longer.
const STITCHES_ALL_ROUND: u16 = 10;
/// Stitch widths left free where one run ends and the next begins.
const GAP: u16 = 1;
/// Where the band of a 270 ends, as shares of the way round: a little under the heel on both sides.
const UNDER_HEEL: (f64, f64) = (-0.015, 0.745);
/// From here on down there is no room for a thread to hang.
const LOW: f64 = 165.0;
/// How deep the notch between two runs reaches into the band.
const NICK: f64 = 3.9;
/// Spaces between the nails of the heel.
const NAILS: u16 = 12;

/// The row of holes, counted from the left heel breast; run after run, with a gap between runs.
struct Seam {
    silhouette: Silhouette,
    runs: u16,
    stitches: u16,
    end: f64,
}

impl Seam {
    fn of(progress: WeltProgress) -> Self {
        let silhouette = Bottom::EXAMPLE.silhouette(HEIGHT);
        let (end, stitches) = if progress.all_round {
            (1.0, STITCHES_ALL_ROUND)
        } else {
            (silhouette.breast(), STITCHES)
        };
        Self {
            silhouette,
            runs: u16::from(progress.runs).clamp(1, 12),
            stitches,
            end,
        }
    }

    /// In half stitches along the whole seam.
    fn spot(&self, run: u16, half_stitches: u16) -> Spot {
        let in_run = 2 * (self.stitches + GAP);
        let index = run * in_run + GAP + half_stitches;
        self.silhouette
            .spot_between(0.0, self.end, index, self.runs * in_run)
            .outward(SEAM)
    }

    fn middle(&self, run: u16, stitch: u16) -> Spot {
        self.spot(run, 2 * stitch + 1)
    }

    fn hole(&self, run: u16, index: u16) -> Spot {
        self.spot(run, 2 * index)
    }

    fn boundary(&self, run: u16) -> Spot {
        self.silhouette.spot_between(0.0, self.end, run, self.runs)
    }
}

/// Where the thread ends: the run, and how many of its stitches are laid.
#[derive(Clone, Copy)]
struct Reach {
    run: u16,
    laid: u16,
}

impl Reach {
    fn of(progress: WeltProgress, seam: &Seam) -> Self {
        let (runs, stitches) = (seam.runs, seam.stitches);
        let done = u16::from(progress.done).min(runs);
        match progress.now {
            WeltNow::NotStarted => Self { run: 0, laid: 0 },
            WeltNow::Finished => Self { run: runs, laid: 0 },
            WeltNow::Stitching | WeltNow::WaitingForWord | WeltNow::Resting if done < runs => {
                Self {
                    run: done,
                    laid: stitches / 2,
                }
            }
            WeltNow::Stitching | WeltNow::WaitingForWord | WeltNow::Resting => Self {
                run: runs - 1,
                laid: stitches - 1,
            },
        }
    }

    const fn covers(self, run: u16, stitch: u16) -> bool {
        run < self.run || (run == self.run && stitch < self.laid)
    }
}

fn open(svg: &mut String, label: &str, view_box: &str) {
    svg.push_str(
        "<svg class=\"welt\" role=\"img\" xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"",
    );
    svg.push_str(view_box);
    svg.push_str("\"><title>");
    for letter in label.chars() {
        match letter {
            '<' => svg.push_str("&lt;"),
            '>' => svg.push_str("&gt;"),
            '&' => svg.push_str("&amp;"),
            other => svg.push(other),
        }
    }
    svg.push_str("</title>");
}

fn sole(progress: WeltProgress) -> String {
    let seam = Seam::of(progress);
    let reach = Reach::of(progress, &seam);
    let mut svg = String::with_capacity(4_500);
    leather(&mut svg, &seam, progress.all_round);
    holes(&mut svg, &seam, reach);
    stitches(&mut svg, &seam, reach);
    match progress.now {
        WeltNow::NotStarted | WeltNow::Finished => {}
        WeltNow::Stitching => needle(&mut svg, &seam, reach),
        WeltNow::WaitingForWord => loose_end(&mut svg, &seam, reach),
        WeltNow::Resting => coil(&mut svg, &seam, reach),
    }
    svg
}

fn leather(svg: &mut String, seam: &Seam, all_round: bool) {
    let edge = &seam.silhouette;
    let breast = edge.breast();

    let mut whole = Pen::default();
    whole.curve(&edge.curve(0.0, 1.0, 0.0, 28)).close();
    whole.draw(svg, "welt-sole");

    let mut band = Pen::default();
    if all_round {
        band.curve(&edge.curve(0.0, 1.0, OUTER, 32)).close();
        band.curve(&edge.curve(1.0, 0.0, INNER, 32)).close();
    } else {
        let (from, to) = UNDER_HEEL;
        band.curve(&edge.curve(from, to, OUTER, 24))
            .then(&edge.curve(to, from, INNER, 24))
            .close();
    }
    band.draw(svg, "welt-band");

    let (rim, nail_row) = if all_round {
        (INNER, -8.9)
    } else {
        (OUTER, 1.7)
    };
    let left = edge.spot(0.0).place(0.0, rim);
    let right = edge.spot(breast).place(0.0, rim);
    let mut heel = Pen::default();
    heel.curve(&edge.curve(breast, 1.0, rim, 14))
        .cubic(left.moved(14.0, 6.0), right.moved(-14.0, 6.0), right)
        .close();
    heel.draw(svg, "welt-heel");

    let (lift_left, lift_right) = (
        edge.spot_between(breast, 1.0, 17, 24).place(0.0, rim),
        edge.spot_between(breast, 1.0, 7, 24).place(0.0, rim),
    );
    let mut lift = Pen::default();
    lift.to(lift_left).cubic(
        lift_left.moved(10.0, -9.0),
        lift_right.moved(-10.0, -9.0),
        lift_right,
    );
    lift.draw(svg, "welt-lift");

    let mut nails = Pen::default();
    for index in 1..NAILS {
        let nail = edge.spot_between(breast, 1.0, index, NAILS);
        nails.to(nail.place(0.0, nail_row)).dot();
    }
    nails.draw(svg, "welt-nail");

    let mut nicks = Pen::default();
    for run in 1..seam.runs {
        let boundary = seam.boundary(run);
        nicks
            .to(boundary.place(0.0, OUTER))
            .line(boundary.place(0.0, NICK));
    }
    nicks.draw(svg, "welt-nick");
}

fn holes(svg: &mut String, seam: &Seam, reach: Reach) {
    let mut pricks = Pen::default();
    for run in 0..seam.runs {
        for stitch in (0..seam.stitches).filter(|stitch| !reach.covers(run, *stitch)) {
            let middle = seam.middle(run, stitch);
            pricks
                .to(middle.place(-1.1, 1.2))
                .line(middle.place(1.1, -1.2));
        }
    }
    pricks.draw(svg, "welt-prick");
}

fn stitches(svg: &mut String, seam: &Seam, reach: Reach) {
    let mut thread = Pen::default();
    for run in 0..seam.runs {
        for stitch in (0..seam.stitches).filter(|stitch| reach.covers(run, *stitch)) {
            let middle = seam.middle(run, stitch);
            let from = middle.place(-4.5, -1.7);
            let to = middle.place(4.5, 1.7);
            thread
                .to(from)
                .swell(from, middle.place(-3.6, 1.6), middle.place(0.8, 3.7), to)
                .swell(to, middle.place(3.6, -1.6), middle.place(-0.8, -3.7), from)
                .close();
        }
    }
    thread.draw(svg, "welt-stitch");
}

fn needle(svg: &mut String, seam: &Seam, reach: Reach) {
    let from = seam.hole(reach.run, reach.laid);
    let next = seam.middle(reach.run, reach.laid);
    let eye = next.place(13.4, 21.0);

    let mut loop_of_thread = Pen::default();
    loop_of_thread
        .to(from.place(0.4, 1.4))
        .cubic(
            from.place(-2.0, 13.0),
            from.place(-9.0, 25.0),
            from.place(1.0, 30.0),
        )
        .cubic(from.place(9.0, 34.0), next.place(19.0, 33.0), eye);
    loop_of_thread.draw(svg, "welt-thread-halo");
    loop_of_thread.draw(svg, "welt-thread");

    let mut steel = Pen::default();
    steel
        .to(next.place(-0.4, -0.6))
        .cubic(
            next.place(3.2, 9.0),
            next.place(7.8, 17.0),
            next.place(12.2, 24.4),
        )
        .cubic(
            next.place(13.8, 27.0),
            next.place(17.4, 25.4),
            next.place(16.2, 22.2),
        )
        .cubic(
            next.place(12.2, 14.8),
            next.place(6.8, 7.4),
            next.place(-0.4, -0.6),
        )
        .close();
    steel.draw(svg, "welt-needle");
    let mut eyelet = Pen::default();
    eyelet.to(next.place(12.2, 20.0)).line(eye);
    eyelet.draw(svg, "welt-eye");
}

/// The way in which a loose thread falls from its hole: outside the sole where there is room beside
/// it, inside at the toe; at the heel of a 360 it is thrown up beside the shoe.
struct Fall {
    hole: Point,
    way: Point,
}

impl Fall {
    fn of(seam: &Seam, reach: Reach) -> Self {
        let spot = seam.hole(reach.run, reach.laid);
        let hole = spot.place(0.4, 1.2);
        let way = Point {
            x: if spot.rightward() < -0.3 { -1.0 } else { 1.0 },
            y: if hole.y > LOW { -1.0 } else { 1.0 },
        };
        Self { hole, way }
    }

    fn at(&self, aside: f64, down: f64) -> Point {
        self.hole.turned(self.way, aside, down)
    }
}

fn loose_end(svg: &mut String, seam: &Seam, reach: Reach) {
    let fall = Fall::of(seam, reach);
    let mut tail = Pen::default();
    tail.to(fall.at(10.6, 23.0))
        .cubic(
            fall.at(12.4, 27.0),
            fall.at(12.6, 31.0),
            fall.at(11.6, 36.0),
        )
        .cubic(
            fall.at(10.4, 42.0),
            fall.at(14.6, 45.0),
            fall.at(12.0, 53.0),
        );
    let mut bight = Pen::default();
    bight
        .to(fall.at(0.0, 0.0))
        .cubic(fall.at(4.0, -3.4), fall.at(13.0, -3.0), fall.at(13.4, 5.0))
        .cubic(fall.at(13.8, 13.0), fall.at(5.6, 15.0), fall.at(4.6, 23.4))
        .cubic(fall.at(3.4, 34.6), fall.at(20.0, 34.6), fall.at(19.2, 23.4));
    let mut tuck = Pen::default();
    tuck.to(fall.at(19.2, 23.4))
        .cubic(fall.at(18.6, 14.6), fall.at(6.6, 12.4), fall.at(6.0, 16.6))
        .cubic(fall.at(5.6, 19.4), fall.at(9.2, 20.0), fall.at(10.6, 23.0));
    for part in [&tail, &bight, &tuck] {
        part.draw(svg, "welt-loose-halo");
        part.draw(svg, "welt-loose");
    }
}

fn coil(svg: &mut String, seam: &Seam, reach: Reach) {
    let fall = Fall::of(seam, reach);
    let mut thread = Pen::default();
    thread
        .to(fall.at(0.0, 0.0))
        .cubic(fall.at(8.0, -4.4), fall.at(20.4, 2.0), fall.at(20.4, 14.0))
        .cubic(fall.at(20.4, 27.0), fall.at(5.4, 27.0), fall.at(5.4, 14.4))
        .cubic(fall.at(5.4, 4.4), fall.at(17.0, 5.0), fall.at(17.0, 14.4))
        .cubic(fall.at(17.0, 22.0), fall.at(8.8, 22.0), fall.at(8.8, 15.0))
        .cubic(fall.at(8.8, 10.4), fall.at(13.4, 10.6), fall.at(13.4, 15.0));
    thread.draw(svg, "welt-thread-halo");
    thread.draw(svg, "welt-thread");
}

/// Writes the data of one path, in whole tenths.
#[derive(Default)]
struct Pen {
    data: String,
}

impl Pen {
    fn to(&mut self, point: Point) -> &mut Self {
        self.mark('M').number(point.x).number(point.y)
    }

    fn line(&mut self, point: Point) -> &mut Self {
        self.mark('L').number(point.x).number(point.y)
    }

    fn dot(&mut self) -> &mut Self {
        self.data.push_str("h0");
        self
    }

    fn cubic(&mut self, lead: Point, control: Point, to: Point) -> &mut Self {
        self.mark('C');
        for point in [lead, control, to] {
            self.number(point.x).number(point.y);
        }
        self
    }

    /// A curve from where the pen stands, written from there to keep it short.
    fn swell(&mut self, here: Point, lead: Point, control: Point, to: Point) -> &mut Self {
        self.mark('c');
        for point in [lead, control, to] {
            let way = point.seen_from(here);
            self.number(way.x).number(way.y);
        }
        self
    }

    fn curve(&mut self, curve: &Curve) -> &mut Self {
        self.to(curve.start).smooth(curve)
    }

    fn then(&mut self, curve: &Curve) -> &mut Self {
        self.line(curve.start).smooth(curve)
    }

    fn smooth(&mut self, curve: &Curve) -> &mut Self {
        self.mark('C').number(curve.lead.x).number(curve.lead.y);
        for (index, (control, knot)) in curve.pieces.iter().enumerate() {
            if index > 0 {
                self.mark('S');
            }
            for point in [control, knot] {
                self.number(point.x).number(point.y);
            }
        }
        self
    }

    fn close(&mut self) {
        self.data.push('Z');
    }

    fn mark(&mut self, command: char) -> &mut Self {
        self.data.push(command);
        self
    }

    fn number(&mut self, value: f64) -> &mut Self {
        let written = format!("{value:.1}");
        let short = written.strip_suffix(".0").unwrap_or(&written);
        let short = if short == "-0" { "0" } else { short };
        let stands_free = self.data.ends_with(|last: char| last.is_ascii_alphabetic());
        if !stands_free && !short.starts_with('-') {
            self.data.push(' ');
        }
        self.data.push_str(short);
        self
    }

    fn draw(&self, svg: &mut String, class: &str) {
        if !self.data.is_empty() {
            let _ = write!(svg, "<path class=\"{class}\" d=\"{}\"/>", self.data);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn progress(done: u8, now: WeltNow) -> WeltProgress {
        WeltProgress {
            runs: 5,
            done,
            now,
            all_round: false,
        }
    }

    fn count(svg: &str, class: &str, command: char) -> usize {
        svg.split("<path class=\"")
            .find_map(|path| path.strip_prefix(class)?.strip_prefix("\" d=\""))
            .map_or(0, |path| {
                let data = path.split('"').next().unwrap_or_default();
                data.matches(command).count()
            })
    }

    #[test]
    fn stitches_and_pricks_share_out_the_holes() {
        for done in 0..=5 {
            for now in [
                WeltNow::NotStarted,
                WeltNow::Stitching,
                WeltNow::WaitingForWord,
                WeltNow::Resting,
                WeltNow::Finished,
            ] {
                let svg = welt_svg(&progress(done, now), "");
                let stitches = count(&svg, "welt-stitch", 'M');
                let pricks = count(&svg, "welt-prick", 'M');
                assert_eq!(stitches + pricks, 35, "{done} {now:?}");
            }
        }
        let finished = welt_svg(&progress(5, WeltNow::Finished), "");
        assert_eq!(count(&finished, "welt-prick", 'M'), 0);
        let fresh = welt_svg(&progress(0, WeltNow::NotStarted), "");
        assert_eq!(count(&fresh, "welt-stitch", 'M'), 0);
    }

    #[test]
    fn each_state_has_its_own_sign() {
        let drawn = |now| welt_svg(&progress(2, now), "");
        assert!(drawn(WeltNow::Stitching).contains("welt-needle"));
        assert!(drawn(WeltNow::WaitingForWord).contains("welt-loose"));
        let resting = drawn(WeltNow::Resting);
        assert!(resting.contains("welt-thread") && !resting.contains("welt-needle"));
        assert!(!drawn(WeltNow::Finished).contains("welt-thread"));
    }

    #[test]
    fn the_words_are_the_title_and_cannot_break_out() {
        let svg = welt_svg(&progress(1, WeltNow::Stitching), "Soling <b> & more");
        assert!(svg.contains("<title>Soling &lt;b&gt; &amp; more</title>"));
        assert!(svg.contains("role=\"img\""));
    }

    #[test]
    fn a_drawing_carries_no_styles_and_stays_small() {
        for all_round in [false, true] {
            let progress = WeltProgress {
                all_round,
                ..progress(4, WeltNow::Stitching)
            };
            let svg = welt_svg(&progress, "Finishing");
            assert!(!svg.contains("style="));
            assert!(!svg.contains("NaN"));
            assert!(svg.len() < 9_000, "{}", svg.len());
        }
    }

    #[test]
    fn more_runs_done_than_there_are_is_a_last_stitch_to_set() {
        let svg = welt_svg(&progress(9, WeltNow::Stitching), "");
        assert_eq!(count(&svg, "welt-prick", 'M'), 1);
    }
}

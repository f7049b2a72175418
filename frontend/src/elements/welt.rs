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
#[component]
pub fn DividerStitch() -> impl IntoView {
    view! { <div class="stitches" inner_html=divider_stitch()></div> }
}

/// Draws one sole, inner side on the right.
pub fn welt_svg(progress: &WeltProgress, label: &str) -> String {
    let mut svg = String::with_capacity(5_000);
    open(&mut svg, label, "-55 -20 110 240");
    svg.push_str(&sole(progress));
    svg.push_str("</svg>");
    svg
}

/// Draws both soles as they stand side by side, mirrored.
pub fn welt_pair_svg(progress: &WeltProgress, label: &str) -> String {
    let sole = sole(progress);
    let mut svg = String::with_capacity(10_000);
    open(&mut svg, label, "-55 -20 220 240");
    svg.push_str(&sole);
    svg.push_str("<g transform=\"matrix(-1 0 0 1 110 0)\">");
    svg.push_str(&sole);
    svg.push_str("</g></svg>");
    svg
}

/// Seven stitches in a row, for the middle of a page.
pub fn divider_stitch() -> String {
    let mut svg = String::from(
        "<svg class=\"welt-divider\" viewBox=\"0 0 112 8\" width=\"112\" height=\"8\" aria-hidden=\"true\"><path class=\"welt-stitch\" d=\"",
    );
    for index in 0..7_u8 {
        let _ = write!(
            svg,
            "M{} 6.1q2.2-3.500 13.6-4.200q-2.200 3.500-13.600 4.200z",
            f64::from(index)
        );
    }
    svg.push_str("\"/></svg>");
    svg
}

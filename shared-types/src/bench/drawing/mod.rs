//! Drawings to scale: the heel from the side before and after, and the sole with its welt from below.
//!
//! A [`Drawing`] is plain data in millimetres of the real shoe; [`Drawing::svg`] writes it as SVG with
//! classes and without a style of its own.
//!
//! - [`side`]: heel, sole and pitch
//! - [`plan`]: the outline with the run of the welt

mod last;
pub mod plan;
pub mod side;

use std::fmt::Write as _;

use super::outline::{Curve, Point};

/// What a line or a face stands for; a style sheet gives each its colour.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Part {
    /// The floor.
    Floor,
    /// The last's bottom as it should stand.
    Last,
    /// The upper, for orientation only.
    Upper,
    /// The sole, from the side or from below.
    Sole,
    /// The old sole's edge.
    OldSole,
    /// The heel base.
    Base,
    /// The line between two lifts.
    Lift,
    /// The top lift.
    TopLift,
    /// The insole's edge.
    Insole,
    /// The rib.
    Rib,
    /// The welt's band.
    Welt,
    /// A stitch.
    Stitch,
    /// The heel breast.
    Breast,
    /// A line that measures.
    Measure,
}

impl Part {
    /// Its class in SVG.
    pub const fn class(self) -> &'static str {
        match self {
            Self::Floor => "bench-floor",
            Self::Last => "bench-last",
            Self::Upper => "bench-upper",
            Self::Sole => "bench-sole",
            Self::OldSole => "bench-old-sole",
            Self::Base => "bench-base",
            Self::Lift => "bench-lift",
            Self::TopLift => "bench-top-lift",
            Self::Insole => "bench-insole",
            Self::Rib => "bench-rib",
            Self::Welt => "bench-welt",
            Self::Stitch => "bench-stitch",
            Self::Breast => "bench-breast",
            Self::Measure => "bench-measure",
        }
    }
}

/// Where a note's words stand from its place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Anchor {
    /// They begin there.
    Start,
    /// They are centred there.
    Middle,
    /// They end there.
    End,
}

/// A line or a face.
#[derive(Clone, Debug, PartialEq)]
pub struct Stroke {
    /// What it stands for.
    pub part: Part,
    /// Its path in SVG's notation, in millimetres.
    pub path: String,
}

/// Words in a drawing.
#[derive(Clone, Debug, PartialEq)]
pub struct Note {
    /// Where.
    pub at: Point,
    /// How they stand there.
    pub anchor: Anchor,
    /// The words, some 7 mm high.
    pub words: String,
}

/// A drawing in millimetres of the real shoe, x to the right and y down from its upper left corner.
#[derive(Clone, Debug, PartialEq)]
pub struct Drawing {
    /// The same in words.
    pub label: String,
    /// Its width.
    pub width_mm: f64,
    /// Its height.
    pub height_mm: f64,
    /// Lines and faces, from the back to the front.
    pub strokes: Vec<Stroke>,
    /// Words.
    pub notes: Vec<Note>,
}

/// Room below a drawing for the bar that measures it.
const SCALE_ROOM: f64 = 24.0;

impl Drawing {
    /// The drawing as SVG, `shrunk` times smaller than the shoe on paper: 1 is its true size. A bar
    /// below it says the scale, and shows with a rule whether the printer kept it.
    pub fn svg(&self, shrunk: f64) -> String {
        self.with_scale(shrunk).plain_svg(shrunk)
    }

    fn with_scale(&self, shrunk: f64) -> Self {
        let mut drawing = self.clone();
        let y = self.height_mm + 6.0;
        let (from, to) = (14.0, 114.0);
        let at = |x: f64, y: f64| Point { x, y };
        for points in [
            [at(from, y), at(to, y)],
            [at(from, y - 3.0), at(from, y + 3.0)],
            [at(to, y - 3.0), at(to, y + 3.0)],
        ] {
            let path = line(&points);
            let part = Part::Measure;
            drawing.strokes.push(Stroke { part, path });
        }
        drawing.notes.push(Note {
            at: at(from, y + 13.0),
            anchor: Anchor::Start,
            words: format!("100 mm of the shoe, 1 : {} on paper", short(shrunk)),
        });
        drawing.height_mm += SCALE_ROOM;
        drawing
    }

    fn plain_svg(&self, shrunk: f64) -> String {
        let Self {
            label,
            width_mm,
            height_mm,
            strokes,
            notes,
        } = self;
        let mut svg = format!(
            "<svg class=\"bench-drawing\" xmlns=\"http://www.w3.org/2000/svg\" role=\"img\" \
             aria-label=\"{}\" viewBox=\"0 0 {} {}\" width=\"{}mm\" height=\"{}mm\">",
            escaped(label),
            short(*width_mm),
            short(*height_mm),
            short(width_mm / shrunk),
            short(height_mm / shrunk),
        );
        for Stroke { part, path } in strokes {
            let class = part.class();
            append(
                &mut svg,
                format_args!("<path class=\"{class}\" d=\"{path}\"/>"),
            );
        }
        for Note { at, anchor, words } in notes {
            let anchor = match anchor {
                Anchor::Start => "start",
                Anchor::Middle => "middle",
                Anchor::End => "end",
            };
            append(
                &mut svg,
                format_args!(
                    "<text class=\"bench-note\" x=\"{}\" y=\"{}\" text-anchor=\"{anchor}\">{}</text>",
                    short(at.x),
                    short(at.y),
                    escaped(words)
                ),
            );
        }
        svg.push_str("</svg>");
        svg
    }
}

fn append(text: &mut String, words: std::fmt::Arguments<'_>) {
    text.write_fmt(words)
        .expect("writing to a string cannot fail");
}

/// Two decimals: a hundredth of a millimetre is finer than any printer.
fn short(number: f64) -> String {
    let text = format!("{number:.2}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    if text == "-0" { "0" } else { text }.to_owned()
}

fn escaped(words: &str) -> String {
    words
        .replace('&', "&amp;")
        .replace('<', "&lt;")
        .replace('>', "&gt;")
        .replace('"', "&quot;")
}

/// A line through points.
fn line(points: &[Point]) -> String {
    let mut path = String::new();
    for (index, point) in points.iter().enumerate() {
        let verb = if index == 0 { "M" } else { "L" };
        append(
            &mut path,
            format_args!("{verb}{} {}", short(point.x), short(point.y)),
        );
    }
    path
}

/// A closed face round points.
fn face(points: &[Point]) -> String {
    format!("{}Z", line(points))
}

/// A smooth curve, moved into a drawing.
fn smooth(curve: &Curve, origin: Point) -> String {
    let at = |point: Point| {
        let moved = point.moved(origin.x, origin.y);
        format!("{} {}", short(moved.x), short(moved.y))
    };
    let mut path = format!("M{}", at(curve.start));
    for (index, (control, knot)) in curve.pieces.iter().enumerate() {
        let (control, knot) = (at(*control), at(*knot));
        if index == 0 {
            append(
                &mut path,
                format_args!("C{} {control} {knot}", at(curve.lead)),
            );
        } else {
            append(&mut path, format_args!("S{control} {knot}"));
        }
    }
    path
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_people_typed_cannot_break_out_of_a_drawing() {
        let drawing = Drawing {
            label: "\"><script>".to_owned(),
            width_mm: 100.0,
            height_mm: 50.0,
            strokes: Vec::new(),
            notes: vec![Note {
                at: Point { x: 1.0, y: 2.0 },
                anchor: Anchor::Start,
                words: "<b> & co".to_owned(),
            }],
        };
        let svg = drawing.svg(2.0);
        assert!(!svg.contains("<script") && !svg.contains("<b>"), "{svg}");
        assert!(svg.contains("1 : 2 on paper"), "{svg}");
        assert!(svg.contains("width=\"50mm\" height=\"37mm\""), "{svg}");
    }
}

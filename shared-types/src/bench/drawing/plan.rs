//! The sole from below: insole, outsole, the run of the welt and its stitches.

use super::{Anchor, Drawing, Note, Part, Stroke, line, smooth};
use crate::bench::field::Field;
use crate::bench::length::Millimetres;
use crate::bench::measure::Measured;
use crate::bench::outline::{Bottom, Point, Silhouette};
use crate::bench::sheet::BenchSheet;
use crate::bench::thread::Stitch;
use crate::bench::welt::WeltRun;

const MARGIN: f64 = 16.0;
/// Room to the right, for words.
const WORDS: f64 = 76.0;
/// Smooth pieces once round.
const PIECES: u16 = 72;
/// The share of its pitch that a stitch shows.
const SHOWN: f64 = 0.6;

/// Draws one shoe, toe up, the inner side of the foot on the right; the other is its mirror image.
///
/// Lengths are to scale; the bend and the close-cut waist are drawn as is usual, not measured.
pub fn plan(measured: &Measured, sheet: &BenchSheet) -> Drawing {
    let [length, ball, heel] = sheet.insole.map(|input| input.value);
    let bottom = Bottom {
        length_mm: length,
        ball_mm: ball,
        heel_mm: heel,
    };
    let view = View {
        silhouette: bottom.silhouette(length),
        origin: Point {
            x: MARGIN + 0.62 * ball,
            y: MARGIN + 6.0,
        },
        edge: sheet.sole.edge_beyond.value,
    };
    let mut strokes = vec![view.ring(Part::Sole, view.edge)];
    strokes.extend(view.old_edge(measured));
    let end = match measured.welt {
        WeltRun::None => None,
        WeltRun::BreastToBreast => Some(view.silhouette.breast()),
        WeltRun::AllRound => Some(1.0),
    };
    strokes.extend(end.map(|end| view.band(end)));
    strokes.push(view.ring(Part::Insole, 0.0));
    if measured.welt != WeltRun::None {
        let inset = -measured.given(Field::RibInset).value;
        let to = end.unwrap_or(1.0);
        strokes.push(view.run(Part::Rib, to, inset));
    }
    strokes.push(view.breast());
    if let Some(seam) = &sheet.outsole_seam {
        let out = match seam.stitch {
            // Through sole and insole, inside the rib's line.
            Stitch::Chain => -measured.given(Field::RibInset).value,
            Stitch::Lock | Stitch::Hand => measured.given(Field::StitchLine).value,
        };
        let to = end.unwrap_or_else(|| view.silhouette.breast());
        strokes.extend(view.stitches(seam.stitches.value, to, out));
    }
    let height = length + 2.0 * MARGIN + 12.0;
    Drawing {
        label: words(sheet, length),
        width_mm: 2.0 * MARGIN + 1.24 * ball + WORDS,
        height_mm: height,
        strokes,
        notes: notes(sheet, ball),
    }
}

fn words(sheet: &BenchSheet, length: f64) -> String {
    let welt = sheet
        .welt
        .as_ref()
        .map_or("no welt", |welt| welt.run.label());
    format!(
        "Outline to scale, toe up: insole {} long, outsole {} beyond it, welt {welt}.",
        Millimetres(length),
        Millimetres(sheet.sole.edge_beyond.value)
    )
}

fn notes(sheet: &BenchSheet, ball: f64) -> Vec<Note> {
    let [length, width, heel] = &sheet.insole;
    let mm = |value: f64| Millimetres(value.round()).to_string();
    let mut lines = vec![
        format!("insole {}", mm(length.value)),
        format!("ball {}", mm(width.value)),
        format!("heel {}", mm(heel.value)),
        format!("edge {}", Millimetres(sheet.sole.edge_beyond.value)),
    ];
    if let Some(welt) = &sheet.welt {
        lines.push(format!("welt {}", mm(welt.way.value)));
    }
    if let Some(seam) = &sheet.outsole_seam {
        let count = &seam.stitches;
        lines.push(format!("{} stitches", count.unit.number(count.value)));
    }
    let mut y = MARGIN;
    lines
        .into_iter()
        .map(|words| {
            y += 12.0;
            let at = Point {
                x: 2.0 * MARGIN + 1.24 * ball,
                y,
            };
            let anchor = Anchor::Start;
            Note { at, anchor, words }
        })
        .collect()
}

struct View {
    silhouette: Silhouette,
    /// Where the toe's height and the long axis meet.
    origin: Point,
    /// How far the outsole stands proud.
    edge: f64,
}

impl View {
    /// Once round, so far out.
    fn ring(&self, part: Part, out: f64) -> Stroke {
        let curve = self.silhouette.curve(0.0, 1.0, out, PIECES);
        let path = smooth(&curve, self.origin) + "Z";
        Stroke { part, path }
    }

    /// From the left breast to a share of the way round, so far out.
    fn run(&self, part: Part, to: f64, out: f64) -> Stroke {
        let curve = self.silhouette.curve(0.0, to, out, PIECES);
        Stroke {
            part,
            path: smooth(&curve, self.origin),
        }
    }

    /// The welt, from the insole's edge to that of the outsole.
    fn band(&self, to: f64) -> Stroke {
        let outer = smooth(
            &self.silhouette.curve(0.0, to, self.edge, PIECES),
            self.origin,
        );
        let inner = smooth(&self.silhouette.curve(to, 0.0, 0.0, PIECES), self.origin);
        Stroke {
            part: Part::Welt,
            path: format!("{outer}{}Z", inner.replacen('M', "L", 1)),
        }
    }

    /// The old outsole, where it was measured and another edge was chosen.
    fn old_edge(&self, measured: &Measured) -> Option<Stroke> {
        let outsole = measured.length(Field::OutsoleLength)?;
        let insole = measured.length(Field::InsoleLength)?;
        let old = ((outsole - insole) * 0.5).0;
        let differs = (old - self.edge).abs() > 0.25;
        differs.then(|| self.ring(Part::OldSole, old))
    }

    fn breast(&self) -> Stroke {
        let place = |share: f64, out: f64| {
            let spot = self.silhouette.spot(share).place(0.0, 0.0);
            spot.moved(self.origin.x + out, self.origin.y)
        };
        let right = self.silhouette.breast();
        Stroke {
            part: Part::Breast,
            path: line(&[place(0.0, -self.edge), place(right, self.edge)]),
        }
    }

    /// As many stitches as were counted, at even steps along their line.
    fn stitches(&self, count: f64, to: f64, out: f64) -> Option<Stroke> {
        let steps = (1..=u16::MAX).take_while(|index| f64::from(*index) <= count);
        let mut path = String::new();
        for index in steps {
            let at = |shift: f64| {
                let share = to * (f64::from(index) - 1.0 + shift) / count;
                let spot = self.silhouette.spot(share).outward(out);
                spot.place(0.0, 0.0).moved(self.origin.x, self.origin.y)
            };
            path += &line(&[at(0.5 - SHOWN / 2.0), at(0.5 + SHOWN / 2.0)]);
        }
        (!path.is_empty()).then_some(Stroke {
            part: Part::Stitch,
            path,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::bench::measure::SeamChoice;
    use crate::size::{ShoeSize, SizeSystem};

    fn drawn(welt: WeltRun) -> (BenchSheet, Drawing) {
        let size = ShoeSize::parse(SizeSystem::Eu, "43").unwrap();
        let measured = Measured {
            welt,
            ..Measured::of_size(size)
        };
        let sheet = BenchSheet::work_out(&measured).unwrap();
        let drawing = plan(&measured, &sheet);
        (sheet, drawing)
    }

    #[test]
    fn every_counted_stitch_is_drawn() {
        let (sheet, drawing) = drawn(WeltRun::BreastToBreast);
        let strokes = drawing.strokes.iter();
        let stitches: usize = strokes
            .filter(|stroke| stroke.part == Part::Stitch)
            .map(|stroke| stroke.path.matches('M').count())
            .sum();
        let seam = sheet.outsole_seam.unwrap();
        assert_eq!(stitches.to_string(), format!("{}", seam.stitches.value));
    }

    /// A seam through sole and insole runs inside the rib, so its toe is behind that of the insole; one on
    /// the welt runs outside.
    #[test]
    fn a_seam_through_the_insole_is_drawn_inside_it() {
        let toe = |drawing: &Drawing, part| {
            let strokes = drawing.strokes.iter().filter(|stroke| stroke.part == part);
            let path: String = strokes.map(|stroke| stroke.path.as_str()).collect();
            let numbers: Vec<f64> = path
                .split(|letter: char| !(letter.is_ascii_digit() || ".-".contains(letter)))
                .filter_map(|number| number.parse().ok())
                .collect();
            let heights = numbers.chunks_exact(2).map(|place| place[1]);
            heights.fold(f64::MAX, f64::min)
        };
        let drawn = |stitch| {
            let size = ShoeSize::parse(SizeSystem::Eu, "43").unwrap();
            let measured = Measured {
                welt: WeltRun::None,
                outsole_seam: Some(SeamChoice::outsole_by(stitch)),
                ..Measured::of_size(size)
            };
            let drawing = plan(&measured, &BenchSheet::work_out(&measured).unwrap());
            toe(&drawing, Part::Stitch) - toe(&drawing, Part::Insole)
        };
        assert!(
            (drawn(Stitch::Chain) - 8.0).abs() < 0.5,
            "{}",
            drawn(Stitch::Chain)
        );
        assert!(
            (drawn(Stitch::Lock) + 3.0).abs() < 0.5,
            "{}",
            drawn(Stitch::Lock)
        );
    }

    #[test]
    fn the_outline_fits_its_sheet_and_is_as_long_as_the_insole() {
        for welt in [WeltRun::None, WeltRun::BreastToBreast, WeltRun::AllRound] {
            let (sheet, drawing) = drawn(welt);
            let insole = drawing
                .strokes
                .iter()
                .find(|stroke| stroke.part == Part::Insole)
                .unwrap();
            let numbers: Vec<f64> = insole
                .path
                .split(|letter: char| !(letter.is_ascii_digit() || ".-".contains(letter)))
                .filter_map(|number| number.parse().ok())
                .collect();
            let (mut top, mut foot) = (f64::MAX, f64::MIN);
            for place in numbers.chunks_exact(2) {
                assert!(place[0] > 0.0 && place[0] < drawing.width_mm);
                top = top.min(place[1]);
                foot = foot.max(place[1]);
            }
            let [length, ..] = sheet.insole;
            assert!((foot - top - length.value).abs() < 1.0, "{}", foot - top);
            assert!(foot < drawing.height_mm);
        }
    }
}

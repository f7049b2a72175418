//! The pair from the side: heel, sole and pitch, as it came and as it will be built.
//!
//! The last is one rigid shape in every view: where parts give another pitch it rocks about its ball,
//! and the dashed line shows how it should stand.

use super::last::{Last, Slant};
use super::{Anchor, Drawing, Note, Part, Stroke, append, face, line};
use crate::bench::field::Field;
use crate::bench::heel::stance::{Case, Parts, Stance};
use crate::bench::heel::{Heel, HeelFigures};
use crate::bench::length::{Millimetres, plain};
use crate::bench::measure::Measured;
use crate::bench::outline::{BALL, HEEL_BREAST, Point};
use crate::bench::sheet::BenchSheet;

const MARGIN: f64 = 14.0;
/// Room to the left, for the line that measures the pitch.
const LEFT: f64 = 46.0;
/// Room above a view, for the upper and the view's title.
const ABOVE: f64 = 74.0;
/// Room below the floor, for words.
const BELOW: f64 = 26.0;
/// Steps of a drawn curve.
const STEPS: u32 = 60;

/// Draws the pair as it came, on its old heel base if that would not do, and as it will be built, one
/// under the other; nothing if the heel was not worked out.
pub fn side_view(measured: &Measured, sheet: &BenchSheet) -> Option<Drawing> {
    let shown = [Case::AsItCame, Case::OldBaseKept, Case::AsBuilt];
    view_of(measured, sheet, &shown)
}

/// Draws the pair as it will be built; nothing if the heel was not worked out.
pub fn as_built(measured: &Measured, sheet: &BenchSheet) -> Option<Drawing> {
    view_of(measured, sheet, &[Case::AsBuilt])
}

fn view_of(measured: &Measured, sheet: &BenchSheet, shown: &[Case]) -> Option<Drawing> {
    let Heel::Worked(heel) = &sheet.heel else {
        return None;
    };
    let [length, ..] = sheet.insole;
    let last = Last {
        length: length.value,
        pitch: heel.pitch.value,
        slope: heel.shape.seat_slope.value.to_radians().tan(),
        spring: measured.given(Field::ToeSpring).value,
    };
    let stances: Vec<&Stance> = shown
        .iter()
        .filter_map(|case| heel.stance(*case))
        .filter(|stance| stance.case != Case::OldBaseKept || is_off(stance))
        .collect();
    let mut drawing = Drawing {
        label: String::new(),
        width_mm: LEFT + last.length + MARGIN,
        height_mm: 0.0,
        strokes: Vec::new(),
        notes: Vec::new(),
    };
    let mut words = Vec::new();
    for stance in stances {
        let highest = last.height(0.0) + stance.parts.sole_at_ball.0;
        drawing.height_mm += ABOVE + highest.max(30.0);
        let view = View {
            last: &last,
            heel,
            stance,
            lift: measured.given(Field::Lift).value,
            floor: drawing.height_mm,
        };
        view.draw(&mut drawing);
        drawing.height_mm += BELOW;
        words.push(view.words());
    }
    drawing.label = format!("Side view to scale. {}.", words.join("; "));
    Some(drawing)
}

fn is_off(stance: &Stance) -> bool {
    stance.change.value.abs() >= 0.5
}

/// One way of standing, drawn.
struct View<'sheet> {
    last: &'sheet Last,
    heel: &'sheet HeelFigures,
    stance: &'sheet Stance,
    lift: f64,
    floor: f64,
}

impl View<'_> {
    fn words(&self) -> String {
        let Parts {
            sole_at_ball,
            base,
            top_lift,
            ..
        } = self.stance.parts;
        format!(
            "{}: sole at the ball {sole_at_ball}, heel base {base}, top lift {top_lift}, pitch {}",
            self.stance.case.label(),
            Millimetres(self.stance.pitch.value)
        )
    }

    fn draw(&self, drawing: &mut Drawing) {
        let mut stroke = |part, path| drawing.strokes.push(Stroke { part, path });
        let shares = |from: f64, to: f64| {
            (0..=STEPS).map(move |step| from + (to - from) * f64::from(step) / f64::from(STEPS))
        };
        let bottom: Vec<Point> = shares(0.0, 1.0).map(|t| self.on_last(t)).collect();
        let under: Vec<Point> = shares(0.0, 1.0).map(|t| self.under_sole(t)).collect();
        let mut sole = bottom.clone();
        sole.extend(under.iter().rev());
        let seat: Vec<Point> = shares(0.0, self.breast())
            .map(|t| self.under_sole(t))
            .collect();

        stroke(Part::Upper, self.upper(&bottom));
        stroke(Part::Sole, face(&sole));
        let [back, breast] = self.heel_faces();
        let top = self.stance.parts.top_lift.0;
        let level = |height: f64| [back.at(height, self.floor), breast.at(height, self.floor)];
        let [top_back, top_breast] = level(top);
        let mut base = seat;
        base.extend([top_breast, top_back]);
        stroke(Part::Base, face(&base));
        for height in self.joints() {
            let [from, to] = level(height);
            stroke(Part::Lift, line(&[from, self.clipped(from, to)]));
        }
        let [floor_back, floor_breast] = level(0.0);
        stroke(
            Part::TopLift,
            face(&[top_back, top_breast, floor_breast, floor_back]),
        );
        stroke(Part::Last, self.as_it_should_stand());
        let floor = |x: f64| Point { x, y: self.floor };
        stroke(
            Part::Floor,
            line(&[floor(4.0), floor(drawing.width_mm - 4.0)]),
        );
        let at_ball = self.on_last(BALL);
        let at_seat = self.on_last(HEEL_BREAST / 2.0);
        let x = LEFT - 12.0;
        let tick = |y: f64, to: f64| line(&[Point { x: x - 3.0, y }, Point { x: to, y }]);
        stroke(Part::Measure, tick(at_seat.y, at_seat.x));
        stroke(Part::Measure, tick(at_ball.y, at_ball.x));
        let ends = [at_seat.y, at_ball.y].map(|y| Point { x, y });
        stroke(Part::Measure, line(&ends));
        self.note(drawing, at_seat.y.midpoint(at_ball.y));
    }

    fn note(&self, drawing: &mut Drawing, pitch_y: f64) {
        let parts = self.stance.parts;
        let mut note = |x: f64, y: f64, anchor: Anchor, words: String| {
            let at = Point { x, y };
            drawing.notes.push(Note { at, anchor, words });
        };
        let label = self.stance.case.label();
        let title = match self.stance.case {
            Case::AsBuilt | Case::AsItCame => label.to_owned(),
            Case::OldBaseKept | Case::OneLiftFewer => {
                let change = self.stance.change.value;
                let way = if change < 0.0 { "low" } else { "high" };
                format!("{label}: heel {} mm too {way}", plain(change.abs()))
            }
        };
        let top = self.floor - self.highest() - ABOVE;
        note(MARGIN, top + 12.0, Anchor::Start, title);
        let pitch = plain(self.stance.pitch.value);
        note(LEFT - 17.0, pitch_y + 2.5, Anchor::End, pitch);
        let below = self.floor + 12.0;
        let words = format!("top lift {}, base {}", parts.top_lift, parts.base);
        note(LEFT, below, Anchor::Start, words);
        let ball = self.on_last(BALL).x;
        note(
            ball,
            below,
            Anchor::Middle,
            format!("sole {}", parts.sole_at_ball),
        );
    }

    fn highest(&self) -> f64 {
        (self.last.height(0.0) + self.stance.parts.sole_at_ball.0).max(30.0)
    }

    /// A place on the last's bottom: rocked about the ball, and as high as the sole is thick.
    fn on_last(&self, t: f64) -> Point {
        let along = (t - BALL) * self.last.length;
        let height = self.last.height(t);
        let run = (BALL - HEEL_BREAST / 2.0) * self.last.length;
        let (sine, cosine) = (self.stance.change.value / run).atan().sin_cos();
        Point {
            x: LEFT + BALL * self.last.length + along * cosine + height * sine,
            y: self.floor - self.stance.parts.sole_at_ball.0 - (height * cosine - along * sine),
        }
    }

    /// The same place under the sole, whose thickness runs out from seat to ball.
    fn under_sole(&self, t: f64) -> Point {
        let u = ((t - HEEL_BREAST) / (BALL - HEEL_BREAST)).clamp(0.0, 1.0);
        let parts = self.stance.parts;
        let seat = parts.sole_at_seat.0 + parts.rand.0;
        let thick = seat + (parts.sole_at_ball.0 - seat) * u;
        self.on_last(t).moved(0.0, thick)
    }

    fn breast(&self) -> f64 {
        self.heel.shape.length.value / self.last.length
    }

    /// Back and breast, from the sole to the floor.
    fn heel_faces(&self) -> [Slant; 2] {
        let shape = &self.heel.shape;
        let slant = |t: f64, angle: f64, inward: f64| {
            let top = self.under_sole(t);
            let height = self.floor - top.y;
            let set = height / angle.to_radians().tan();
            Slant {
                top,
                height,
                set: inward * set,
            }
        };
        [
            slant(0.0, shape.back_angle.value, 1.0),
            slant(self.breast(), shape.breast_angle.value, -1.0),
        ]
    }

    /// Heights at which one lift ends and the next begins, from the top lift up.
    fn joints(&self) -> Vec<f64> {
        let top = self.stance.parts.top_lift.0;
        let back = self.floor - self.under_sole(0.0).y;
        let mut heights = Vec::new();
        let mut height = top + self.lift;
        while self.lift > 0.5 && height < back - 0.5 {
            heights.push(height);
            height += self.lift;
        }
        heights
    }

    /// The end of a joint that starts at the back: at the breast, or where it meets the sole.
    fn clipped(&self, from: Point, to: Point) -> Point {
        let steps = (0..=STEPS).rev().map(|step| {
            let share = f64::from(step) / f64::from(STEPS);
            from.moved((to.x - from.x) * share, 0.0)
        });
        let is_under = |point: &Point| {
            let t = (point.x - LEFT) / self.last.length;
            self.under_sole(t).y <= point.y
        };
        steps.into_iter().find(is_under).unwrap_or(from)
    }

    fn as_it_should_stand(&self) -> String {
        let points: Vec<Point> = (0..=STEPS)
            .map(|step| {
                let t = f64::from(step) / f64::from(STEPS);
                let height = self.last.height(t) + self.stance.parts.sole_at_ball.0;
                Point {
                    x: LEFT + t * self.last.length,
                    y: self.floor - height,
                }
            })
            .collect();
        line(&points)
    }

    /// A plain upper over the last, for orientation.
    fn upper(&self, bottom: &[Point]) -> String {
        let start = self.on_last(0.0);
        let toe = self.on_last(1.0);
        let spot = |t: f64, above: f64| self.on_last(t).moved(0.0, -above);
        let curve = [
            [spot(-0.02, 18.0), spot(0.0, 32.0), spot(0.01, 46.0)],
            [spot(0.12, 44.0), spot(0.22, 45.0), spot(0.34, 52.0)],
            [spot(0.50, 54.0), spot(0.62, 38.0), spot(0.76, 31.0)],
            [spot(0.90, 24.0), spot(1.03, 20.0), toe],
        ];
        let mut path = line(&[start]);
        for points in curve {
            let [a, b, c] = points.map(|point| line(&[point]).replacen('M', "", 1));
            append(&mut path, format_args!("C{a} {b} {c}"));
        }
        let back: Vec<Point> = bottom.iter().rev().copied().collect();
        path + &line(&back).replacen('M', "L", 1) + "Z"
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::bench::length::Reading;
    use crate::bench::measure::StampedSize;
    use crate::size::{ShoeSize, SizeSystem};

    fn thick_sole(base: f64) -> (Measured, BenchSheet) {
        let mut measured = Measured {
            size: ShoeSize::parse(SizeSystem::Eu, "41").ok().map(StampedSize),
            ..Measured::default()
        };
        for (field, mm) in [
            (Field::OldSoleAtBall, 5.0),
            (Field::OldSoleAtSeat, 5.0),
            (Field::OldHeelBase, base),
            (Field::OldTopLift, 6.0),
            (Field::NewSoleAtBall, 9.0),
            (Field::NewSoleAtSeat, 5.0),
            (Field::NewTopLift, 12.0),
        ] {
            measured.lengths.insert(field, Reading::in_millimetres(mm));
        }
        let sheet = BenchSheet::work_out(&measured).unwrap();
        (measured, sheet)
    }

    fn drawn(base: f64) -> Drawing {
        let (measured, sheet) = thick_sole(base);
        side_view(&measured, &sheet).unwrap()
    }

    fn points(drawing: &Drawing, part: Part) -> Vec<Point> {
        let mut strokes = drawing.strokes.iter();
        let path = &strokes.find(|stroke| stroke.part == part).unwrap().path;
        let places = path
            .split(['M', 'L', 'Z'])
            .filter(|place| !place.is_empty());
        places
            .map(|place| {
                let (x, y) = place.split_once(' ').unwrap();
                Point {
                    x: x.parse().unwrap(),
                    y: y.parse().unwrap(),
                }
            })
            .collect()
    }

    /// What a rule laid on the paper would read, against the figures: at the middle of the seat the
    /// base is 22 mm high, the top lift 12 mm, and both stand on the floor.
    #[test]
    fn the_drawn_heel_is_as_high_as_its_figures() {
        let (measured, sheet) = thick_sole(24.0);
        let drawing = as_built(&measured, &sheet).unwrap();
        let Heel::Worked(heel) = &sheet.heel else {
            unreachable!("it was worked out");
        };
        let floor = points(&drawing, Part::Floor)[0].y;
        let base = points(&drawing, Part::Base);
        let seat = &base[..base.len() - 2];
        let middle = LEFT + HEEL_BREAST / 2.0 * sheet.insole[0].value;
        let after = seat.iter().position(|point| point.x >= middle).unwrap();
        let (a, b) = (seat[after - 1], seat[after]);
        let under_sole = a.y + (b.y - a.y) * (middle - a.x) / (b.x - a.x);
        let on_top_lift = base[base.len() - 1].y;
        assert!((on_top_lift - under_sole - heel.base.value).abs() < 0.05);
        assert!((heel.base.value - 22.0).abs() < 1e-9);
        assert!((floor - on_top_lift - 12.0).abs() < 0.05);
        let last = points(&drawing, Part::Last);
        let lowest = last.iter().map(|point| point.y).fold(0.0, f64::max);
        let sole = floor - lowest;
        assert!((sole - 9.0).abs() < 0.05, "{sole}");
        let measures: Vec<_> = drawing
            .strokes
            .iter()
            .filter(|stroke| stroke.part == Part::Measure)
            .collect();
        assert_eq!(measures.len(), 3);
        let scale = format!(
            "width=\"{}mm\"",
            super::super::short(drawing.width_mm / 3.0)
        );
        assert!(drawing.svg(3.0).contains(&scale));
    }

    #[test]
    fn before_and_after_are_drawn_and_said() {
        let drawing = drawn(24.0);
        assert!(drawing.label.contains("as it came"), "{}", drawing.label);
        assert!(
            drawing
                .label
                .contains("as built: sole at the ball 9 mm, heel base 22 mm"),
            "{}",
            drawing.label
        );
        let floors = |drawing: &Drawing| {
            let strokes = drawing.strokes.iter();
            strokes.filter(|stroke| stroke.part == Part::Floor).count()
        };
        // As it came, what the old base would do, as built.
        assert_eq!(floors(&drawing), 3);
        assert!(!drawing.svg(2.5).contains("NaN"));
    }
}

//! The edge of a sole as it is drawn, bent as a foot is.

use super::{Bottom, HEEL_BREAST, blend, stations, step};

/// Steps of a drawn edge.
const DRAWN_STEPS: u16 = 800;

/// A place in a drawing: x to the right, y down.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Point {
    /// To the right.
    pub x: f64,
    /// Down.
    pub y: f64,
}

impl Point {
    /// The way from `origin` to here.
    #[must_use]
    pub fn seen_from(self, origin: Self) -> Self {
        Self {
            x: self.x - origin.x,
            y: self.y - origin.y,
        }
    }

    /// This place, moved by `x` and `y` in the directions of `way`, whose parts are 1 or -1.
    #[must_use]
    pub fn turned(self, way: Self, x: f64, y: f64) -> Self {
        self.moved(way.x * x, way.y * y)
    }

    /// This place, moved.
    #[must_use]
    pub fn moved(self, right: f64, down: f64) -> Self {
        Self {
            x: self.x + right,
            y: self.y + down,
        }
    }
}

/// A place on the edge with its own directions.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spot {
    at: Point,
    along: Point,
}

impl Spot {
    /// A place so far along the edge and so far out from it.
    pub fn place(self, along: f64, out: f64) -> Point {
        self.at.moved(
            self.along.x * along + self.along.y * out,
            self.along.y * along - self.along.x * out,
        )
    }

    /// The same place on a line that runs `by` further out.
    #[must_use]
    pub fn outward(self, by: f64) -> Self {
        Self {
            at: self.place(0.0, by),
            along: self.along,
        }
    }

    /// How far the outward direction points to the right: 1 on the right edge, -1 on the left, 0 at
    /// the toe and the back of the heel.
    pub const fn rightward(self) -> f64 {
        self.along.y
    }
}

/// A smooth line: its start, the first control point, then a control point and an end for each piece.
#[derive(Clone, Debug, PartialEq)]
pub struct Curve {
    /// Where it starts.
    pub start: Point,
    /// The control point that belongs to the start.
    pub lead: Point,
    /// The control point before each knot, and the knot; the one after it is its mirror image.
    pub pieces: Vec<(Point, Point)>,
}

/// The edge of a sole as it is drawn: toe up, the inner side of the foot on the right, once round
/// from the breast on the left over the toe.
///
/// The centre line is bent as a foot's is, so that left and right can be told apart: every width
/// stays what it was, and so does the area. The waist is drawn close-cut, as a bench trims it.
#[derive(Clone, Debug, PartialEq)]
pub struct Silhouette {
    points: Vec<Point>,
    /// The way from the start to each point.
    ways: Vec<f64>,
    breast: f64,
}

impl Silhouette {
    pub(super) fn of(bottom: Bottom, height: f64) -> Self {
        let left = |t: f64| drawn(bottom, height, t, -1.0);
        let right = |t: f64| drawn(bottom, height, t, 1.0);
        let up = stations(HEEL_BREAST, 1.0, DRAWN_STEPS).map(left);
        let down = stations(1.0, HEEL_BREAST, DRAWN_STEPS).skip(1).map(right);
        let back = stations(HEEL_BREAST, 0.0, DRAWN_STEPS).skip(1).map(right);
        let home = stations(0.0, HEEL_BREAST, DRAWN_STEPS).skip(1).map(left);
        let points: Vec<Point> = up.chain(down).chain(back).chain(home).collect();

        let mut ways = Vec::with_capacity(points.len());
        let mut way = 0.0;
        let mut before = points.first().copied();
        for point in &points {
            let step = before.map_or(Point { x: 0.0, y: 0.0 }, |before| point.seen_from(before));
            way += step.x.hypot(step.y);
            ways.push(way);
            before = Some(*point);
        }
        let at_breast = usize::from(DRAWN_STEPS) * 2;
        let breast = ways.get(at_breast).copied().unwrap_or(way) / way;
        Self {
            points,
            ways,
            breast,
        }
    }

    /// The share of the way round at which the breast on the right is reached; that on the left is at 0.
    pub const fn breast(&self) -> f64 {
        self.breast
    }

    /// The place at a share of the way round; more than 1 or less than 0 goes on round.
    pub fn spot(&self, share: f64) -> Spot {
        let whole = self.ways.last().copied().unwrap_or_default();
        let way = share.rem_euclid(1.0) * whole;
        let after = self
            .ways
            .partition_point(|reached| *reached <= way)
            .clamp(1, self.points.len().saturating_sub(1).max(1));
        let nowhere = Point { x: 0.0, y: 0.0 };
        let near = self.points.get(after - 1).copied().unwrap_or(nowhere);
        let far = self.points.get(after).copied().unwrap_or(nowhere);
        let start = self.ways.get(after - 1).copied().unwrap_or_default();
        let step = far.seen_from(near);
        let length = step.x.hypot(step.y).max(f64::EPSILON);
        let part = (way - start) / length;
        Spot {
            at: near.moved(step.x * part, step.y * part),
            along: Point {
                x: step.x / length,
                y: step.y / length,
            },
        }
    }

    /// The place of step `index` of `count` equal ones between two shares of the way round.
    pub fn spot_between(&self, from: f64, to: f64, index: u16, count: u16) -> Spot {
        self.spot(blend(from, to, f64::from(index) / f64::from(count.max(1))))
    }

    /// The edge between two shares of the way round, `out` units outside, in so many smooth pieces.
    pub fn curve(&self, from: f64, to: f64, out: f64, pieces: u16) -> Curve {
        let count = f64::from(pieces.max(1));
        let knot = |index: i32| {
            self.spot(from + (to - from) * f64::from(index) / count)
                .place(0.0, out)
        };
        let control = |index: i32, sign: f64| {
            let way = knot(index + 1).seen_from(knot(index - 1));
            knot(index).moved(sign * way.x / 6.0, sign * way.y / 6.0)
        };
        Curve {
            start: knot(0),
            lead: control(0, 1.0),
            pieces: (1..=i32::from(pieces.max(1)))
                .map(|index| (control(index, -1.0), knot(index)))
                .collect(),
        }
    }
}

fn drawn(bottom: Bottom, height: f64, t: f64, side: f64) -> Point {
    let scale = height / bottom.length_mm;
    let hollow = bump(t, 0.16, 0.70);
    let half = bottom.half_width_mm(t) - 0.055 * bottom.ball_mm * hollow;
    let centre = bottom.ball_mm * (0.10 * step(t, 0.52, 1.0) - 0.062 * hollow);
    Point {
        x: scale * (centre + side * half),
        y: height * (1.0 - t),
    }
}

/// Rises from 0 at `from` to 1 half way, and falls to 0 at `to`.
fn bump(t: f64, from: f64, to: f64) -> f64 {
    let middle = f64::midpoint(from, to);
    step(t, from, middle) * (1.0 - step(t, middle, to))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn near(what: f64, expected: f64, within: f64) {
        assert!(
            (what - expected).abs() <= within,
            "{what} is not within {within} of {expected}"
        );
    }

    #[test]
    fn a_silhouette_starts_at_the_left_breast_and_closes() {
        let silhouette = Bottom::EXAMPLE.silhouette(200.0);
        let left = silhouette.spot(0.0).place(0.0, 0.0);
        let right = silhouette.spot(silhouette.breast()).place(0.0, 0.0);
        near(left.y, 150.0, 0.01);
        near(right.y, 150.0, 0.01);
        assert!(left.x < right.x);
        let home = silhouette.spot(1.0 - 1e-9).place(0.0, 0.0);
        near(home.x, left.x, 0.01);
        near(home.y, left.y, 0.01);
        assert!((0.71..0.75).contains(&silhouette.breast()));
    }

    #[test]
    fn out_is_away_from_the_sole_all_round() {
        let silhouette = Bottom::EXAMPLE.silhouette(200.0);
        assert!(silhouette.spot(0.2).rightward() < -0.5);
        assert!(silhouette.spot(0.55).rightward() > 0.5);
        let back = silhouette.spot(0.87);
        assert!(back.place(0.0, 5.0).y > back.place(0.0, 0.0).y);
    }

    #[test]
    fn the_bend_keeps_the_width_outside_the_waist() {
        for t in [0.1, 0.16, 0.70, 0.75, 0.9] {
            let left = drawn(Bottom::EXAMPLE, 285.0, t, -1.0);
            let right = drawn(Bottom::EXAMPLE, 285.0, t, 1.0);
            near(
                right.x - left.x,
                2.0 * Bottom::EXAMPLE.half_width_mm(t),
                1e-9,
            );
        }
    }

    /// Bent and close-cut at the waist for the eye, the drawn edge is still as long as its figure to
    /// two hundredths.
    #[test]
    fn the_drawn_edge_is_as_long_as_its_figure() {
        for (length, ball, heel) in [
            (285.0, 92.0, 64.0),
            (253.0, 82.0, 58.0),
            (300.0, 96.0, 67.0),
        ] {
            let bottom = Bottom {
                length_mm: length,
                ball_mm: ball,
                heel_mm: heel,
            };
            let silhouette = bottom.silhouette(length);
            let place = |share: f64| silhouette.spot(share).place(0.0, 0.0);
            let way = |to: f64| -> f64 {
                (0..2_000)
                    .map(|step| {
                        let at = |step: u16| place(to * f64::from(step) / 2_000.0 * (1.0 - 1e-12));
                        let there = at(step + 1).seen_from(at(step));
                        there.x.hypot(there.y)
                    })
                    .sum()
            };
            near(way(1.0) / bottom.extent().edge_mm, 1.0, 0.02);
            let breast = silhouette.breast();
            near(way(breast) / bottom.breast_to_breast_mm(), 1.0, 0.02);
        }
    }
}

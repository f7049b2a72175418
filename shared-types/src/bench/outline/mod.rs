//! The outline of a sole from three measurements: what leather it takes, how long its edge is, and
//! how it is drawn.
//!
//! Four pieces along the length, from the back: half an ellipse for the heel seat, two smooth steps
//! through the waist, a quarter ellipse for the toe. The area is a closed form; the edge is a
//! polyline. Measures are those of the symmetric shape; only a [`Silhouette`] bends it, for the eye.

mod silhouette;

use std::f64::consts::{FRAC_PI_4, PI, TAU};

pub use silhouette::{Curve, Point, Silhouette, Spot};

/// Where the heel is widest, as a share of the length.
const WIDEST_OF_HEEL: f64 = 0.18;
/// Where the waist is narrowest.
const WAIST: f64 = 0.43;
/// Where the ball is, as a share of the length from the back.
pub const BALL: f64 = 0.70;
/// Full width of the waist as a share of that of the ball.
const WAIST_SHARE: f64 = 0.70;
/// Where the heel ends and the welt of a 270 begins.
pub const HEEL_BREAST: f64 = 0.25;

/// Steps of a whole edge; the perimeter is then right to six digits.
const STEPS: u16 = 8_000;
/// The bottom of one shoe: an insole, unless it has been grown to an outsole.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bottom {
    /// From the back of the heel seat to the tip of the toe.
    pub length_mm: f64,
    /// Full width at the ball.
    pub ball_mm: f64,
    /// Full width at the widest of the heel seat.
    pub heel_mm: f64,
}

/// An area and the edge round it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Extent {
    /// The area.
    pub area_mm2: f64,
    /// The whole way round.
    pub edge_mm: f64,
}

impl Extent {
    /// Grows by `by_mm` all round, or shrinks if that is negative (Steiner's formulae).
    #[must_use]
    pub fn grown(self, by_mm: f64) -> Self {
        Self {
            area_mm2: self.area_mm2 + self.edge_mm * by_mm + PI * by_mm * by_mm,
            edge_mm: self.edge_mm + TAU * by_mm,
        }
    }
}

impl Bottom {
    /// A middling bottom, for drawings that stand for any pair.
    pub const EXAMPLE: Self = Self {
        length_mm: 285.0,
        ball_mm: 92.0,
        heel_mm: 64.0,
    };

    /// Half the width at the share `t` of the length, counted from the back.
    pub fn half_width_mm(self, t: f64) -> f64 {
        let t = t.clamp(0.0, 1.0);
        let waist = WAIST_SHARE * self.ball_mm;
        let full = if t < WIDEST_OF_HEEL {
            let back = (WIDEST_OF_HEEL - t) / WIDEST_OF_HEEL;
            self.heel_mm * (1.0 - back * back).max(0.0).sqrt()
        } else if t < WAIST {
            blend(self.heel_mm, waist, step(t, WIDEST_OF_HEEL, WAIST))
        } else if t < BALL {
            blend(waist, self.ball_mm, step(t, WAIST, BALL))
        } else {
            let ahead = (t - BALL) / (1.0 - BALL);
            self.ball_mm * (1.0 - ahead * ahead).max(0.0).sqrt()
        };
        full / 2.0
    }

    /// Area, exactly, and edge.
    pub fn extent(self) -> Extent {
        let waist = WAIST_SHARE * self.ball_mm;
        let shares = FRAC_PI_4 * WIDEST_OF_HEEL * self.heel_mm
            + (WAIST - WIDEST_OF_HEEL) * (self.heel_mm + waist) / 2.0
            + (BALL - WAIST) * (waist + self.ball_mm) / 2.0
            + FRAC_PI_4 * (1.0 - BALL) * self.ball_mm;
        Extent {
            area_mm2: self.length_mm * shares,
            edge_mm: self.edge_between_mm(0.0, 1.0),
        }
    }

    /// The edge on both sides between two shares of the length.
    pub fn edge_between_mm(self, from: f64, to: f64) -> f64 {
        2.0 * self.sum_between(from, to, |run, near, far| run.hypot(far - near))
    }

    /// The area between two shares of the length.
    pub fn area_between_mm2(self, from: f64, to: f64) -> f64 {
        self.sum_between(from, to, |run, near, far| run * (near + far))
    }

    /// The edge from heel breast round the toe to heel breast: the way of a 270 welt.
    pub fn breast_to_breast_mm(self) -> f64 {
        self.edge_between_mm(HEEL_BREAST, 1.0)
    }

    /// The edge round the heel seat, from breast to breast.
    pub fn heel_seat_mm(self) -> f64 {
        self.edge_between_mm(0.0, HEEL_BREAST)
    }

    /// The outline for a drawing that is `height` units from heel to toe.
    pub fn silhouette(self, height: f64) -> Silhouette {
        Silhouette::of(self, height)
    }

    fn sum_between(self, from: f64, to: f64, piece: impl Fn(f64, f64, f64) -> f64) -> f64 {
        let mut sum = 0.0;
        let mut t_before = from;
        let mut half_before = self.half_width_mm(from);
        for t in stations(from, to, STEPS).skip(1) {
            let half = self.half_width_mm(t);
            sum += piece((t - t_before) * self.length_mm, half_before, half);
            t_before = t;
            half_before = half;
        }
        sum
    }
}

/// The length of an open edge from breast to breast, `by_mm` further out (its ends run along the shoe).
pub fn arc_grown_mm(arc_mm: f64, by_mm: f64) -> f64 {
    arc_mm + PI * by_mm
}

/// Shares of the length from one to the other, close together near the ends of the shoe, where the
/// edge turns.
fn stations(from: f64, to: f64, steps: u16) -> impl Iterator<Item = f64> {
    let angle = |t: f64| (1.0 - 2.0 * t.clamp(0.0, 1.0)).acos();
    let (first, last) = (angle(from), angle(to));
    (0..=steps).map(move |index| {
        let angle = blend(first, last, f64::from(index) / f64::from(steps));
        (1.0 - angle.cos()) / 2.0
    })
}

/// Rises smoothly from 0 at `from` to 1 at `to`.
fn step(t: f64, from: f64, to: f64) -> f64 {
    let u = ((t - from) / (to - from)).clamp(0.0, 1.0);
    u * u * (3.0 - 2.0 * u)
}

fn blend(from: f64, to: f64, share: f64) -> f64 {
    from + (to - from) * share
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::bench::sizing::PARIS_POINT;

    fn near(what: f64, expected: f64, within: f64) {
        assert!(
            (what - expected).abs() <= within,
            "{what} is not within {within} of {expected}"
        );
    }

    /// Length, ball, heel; area in cm², edge, heel seat, breast to breast. The last four were worked
    /// out apart from this code and confirmed with the polygons of the `shapely` 2.2.0 package.
    const CHECKED: [[f64; 7]; 6] = [
        [285.0, 92.0, 64.0, 193.48, 643.2, 172.5, 470.7],
        [253.0, 82.0, 58.0, 153.73, 572.0, 154.0, 418.1],
        [300.0, 96.0, 67.0, 212.70, 676.2, 181.3, 494.9],
        [283.33, 91.44, 65.03, 192.24, 640.4, 172.5, 467.9],
        [273.33, 89.32, 63.21, 180.94, 618.9, 166.7, 452.2],
        [253.33, 82.24, 59.23, 155.10, 573.7, 155.0, 418.7],
    ];

    fn checked() -> impl Iterator<Item = (Bottom, [f64; 4])> {
        CHECKED
            .into_iter()
            .map(|[length_mm, ball_mm, heel_mm, area, edge, seat, arc]| {
                let bottom = Bottom {
                    length_mm,
                    ball_mm,
                    heel_mm,
                };
                (bottom, [area, edge, seat, arc])
            })
    }

    #[test]
    fn areas_and_edges_are_those_of_the_cross_check() {
        for (bottom, [area, edge, seat, arc]) in checked() {
            near(bottom.extent().area_mm2 / 100.0, area, 0.02);
            near(bottom.extent().edge_mm, edge, 0.06);
            near(bottom.heel_seat_mm(), seat, 0.06);
            near(bottom.breast_to_breast_mm(), arc, 0.06);
        }
    }

    #[test]
    fn the_closed_form_is_the_sum_of_thin_slices() {
        for (bottom, _) in checked() {
            let summed = bottom.area_between_mm2(0.0, 1.0);
            near(summed / bottom.extent().area_mm2, 1.0, 1e-6);
        }
    }

    #[test]
    fn a_270_welt_is_some_73_hundredths_of_the_way_round() {
        for (bottom, _) in checked() {
            let share = bottom.breast_to_breast_mm() / bottom.extent().edge_mm;
            assert!((0.72..0.74).contains(&share), "{share}");
            let fill = bottom.extent().area_mm2 / (bottom.length_mm * bottom.ball_mm);
            assert!((0.72..0.78).contains(&fill), "{fill}");
        }
    }

    #[test]
    fn an_outsole_six_millimetres_proud_of_the_insole() {
        // Men's foot of 270 mm and women's of 240 mm, same cross-check.
        let men = Bottom {
            length_mm: 283.33,
            ball_mm: 91.44,
            heel_mm: 65.03,
        };
        near(men.extent().grown(6.0).area_mm2 / 100.0, 231.80, 0.03);
        near(men.extent().grown(6.0).edge_mm, 678.1, 0.06);
        near(men.extent().grown(-8.0).area_mm2 / 100.0, 143.03, 0.03);
        near(men.area_between_mm2(0.0, HEEL_BREAST) / 100.0, 38.93, 0.01);
        near(arc_grown_mm(men.breast_to_breast_mm(), 3.0), 477.3, 0.06);
        // `buffer(6)` of the plain case in shapely 2.2.0: 233.20 cm² and 680.88 mm.
        let plain = Bottom {
            length_mm: 285.0,
            ball_mm: 92.0,
            heel_mm: 64.0,
        };
        near(plain.extent().grown(6.0).area_mm2 / 100.0, 233.20, 0.03);
        near(plain.extent().grown(6.0).edge_mm, 680.88, 0.06);
        let women = Bottom {
            length_mm: 253.33,
            ball_mm: 82.24,
            heel_mm: 59.23,
        };
        near(women.extent().grown(6.0).area_mm2 / 100.0, 190.65, 0.03);
        near(women.extent().grown(6.0).edge_mm, 611.4, 0.06);
    }

    /// ANSUR II (public files, 4,082 men): heel to ball 200.94 mm of a foot of 271.18 mm in the mean. On an
    /// insole two Paris points longer that is 0.7063 of the length.
    #[test]
    fn the_ball_is_where_feet_have_it() {
        let ball = 200.94 / (271.18 + 2.0 * PARIS_POINT);
        near(ball, 0.7063, 1e-4);
        near(BALL, ball, 0.01);
    }

    /// 0.758 80 by numeric integration (mpmath) of the four pieces, grown by 6 mm; the real insole in the
    /// R package pressuRe 0.1.0 fills 0.7564 of its box.
    #[test]
    fn an_outsole_fills_its_box_as_a_real_one_does() {
        let men = Bottom {
            length_mm: 283.333_333,
            ball_mm: 91.4355,
            heel_mm: 65.0295,
        };
        let box_mm2 = (men.length_mm + 12.0) * (men.ball_mm + 12.0);
        let fill = men.extent().grown(6.0).area_mm2 / box_mm2;
        near(fill, 0.758_80, 1e-5);
        near(fill, 0.7564, 0.01);
    }

    /// Numeric integration (mpmath) with the ellipses by their own angle: 640.372 257, 467.908 588 mm and
    /// 192.244 648 cm².
    #[test]
    fn areas_and_edges_are_those_of_numeric_integration() {
        let men = Bottom {
            length_mm: 850.0 / 3.0,
            ball_mm: 91.4355,
            heel_mm: 65.0295,
        };
        near(men.extent().edge_mm, 640.372_257, 1e-4);
        near(men.breast_to_breast_mm(), 467.908_588, 1e-4);
        near(men.extent().area_mm2, 19_224.464_8, 1e-3);
    }

    #[test]
    fn widths_join_without_a_step() {
        for seam in [WIDEST_OF_HEEL, WAIST, BALL] {
            let bottom = Bottom::EXAMPLE;
            near(
                bottom.half_width_mm(seam - 1e-9),
                bottom.half_width_mm(seam),
                1e-4,
            );
        }
        near(Bottom::EXAMPLE.half_width_mm(0.0), 0.0, 1e-9);
        near(Bottom::EXAMPLE.half_width_mm(1.0), 0.0, 1e-9);
    }
}

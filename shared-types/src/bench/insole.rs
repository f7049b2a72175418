//! The insole of one pair: measured, or estimated from foot or size, with how little that tells.

use super::field::Field;
use super::figure::{Figure, Input, Recipe, Source, Unit};
use super::measure::Measured;
use super::outline::Bottom;
use super::sizing::{BARLEYCORN, PARIS_POINT, Wearer, foot_figure};
use crate::size::{ShoeSize, SizeSystem};

/// An insole's width as a share of the foot's: the upper wraps round the rest (common practice).
const UNDER_THE_FOOT: f64 = 0.90;

const ANSUR: Source = Source::Published(
    "least squares over the public ANSUR II survey of 4,082 men and 1,986 women (NATICK/TR-15/007); that an insole has 0.90 of the foot's width is common practice",
);
const CHILDREN: Source =
    Source::Model("a proportion for children's feet, not checked against a survey");
/// What the outline was checked against.
pub(super) const OUTLINE: Source = Source::Model(
    "four curves, checked against polygons of the Python package shapely and the insole in the R package pressuRe 0.1.0 (0.756 of its box filled; here 0.759)",
);
/// The insole of one shoe, as well as it is known.
#[derive(Clone, Debug, PartialEq)]
pub struct Insole {
    /// The foot, if anything tells of it.
    pub foot: Input,
    /// Back of the heel seat to tip of the toe.
    pub length: Input,
    /// Full width at the ball.
    pub ball: Input,
    /// Full width at the heel seat.
    pub heel: Input,
    /// What was not measured but worked out.
    pub estimates: Vec<Figure>,
}

/// How a foot's width follows from its length: offset, slope, residual standard deviation.
struct Line(f64, f64, f64);

const fn lines(wearer: Wearer) -> (Line, Line, Source) {
    match wearer {
        Wearer::Man => (
            Line(38.091, 0.2352, 4.23),
            Line(17.742, 0.2019, 4.79),
            ANSUR,
        ),
        Wearer::Woman => (
            Line(40.160, 0.2134, 3.98),
            Line(14.525, 0.2137, 4.44),
            ANSUR,
        ),
        // Between the two, and wide enough for both.
        Wearer::Adult => (Line(39.125, 0.2243, 4.5), Line(16.133, 0.2078, 4.8), ANSUR),
        Wearer::Child => (Line(0.0, 0.39, 4.5), Line(0.0, 0.28, 4.5), CHILDREN),
    }
}

impl Insole {
    /// The insole of a pair; nothing if neither size nor foot nor insole is known.
    pub fn of(measured: &Measured) -> Option<Self> {
        match (measured.input(Field::FootLength), measured.size) {
            (Some(foot), _) => Some(Self::of_foot(measured, foot, Vec::new())),
            (None, Some(size)) => Some(Self::of_size(measured, size.0)),
            (None, None) => {
                let length = measured.input(Field::InsoleLength)?;
                let (allowance, toe) = (allowance(measured), measured.given(Field::ToeExtra));
                let recipe = Recipe {
                    label: "Foot that the insole fits",
                    unit: Unit::Millimetre,
                    formula: "insole length − allowance − extra length of the toe",
                    source: Source::Practice,
                };
                let figure = recipe.of([length, allowance, toe], |[length, more, toe]| {
                    length - more - toe
                });
                Some(Self::of_foot(measured, figure.input(), vec![figure]))
            }
        }
    }

    /// The insole of a pair for a foot of this size.
    pub fn of_size(measured: &Measured, size: ShoeSize) -> Self {
        let figure = foot_figure(size);
        Self::of_foot(measured, figure.input(), vec![figure])
    }

    fn of_foot(measured: &Measured, foot: Input, mut estimates: Vec<Figure>) -> Self {
        let wearer = measured.wearer();
        let mut kept = |figure: Figure| {
            let input = figure.input();
            estimates.push(figure);
            input
        };
        let (allowance, toe) = (allowance(measured), measured.given(Field::ToeExtra));
        let length = measured.input(Field::InsoleLength).unwrap_or_else(|| {
            let recipe = Recipe {
                label: "Insole length",
                unit: Unit::Millimetre,
                formula: "foot length + allowance (two sizes of its system for adults) + extra length of the toe",
                source: Source::Practice,
            };
            kept(recipe.of([foot, allowance, toe], |[foot, more, toe]| {
                foot + more + toe
            }))
        });
        let (breadth, heel_breadth, source) = lines(wearer);
        let mut width = |field: Field, label: &'static str, Line(offset, slope, spread): Line| {
            let feet_differ = Input::usual("how feet differ", 0.0, Unit::Millimetre, source)
                .known_within(1.96 * spread);
            measured.input(field).unwrap_or_else(|| {
                let recipe = Recipe {
                    label,
                    unit: Unit::Millimetre,
                    formula: "0.90 × the width of a foot of this length",
                    source,
                };
                kept(recipe.of([foot, feet_differ], |[foot, differ]| {
                    UNDER_THE_FOOT * (offset + slope * foot + differ)
                }))
            })
        };
        let ball = width(Field::InsoleBall, "Insole width at the ball", breadth);
        let heel = width(Field::InsoleHeel, "Insole width at the heel", heel_breadth);
        Self {
            foot,
            length,
            ball,
            heel,
            estimates,
        }
    }

    /// Its shape, for drawings and sums.
    pub const fn bottom(&self) -> Bottom {
        bottom(self.length.value, self.ball.value, self.heel.value)
    }

    /// A figure of its outline: `of` works it out from the shape.
    pub fn figure(&self, recipe: Recipe, of: impl Fn(Bottom) -> f64) -> Figure {
        let shape =
            Input::usual("fit of the outline", 1.0, Unit::Ratio, OUTLINE).known_within(0.02);
        recipe.of(
            [self.length, self.ball, self.heel, shape],
            |[length, ball, heel, shape]| shape * of(bottom(length, ball, heel)),
        )
    }

    /// A figure of its outline and one more length.
    pub fn figure_with(
        &self,
        by: Input,
        recipe: Recipe,
        of: impl Fn(Bottom, f64) -> f64,
    ) -> Figure {
        let shape =
            Input::usual("fit of the outline", 1.0, Unit::Ratio, OUTLINE).known_within(0.02);
        recipe.of(
            [self.length, self.ball, self.heel, by, shape],
            |[length, ball, heel, by, shape]| shape * of(bottom(length, ball, heel), by),
        )
    }
}

/// How much longer than its foot an insole is.
fn allowance(measured: &Measured) -> Input {
    let system = measured.size.map(|size| size.0.system());
    let (value, within) = match (measured.wearer(), system) {
        (Wearer::Child, _) => (13.0, 5.0),
        (_, Some(SizeSystem::Uk | SizeSystem::UsMen | SizeSystem::UsWomen)) => {
            (2.0 * BARLEYCORN, 3.0)
        }
        _ => (2.0 * PARIS_POINT, 3.0),
    };
    Input::usual("allowance", value, Unit::Millimetre, Source::Practice).known_within(within)
}

const fn bottom(length_mm: f64, ball_mm: f64, heel_mm: f64) -> Bottom {
    Bottom {
        length_mm,
        ball_mm,
        heel_mm,
    }
}

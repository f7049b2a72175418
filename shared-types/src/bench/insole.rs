//! The insole of one pair: measured, or estimated from foot or size, with how little that tells.

use super::field::Field;
use super::figure::{Figure, Input, Recipe, Source, Unit};
use super::measure::Measured;
use super::outline::Bottom;
use super::sizing::{BARLEYCORN, CHILD_LAST, CONVERSION, PARIS_POINT, Wearer, foot_figure};
use crate::size::{ShoeSize, SizeSystem};

/// An insole's width as a share of the foot's: the upper wraps round the rest (common practice).
const UNDER_THE_FOOT: f64 = 0.90;
/// How well a stamped width tells that of the foot, in mm; an estimate, no source.
const STAMPED_WIDTH: f64 = 4.0;

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
                let toe = measured.given(Field::ToeExtra);
                let allowance = allowance(measured, Given::Last(length.value - toe.value));
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
        let toe = measured.given(Field::ToeExtra);
        let allowance = allowance(measured, Given::Foot(foot.value));
        let length = measured.input(Field::InsoleLength).unwrap_or_else(|| {
            let recipe = Recipe {
                label: "Insole length",
                unit: Unit::Millimetre,
                formula: "foot length + allowance (two sizes of its system for adults, 0.08 × foot for children) + extra length of the toe",
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
        let stamped =
            ball_of_size(measured).filter(|_| measured.input(Field::InsoleBall).is_none());
        let ball = match &stamped {
            Some(figure) => figure.input(),
            None => width(Field::InsoleBall, "Insole width at the ball", breadth),
        };
        let heel = width(Field::InsoleHeel, "Insole width at the heel", heel_breadth);
        estimates.extend(stamped);
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

/// From what an allowance is worked out.
#[derive(Clone, Copy)]
enum Given {
    /// The length of the foot.
    Foot(f64),
    /// The length of the last.
    Last(f64),
}

/// How much longer than its foot an insole is: a child's as its last is, by a share of the foot.
fn allowance(measured: &Measured, given: Given) -> Input {
    let system = measured.size.map(|size| size.0.system());
    let (value, within, source) = match (measured.wearer(), system) {
        (Wearer::Child, _) => {
            let foot = match given {
                Given::Foot(foot) => foot,
                Given::Last(last) => last / CHILD_LAST,
            };
            ((CHILD_LAST - 1.0) * foot, 5.0, CONVERSION)
        }
        (_, Some(SizeSystem::Uk | SizeSystem::UsMen | SizeSystem::UsWomen)) => {
            (2.0 * BARLEYCORN, 3.0, Source::Practice)
        }
        _ => (2.0 * PARIS_POINT, 3.0, Source::Practice),
    };
    Input::usual("allowance", value, Unit::Millimetre, source).known_within(within)
}

/// The insole's width at the ball from the foot's width, if the size says that.
fn ball_of_size(measured: &Measured) -> Option<Figure> {
    let width = measured.size?.0.foot_width()?;
    let width = Input::chosen("foot width stamped", f64::from(width), Unit::Millimetre)
        .known_within(STAMPED_WIDTH);
    let recipe = Recipe {
        label: "Insole width at the ball",
        unit: Unit::Millimetre,
        formula: "0.90 × the foot's width that is stamped",
        source: Source::Practice,
    };
    Some(recipe.of([width], |[width]| UNDER_THE_FOOT * width))
}

const fn bottom(length_mm: f64, ball_mm: f64, heel_mm: f64) -> Bottom {
    Bottom {
        length_mm,
        ball_mm,
        heel_mm,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::bench::length::Reading;

    fn near(what: f64, expected: f64, within: f64) {
        assert!(
            (what - expected).abs() <= within,
            "{what} is not {expected}"
        );
    }

    fn of_size(system: SizeSystem, number: &str) -> Insole {
        let size = ShoeSize::parse(system, number).unwrap();
        Insole::of(&Measured::of_size(size)).unwrap()
    }

    /// A size of Paris points counts the last's length from zero, one of barleycorns from 8 1/3 inches
    /// (adults) or 4 inches (children): 42 × 20/3, (25 + 8) × 25.4/3 and (12 + 10) × 25.4/3, by Python's
    /// `fractions`.
    #[test]
    fn an_insole_is_as_long_as_the_last_that_the_size_counts() {
        near(of_size(SizeSystem::Eu, "42").length.value, 280.0, 1e-9);
        near(of_size(SizeSystem::Uk, "8").length.value, 279.4, 1e-9);
        near(of_size(SizeSystem::UsMen, "9").length.value, 279.4, 1e-9);
        near(of_size(SizeSystem::EuChild, "30").length.value, 200.0, 1e-9);
        near(
            of_size(SizeSystem::EuChild, "20").length.value,
            133.3333,
            1e-4,
        );
        near(
            of_size(SizeSystem::UkChild, "10").length.value,
            186.2667,
            1e-4,
        );
    }

    #[test]
    fn the_foot_of_an_insole_has_that_insole() {
        for wearer in [Wearer::Man, Wearer::Woman, Wearer::Adult, Wearer::Child] {
            let of = |field, mm: f64| {
                let measured = Measured {
                    wearer: Some(wearer),
                    lengths: [(field, Reading::in_millimetres(mm))].into(),
                    ..Measured::default()
                };
                Insole::of(&measured).unwrap()
            };
            let foot = of(Field::InsoleLength, 200.0).foot.value;
            near(of(Field::FootLength, foot).length.value, 200.0, 1e-9);
        }
    }

    /// ISO 9407's own example of a size with a width; 0.90 of the foot's width is common practice.
    #[test]
    fn a_stamped_foot_width_counts_for_more_than_an_average() {
        let insole = of_size(SizeSystem::Mondopoint, "260/94");
        near(insole.ball.value, 84.6, 1e-9);
        assert!(insole.ball.within < of_size(SizeSystem::Mondopoint, "260").ball.within);
        let measured = Measured {
            lengths: [(Field::InsoleBall, Reading::in_millimetres(90.0))].into(),
            ..Measured::of_size(ShoeSize::parse(SizeSystem::Mondopoint, "260/94").unwrap())
        };
        near(Insole::of(&measured).unwrap().ball.value, 90.0, 0.0);
    }
}

//! A figure of the bench sheet: a number that can be opened to show how it came about.
//!
//! A [`Recipe`] works a figure out of the very inputs that it then lists, so that what is shown and
//! what was used can't differ. Tolerances travel with the numbers.

use std::fmt;

use serde::Serialize;

use super::length::plain;

/// What a figure counts or measures.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Unit {
    /// Pieces.
    Count,
    /// A ratio without unit.
    Ratio,
    /// Millimetres.
    Millimetre,
    /// Metres.
    Metre,
    /// Square centimetres.
    SquareCentimetre,
    /// Cubic centimetres.
    CubicCentimetre,
    /// Grams.
    Gram,
    /// Degrees of an angle.
    Degree,
    /// Grams for a thousand metres of thread (ISO 1144).
    Tex,
}

impl Unit {
    /// How it stands after a number, with the space before it.
    pub const fn suffix(self) -> &'static str {
        match self {
            Self::Count | Self::Ratio => "",
            Self::Millimetre => " mm",
            Self::Metre => " m",
            Self::SquareCentimetre => " cm²",
            Self::CubicCentimetre => " cm³",
            Self::Gram => " g",
            Self::Degree => "°",
            Self::Tex => " tex",
        }
    }

    /// A number as precise as the bench can use it.
    pub fn number(self, value: f64) -> String {
        match self {
            Self::Count | Self::Tex => format!("{value:.0}"),
            Self::Ratio | Self::Metre | Self::Gram => format!("{value:.2}"),
            Self::Millimetre | Self::SquareCentimetre | Self::CubicCentimetre | Self::Degree => {
                plain(value)
            }
        }
    }
}

/// Where a formula or a usual value comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case", tag = "kind", content = "words")]
pub enum Source {
    /// Follows from geometry or from a definition.
    Definition(&'static str),
    /// Stands in a publication, which is named.
    Published(&'static str),
    /// A model of our own, with what it was checked against.
    Model(&'static str),
    /// Common practice in the trade, without a source to name.
    Practice,
}

impl fmt::Display for Source {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Definition(words) | Self::Published(words) => f.write_str(words),
            Self::Model(words) => write!(f, "a model of our own: {words}"),
            Self::Practice => f.write_str("common practice, no source"),
        }
    }
}

/// How an input is known.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case", tag = "from", content = "source")]
pub enum Origin {
    /// Measured on this pair.
    Measured,
    /// Chosen for this pair.
    Chosen,
    /// Nobody measured it: the usual value.
    Usual(Source),
    /// Another figure of this sheet.
    WorkedOut,
}

impl fmt::Display for Origin {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Measured => f.write_str("measured"),
            Self::Chosen => f.write_str("chosen"),
            Self::Usual(source) => write!(f, "not measured; the usual value ({source})"),
            Self::WorkedOut => f.write_str("worked out on this sheet"),
        }
    }
}

/// A number that goes into a figure.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct Input {
    /// What it is.
    pub label: &'static str,
    /// The number.
    pub value: f64,
    /// In nineteen of twenty cases the truth is no further off than this.
    pub within: f64,
    /// Its unit.
    pub unit: Unit,
    /// How it is known.
    pub origin: Origin,
}

impl Input {
    /// A number that is exact because somebody chose it.
    pub const fn chosen(label: &'static str, value: f64, unit: Unit) -> Self {
        Self {
            label,
            value,
            within: 0.0,
            unit,
            origin: Origin::Chosen,
        }
    }

    /// A number that nobody measured.
    pub const fn usual(label: &'static str, value: f64, unit: Unit, source: Source) -> Self {
        Self {
            label,
            value,
            within: 0.0,
            unit,
            origin: Origin::Usual(source),
        }
    }

    /// The same, known only so well.
    #[must_use]
    pub const fn known_within(self, within: f64) -> Self {
        Self { within, ..self }
    }
}

impl fmt::Display for Input {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self { label, origin, .. } = self;
        let amount = amount(self.value, self.within, self.unit);
        write!(f, "{label} {amount}, {origin}")
    }
}

/// A number that was worked out, with all that is needed to judge it.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct Figure {
    /// What it is.
    pub label: &'static str,
    /// The number.
    pub value: f64,
    /// In nineteen of twenty cases the truth is no further off than this.
    pub within: f64,
    /// Its unit.
    pub unit: Unit,
    /// How it is worked out, in words.
    pub formula: &'static str,
    /// What it was worked out from.
    pub inputs: Vec<Input>,
    /// Where the formula comes from.
    pub source: Source,
}

impl Figure {
    /// Number, tolerance and unit: `471 ± 10 mm`.
    pub fn amount(&self) -> String {
        amount(self.value, self.within, self.unit)
    }

    /// This figure as an input to another.
    pub const fn input(&self) -> Input {
        Input {
            label: self.label,
            value: self.value,
            within: self.within,
            unit: self.unit,
            origin: Origin::WorkedOut,
        }
    }
}

/// How a figure is worked out.
#[derive(Clone, Copy, Debug)]
pub struct Recipe {
    /// What comes out.
    pub label: &'static str,
    /// Its unit.
    pub unit: Unit,
    /// The formula in words.
    pub formula: &'static str,
    /// Where the formula comes from.
    pub source: Source,
}

impl Recipe {
    /// Works the figure out; `formula` gets the inputs' values in their order.
    ///
    /// The tolerance follows from moving one input after the other by its own tolerance (JCGM
    /// 100:2008, 5.1.3 note 2, cited from memory; inputs taken as independent of each other).
    pub fn of<const N: usize>(
        self,
        inputs: [Input; N],
        formula: impl Fn([f64; N]) -> f64,
    ) -> Figure {
        let values = inputs.map(|input| input.value);
        let mut square = 0.0;
        for (index, input) in inputs.iter().enumerate() {
            if input.within > 0.0 {
                let moved = |by: f64| {
                    let mut values = values;
                    if let Some(value) = values.get_mut(index) {
                        *value += by;
                    }
                    formula(values)
                };
                let half = f64::midpoint(moved(input.within), -moved(-input.within));
                square += half * half;
            }
        }
        Figure {
            label: self.label,
            value: formula(values),
            within: square.sqrt(),
            unit: self.unit,
            formula: self.formula,
            inputs: inputs.to_vec(),
            source: self.source,
        }
    }
}

/// A number with its tolerance: no finer than what the tolerance leaves to see.
fn amount(value: f64, within: f64, unit: Unit) -> String {
    let is_coarse = match unit {
        Unit::Millimetre | Unit::SquareCentimetre | Unit::CubicCentimetre | Unit::Degree => {
            within >= 2.0
        }
        Unit::Count | Unit::Ratio | Unit::Metre | Unit::Gram | Unit::Tex => false,
    };
    let shown = |number: f64| {
        if is_coarse {
            plain(number.round())
        } else {
            unit.number(number)
        }
    };
    let (number, tolerance) = (shown(value).replace('-', "−"), shown(within));
    let suffix = unit.suffix();
    if tolerance == unit.number(0.0) {
        format!("{number}{suffix}")
    } else {
        format!("{number} ± {tolerance}{suffix}")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const RECIPE: Recipe = Recipe {
        label: "a test",
        unit: Unit::Millimetre,
        formula: "",
        source: Source::Practice,
    };

    fn known(value: f64, within: f64) -> Input {
        Input::chosen("input", value, Unit::Millimetre).known_within(within)
    }

    /// The Python package `uncertainties` 3.2.3: `ufloat(10, .1) * ufloat(20, .2)` and so on.
    #[test]
    fn tolerances_travel_as_the_uncertainties_package_has_it() {
        let product = RECIPE.of([known(10.0, 0.1), known(20.0, 0.2)], |[a, b]| a * b);
        assert!((product.within - 2.828_427_1).abs() < 1e-6);
        let angle = RECIPE.of([known(20.0, 1.0), known(163.875, 2.0)], |[rise, run]| {
            (rise / run).atan().to_degrees()
        });
        assert!((angle.value - 6.958_209).abs() < 1e-6);
        assert!((angle.within - 0.354_614).abs() < 1e-5, "{}", angle.within);
    }

    #[test]
    fn an_amount_says_its_tolerance_only_if_there_is_one_to_see() {
        let figure = RECIPE.of([known(10.0, 0.04)], |[a]| a);
        assert_eq!(figure.amount(), "10 mm");
        let figure = RECIPE.of([known(10.0, 0.26)], |[a]| a);
        assert_eq!(figure.amount(), "10 ± 0.3 mm");
        let figure = RECIPE.of([known(582.6, 10.8)], |[a]| a);
        assert_eq!(figure.amount(), "583 ± 11 mm");
        assert_eq!(amount(-0.01, 0.0, Unit::Millimetre), "0 mm");
    }
}

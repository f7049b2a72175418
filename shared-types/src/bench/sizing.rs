//! Sizes: from the one stamped in the shoe to the foot it is meant for, and to every other system.
//!
//! A guide, never more: ISO 19407 itself says that no exact conversion exists. What is stamped stays
//! what counts; the foot's length serves to estimate material.

use serde::{Deserialize, Serialize};

use super::figure::{Figure, Input, Recipe, Source, Unit};
use super::length::{INCH, Millimetres};
use crate::size::{ShoeSize, SizeSystem};

/// The step of the European systems: two thirds of a centimetre.
pub const PARIS_POINT: f64 = 20.0 / 3.0;
/// The step of the British and American systems: a third of an inch.
pub const BARLEYCORN: f64 = INCH / 3.0;
/// A child's last is longer than the foot by this factor; an adult's by two sizes.
pub(super) const CHILD_LAST: f64 = 1.08;

pub(super) const CONVERSION: Source = Source::Published(
    "the formulas of the npm package shoe-size-converter 1.0.1, which follows ISO/TS 19407:2015; its tables themselves were not seen",
);

/// For whom the pair was made.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Wearer {
    /// A man.
    Man,
    /// A woman.
    Woman,
    /// An adult, no more is known.
    Adult,
    /// A child.
    Child,
}

impl Wearer {
    /// What the system alone says; it never tells a child from the number.
    pub const fn of(system: SizeSystem) -> Self {
        match system {
            SizeSystem::UsMen => Self::Man,
            SizeSystem::UsWomen => Self::Woman,
            SizeSystem::Eu | SizeSystem::Uk | SizeSystem::Mondopoint => Self::Adult,
            SizeSystem::EuChild | SizeSystem::UkChild | SizeSystem::UsChild => Self::Child,
        }
    }

    const fn systems(self) -> &'static [SizeSystem] {
        match self {
            Self::Man | Self::Woman | Self::Adult => &[
                SizeSystem::Eu,
                SizeSystem::Uk,
                SizeSystem::UsMen,
                SizeSystem::UsWomen,
                SizeSystem::Mondopoint,
            ],
            Self::Child => &[
                SizeSystem::EuChild,
                SizeSystem::UkChild,
                SizeSystem::UsChild,
                SizeSystem::Mondopoint,
            ],
        }
    }
}

/// What a system adds to the count of steps before it becomes the size.
const fn zero(system: SizeSystem) -> f64 {
    match system {
        SizeSystem::Eu => 2.0,
        SizeSystem::EuChild | SizeSystem::Mondopoint => 0.0,
        SizeSystem::Uk => -23.0,
        SizeSystem::UsMen => -22.0,
        SizeSystem::UsWomen => -21.0,
        SizeSystem::UkChild => -12.0,
        SizeSystem::UsChild => -12.0 + 1.0 / 3.0,
    }
}

/// Millimetres of foot for one size.
const fn step(system: SizeSystem) -> f64 {
    match system {
        SizeSystem::Eu => PARIS_POINT,
        SizeSystem::EuChild => PARIS_POINT / CHILD_LAST,
        SizeSystem::Uk | SizeSystem::UsMen | SizeSystem::UsWomen => BARLEYCORN,
        SizeSystem::UkChild | SizeSystem::UsChild => BARLEYCORN / CHILD_LAST,
        SizeSystem::Mondopoint => 1.0,
    }
}

/// The size of a foot in a system, unrounded.
pub fn size_of_foot(foot: Millimetres, system: SizeSystem) -> f64 {
    foot.0 / step(system) + zero(system)
}

/// The length of the foot that a size is meant for.
pub fn foot_of_size(size: ShoeSize) -> Millimetres {
    let number = f64::from(size.halves()) / 2.0;
    Millimetres((number - zero(size.system())) * step(size.system()))
}

/// The foot's length as a figure, from the size that is stamped.
///
/// Makers differ by about one size, so that is the tolerance: the shop tables that come with the
/// named package disagree by as much.
pub fn foot_figure(size: ShoeSize) -> Figure {
    let grade = if size.system() == SizeSystem::Mondopoint {
        5.0
    } else {
        step(size.system())
    };
    let stamped = Input {
        within: grade / step(size.system()),
        ..Input::chosen("size stamped", f64::from(size.halves()) / 2.0, Unit::Ratio)
    };
    Recipe {
        label: "Foot that the size is meant for",
        unit: Unit::Millimetre,
        formula: "(size − zero of its system) × step of its system; a child's last is 1.08 times the foot",
        source: CONVERSION,
    }
    .of([stamped], |[number]| {
        (number - zero(size.system())) * step(size.system())
    })
}

/// One system's size of a foot.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct SizeRow {
    /// The system.
    pub system: SizeSystem,
    /// Unrounded.
    pub exact: f64,
    /// To the nearest half, or to 5 mm of Mondopoint: `9.5`; in words if the system has none.
    pub nearest: String,
}

/// A foot's size in every system that fits its wearer, as a guide.
pub fn size_rows(foot: Millimetres, wearer: Wearer) -> Vec<SizeRow> {
    let row = |system: &SizeSystem| {
        let exact = size_of_foot(foot, *system);
        SizeRow {
            system: *system,
            exact,
            nearest: nearest(foot, *system, exact),
        }
    };
    wearer.systems().iter().map(row).collect()
}

/// The children's run of the barleycorn systems ends at 13½; the next size is 1 of the adults' run.
const LAST_OF_CHILDREN: f64 = 13.5;

fn nearest(foot: Millimetres, system: SizeSystem, exact: f64) -> String {
    let adults = match system {
        SizeSystem::UkChild => Some(SizeSystem::Uk),
        SizeSystem::UsChild => Some(SizeSystem::UsMen),
        SizeSystem::Eu
        | SizeSystem::Uk
        | SizeSystem::UsMen
        | SizeSystem::UsWomen
        | SizeSystem::EuChild
        | SizeSystem::Mondopoint => None,
    };
    match adults {
        Some(adults) if to_grade(system, exact) > LAST_OF_CHILDREN => {
            let size = to_grade(adults, size_of_foot(foot, adults)).max(1.0);
            format!("{} ({} run)", in_run(adults, size), adults.label())
        }
        _ => in_run(system, to_grade(system, exact)),
    }
}

/// To the nearest size that a system has: of Mondopoint every 5 mm, of others every half.
fn to_grade(system: SizeSystem, exact: f64) -> f64 {
    let grade = if system == SizeSystem::Mondopoint {
        5.0
    } else {
        0.5
    };
    // Adding zero makes a negative zero a plain one.
    (exact / grade).round() * grade + 0.0
}

fn in_run(system: SizeSystem, size: f64) -> String {
    let (least, most) = system.halves();
    if size < f64::from(least) / 2.0 {
        "none so small".to_owned()
    } else if size > f64::from(most) / 2.0 {
        "none so large".to_owned()
    } else {
        size.to_string()
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn near(what: f64, expected: f64) {
        assert!((what - expected).abs() <= 0.001, "{what} is not {expected}");
    }

    fn foot(system: SizeSystem, number: &str) -> f64 {
        foot_of_size(ShoeSize::parse(system, number).unwrap()).0
    }

    /// Exact arithmetic with the published formulas, worked out apart from this code.
    #[test]
    fn feet_have_the_sizes_of_exact_arithmetic() {
        for (mm, expected) in [
            (240.0, [38.000, 5.346, 6.346, 7.346]),
            (250.0, [39.500, 6.528, 7.528, 8.528]),
            (270.0, [42.500, 8.890, 9.890, 10.890]),
            (280.0, [44.000, 10.071, 11.071, 12.071]),
        ] {
            for (row, expected) in size_rows(Millimetres(mm), Wearer::Adult)
                .iter()
                .zip(expected)
            {
                near(row.exact, expected);
            }
        }
        near(
            size_of_foot(Millimetres(160.0), SizeSystem::EuChild),
            25.920,
        );
        near(size_of_foot(Millimetres(160.0), SizeSystem::UkChild), 8.409);
    }

    #[test]
    fn sizes_are_meant_for_the_feet_of_exact_arithmetic() {
        near(foot(SizeSystem::Eu, "42"), 266.667);
        near(foot(SizeSystem::Eu, "38"), 240.0);
        near(foot(SizeSystem::Uk, "8"), 262.467);
        near(foot(SizeSystem::UsMen, "9"), 262.467);
        near(foot(SizeSystem::UsWomen, "7.5"), 241.3);
        near(foot(SizeSystem::EuChild, "30"), 185.185);
        near(foot(SizeSystem::Mondopoint, "265"), 265.0);
    }

    /// What `convert` of the npm package shoe-size-converter 1.0.1 answers for these sizes.
    #[test]
    fn rounded_sizes_are_those_of_the_npm_package() {
        for (system, number, expected) in [
            (
                SizeSystem::Mondopoint,
                "240",
                ["38", "5.5", "6.5", "7.5", "240"],
            ),
            (
                SizeSystem::Mondopoint,
                "250",
                ["39.5", "6.5", "7.5", "8.5", "250"],
            ),
            (
                SizeSystem::Mondopoint,
                "270",
                ["42.5", "9", "10", "11", "270"],
            ),
            (SizeSystem::Eu, "42", ["42", "8.5", "9.5", "10.5", "265"]),
            (SizeSystem::Eu, "44", ["44", "10", "11", "12", "280"]),
            (SizeSystem::Eu, "36.5", ["36.5", "4", "5", "6", "230"]),
            (SizeSystem::Uk, "8", ["41.5", "8", "9", "10", "260"]),
            (SizeSystem::UsMen, "9", ["41.5", "8", "9", "10", "260"]),
            (
                SizeSystem::UsWomen,
                "7.5",
                ["38", "5.5", "6.5", "7.5", "240"],
            ),
        ] {
            let rows = size_rows(Millimetres(foot(system, number)), Wearer::Adult);
            let nearest: Vec<_> = rows.iter().map(|row| row.nearest.as_str()).collect();
            assert_eq!(nearest, expected, "{system:?} {number}");
        }
        for (system, number, expected) in [
            (SizeSystem::EuChild, "30", ["30", "11.5", "12", "185"]),
            (SizeSystem::Mondopoint, "160", ["26", "8.5", "8.5", "160"]),
            (SizeSystem::UkChild, "8", ["25.5", "8", "8.5", "155"]),
            (SizeSystem::UsChild, "12", ["30", "11.5", "12", "185"]),
        ] {
            let rows = size_rows(Millimetres(foot(system, number)), Wearer::Child);
            let nearest: Vec<_> = rows.iter().map(|row| row.nearest.as_str()).collect();
            assert_eq!(nearest, expected, "{system:?} {number}");
        }
    }

    #[test]
    fn a_child_s_thirteen_and_a_half_is_followed_by_an_adult_s_one() {
        let uk = |mm| size_rows(Millimetres(mm), Wearer::Child)[1].nearest.clone();
        assert_eq!(uk(200.0), "13.5");
        assert_eq!(uk(203.5), "1 (UK run)");
    }

    /// U2: two thirds of a centimetre; a third of an inch of 25.4 mm (1959), by fractions.
    #[test]
    fn the_steps_are_the_paris_point_and_the_barleycorn() {
        near(PARIS_POINT, 6.666_667);
        near(BARLEYCORN, 8.466_667);
    }

    #[test]
    fn a_foot_beyond_a_system_has_no_size_there() {
        let rows = |mm, wearer| -> Vec<String> {
            let rows = size_rows(Millimetres(mm), wearer);
            rows.into_iter().map(|row| row.nearest).collect()
        };
        let tiny = rows(100.0, Wearer::Adult);
        assert_eq!(tiny[..4], ["none so small"; 4]);
        assert_eq!(rows(340.0, Wearer::Adult)[1], "17");
        // (100 × 1.08 ÷ 8.4667) − 12 is 0.76; at 92 mm it is −0.26, which no shoe has.
        assert_eq!(rows(100.0, Wearer::Child)[1], "1");
        assert_eq!(rows(92.0, Wearer::Child)[1], "none so small");
        assert_eq!(rows(93.0, Wearer::Child)[1], "0");
        assert_eq!(rows(400.0, Wearer::Child)[1], "none so large (UK run)");
    }

    proptest! {
        #[test]
        fn every_size_s_foot_has_that_size(
            system in proptest::sample::select(SizeSystem::ALL.to_vec()), share in 0.0_f64..=1.0,
        ) {
            let (least, most) = system.halves();
            let halves = f64::from(least) + share * f64::from(most - least);
            let text = format!("{:.1}", halves.round() / 2.0);
            let size = ShoeSize::parse(system, &text).unwrap();
            let foot = foot_of_size(size);
            prop_assert!((40.0..420.0).contains(&foot.0), "{size}: {foot}");
            let back = size_of_foot(foot, system);
            prop_assert!((back - f64::from(size.halves()) / 2.0).abs() < 1e-9);
        }

        #[test]
        fn a_size_s_foot_has_that_size(halves in 70_u32..96) {
            let whole = halves / 2;
            let text = if halves % 2 == 0 { whole.to_string() } else { format!("{whole}.5") };
            let size = ShoeSize::parse(SizeSystem::Eu, &text).unwrap();
            let back = size_of_foot(foot_of_size(size), SizeSystem::Eu);
            prop_assert!((back - f64::from(halves) / 2.0).abs() < 1e-9);
        }
    }
}

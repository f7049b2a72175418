//! The form in which the bench writes down what it measured.
//!
//! A length that looks wrong is asked about: the field comes back with the question and a box that
//! says "It is so", whose value is the question itself. Ticked, it answers that question and no other.

use std::collections::BTreeMap;

use crate::bench::doubt::{Doubt, doubts, impossible};
use crate::bench::field::Field;
use crate::bench::length::{LengthUnit, Reading};
use crate::bench::measure::{FillerRun, Measured, SeamChoice, SoleKind, StampedSize, Stand};
use crate::bench::measurements::{Measurements, SeamPlan};
use crate::bench::sizing::Wearer;
use crate::bench::thread::Stitch;
use crate::bench::thread_size::{RANGE, tex};
use crate::bench::welt::WeltRun;
use crate::form::{Fields, FormErrors, Problem};
use crate::moment::Moment;
use crate::scope::ScopeLine;
use crate::size::{ShoeSize, SizeSystem};
use crate::ticket::{AtTheBench, PairAbout, PairMeasured};

/// A field of the form.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum MeasureField {
    /// When the measurements were taken that the page showed, so that nobody's are lost.
    Seen,
    /// A length.
    Length(Field),
    /// Its unit.
    Unit(Field),
    /// The question about it, ticked once it was looked at again.
    ItIsSo(Field),
    /// The system of the size.
    SizeSystem,
    /// The number of the size.
    Size,
    /// For whom the pair was made.
    Wearer,
    /// Whether both shoes are meant to stand alike.
    Stand,
    /// How far the welt goes.
    Welt,
    /// What becomes of a seam.
    Seam(WhichSeam),
    /// The weight of its thread.
    Tex(WhichSeam),
    /// How far the filler goes.
    Filler,
    /// What the old sole is.
    OldSole,
    /// What the new sole is.
    NewSole,
}

/// A seam of the form.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum WhichSeam {
    /// Welt, upper and insole.
    Inseam,
    /// The outsole.
    Outsole,
}

impl WhichSeam {
    /// Both, in the order of the form.
    pub const ALL: [Self; 2] = [Self::Inseam, Self::Outsole];

    const fn usual(self, stitch: Stitch) -> SeamChoice {
        match self {
            Self::Inseam => SeamChoice::inseam_by(stitch),
            Self::Outsole => SeamChoice::outsole_by(stitch),
        }
    }
}

impl MeasureField {
    /// The field's name in the form.
    pub fn name(self) -> String {
        let name = match self {
            Self::Seen => "seen",
            Self::Length(field) => return field.code().to_owned(),
            Self::Unit(field) => return format!("{}-unit", field.code()),
            Self::ItIsSo(field) => return format!("{}-is-so", field.code()),
            Self::SizeSystem => "size-system",
            Self::Size => "size",
            Self::Wearer => "wearer",
            Self::Stand => "stand",
            Self::Welt => "welt",
            Self::Seam(WhichSeam::Inseam) => "inseam",
            Self::Seam(WhichSeam::Outsole) => "outsole-seam",
            Self::Tex(WhichSeam::Inseam) => "inseam-tex",
            Self::Tex(WhichSeam::Outsole) => "outsole-tex",
            Self::Filler => "filler",
            Self::OldSole => "old-sole",
            Self::NewSole => "new-sole",
        };
        name.to_owned()
    }
}

/// One of a few, by its code in the form; the empty code is what follows from the pair.
pub trait Coded: Copy + PartialEq + 'static {
    /// Each with its code and its words.
    const CODES: &'static [(Self, &'static str, &'static str)];

    /// Its code.
    fn code(self) -> &'static str {
        let mut codes = Self::CODES.iter();
        codes
            .find(|(one, ..)| *one == self)
            .map_or("", |(_, code, _)| code)
    }

    /// Finds one by its code.
    fn from_code(code: &str) -> Option<Self> {
        let mut codes = Self::CODES.iter();
        codes
            .find(|(_, known, _)| *known == code)
            .map(|(one, ..)| *one)
    }
}

impl Coded for Wearer {
    const CODES: &'static [(Self, &'static str, &'static str)] = &[
        (Self::Man, "man", "A man"),
        (Self::Woman, "woman", "A woman"),
        (Self::Adult, "adult", "An adult"),
        (Self::Child, "child", "A child"),
    ];
}

impl Coded for Stand {
    const CODES: &'static [(Self, &'static str, &'static str)] = &[
        (Self::Even, "even", "Both alike"),
        (
            Self::Prescribed,
            "prescribed",
            "Not alike, on a clinician’s written prescription",
        ),
    ];
}

impl Coded for WeltRun {
    const CODES: &'static [(Self, &'static str, &'static str)] = &[
        (
            Self::BreastToBreast,
            "breast-to-breast",
            "Heel breast to heel breast (270)",
        ),
        (Self::AllRound, "all-round", "All round (360)"),
        (Self::None, "none", "No welt"),
    ];
}

impl Coded for FillerRun {
    const CODES: &'static [(Self, &'static str, &'static str)] = &[
        (Self::Whole, "whole", "Heel breast to toe"),
        (Self::Forepart, "forepart", "The forepart alone"),
    ];
}

impl Coded for SoleKind {
    const CODES: &'static [(Self, &'static str, &'static str)] = &[
        (Self::Leather, "leather", "Leather"),
        (Self::Rubber, "rubber", "Plain rubber"),
        (Self::Lug, "lug", "Deep lugs, or a thick wedge"),
    ];
}

/// The code of a seam that is left alone.
pub const LEFT_ALONE: &str = "left-alone";

impl Coded for Stitch {
    const CODES: &'static [(Self, &'static str, &'static str)] = &[
        (Self::Chain, "chain", "Chain stitch"),
        (Self::Lock, "lock", "Lockstitch"),
        (Self::Hand, "hand", "By hand"),
    ];
}

/// The form as it stands for what was measured last, or empty.
pub fn filled(about: &PairAbout, taken: Option<&PairMeasured>, lines: &[ScopeLine]) -> Fields {
    let mut fields = Fields::default();
    let Some(PairMeasured {
        measurements, at, ..
    }) = taken
    else {
        return fields;
    };
    let mut put = |field: MeasureField, value: &str| fields.push(field.name(), value);
    put(MeasureField::Seen, &at.as_micros().to_string());
    for (field, reading) in &measurements.lengths {
        put(MeasureField::Length(*field), &reading.amount().to_string());
        put(MeasureField::Unit(*field), reading.unit().code());
    }
    for (field, words) in questions(about, measurements, lines) {
        if measurements.confirmed.contains(&field) {
            put(MeasureField::ItIsSo(field), &words);
        }
    }
    if let Some(StampedSize(size)) = measurements.size {
        put(MeasureField::SizeSystem, size.system().code());
        put(MeasureField::Size, &size.figure());
    }
    put(MeasureField::Wearer, code(measurements.wearer));
    put(MeasureField::Stand, code(measurements.stand));
    put(MeasureField::Welt, code(measurements.welt));
    put(MeasureField::Filler, measurements.filler.code());
    put(MeasureField::OldSole, measurements.old_sole.code());
    put(MeasureField::NewSole, code(measurements.new_sole));
    for (seam, plan) in [
        (WhichSeam::Inseam, measurements.inseam),
        (WhichSeam::Outsole, measurements.outsole_seam),
    ] {
        match plan {
            SeamPlan::AsBuilt => {}
            SeamPlan::LeftAlone => put(MeasureField::Seam(seam), LEFT_ALONE),
            SeamPlan::Sewn(choice) => {
                put(MeasureField::Seam(seam), choice.stitch.code());
                put(MeasureField::Tex(seam), &choice.tex.to_string());
            }
        }
    }
    fields
}

fn code<C: Coded>(value: Option<C>) -> &'static str {
    value.map_or("", Coded::code)
}

/// When the measurements were taken that the page showed.
pub fn seen(fields: &Fields) -> Option<Moment> {
    let micros = fields.one(&MeasureField::Seen.name()).parse().ok()?;
    Some(Moment::from_micros(micros))
}

/// Reads the form, for a pair with this work on it.
///
/// # Errors
/// What can't be read or can't be, and each question that nobody has answered, beside its field.
pub fn read(
    fields: &Fields,
    about: &PairAbout,
    lines: &[ScopeLine],
) -> Result<Measurements, FormErrors<MeasureField>> {
    let mut errors = FormErrors::default();
    let mut measurements = Measurements {
        size: read_size(fields, &mut errors),
        wearer: read_code(fields, MeasureField::Wearer, &mut errors),
        welt: read_code(fields, MeasureField::Welt, &mut errors),
        inseam: read_seam(fields, WhichSeam::Inseam, &mut errors),
        outsole_seam: read_seam(fields, WhichSeam::Outsole, &mut errors),
        filler: read_code(fields, MeasureField::Filler, &mut errors).unwrap_or_default(),
        old_sole: read_code(fields, MeasureField::OldSole, &mut errors).unwrap_or_default(),
        new_sole: read_code(fields, MeasureField::NewSole, &mut errors),
        stand: read_code(fields, MeasureField::Stand, &mut errors),
        ..Measurements::default()
    };
    for field in Field::ALL {
        if let Some(reading) = read_length(fields, field, &mut errors) {
            measurements.lengths.insert(field, reading);
        }
    }
    let measured = at_the_bench(about, &measurements, lines);
    for Doubt { field, words } in impossible(&measured) {
        errors.add(MeasureField::Length(field), Problem::Impossible(words));
    }
    for (field, words) in questions(about, &measurements, lines) {
        if fields.one(&MeasureField::ItIsSo(field).name()) == words {
            measurements.confirmed.insert(field);
        } else {
            errors.add(MeasureField::Length(field), Problem::Questioned(words));
        }
    }
    if errors.is_empty() {
        Ok(measurements)
    } else {
        Err(errors)
    }
}

fn at_the_bench(about: &PairAbout, measurements: &Measurements, lines: &[ScopeLine]) -> Measured {
    AtTheBench::of(about, Some(measurements), lines).measured
}

/// The question at each field, whoever has answered it.
fn questions(
    about: &PairAbout,
    measurements: &Measurements,
    lines: &[ScopeLine],
) -> BTreeMap<Field, String> {
    let mut measured = at_the_bench(about, measurements, lines);
    measured.confirmed.clear();
    let mut found: BTreeMap<Field, String> = BTreeMap::new();
    for Doubt { field, words } in doubts(&measured) {
        let said = found.entry(field).or_default();
        if !said.is_empty() {
            said.push(' ');
        }
        said.push_str(&words);
    }
    found
}

fn read_length(
    fields: &Fields,
    field: Field,
    errors: &mut FormErrors<MeasureField>,
) -> Option<Reading> {
    let typed = fields.one(&MeasureField::Length(field).name());
    if typed.trim().is_empty() {
        return None;
    }
    let units = field.units();
    let picked = LengthUnit::from_code(fields.one(&MeasureField::Unit(field).name()))
        .or(units.first().copied())
        .unwrap_or(LengthUnit::Millimetre);
    let read = Reading::parse_in(typed, picked)
        .ok()
        .filter(|reading| units.contains(&reading.unit()));
    let names = || {
        let labels: Vec<_> = units.iter().map(|unit| unit.label()).collect();
        labels.join(", ")
    };
    errors.take(
        MeasureField::Length(field),
        read.map(Some)
            .ok_or_else(|| Problem::NotALength { units: names() }),
    )?
}

fn read_size(fields: &Fields, errors: &mut FormErrors<MeasureField>) -> Option<StampedSize> {
    let typed = fields.one(&MeasureField::Size.name());
    if typed.trim().is_empty() {
        return None;
    }
    let system = SizeSystem::from_code(fields.one(&MeasureField::SizeSystem.name()));
    let size = system
        .ok_or(Problem::NotChosen)
        .and_then(|system| ShoeSize::parse(system, typed));
    errors.take(MeasureField::Size, size).map(StampedSize)
}

fn read_code<C: Coded>(
    fields: &Fields,
    field: MeasureField,
    errors: &mut FormErrors<MeasureField>,
) -> Option<C> {
    let typed = fields.one(&field.name());
    if typed.is_empty() {
        return None;
    }
    errors.take(field, C::from_code(typed).ok_or(Problem::NotChosen))
}

fn read_seam(fields: &Fields, seam: WhichSeam, errors: &mut FormErrors<MeasureField>) -> SeamPlan {
    if fields.one(&MeasureField::Seam(seam).name()) == LEFT_ALONE {
        return SeamPlan::LeftAlone;
    }
    let Some(stitch) = read_code(fields, MeasureField::Seam(seam), errors) else {
        return SeamPlan::AsBuilt;
    };
    let typed = fields
        .one(&MeasureField::Tex(seam).name())
        .trim()
        .to_owned();
    let usual = seam.usual(stitch);
    let (least, most) = RANGE;
    let tex = match typed.as_str() {
        "" => Ok(usual.tex),
        typed => tex(typed).map_err(|_| Problem::OutOfRange {
            least: least.into(),
            most: most.into(),
        }),
    };
    let tex = errors.take(MeasureField::Tex(seam), tex);
    SeamPlan::Sewn(SeamChoice {
        tex: tex.unwrap_or(usual.tex),
        ..usual
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::text::{Line, Words};
    use crate::ticket::event::Actor;
    use crate::ticket::{Construction, Rating};

    fn about() -> PairAbout {
        PairAbout {
            kind: Line::parse("lace-up work boots").unwrap(),
            colour: Line::parse("dark green").unwrap(),
            size: ShoeSize::parse(SizeSystem::Eu, "44").ok(),
            construction: Construction::Welt270,
            rating: Rating::Ordinary,
            wrong: Words::parse("Soles worn through").unwrap(),
        }
    }

    fn typed(fields: &[(&str, &str)]) -> Fields {
        let own = |(name, value): &(&str, &str)| ((*name).to_owned(), (*value).to_owned());
        fields.iter().map(own).collect()
    }

    fn wrong(fields: &[(&str, &str)], field: Field) -> Option<String> {
        let errors = read(&typed(fields), &about(), &[]).err()?;
        errors.at(&MeasureField::Length(field))
    }

    #[test]
    fn a_number_is_in_the_unit_beside_it_unless_it_brings_its_own() {
        let form = typed(&[
            ("insole-length", "29,3"),
            ("insole-length-unit", "cm"),
            ("new-sole-at-ball", "9"),
            ("new-sole-at-ball-unit", "iron"),
            ("new-sole-at-seat", "4.8 mm"),
            ("new-sole-at-seat-unit", "iron"),
            ("outsole-pitch", "9"),
            ("outsole-pitch-unit", "per-inch"),
            ("lift", "3/16"),
            ("lift-unit", "in"),
        ]);
        let read = read(&form, &about(), &[]).unwrap();
        let mm = |field: Field| read.lengths[&field].millimetres().0;
        assert!((mm(Field::InsoleLength) - 293.0).abs() < 1e-9);
        assert!((mm(Field::NewSoleAtBall) - 4.7625).abs() < 1e-9);
        assert!((mm(Field::NewSoleAtSeat) - 4.8).abs() < 1e-9);
        assert!((mm(Field::OutsolePitch) - 25.4 / 9.0).abs() < 1e-9);
        assert!((mm(Field::Lift) - 4.7625).abs() < 1e-9);
    }

    #[test]
    fn a_unit_that_a_field_does_not_have_is_refused_there() {
        let said = wrong(&[("insole-length", "9 iron")], Field::InsoleLength).unwrap();
        assert!(said.contains("mm, cm, in"), "{said}");
        let said = wrong(&[("lift", "9 per inch")], Field::Lift).unwrap();
        assert!(said.contains("iron"), "{said}");
        assert!(wrong(&[("lift", "some")], Field::Lift).is_some());
        assert!(wrong(&[("lift", "")], Field::Lift).is_none());
        let said = wrong(&[("insole-length", "2930")], Field::InsoleLength).unwrap();
        assert!(said.contains("can't be"), "{said}");
    }

    #[test]
    fn a_question_is_answered_by_its_own_words_and_by_no_others() {
        let form = [("insole-length", "293"), ("outsole-length", "333")];
        let question = wrong(&form, Field::OutsoleLength).unwrap();
        assert!(question.contains("40 mm longer"), "{question}");
        let answered = |words: &str| {
            let mut fields = typed(&form);
            fields.push("outsole-length-is-so", words);
            read(&fields, &about(), &[])
        };
        let kept = answered(&question).unwrap();
        assert!(kept.confirmed.contains(&Field::OutsoleLength));
        assert!(answered("yes").is_err());
        let another = question.replace("40 mm", "41 mm");
        assert!(answered(&another).is_err());
    }

    #[test]
    fn what_was_kept_fills_the_form_and_is_read_again_as_it_was() {
        let form = typed(&[
            ("insole-length", "293"),
            ("outsole-length", "333"),
            (
                "outsole-length-is-so",
                &wrong(
                    &[("insole-length", "293"), ("outsole-length", "333")],
                    Field::OutsoleLength,
                )
                .unwrap(),
            ),
            ("size-system", "uk"),
            ("size", "9.5"),
            ("wearer", "man"),
            ("stand", "prescribed"),
            ("welt", "all-round"),
            ("inseam", "left-alone"),
            ("outsole-seam", "hand"),
            ("outsole-tex", "420"),
            ("filler", "forepart"),
            ("old-sole", "rubber"),
            ("new-sole", "lug"),
        ]);
        let measurements = read(&form, &about(), &[]).unwrap();
        let taken = PairMeasured {
            measurements: measurements.clone(),
            actor: Actor::Program,
            at: Moment::from_micros(1_000),
        };
        let again = filled(&about(), Some(&taken), &[]);
        assert_eq!(seen(&again), Some(taken.at));
        assert_eq!(read(&again, &about(), &[]), Ok(measurements));
    }

    #[test]
    fn choices_that_do_not_exist_and_threads_like_ropes_are_refused() {
        let errors = read(
            &typed(&[
                ("welt", "sideways"),
                ("outsole-seam", "lock"),
                ("outsole-tex", "9000"),
                ("size", "44"),
            ]),
            &about(),
            &[],
        )
        .unwrap_err();
        assert!(errors.at(&MeasureField::Welt).is_some());
        assert!(errors.at(&MeasureField::Tex(WhichSeam::Outsole)).is_some());
        assert!(errors.at(&MeasureField::Size).is_some());
    }
}

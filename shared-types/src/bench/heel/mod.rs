//! The heel: how high its base must be so that the pair stands as its last was made, and what
//! another height would do to the stance.
//!
//! A shoe stands level when `pitch + sole at the ball = sole at the seat + rand + base + top lift`.

//!
//! - [`stance`]: how the pair stands on some parts
//! - [`shape`]: the slope of the seat, the angles of back and breast
//! - [`misfit`]: what does not fit

pub mod misfit;
pub mod shape;
pub mod stance;

use serde::Serialize;

use self::misfit::{Misfit, off, uneven};
use self::shape::HeelShape;
use self::stance::{Case, LEVEL, Parts, Stance};
use super::field::Field;
use super::figure::{Figure, Input, Origin, Recipe, Source, Unit};
use super::length::Millimetres;
use super::measure::{Measured, Stand};

/// Lifts of one thickness, sanded to a height.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LiftPlan {
    /// Number of lifts.
    pub lifts: f64,
    /// What comes off in fitting and sanding.
    pub trim: Millimetres,
}

impl LiftPlan {
    /// The fewest lifts that make a base with something left to sand; none for no base.
    pub fn of(base: Millimetres, lift: Millimetres, sanding: Millimetres) -> Self {
        if base.0 <= 0.0 {
            return Self {
                lifts: 0.0,
                trim: Millimetres(0.0),
            };
        }
        // A thousandth of a lift is no lift, only how numbers are stored.
        let lifts = ((base + sanding).0 / lift.0 - 0.001).ceil().max(0.0);
        let trim = lift * lifts - base;
        Self { lifts, trim }
    }
}

/// What came of the heel.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case", tag = "heel", content = "figures")]
pub enum Heel {
    /// It was worked out.
    Worked(Box<HeelFigures>),
    /// Something is missing: these fields.
    Missing(Vec<Field>),
    /// Both shoes differ on purpose: the clinician's measurements hold.
    Prescribed,
}

/// The heel's figures; thicknesses at the middle of the seat, alike for both shoes.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct HeelFigures {
    /// The pitch that is wanted.
    pub pitch: Input,
    /// The height of the new heel base.
    pub base: Figure,
    /// How much higher it is than the old one, if that was measured.
    pub against_old: Option<Figure>,
    /// How many lifts make it.
    pub lifts: Figure,
    /// What comes off them.
    pub trim: Figure,
    /// Slopes, angles and lengths of the heel.
    pub shape: HeelShape,
    /// Ways of standing.
    pub stances: Vec<Stance>,
    /// What does not fit.
    pub misfits: Vec<Misfit>,
}

impl Heel {
    /// Works the heel out for a bottom of that length.
    pub fn work_out(measured: &Measured, length: Input) -> Self {
        if measured.stand == Stand::Prescribed {
            return Self::Prescribed;
        }
        let old = OldParts::of(measured);
        let fields = [
            Field::NewSoleAtBall,
            Field::NewSoleAtSeat,
            Field::NewTopLift,
        ];
        let pitch = measured
            .input(Field::LastPitch)
            .or_else(|| old.as_ref().map(|old| old.pitch.input()));
        let (Some(pitch), [Some(ball), Some(seat), Some(top_lift)]) =
            (pitch, fields.map(|field| measured.input(field)))
        else {
            let missing = fields
                .into_iter()
                .chain(pitch.is_none().then_some(Field::LastPitch))
                .filter(|field| measured.length(*field).is_none())
                .collect();
            return Self::Missing(missing);
        };
        let new = NewParts {
            pitch,
            ball,
            seat,
            top_lift,
            rand: measured.given(Field::Rand),
        };
        Self::Worked(Box::new(HeelFigures::of(
            measured,
            length,
            &new,
            old.as_ref(),
        )))
    }
}

/// The old parts, if all were measured.
struct OldParts {
    parts: Parts,
    pitch: Figure,
}

impl OldParts {
    fn of(measured: &Measured) -> Option<Self> {
        let ball = measured.input(Field::OldSoleAtBall)?;
        let seat = measured.input(Field::OldSoleAtSeat)?;
        let base = measured.input(Field::OldHeelBase)?;
        let top_lift = measured.input(Field::OldTopLift)?;
        let pitch = Recipe {
            label: "Pitch as it came",
            unit: Unit::Millimetre,
            formula: "old sole at the seat + old heel base + old top lift − old sole at the ball",
            source: LEVEL,
        }
        .of([seat, base, top_lift, ball], |[seat, base, top, ball]| {
            seat + base + top - ball
        });
        let parts = Parts {
            sole_at_ball: Millimetres(ball.value),
            sole_at_seat: Millimetres(seat.value),
            rand: Millimetres(0.0),
            base: Millimetres(base.value),
            top_lift: Millimetres(top_lift.value),
        };
        Some(Self { parts, pitch })
    }

    /// How much higher a new base is than the old one.
    fn against(&self, base: &Figure) -> Figure {
        let old = Input {
            label: Field::OldHeelBase.label(),
            value: self.parts.base.0,
            within: Field::OldHeelBase.tolerance().0,
            unit: Unit::Millimetre,
            origin: Origin::Measured,
        };
        Recipe {
            label: "Against the old heel base",
            unit: Unit::Millimetre,
            formula: "new heel base − old heel base: what keeps the pitch where soles and top lifts change",
            source: LEVEL,
        }
        .of([base.input(), old], |[new, old]| new - old)
    }
}

struct NewParts {
    pitch: Input,
    ball: Input,
    seat: Input,
    top_lift: Input,
    rand: Input,
}

impl NewParts {
    const fn on_base(&self, base: Millimetres) -> Parts {
        Parts {
            sole_at_ball: Millimetres(self.ball.value),
            sole_at_seat: Millimetres(self.seat.value),
            rand: Millimetres(self.rand.value),
            base,
            top_lift: Millimetres(self.top_lift.value),
        }
    }

    fn base(&self) -> Figure {
        Recipe {
            label: "New heel base",
            unit: Unit::Millimetre,
            formula: "pitch + new sole at the ball − new sole at the seat − rand − new top lift",
            source: LEVEL,
        }
        .of(
            [self.pitch, self.ball, self.seat, self.rand, self.top_lift],
            |[pitch, ball, seat, rand, top]| pitch + ball - seat - rand - top,
        )
    }

    fn stand_on(&self, base: Millimetres, case: Case, length: Input) -> Stance {
        let base_input = Input::chosen("heel base", base.0, Unit::Millimetre);
        let pitch = Recipe {
            label: "Pitch",
            unit: Unit::Millimetre,
            formula: "sole at the seat + rand + heel base + top lift − sole at the ball",
            source: LEVEL,
        }
        .of(
            [self.seat, self.rand, base_input, self.top_lift, self.ball],
            |[seat, rand, base, top, ball]| seat + rand + base + top - ball,
        );
        Stance::work_out(case, self.on_base(base), pitch, self.pitch, length)
    }
}

/// Lifts for a base, and the lift that they were counted in.
struct Lifts {
    count: Figure,
    trim: Figure,
    lift: Millimetres,
}

impl Lifts {
    fn of(measured: &Measured, base: &Figure) -> Self {
        let lift = measured.given(Field::Lift);
        let sanding = measured.given(Field::Sanding);
        let exact_base = base.input().known_within(0.0);
        let count = Recipe {
            label: "Lifts",
            unit: Unit::Count,
            formula: "(heel base + allowance for sanding) ÷ one lift, rounded up",
            source: Source::Definition("a division; the allowance is common practice"),
        }
        .of([exact_base, sanding, lift], |lengths| {
            let [base, sanding, lift] = lengths.map(Millimetres);
            LiftPlan::of(base, lift, sanding).lifts
        });
        let trim = Recipe {
            label: "Off the lifts in fitting and sanding",
            unit: Unit::Millimetre,
            formula: "lifts × one lift − heel base",
            source: Source::Definition("what stands proud"),
        }
        .of(
            [count.input(), lift, base.input()],
            |[count, lift, base]| count * lift - base.max(0.0),
        );
        Self {
            count,
            trim,
            lift: Millimetres(lift.value),
        }
    }

    /// The base on one lift fewer, if nearly a whole lift would be sanded away.
    fn one_fewer(&self) -> Option<Millimetres> {
        let count = self.count.value;
        let is_wasted = count > 1.0 && self.trim.value > 0.8 * self.lift.0;
        is_wasted.then(|| self.lift * (count - 1.0))
    }
}

impl HeelFigures {
    fn of(measured: &Measured, length: Input, new: &NewParts, old: Option<&OldParts>) -> Self {
        let base = new.base();
        let height = Millimetres(base.value.max(0.0));
        let lifts = Lifts::of(measured, &base);
        let mut stances = Vec::new();
        if let Some(OldParts { parts, pitch }) = old {
            let came = pitch.clone();
            let stance = Stance::work_out(Case::AsItCame, *parts, came, new.pitch, length);
            stances.push(stance);
            stances.push(new.stand_on(parts.base, Case::OldBaseKept, length));
        }
        stances.push(new.stand_on(height, Case::AsBuilt, length));
        if let Some(fewer) = lifts.one_fewer() {
            stances.push(new.stand_on(fewer, Case::OneLiftFewer, length));
        }
        let old_parts = old.map(|old| old.parts);
        let built = new.on_base(height);
        let shape = HeelShape::work_out(measured, length, new.pitch, built, old_parts);
        let mut misfits = misfits_of_base(Millimetres(base.value), &lifts, &shape);
        misfits.extend(stances.iter().filter_map(|stance| off(stance, measured)));
        misfits.extend(uneven(measured));
        Self {
            pitch: new.pitch,
            against_old: old.map(|old| old.against(&base)),
            base,
            lifts: lifts.count,
            trim: lifts.trim,
            shape,
            stances,
            misfits,
        }
    }

    /// The stance in a case, if it was worked out.
    pub fn stance(&self, case: Case) -> Option<&Stance> {
        self.stances.iter().find(|stance| stance.case == case)
    }
}

fn misfits_of_base(base: Millimetres, lifts: &Lifts, shape: &HeelShape) -> Vec<Misfit> {
    let lift = lifts.lift;
    let mut misfits = Vec::new();
    if base.0 < 0.0 {
        misfits.push(Misfit::NoRoom { over: -base });
    } else if base.0 > 0.0 && base < lift {
        misfits.push(Misfit::ThinBase { base, lift });
    }
    if base.0 > 0.0 && shape.base_at_breast.value < 0.0 {
        misfits.push(Misfit::RunsOut);
    }
    if lifts.one_fewer().is_some() {
        let trim = Millimetres(lifts.trim.value);
        misfits.push(Misfit::LiftSandedAway { trim, lift });
    }
    misfits
}

#[cfg(test)]
mod tests;

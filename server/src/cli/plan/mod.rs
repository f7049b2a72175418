//! `lastword plan`: plans a shop's open pairs from a file: days and their chances, promises at risk
//! and why, what waits for an answer and until when, and what a change would move.

mod file;
mod table;

use std::fs;
use std::path::Path;

use anyhow::{Context as _, Result};
use serde::Serialize;
use shared_types::minutes::Minutes;
use shared_types::moment::{Moment, Zone};
use shared_types::promise::board::Board;
use shared_types::promise::chance::{Chance, Draws, Odds};
use shared_types::promise::labour::Labour;
use shared_types::promise::order::Figures;
use shared_types::promise::outlook::{AtRisk, Forecast, at_risk, outlook};
use shared_types::promise::plan::{Plan, PlannedPair};
use shared_types::promise::turn::{Turn, Waited};
use shared_types::promise::what_if::{Moved, what_if};
use shared_types::promise::workshop::{Step, Tag, Workshop};
use time::Date;

use file::{Choice, Offer, PlanFile, Question};

/// Open days of waiting that an offer's table tells of.
const OPEN_DAYS: usize = 5;

/// Reads a shop from a JSON file; gives its plan as tables, or as JSON.
pub fn run(file: &Path, json: bool) -> Result<String> {
    let name = file.display();
    let text = fs::read_to_string(file).with_context(|| format!("could not read {name}"))?;
    let file: PlanFile =
        serde_json::from_str(&text).with_context(|| format!("could not understand {name}"))?;
    let answer = Answer::work_out(&file)?;
    if json {
        return Ok(serde_json::to_string_pretty(&answer)? + "\n");
    }
    let mut out = String::new();
    table::write(&mut out, &answer).context("could not write the tables")?;
    Ok(out)
}

/// All that is worked out.
#[derive(Debug, Serialize)]
#[serde(rename_all = "kebab-case")]
struct Answer {
    shop: String,
    #[serde(skip)]
    zone: Zone,
    now: Moment,
    chance: Chance,
    draws: Draws,
    figures: Figures,
    pairs: Vec<PairAnswer>,
    at_risk: Vec<AtRisk>,
    offers: Vec<OfferAnswer>,
    what_if: Vec<QuestionAnswer>,
}

/// A pair's place in the plan and its days.
#[derive(Debug, Serialize)]
#[serde(rename_all = "kebab-case")]
struct PairAnswer {
    plan: PlannedPair,
    days: Days,
    /// How sure the given promise is.
    promise: Option<Odds>,
    /// Bench minutes that are left, with the asked chance.
    bench: Minutes,
    forecast: Forecast,
}

/// The day by which a pair is ready, with each of three chances.
#[derive(Clone, Copy, Debug, Serialize)]
#[serde(rename_all = "kebab-case")]
struct Days {
    fifty: Option<Date>,
    eighty: Option<Date>,
    ninety_five: Option<Date>,
}

impl Days {
    fn of(forecast: &Forecast) -> Self {
        Self {
            fifty: forecast.by(Chance::FIFTY),
            eighty: forecast.by(Chance::EIGHTY),
            ninety_five: forecast.by(Chance::NINETY_FIVE),
        }
    }
}

/// What an offer can say.
#[derive(Debug, Serialize)]
#[serde(rename_all = "kebab-case")]
struct OfferAnswer {
    tag: Tag,
    choices: Vec<ChoiceAnswer>,
}

/// One choice of an offer, if it is taken now.
#[derive(Debug, Serialize)]
#[serde(rename_all = "kebab-case")]
struct ChoiceAnswer {
    name: String,
    bench: Minutes,
    days: Days,
    /// The promise to offer.
    ready: Option<Date>,
    /// The last moment at which an answer keeps it.
    answer_by: Option<Moment>,
    /// What waiting until further openings of the shop leads to.
    waiting: Vec<Waited>,
}

/// What a change moves.
#[derive(Debug, Serialize)]
#[serde(rename_all = "kebab-case")]
struct QuestionAnswer {
    question: String,
    moved: Vec<Moved>,
}

impl Answer {
    fn work_out(file: &PlanFile) -> Result<Self> {
        let (workshop, now) = (file.workshop()?, file.now()?);
        let (chance, draws) = (file.chance, file.draws);
        let board = Board::new(&workshop, now)?;
        let plan = Plan::new(&board);
        let forecasts = outlook(&board, draws);
        let offers = file.offers.iter();
        let offers = offers.map(|offer| OfferAnswer::work_out(&board, offer, now, chance, draws));
        let questions = file.what_if.iter();
        let ask = |question| QuestionAnswer::work_out(&workshop, question, now, chance, draws);
        Ok(Self {
            shop: file.shop.clone(),
            zone: workshop.calendar.zone.clone(),
            now,
            chance,
            draws,
            figures: Figures::of(&plan, workshop.calendar.zone.day(now)),
            at_risk: at_risk(&plan, &forecasts, chance),
            offers: offers.collect::<Result<_>>()?,
            what_if: questions.map(ask).collect::<Result<_>>()?,
            pairs: pairs(&workshop, plan, forecasts, chance),
        })
    }
}

fn pairs(
    workshop: &Workshop,
    plan: Plan,
    forecasts: Vec<Forecast>,
    chance: Chance,
) -> Vec<PairAnswer> {
    let planned = plan.pairs.into_iter().zip(forecasts);
    let planned = workshop.pairs.iter().zip(planned);
    planned
        .map(|(pair, (plan, forecast))| PairAnswer {
            days: Days::of(&forecast),
            promise: pair.promised.map(|day| forecast.odds(day)),
            bench: bench(&pair.steps, chance),
            plan,
            forecast,
        })
        .collect()
}

fn bench(steps: &[Step], chance: Chance) -> Minutes {
    let labours: Vec<Labour> = steps.iter().map(|step| step.labour).collect();
    Labour::all_within(&labours, chance)
}

impl OfferAnswer {
    /// A pair that is not among the open ones is a new one: it stands behind all.
    fn work_out(
        board: &Board,
        offer: &Offer,
        now: Moment,
        chance: Chance,
        draws: Draws,
    ) -> Result<Self> {
        let mut turn = match Turn::of(board, &offer.tag, draws) {
            Ok(turn) => turn,
            Err(_) => Turn::last(board, &offer.tag, draws),
        };
        let choices = offer.choices.iter();
        let choices = choices.map(|choice| ChoiceAnswer::work_out(&mut turn, choice, now, chance));
        Ok(Self {
            tag: offer.tag.clone(),
            choices: choices.collect::<Result<_>>()?,
        })
    }
}

impl ChoiceAnswer {
    fn work_out(turn: &mut Turn<'_>, choice: &Choice, now: Moment, chance: Chance) -> Result<Self> {
        let steps = &choice.steps;
        let forecast = turn.ready(steps, now)?;
        let ready = forecast.by(chance);
        let answer_by = match ready {
            Some(day) => turn.answer_by(steps, day, chance)?,
            None => None,
        };
        Ok(Self {
            name: choice.name.clone(),
            bench: bench(steps, chance),
            days: Days::of(&forecast),
            ready,
            answer_by,
            waiting: turn.waiting(steps, chance, OPEN_DAYS)?,
        })
    }
}

impl QuestionAnswer {
    fn work_out(
        workshop: &Workshop,
        question: &Question,
        now: Moment,
        chance: Chance,
        draws: Draws,
    ) -> Result<Self> {
        Ok(Self {
            question: question.question.clone(),
            moved: what_if(workshop, now, &question.changes, draws, chance)?,
        })
    }
}

#[cfg(test)]
mod tests;

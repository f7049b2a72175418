//! The plan as tables for a terminal.

use std::fmt::{Result, Write};

use shared_types::moment::{clock_words, day_words};
use shared_types::promise::plan::PlannedStep;
use shared_types::promise::what_if::Moved;
use time::Date;

use super::{Answer, ChoiceAnswer, OfferAnswer, QuestionAnswer};

/// How many parts of a pair's time are told.
const REASONS: usize = 3;

pub(super) fn write(out: &mut String, answer: &Answer) -> Result {
    let now = answer.zone.words_with_year(answer.now);
    let draws = answer.draws.count;
    writeln!(
        out,
        "{}\n{now}; {draws} draws, seed {}",
        answer.shop, answer.draws.seed
    )?;
    pairs(out, answer)?;
    bench(out, answer)?;
    risks(out, answer)?;
    for offer in &answer.offers {
        write_offer(out, answer, offer)?;
    }
    for question in &answer.what_if {
        write_question(out, answer, question)?;
    }
    let figures = answer.figures;
    writeln!(
        out,
        "\nOn average {} planned pairs in the shop, each for {} days more.",
        hundredths(figures.mean_pairs_hundredths()),
        hundredths(figures.mean_days_hundredths()),
    )
}

fn hundredths(number: u32) -> String {
    format!("{}.{}", number / 100, number % 100 / 10)
}

fn day(day: Option<Date>) -> String {
    day.map_or_else(|| "–".to_owned(), day_words)
}

fn pairs(out: &mut String, answer: &Answer) -> Result {
    let width = answer
        .pairs
        .iter()
        .map(|pair| pair.plan.tag.0.chars().count());
    let width = width.max().unwrap_or(0).max(4);
    writeln!(
        out,
        "\n{:width$}  {:<12} {:<11} {:<11} {:<11} {:<11} kept",
        "pair", "bench", "50 %", "80 %", "95 %", "promised"
    )?;
    for pair in &answer.pairs {
        let odds = pair.promise.map(|odds| odds.to_string());
        let line = format!(
            "{:width$}  {:<12} {:<11} {:<11} {:<11} {:<11} {}",
            pair.plan.tag.0,
            pair.bench.to_string(),
            day(pair.days.fifty),
            day(pair.days.eighty),
            day(pair.days.ninety_five),
            day(pair.plan.promised),
            odds.unwrap_or_default(),
        );
        writeln!(out, "{}", line.trim_end())?;
    }
    writeln!(out, "bench: what is left, with {} chance", answer.chance)
}

/// What is begun on the first open day, hand by hand.
fn bench(out: &mut String, answer: &Answer) -> Result {
    let steps = answer.pairs.iter().flat_map(|pair| {
        let tag = &pair.plan.tag;
        pair.plan.steps.iter().map(move |step| (tag, step))
    });
    let by_hand = |(_, step): &(_, &PlannedStep)| step.hand.is_some();
    let mut steps: Vec<_> = steps.filter(by_hand).collect();
    steps.sort_by_key(|(_, step)| (step.hand.clone(), step.starts));
    let first = steps.iter().map(|(_, step)| step.starts).min();
    let Some(today) = first.map(|first| answer.zone.day(first)) else {
        return Ok(());
    };
    writeln!(
        out,
        "\nAt the bench on {}, at the usual minutes",
        day_words(today)
    )?;
    let mut hand = None;
    for (tag, step) in steps {
        if answer.zone.day(step.starts) != today {
            continue;
        }
        if hand != step.hand.as_ref() {
            hand = step.hand.as_ref();
            writeln!(out, "  {}", step.hand.as_deref().unwrap_or_default())?;
        }
        let begins = clock_words(answer.zone.local(step.starts).time());
        let station = step.station.as_ref().map(|name| format!(" ({name})"));
        let station = station.unwrap_or_default();
        writeln!(out, "    {begins}  {tag}: {}{station}", step.name)?;
    }
    Ok(())
}

fn risks(out: &mut String, answer: &Answer) -> Result {
    writeln!(
        out,
        "\nPromises kept with less than {} chance",
        answer.chance
    )?;
    if answer.at_risk.is_empty() {
        return writeln!(out, "  none");
    }
    for risk in &answer.at_risk {
        writeln!(
            out,
            "  {}: {} is kept with {} chance; with {} it is ready by {}",
            risk.tag,
            day_words(risk.promised),
            risk.odds,
            answer.chance,
            day(risk.instead),
        )?;
        for reason in risk.reasons.iter().take(REASONS) {
            writeln!(out, "    - {reason}")?;
        }
    }
    Ok(())
}

fn write_offer(out: &mut String, answer: &Answer, offer: &OfferAnswer) -> Result {
    writeln!(out, "\nOffer for {}", offer.tag)?;
    for choice in &offer.choices {
        write_choice(out, answer, choice)?;
    }
    Ok(())
}

fn write_choice(out: &mut String, answer: &Answer, choice: &ChoiceAnswer) -> Result {
    let (name, ready) = (&choice.name, day(choice.ready));
    writeln!(
        out,
        "  {name}: ready {ready} ({} at the bench)",
        choice.bench
    )?;
    if let Some(by) = choice.answer_by {
        writeln!(
            out,
            "    answer by {} and it stays so",
            answer.zone.words(by)
        )?;
    }
    // An opening that changes nothing needs no line.
    let mut before = choice.ready;
    for waited in &choice.waiting {
        if waited.ready != before {
            before = waited.ready;
            let opening = answer.zone.words(waited.answered);
            writeln!(out, "    answer at {opening}: {}", day(waited.ready))?;
        }
    }
    Ok(())
}

fn write_question(out: &mut String, answer: &Answer, question: &QuestionAnswer) -> Result {
    writeln!(out, "\nWhat if: {}", question.question)?;
    if question.moved.is_empty() {
        return writeln!(out, "  nothing moves");
    }
    for moved in &question.moved {
        writeln!(out, "  {}", words(answer, moved))?;
    }
    writeln!(out, "  Nothing is promised by asking.")
}

fn words(answer: &Answer, moved: &Moved) -> String {
    let (before, after) = (day(moved.before), day(moved.after));
    let days = if moved.before == moved.after {
        format!("{}: stays {after}", moved.tag)
    } else {
        format!("{}: {before} → {after}", moved.tag)
    };
    let Some(promised) = moved.promised else {
        return days;
    };
    let odds = |odds: Option<shared_types::promise::chance::Odds>| {
        odds.map_or_else(|| "–".to_owned(), |odds| odds.to_string())
    };
    let lost = if promised.is_lost(answer.chance) {
        "; no longer sure"
    } else {
        ""
    };
    format!(
        "{days}; promised {}, kept {} → {}{lost}",
        day_words(promised.day),
        odds(promised.before),
        odds(promised.after)
    )
}

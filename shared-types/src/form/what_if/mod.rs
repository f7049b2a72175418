//! The form of the owner's what-if: a rush job, days closed, hands away, more hours, another order.
//!
//! Nothing that is typed here is ever stored: the form is a question, and its address a link to it.

use std::collections::BTreeSet;

use time::Date;
use time::format_description::well_known::Iso8601;

use crate::form::hands::read_away;
use crate::form::{Fields, FormErrors, Problem};
use crate::minutes::Minutes;
use crate::pricebook::BookEntry;
use crate::promise::labour::Labour;
use crate::promise::open_work::OpenWork;
use crate::promise::order::Rule;
use crate::promise::what_if::Change;
use crate::promise::workshop::{Begins, Hand, Pair, Step, Tag};

/// A field of the form.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum WhatIfField {
    /// Bench minutes of a rush job.
    RushMinutes,
    /// The station for these minutes.
    RushStation,
    /// Its services; the name comes once for each.
    RushService,
    /// The day that is wished for it.
    RushDay,
    /// Which pair it goes before.
    RushBefore,
    /// Days on which the shop stays closed.
    Closed,
    /// Who is away, counted from 0.
    AwayHand(usize),
    /// On which days.
    AwayDays(usize),
    /// Minutes a day of one more hand.
    Help,
    /// How much longer the shop stays open.
    Longer,
    /// The pair that goes before all others.
    First,
    /// The pair that is left out.
    Drop,
    /// The order of work.
    Order,
}

impl WhatIfField {
    /// How many can be away at most.
    pub const AWAY: usize = 3;

    /// The value of [`Self::RushBefore`] for a job before all others.
    pub const BEFORE_ALL: &'static str = "all";

    /// The field's name in the form.
    pub fn name(self) -> String {
        match self {
            Self::RushMinutes => "rush-minutes".to_owned(),
            Self::RushStation => "rush-station".to_owned(),
            Self::RushService => "rush-work".to_owned(),
            Self::RushDay => "rush-day".to_owned(),
            Self::RushBefore => "rush-before".to_owned(),
            Self::Closed => "closed".to_owned(),
            Self::AwayHand(row) => format!("away-{row}"),
            Self::AwayDays(row) => format!("away-{row}-days"),
            Self::Help => "help".to_owned(),
            Self::Longer => "longer".to_owned(),
            Self::First => "first".to_owned(),
            Self::Drop => "without".to_owned(),
            Self::Order => "order".to_owned(),
        }
    }
}

/// An order of work, as the form calls it.
pub const fn rule_code(rule: Rule) -> &'static str {
    match rule {
        Rule::EarliestPromise => "earliest-promise",
        Rule::LeastWork => "least-work",
    }
}

/// What the plan calls a job that is only tried.
pub fn rush_tag() -> Tag {
    Tag("the rush job".to_owned())
}

/// Reads the form: the changes in the order in which they are made, none if nothing is asked.
pub fn read(
    fields: &Fields,
    work: &OpenWork,
    book: &[BookEntry],
) -> Result<Vec<Change>, FormErrors<WhatIfField>> {
    let form = Form {
        fields,
        work,
        book,
        today: work.workshop.calendar.zone.day(work.now),
    };
    let mut errors = FormErrors::default();
    let mut changes = Vec::new();
    form.hours(&mut errors, &mut changes);
    form.away(&mut errors, &mut changes);
    form.order(&mut errors, &mut changes);
    if let Some(Some(pair)) = errors.take(WhatIfField::RushMinutes, form.rush_pair()) {
        let promised = errors.take(WhatIfField::RushDay, form.rush_day());
        let before = errors.take(WhatIfField::RushBefore, form.rush_before());
        let station = errors.take(WhatIfField::RushStation, form.rush_station());
        if let (Some(promised), Some(before), Some(_)) = (promised, before, station) {
            let pair = Pair { promised, ..pair };
            let tag = pair.tag.clone();
            changes.push(Change::Take { pair, before });
            changes.extend(form.is_before_all().then_some(Change::First { tag }));
        }
    }
    if errors.is_empty() {
        Ok(changes)
    } else {
        Err(errors)
    }
}

struct Form<'a> {
    fields: &'a Fields,
    work: &'a OpenWork,
    book: &'a [BookEntry],
    today: Date,
}

impl Form<'_> {
    fn typed(&self, field: WhatIfField) -> String {
        self.fields.one(&field.name()).trim().to_owned()
    }

    fn minutes(&self, field: WhatIfField) -> Result<Option<Minutes>, Problem> {
        let typed = self.typed(field);
        if typed.is_empty() {
            return Ok(None);
        }
        Minutes::parse(&typed).map(|minutes| Some(minutes).filter(|is| *is > Minutes::ZERO))
    }

    fn hours(&self, errors: &mut FormErrors<WhatIfField>, changes: &mut Vec<Change>) {
        let closed = read_away(&self.typed(WhatIfField::Closed), self.today);
        for day in errors
            .take(WhatIfField::Closed, closed)
            .into_iter()
            .flatten()
        {
            changes.push(Change::Close { day });
        }
        let longer = self.minutes(WhatIfField::Longer);
        if let Some(Some(more)) = errors.take(WhatIfField::Longer, longer) {
            changes.push(Change::Longer { more });
        }
        let help = self.minutes(WhatIfField::Help);
        if let Some(Some(minutes)) = errors.take(WhatIfField::Help, help) {
            let hand = Hand::every_day("one more hand", minutes);
            changes.push(Change::Help { hand });
        }
    }

    fn away(&self, errors: &mut FormErrors<WhatIfField>, changes: &mut Vec<Change>) {
        for row in 0..WhatIfField::AWAY {
            let (who, when) = (WhatIfField::AwayHand(row), WhatIfField::AwayDays(row));
            let days = errors.take(when, read_away(&self.typed(when), self.today));
            let days: BTreeSet<Date> = days.unwrap_or_default();
            let name = self.typed(who);
            let hands = &self.work.workshop.hands;
            match (name.is_empty(), self.typed(when).is_empty()) {
                (true, true) => {}
                (true, false) => errors.add(who, Problem::NotChosen),
                (false, true) => errors.add(when, Problem::Missing),
                (false, false) if hands.iter().all(|hand| hand.name != name) => {
                    errors.add(who, Problem::NotAtTheBench { name });
                }
                (false, false) => changes.push(Change::Away { hand: name, days }),
            }
        }
    }

    fn order(&self, errors: &mut FormErrors<WhatIfField>, changes: &mut Vec<Change>) {
        let order = self.typed(WhatIfField::Order);
        let rules = [Rule::EarliestPromise, Rule::LeastWork];
        match rules.into_iter().find(|rule| rule_code(*rule) == order) {
            Some(rule) => changes.push(Change::Arrange { rule }),
            None if order.is_empty() => {}
            None => errors.add(WhatIfField::Order, Problem::NotChosen),
        }
        let first = errors.take(WhatIfField::First, self.open_pair(WhatIfField::First));
        let first = first.flatten();
        let drop = errors.take(WhatIfField::Drop, self.open_pair(WhatIfField::Drop));
        let drop = drop.flatten();
        if first.is_some() && first == drop {
            errors.add(WhatIfField::First, Problem::LeftOut);
        }
        changes.extend(first.map(|tag| Change::First { tag }));
        changes.extend(drop.map(|tag| Change::Drop { tag }));
    }

    fn open_pair(&self, field: WhatIfField) -> Result<Option<Tag>, Problem> {
        let tag = Tag(self.typed(field));
        let mut pairs = self.work.workshop.pairs.iter();
        if tag.0.is_empty() || pairs.any(|pair| pair.tag == tag) {
            Ok(Some(tag).filter(|tag| !tag.0.is_empty()))
        } else {
            Err(Problem::NotOpen { tag: tag.0 })
        }
    }

    /// The job, without its day; none if nothing of it is filled in.
    fn rush_pair(&self) -> Result<Option<Pair>, Problem> {
        let minutes = self.minutes(WhatIfField::RushMinutes)?;
        let services = self.rush_services();
        let others = [WhatIfField::RushStation, WhatIfField::RushDay];
        let is_asked = others.iter().any(|field| !self.typed(*field).is_empty());
        if minutes.is_none() && services.is_empty() {
            return if is_asked {
                Err(Problem::NoJob)
            } else {
                Ok(None)
            };
        }
        let besides = minutes.map(|minutes| {
            let step = Step::new("work", Labour::usual(minutes));
            match self.rush_station() {
                Ok(Some(station)) => step.at(&station),
                Ok(None) | Err(_) => step,
            }
        });
        Ok(Some(Pair {
            tag: rush_tag(),
            promised: None,
            begins: Begins::Now,
            waits_for: Vec::new(),
            steps: self.work.practice.steps_of_services(&services, besides),
        }))
    }

    fn rush_services(&self) -> Vec<&BookEntry> {
        let asked: BTreeSet<&str> = self.fields.all(&WhatIfField::RushService.name()).collect();
        let is_asked = |service: &&BookEntry| asked.contains(service.id.to_string().as_str());
        self.book.iter().filter(is_asked).collect()
    }

    fn rush_station(&self) -> Result<Option<String>, Problem> {
        let name = self.typed(WhatIfField::RushStation);
        if name.is_empty() {
            Ok(None)
        } else if self.work.workshop.stations.contains(&name) {
            Ok(Some(name))
        } else {
            Err(Problem::NotInTheShop { name })
        }
    }

    fn rush_day(&self) -> Result<Option<Date>, Problem> {
        let typed = self.typed(WhatIfField::RushDay);
        if typed.is_empty() {
            return Ok(None);
        }
        let day = Date::parse(&typed, &Iso8601::DATE).map_err(|_| Problem::NotADay)?;
        if day < self.today {
            return Err(Problem::DayIsPast { day });
        }
        Ok(Some(day))
    }

    /// The pair that it goes before, if one is named.
    fn rush_before(&self) -> Result<Option<Tag>, Problem> {
        if self.is_before_all() {
            return Ok(None);
        }
        match self.open_pair(WhatIfField::RushBefore)? {
            Some(tag) if tag.0 == self.typed(WhatIfField::Drop) => Err(Problem::LeftOut),
            before => Ok(before),
        }
    }

    fn is_before_all(&self) -> bool {
        self.typed(WhatIfField::RushBefore) == WhatIfField::BEFORE_ALL
    }
}

#[cfg(test)]
mod tests;

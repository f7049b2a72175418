//! Up to three choices for a pair: the cheapest sound scope, the best one, and the pair as it is.
//!
//! A scope is *sound* when it is closed under what its lines require, nothing in it excludes or
//! makes pointless anything else in it, nothing unfit is in it, and every agreed line is kept or
//! is served by another. Agreed lines give way only where they can't stay.
//!
//! - The cheapest sound scope leaves damage that no line relies on as it is.
//! - The best one also mends whatever was discovered, as far as it can be mended, with the best of
//!   the alternatives (the sum of their ranks in the rules), then at the lowest cost.
//! - Neither has a line that could be left out. Of several that cost the same, the one with fewer
//!   lines is proposed, then the one with earlier services: the same input, the same answer.

use std::collections::{BTreeMap, BTreeSet};

use crate::id::ServiceId;
use crate::scope::rules::bits::Bits;
use crate::scope::rules::condition::Condition;
use crate::scope::rules::explain::{Why, explain};
use crate::scope::rules::search::{Aim, Goal, Quest, Strength};
use crate::scope::rules::ties::{InForce, Ties, core, in_force};
use crate::scope::rules::{AsFound, Efforts, RuleId, RuleSet, TooTangled};

/// What a choice aims at.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Remedy {
    /// What has to be, at the lowest cost.
    Cheapest,
    /// All that was discovered, with the best of the alternatives.
    Best,
    /// Nothing but putting the pair back together.
    AsItIs,
}

/// One choice.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Proposal {
    /// What it aims at.
    pub remedy: Remedy,
    /// Its services, sorted.
    pub lines: Vec<ServiceId>,
    /// Why each of them is there.
    pub why: BTreeMap<ServiceId, Vec<Why>>,
    /// Agreed services that are not in it.
    pub dropped: Vec<ServiceId>,
    /// What was discovered and stays as it is.
    pub unmended: Vec<Condition>,
}

/// The choices for one pair.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Proposals {
    /// The cheapest sound scope, if there is a sound one.
    pub cheapest: Option<Proposal>,
    /// The best one, if it differs from the cheapest.
    pub best: Option<Proposal>,
    /// The pair as it is, if it can be put back together.
    pub as_it_is: Option<Proposal>,
    /// If there is no sound scope: a smallest set of rules that together leave none.
    pub in_the_way: Vec<RuleId>,
}

/// Proposes choices for a pair, from its agreed services.
///
/// `efforts` says what each service of the price book takes; others are never added. Services that
/// were agreed and have left the price book since stay possible, at no cost.
pub fn propose(
    rules: &RuleSet,
    found: &AsFound,
    agreed: &BTreeSet<ServiceId>,
    efforts: &Efforts,
) -> Result<Proposals, TooTangled> {
    let context = Context {
        rules,
        found,
        agreed,
        efforts,
    };
    let in_force = in_force(rules, found);
    let broken = found.broken();
    let ties = Ties::bind(&in_force, &broken, &context.concerned())?;
    let wishes = wished_goals(&ties, agreed);
    let cheapest = context
        .quest(&ties, agreed, wishes.clone(), Aim::Cheapest)
        .solve()?;
    let mut goals = mending_goals(&ties, &broken);
    goals.extend(wishes);
    let best = context.quest(&ties, agreed, goals, Aim::Best).solve()?;
    let home = context.way_home();
    let goals = wished_goals(&ties, &home);
    let as_it_is = context.quest(&ties, &home, goals, Aim::Cheapest).solve()?;
    let proposal = |remedy, lines: Bits| context.proposal(remedy, ties.services(lines), &ties);
    Ok(Proposals {
        cheapest: cheapest.map(|lines| proposal(Remedy::Cheapest, lines)),
        best: best
            .filter(|lines| cheapest != Some(*lines))
            .map(|lines| proposal(Remedy::Best, lines)),
        as_it_is: as_it_is.map(|lines| proposal(Remedy::AsItIs, lines)),
        in_the_way: match cheapest {
            Some(_) => Vec::new(),
            None => context.in_the_way(in_force, &broken)?,
        },
    })
}

/// Each broken condition should hold again, where something could mend it.
fn mending_goals(ties: &Ties<'_>, broken: &BTreeSet<Condition>) -> Vec<Goal> {
    let goals = broken.iter().map(|condition| Goal {
        any: ties.mending(*condition),
        strength: Strength::Should,
    });
    goals.filter(|goal| !goal.any.is_empty()).collect()
}

/// Each of these should be kept, or something serve in its place.
fn wished_goals(ties: &Ties<'_>, wanted: &BTreeSet<ServiceId>) -> Vec<Goal> {
    let goal = |position: usize| Goal {
        any: Bits::one(position) | ties.spared_by[position],
        strength: Strength::Must,
    };
    ties.bits(wanted).positions().map(goal).collect()
}

struct Context<'a> {
    rules: &'a RuleSet,
    found: &'a AsFound,
    agreed: &'a BTreeSet<ServiceId>,
    efforts: &'a Efforts,
}

impl Context<'_> {
    /// The services that a pair needs to go home as it is: none, if it was never opened.
    fn way_home(&self) -> BTreeSet<ServiceId> {
        let opened = |back: &super::PutBack| self.agreed.contains(&back.opened_by);
        let back = self.rules.put_back.filter(opened);
        back.into_iter()
            .flat_map(|back| [back.opened_by, back.closed_by])
            .collect()
    }

    fn concerned(&self) -> BTreeSet<ServiceId> {
        self.agreed | &self.way_home()
    }

    /// Looks for these goals; goals that may be given up come first, there are few conditions.
    fn quest<'t>(
        &self,
        ties: &'t Ties<'t>,
        wanted: &BTreeSet<ServiceId>,
        goals: Vec<Goal>,
        aim: Aim,
    ) -> Quest<'t> {
        let cost = |service: &ServiceId| {
            let price = self.efforts.get(service).map(|effort| effort.price.minor());
            price
                .and_then(|minor| u64::try_from(minor).ok())
                .unwrap_or(0)
        };
        let offered = |service: &&ServiceId| {
            self.efforts.contains_key(service) || self.agreed.contains(service)
        };
        let all: Bits = (0..ties.services.len()).collect();
        Quest {
            ties,
            goals,
            wishes: ties.bits(wanted),
            barred: (all - ties.bits(ties.services.iter().filter(offered))) | ties.all_unfit(),
            costs: ties.services.iter().map(cost).collect(),
            aim,
        }
    }

    fn proposal(&self, remedy: Remedy, lines: Vec<ServiceId>, ties: &Ties<'_>) -> Proposal {
        let set: BTreeSet<ServiceId> = lines.iter().copied().collect();
        let done = ties.bits(&set);
        let why = |line: &ServiceId| {
            let why = explain(*line, &set, self.agreed, self.rules, self.found);
            (*line, why.unwrap_or_default())
        };
        let unmended = self.found.broken().into_iter();
        Proposal {
            remedy,
            why: lines.iter().map(why).collect(),
            lines,
            dropped: self.agreed.difference(&set).copied().collect(),
            unmended: unmended
                .filter(|condition| !ties.mending(*condition).meets(done))
                .collect(),
        }
    }

    /// Leaves out rule after rule as long as there is still no sound scope.
    fn in_the_way(
        &self,
        rules: Vec<InForce<'_>>,
        broken: &BTreeSet<Condition>,
    ) -> Result<Vec<RuleId>, TooTangled> {
        core(rules, |rules| {
            let ties = Ties::bind(rules, broken, &self.concerned())?;
            let goals = wished_goals(&ties, self.agreed);
            let quest = self.quest(&ties, self.agreed, goals, Aim::Possible);
            Ok(quest.solve()?.is_some())
        })
    }
}

//! The exact search for the best set of lines that is closed under the rules.
//!
//! Branch and bound. A set starts empty and only grows: while a goal or a requirement is unmet, the
//! one with the fewest open alternatives is taken and each alternative tried in turn, barred for
//! the alternatives after it, so that no set is met twice. All that is weighed only gets worse as
//! a set grows, so a set that is closed is the best in its branch, and a branch that is already
//! worse than the best set so far is left. The answer does not depend on the order of the rules:
//! of two sets that weigh the same, that with the earlier services wins.

use crate::scope::rules::TooTangled;
use crate::scope::rules::bits::Bits;
use crate::scope::rules::ties::Ties;

/// One of `any` must be done.
#[derive(Clone, Copy)]
pub(super) struct Goal {
    pub(super) any: Bits,
    pub(super) strength: Strength,
}

/// Whether a goal can be given up.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Strength {
    /// No set without it.
    Must,
    /// As many of these as can be.
    Should,
}

/// What makes one closed set better than another.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Aim {
    /// The lowest cost.
    Cheapest,
    /// The best alternatives, then the lowest cost.
    Best,
    /// Any set will do.
    Possible,
}

/// What is looked for.
pub(super) struct Quest<'a> {
    pub(super) ties: &'a Ties<'a>,
    pub(super) goals: Vec<Goal>,
    /// Lines to be kept themselves, if that can be.
    pub(super) wishes: Bits,
    /// What may not be done.
    pub(super) barred: Bits,
    /// By position.
    pub(super) costs: Vec<u64>,
    pub(super) aim: Aim,
}

/// What a set weighs, in falling order of importance.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
struct Weight {
    /// Wishes that something else stands in for.
    replaced: u32,
    /// Goals given up.
    given_up: u32,
    demerit: u32,
    cost: u64,
    lines: u32,
    chosen: Bits,
}

/// How far a set has grown.
#[derive(Clone, Copy)]
struct Branch {
    chosen: Bits,
    barred: Bits,
    /// Positions of goals.
    given_up: Bits,
    demerit: u32,
    cost: u64,
}

/// What is unmet and has the fewest ways to be met.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
struct Unmet {
    ways: u32,
    open: Bits,
    /// The position of a goal that can be given up.
    goal: Option<usize>,
}

/// The least that is still to come: of what is unmet, those without a common alternative each take
/// a line of their own.
#[derive(Clone, Copy, Default)]
struct Still {
    counted: Bits,
    cost: u64,
    lines: u32,
}

impl Still {
    fn add(&mut self, open: Bits, costs: &[u64]) {
        if open.meets(self.counted) {
            return;
        }
        self.counted |= open;
        let least = open.positions().filter_map(|at| costs.get(at)).min();
        self.cost = self.cost.saturating_add(least.copied().unwrap_or(0));
        self.lines += 1;
    }
}

struct Search<'a> {
    quest: &'a Quest<'a>,
    best: Option<Weight>,
    steps: u32,
}

impl Quest<'_> {
    /// The most branches that are tried. A scope under the shipped rules takes tens.
    pub(super) const MOST_STEPS: u32 = 200_000;

    /// The best closed set that meets the goals, if there is one.
    pub(super) fn solve(&self) -> Result<Option<Bits>, TooTangled> {
        let mut search = Search {
            quest: self,
            best: None,
            steps: 0,
        };
        // What would make itself pointless can't be done.
        let itself = self.ties.forbids.iter().enumerate();
        let absurd: Bits = itself
            .filter(|(position, forbids)| forbids.has(*position))
            .map(|(position, _)| position)
            .collect();
        search.descend(Branch {
            chosen: Bits::NONE,
            barred: self.barred | absurd,
            given_up: Bits::NONE,
            demerit: 0,
            cost: 0,
        })?;
        Ok(search.best.map(|weight| weight.chosen))
    }
}

impl Search<'_> {
    fn descend(&mut self, mut branch: Branch) -> Result<(), TooTangled> {
        self.steps += 1;
        if self.steps > Quest::MOST_STEPS {
            return Err(TooTangled::TooManyWays);
        }
        if self.quest.aim == Aim::Possible && self.best.is_some() {
            return Ok(());
        }
        let Some((unmet, still)) = self.narrowest(&mut branch) else {
            return Ok(());
        };
        let bound = self.weigh(branch, still);
        if self.best.is_some_and(|best| bound > best) {
            return Ok(());
        }
        let Some(unmet) = unmet else {
            self.best = Some(bound);
            return Ok(());
        };
        for position in self.in_order(unmet.open) {
            self.descend(self.with(branch, position))?;
            branch.barred |= Bits::one(position);
        }
        if let Some(goal) = unmet.goal {
            branch.given_up |= Bits::one(goal);
            self.descend(branch)?;
        }
        Ok(())
    }

    /// What to meet next and the least that is still to come; nothing if the branch is dead. Goals
    /// that can't be met any more are given up on the way, if they may be.
    fn narrowest(&self, branch: &mut Branch) -> Option<(Option<Unmet>, Still)> {
        let mut narrowest: Option<Unmet> = None;
        let mut still = Still::default();
        let mut consider = |open: Bits, goal: Option<usize>, costs: &[u64]| {
            let unmet = Unmet {
                ways: open.count(),
                open,
                goal,
            };
            if goal.is_none() {
                still.add(open, costs);
            }
            let firmness = |one: &Unmet| (one.goal.is_some(), *one);
            if narrowest.is_none_or(|other| firmness(&unmet) < firmness(&other)) {
                narrowest = Some(unmet);
            }
        };
        for (position, goal) in self.quest.goals.iter().enumerate() {
            let open = goal.any - branch.barred;
            if goal.any.meets(branch.chosen) || branch.given_up.has(position) {
                continue;
            }
            match (goal.strength, open.is_empty()) {
                (Strength::Must, true) => return None,
                (Strength::Should, true) => branch.given_up |= Bits::one(position),
                (Strength::Must, false) => consider(open, None, &self.quest.costs),
                (Strength::Should, false) => consider(open, Some(position), &self.quest.costs),
            }
        }
        for tie in &self.quest.ties.needs {
            if tie.these.meets(branch.chosen) && !tie.any_of.meets(branch.chosen) {
                let open = tie.any_of - branch.barred;
                if open.is_empty() {
                    return None;
                }
                consider(open, None, &self.quest.costs);
            }
        }
        Some((narrowest, still))
    }

    /// What this branch weighs at the very least.
    fn weigh(&self, branch: Branch, still: Still) -> Weight {
        let cost = branch.cost.saturating_add(still.cost);
        let (demerit, cost) = match self.quest.aim {
            Aim::Cheapest => (0, cost),
            Aim::Best => (branch.demerit, cost),
            Aim::Possible => (0, 0),
        };
        Weight {
            replaced: (self.quest.wishes & branch.barred).count(),
            given_up: branch.given_up.count(),
            demerit,
            cost,
            lines: branch.chosen.count() + still.lines,
            chosen: branch.chosen,
        }
    }

    /// The alternatives, the most promising first.
    fn in_order(&self, open: Bits) -> Vec<usize> {
        let mut positions: Vec<usize> = open.positions().collect();
        positions.sort_by_key(|position| {
            let demerit = match self.quest.aim {
                Aim::Best => self.quest.ties.demerits[*position],
                Aim::Cheapest | Aim::Possible => 0,
            };
            let wished = self.quest.wishes.has(*position);
            (!wished, demerit, self.quest.costs[*position], *position)
        });
        positions
    }

    fn with(&self, branch: Branch, position: usize) -> Branch {
        Branch {
            chosen: branch.chosen | Bits::one(position),
            barred: branch.barred | self.quest.ties.forbids[position],
            demerit: branch.demerit + self.quest.ties.demerits[position],
            cost: branch.cost.saturating_add(self.quest.costs[position]),
            ..branch
        }
    }
}

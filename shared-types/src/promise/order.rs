//! The order of the open pairs: rules that arrange them, and figures that tell what an order is
//! worth.

use serde::{Deserialize, Serialize};
use time::Date;

use crate::minutes::Minutes;
use crate::promise::plan::Plan;
use crate::promise::workshop::{Pair, Tag};

/// A rule by which pairs are arranged; pairs that are equal to it keep their places, and none
/// comes before a pair that it waits for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Rule {
    /// The earliest promise first, pairs without one last. On a single bench no order has a
    /// smaller worst delay (Jackson, 1955).
    EarliestPromise,
    /// The least work first: on a single bench no order has a shorter mean time in the shop
    /// (Smith, Naval Research Logistics Quarterly 3, 1956).
    LeastWork,
}

/// The pairs arranged by a rule.
pub fn arranged(pairs: &[Pair], rule: Rule) -> Vec<Pair> {
    let mut waiting: Vec<&Pair> = pairs.iter().collect();
    match rule {
        Rule::EarliestPromise => waiting.sort_by_key(|pair| pair.promised.unwrap_or(Date::MAX)),
        Rule::LeastWork => waiting.sort_by_key(|pair| work(pair)),
    }
    let mut arranged: Vec<Pair> = Vec::with_capacity(pairs.len());
    // What waits for a pair that is nowhere in the list is left to the board to refuse.
    let is_free = |pair: &Pair, waiting: &[&Pair]| {
        let stands_later = |tag: &Tag| waiting.iter().any(|other| other.tag == *tag);
        !pair.waits_for.iter().any(stands_later)
    };
    while !waiting.is_empty() {
        let free = waiting.iter().position(|pair| is_free(pair, &waiting));
        arranged.push(waiting.remove(free.unwrap_or(0)).clone());
    }
    arranged
}

fn work(pair: &Pair) -> Minutes {
    pair.steps.iter().map(|step| step.labour.minutes()).sum()
}

/// What an order is worth, in calendar days.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub struct Figures {
    /// Pairs that the plan finishes.
    pub pairs: u32,
    /// Days from today until each is ready, both counted, added up over all pairs.
    pub in_shop: u32,
    /// Days from today until the last pair is ready, both counted.
    pub span: u32,
    /// Days after their promise, added up over the pairs that are late.
    pub late: u32,
    /// The delay of the pair that is most behind its promise; negative if all are early.
    pub worst: Option<i32>,
}

impl Figures {
    /// The figures of a plan that begins `today`.
    pub fn of(plan: &Plan, today: Date) -> Self {
        let mut figures = Self::default();
        for pair in &plan.pairs {
            let Some(ready) = pair.ready else { continue };
            let stays = u32::try_from(days(today, ready) + 1).unwrap_or(0);
            figures.pairs += 1;
            figures.in_shop += stays;
            figures.span = figures.span.max(stays);
            let Some(promised) = pair.promised else {
                continue;
            };
            let delay = days(promised, ready);
            figures.late += u32::try_from(delay).unwrap_or(0);
            figures.worst = Some(figures.worst.map_or(delay, |worst| worst.max(delay)));
        }
        figures
    }

    /// The mean number of pairs in the shop, in hundredths: by Little's law (Operations Research
    /// 9(3), 1961) the days of all pairs, spread over the days of the plan.
    pub fn mean_pairs_hundredths(self) -> u32 {
        hundredths(self.in_shop, self.span)
    }

    /// The mean days until a pair is ready, in hundredths.
    pub fn mean_days_hundredths(self) -> u32 {
        hundredths(self.in_shop, self.pairs)
    }
}

fn hundredths(sum: u32, of: u32) -> u32 {
    (sum * 100 + of / 2).checked_div(of).unwrap_or(0)
}

fn days(from: Date, to: Date) -> i32 {
    i32::try_from((to - from).whole_days()).unwrap_or(i32::MAX)
}

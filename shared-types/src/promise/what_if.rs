//! What if: the owner tries a change, and sees which days move. Nothing is promised by it.

use std::collections::BTreeSet;

use serde::{Deserialize, Serialize};
use time::Date;

use crate::minutes::Minutes;
use crate::moment::Moment;
use crate::promise::board::Board;
use crate::promise::chance::{Chance, Draws, Odds};
use crate::promise::order::{Rule, arranged};
use crate::promise::outlook::{Forecast, outlook};
use crate::promise::workshop::{Begins, Hand, Misfit, Pair, Step, Tag, Workshop};

/// A change to be tried.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(tag = "change", rename_all = "kebab-case", deny_unknown_fields)]
pub enum Change {
    /// Take this pair in, before another one or behind all.
    Take {
        /// The pair.
        pair: Pair,
        /// The pair that it goes before; none means behind all.
        #[serde(default)]
        before: Option<Tag>,
    },
    /// The owner of a waiting pair says yes now.
    Accept {
        /// The pair.
        tag: Tag,
        /// What is then left to do.
        steps: Vec<Step>,
    },
    /// Do without a pair: send it away, or leave it.
    Drop {
        /// The pair.
        tag: Tag,
    },
    /// Keep the shop closed on a day.
    Close {
        /// The day.
        day: Date,
    },
    /// Somebody is not there.
    Away {
        /// Who.
        hand: String,
        /// On these days.
        days: BTreeSet<Date>,
    },
    /// Somebody helps at the bench.
    Help {
        /// Who, and when.
        hand: Hand,
    },
    /// Stay open longer on every open day, and everybody who is at the bench then stays too.
    Longer {
        /// So much longer.
        more: Minutes,
    },
    /// Work on a pair before all others.
    First {
        /// The pair.
        tag: Tag,
    },
    /// Work on the pairs in another order.
    Arrange {
        /// By this rule.
        rule: Rule,
    },
}

impl Change {
    /// Makes the change in a workshop.
    pub fn apply(&self, workshop: &mut Workshop) -> Result<(), Misfit> {
        match self {
            Self::Take { pair, before } => {
                let place = match before {
                    Some(tag) => place_of(workshop, tag)?,
                    None => workshop.pairs.len(),
                };
                workshop.pairs.insert(place, pair.clone());
            }
            Self::Accept { tag, steps } => {
                let place = place_of(workshop, tag)?;
                let pair = &mut workshop.pairs[place];
                pair.begins = Begins::Now;
                pair.steps.clone_from(steps);
            }
            Self::Drop { tag } => {
                let place = place_of(workshop, tag)?;
                workshop.pairs.remove(place);
                for pair in &mut workshop.pairs {
                    pair.waits_for.retain(|other| other != tag);
                }
            }
            Self::Close { day } => {
                workshop.calendar.closed.insert(*day);
            }
            Self::Away { hand, days } => {
                let found = workshop.hands.iter_mut().find(|other| other.name == *hand);
                let found = found.ok_or_else(|| Misfit::NoSuchHand { name: hand.clone() })?;
                found.away.extend(days);
            }
            Self::Help { hand } => workshop.hands.push(hand.clone()),
            Self::Longer { more } => stay_longer(workshop, *more),
            Self::First { tag } => {
                let place = place_of(workshop, tag)?;
                workshop.pairs[..=place].rotate_right(1);
            }
            Self::Arrange { rule } => workshop.pairs = arranged(&workshop.pairs, *rule),
        }
        Ok(())
    }
}

impl Change {
    /// Whether it brings hands or time and takes none away. Even so a pair may come later by it
    /// (Graham, SIAM Journal on Applied Mathematics 17(2), 1969).
    pub const fn is_help(&self) -> bool {
        match self {
            Self::Help { .. } | Self::Longer { .. } | Self::Drop { .. } => true,
            Self::Take { .. }
            | Self::Accept { .. }
            | Self::Close { .. }
            | Self::Away { .. }
            | Self::First { .. }
            | Self::Arrange { .. } => false,
        }
    }
}

fn stay_longer(workshop: &mut Workshop, more: Minutes) {
    for (weekday, hours) in workshop.calendar.week.iter_mut().enumerate() {
        let Some(before) = *hours else { continue };
        let after = before.longer(more);
        let gained = after.minutes().get() - before.minutes().get();
        *hours = Some(after);
        for hand in &mut workshop.hands {
            if let Some(minutes) = hand.week.get_mut(weekday).filter(|is| **is > Minutes::ZERO) {
                *minutes = Minutes::new(minutes.get().saturating_add(gained));
            }
        }
    }
}

fn place_of(workshop: &Workshop, tag: &Tag) -> Result<usize, Misfit> {
    let place = workshop.pairs.iter().position(|pair| pair.tag == *tag);
    place.ok_or_else(|| Misfit::NoSuchPair { tag: tag.clone() })
}

/// What a change does to one pair.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub struct Moved {
    /// The pair.
    pub tag: Tag,
    /// The day that was given, if one was.
    pub promised: Option<Promised>,
    /// The day by which it is ready with the wished chance as things stand; none for a pair that
    /// only the change brings, or if no day is in sight.
    pub before: Option<Date>,
    /// The same after the change; none if the change drops it, or if no day is in sight.
    pub after: Option<Date>,
}

/// How sure a promise is before and after a change.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub struct Promised {
    /// The day that was given.
    pub day: Date,
    /// How sure it is as things stand.
    pub before: Option<Odds>,
    /// How sure it is after the change.
    pub after: Option<Odds>,
}

impl Promised {
    /// Whether the change makes a promise unsure that was sure.
    pub fn is_lost(&self, chance: Chance) -> bool {
        is_sure(self.before, chance) && self.after.is_some() && !is_sure(self.after, chance)
    }

    /// Whether the change makes a promise sure that was not.
    pub fn is_gained(&self, chance: Chance) -> bool {
        self.before.is_some() && !is_sure(self.before, chance) && is_sure(self.after, chance)
    }
}

fn is_sure(odds: Option<Odds>, chance: Chance) -> bool {
    odds.is_some_and(|odds| !odds.fall_short_of(chance))
}

/// Tries changes, one after the other, and tells which pairs they touch.
///
/// Those are the pairs whose ready day with this chance moves, or whose promise becomes more or
/// less sure; in the order after the change, with pairs that it drops at the end. Both plans are played with the same luck, so that what differs is the change.
pub fn what_if(
    workshop: &Workshop,
    now: Moment,
    changes: &[Change],
    draws: Draws,
    chance: Chance,
) -> Result<Vec<Moved>, Misfit> {
    let mut changed = workshop.clone();
    for change in changes {
        change.apply(&mut changed)?;
    }
    let [before, after] = [workshop, &changed].map(|workshop| days(workshop, now, draws));
    let (before, after) = (before?, after?);
    let dropped = before
        .iter()
        .filter(|(pair, _)| find(&after, pair).is_none());
    let pairs = after.iter().chain(dropped).map(|(pair, _)| pair);
    let touched = pairs.filter_map(|pair| {
        let (before, after) = (find(&before, pair), find(&after, pair));
        let promised = pair.promised.map(|day| Promised {
            day,
            before: before.map(|forecast| forecast.odds(day)),
            after: after.map(|forecast| forecast.odds(day)),
        });
        let moved = Moved {
            tag: pair.tag.clone(),
            promised,
            before: before.and_then(|forecast| forecast.by(chance)),
            after: after.and_then(|forecast| forecast.by(chance)),
        };
        let stays = promised.is_none_or(|promised| promised.before == promised.after);
        let is_new = before.is_some() != after.is_some();
        (is_new || moved.before != moved.after || !stays).then_some(moved)
    });
    Ok(touched.collect())
}

fn days(workshop: &Workshop, now: Moment, draws: Draws) -> Result<Vec<(&Pair, Forecast)>, Misfit> {
    let board = Board::new(workshop, now)?;
    let forecasts = outlook(&board, draws);
    Ok(workshop.pairs.iter().zip(forecasts).collect())
}

fn find<'a>(forecasts: &'a [(&Pair, Forecast)], pair: &Pair) -> Option<&'a Forecast> {
    let found = forecasts.iter().find(|(other, _)| other.tag == pair.tag);
    found.map(|(_, forecast)| forecast)
}

//! How long a step takes at the bench: the usual minutes, and how far they may be exceeded.
//!
//! A step's minutes are log-normal: as often above the usual figure as below it, never negative,
//! and with the long tail that bench work has.

#![expect(
    clippy::float_arithmetic,
    clippy::as_conversions,
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "chance is reckoned in floats; nothing here touches money"
)]

use serde::{Deserialize, Serialize};

use crate::minutes::Minutes;
use crate::promise::chance::Chance;
use crate::promise::log_normal::{LogNormal, pert};

/// Bench minutes of one step: half of the time it takes at most `usual`, nine times in ten at most
/// `p90`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(try_from = "Written", into = "Written")]
pub struct Labour {
    usual: Minutes,
    p90: Minutes,
}

/// These minutes are not in order.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error(
    "minutes must grow from the least over the usual to the most, and a spread needs some minutes"
)]
pub struct NotInOrder;

impl Labour {
    /// Minutes that never vary.
    pub const fn sure(minutes: Minutes) -> Self {
        Self {
            usual: minutes,
            p90: minutes,
        }
    }

    /// Minutes with the spread that one job in ten takes half as long again (common practice, no
    /// source; replace it by what the shop's own log shows).
    pub fn usual(minutes: Minutes) -> Self {
        let half = minutes.get().div_ceil(2);
        Self {
            usual: minutes,
            p90: minutes.plus(Minutes::new(half)),
        }
    }

    /// The median and the 90 % quantile.
    pub fn new(usual: Minutes, p90: Minutes) -> Result<Self, NotInOrder> {
        if usual > p90 || (usual == Minutes::ZERO && p90 > usual) {
            return Err(NotInOrder);
        }
        Ok(Self { usual, p90 })
    }

    /// From a price book's least, usual and most minutes: the log-normal with the mean
    /// `(low + 4·usual + high) / 6` and the deviation `(high − low) / 6` of the PERT estimate
    /// (Malcolm, Roseboom, Clark and Fazar, Operations Research 7(5), 1959), in whole minutes.
    pub fn from_range(low: Minutes, usual: Minutes, high: Minutes) -> Result<Self, NotInOrder> {
        if low > usual || usual > high || low == Minutes::ZERO {
            return Err(NotInOrder);
        }
        let (mean, variance) = pert(float(low), float(usual), float(high));
        let fitted = LogNormal::with_moments(mean, variance);
        let [usual, p90] = [0.5, 0.9].map(|share| whole(fitted.quantile(share)));
        Self::new(usual, p90)
    }

    /// The median.
    pub fn minutes(self) -> Minutes {
        self.usual
    }

    /// The 90 % quantile.
    pub fn p90(self) -> Minutes {
        self.p90
    }

    /// The minutes within which it is done with this chance, rounded up.
    pub fn within(self, chance: Chance) -> Minutes {
        Self::all_within(&[self], chance)
    }

    /// The minutes within which all of these are done, one after the other, with this chance,
    /// rounded up.
    ///
    /// The sum is taken as log-normal (Fenton, 1960), which is off by less than 1 % for a few steps
    /// of like size.
    pub fn all_within(all: &[Self], chance: Chance) -> Minutes {
        let parts = all.iter().filter(|part| part.usual > Minutes::ZERO);
        let parts: Vec<_> = parts.map(|part| part.distribution()).collect();
        if parts.is_empty() {
            return Minutes::ZERO;
        }
        let within = LogNormal::sum(&parts).quantile(f64::from(chance.percent()) / 100.0);
        // What is whole but for the last bits stays whole.
        Minutes::new((within - 1e-6).ceil() as u32)
    }

    /// The deviation of the logarithm of the minutes.
    pub(super) fn spread(self) -> f64 {
        if self.p90 == self.usual {
            0.0
        } else {
            self.distribution().spread()
        }
    }

    fn distribution(self) -> LogNormal {
        LogNormal::with_quantiles(float(self.usual), float(self.p90))
    }
}

/// What a step of `usual` minutes takes in a draw of this luck, in whole minutes.
pub(super) fn drawn(usual: u32, spread: f64, luck: f64) -> u32 {
    (f64::from(usual) * libm::exp(spread * luck)).round() as u32
}

fn float(minutes: Minutes) -> f64 {
    f64::from(minutes.get())
}

fn whole(minutes: f64) -> Minutes {
    Minutes::new(minutes.round() as u32)
}

/// The forms in which minutes are written: a number alone has the usual spread.
#[derive(Serialize, Deserialize)]
#[serde(untagged, deny_unknown_fields)]
enum Written {
    Usual(Minutes),
    Range {
        low: Minutes,
        usual: Minutes,
        high: Minutes,
    },
    Quantiles {
        usual: Minutes,
        p90: Minutes,
    },
}

impl TryFrom<Written> for Labour {
    type Error = NotInOrder;

    fn try_from(written: Written) -> Result<Self, NotInOrder> {
        match written {
            Written::Usual(minutes) => Ok(Self::usual(minutes)),
            Written::Range { low, usual, high } => Self::from_range(low, usual, high),
            Written::Quantiles { usual, p90 } => Self::new(usual, p90),
        }
    }
}

impl From<Labour> for Written {
    fn from(labour: Labour) -> Self {
        Self::Quantiles {
            usual: labour.usual,
            p90: labour.p90,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn labour(usual: u32, p90: u32) -> Labour {
        Labour::new(Minutes::new(usual), Minutes::new(p90)).unwrap()
    }

    /// The 80 % quantile 78.3058 of the log-normal with median 60 and 90 % quantile 90.
    #[test]
    fn minutes_with_a_chance_are_rounded_up() {
        assert_eq!(labour(60, 90).within(Chance::EIGHTY), Minutes::new(79));
        assert_eq!(
            Labour::sure(Minutes::new(60)).within(Chance::EIGHTY),
            Minutes::new(60)
        );
        assert_eq!(Labour::all_within(&[], Chance::EIGHTY), Minutes::ZERO);
    }

    #[test]
    fn minutes_are_written_alone_as_a_range_or_as_quantiles() {
        let read = |text| serde_json::from_str::<Labour>(text);
        assert_eq!(read("40").unwrap(), labour(40, 60));
        assert_eq!(read(r#"{"usual": 40, "p90": 70}"#).unwrap(), labour(40, 70));
        let range = read(r#"{"low": 120, "usual": 150, "high": 210}"#).unwrap();
        assert_eq!((range.minutes().get(), range.p90().get()), (154, 175));
        for wrong in [
            r#"{"usual": 40, "p90": 30}"#,
            r#"{"low": 50, "usual": 40, "high": 60}"#,
            r#"{"usual": 0, "p90": 5}"#,
            r#"{"usual": 40}"#,
        ] {
            assert!(read(wrong).is_err(), "{wrong}");
        }
        let text = serde_json::to_string(&labour(40, 70)).unwrap();
        assert_eq!(read(&text).unwrap(), labour(40, 70));
    }
}

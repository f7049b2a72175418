//! The log-normal distribution: a variable whose logarithm is normal, never negative and with a
//! long tail to the right.

#![expect(
    clippy::float_arithmetic,
    reason = "chance is reckoned in floats; nothing here touches money"
)]

use libm::{exp, expm1, log};

use crate::promise::luck::normal_quantile;

/// The 90 % quantile of the standard normal distribution.
const Z90: f64 = 1.281_551_565_544_600_4;

/// Mean and variance of the PERT estimate.
pub(super) fn pert(low: f64, usual: f64, high: f64) -> (f64, f64) {
    (
        (low + 4.0 * usual + high) / 6.0,
        ((high - low) / 6.0).powi(2),
    )
}

/// A variable whose logarithm is normal.
#[derive(Clone, Copy, Debug)]
pub(super) struct LogNormal {
    mu: f64,
    sigma: f64,
}

impl LogNormal {
    /// From the median and the 90 % quantile.
    pub(super) fn with_quantiles(median: f64, p90: f64) -> Self {
        Self {
            mu: log(median),
            sigma: log(p90 / median) / Z90,
        }
    }

    /// The deviation of the logarithm.
    pub(super) fn spread(self) -> f64 {
        self.sigma
    }

    /// From mean and variance.
    pub(super) fn with_moments(mean: f64, variance: f64) -> Self {
        let log_variance = log(1.0 + variance / mean.powi(2));
        Self {
            mu: log(mean) - log_variance / 2.0,
            sigma: log_variance.sqrt(),
        }
    }

    /// The sum of independent parts, taken as log-normal with the right mean and variance: Fenton,
    /// "The sum of log-normal probability distributions in scatter transmission systems", IRE
    /// Transactions on Communications Systems 8, 1960.
    pub(super) fn sum(parts: &[Self]) -> Self {
        let mean = parts.iter().map(|part| part.mean()).sum();
        let variance = parts.iter().map(|part| part.variance()).sum();
        Self::with_moments(mean, variance)
    }

    fn mean(self) -> f64 {
        exp(self.mu + self.sigma.powi(2) / 2.0)
    }

    fn variance(self) -> f64 {
        self.mean().powi(2) * expm1(self.sigma.powi(2))
    }

    /// The value below which it stays with this probability.
    pub(super) fn quantile(self, share: f64) -> f64 {
        exp(self.mu + self.sigma * normal_quantile(share))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::promise::luck::{Luck, StepKey};

    fn close(found: f64, expected: f64, tolerance: f64) {
        assert!(
            (found - expected).abs() <= tolerance,
            "{found}, not {expected}"
        );
    }

    /// Median 60 and 90 % quantile 90, worked out from the definition of the log-normal
    /// distribution; P(≤ 75) = 0.759685.
    #[test]
    fn a_log_normal_step_has_its_quantiles_and_moments() {
        let step = LogNormal::with_quantiles(60.0, 90.0);
        close(step.sigma, 0.316_386, 1e-6);
        close(step.mean(), 63.0794, 1e-4);
        close(step.variance().sqrt(), 20.4675, 1e-4);
        close(step.quantile(0.80), 78.3058, 1e-4);
        close(step.quantile(0.90), 90.0, 1e-9);
        close(step.quantile(0.95), 100.9629, 1e-4);
        close(step.quantile(0.759_685), 75.0, 1e-3);
    }

    fn three() -> [LogNormal; 3] {
        [(60.0, 0.316_386), (40.0, 0.25), (25.0, 0.40)].map(|(median, sigma): (f64, f64)| {
            LogNormal {
                mu: median.ln(),
                sigma,
            }
        })
    }

    /// Fenton–Wilkinson by hand for medians 60, 40, 25 with σ 0.316386, 0.25, 0.40.
    #[test]
    fn a_sum_of_steps_is_matched_by_mean_and_variance() {
        let sum = LogNormal::sum(&three());
        close(sum.mean(), 131.431, 1e-3);
        close(sum.variance().sqrt(), 25.613, 1e-3);
        for (share, minutes) in [(0.5, 129.00), (0.8, 151.77), (0.9, 165.22), (0.95, 177.22)] {
            close(sum.quantile(share), minutes, 0.005);
        }
        let p90s: f64 = three().iter().map(|part| part.quantile(0.9)).sum();
        close(p90s, 186.85, 0.005);
    }

    /// The same sum drawn by another program (400,000 draws): 128.78, 151.53, 165.05, 177.46.
    #[test]
    fn drawn_sums_agree_with_an_independent_simulation() {
        let steps = ["a", "b", "c"].map(|name| StepKey::new("sum", name, 0));
        let mut sums: Vec<f64> = (0..40_000)
            .map(|draw| {
                let luck = Luck::of(2026, draw);
                let parts = three().into_iter().zip(steps);
                parts
                    .map(|(part, step)| (part.mu + part.sigma * luck.normal(step)).exp())
                    .sum()
            })
            .collect();
        sums.sort_by(f64::total_cmp);
        for (rank, minutes) in [
            (20_000, 128.78),
            (32_000, 151.53),
            (36_000, 165.05),
            (38_000, 177.46),
        ] {
            close(sums[rank], minutes, 1.0);
        }
    }

    /// A textbook path of four steps: mean 24, variance 5, and P(≤ 28) = 0.9632 (its table has
    /// 0.9633).
    #[test]
    fn a_path_of_three_point_estimates_has_its_textbook_chance() {
        let path = [
            (5.0, 8.0, 17.0),
            (3.0, 5.0, 7.0),
            (4.0, 6.0, 8.0),
            (3.0, 4.0, 5.0),
        ];
        let steps = path.map(|(low, usual, high)| pert(low, usual, high));
        for ((mean, _), expected) in steps.into_iter().zip([9.0, 5.0, 6.0, 4.0]) {
            close(mean, expected, 1e-12);
        }
        let mean: f64 = steps.iter().map(|(mean, _)| mean).sum();
        let variance: f64 = steps.iter().map(|(_, variance)| variance).sum();
        close(mean, 24.0, 1e-12);
        close(variance, 5.0, 1e-12);
        close(
            mean + variance.sqrt() * normal_quantile(0.963_18),
            28.0,
            1e-3,
        );
    }
}

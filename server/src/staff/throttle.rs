//! Slows guessing down: after five wrong passwords for a name, each further try waits longer.

use std::collections::HashMap;

use shared_types::moment::Moment;
use time::Duration;

/// Wrong tries by name.
#[derive(Debug, Default)]
pub(crate) struct Throttle(HashMap<String, (u32, Moment)>);

impl Throttle {
    const FREE: u32 = 5;
    const LONGEST: Duration = Duration::minutes(15);
    /// More names than any shop has: beyond it somebody is trying names, and old ones are dropped.
    const NAMES: usize = 10_000;

    /// Whether this name may be tried now.
    pub(crate) fn admits(&self, name: &str, now: Moment) -> bool {
        match self.0.get(&name.to_lowercase()) {
            Some((wrong, last)) if *wrong >= Self::FREE => {
                let doubled = Duration::seconds(1 << (wrong - Self::FREE).min(10));
                now.since(*last) >= doubled.min(Self::LONGEST)
            }
            _ => true,
        }
    }

    /// Counts a wrong try.
    pub(crate) fn wrong(&mut self, name: &str, now: Moment) {
        if self.0.len() >= Self::NAMES {
            self.0
                .retain(|_, (_, last)| now.since(*last) < Self::LONGEST);
        }
        let entry = self.0.entry(name.to_lowercase()).or_insert((0, now));
        *entry = (entry.0.saturating_add(1), now);
    }

    /// Forgets the name after a right try.
    pub(crate) fn right(&mut self, name: &str) {
        self.0.remove(&name.to_lowercase());
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn guessing_gets_slower_and_a_right_try_ends_it() {
        let mut throttle = Throttle::default();
        let mut now = Moment::from_micros(0);
        for _ in 0..5 {
            assert!(throttle.admits("Ines", now));
            throttle.wrong("ines", now);
        }
        assert!(!throttle.admits("INES", now));
        now = now.plus(Duration::seconds(1));
        assert!(throttle.admits("ines", now));
        for _ in 0..20 {
            throttle.wrong("ines", now);
        }
        assert!(!throttle.admits("ines", now.plus(Duration::minutes(14))));
        assert!(throttle.admits("ines", now.plus(Duration::minutes(15))));
        throttle.right("ines");
        assert!(throttle.admits("ines", now));
    }
}

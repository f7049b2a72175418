//! Time and randomness: the only place that reads either. Tests hand in a clock of their own.

use std::sync::Arc;
use std::sync::atomic::{AtomicI64, Ordering};

use shared_types::moment::Moment;
use time::{Duration, OffsetDateTime};

/// Where the time comes from.
#[derive(Clone, Debug)]
pub enum Clock {
    /// The machine's clock.
    System,
    /// A clock that somebody else turns.
    Turned(TurnedClock),
}

/// A clock that stands still until it is turned.
#[derive(Clone, Debug)]
pub struct TurnedClock(Arc<AtomicI64>);

impl TurnedClock {
    /// A clock that shows this moment.
    pub fn at(moment: Moment) -> Self {
        Self(Arc::new(AtomicI64::new(moment.as_micros())))
    }

    /// Turns it forward.
    pub fn advance(&self, by: Duration) {
        let micros = i64::try_from(by.whole_microseconds()).unwrap_or(0);
        self.0.fetch_add(micros, Ordering::SeqCst);
    }

    /// Sets it.
    pub fn set(&self, moment: Moment) {
        self.0.store(moment.as_micros(), Ordering::SeqCst);
    }
}

impl Clock {
    /// The present moment.
    #[expect(
        clippy::disallowed_methods,
        reason = "the one place that reads the machine's clock"
    )]
    pub fn now(&self) -> Moment {
        match self {
            Self::System => Moment::from_utc(OffsetDateTime::now_utc()),
            Self::Turned(clock) => Moment::from_micros(clock.0.load(Ordering::SeqCst)),
        }
    }
}

/// Bytes nobody can guess.
#[expect(
    clippy::disallowed_methods,
    clippy::expect_used,
    reason = "the one place that asks for randomness; without any, nothing here is safe to run"
)]
pub fn random<const N: usize>() -> [u8; N] {
    let mut bytes = [0; N];
    getrandom::fill(&mut bytes).expect("the operating system gives random bytes");
    bytes
}

/// The 16 bytes of a new id: UUID version 7 (RFC 9562 §5.7), in the order of time.
pub fn new_id(now: Moment) -> [u8; 16] {
    let millis = u64::try_from(now.as_micros() / 1000).unwrap_or(0);
    *uuid::Builder::from_unix_timestamp_millis(millis, &random())
        .as_uuid()
        .as_bytes()
}

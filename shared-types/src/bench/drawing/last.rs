//! The bottom of a last and the faces of a heel, as curves and lines from the side.

use crate::bench::outline::{BALL, HEEL_BREAST, Point};

/// The bottom of the last, with its ball at height zero.
pub(super) struct Last {
    pub(super) length: f64,
    pub(super) pitch: f64,
    /// The seat falls so much for each millimetre forward.
    pub(super) slope: f64,
    pub(super) spring: f64,
}

impl Last {
    /// Height over the ball at a share of the length, as the last should stand.
    pub(super) fn height(&self, t: f64) -> f64 {
        let seat = |t: f64| self.pitch - self.slope * self.length * (t - HEEL_BREAST / 2.0);
        if t <= HEEL_BREAST {
            seat(t)
        } else if t < BALL {
            // A cubic from the seat, in its slope, down to the ball, level.
            let span = (BALL - HEEL_BREAST) * self.length;
            let u = (t - HEEL_BREAST) / (BALL - HEEL_BREAST);
            let start = seat(HEEL_BREAST);
            start * (2.0 * u * u * u - 3.0 * u * u + 1.0)
                - self.slope * span * (u * u * u - 2.0 * u * u + u)
        } else {
            let u = (t - BALL) / (1.0 - BALL);
            self.spring * u * u
        }
    }
}

/// A face of the heel that runs from the sole to the floor.
pub(super) struct Slant {
    pub(super) top: Point,
    pub(super) height: f64,
    /// How far it stands forward at the floor.
    pub(super) set: f64,
}

impl Slant {
    /// Its place at a height over the floor.
    pub(super) fn at(&self, height: f64, floor: f64) -> Point {
        let down = if self.height > 0.0 {
            (self.height - height) / self.height
        } else {
            0.0
        };
        Point {
            x: self.top.x + self.set * down,
            y: floor - height,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const LAST: Last = Last {
        length: 285.0,
        pitch: 30.0,
        slope: 0.1,
        spring: 10.0,
    };

    #[test]
    fn the_last_stands_at_its_pitch_and_runs_smoothly() {
        assert!((LAST.height(HEEL_BREAST / 2.0) - 30.0).abs() < 1e-9);
        assert!(LAST.height(BALL).abs() < 1e-9);
        assert!((LAST.height(1.0) - 10.0).abs() < 1e-9);
        for seam in [HEEL_BREAST, BALL] {
            let [before, at, after] = [-1e-6, 0.0, 1e-6].map(|by| LAST.height(seam + by));
            assert!((before - at).abs() < 1e-3 && (after - at).abs() < 1e-3);
            let bend = (after - at) - (at - before);
            assert!(bend.abs() < 1e-7, "a corner of {bend} at {seam}");
        }
    }
}

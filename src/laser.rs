//! How good is one sight of a laser, and what do unequal sights cost?
//!
//! ```text
//!      . - ' line as it should be
//!   [L]----------.----------|      a laser that is out climbs or dips with distance:
//!        5 m     |    15 m  |      equal sights share the error and it drops out
//! ```

use crate::length::{Unit, distance, fine_with_unit};

/// A line laser or an optical level and the person reading it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LaserWorth {
    /// Stated accuracy, mm per m: a limit either way.
    pub accuracy: f64,
    /// Standard deviation of one reading, mm.
    pub reading: f64,
}

impl Default for LaserWorth {
    /// A plain cross-line laser: 0.3 mm per m, read to 1 mm.
    fn default() -> Self {
        Self {
            accuracy: 0.3,
            reading: 1.0,
        }
    }
}

impl LaserWorth {
    /// Standard deviation, mm, of one sight at `dist` mm: √(reading² + (accuracy · dist/1000 /√3)²).
    /// The stated accuracy counts as equally likely anywhere between its limits, hence √3.
    ///
    /// ```
    /// let sd = tautmark::laser::LaserWorth::default().sd(10_000.0);
    /// assert!((sd - 2.0).abs() < 1e-12);
    /// ```
    #[must_use]
    pub fn sd(self, dist: f64) -> f64 {
        self.reading.hypot(self.limit(dist) / 3f64.sqrt())
    }

    /// Most that the stated accuracy allows at `dist` mm, mm either way.
    #[must_use]
    pub fn limit(self, dist: f64) -> f64 {
        self.accuracy * dist.abs() / 1000.0
    }

    /// Most that sights of `one` and `other` mm from one set-up put into the height between their
    /// points, mm, when the laser climbs or dips alike all round: accuracy · |difference|.
    #[must_use]
    pub fn unequal_sights(self, one: f64, other: f64) -> f64 {
        self.limit(one - other)
    }

    /// Advice to stand midway, when unequal sights could cost more than the reading itself; its lengths
    /// in `unit`.
    #[must_use]
    pub fn balance_advice(self, one: f64, other: f64, unit: Unit) -> Option<String> {
        let cost = self.unequal_sights(one, other);
        (cost > self.reading).then(|| {
            format!(
                "Sights of {} and {}: a laser at its limit puts {} into the height between them. \
                 Set it up about as far from both.",
                distance(one, unit),
                distance(other, unit),
                fine_with_unit(cost, unit, 1)
            )
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn equal_sights_cost_nothing() {
        let laser = LaserWorth::default();
        assert_eq!(laser.unequal_sights(9000.0, 9000.0), 0.0);
        assert_eq!(laser.balance_advice(9000.0, 8000.0, Unit::Mm), None);
        assert!((laser.unequal_sights(3000.0, 18_000.0) - 4.5).abs() < 1e-12);
        assert!(
            laser
                .balance_advice(3000.0, 18_000.0, Unit::Mm)
                .is_some_and(|t| t.contains("4.5\u{a0}mm"))
        );
    }
}

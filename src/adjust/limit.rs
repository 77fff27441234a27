//! The limits that every judgement of readings shares.

use statrs::distribution::{ChiSquared, ContinuousCDF};
use std::sync::OnceLock;

/// Half the width of a 95 % band, in standard deviations: every ± that is shown.
pub const BAND_95: f64 = 1.96;

/// A smaller slip than this many sd/√r would not show in a reading: found in 80 % of jobs by a test
/// that accuses a sound reading in 0.1 % (Baarda 1968).
pub const FINDABLE: f64 = 4.13;

/// Least redundancy of a reading that anything checks.
pub const CHECKED: f64 = 1e-6;

/// A standardised residual beyond this is 1 in 1000 by chance (normal, two-sided).
pub const SUSPICIOUS: f64 = 3.29;

/// What one more parameter may gain in chi2 by chance, 95 %: leaving out either of two readings
/// explains the misfit as well if no more than this is between them.
pub(super) const AS_GOOD: f64 = 3.84;

/// What Σ(v/sd)² stays below in 999 of 1000 jobs with nothing misread. Without degrees of
/// freedom, as for one.
#[must_use]
pub(super) fn limit(degrees_of_freedom: i64) -> f64 {
    static KNOWN: Known = [const { OnceLock::new() }; 64];
    known(&KNOWN, degrees_of_freedom, 0.999)
}

/// What it stays below in 95 of 100 jobs.
#[must_use]
pub(super) fn usual(degrees_of_freedom: i64) -> f64 {
    static KNOWN: Known = [const { OnceLock::new() }; 64];
    known(&KNOWN, degrees_of_freedom, 0.95)
}

/// Quantiles by degrees of freedom: found by bisection, which takes longer than adjusting a small
/// site.
type Known = [OnceLock<f64>; 64];

fn known(known: &Known, degrees_of_freedom: i64, share: f64) -> f64 {
    let at = usize::try_from(degrees_of_freedom).ok();
    match at.and_then(|at| known.get(at)) {
        Some(known) => *known.get_or_init(|| quantile(degrees_of_freedom, share)),
        None => quantile(degrees_of_freedom, share),
    }
}

fn quantile(degrees_of_freedom: i64, share: f64) -> f64 {
    ChiSquared::new(degrees_of_freedom.max(1) as f64)
        .map_or(f64::INFINITY, |chi2| chi2.inverse_cdf(share))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn limits_from_the_tables() {
        for (degrees, table) in [(1, 10.828), (3, 16.266), (10, 29.588), (100, 149.449)] {
            assert!((limit(degrees) - table).abs() < 1e-3, "{degrees}");
        }
        for (degrees, table) in [(1, 3.841), (3, 7.815), (10, 18.307), (100, 124.342)] {
            assert!((usual(degrees) - table).abs() < 1e-3, "{degrees}");
        }
    }
}

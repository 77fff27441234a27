use statrs::distribution::{ChiSquared, ContinuousCDF};
use std::sync::OnceLock;

/// Half the width of a 95 % band, in standard deviations: every ± that is shown.
pub const BAND_95: f64 = 1.96;

/// What Σ(v/sd)² stays below in 999 of 1000 jobs with nothing misread. Without degrees of
/// freedom, as for one.
#[must_use]
pub(super) fn limit(degrees_of_freedom: i64) -> f64 {
    // Found by bisection, which takes longer than adjusting a small site.
    static KNOWN: [OnceLock<f64>; 64] = [const { OnceLock::new() }; 64];
    let known = usize::try_from(degrees_of_freedom).ok();
    match known.and_then(|at| KNOWN.get(at)) {
        Some(known) => *known.get_or_init(|| quantile(degrees_of_freedom)),
        None => quantile(degrees_of_freedom),
    }
}

fn quantile(degrees_of_freedom: i64) -> f64 {
    ChiSquared::new(degrees_of_freedom.max(1) as f64)
        .map_or(f64::INFINITY, |chi2| chi2.inverse_cdf(0.999))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn limits_from_the_tables() {
        for (degrees, table) in [(1, 10.828), (3, 16.266), (10, 29.588), (100, 149.449)] {
            assert!((limit(degrees) - table).abs() < 1e-3, "{degrees}");
        }
    }
}

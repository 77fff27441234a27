//! Posts between the given ones: equal bays, or full bays and one closing bay.

use crate::job::model::BayFit;

/// The most posts that one run is given.
pub const MOST_POSTS: usize = 2000;

/// A bay this much over the longest still counts as the longest, mm.
const SLACK: f64 = 1e-6;

/// Centres strictly between `from` and `to`, running readings in mm; `None` where there would be
/// more than [`MOST_POSTS`].
///
/// Equal: the fewest equal bays not longer than `max`. Full: bays of `max` from `from`, and one
/// closing bay.
///
/// ```
/// use tautmark::job::model::BayFit;
/// use tautmark::setout::fill;
///
/// let equal = fill(0.0, 3200.0, 1500.0, BayFit::Equal);
/// assert_eq!(equal, Some(vec![3200.0 / 3.0, 6400.0 / 3.0]));
/// let full = fill(0.0, 3200.0, 1500.0, BayFit::Full);
/// assert_eq!(full, Some(vec![1500.0, 3000.0]));
/// ```
#[must_use]
pub fn fill(from: f64, to: f64, max: f64, fit: BayFit) -> Option<Vec<f64>> {
    let span = to - from;
    if span <= 0.0 {
        return Some(Vec::new());
    }
    let bays = ((span - SLACK) / max).ceil().max(1.0);
    if bays > MOST_POSTS as f64 {
        return None;
    }
    let bays = bays as usize;
    let step = match fit {
        BayFit::Equal => span / bays as f64,
        BayFit::Full => max,
    };
    Some((1..bays).map(|k| from + step * k as f64).collect())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_span_of_whole_bays_takes_no_extra_post() {
        for fit in [BayFit::Equal, BayFit::Full] {
            assert_eq!(fill(100.0, 4600.0, 1500.0, fit), Some(vec![1600.0, 3100.0]));
        }
    }

    #[test]
    fn a_short_span_takes_none() {
        assert_eq!(fill(0.0, 900.0, 1500.0, BayFit::Equal), Some(vec![]));
        assert_eq!(fill(0.0, 0.0, 1500.0, BayFit::Full), Some(vec![]));
        assert_eq!(fill(10.0, 0.0, 1500.0, BayFit::Full), Some(vec![]));
    }

    #[test]
    fn a_tiny_bay_over_a_long_run_is_refused() {
        assert_eq!(fill(0.0, 1e6, 0.001, BayFit::Equal), None);
    }
}

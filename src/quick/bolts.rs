//! Where do the bolts of a post on a wall go?

use super::figure::{self, FigureError};

/// Bolts down a post, mm from its top, the highest first: `ends` from either end, the rest evenly
/// between and not over `most` apart.
///
/// # Errors
/// A figure that cannot be, or a post too short for its two ends.
///
/// ```
/// use tautmark::quick::bolts::bolts;
///
/// assert_eq!(bolts(1800.0, 150.0, 500.0)?, [150.0, 650.0, 1150.0, 1650.0]);
/// # Ok::<(), tautmark::quick::FigureError>(())
/// ```
pub fn bolts(length: f64, ends: f64, most: f64) -> Result<Vec<f64>, FigureError> {
    let length = figure::length("length of the post", length)?;
    let ends = figure::length("distance from the ends", ends)?;
    let most = figure::length("most between two bolts", most)?;
    let span = length - 2.0 * ends;
    figure::length_or_nothing("distance from the ends", span)?;
    let bays = (span / most - 1e-9).ceil().max(1.0);
    Ok((0..=(bays as usize))
        .map(|k| ends + span * k as f64 / bays)
        .collect())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn never_farther_apart_than_the_most() {
        for length in [400.0, 900.0, 1700.0, 2345.0] {
            let at = bolts(length, 150.0, 500.0).expect("a row");
            assert_eq!(at.first(), Some(&150.0));
            assert!((at.last().expect("two") - (length - 150.0)).abs() < 1e-9);
            assert!(at.windows(2).all(|two| two[1] - two[0] <= 500.0 + 1e-9));
        }
        assert!(bolts(250.0, 150.0, 500.0).is_err());
    }
}

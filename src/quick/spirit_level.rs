//! Is my spirit level true?
//!
//! ```text
//!   [====o====>  first way round: packing under the far end until the bubble stands
//!   <====o====]  end for end on the same two points: packing again
//!
//!   half the difference is the level's own error, the mean is the truth
//! ```

use super::figure::{self, Figure, FigureError};

/// What turning a spirit level end for end shows.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reversed {
    /// The level's own error over its length, mm: half the difference.
    pub error: Figure,
    /// The same, mm per m.
    pub per_metre: Figure,
    /// How far the far point really is below the near one, mm: the mean.
    pub true_fall: Figure,
}

/// A spirit level `length` mm long laid over the same two points both ways; `first` and `second`
/// are the packing, mm, under the same far point (less than 0: under the near one), each good to
/// `sd` mm.
///
/// ```
/// let level = tautmark::quick::spirit_level::reversed(6.0, 2.0, 1200.0, 0.5)?;
/// assert_eq!((level.error.value, level.true_fall.value), (2.0, 4.0));
/// # Ok::<(), tautmark::quick::FigureError>(())
/// ```
///
/// # Errors
/// [`FigureError`] for figures that cannot be.
pub fn reversed(first: f64, second: f64, length: f64, sd: f64) -> Result<Reversed, FigureError> {
    let first = figure::signed("packing the first way round", first)?;
    let second = figure::signed("packing the second way round", second)?;
    let length = figure::length("length of the spirit level", length)?;
    let half_sd = figure::spread(sd)? / 2f64.sqrt();
    let error = Figure::new((first - second) / 2.0, half_sd);
    Ok(Reversed {
        error,
        per_metre: error.scaled(1000.0 / length),
        true_fall: Figure::new((first + second) / 2.0, half_sd),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_true_level_reads_alike_both_ways() -> Result<(), FigureError> {
        let level = reversed(3.0, 3.0, 600.0, 0.5)?;
        assert_eq!((level.error.value, level.true_fall.value), (0.0, 3.0));
        let out = reversed(-1.0, 2.0, 600.0, 0.5)?;
        assert_eq!(out.per_metre.value, -2.5);
        assert!((out.error.pm - 1.96 * 0.5 / 2f64.sqrt()).abs() < 1e-12);
        Ok(())
    }

    #[test]
    fn figures_that_cannot_be_are_refused() {
        assert!(reversed(f64::NAN, 2.0, 600.0, 0.5).is_err());
        assert!(reversed(1.0, 2.0, 0.0, 0.5).is_err());
        assert!(reversed(1.0, 2.0, 600.0, 0.0).is_err());
    }
}

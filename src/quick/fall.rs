//! The ground falls: how much does each bay step, or how long is a sloping rail?
//!
//! ```text
//!   ____                      ____
//!       |____    step         ____ \____   sloping: rail = clear / cos φ,
//!            |____                  \_____ ends cut φ off square
//! ```

use super::bays::SharingError;
use super::figure;

/// A fall shared over bays.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fall {
    /// Step from one bay to the next, mm: total fall ÷ bays, not ÷ posts.
    pub step: f64,
    /// Slope φ of the ground, degrees.
    pub slope: f64,
}

/// A fall of `total` mm over `bays` bays of `bay` mm, measured level.
///
/// ```
/// let fall = tautmark::quick::fall::fall_over_bays(600.0, 4, 2400.0)?;
/// assert_eq!(fall.step, 150.0);
/// assert!((fall.slope - 3.58).abs() < 0.005);
/// # Ok::<(), tautmark::quick::bays::SharingError>(())
/// ```
///
/// # Errors
/// [`SharingError`] for figures that cannot be or no bays.
pub fn fall_over_bays(total: f64, bays: usize, bay: f64) -> Result<Fall, SharingError> {
    let total = figure::length_or_nothing("fall", total)?;
    let bay = figure::length("bay", bay)?;
    if bays == 0 {
        return Err(SharingError::TooFew { least: 1 });
    }
    let step = total / bays as f64;
    Ok(Fall {
        step,
        slope: step.atan2(bay).to_degrees(),
    })
}

/// A rail along a slope.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SlopingRail {
    /// Length along the rail, mm: clear / cos φ.
    pub length: f64,
    /// How far off square both ends are cut so that they stand plumb, degrees: φ.
    pub end_cut: f64,
}

/// A rail between plumb posts `clear` mm apart, measured level, that falls `fall` mm from one to
/// the other.
///
/// ```
/// let rail = tautmark::quick::fall::sloping_rail(1800.0, 240.0)?;
/// assert!((rail.length - 1815.9).abs() < 0.05);
/// assert!((rail.end_cut - 7.595).abs() < 0.001);
/// # Ok::<(), tautmark::quick::bays::SharingError>(())
/// ```
///
/// # Errors
/// [`SharingError::Figure`] for figures that cannot be.
pub fn sloping_rail(clear: f64, fall: f64) -> Result<SlopingRail, SharingError> {
    let clear = figure::length("clear between posts", clear)?;
    let fall = figure::signed("fall", fall)?.abs();
    Ok(SlopingRail {
        length: clear.hypot(fall),
        end_cut: fall.atan2(clear).to_degrees(),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rail_is_clear_over_cosine() -> Result<(), SharingError> {
        let rail = sloping_rail(2400.0, -300.0)?;
        assert!((rail.length - 2400.0 / rail.end_cut.to_radians().cos()).abs() < 1e-9);
        assert_eq!(
            sloping_rail(2400.0, 0.0)?,
            SlopingRail {
                length: 2400.0,
                end_cut: 0.0
            }
        );
        Ok(())
    }

    #[test]
    fn no_bays_and_no_figures_are_refused() {
        assert_eq!(
            fall_over_bays(600.0, 0, 2400.0),
            Err(SharingError::TooFew { least: 1 })
        );
        assert!(fall_over_bays(-1.0, 4, 2400.0).is_err());
        assert!(sloping_rail(0.0, 10.0).is_err());
        assert!(sloping_rail(1800.0, f64::NAN).is_err());
    }
}

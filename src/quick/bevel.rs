//! How do I set the saw for two pieces that meet at a corner?
//!
//! ```text
//!              \   \
//!      mitre -> \   \          inside angle θ between the two rails
//!     __________ \   \         saw that reads 0 for a square cut: 90 − θ/2
//!     __________\θ\   \        angle measured from the rail's length: θ/2
//! ```

use super::figure::{self, FigureError};

/// How two pieces that meet at an inside angle are cut; all angles in degrees.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bevel {
    /// Mitred face to face: the setting of a saw that reads 0 for a square cut, 90 − θ/2.
    pub off_square: f64,
    /// The same cut measured from the piece's length, θ/2.
    pub from_length: f64,
    /// Post left square to one run: how far off square the other run's rail end is cut, |90 − θ|.
    pub against_post: f64,
}

/// The cuts for an inside angle of `angle` degrees.
///
/// ```
/// let cut = tautmark::quick::bevel::bevel(93.15)?;
/// assert!((cut.off_square - 43.425).abs() < 1e-9);
/// assert!((cut.from_length - 46.575).abs() < 1e-9);
/// # Ok::<(), tautmark::quick::FigureError>(())
/// ```
///
/// # Errors
/// [`FigureError`] for an angle that is no corner.
pub fn bevel(angle: f64) -> Result<Bevel, FigureError> {
    figure::inside_angle("corner angle", angle).map(of_angle)
}

pub(super) fn of_angle(angle: f64) -> Bevel {
    Bevel {
        off_square: 90.0 - angle / 2.0,
        from_length: angle / 2.0,
        against_post: (90.0 - angle).abs(),
    }
}

/// How far, mm, the long point stands beyond the short point of a piece `thickness` mm thick cut
/// `off_square` degrees off square: thickness × tan(bevel).
///
/// ```
/// let run = tautmark::quick::bevel::long_to_short(38.0, 45.0)?;
/// assert!((run - 38.0).abs() < 1e-9);
/// # Ok::<(), tautmark::quick::FigureError>(())
/// ```
///
/// # Errors
/// [`FigureError`] for a thickness of nothing, or a cut that is not between 0 and 89.9°.
pub fn long_to_short(thickness: f64, off_square: f64) -> Result<f64, FigureError> {
    let thickness = figure::length("thickness", thickness)?;
    let what = "cut off square";
    if !off_square.is_finite() {
        return Err(FigureError::NotANumber { what });
    }
    if off_square < 0.0 {
        return Err(FigureError::Negative { what });
    }
    if off_square > 90.0 - figure::FLATTEST {
        return Err(FigureError::NotACorner {
            what,
            value: off_square,
        });
    }
    Ok(thickness * off_square.to_radians().tan())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn both_saw_conventions_make_a_right_angle_together() -> Result<(), FigureError> {
        for angle in [30.0, 90.0, 104.3, 150.0] {
            let cut = bevel(angle)?;
            assert!((cut.off_square + cut.from_length - 90.0).abs() < 1e-12);
        }
        assert_eq!(bevel(90.0)?.against_post, 0.0);
        assert_eq!(bevel(104.0)?.against_post, 14.0);
        Ok(())
    }

    #[test]
    fn what_is_no_corner_is_refused() {
        for angle in [0.0, 180.0, -5.0, f64::NAN] {
            assert!(bevel(angle).is_err());
        }
        assert!(long_to_short(38.0, 90.0).is_err());
        assert!(long_to_short(0.0, 45.0).is_err());
        assert_eq!(long_to_short(38.0, 0.0), Ok(0.0));
    }
}

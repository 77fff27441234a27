//! How wrong does a tape read when it is not straight and level?
//!
//! ```text
//!   on the slope       hanging free        off the line
//!          __--|         \_      _/           .
//!     __--     |drop       `----`          . '  ' .
//!   -----------|           sag            P--------Q
//! ```
//!
//! At garden scale the slope beats everything else.

use super::figure::{self, FigureError};
use super::refusal::{Refusal, said_in_mm};
use crate::length::{Unit, show_with_unit};

/// Weight of a usual steel blade 12 to 13 mm wide, N per m.
pub const STEEL_BLADE: f64 = 0.128;
/// Weight of a mason's line, N per m.
pub const MASONS_LINE: f64 = 0.0116;

/// Why a reading cannot be corrected.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum PullError {
    /// A figure that cannot be.
    Figure(FigureError),
    /// More drop than tape.
    DropTooLong {
        /// The drop, mm.
        drop: f64,
        /// The tape, mm.
        length: f64,
    },
    /// Pulled so gently that it hangs in a loop.
    TooSlack,
}

impl Refusal for PullError {
    fn figure(&self) -> Option<&'static str> {
        match self {
            Self::Figure(figure) => figure.figure(),
            Self::DropTooLong { .. } => Some("drop"),
            Self::TooSlack => Some("pull"),
        }
    }

    fn said(&self, unit: Unit) -> String {
        match *self {
            Self::Figure(figure) => figure.said(unit),
            Self::DropTooLong { drop, length } => format!(
                "A drop of {} cannot be on a tape of {}. Check which is which.",
                show_with_unit(drop, unit),
                show_with_unit(length, unit),
            ),
            Self::TooSlack => {
                "With so gentle a pull it only hangs. Pull harder, or hold it up in the middle."
                    .to_owned()
            }
        }
    }
}

said_in_mm!(PullError);

/// The level distance, mm, of a tape of `length` mm whose ends differ by `drop` mm in height, or
/// its straight distance when its middle ran off to a point `drop` mm aside: √(length² − drop²).
///
/// ```
/// use tautmark::quick::tape_pull::level_length;
/// assert!((10_000.0 - level_length(10_000.0, 500.0)? - 12.5).abs() < 0.05);
/// # Ok::<(), tautmark::quick::tape_pull::PullError>(())
/// ```
///
/// # Errors
/// [`PullError`] for figures that cannot be, or a drop as long as the tape.
pub fn level_length(length: f64, drop: f64) -> Result<f64, PullError> {
    let length = figure::length("tape", length)?;
    let drop = figure::signed("drop", drop)?.abs();
    if drop >= length {
        return Err(PullError::DropTooLong { drop, length });
    }
    Ok(((length - drop) * (length + drop)).sqrt())
}

/// How much too long, mm, a tape of `length` mm reads that points `off` mm off the line:
/// about off²/2L.
///
/// ```
/// let long = tautmark::quick::tape_pull::off_line(5000.0, 50.0)?;
/// assert!((long - 0.25).abs() < 0.001);
/// # Ok::<(), tautmark::quick::tape_pull::PullError>(())
/// ```
///
/// # Errors
/// As [`level_length`].
pub fn off_line(length: f64, off: f64) -> Result<f64, PullError> {
    Ok(length - level_length(length, off)?)
}

/// How much too long, mm, a tape held only at its ends reads over `length` mm, pulled with `pull`
/// newtons and weighing `weight` N per m: w² L³ / 24 T².
///
/// ```
/// use tautmark::quick::tape_pull::{STEEL_BLADE, tape_sag};
/// assert!((tape_sag(20_000.0, 50.0, STEEL_BLADE)? - 2.2).abs() < 0.05);
/// # Ok::<(), tautmark::quick::tape_pull::PullError>(())
/// ```
///
/// # Errors
/// [`PullError`] for figures that cannot be, or a pull that hardly lifts it.
pub fn tape_sag(length: f64, pull: f64, weight: f64) -> Result<f64, PullError> {
    let (length, slack) = hung(length, pull, weight)?;
    Ok(length * slack * slack / 24.0)
}

/// How far, mm, the middle of a line of `length` mm hangs below its ends, pulled with `pull`
/// newtons and weighing `weight` N per m: w L² / 8 T. With a cross-wind's push in N per m for
/// `weight`, how far it bows aside.
///
/// ```
/// use tautmark::quick::tape_pull::{MASONS_LINE, line_sag};
/// assert!((line_sag(10_000.0, 50.0, MASONS_LINE)? - 2.9).abs() < 0.05);
/// # Ok::<(), tautmark::quick::tape_pull::PullError>(())
/// ```
///
/// # Errors
/// As [`tape_sag`].
pub fn line_sag(length: f64, pull: f64, weight: f64) -> Result<f64, PullError> {
    let (length, slack) = hung(length, pull, weight)?;
    Ok(length * slack / 8.0)
}

/// The length, mm, and its whole weight as a share of the pull; both formulas are for flat curves.
fn hung(length: f64, pull: f64, weight: f64) -> Result<(f64, f64), PullError> {
    let length = figure::length("length", length)?;
    let pull = figure::length("pull", pull)?;
    let weight = figure::length_or_nothing("weight of each metre", weight)?;
    let slack = weight * length / 1000.0 / pull;
    if slack > 0.8 {
        Err(PullError::TooSlack)
    } else {
        Ok((length, slack))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn known_slopes_over_ten_metres() -> Result<(), PullError> {
        for (rise, long) in [(200.0, 2.0), (500.0, 12.5), (1000.0, 50.1)] {
            assert!((off_line(10_000.0, rise)? - long).abs() < 0.05, "{rise}");
        }
        assert_eq!(level_length(5000.0, -3000.0)?, 4000.0);
        Ok(())
    }

    #[test]
    fn known_sags() -> Result<(), PullError> {
        for (length, pull, long) in [
            (10_000.0, 50.0, 0.3),
            (20_000.0, 50.0, 2.2),
            (10_000.0, 20.0, 1.7),
        ] {
            assert!((tape_sag(length, pull, STEEL_BLADE)? - long).abs() < 0.05);
        }
        assert!((line_sag(20_000.0, 50.0, MASONS_LINE)? - 12.0).abs() < 0.5);
        // A 5 m/s cross-wind pushes about 0.028 N on each metre of line.
        assert!((line_sag(10_000.0, 50.0, 0.028)? - 7.0).abs() < 0.05);
        assert!((line_sag(20_000.0, 50.0, 0.028)? - 28.0).abs() < 0.05);
        Ok(())
    }

    #[test]
    fn what_cannot_be_is_refused() {
        assert_eq!(
            level_length(500.0, 600.0),
            Err(PullError::DropTooLong {
                drop: 600.0,
                length: 500.0
            })
        );
        assert_eq!(
            line_sag(20_000.0, 0.2, STEEL_BLADE),
            Err(PullError::TooSlack)
        );
        assert!(tape_sag(20_000.0, 0.0, STEEL_BLADE).is_err());
        assert!(level_length(f64::NAN, 1.0).is_err());
    }
}

//! How much of a post does a notch or a mortise leave?
//!
//! ```text
//!      |   __|      |  ##  |        face notch n in a post D deep:  ((D − n)/D)²
//!   D  |  |n        |  ##m |        mortise m in the middle of it:  1 − (m/D)³
//!      |  |__       |  ##  |        of the post's bending strength, by plain geometry
//!      |     |      |      |
//! ```
//!
//! A caution, never a pass or a fail: what a post must carry is a structural question.

use super::figure::{self, FigureError};
use super::refusal::{Refusal, said_in_mm};
use crate::length::{Unit, show_with_unit};

/// Why a cut cannot be.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum NotchError {
    /// A figure that cannot be.
    Figure(FigureError),
    /// It goes through the whole post.
    CutsThrough {
        /// The cut, mm.
        cut: f64,
        /// The post's depth, mm.
        depth: f64,
    },
    /// The notch sits above the top.
    AboveTop,
}

impl Refusal for NotchError {
    fn figure(&self) -> Option<&'static str> {
        match self {
            Self::Figure(figure) => figure.figure(),
            Self::CutsThrough { .. } => Some("cut"),
            Self::AboveTop => Some("height of the notch"),
        }
    }

    fn said(&self, unit: Unit) -> String {
        match *self {
            Self::Figure(figure) => figure.said(unit),
            Self::CutsThrough { cut, depth } => format!(
                "The cut of {} leaves nothing of a post {} deep. Cut less.",
                show_with_unit(cut, unit),
                show_with_unit(depth, unit),
            ),
            Self::AboveTop => {
                "The notch is above the top of the post. Give both heights from the ground."
                    .to_owned()
            }
        }
    }
}

said_in_mm!(NotchError);

/// What a cut leaves, as shares from 0 to 1.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Left {
    /// Of the bending strength in the direction of the cut.
    pub bending: f64,
    /// Of the cross-section.
    pub section: f64,
}

/// What a notch of `notch` mm in the face of a rectangular post `depth` mm deep leaves:
/// ((depth − notch)/depth)² in bending.
///
/// ```
/// let left = tautmark::quick::notch::face_notch(100.0, 20.0)?;
/// assert!((left.bending - 0.64).abs() < 1e-12);
/// # Ok::<(), tautmark::quick::notch::NotchError>(())
/// ```
///
/// # Errors
/// [`NotchError`] for figures that cannot be or a cut right through.
pub fn face_notch(depth: f64, notch: f64) -> Result<Left, NotchError> {
    let share = share_cut(depth, notch)?;
    Ok(Left {
        bending: (1.0 - share).powi(2),
        section: 1.0 - share,
    })
}

/// What a mortise of `mortise` mm, centred in a rectangular post `depth` mm deep, leaves:
/// 1 − (mortise/depth)³ in bending.
///
/// ```
/// let left = tautmark::quick::notch::centred_mortise(100.0, 50.0)?;
/// assert!((left.bending - 0.875).abs() < 1e-12);
/// # Ok::<(), tautmark::quick::notch::NotchError>(())
/// ```
///
/// # Errors
/// [`NotchError`] for figures that cannot be or a cut right through.
pub fn centred_mortise(depth: f64, mortise: f64) -> Result<Left, NotchError> {
    let share = share_cut(depth, mortise)?;
    Ok(Left {
        bending: 1.0 - share.powi(3),
        section: 1.0 - share,
    })
}

fn share_cut(depth: f64, cut: f64) -> Result<f64, NotchError> {
    let depth = figure::length("depth of the post", depth)?;
    let cut = figure::length_or_nothing("cut", cut)?;
    if cut >= depth {
        Err(NotchError::CutsThrough { cut, depth })
    } else {
        Ok(cut / depth)
    }
}

/// Where an evenly loaded post is worked hardest.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum WorkedHardest {
    /// At the ground: the notch costs nothing more.
    GroundLine,
    /// At the notch.
    Notch,
}

/// Whether a face notch of `notch` mm, `above_ground` mm up a post `depth` mm deep that stands
/// `height` mm out of the ground, is worked harder than the post at the ground under an even wind.
/// Bending falls off as (1 − z/H)² and the notch leaves (1 − n/D)², so it governs where z/H < n/D.
///
/// ```
/// use tautmark::quick::notch::{WorkedHardest, which_governs};
/// assert_eq!(which_governs(100.0, 20.0, 300.0, 1800.0)?, WorkedHardest::Notch);
/// assert_eq!(which_governs(100.0, 15.0, 300.0, 1800.0)?, WorkedHardest::GroundLine);
/// # Ok::<(), tautmark::quick::notch::NotchError>(())
/// ```
///
/// # Errors
/// [`NotchError`] for figures that cannot be, a cut right through, or a notch above the top.
pub fn which_governs(
    depth: f64,
    notch: f64,
    above_ground: f64,
    height: f64,
) -> Result<WorkedHardest, NotchError> {
    let share = share_cut(depth, notch)?;
    let above_ground = figure::length_or_nothing("height of the notch", above_ground)?;
    let height = figure::length("height of the post", height)?;
    if above_ground > height {
        return Err(NotchError::AboveTop);
    }
    Ok(if above_ground / height < share {
        WorkedHardest::Notch
    } else {
        WorkedHardest::GroundLine
    })
}

/// Bending moment at the ground, kNm, of a post carrying `bay` mm of boarding `height` mm high
/// under an even net wind pressure of `pressure` kN/m²: q h² s / 2.
///
/// ```
/// let moment = tautmark::quick::notch::moment_at_ground(0.5, 1800.0, 3000.0)?;
/// assert!((moment - 2.43).abs() < 1e-9);
/// # Ok::<(), tautmark::quick::notch::NotchError>(())
/// ```
///
/// # Errors
/// [`NotchError::Figure`] for figures that cannot be.
pub fn moment_at_ground(pressure: f64, height: f64, bay: f64) -> Result<f64, NotchError> {
    let pressure = figure::length_or_nothing("wind pressure", pressure)?;
    let height = figure::length("height of the boarding", height)? / 1000.0;
    let bay = figure::length("bay", bay)? / 1000.0;
    Ok(pressure * height * height * bay / 2.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn known_shares() -> Result<(), NotchError> {
        for (share, bending) in [(10.0, 0.81), (20.0, 0.64), (25.0, 0.5625), (50.0, 0.25)] {
            assert!((face_notch(100.0, share)?.bending - bending).abs() < 1e-12);
        }
        assert!((centred_mortise(100.0, 25.0)?.bending - 0.984_375).abs() < 1e-12);
        assert_eq!(
            face_notch(100.0, 0.0)?,
            Left {
                bending: 1.0,
                section: 1.0
            }
        );
        Ok(())
    }

    #[test]
    fn cuts_that_cannot_be_are_refused() {
        assert_eq!(
            face_notch(100.0, 100.0),
            Err(NotchError::CutsThrough {
                cut: 100.0,
                depth: 100.0
            })
        );
        assert!(centred_mortise(0.0, 10.0).is_err());
        assert!(face_notch(100.0, -1.0).is_err());
        assert!(face_notch(f64::NAN, 1.0).is_err());
        assert_eq!(
            which_governs(100.0, 15.0, 1900.0, 1800.0),
            Err(NotchError::AboveTop)
        );
        assert!(moment_at_ground(f64::NAN, 1800.0, 3000.0).is_err());
    }
}

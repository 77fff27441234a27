//! What gate leaf goes into this opening, and will it swing and latch?
//!
//! ```text
//!    post|hinge gap|<----- leaf ----->|latch gap|post      measure the opening at top,
//!        |         |                  |         |          middle and bottom: use the least
//!        |         |__________________|         |
//!    ~~~~~~~~~~~~~~~~~~~ ground gap ~~~~~~~~~~~~~~~~
//! ```

use super::figure::{self, FigureError};
use super::refusal::{Refusal, said_in_mm};
use crate::length::{Unit, show_with_unit};

/// An opening measured between the faces of its posts, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TapedOpening {
    /// At the top of the gate.
    pub top: f64,
    /// At its middle.
    pub middle: f64,
    /// At its bottom.
    pub bottom: f64,
}

/// The leaf for an opening.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LeafWidth {
    /// Width of the leaf, mm.
    pub width: f64,
    /// The least of the three measurements, mm.
    pub least: f64,
    /// Where it is.
    pub least_at: Height,
    /// Largest less least, mm: how far the posts are from parallel.
    pub out_of_parallel: f64,
}

/// Where on the gate.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[expect(missing_docs, reason = "the words say it")]
pub enum Height {
    Top,
    Middle,
    Bottom,
}

/// Why a gate cannot be.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum GateError {
    /// A figure that cannot be.
    Figure(FigureError),
    /// The gaps use the opening up.
    NoLeaf {
        /// Hinge and latch gap together, mm.
        gaps: f64,
        /// The opening, mm.
        opening: f64,
    },
    /// A post that leans so far has fallen over.
    Fallen {
        /// How far it leans, mm.
        lean: f64,
        /// Over which height, mm.
        height: f64,
    },
    /// Nothing was measured under the swing.
    NoGround,
}

impl Refusal for GateError {
    fn figure(&self) -> Option<&'static str> {
        match self {
            Self::Figure(figure) => figure.figure(),
            Self::Fallen { .. } => Some("lean of the hinge post"),
            Self::NoLeaf { .. } | Self::NoGround => None,
        }
    }

    fn said(&self, unit: Unit) -> String {
        match *self {
            Self::Figure(figure) => figure.said(unit),
            Self::NoLeaf { gaps, opening } => format!(
                "The gaps of {} leave nothing of an opening of {}. \
                 Check the opening, or take smaller gaps.",
                show_with_unit(gaps, unit),
                show_with_unit(opening, unit),
            ),
            Self::Fallen { lean, height } => format!(
                "A post that leans {} in {} has fallen over. Check which figure is which.",
                show_with_unit(lean, unit),
                show_with_unit(height, unit),
            ),
            Self::NoGround => {
                "Measure the ground under the swing at one place at least, best at the latch end."
                    .to_owned()
            }
        }
    }
}

said_in_mm!(GateError);

/// The leaf that goes into an opening: its least width less the hinge and latch gaps, all mm.
///
/// ```
/// use tautmark::quick::gate::{TapedOpening, leaf};
/// let leaf = leaf(TapedOpening { top: 1042.0, middle: 1040.0, bottom: 1037.0 }, 12.0, 10.0)?;
/// assert_eq!(leaf.width, 1015.0);
/// # Ok::<(), tautmark::quick::gate::GateError>(())
/// ```
///
/// # Errors
/// [`GateError`] for figures that cannot be, or gaps that leave no leaf.
pub fn leaf(opening: TapedOpening, hinge_gap: f64, latch_gap: f64) -> Result<LeafWidth, GateError> {
    let top = figure::length("opening at the top", opening.top)?;
    let middle = figure::length("opening at the middle", opening.middle)?;
    let bottom = figure::length("opening at the bottom", opening.bottom)?;
    let gaps = figure::length_or_nothing("hinge gap", hinge_gap)?
        + figure::length_or_nothing("latch gap", latch_gap)?;
    let least = top.min(middle).min(bottom);
    let least_at = if least == bottom {
        Height::Bottom
    } else if least == middle {
        Height::Middle
    } else {
        Height::Top
    };
    if gaps >= least {
        return Err(GateError::NoLeaf {
            gaps,
            opening: least,
        });
    }
    let out_of_parallel = top.max(middle).max(bottom) - least;
    Ok(LeafWidth {
        width: least - gaps,
        least,
        least_at,
        out_of_parallel,
    })
}

/// No post that holds a gate leans further than this share of its height.
const MOST_LEAN: f64 = 0.2;

/// How far, mm, the latch end drops when the hinge post leans `lean` mm over `height` mm:
/// width × lean / height.
///
/// ```
/// let drop = tautmark::quick::gate::latch_drop(1000.0, 9.0, 1800.0)?;
/// assert_eq!(drop, 5.0);
/// # Ok::<(), tautmark::quick::gate::GateError>(())
/// ```
///
/// # Errors
/// [`GateError::Figure`] for figures that cannot be, [`GateError::Fallen`] beyond a fifth of the height.
pub fn latch_drop(width: f64, lean: f64, height: f64) -> Result<f64, GateError> {
    let width = figure::length("width of the leaf", width)?;
    let lean = figure::signed("lean of the hinge post", lean)?;
    let height = figure::length("height the lean is measured over", height)?;
    if lean.abs() > MOST_LEAN * height {
        return Err(GateError::Fallen { lean, height });
    }
    Ok(width * lean / height)
}

/// The ground under a gate's whole swing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct GroundUnderSwing {
    /// Least clearance under the leaf, mm; less than 0, it strikes.
    pub least: f64,
    /// Which of the measured places that is, from 0.
    pub at: usize,
    /// How much more ground gap it needs to keep the wanted clearance everywhere, mm.
    pub raise: f64,
}

/// Checks a leaf hung `ground_gap` mm above the ground at its hinge against the ground's `rises`
/// (mm above the ground at the hinge, less than 0 where it falls) at places under its swing, to
/// keep at least `wanted` mm clear.
///
/// ```
/// let swing = tautmark::quick::gate::ground_under_swing(50.0, &[0.0, 15.0, 42.0], 20.0)?;
/// assert_eq!((swing.least, swing.at, swing.raise), (8.0, 2, 12.0));
/// # Ok::<(), tautmark::quick::gate::GateError>(())
/// ```
///
/// # Errors
/// [`GateError`] for figures that cannot be, or no places.
pub fn ground_under_swing(
    ground_gap: f64,
    rises: &[f64],
    wanted: f64,
) -> Result<GroundUnderSwing, GateError> {
    let ground_gap = figure::length_or_nothing("ground gap", ground_gap)?;
    let wanted = figure::length_or_nothing("wanted clearance", wanted)?;
    for rise in rises {
        figure::signed("rise of the ground", *rise)?;
    }
    let highest = rises.iter().enumerate().max_by(|a, b| a.1.total_cmp(b.1));
    let (at, highest) = highest.ok_or(GateError::NoGround)?;
    let least = ground_gap - highest;
    Ok(GroundUnderSwing {
        least,
        at,
        raise: (wanted - least).max(0.0),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_least_of_three_decides() -> Result<(), GateError> {
        let found = leaf(
            TapedOpening {
                top: 1030.0,
                middle: 1036.0,
                bottom: 1040.0,
            },
            12.0,
            10.0,
        )?;
        assert_eq!(
            (found.width, found.least_at, found.out_of_parallel),
            (1008.0, Height::Top, 10.0)
        );
        Ok(())
    }

    #[test]
    fn level_ground_needs_no_raising() -> Result<(), GateError> {
        let swing = ground_under_swing(50.0, &[0.0, -20.0, 5.0], 40.0)?;
        assert_eq!((swing.least, swing.at, swing.raise), (45.0, 2, 0.0));
        Ok(())
    }

    #[test]
    fn what_cannot_be_is_refused() {
        let narrow = TapedOpening {
            top: 20.0,
            middle: 22.0,
            bottom: 24.0,
        };
        assert_eq!(
            leaf(narrow, 12.0, 10.0),
            Err(GateError::NoLeaf {
                gaps: 22.0,
                opening: 20.0
            })
        );
        assert!(
            leaf(
                TapedOpening {
                    top: f64::NAN,
                    ..narrow
                },
                1.0,
                1.0
            )
            .is_err()
        );
        assert_eq!(
            ground_under_swing(50.0, &[], 20.0),
            Err(GateError::NoGround)
        );
        assert!(ground_under_swing(50.0, &[f64::NAN], 20.0).is_err());
        assert!(latch_drop(1000.0, 9.0, 0.0).is_err());
    }

    #[test]
    fn a_post_that_has_fallen_over_is_no_lean() {
        let lean = |lean| latch_drop(1000.0, lean, 1803.4).map_err(|why| why.to_string());
        assert!(lean(300.0).is_ok());
        let why = lean(1524.0).expect_err("1 524 in 1 803");
        assert!(why.contains("fallen over"), "{why}");
        assert!(lean(-1524.0).is_err());
    }
}

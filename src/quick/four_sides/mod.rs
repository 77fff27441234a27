//! Do four sides and two diagonals agree, what shape are they, and how do I make it square?
//!
//! ```text
//!     D-----------------C      walk round: A, B, C, D, all four corners pointing outwards
//!     | \             / |
//!     |    \  BD   /    |      six tapes fix four marks with one to spare: that one check
//!     |      /  \       |      shows that something is misread, never which
//!     |   / AC     \    |
//!     A-----------------B
//! ```

mod closure;
mod shape;

use super::figure::{Figure, FigureError, Taped};
pub use shape::{CornerName, Diagonals, FourSidedShape, SideName, Slide, ToRectangle};

/// The six tapes of a four-sided figure, corners named A, B, C, D in walking order.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FourSides {
    /// Side A to B.
    pub ab: Taped,
    /// Side B to C.
    pub bc: Taped,
    /// Side C to D.
    pub cd: Taped,
    /// Side D to A.
    pub da: Taped,
    /// Diagonal A to C.
    pub ac: Taped,
    /// Diagonal B to D.
    pub bd: Taped,
}

/// Whether six tapes agree with each other.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Agreement {
    /// Within their ±.
    Agree,
    /// Outside their ± (95 %), but not so far that chance is ruled out.
    Doubtful,
    /// So far apart (3.29 s.d., 0.1 %) that a side or a diagonal is misread.
    Contradict,
}

impl Agreement {
    /// What to do about it, as a sentence.
    #[must_use]
    pub fn text(self) -> &'static str {
        match self {
            Self::Agree => "The six tapes agree.",
            Self::Doubtful => {
                "The six tapes only just agree. Tape the longest ones once more before you trust them."
            }
            Self::Contradict => {
                "A side or a diagonal is misread. Six tapes cannot say which: \
                 tape them all again before you move anything."
            }
        }
    }
}

/// The one check that six tapes have.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SixTapesClosure {
    /// What the diagonal BD must be by the four sides and the diagonal AC, mm.
    pub expected: Figure,
    /// What it read less what it must be, mm, with the ± of both.
    pub off: Figure,
    /// Whether that is within reason.
    pub agreement: Agreement,
    /// A slip of one tape smaller than this, mm, could stay hidden (4.13 s.d. / √r of the tape
    /// that is checked least; Baarda).
    pub hidden: f64,
}

/// The figure as it lies, from all six tapes together.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Layout {
    /// Inside angles at A, B, C, D, degrees; together 360.
    pub angles: [Figure; 4],
    /// What it is, as far as the tapes can tell.
    pub shape: FourSidedShape,
    /// The way to a rectangle.
    pub to_rectangle: ToRectangle,
}

/// The answer to six tapes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FourSidesCheck {
    /// Whether they agree.
    pub closure: SixTapesClosure,
    /// The figure; none while the tapes contradict each other, since nothing should be moved then.
    pub layout: Option<Layout>,
}

/// Why six tapes make no four-sided figure.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum FourSidesError {
    /// A figure that cannot be.
    #[error(transparent)]
    Figure(#[from] FigureError),
    /// Three of the tapes cannot close.
    #[error("The tapes round {triangle} cannot close. Tape {triangle} again.")]
    CannotClose {
        /// The three corners.
        triangle: &'static str,
    },
    /// The corners are out of order, or one points inwards.
    #[error(
        "These tapes fit only if a corner points inwards or the corners are out of order. \
         Name them A, B, C, D as you walk round; a figure with a corner pointing inwards \
         is checked as two triangles."
    )]
    NotConvex,
}

/// Checks six tapes against each other by plane geometry and, unless they contradict, says what
/// shape they make. Equal diagonals alone do not make a rectangle: a trapezium has them too.
///
/// The tapes are brought to agreement by least squares with their one condition before angles are
/// taken from them.
///
/// ```
/// use tautmark::quick::{Taped, four_sides::{FourSides, FourSidedShape, four_sides}};
/// let t = |length| Taped::new(length, 2.0);
/// let check = four_sides(&FourSides {
///     ab: t(4000.0), bc: t(3000.0), cd: t(4001.0), da: t(2999.0), ac: t(5000.0), bd: t(5001.0),
/// })?;
/// assert!(check.layout.is_some_and(|l| l.shape == FourSidedShape::Rectangle));
/// # Ok::<(), tautmark::quick::four_sides::FourSidesError>(())
/// ```
///
/// # Errors
/// [`FourSidesError`] for figures that cannot be, tapes that cannot close, or corners out of order.
pub fn four_sides(tapes: &FourSides) -> Result<FourSidesCheck, FourSidesError> {
    let tapes = [
        tapes.ab.check("side AB")?,
        tapes.bc.check("side BC")?,
        tapes.cd.check("side CD")?,
        tapes.da.check("side DA")?,
        tapes.ac.check("diagonal AC")?,
        tapes.bd.check("diagonal BD")?,
    ];
    let (closure, adjusted) = closure::close(&tapes)?;
    let layout = match closure.agreement {
        Agreement::Contradict => None,
        Agreement::Agree | Agreement::Doubtful => Some(shape::layout(&adjusted)?),
    };
    Ok(FourSidesCheck { closure, layout })
}

/// What both diagonals of a rectangle of `width` by `length` mm must read, mm.
///
/// ```
/// let diagonal = tautmark::quick::four_sides::rectangle_diagonal(3000.0, 4000.0)?;
/// assert!((diagonal - 5000.0).abs() < 1e-9);
/// # Ok::<(), tautmark::quick::FigureError>(())
/// ```
///
/// # Errors
/// [`FigureError`] for a side of nothing.
pub fn rectangle_diagonal(width: f64, length: f64) -> Result<f64, FigureError> {
    let width = super::figure::length("width", width)?;
    Ok(super::figure::length("length", length)?.hypot(width))
}

#[cfg(test)]
mod tests;

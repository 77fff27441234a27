//! Why three tapes make no corner.

use super::figure::FigureError;

/// Why three tapes make no corner.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum CornerError {
    /// A figure that cannot be.
    #[error(transparent)]
    Figure(#[from] FigureError),
    /// One tape is longer than the other two together.
    #[error(
        "The three tapes cannot close: the {longest} is {by:.0} mm longer than the other two \
         together. Tape all three again."
    )]
    CannotClose {
        /// Which tape is too long.
        longest: &'static str,
        /// By how much, mm.
        by: f64,
    },
    /// All three lie on one line.
    #[error(
        "The three tapes lie on one straight line, so they give no corner. \
         Check the across tape, or that the legs run along two different strings."
    )]
    Flat,
}

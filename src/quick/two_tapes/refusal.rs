//! Tapes that fix no point, and why.

use crate::length::{Unit, show_with_unit};
use crate::quick::figure::FigureError;
use crate::quick::refusal::{Refusal, said_in_mm};

/// Why two tapes fix no point.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum TwoTapesError {
    /// A figure that cannot be.
    Figure(FigureError),
    /// Together they are shorter than the base.
    CannotReach {
        /// What is missing, mm.
        short: f64,
    },
    /// One swing lies wholly inside the other.
    NeverCross {
        /// Which tape.
        longer: &'static str,
        /// By how much, mm.
        by: f64,
    },
    /// The point lies on the line of the base.
    InLine,
}

impl Refusal for TwoTapesError {
    fn figure(&self) -> Option<&'static str> {
        match self {
            Self::Figure(figure) => figure.figure(),
            Self::NeverCross { longer, .. } => Some(longer),
            Self::CannotReach { .. } | Self::InLine => None,
        }
    }

    fn said(&self, unit: Unit) -> String {
        match *self {
            Self::Figure(figure) => figure.said(unit),
            Self::CannotReach { short } => format!(
                "The two tapes do not reach each other: together they are {} shorter than \
                 the base. Tape again, or check the base.",
                show_with_unit(short, unit),
            ),
            Self::NeverCross { longer, by } => format!(
                "The two swings never cross: the {longer} is {} too long for the other tape \
                 and the base. Tape again, or check which mark each was taken from.",
                show_with_unit(by, unit),
            ),
            Self::InLine => {
                "The point lies in line with the two marks, where swings cannot fix it. \
                 Measure along the string instead, or use another mark."
                    .to_owned()
            }
        }
    }
}

said_in_mm!(TwoTapesError);

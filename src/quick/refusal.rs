//! Which figure is at fault when a calculation refuses what was typed.

use super::bays::SharingError;
use super::carry_level::CarryError;
use super::concrete::ConcreteError;
use super::corner::CornerError;
use super::figure::FigureError;
use super::four_sides::FourSidesError;
use super::gate::GateError;
use super::gate_lock::LockError;
use super::laser_check::LaserCheckError;
use super::notch::NotchError;
use super::tape_check::TapeCheckError;
use super::tape_pull::PullError;
use super::two_tapes::TwoTapesError;

/// Why figures were refused.
pub trait Refusal: std::fmt::Display {
    /// The figure at fault, by the name that the text gives it; none where it is no single one.
    fn figure(&self) -> Option<&'static str>;
}

impl Refusal for FigureError {
    fn figure(&self) -> Option<&'static str> {
        match self {
            Self::NotANumber { what }
            | Self::NotPositive { what, .. }
            | Self::Negative { what, .. }
            | Self::TooLong { what, .. }
            | Self::NotACorner { what, .. } => Some(what),
        }
    }
}

impl Refusal for CornerError {
    fn figure(&self) -> Option<&'static str> {
        match self {
            Self::Figure(figure) => figure.figure(),
            Self::CannotClose { longest, .. } => Some(longest),
            Self::Flat => Some("across tape"),
        }
    }
}

impl Refusal for TwoTapesError {
    fn figure(&self) -> Option<&'static str> {
        match self {
            Self::Figure(figure) => figure.figure(),
            Self::NeverCross { longer, .. } => Some(longer),
            Self::CannotReach { .. } | Self::InLine => None,
        }
    }
}

impl Refusal for NotchError {
    fn figure(&self) -> Option<&'static str> {
        match self {
            Self::Figure(figure) => figure.figure(),
            Self::CutsThrough { .. } => Some("cut"),
            Self::AboveTop => Some("height of the notch"),
        }
    }
}

impl Refusal for LockError {
    fn figure(&self) -> Option<&'static str> {
        match self {
            Self::Figure(figure) => figure.figure(),
            Self::EdgesChanged => Some("thin edge"),
            Self::BesideBoard { .. } => Some("lock's distance from the thin edge"),
        }
    }
}

impl Refusal for ConcreteError {
    fn figure(&self) -> Option<&'static str> {
        match self {
            Self::Figure(figure) => figure.figure(),
            Self::PostTooBig { .. } => Some("hole diameter"),
        }
    }
}

impl Refusal for PullError {
    fn figure(&self) -> Option<&'static str> {
        match self {
            Self::Figure(figure) => figure.figure(),
            Self::DropTooLong { .. } => Some("drop"),
            Self::TooSlack => Some("pull"),
        }
    }
}

/// Errors that blame one figure only where that figure alone cannot be.
macro_rules! only_a_figure {
    ($($error:ty),*) => {
        $(impl Refusal for $error {
            fn figure(&self) -> Option<&'static str> {
                match self {
                    Self::Figure(figure) => figure.figure(),
                    _ => None,
                }
            }
        })*
    };
}

only_a_figure!(
    SharingError,
    CarryError,
    FourSidesError,
    GateError,
    LaserCheckError,
    TapeCheckError
);

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_figure_at_fault_is_the_one_in_the_text() {
        let error = CornerError::CannotClose {
            longest: "across tape",
            by: 100.0,
        };
        let figure = error.figure().expect("one tape is too long");
        assert!(error.to_string().contains(figure));
        assert_eq!(TwoTapesError::InLine.figure(), None);
        let error = SharingError::from(FigureError::NotANumber { what: "length" });
        assert_eq!(error.figure(), Some("length"));
    }
}

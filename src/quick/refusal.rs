//! Why figures were refused: in a sentence, its lengths in the person's own unit, and which one is
//! at fault.

use super::carry_level::CarryError;
use super::figure::FigureError;
use super::four_sides::FourSidesError;
use crate::length::Unit;

/// Why figures were refused.
pub trait Refusal: std::fmt::Display {
    /// The figure at fault, by the name that the text gives it; none where it is no single one.
    fn figure(&self) -> Option<&'static str>;

    /// What is wrong and what to do, its lengths in `unit`.
    fn said(&self, _unit: Unit) -> String {
        self.to_string()
    }
}

impl Refusal for FigureError {
    fn figure(&self) -> Option<&'static str> {
        match self {
            Self::NotANumber { what }
            | Self::NotPositive { what }
            | Self::Negative { what }
            | Self::TooLong { what }
            | Self::NotACorner { what, .. } => Some(what),
        }
    }
}

impl Refusal for CarryError {
    fn figure(&self) -> Option<&'static str> {
        match self {
            Self::Figure(figure) => figure.figure(),
            _ => None,
        }
    }
}

impl Refusal for FourSidesError {
    fn figure(&self) -> Option<&'static str> {
        match self {
            Self::Figure(figure) => figure.figure(),
            _ => None,
        }
    }
}

/// Makes an error of a [`Refusal`] with lengths in its text: by itself it is said in millimetres.
macro_rules! said_in_mm {
    ($error:ty) => {
        impl std::fmt::Display for $error {
            fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                f.write_str(&self.said(crate::length::Unit::Mm))
            }
        }

        impl std::error::Error for $error {}

        impl From<crate::quick::figure::FigureError> for $error {
            fn from(figure: crate::quick::figure::FigureError) -> Self {
                Self::Figure(figure)
            }
        }
    };
}
pub(crate) use said_in_mm;

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quick::bays::SharingError;
    use crate::quick::corner::CornerError;
    use crate::quick::two_tapes::TwoTapesError;

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

    #[test]
    fn lengths_are_said_in_the_persons_own_unit() {
        let error = CornerError::CannotClose {
            longest: "across tape",
            by: 304.8,
        };
        assert!(error.to_string().contains("is 305\u{a0}mm longer"));
        assert!(error.said(Unit::M).contains("is 0.305\u{a0}m longer"));
    }
}

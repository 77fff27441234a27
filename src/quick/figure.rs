//! Figures on the way in and on the way out, and the one check every typed figure passes.

pub(crate) use crate::adjust::BAND_95;

/// No plot is longer than this, mm; a longer figure is a slip of the units.
const LONGEST: f64 = 1e7;
/// Below this, mm, a length counts as nothing.
const SHORTEST: f64 = 0.01;
/// Angles closer than this to 0 or 180°, degrees, are straight lines, not corners.
pub(crate) const FLATTEST: f64 = 0.1;

/// A worked-out figure with how sure it is; units are those of the field that holds it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Figure {
    /// The figure itself.
    pub value: f64,
    /// Half the width of its 95 % band (1.96 s.d.), same units.
    pub pm: f64,
}

impl Figure {
    /// A figure from its value and its standard deviation, same units.
    #[must_use]
    pub fn new(value: f64, sd: f64) -> Self {
        Self {
            value,
            pm: BAND_95 * sd,
        }
    }

    /// The same figure times `factor`, its ± with it.
    #[must_use]
    pub fn scaled(self, factor: f64) -> Self {
        Self {
            value: self.value * factor,
            pm: self.pm * factor.abs(),
        }
    }

    /// The same figure moved by an exact `shift`; its ± stays.
    #[must_use]
    pub fn shifted(self, shift: f64) -> Self {
        Self {
            value: self.value + shift,
            ..self
        }
    }
}

/// One tape reading: its length, mm, and one standard deviation, mm (see
/// [`Tape::sd`](crate::job::model::Tape::sd)).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Taped {
    /// What the tape read, mm.
    pub length: f64,
    /// One standard deviation of it, mm; more than 0.
    pub sd: f64,
}

impl Taped {
    /// A reading of `length` mm, good to `sd` mm (1 s.d.).
    #[must_use]
    pub fn new(length: f64, sd: f64) -> Self {
        Self { length, sd }
    }

    pub(crate) fn check(self, what: &'static str) -> Result<Self, FigureError> {
        length(what, self.length)?;
        spread(self.sd)?;
        Ok(self)
    }
}

/// A typed figure that cannot be what it is meant to be.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum FigureError {
    /// Not a finite number.
    #[error("The {what} is not a number. Type it again.")]
    NotANumber {
        /// Which figure.
        what: &'static str,
    },
    /// Zero or less where a real length is needed.
    #[error("The {what} must be more than 0. Measure it again.")]
    NotPositive {
        /// Which figure.
        what: &'static str,
    },
    /// Less than zero where zero is the least.
    #[error("The {what} cannot be less than 0. Type it without the minus.")]
    Negative {
        /// Which figure.
        what: &'static str,
    },
    /// Beyond 10 km.
    #[error("The {what} is longer than any plot. Check the figure and its unit.")]
    TooLong {
        /// Which figure.
        what: &'static str,
    },
    /// An angle that is no corner.
    #[error(
        "The {what} must lie between 0 and 180 degrees, and reads {value}. \
         Give the angle inside the corner."
    )]
    NotACorner {
        /// Which figure.
        what: &'static str,
        /// What was typed, degrees.
        value: f64,
    },
}

/// Checks a length, mm, that must be more than nothing.
pub(crate) fn length(what: &'static str, value: f64) -> Result<f64, FigureError> {
    let value = signed(what, value)?;
    if value < SHORTEST {
        Err(FigureError::NotPositive { what })
    } else {
        Ok(value)
    }
}

/// Checks a length, mm, that may be nothing but not less.
pub(crate) fn length_or_nothing(what: &'static str, value: f64) -> Result<f64, FigureError> {
    let value = signed(what, value)?;
    if value < 0.0 {
        Err(FigureError::Negative { what })
    } else {
        Ok(value)
    }
}

/// Checks a length, mm, that may go either way.
pub(crate) fn signed(what: &'static str, value: f64) -> Result<f64, FigureError> {
    if !value.is_finite() {
        Err(FigureError::NotANumber { what })
    } else if value.abs() > LONGEST {
        Err(FigureError::TooLong { what })
    } else {
        Ok(value)
    }
}

/// Checks a standard deviation, mm: with none, no ± could be given.
pub(crate) fn spread(value: f64) -> Result<f64, FigureError> {
    length("accuracy of a reading", value)
}

/// Checks an inside angle, degrees.
pub(crate) fn inside_angle(what: &'static str, value: f64) -> Result<f64, FigureError> {
    if !value.is_finite() {
        Err(FigureError::NotANumber { what })
    } else if (FLATTEST..=180.0 - FLATTEST).contains(&value) {
        Ok(value)
    } else {
        Err(FigureError::NotACorner { what, value })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_refusal_says_what_and_what_to_do() {
        let text = |error: Result<f64, FigureError>| error.err().map(|e| e.to_string());
        assert_eq!(
            text(length("first leg", f64::NAN)).as_deref(),
            Some("The first leg is not a number. Type it again.")
        );
        assert_eq!(
            text(length("first leg", -3.0)).as_deref(),
            Some("The first leg must be more than 0. Measure it again.")
        );
        assert!(text(length("first leg", 3e9)).is_some_and(|t| t.contains("its unit")));
        assert!(text(inside_angle("wanted angle", 180.0)).is_some_and(|t| t.contains("inside")));
        assert_eq!(length_or_nothing("lap", 0.0), Ok(0.0));
        assert!(length_or_nothing("lap", -1.0).is_err());
    }
}

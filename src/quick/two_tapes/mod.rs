//! Where does a point stand that is taped from two marks, or which two tapes put it there?
//!
//! ```text
//!               * point          along: from the first mark towards the second
//!             / | \              off:   square off the base, to either side
//!     first /   |off\ second     the two swings cross at the angle between the tapes
//!         /     |     \
//!       P-------+-------Q
//!         along    base
//! ```

mod refusal;

pub use refusal::TwoTapesError;

use crate::quick::figure::{self, Figure, Taped};

/// Two marks and a tape from each to the point.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TwoTapes {
    /// Between the two marks.
    pub base: Taped,
    /// From the first mark to the point.
    pub from_first: Taped,
    /// From the second mark to the point.
    pub from_second: Taped,
}

/// Where the point is; the swings cross once on each side of the base, at the same figures.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TapedPoint {
    /// Along the base from the first mark, mm; less than 0 lies before it.
    pub along: Figure,
    /// Square off the base, mm, to the side the person chooses.
    pub off: Figure,
    /// Angle at which the two swings cross, degrees.
    pub crossing: f64,
}

/// Whether two swings cross well enough to trust.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TapesCrossing {
    /// Between 30 and 150°.
    Sound,
    /// Under 30°: the point is far off for so short a base.
    TooSharp,
    /// Over 150°: the point is almost on the base.
    TooFlat,
}

impl TapesCrossing {
    /// Judges a crossing of `degrees`.
    #[must_use]
    pub fn of(degrees: f64) -> Self {
        if degrees < 30.0 {
            Self::TooSharp
        } else if degrees > 150.0 {
            Self::TooFlat
        } else {
            Self::Sound
        }
    }

    /// The caution to show, if any.
    #[must_use]
    pub fn text(self) -> Option<&'static str> {
        match self {
            Self::Sound => None,
            Self::TooSharp => Some("The swings cross too sharply. Use two marks further apart."),
            Self::TooFlat => {
                Some("The swings barely cross. Use marks that are not in line with the point.")
            }
        }
    }
}

/// Where the point of two tapes lies (circle through circle), with its ±.
///
/// ```
/// use tautmark::quick::{Taped, two_tapes::{TwoTapes, point_by_tapes}};
/// let point = point_by_tapes(&TwoTapes {
///     base: Taped::new(5000.0, 1.0),
///     from_first: Taped::new(3000.0, 1.0),
///     from_second: Taped::new(4000.0, 1.0),
/// })?;
/// assert!((point.along.value - 1800.0).abs() < 1e-9);
/// assert!((point.off.value - 2400.0).abs() < 1e-9);
/// assert!((point.crossing - 90.0).abs() < 1e-9);
/// # Ok::<(), tautmark::quick::two_tapes::TwoTapesError>(())
/// ```
///
/// # Errors
/// [`TwoTapesError`] for figures that cannot be, swings that do not meet, or a point in line.
pub fn point_by_tapes(tapes: &TwoTapes) -> Result<TapedPoint, TwoTapesError> {
    let base = tapes.base.check("base between the marks")?;
    let first = tapes.from_first.check("tape from the first mark")?;
    let second = tapes.from_second.check("tape from the second mark")?;
    let (b, p, q) = (base.length, first.length, second.length);
    reach(b, p, q)?;
    let along = (b + (p - q) * (p + q) / b) / 2.0;
    let crossing = 2.0
        * ((b - p + q) * (b + p - q))
            .sqrt()
            .atan2(((p + q + b) * (p + q - b)).sqrt());
    in_line(crossing)?;
    let off = p * q * crossing.sin() / b;
    let along_by = [1.0 - along / b, p / b, -q / b];
    let [by_b, by_p, by_q] = along_by;
    let off_by = [
        -along * by_b / off,
        (p - along * by_p) / off,
        -along * by_q / off,
    ];
    let spread = |[b, p, q]: [f64; 3]| (b * base.sd).hypot(p * first.sd).hypot(q * second.sd);
    Ok(TapedPoint {
        along: Figure::new(along, spread(along_by)),
        off: Figure::new(off, spread(off_by)),
        crossing: crossing.to_degrees(),
    })
}

fn reach(base: f64, first: f64, second: f64) -> Result<(), TwoTapesError> {
    let short = base - first - second;
    if short > 0.0 {
        return Err(TwoTapesError::CannotReach { short });
    }
    let tapes = [
        ("tape from the first mark", first - second - base),
        ("tape from the second mark", second - first - base),
    ];
    match tapes.into_iter().find(|(_, by)| *by > 0.0) {
        Some((longer, by)) => Err(TwoTapesError::NeverCross { longer, by }),
        None => Ok(()),
    }
}

/// Refuses a crossing, radians, so flat that the point is as good as in line with the marks.
fn in_line(crossing: f64) -> Result<(), TwoTapesError> {
    let flattest = figure::FLATTEST.to_radians();
    if (flattest..=std::f64::consts::PI - flattest).contains(&crossing) {
        Ok(())
    } else {
        Err(TwoTapesError::InLine)
    }
}

/// The two tapes that put a point where it is wanted.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PointSwings {
    /// From the first mark, mm.
    pub from_first: f64,
    /// From the second mark, mm.
    pub from_second: f64,
    /// Angle at which they cross, degrees; judge it with [`TapesCrossing::of`].
    pub crossing: f64,
}

/// The two tapes to a point `along` mm along a base of `base` mm and `off` mm square off it.
///
/// ```
/// let swings = tautmark::quick::two_tapes::tapes_to(5000.0, 1800.0, 2400.0)?;
/// assert!((swings.from_first - 3000.0).abs() < 1e-9);
/// assert!((swings.from_second - 4000.0).abs() < 1e-9);
/// # Ok::<(), tautmark::quick::two_tapes::TwoTapesError>(())
/// ```
///
/// # Errors
/// [`TwoTapesError::Figure`] for figures that cannot be, [`TwoTapesError::InLine`] for a point on
/// the line of the base.
pub fn tapes_to(base: f64, along: f64, off: f64) -> Result<PointSwings, TwoTapesError> {
    let base = figure::length("base between the marks", base)?;
    let along = figure::signed("distance along the base", along)?;
    let off = figure::signed("distance off the base", off)?.abs();
    let crossing = (base * off).atan2(off * off - along * (base - along));
    in_line(crossing)?;
    Ok(PointSwings {
        from_first: along.hypot(off),
        from_second: (base - along).hypot(off),
        crossing: crossing.to_degrees(),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn taped(base: f64, first: f64, second: f64) -> Result<TapedPoint, TwoTapesError> {
        let [base, from_first, from_second] = [base, first, second].map(|l| Taped::new(l, 1.0));
        point_by_tapes(&TwoTapes {
            base,
            from_first,
            from_second,
        })
    }

    #[test]
    fn a_point_before_the_first_mark_is_negative_along() -> Result<(), TwoTapesError> {
        let swings = tapes_to(3000.0, -500.0, 1200.0)?;
        let point = taped(3000.0, swings.from_first, swings.from_second)?;
        assert!((point.along.value + 500.0).abs() < 1e-9);
        assert!((point.off.value - 1200.0).abs() < 1e-9);
        assert!((point.crossing - swings.crossing).abs() < 1e-9);
        Ok(())
    }

    #[test]
    fn a_square_crossing_is_as_sure_as_the_tapes() -> Result<(), TwoTapesError> {
        let mut tapes = TwoTapes {
            base: Taped::new(5000.0, 0.01),
            from_first: Taped::new(3000.0, 1.0),
            from_second: Taped::new(4000.0, 1.0),
        };
        let point = point_by_tapes(&tapes)?;
        // Square swings turn two independent millimetres into two independent millimetres.
        assert!((point.along.pm - 1.96).abs() < 1e-3 && (point.off.pm - 1.96).abs() < 1e-3);
        tapes.base = Taped::new(6980.0, 0.01);
        let flat = point_by_tapes(&tapes)?;
        assert_eq!(TapesCrossing::of(flat.crossing), TapesCrossing::TooFlat);
        assert!(flat.off.pm > 10.0);
        Ok(())
    }

    #[test]
    fn swings_that_do_not_meet_say_why() {
        assert_eq!(
            taped(5000.0, 2000.0, 2900.0),
            Err(TwoTapesError::CannotReach { short: 100.0 })
        );
        assert_eq!(
            taped(1000.0, 2000.0, 3100.0),
            Err(TwoTapesError::NeverCross {
                longer: "tape from the second mark",
                by: 100.0
            })
        );
        assert_eq!(taped(5000.0, 2000.0, 3000.0), Err(TwoTapesError::InLine));
        assert_eq!(tapes_to(5000.0, 2000.0, 0.0), Err(TwoTapesError::InLine));
        assert!(taped(5000.0, -1.0, 3000.0).is_err());
    }

    #[test]
    fn crossings_outside_thirty_to_one_fifty_are_cautioned() {
        assert_eq!(TapesCrossing::of(90.0).text(), None);
        assert!(
            TapesCrossing::of(29.0)
                .text()
                .is_some_and(|t| t.contains("further apart"))
        );
        assert!(
            TapesCrossing::of(151.0)
                .text()
                .is_some_and(|t| t.contains("in line"))
        );
    }
}

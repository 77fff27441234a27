//! What is the angle of this corner, from three tapes?
//!
//! ```text
//!        Q
//!        |\            first leg    corner to P
//! second | \ across    second leg   corner to Q
//!        |θ \          across       P to Q
//! corner +---P
//!        first         cos θ = (first² + second² − across²) / (2 first second)
//! ```

use super::bevel::{self, Bevel};
use super::figure::{self, Figure, Taped};
pub use super::triangle::CornerError;
use super::triangle::{Triangle, across};
use crate::length::{Unit, show_pm_with_unit};

/// The three tapes round a corner.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CornerTapes {
    /// From the corner along the first string or wall.
    pub first: Taped,
    /// From the corner along the second.
    pub second: Taped,
    /// From the end of the first leg to the end of the second.
    pub across: Taped,
}

/// A corner as taped.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TapedCorner {
    /// Inside angle, degrees.
    pub angle: Figure,
    /// Angle less 90, degrees: more than 0 is wider than square.
    pub off_square: Figure,
    /// How far the second leg runs out of square, mm in each metre, same sign as `off_square`.
    pub per_metre: Figure,
    /// How to cut two pieces that meet here.
    pub bevel: Bevel,
    /// The shorter of the two legs, mm.
    pub shorter_leg: f64,
}

/// What would make a taped corner surer.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum CornerHint {
    /// The legs are shorter than the run they steer: its far end is only sure to `sideways` mm.
    LongerLegs {
        /// ± of the run's far end, mm, square to the run.
        sideways: f64,
    },
    /// The triangle is so flat (under 20° or over 160°) that small slips turn it far.
    FlatTriangle,
}

impl CornerHint {
    /// The hint as a sentence, its lengths in `unit`.
    #[must_use]
    pub fn text(self, unit: Unit) -> String {
        match self {
            Self::LongerLegs { sideways } => format!(
                "The far end of the run is only sure to {}. Take legs as long as the run.",
                show_pm_with_unit(sideways, unit)
            ),
            Self::FlatTriangle => "The triangle is very flat, so a small slip turns it far. \
                 Tape to the string carried on past the corner instead."
                .to_owned(),
        }
    }
}

impl TapedCorner {
    /// How far sideways, ± mm, the end of a run of `run` mm steered by this angle may stand.
    #[must_use]
    pub fn sideways_at(&self, run: f64) -> f64 {
        run.abs() * self.angle.pm.to_radians()
    }

    /// What would make the angle good enough for a run of `run` mm, if anything.
    #[must_use]
    pub fn hint(&self, run: f64) -> Option<CornerHint> {
        if !(20.0..=160.0).contains(&self.angle.value) {
            return Some(CornerHint::FlatTriangle);
        }
        (self.shorter_leg < run).then(|| CornerHint::LongerLegs {
            sideways: self.sideways_at(run),
        })
    }
}

/// The angle of a corner from its two legs and the tape across them (law of cosines).
///
/// ```
/// use tautmark::quick::{Taped, corner::{CornerTapes, corner_by_tapes}};
/// let tapes = CornerTapes {
///     first: Taped::new(2000.0, 1.0),
///     second: Taped::new(2000.0, 1.0),
///     across: Taped::new(2905.0, 1.0),
/// };
/// let corner = corner_by_tapes(&tapes)?;
/// assert!((corner.angle.value - 93.15).abs() < 0.005);
/// assert!((corner.angle.pm - 0.12).abs() < 0.005);
/// assert!((corner.bevel.off_square - 43.43).abs() < 0.005);
/// # Ok::<(), tautmark::quick::corner::CornerError>(())
/// ```
///
/// # Errors
/// [`CornerError`] for figures that cannot be, tapes that cannot close, or a flat triangle.
pub fn corner_by_tapes(tapes: &CornerTapes) -> Result<TapedCorner, CornerError> {
    let first = tapes.first.check("first leg")?;
    let second = tapes.second.check("second leg")?;
    let across = tapes.across.check("across tape")?;
    let triangle = Triangle::new(first.length, second.length, across.length)?;
    let [by_first, by_second, by_across] = triangle.partials();
    let sd = (by_first * first.sd)
        .hypot(by_second * second.sd)
        .hypot(by_across * across.sd);
    let angle = Figure::new(triangle.angle.to_degrees(), sd.to_degrees());
    let off_square = angle.shifted(-90.0);
    let slant = off_square.value.to_radians();
    Ok(TapedCorner {
        angle,
        off_square,
        per_metre: Figure::new(1000.0 * slant.tan(), 1000.0 * sd / slant.cos().powi(2)),
        bevel: bevel::of_angle(angle.value),
        shorter_leg: first.length.min(second.length),
    })
}

/// What the tape across two legs must read.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Across {
    /// For the wanted angle, mm.
    pub wanted: f64,
    /// For a right angle, mm.
    pub square: f64,
    /// How far 1 mm more on the tape opens the wanted angle, degrees.
    pub degrees_per_mm: f64,
}

/// What the across tape must read for legs of `first` and `second` mm to stand at `angle` degrees.
///
/// ```
/// let tape = tautmark::quick::corner::across_for(4000.0, 3000.0, 100.0)?;
/// assert!((tape.wanted - 5401.0).abs() < 0.5);
/// assert!((tape.square - 5000.0).abs() < 1e-9);
/// # Ok::<(), tautmark::quick::corner::CornerError>(())
/// ```
///
/// # Errors
/// [`CornerError::Figure`] for a leg of nothing or an angle that is no corner.
pub fn across_for(first: f64, second: f64, angle: f64) -> Result<Across, CornerError> {
    let first = figure::length("first leg", first)?;
    let second = figure::length("second leg", second)?;
    let angle = figure::inside_angle("wanted angle", angle)?.to_radians();
    let wanted = across(first, second, angle);
    Ok(Across {
        wanted,
        square: first.hypot(second),
        degrees_per_mm: (wanted / (first * second * angle.sin())).to_degrees(),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn taped(first: f64, second: f64, across: f64, sd: f64) -> Result<TapedCorner, CornerError> {
        let [first, second, across] = [first, second, across].map(|l| Taped::new(l, sd));
        corner_by_tapes(&CornerTapes {
            first,
            second,
            across,
        })
    }

    #[test]
    fn four_and_three_metre_legs_at_known_angles() -> Result<(), CornerError> {
        for (angle, metres) in [
            (80.0, 4.564),
            (90.0, 5.0),
            (95.0, 5.205),
            (100.0, 5.401),
            (135.0, 6.478),
        ] {
            let tape = across_for(4000.0, 3000.0, angle)?;
            assert!(
                (tape.wanted / 1000.0 - metres).abs() < 0.0005,
                "{angle}: {}",
                tape.wanted
            );
        }
        let square = across_for(4000.0, 3000.0, 90.0)?;
        assert!((square.degrees_per_mm - 0.024).abs() < 0.0005);
        assert!((1000.0 * square.degrees_per_mm.to_radians() - 0.42).abs() < 0.005);
        Ok(())
    }

    #[test]
    fn longer_legs_make_surer_corners() -> Result<(), CornerError> {
        for (legs, sd) in [
            ((1000.0, 1000.0), 0.229),
            ((2000.0, 2000.0), 0.115),
            ((3000.0, 4000.0), 0.0675),
            ((6000.0, 8000.0), 0.0337),
        ] {
            let corner = taped(legs.0, legs.1, f64::hypot(legs.0, legs.1), 2.0)?;
            assert!(
                (corner.angle.pm / 1.96 - sd).abs() < 0.0006,
                "{:?}",
                corner.angle
            );
            assert!(corner.off_square.value.abs() < 1e-9);
        }
        Ok(())
    }

    #[test]
    fn hints_speak_of_short_legs_and_flat_triangles() -> Result<(), CornerError> {
        let corner = taped(2000.0, 2000.0, 2905.0, 1.0)?;
        assert_eq!(corner.hint(1900.0), None);
        let Some(CornerHint::LongerLegs { sideways }) = corner.hint(6000.0) else {
            panic!("a 6 m run needs longer legs than 2 m");
        };
        assert!((sideways - 6000.0 * corner.angle.pm.to_radians()).abs() < 1e-12);
        assert_eq!(
            taped(2000.0, 2000.0, 3990.0, 1.0)?.hint(500.0),
            Some(CornerHint::FlatTriangle)
        );
        Ok(())
    }

    #[test]
    fn per_metre_is_the_tangent() -> Result<(), CornerError> {
        let tape = across_for(1500.0, 1500.0, 104.3)?;
        let corner = taped(1500.0, 1500.0, tape.wanted, 1.0)?;
        assert!((corner.per_metre.value - 254.9).abs() < 0.1);
        Ok(())
    }

    #[test]
    fn tapes_that_cannot_close_are_named() {
        assert_eq!(
            taped(2000.0, 2000.0, 4100.0, 1.0),
            Err(CornerError::CannotClose {
                longest: "across tape",
                by: 100.0
            })
        );
        assert_eq!(
            taped(9000.0, 2000.0, 4100.0, 1.0),
            Err(CornerError::CannotClose {
                longest: "first leg",
                by: 2900.0
            })
        );
        assert_eq!(taped(2000.0, 2000.0, 4000.0, 1.0), Err(CornerError::Flat));
        assert!(taped(2000.0, f64::NAN, 4000.0, 1.0).is_err());
        assert!(taped(2000.0, 2000.0, 2800.0, 0.0).is_err());
    }
}

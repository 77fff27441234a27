//! The laser cannot see round the corner: where is its line after it was moved?
//!
//! ```text
//!   set-up 1 line  ------------|---- . . .
//!       | down                 | down 1        change point: sighted from both
//!     datum                  change point
//!                              | down 2        step = down 2 − down 1
//!                     . . . ---|------------   set-up 2 line (here lower: step < 0)
//! ```

use super::figure::{self, Figure, FigureError};
use crate::laser::LaserWorth;

/// One sight: a point as seen from a set-up.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LineSight {
    /// From the laser line down to the point, mm; less than 0 when the point is above the line.
    pub down: f64,
    /// From the laser to the point, mm.
    pub dist: f64,
}

/// A point sighted from both set-ups.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Shared {
    /// From the first set-up.
    pub first: LineSight,
    /// From the second set-up.
    pub second: LineSight,
}

/// Sights of two set-ups.
#[derive(Clone, Debug, PartialEq)]
pub struct TwoSetups {
    /// The datum from the first set-up.
    pub datum: LineSight,
    /// One change point or more.
    pub change_points: Vec<Shared>,
    /// The datum once more from the second set-up, where it can be seen.
    pub datum_again: Option<LineSight>,
}

/// A level carried to a second set-up.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Carried {
    /// The second line less the first, mm: less than 0, the second is lower.
    pub step: Figure,
    /// The second line above the datum, mm.
    pub line: Figure,
    /// What a second shared point shows; none while nothing checks the step.
    pub closure: Option<CarriedClosure>,
}

/// How well two shared points agree on the step.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CarriedClosure {
    /// Largest step less smallest, mm, never less than 0, with the ± that laser and reading explain.
    pub spread: Figure,
    /// Whether they explain it.
    pub closes: Closes,
}

/// Whether a check of levels closes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Closes {
    /// Within what the laser's accuracy and the readings explain.
    Yes,
    /// Beyond it: a sight is misread, a point or the laser has moved.
    No,
}

impl Closes {
    /// What to do about it, as a sentence.
    #[must_use]
    pub fn text(self) -> &'static str {
        match self {
            Self::Yes => "The levels close.",
            Self::No => {
                "The levels do not close, and the laser's accuracy does not explain it. Sight \
                 both points again from both places; do not share the difference out."
            }
        }
    }
}

/// Which way to measure from a laser line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum FromLine {
    /// This far down, mm.
    Down(Figure),
    /// This far up, mm.
    Up(Figure),
}

impl Carried {
    /// Where a mark that is `down` mm below the first line (above it if less than 0) is from the
    /// second line.
    #[must_use]
    pub fn from_second(&self, down: f64) -> FromLine {
        below(self.step.shifted(down))
    }

    /// Where a `height` mm above the datum is from the second line.
    #[must_use]
    pub fn to_height(&self, height: f64) -> FromLine {
        below(self.line.shifted(-height))
    }
}

fn below(down: Figure) -> FromLine {
    if down.value < 0.0 {
        FromLine::Up(Figure {
            value: -down.value,
            ..down
        })
    } else {
        FromLine::Down(down)
    }
}

/// Why a level cannot be carried.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum CarryError {
    /// A figure that cannot be.
    #[error(transparent)]
    Figure(#[from] FigureError),
    /// Nothing was sighted from both.
    #[error(
        "No point was sighted from both set-ups. Sight one fixed point from the first, and the \
         same point again after moving."
    )]
    NoChangePoint,
}

/// A value with its variance.
type Weighed = (f64, f64);

/// Carries a level from one set-up to the next; several shared points are averaged by weight.
///
/// ```
/// use tautmark::laser::LaserWorth;
/// use tautmark::quick::carry_level::{FromLine, LineSight, Shared, TwoSetups, carry_level};
/// let at = |down| LineSight { down, dist: 5000.0 };
/// let carried = carry_level(
///     &TwoSetups {
///         datum: at(412.0),
///         change_points: vec![Shared { first: at(655.0), second: at(618.0) }],
///         datum_again: None,
///     },
///     LaserWorth::default(),
/// )?;
/// assert_eq!(carried.step.value, -37.0);
/// assert!(matches!(carried.from_second(300.0), FromLine::Down(by) if by.value == 263.0));
/// # Ok::<(), tautmark::quick::carry_level::CarryError>(())
/// ```
///
/// # Errors
/// [`CarryError`] for figures that cannot be or no shared point.
pub fn carry_level(sights: &TwoSetups, laser: LaserWorth) -> Result<Carried, CarryError> {
    let laser = checked(laser)?;
    let datum = weighed(sights.datum, laser)?;
    let mut steps = sights
        .change_points
        .iter()
        .map(|point| {
            Ok(less(
                weighed(point.second, laser)?,
                weighed(point.first, laser)?,
            ))
        })
        .collect::<Result<Vec<Weighed>, FigureError>>()?;
    let by_change_points = mean(&steps);
    let again = sights
        .datum_again
        .map(|sight| weighed(sight, laser))
        .transpose()?;
    steps.extend(again.map(|again| less(again, datum)));
    let step = mean(&steps).ok_or(CarryError::NoChangePoint)?;
    // The datum seen again gives the second line outright, the change points by way of the first.
    let lines: Vec<Weighed> = by_change_points
        .map(|(step, variance)| (datum.0 + step, datum.1 + variance))
        .into_iter()
        .chain(again)
        .collect();
    let line = mean(&lines).ok_or(CarryError::NoChangePoint)?;
    Ok(Carried {
        step: Figure::new(step.0, step.1.sqrt()),
        line: Figure::new(line.0, line.1.sqrt()),
        closure: closure(&steps),
    })
}

pub(super) fn checked(laser: LaserWorth) -> Result<LaserWorth, FigureError> {
    figure::length("laser's accuracy", laser.accuracy)?;
    figure::spread(laser.reading)?;
    Ok(laser)
}

fn weighed(sight: LineSight, laser: LaserWorth) -> Result<Weighed, FigureError> {
    let down = figure::signed("sight", sight.down)?;
    let dist = figure::length("distance of a sight", sight.dist)?;
    Ok((down, laser.sd(dist).powi(2)))
}

fn less(one: Weighed, other: Weighed) -> Weighed {
    (one.0 - other.0, one.1 + other.1)
}

/// Weighted mean, reckoned from the first value so that one value stays exactly itself.
fn mean(values: &[Weighed]) -> Option<Weighed> {
    let (origin, _) = *values.first()?;
    let weight: f64 = values.iter().map(|(_, variance)| 1.0 / variance).sum();
    let sum: f64 = values
        .iter()
        .map(|(value, variance)| (value - origin) / variance)
        .sum();
    Some((origin + sum / weight, 1.0 / weight))
}

fn closure(steps: &[Weighed]) -> Option<CarriedClosure> {
    let by_value = |a: &&Weighed, b: &&Weighed| a.0.total_cmp(&b.0);
    let (low, high) = (
        steps.iter().min_by(by_value)?,
        steps.iter().max_by(by_value)?,
    );
    if steps.len() < 2 {
        return None;
    }
    let spread = Figure::new(high.0 - low.0, (high.1 + low.1).sqrt());
    let closes = if spread.value <= spread.pm {
        Closes::Yes
    } else {
        Closes::No
    };
    Some(CarriedClosure { spread, closes })
}

#[cfg(test)]
mod tests;

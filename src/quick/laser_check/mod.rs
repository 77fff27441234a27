//! Is the laser telling the truth?
//!
//! ```text
//!   two pegs                 A              [1]              B     [2]
//!   1 from the middle:       |<---- half --->|<---- half --->|
//!     both readings are wrong alike, so their difference is true
//!   2 from near or beyond one peg: the far reading is wrong by far more
//!
//!   turn-about               [laser]------------ R ----------|| wall
//!     mark the wall, turn the laser round, mark again: the marks differ by 2 e R
//! ```

mod refusal;

use super::carry_level::checked;
use super::figure::{self, BAND_95, Figure};
use crate::laser::LaserWorth;
use crate::length::{Unit, distance};
pub use refusal::LaserCheckError;

/// One of the two pegs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[expect(missing_docs, reason = "the letters are the pegs' names")]
pub enum Peg {
    A,
    B,
}

/// A figure at each peg, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AtPegs {
    /// At peg A.
    pub a: f64,
    /// At peg B.
    pub b: f64,
}

impl AtPegs {
    pub(super) fn difference(self) -> f64 {
        self.a - self.b
    }
}

/// A two-peg check. A larger reading means lower ground.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TwoPegs {
    /// Between the pegs, mm.
    pub base: f64,
    /// Readings from the middle: down from the line to each peg, mm.
    pub middle: AtPegs,
    /// Readings from the second place, mm.
    pub second: AtPegs,
    /// Distances from the second place to the pegs, mm.
    pub second_dist: AtPegs,
    /// Which peg is plainly the higher, where the person knows.
    pub higher: Option<Peg>,
}

/// What a two-peg check shows.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PegCheck {
    /// Slope error, mm per m: more than 0, the line climbs away from the laser.
    pub slope: Figure,
    /// Peg A above peg B, mm, free of the slope error; less than 0 it is lower.
    pub a_above_b: Figure,
    /// What the second place should have read, mm.
    pub true_second: AtPegs,
    /// Whether the laser keeps what it promises.
    pub verdict: LaserVerdict,
}

/// A slope error against the stated accuracy.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum LaserVerdict {
    /// Surely within it.
    Within,
    /// Surely beyond it.
    Beyond,
    /// The readings are not good enough to say.
    CannotTell {
        /// Difference of the two sights (or distance to the wall) that would tell, mm.
        longer: f64,
    },
}

impl LaserVerdict {
    /// What to do about it, as a sentence, its lengths in `unit`.
    #[must_use]
    pub fn text(self, unit: Unit) -> String {
        match self {
            Self::Within => "The laser keeps its stated accuracy.".to_owned(),
            Self::Beyond => "The laser is out by more than stated. Keep sights equal, or have it \
                 adjusted before you trust it."
                .to_owned(),
            Self::CannotTell { longer } => format!(
                "These readings cannot tell. Check again over {} or more, or read more finely.",
                distance(longer, unit)
            ),
        }
    }
}

/// The two-peg check of a level or laser:
/// slope error = ((a₂ − b₂) − (a₁ − b₁)) / (dist a₂ − dist b₂).
///
/// ```
/// use tautmark::laser::LaserWorth;
/// use tautmark::quick::laser_check::{AtPegs, LaserVerdict, TwoPegs, two_pegs};
/// let check = two_pegs(
///     &TwoPegs {
///         base: 50_000.0,
///         middle: AtPegs { a: 1283.0, b: 860.0 },
///         second: AtPegs { a: 1612.0, b: 1219.0 },
///         second_dist: AtPegs { a: 55_000.0, b: 5_000.0 },
///         higher: None,
///     },
///     LaserWorth { accuracy: 0.3, reading: 1.0 },
/// )?;
/// assert!((check.slope.value + 0.6).abs() < 1e-12);
/// assert_eq!(check.verdict, LaserVerdict::Beyond);
/// # Ok::<(), tautmark::quick::laser_check::LaserCheckError>(())
/// ```
///
/// # Errors
/// [`LaserCheckError`] for figures that cannot be, a second place that cannot show anything, and
/// readings that contradict each other or what is plain to see.
pub fn two_pegs(check: &TwoPegs, laser: LaserWorth) -> Result<PegCheck, LaserCheckError> {
    let laser = checked(laser)?;
    let sights = refusal::places(check)?;
    let slope = Figure::new(
        1000.0 * (check.second.difference() - check.middle.difference()) / sights,
        1000.0 * 2.0 * laser.reading / sights.abs(),
    );
    refusal::readings(check, sights, slope, laser)?;
    let rise = |dist: f64| slope.value * dist / 1000.0;
    Ok(PegCheck {
        slope,
        a_above_b: Figure::new(-check.middle.difference(), laser.reading * 2f64.sqrt()),
        true_second: AtPegs {
            a: check.second.a - rise(check.second_dist.a),
            b: check.second.b - rise(check.second_dist.b),
        },
        verdict: verdict(slope, laser, sights.abs()),
    })
}

/// What a turn-about check shows.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TurnAbout {
    /// Slope error, mm per m, in the direction of the first mark: more than 0 climbs.
    pub slope: Figure,
    /// The true level: this far, mm, above the first mark; less than 0 below it.
    pub level_above_first: Figure,
    /// Whether the laser keeps what it promises.
    pub verdict: LaserVerdict,
}

/// The turn-about check: two marks on a wall `dist` mm away, the laser turned through 180° between
/// them, the second `second_above_first` mm above the first; they differ by 2 e dist.
///
/// ```
/// use tautmark::laser::LaserWorth;
/// use tautmark::quick::laser_check::{LaserVerdict, turn_about};
/// let check = turn_about(-24.0, 20_000.0, LaserWorth::default())?;
/// assert!((check.slope.value - 0.6).abs() < 1e-12);
/// assert_eq!(check.verdict, LaserVerdict::Beyond);
/// # Ok::<(), tautmark::quick::laser_check::LaserCheckError>(())
/// ```
///
/// # Errors
/// [`LaserCheckError`] for figures that cannot be or marks further apart than any laser is out.
pub fn turn_about(
    second_above_first: f64,
    dist: f64,
    laser: LaserWorth,
) -> Result<TurnAbout, LaserCheckError> {
    let laser = checked(laser)?;
    let apart = figure::signed("height between the marks", second_above_first)?;
    let dist = figure::length("distance to the wall", dist)?;
    let level = Figure::new(apart / 2.0, laser.reading / 2f64.sqrt());
    let slope = level.scaled(-1000.0 / dist);
    if slope.value.abs() - slope.pm > refusal::WORST_LASER {
        return Err(LaserCheckError::Impossible { slope: slope.value });
    }
    Ok(TurnAbout {
        slope,
        level_above_first: level,
        verdict: verdict(slope, laser, dist),
    })
}

fn verdict(slope: Figure, laser: LaserWorth, over: f64) -> LaserVerdict {
    let out = slope.value.abs();
    if out - slope.pm > laser.accuracy {
        LaserVerdict::Beyond
    } else if out + slope.pm <= laser.accuracy {
        LaserVerdict::Within
    } else {
        // A slope right at the limit could never be told: a quarter of the limit is enough to know.
        let enough = (out - laser.accuracy).abs().max(laser.accuracy / 4.0);
        LaserVerdict::CannotTell {
            longer: over * (slope.pm / enough).max(1.5),
        }
    }
}

/// The largest difference two readings that should agree may show by chance, mm.
fn by_chance(laser: LaserWorth) -> f64 {
    BAND_95 * 2f64.sqrt() * laser.reading
}

#[cfg(test)]
mod tests;

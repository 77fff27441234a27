//! Readings of a laser check that cannot all be true, and why.

use super::{Peg, TwoPegs, by_chance};
use crate::laser::Laser;
use crate::quick::figure::{self, Figure, FigureError};

/// No laser in use is further out than this, mm per m; beyond it a reading is wrong.
pub(super) const WORST_LASER: f64 = 10.0;

/// Why a laser check is refused.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum LaserCheckError {
    /// A figure that cannot be.
    #[error(transparent)]
    Figure(#[from] FigureError),
    /// The second place cannot have those distances to both pegs.
    #[error(
        "The second place cannot be {a:.0} mm from A and {b:.0} mm from B with the pegs \
         {base:.0} mm apart. Measure those distances again."
    )]
    Misplaced {
        /// To A, mm.
        a: f64,
        /// To B, mm.
        b: f64,
        /// Between the pegs, mm.
        base: f64,
    },
    /// The second place is about as far from both.
    #[error(
        "The second place is nearly as far from one peg as from the other, where an error drops \
         out. Set up close to one peg, or just beyond it."
    )]
    NearMiddle,
    /// One set-up finds the pegs further apart in height than in distance.
    #[error(
        "The readings {place} put the pegs {apart:.0} mm apart in height, more than they stand \
         apart. One of the two is misread: read both again."
    )]
    TooSteep {
        /// Which set-up.
        place: &'static str,
        /// Height between the pegs, mm.
        apart: f64,
    },
    /// What is plain to see and what was read contradict each other.
    #[error(
        "You say peg {higher:?} is the higher, but its reading from the middle is the larger, and \
         a larger reading means lower ground. Check which reading belongs to which peg, and that \
         both were read downwards from the line."
    )]
    WrongPegHigher {
        /// The peg that is said to be higher.
        higher: Peg,
    },
    /// The second pair fits if its readings change places.
    #[error(
        "From the middle one peg is higher, from the second place the other: the second pair \
         fits if its two readings change places. Check which reading belongs to which peg."
    )]
    ChangedPlaces,
    /// The slope error would be larger than any laser's.
    #[error(
        "By these readings the laser would be out by {slope:.1} mm per m, which no laser is. \
         One of the readings is misread: read them all again."
    )]
    Impossible {
        /// Slope error, mm per m.
        slope: f64,
    },
}

/// Checks the places; gives the difference of the second set-up's sights, mm.
pub(super) fn places(check: &TwoPegs) -> Result<f64, LaserCheckError> {
    let base = figure::length("base between the pegs", check.base)?;
    let a = figure::length_or_nothing("distance to peg A", check.second_dist.a)?;
    let b = figure::length_or_nothing("distance to peg B", check.second_dist.b)?;
    // Distances are paced or taped along the ground: a twentieth is forgiven.
    if (a - b).abs() > 1.05 * base || a + b < 0.95 * base {
        return Err(LaserCheckError::Misplaced { a, b, base });
    }
    if (a - b).abs() < base / 4.0 {
        return Err(LaserCheckError::NearMiddle);
    }
    Ok(a - b)
}

/// Refuses readings that contradict each other or what is plain to see.
pub(super) fn readings(
    check: &TwoPegs,
    sights: f64,
    slope: Figure,
    laser: Laser,
) -> Result<(), LaserCheckError> {
    let pairs = [
        ("from the middle", check.middle),
        ("from the second place", check.second),
    ];
    for (place, pair) in pairs {
        figure::signed("reading at peg A", pair.a)?;
        figure::signed("reading at peg B", pair.b)?;
        let apart = pair.difference().abs();
        if apart > check.base {
            return Err(LaserCheckError::TooSteep { place, apart });
        }
    }
    let (middle, second) = (check.middle.difference(), check.second.difference());
    // A larger reading at A means that B is the higher.
    let read_higher = if middle > 0.0 { Peg::B } else { Peg::A };
    if let Some(higher) = check.higher
        && higher != read_higher
        && middle.abs() > by_chance(laser)
    {
        return Err(LaserCheckError::WrongPegHigher { higher });
    }
    let far_out = slope.value.abs() > 3.0 * (laser.accuracy + slope.pm);
    let changed = 1000.0 * (-second - middle) / sights;
    if middle * second < 0.0 && far_out && changed.abs() <= laser.accuracy + slope.pm {
        return Err(LaserCheckError::ChangedPlaces);
    }
    if slope.value.abs() - slope.pm > WORST_LASER {
        return Err(LaserCheckError::Impossible { slope: slope.value });
    }
    Ok(())
}

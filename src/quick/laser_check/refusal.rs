//! Readings of a laser check that cannot all be true, and why.

use super::{Peg, TwoPegs, by_chance};
use crate::laser::LaserWorth;
use crate::length::{Unit, show_with_unit};
use crate::quick::figure::{self, Figure, FigureError};
use crate::quick::refusal::{Refusal, said_in_mm};

/// No laser in use is further out than this, mm per m; beyond it a reading is wrong.
pub(super) const WORST_LASER: f64 = 10.0;

/// Why a laser check is refused.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum LaserCheckError {
    /// A figure that cannot be.
    Figure(FigureError),
    /// The second place cannot have those distances to both pegs.
    Misplaced {
        /// To A, mm.
        a: f64,
        /// To B, mm.
        b: f64,
        /// Between the pegs, mm.
        base: f64,
    },
    /// The second place is about as far from both.
    NearMiddle,
    /// One set-up finds the pegs further apart in height than in distance.
    TooSteep {
        /// Which set-up.
        place: &'static str,
        /// Height between the pegs, mm.
        apart: f64,
    },
    /// What is plain to see and what was read contradict each other.
    WrongPegHigher {
        /// The peg that is said to be higher.
        higher: Peg,
    },
    /// The second pair fits if its readings change places.
    ChangedPlaces,
    /// The slope error would be larger than any laser's.
    Impossible {
        /// Slope error, mm per m.
        slope: f64,
    },
}

impl Refusal for LaserCheckError {
    fn figure(&self) -> Option<&'static str> {
        match self {
            Self::Figure(figure) => figure.figure(),
            _ => None,
        }
    }

    fn said(&self, unit: Unit) -> String {
        match *self {
            Self::Figure(figure) => figure.said(unit),
            Self::Misplaced { a, b, base } => format!(
                "The second place cannot be {} from A and {} from B with the pegs {} apart. \
                 Measure those distances again.",
                show_with_unit(a, unit),
                show_with_unit(b, unit),
                show_with_unit(base, unit),
            ),
            Self::NearMiddle => {
                "The second place is nearly as far from one peg as from the other, \
                 where an error drops out. Set up close to one peg, or just beyond it."
                    .to_owned()
            }
            Self::TooSteep { place, apart } => format!(
                "The readings {place} put the pegs {} apart in height, more than they stand \
                 apart. One of the two is misread: read both again.",
                show_with_unit(apart, unit),
            ),
            Self::WrongPegHigher { higher } => format!(
                "You say peg {higher:?} is the higher, but its reading from the middle is the \
                 larger, and a larger reading means lower ground. Check which reading belongs to \
                 which peg, and that both were read downwards from the line."
            ),
            Self::ChangedPlaces => "From the middle one peg is higher, from the second place the \
                 other: the second pair fits if its two readings change places. Check which \
                 reading belongs to which peg."
                .to_owned(),
            Self::Impossible { slope } => format!(
                "By these readings the laser would be out by {slope:.1} mm per m, which no laser \
                 is. One of the readings is misread: read them all again."
            ),
        }
    }
}

said_in_mm!(LaserCheckError);

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
    laser: LaserWorth,
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

//! What shape six agreeing tapes make, and what would make it a rectangle.

use super::closure::{Adjusted, Six, triangle};
use super::{FourSidesError, Layout};
use crate::quick::figure::Figure;
use crate::quick::triangle::Triangle;

/// A corner of the figure.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[expect(missing_docs, reason = "the letters are the corners' names")]
pub enum CornerName {
    A,
    B,
    C,
    D,
}

/// A side of the figure.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[expect(missing_docs, reason = "each is named for its two corners")]
pub enum SideName {
    AB,
    BC,
    CD,
    DA,
}

/// What the figure is, as far as its tapes can tell (each comparison at 99 %).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FourSidedShape {
    /// Both pairs of sides parallel and every corner square.
    Rectangle,
    /// Both pairs of sides parallel, corners not square.
    Parallelogram,
    /// One pair of sides parallel.
    Trapezium {
        /// The two parallel sides.
        parallel: [SideName; 2],
        /// Whether its diagonals are alike, which makes people take it for a rectangle.
        diagonals: Diagonals,
    },
    /// No two sides parallel.
    Other,
}

/// Whether two diagonals are alike, as far as their tapes can tell.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Diagonals {
    /// Equal within their ±.
    Equal,
    /// Not equal.
    Unequal,
}

impl FourSidedShape {
    /// The shape as a sentence.
    #[must_use]
    pub fn text(self) -> &'static str {
        match self {
            Self::Rectangle => "A rectangle, as near as these tapes can tell.",
            Self::Parallelogram => {
                "A parallelogram: opposite sides are parallel, corners are not square."
            }
            Self::Trapezium {
                diagonals: Diagonals::Equal,
                ..
            } => "A trapezium, not a rectangle: equal diagonals alone do not make it square.",
            Self::Trapezium {
                diagonals: Diagonals::Unequal,
                ..
            } => "A trapezium: only two of its sides are parallel.",
            Self::Other => "No two sides are parallel.",
        }
    }
}

/// Slide one side along itself, its opposite side staying where it is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Slide {
    /// The side to slide.
    pub side: SideName,
    /// The end of that side it moves towards.
    pub towards: CornerName,
    /// How far, mm: D · d / (2a), with D the difference of the diagonals and d their mean.
    pub by: Figure,
    /// What both diagonals read afterwards, mm.
    pub diagonal: f64,
}

/// The way from what lies there to a rectangle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum ToRectangle {
    /// Nothing to do that these tapes could show.
    Already,
    /// Either of two slides squares it. Half the difference of the diagonals is not the slide.
    Slide {
        /// Slide side CD, or else side BC.
        either: [Slide; 2],
        /// What both diagonals read if instead all sides keep their lengths and the frame is
        /// pushed square, mm.
        pushed: f64,
    },
    /// Opposite sides must first be made equal.
    SidesFirst {
        /// What both diagonals then read if the shorter of each pair is made as long as its
        /// opposite, mm.
        diagonal: f64,
    },
}

/// Half width of a 99 % band in standard deviations: several comparisons are made at once.
const BAND_99: f64 = 2.58;

/// An angle or a sum of angles, degrees, with what it depends on.
#[derive(Clone, Copy)]
struct Turning {
    degrees: f64,
    partials: Six,
}

impl Turning {
    fn plus(self, other: Self) -> Self {
        let mut partials = self.partials;
        for (sum, more) in partials.iter_mut().zip(other.partials) {
            *sum += more;
        }
        Self {
            degrees: self.degrees + other.degrees,
            partials,
        }
    }

    fn is(self, degrees: f64, adjusted: &Adjusted) -> bool {
        (self.degrees - degrees).abs() <= BAND_99 * adjusted.sd(&self.partials)
    }
}

/// The inside angles at A, B, C and D: each between its two sides, across from a diagonal.
fn corners(&[ab, bc, cd, da, ac, bd]: &Six) -> Result<[Turning; 4], FourSidesError> {
    let a = triangle(ab, da, bd, "A, B and D")?;
    let b = triangle(ab, bc, ac, "A, B and C")?;
    let c = triangle(bc, cd, bd, "B, C and D")?;
    let d = triangle(cd, da, ac, "A, C and D")?;
    let turning = |t: Triangle, place: fn([f64; 3]) -> Six| Turning {
        degrees: t.angle.to_degrees(),
        partials: place(t.partials().map(f64::to_degrees)),
    };
    Ok([
        turning(a, |[ab, da, bd]| [ab, 0.0, 0.0, da, 0.0, bd]),
        turning(b, |[ab, bc, ac]| [ab, bc, 0.0, 0.0, ac, 0.0]),
        turning(c, |[bc, cd, bd]| [0.0, bc, cd, 0.0, 0.0, bd]),
        turning(d, |[cd, da, ac]| [0.0, 0.0, cd, da, ac, 0.0]),
    ])
}

pub(super) fn layout(adjusted: &Adjusted) -> Result<Layout, FourSidesError> {
    let at = corners(&adjusted.lengths)?;
    // Where a corner points inwards the four triangle angles no longer go once round.
    if (at.iter().map(|t| t.degrees).sum::<f64>() - 360.0).abs() > 1e-3 {
        return Err(FourSidesError::NotConvex);
    }
    let shape = shape(&at, adjusted);
    Ok(Layout {
        angles: at.map(|t| Figure::new(t.degrees, adjusted.sd(&t.partials))),
        shape,
        to_rectangle: to_rectangle(shape, adjusted),
    })
}

fn shape(at: &[Turning; 4], adjusted: &Adjusted) -> FourSidedShape {
    let [a, b, _, d] = *at;
    let ab_with_cd = d.plus(a).is(180.0, adjusted);
    let bc_with_da = a.plus(b).is(180.0, adjusted);
    match (ab_with_cd, bc_with_da) {
        (true, true) if at.iter().all(|t| t.is(90.0, adjusted)) => FourSidedShape::Rectangle,
        (true, true) => FourSidedShape::Parallelogram,
        (true, false) => trapezium([SideName::AB, SideName::CD], adjusted),
        (false, true) => trapezium([SideName::BC, SideName::DA], adjusted),
        (false, false) => FourSidedShape::Other,
    }
}

fn trapezium(parallel: [SideName; 2], adjusted: &Adjusted) -> FourSidedShape {
    let [.., ac, bd] = adjusted.lengths;
    let sd = adjusted.sd(&[0.0, 0.0, 0.0, 0.0, 1.0, -1.0]);
    let diagonals = if (ac - bd).abs() <= BAND_99 * sd {
        Diagonals::Equal
    } else {
        Diagonals::Unequal
    };
    FourSidedShape::Trapezium {
        parallel,
        diagonals,
    }
}

fn to_rectangle(shape: FourSidedShape, adjusted: &Adjusted) -> ToRectangle {
    let [ab, bc, cd, da, ..] = adjusted.lengths;
    match shape {
        FourSidedShape::Rectangle => ToRectangle::Already,
        FourSidedShape::Parallelogram => {
            let (a, b) = ((ab + cd) / 2.0, (bc + da) / 2.0);
            ToRectangle::Slide {
                either: [
                    slide(adjusted, (SideName::CD, CornerName::D), (a, b)),
                    slide(adjusted, (SideName::BC, CornerName::B), (b, a)),
                ],
                pushed: a.hypot(b),
            }
        }
        FourSidedShape::Trapezium { .. } | FourSidedShape::Other => ToRectangle::SidesFirst {
            diagonal: ab.max(cd).hypot(bc.max(da)),
        },
    }
}

/// Slides `side` (of length `a`, between the two sides of length `b`) so that the longer diagonal
/// shrinks; `beside` is that side's end other than C.
fn slide(adjusted: &Adjusted, (side, beside): (SideName, CornerName), (a, b): (f64, f64)) -> Slide {
    let [.., ac, bd] = adjusted.lengths;
    let by = (ac - bd) * (ac + bd) / 2.0 / (2.0 * a);
    let half = -by / (2.0 * a);
    let sides = match side {
        SideName::AB | SideName::CD => [half, 0.0, half, 0.0],
        SideName::BC | SideName::DA => [0.0, half, 0.0, half],
    };
    let [s0, s1, s2, s3] = sides;
    let sd = adjusted.sd(&[s0, s1, s2, s3, ac / (2.0 * a), -bd / (2.0 * a)]);
    Slide {
        side,
        towards: if by > 0.0 { beside } else { CornerName::C },
        by: Figure::new(by.abs(), sd),
        diagonal: a.hypot((b * b - by * by).max(0.0).sqrt()),
    }
}

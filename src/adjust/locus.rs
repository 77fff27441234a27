//! Where a mark may lie for one reading to come out right: on a circle or on a straight line.

use super::equation::Equation;
use super::mark::{At, place};
use super::system::Observation;

/// Where one mark may lie, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Locus {
    Circle { centre: [f64; 2], radius: f64 },
    Line { through: [f64; 2], along: [f64; 2] },
}

/// The loci of `mark` that one reading gives while its other marks stay where `x` has them.
///
/// An angle is unsigned, and a line is seen at a distance from either side, so there may be two.
pub(super) fn loci(reading: &Observation, mark: At, x: &[f64]) -> impl Iterator<Item = Locus> {
    let read = reading.value;
    let found = match reading.equation {
        Equation::Distance { from, to } => {
            let centre = place(x, if mark == from { to } else { from });
            [
                (read > 0.0).then_some(Locus::Circle {
                    centre,
                    radius: read,
                }),
                None,
            ]
        }
        Equation::Offset {
            mark: off,
            from,
            to,
        } if mark == off => [beside(place(x, from), place(x, to), read), None],
        Equation::Offset {
            mark: off,
            from,
            to,
        } => {
            let pivot = if mark == to { from } else { to };
            passing(place(x, pivot), place(x, off), read)
        }
        Equation::Angle { from, at, to } if mark == at => seen(place(x, from), place(x, to), read),
        Equation::Angle { from, at, to } => {
            let other = if mark == from { to } else { from };
            turned(place(x, at), place(x, other), read)
        }
        Equation::Drop { .. } => [None; 2],
    };
    found.into_iter().flatten()
}

/// Parallel to the line from `a` to `b`, so far to its left.
fn beside(a: [f64; 2], b: [f64; 2], left: f64) -> Option<Locus> {
    let along = unit(a, b)?;
    let through = [a[0] - along[1] * left, a[1] + along[0] * left];
    Some(Locus::Line { through, along })
}

/// Through `pivot`, such that `mark` is so far to one side of it.
fn passing(pivot: [f64; 2], mark: [f64; 2], left: f64) -> [Option<Locus>; 2] {
    let Some(sight) = unit(pivot, mark) else {
        return [None; 2];
    };
    let sin = (left / apart(pivot, mark)).clamp(-1.0, 1.0);
    let cos = (1.0 - sin * sin).sqrt();
    [cos, -cos].map(|cos| {
        let along = rotated(sight, -sin, cos);
        Some(Locus::Line {
            through: pivot,
            along,
        })
    })
}

/// Through `at`, at so many degrees to either side of the sight to `other`.
fn turned(at: [f64; 2], other: [f64; 2], degrees: f64) -> [Option<Locus>; 2] {
    let (sin, cos) = degrees.to_radians().sin_cos();
    let sight = unit(at, other);
    [sin, -sin].map(|sin| {
        let along = rotated(sight?, sin, cos);
        Some(Locus::Line { through: at, along })
    })
}

/// From where `a` and `b` are seen so many degrees apart (the inscribed angle).
fn seen(a: [f64; 2], b: [f64; 2], degrees: f64) -> [Option<Locus>; 2] {
    let chord = apart(a, b);
    let Some(along) = unit(a, b) else {
        return [None; 2];
    };
    let (sin, cos) = degrees.to_radians().sin_cos();
    // Seen under nothing or straight: on the line through both.
    if sin.abs() < 1e-3 {
        return [Some(Locus::Line { through: a, along }), None];
    }
    let (radius, rise) = (chord / (2.0 * sin), chord * cos / (2.0 * sin));
    let middle = [f64::midpoint(a[0], b[0]), f64::midpoint(a[1], b[1])];
    [rise, -rise].map(|rise| {
        let centre = [middle[0] - along[1] * rise, middle[1] + along[0] * rise];
        Some(Locus::Circle { centre, radius })
    })
}

impl Locus {
    /// The place on it nearest to a point.
    pub fn nearest(self, to: [f64; 2]) -> [f64; 2] {
        match self {
            Self::Circle { centre, radius } => {
                let [ux, uy] = unit(centre, to).unwrap_or([1.0, 0.0]);
                [centre[0] + radius * ux, centre[1] + radius * uy]
            }
            Self::Line { through, along } => {
                let far = (to[0] - through[0]) * along[0] + (to[1] - through[1]) * along[1];
                [through[0] + far * along[0], through[1] + far * along[1]]
            }
        }
    }

    /// Where two loci cross; where they only just miss each other, the place between.
    pub fn crossings(self, other: Self) -> impl Iterator<Item = [f64; 2]> {
        match (self, other) {
            (
                Self::Circle { centre, radius },
                Self::Circle {
                    centre: c,
                    radius: r,
                },
            ) => circles(centre, radius, c, r),
            (Self::Circle { centre, radius }, Self::Line { through, along })
            | (Self::Line { through, along }, Self::Circle { centre, radius }) => {
                circle_and_line(centre, radius, through, along)
            }
            (
                Self::Line { through, along },
                Self::Line {
                    through: t,
                    along: a,
                },
            ) => [lines(through, along, t, a), None],
        }
        .into_iter()
        .flatten()
    }
}

fn circles(a: [f64; 2], r: f64, b: [f64; 2], s: f64) -> [Option<[f64; 2]>; 2] {
    let Some([ux, uy]) = unit(a, b) else {
        return [None; 2];
    };
    let d = apart(a, b);
    let along = (d * d + r * r - s * s) / (2.0 * d);
    let across = (r * r - along * along).max(0.0).sqrt();
    let foot = [a[0] + along * ux, a[1] + along * uy];
    [across, -across].map(|across| Some([foot[0] - across * uy, foot[1] + across * ux]))
}

fn circle_and_line(
    centre: [f64; 2],
    radius: f64,
    through: [f64; 2],
    along: [f64; 2],
) -> [Option<[f64; 2]>; 2] {
    let foot = Locus::Line { through, along }.nearest(centre);
    let off = apart(centre, foot);
    let half = (radius * radius - off * off).max(0.0).sqrt();
    [half, -half].map(|half| Some([foot[0] + half * along[0], foot[1] + half * along[1]]))
}

fn lines(p: [f64; 2], u: [f64; 2], q: [f64; 2], w: [f64; 2]) -> Option<[f64; 2]> {
    let cross = u[0] * w[1] - u[1] * w[0];
    // Nearly parallel lines cross nowhere that helps.
    if cross.abs() < 1e-6 {
        return None;
    }
    let far = ((q[0] - p[0]) * w[1] - (q[1] - p[1]) * w[0]) / cross;
    Some([p[0] + far * u[0], p[1] + far * u[1]])
}

pub(super) fn apart(a: [f64; 2], b: [f64; 2]) -> f64 {
    let (dx, dy) = (a[0] - b[0], a[1] - b[1]);
    (dx * dx + dy * dy).sqrt()
}

pub(super) fn unit(a: [f64; 2], b: [f64; 2]) -> Option<[f64; 2]> {
    let length = apart(a, b);
    (length > 0.0 && length.is_finite()).then(|| [(b[0] - a[0]) / length, (b[1] - a[1]) / length])
}

fn rotated([x, y]: [f64; 2], sin: f64, cos: f64) -> [f64; 2] {
    [x * cos - y * sin, x * sin + y * cos]
}

#[cfg(test)]
mod tests {
    use super::*;
    use rand::{RngExt, SeedableRng, rngs::StdRng};

    /// Every place on a locus makes the reading come out right.
    #[test]
    fn each_locus_is_where_the_reading_holds() {
        let mut rng = StdRng::seed_from_u64(4);
        let [a, b, c] = [0, 1, 2].map(At::nth);
        for _ in 0..200 {
            let x: Vec<f64> = (0..6).map(|_| rng.random_range(-5000.0..5000.0)).collect();
            for equation in [
                Equation::Distance { from: a, to: b },
                Equation::Offset {
                    mark: a,
                    from: b,
                    to: c,
                },
                Equation::Angle {
                    from: a,
                    at: b,
                    to: c,
                },
            ] {
                let reading = Observation {
                    equation,
                    value: equation.value(&x),
                    sd: 1.0,
                };
                for mark in equation.marks() {
                    let here = place(&x, mark);
                    let off = loci(&reading, mark, &x)
                        .map(|locus| apart(locus.nearest(here), here))
                        .fold(f64::INFINITY, f64::min);
                    assert!(off < 1e-5, "{equation:?} {mark:?} is {off} off");
                }
            }
        }
    }

    #[test]
    fn crossings_lie_on_both() {
        let circle = |x, y, radius| Locus::Circle {
            centre: [x, y],
            radius,
        };
        let line = |through, along| Locus::Line { through, along };
        for (one, other, count) in [
            (circle(0.0, 0.0, 5.0), circle(6.0, 0.0, 5.0), 2),
            (circle(0.0, 0.0, 5.0), line([0.0, 3.0], [1.0, 0.0]), 2),
            (
                line([0.0, 3.0], [1.0, 0.0]),
                line([4.0, 0.0], [0.6, 0.8]),
                1,
            ),
        ] {
            assert_eq!(one.crossings(other).count(), count);
            for at in one.crossings(other) {
                assert!(apart(one.nearest(at), at) < 1e-9);
                assert!(apart(other.nearest(at), at) < 1e-9);
            }
        }
    }

    #[test]
    fn what_just_misses_meets_between() {
        let small = Locus::Circle {
            centre: [0.0, 0.0],
            radius: 4.0,
        };
        let next = Locus::Circle {
            centre: [10.0, 0.0],
            radius: 5.8,
        };
        for at in small.crossings(next) {
            assert!(apart(at, [4.1, 0.0]) < 0.2, "{at:?}");
        }
    }
}

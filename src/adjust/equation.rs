use super::mark::{At, Param, coordinate, place};

/// What a reading ought to equal.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Equation {
    /// Straight from one mark to another, mm.
    Distance {
        /// One end of the tape.
        from: At,
        /// The other end.
        to: At,
    },
    /// Square off the line through `from` and `to`, mm, left of its direction positive.
    Offset {
        /// The mark that lies off the line.
        mark: At,
        /// Where the line starts.
        from: At,
        /// Where the line is heading.
        to: At,
    },
    /// The corner at `at` between the marks `from` and `to`, unsigned, 0 to 180 degrees.
    Angle {
        /// The mark sighted first.
        from: At,
        /// The corner.
        at: At,
        /// The mark sighted second.
        to: At,
    },
    /// How far a point is below a laser line, mm.
    Drop {
        /// Height of the laser line.
        line: Param,
        /// Height of the point.
        point: Param,
    },
}

/// An equation at given parameters: its value and its slope in each parameter it has.
#[derive(Clone, Copy, Debug)]
pub(super) struct Linear {
    pub value: f64,
    terms: [(Param, f64); 6],
    count: usize,
}

impl Linear {
    pub fn new(value: f64) -> Self {
        Self {
            value,
            terms: [(Param(0), 0.0); 6],
            count: 0,
        }
    }

    /// With one more term; there is room for six.
    pub fn and(mut self, param: Param, slope: f64) -> Self {
        if let Some(term) = self.terms.get_mut(self.count) {
            *term = (param, slope);
            self.count += 1;
        }
        self
    }

    fn with(self, at: At, slope: [f64; 2]) -> Self {
        self.and(at.x, slope[0]).and(at.y, slope[1])
    }

    /// Parameter and slope, unit of the equation per mm.
    pub fn terms(&self) -> &[(Param, f64)] {
        &self.terms[..self.count]
    }
}

/// Below this two marks count as one and have no direction between them, mm.
const COINCIDENT: f64 = 1e-6;

impl Equation {
    /// Value at the parameters `x`: mm, or degrees for an angle. Parameters that `x` lacks count
    /// as 0; marks that coincide give 0.
    #[must_use]
    pub fn value(&self, x: &[f64]) -> f64 {
        match *self {
            Self::Distance { from, to } => between(x, from, to).length,
            Self::Drop { line, point } => coordinate(x, line) - coordinate(x, point),
            Self::Offset { .. } | Self::Angle { .. } => self.linear(x).value,
        }
    }

    /// Value and slopes. Where marks coincide and a slope has no direction, it is along the first
    /// axis for a distance and nothing for the others.
    pub(super) fn linear(&self, x: &[f64]) -> Linear {
        match *self {
            Self::Distance { from, to } => {
                let reach = between(x, from, to);
                let [ux, uy] = reach.unit.unwrap_or([1.0, 0.0]);
                Linear::new(reach.length)
                    .with(from, [-ux, -uy])
                    .with(to, [ux, uy])
            }
            Self::Offset { mark, from, to } => offset(x, mark, from, to),
            Self::Angle { from, at, to } => angle(x, from, at, to),
            Self::Drop { line, point } => Linear::new(coordinate(x, line) - coordinate(x, point))
                .and(line, 1.0)
                .and(point, -1.0),
        }
    }

    /// The marks in the equation; none for a drop.
    pub(super) fn marks(self) -> impl Iterator<Item = At> {
        match self {
            Self::Distance { from, to } => [Some(from), Some(to), None],
            Self::Offset { mark, from, to } => [Some(mark), Some(from), Some(to)],
            Self::Angle { from, at, to } => [Some(from), Some(at), Some(to)],
            Self::Drop { .. } => [None; 3],
        }
        .into_iter()
        .flatten()
    }
}

struct Reach {
    length: f64,
    unit: Option<[f64; 2]>,
}

fn between(x: &[f64], from: At, to: At) -> Reach {
    let ([ax, ay], [bx, by]) = (place(x, from), place(x, to));
    let (dx, dy) = (bx - ax, by - ay);
    // No site is so large that its square runs over.
    let length = (dx * dx + dy * dy).sqrt();
    Reach {
        length,
        unit: (length > COINCIDENT).then(|| [dx / length, dy / length]),
    }
}

fn offset(x: &[f64], mark: At, from: At, to: At) -> Linear {
    let line = between(x, from, to);
    let Some([tx, ty]) = line.unit else {
        return Linear::new(0.0)
            .with(mark, [0.0; 2])
            .with(from, [0.0; 2])
            .with(to, [0.0; 2]);
    };
    let ([px, py], [ax, ay]) = (place(x, mark), place(x, from));
    let (dx, dy) = (px - ax, py - ay);
    let along = (dx * tx + dy * ty) / line.length;
    // Swinging the line about one end moves it under the mark in proportion to `along`.
    let slope = |share: f64| [-ty * share, tx * share];
    Linear::new(tx * dy - ty * dx)
        .with(mark, slope(1.0))
        .with(from, slope(along - 1.0))
        .with(to, slope(-along))
}

fn angle(x: &[f64], from: At, at: At, to: At) -> Linear {
    let (first, second) = (between(x, at, from), between(x, at, to));
    let (Some([ux, uy]), Some([wx, wy])) = (first.unit, second.unit) else {
        return Linear::new(0.0)
            .with(from, [0.0; 2])
            .with(at, [0.0; 2])
            .with(to, [0.0; 2]);
    };
    let turn = (ux * wy - uy * wx).atan2(ux * wx + uy * wy);
    let sign = if turn < 0.0 { -1.0 } else { 1.0 };
    // A mark moved square to its arm swings the arm by 1/length radians per mm.
    let swing = |[ux, uy]: [f64; 2], length: f64, sign: f64| {
        let rate = sign.to_degrees() / length;
        [-uy * rate, ux * rate]
    };
    let of_from = swing([ux, uy], first.length, -sign);
    let of_to = swing([wx, wy], second.length, sign);
    Linear::new(turn.abs().to_degrees())
        .with(from, of_from)
        .with(at, [-of_from[0] - of_to[0], -of_from[1] - of_to[1]])
        .with(to, of_to)
}

#[cfg(test)]
mod tests {
    use super::*;
    use rand::{RngExt, SeedableRng, rngs::StdRng};

    const A: At = At::nth(0);
    const B: At = At::nth(1);
    const C: At = At::nth(2);

    #[test]
    fn worked_figures() {
        let x = [0.0, 0.0, 4000.0, 0.0, 3000.0, 4000.0];
        let distance = Equation::Distance { from: A, to: C };
        assert_eq!(distance.value(&x), 5000.0);
        let left = Equation::Offset {
            mark: C,
            from: A,
            to: B,
        };
        assert_eq!(left.value(&x), 4000.0);
        let right = Equation::Offset {
            mark: C,
            from: B,
            to: A,
        };
        assert_eq!(right.value(&x), -4000.0);
        let angle = Equation::Angle {
            from: B,
            at: A,
            to: C,
        };
        // The 3-4-5 triangle.
        assert!((angle.value(&x) - 53.130_102_354_155_98).abs() < 1e-12);
        let drop = Equation::Drop {
            line: Param(2),
            point: Param(4),
        };
        assert_eq!(drop.value(&x), 1000.0);
    }

    #[test]
    fn slopes_are_the_finite_differences() {
        let mut rng = StdRng::seed_from_u64(1);
        for _ in 0..200 {
            let x: Vec<f64> = (0..6).map(|_| rng.random_range(-5000.0..5000.0)).collect();
            for equation in [
                Equation::Distance { from: A, to: B },
                Equation::Offset {
                    mark: A,
                    from: B,
                    to: C,
                },
                Equation::Angle {
                    from: A,
                    at: B,
                    to: C,
                },
                Equation::Drop {
                    line: Param(0),
                    point: Param(5),
                },
            ] {
                check_slopes(equation, &x);
            }
        }
    }

    fn check_slopes(equation: Equation, x: &[f64]) {
        const STEP: f64 = 1e-2;
        for &(param, slope) in equation.linear(x).terms() {
            let moved = |by: f64| {
                let mut x = x.to_vec();
                x[param.0] += by;
                equation.value(&x)
            };
            let difference = (moved(STEP) - moved(-STEP)) / (2.0 * STEP);
            assert!(
                (difference - slope).abs() < 1e-5 * slope.abs().max(1.0),
                "{equation:?} in {param:?}: {slope} but {difference}"
            );
        }
    }

    #[test]
    fn coincident_marks_give_finite_values_and_slopes() {
        for equation in [
            Equation::Distance { from: A, to: B },
            Equation::Offset {
                mark: A,
                from: B,
                to: C,
            },
            Equation::Angle {
                from: A,
                at: B,
                to: C,
            },
        ] {
            let linear = equation.linear(&[7.0; 6]);
            assert_eq!(linear.value, 0.0);
            assert!(linear.terms().iter().all(|(_, slope)| slope.is_finite()));
        }
    }
}

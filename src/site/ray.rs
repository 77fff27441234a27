//! A straight line with a direction.

use nalgebra::Vector2;

/// Lines that turn less than this onto each other count as parallel, degrees.
pub const LEAST_TURN: f64 = 0.1;

/// A point and a unit direction; lengths mm, left positive.
///
/// ```text
///            off > 0 (left)
///   through ─────────────▶ along
///            off < 0 (right)
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ray {
    /// A point on the line, from which running readings count.
    pub through: Vector2<f64>,
    /// Unit vector of the direction.
    pub along: Vector2<f64>,
}

impl Ray {
    /// From one point towards another; `None` where they are at one place.
    #[must_use]
    pub fn between(from: Vector2<f64>, to: Vector2<f64>) -> Option<Self> {
        Some(Self {
            through: from,
            along: (to - from).try_normalize(1e-6)?,
        })
    }

    /// Unit vector square to the left.
    #[must_use]
    pub fn left(&self) -> Vector2<f64> {
        Vector2::new(-self.along.y, self.along.x)
    }

    /// The same line the other way.
    #[must_use]
    pub fn reversed(&self) -> Self {
        Self {
            through: self.through,
            along: -self.along,
        }
    }

    /// The point `running` along from `through` and `off` to the left, mm.
    #[must_use]
    pub fn at(&self, running: f64, off: f64) -> Vector2<f64> {
        self.through + self.along * running + self.left() * off
    }

    /// How far along a point is, mm.
    #[must_use]
    pub fn running(&self, point: Vector2<f64>) -> f64 {
        (point - self.through).dot(&self.along)
    }

    /// How far a point is to the left, mm.
    #[must_use]
    pub fn off(&self, point: Vector2<f64>) -> f64 {
        (point - self.through).dot(&self.left())
    }

    /// Direction, degrees from +x.
    #[must_use]
    pub fn bearing(&self) -> f64 {
        self.along.y.atan2(self.along.x).to_degrees()
    }

    /// Signed turn from this direction onto another, degrees, left positive, −180 to 180.
    #[must_use]
    pub fn turn_onto(&self, other: &Self) -> f64 {
        let cross = self.along.perp(&other.along);
        cross.atan2(self.along.dot(&other.along)).to_degrees()
    }

    /// Where two lines cross; `None` where they are parallel to within [`LEAST_TURN`].
    #[must_use]
    pub fn crossing(&self, other: &Self) -> Option<Vector2<f64>> {
        let sine = self.along.perp(&other.along);
        if sine.abs() < LEAST_TURN.to_radians().sin() {
            return None;
        }
        let run = (other.through - self.through).perp(&other.along) / sine;
        Some(self.through + self.along * run)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_three_four_five_triangle() {
        let base = Ray::between(Vector2::zeros(), Vector2::new(10.0, 0.0)).expect("apart");
        let point = Vector2::new(3.0, 4.0);
        assert_eq!((base.running(point), base.off(point)), (3.0, 4.0));
        let up = Ray::between(Vector2::new(3.0, -7.0), point).expect("apart");
        assert_eq!(base.crossing(&up), Some(Vector2::new(3.0, 0.0)));
        assert!((base.turn_onto(&up) - 90.0).abs() < 1e-12);
        assert!((up.turn_onto(&base) + 90.0).abs() < 1e-12);
    }

    #[test]
    fn parallel_lines_do_not_cross() {
        let base = Ray::between(Vector2::zeros(), Vector2::new(10.0, 0.0)).expect("apart");
        let beside = Ray {
            through: Vector2::new(0.0, 5.0),
            along: base.along,
        };
        assert_eq!(base.crossing(&beside), None);
        assert_eq!(base.crossing(&beside.reversed()), None);
        assert_eq!(Ray::between(beside.through, beside.through), None);
    }
}

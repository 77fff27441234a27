//! Points, and the box around them.

use nalgebra::Vector2;

/// A point or a direction in a drawing: mm, y up.
pub type Vec2 = Vector2<f64>;

/// A box around things, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bounds {
    /// Its left lower corner: the least x and the least y.
    pub min: Vec2,
    /// Its right upper corner: the greatest x and the greatest y.
    pub max: Vec2,
}

impl Default for Bounds {
    fn default() -> Self {
        Self::EMPTY
    }
}

impl Bounds {
    /// Around nothing.
    pub const EMPTY: Self = Self {
        min: Vec2::new(f64::INFINITY, f64::INFINITY),
        max: Vec2::new(f64::NEG_INFINITY, f64::NEG_INFINITY),
    };

    /// Around all of the points.
    #[must_use]
    pub fn around(points: impl IntoIterator<Item = Vec2>) -> Self {
        let mut bounds = Self::EMPTY;
        points.into_iter().for_each(|point| bounds.take_in(point));
        bounds
    }

    /// Grows to hold a point; what is not finite is passed over.
    pub fn take_in(&mut self, point: Vec2) {
        if point.x.is_finite() && point.y.is_finite() {
            self.min = self.min.inf(&point);
            self.max = self.max.sup(&point);
        }
    }

    /// The same with so much more on every side, mm; nothing stays nothing.
    #[must_use]
    pub fn wider(&self, by: f64) -> Self {
        if self.is_empty() {
            return *self;
        }
        Self {
            min: self.min.add_scalar(-by),
            max: self.max.add_scalar(by),
        }
    }

    /// True where it holds no point.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.min.x > self.max.x
    }

    /// Width and height, mm; 0 where it holds no point.
    #[must_use]
    pub fn size(&self) -> Vec2 {
        if self.is_empty() {
            Vec2::zeros()
        } else {
            self.max - self.min
        }
    }

    /// Its middle, mm; 0 where it holds no point.
    #[must_use]
    pub fn middle(&self) -> Vec2 {
        if self.is_empty() {
            Vec2::zeros()
        } else {
            (self.min + self.max) / 2.0
        }
    }
}

//! A turned rectangle, and whether it covers another or is crossed by a line.

use crate::drawing::bounds::Vec2;

/// A rectangle around its middle, in view units.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tile {
    /// Where its diagonals cross.
    pub middle: Vec2,
    /// Half width and half height.
    pub half: [f64; 2],
    /// Unit vector along its width.
    pub along: Vec2,
}

impl Tile {
    /// Turned by degrees, clockwise where y goes down.
    #[must_use]
    pub fn turned(middle: Vec2, half: [f64; 2], degrees: f64) -> Self {
        let (sine, cosine) = degrees.to_radians().sin_cos();
        Self {
            middle,
            half,
            along: Vec2::new(cosine, sine),
        }
    }

    /// Level.
    #[must_use]
    pub fn level(middle: Vec2, half: [f64; 2]) -> Self {
        Self {
            middle,
            half,
            along: Vec2::new(1.0, 0.0),
        }
    }

    /// Around the four corners of a rectangle, in order.
    pub(super) fn around(corners: &[Vec2]) -> Option<Self> {
        let [a, b, c, d] = corners else {
            return None;
        };
        Some(Self {
            middle: (a + b + c + d) / 4.0,
            half: [(b - a).norm() / 2.0, (d - a).norm() / 2.0],
            along: (b - a).try_normalize(1e-9).unwrap_or(Vec2::new(1.0, 0.0)),
        })
    }

    fn across(&self) -> Vec2 {
        Vec2::new(-self.along.y, self.along.x)
    }

    /// Larger by so much on every side.
    #[must_use]
    pub fn grown(self, by: f64) -> Self {
        Self {
            half: [self.half[0] + by, self.half[1] + by],
            ..self
        }
    }

    /// Wider by so much at either end.
    pub(super) fn wider(self, by: f64) -> Self {
        Self {
            half: [self.half[0] + by, self.half[1]],
            ..self
        }
    }

    /// Its corners, in order.
    #[must_use]
    pub fn corners(&self) -> [Vec2; 4] {
        let u = self.along * self.half[0];
        let v = self.across() * self.half[1];
        let m = self.middle;
        [m - u - v, m + u - v, m + u + v, m - u + v]
    }

    /// True where a line runs along its middle.
    pub(super) fn lies_on(&self, from: Vec2, to: Vec2) -> bool {
        /// In view units.
        const CLOSE: f64 = 0.5;
        let across = self.across();
        [from, to]
            .iter()
            .all(|end| (end - self.middle).dot(&across).abs() < CLOSE)
    }

    /// The point of it that is nearest to another.
    pub(super) fn nearest(&self, to: Vec2) -> Vec2 {
        let away = to - self.middle;
        let [along, across] = [self.along, self.across()];
        let [width, height] = self.half;
        self.middle
            + along * away.dot(&along).clamp(-width, width)
            + across * away.dot(&across).clamp(-height, height)
    }

    /// Half of its extent in a direction.
    fn extent(&self, way: Vec2) -> f64 {
        self.half[0] * self.along.dot(&way).abs() + self.half[1] * self.across().dot(&way).abs()
    }

    /// True where the two have more than an edge in common (separating axes).
    ///
    /// ```
    /// use tautmark::drawing::{Tile, Vec2};
    /// let tile = Tile::level(Vec2::new(0.0, 0.0), [2.0, 1.0]);
    /// assert!(tile.covers(&Tile::turned(Vec2::new(2.5, 1.5), [1.0, 1.0], 45.0)));
    /// assert!(!tile.covers(&Tile::turned(Vec2::new(2.8, 1.8), [1.0, 1.0], 45.0)));
    /// ```
    #[must_use]
    pub fn covers(&self, other: &Self) -> bool {
        let apart = other.middle - self.middle;
        let reach = |tile: &Self| tile.half[0] + tile.half[1];
        if apart.x.abs().max(apart.y.abs()) >= reach(self) + reach(other) {
            return false;
        }
        [self.along, self.across(), other.along, other.across()]
            .iter()
            .all(|&way| apart.dot(&way).abs() < self.extent(way) + other.extent(way) - 1e-9)
    }

    /// True where a straight line between two points runs through it.
    #[must_use]
    pub fn is_crossed(&self, from: Vec2, to: Vec2) -> bool {
        let local = |at: Vec2| {
            let away = at - self.middle;
            [away.dot(&self.along), away.dot(&self.across())]
        };
        let (from, to) = (local(from), local(to));
        let (mut first, mut last) = (0.0_f64, 1.0_f64);
        for axis in 0..2 {
            let (start, way) = (from[axis], to[axis] - from[axis]);
            let half = self.half[axis];
            if way.abs() < 1e-12 {
                if start.abs() >= half {
                    return false;
                }
                continue;
            }
            let ends = [(-half - start) / way, (half - start) / way];
            first = first.max(ends[0].min(ends[1]));
            last = last.min(ends[0].max(ends[1]));
        }
        first < last
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_cross_where_they_pass_through() {
        let tile = Tile::level(Vec2::new(10.0, 10.0), [3.0, 1.0]);
        assert!(tile.is_crossed(Vec2::new(0.0, 10.0), Vec2::new(20.0, 10.0)));
        assert!(tile.is_crossed(Vec2::new(10.0, 10.0), Vec2::new(10.0, 10.1)));
        assert!(!tile.is_crossed(Vec2::new(0.0, 12.0), Vec2::new(20.0, 12.0)));
        assert!(!tile.is_crossed(Vec2::new(0.0, 10.0), Vec2::new(6.0, 10.0)));
    }

    #[test]
    fn tiles_that_touch_do_not_cover() {
        let one = Tile::level(Vec2::zeros(), [2.0, 1.0]);
        assert!(!one.covers(&Tile::level(Vec2::new(4.0, 0.0), [2.0, 1.0])));
        assert!(one.covers(&Tile::level(Vec2::new(3.9, 0.0), [2.0, 1.0])));
        assert!(one.covers(&Tile::level(Vec2::zeros(), [0.1, 0.1])));
    }
}

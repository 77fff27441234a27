//! From mm to the screen or the page and back.

use super::bounds::{Bounds, Vec2};

/// A point on the screen (px) or on the page (pt): x to the right, y down.
pub type ViewPoint = Vec2;

/// Where a drawing's mm fall in the view.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct View {
    /// View units in one mm.
    pub scale: f64,
    /// The drawing's origin in the view.
    pub origin: ViewPoint,
}

/// Space kept free at each side of a view, in its own units.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Margins {
    /// Between the view's left edge and what is drawn.
    pub left: f64,
    /// Between the view's upper edge and what is drawn.
    pub top: f64,
    /// Between the view's right edge and what is drawn.
    pub right: f64,
    /// Between the view's lower edge and what is drawn.
    pub bottom: f64,
}

impl Margins {
    /// The same all round.
    #[must_use]
    pub fn even(margin: f64) -> Self {
        Self {
            left: margin,
            top: margin,
            right: margin,
            bottom: margin,
        }
    }
}

impl View {
    /// Nothing is shown smaller than this many view units per mm.
    const SMALLEST: f64 = 1e-6;
    /// A single point is shown at this many view units per mm at the most.
    const LARGEST: f64 = 4.0;

    /// All of `bounds` in the middle of a room, as large as it goes within the margins.
    ///
    /// Bounds without extent come out at the largest scale; empty ones put the origin in the middle.
    #[must_use]
    pub fn fit(bounds: &Bounds, room: [f64; 2], margins: Margins) -> Self {
        let inner = Vec2::new(
            room[0] - margins.left - margins.right,
            room[1] - margins.top - margins.bottom,
        );
        let size = bounds.size();
        let scale = (inner.x.max(1.0) / size.x.max(1e-9))
            .min(inner.y.max(1.0) / size.y.max(1e-9))
            .clamp(Self::SMALLEST, Self::LARGEST);
        let middle = Vec2::new(margins.left + inner.x / 2.0, margins.top + inner.y / 2.0);
        let at = bounds.middle();
        Self {
            scale,
            origin: middle - Vec2::new(at.x, -at.y) * scale,
        }
    }

    /// Where a point of the drawing falls in the view.
    #[must_use]
    pub fn place(&self, at: Vec2) -> ViewPoint {
        self.origin + self.direction(at) * self.scale
    }

    /// The point of the drawing that falls there, mm.
    #[must_use]
    pub fn find(&self, at: ViewPoint) -> Vec2 {
        let away = (at - self.origin) / self.scale;
        Vec2::new(away.x, -away.y)
    }

    /// A direction of the drawing as seen in the view; keeps its length.
    #[must_use]
    pub fn direction(&self, v: Vec2) -> Vec2 {
        Vec2::new(v.x, -v.y)
    }

    /// Moved by so much.
    #[must_use]
    pub fn panned(self, by: ViewPoint) -> Self {
        Self {
            origin: self.origin + by,
            ..self
        }
    }

    /// Larger by a factor about a point of the view, which keeps its place.
    #[must_use]
    pub fn zoomed(self, factor: f64, about: ViewPoint) -> Self {
        let scale = (self.scale * factor).clamp(Self::SMALLEST, 1e3 * Self::LARGEST);
        let factor = scale / self.scale;
        Self {
            scale,
            origin: about + (self.origin - about) * factor,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_fitted_box_stands_in_the_middle_and_up_is_up() {
        let bounds = Bounds::around([Vec2::new(0.0, 0.0), Vec2::new(2000.0, 500.0)]);
        let view = View::fit(&bounds, [220.0, 220.0], Margins::even(10.0));
        assert_eq!(view.scale, 0.1);
        assert_eq!(view.place(Vec2::zeros()), Vec2::new(10.0, 135.0));
        assert_eq!(view.place(Vec2::new(2000.0, 500.0)), Vec2::new(210.0, 85.0));
    }

    #[test]
    fn finding_undoes_placing() {
        let view = View {
            scale: 0.03,
            origin: Vec2::new(12.0, 340.0),
        };
        let zoomed = view.zoomed(1.7, Vec2::new(50.0, 60.0));
        assert!(
            (zoomed.find(zoomed.place(Vec2::new(70.0, -9.0))) - Vec2::new(70.0, -9.0)).norm()
                < 1e-9
        );
        let fixed = view.find(Vec2::new(50.0, 60.0));
        assert!((zoomed.place(fixed) - Vec2::new(50.0, 60.0)).norm() < 1e-9);
    }

    #[test]
    fn nothing_and_a_single_point_can_be_shown() {
        let room = [300.0, 200.0];
        let none = View::fit(&Bounds::EMPTY, room, Margins::even(10.0));
        assert_eq!(none.origin, Vec2::new(150.0, 100.0));
        let one = Bounds::around([Vec2::new(5.0, 5.0)]);
        let view = View::fit(&one, room, Margins::even(10.0));
        assert_eq!(view.place(Vec2::new(5.0, 5.0)), Vec2::new(150.0, 100.0));
    }
}

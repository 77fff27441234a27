//! Puts a drawing together, item by item.

use super::bounds::{Bounds, Vec2};
use super::model::{
    Drawing, DrawnItem, Fill, Hatched, Label, LineStyle, Rank, Role, Shape, Sign, Size, Stress,
    Target, WordsPlace,
};

/// A drawing in the making.
#[derive(Debug, Default)]
pub(super) struct Pencil {
    items: Vec<DrawnItem>,
    bounds: Bounds,
}

impl Pencil {
    /// Adds a thing and returns it, to say what it is of.
    pub fn add(&mut self, role: Role, shape: Shape) -> &mut DrawnItem {
        reach(&shape, &mut self.bounds);
        self.items.push(DrawnItem {
            shape,
            role,
            of: None,
            stress: Stress::Plain,
        });
        let last = self.items.len() - 1;
        &mut self.items[last]
    }

    pub fn line(&mut self, role: Role, line: LineStyle, from: Vec2, to: Vec2) -> &mut DrawnItem {
        self.path(role, line, vec![from, to])
    }

    pub fn path(&mut self, role: Role, line: LineStyle, points: Vec<Vec2>) -> &mut DrawnItem {
        self.add(
            role,
            Shape::Path {
                points,
                closed: false,
                line,
                fill: Fill::None,
            },
        )
    }

    pub fn area(
        &mut self,
        role: Role,
        line: LineStyle,
        fill: Fill,
        points: Vec<Vec2>,
    ) -> &mut DrawnItem {
        self.add(
            role,
            Shape::Path {
                points,
                closed: true,
                line,
                fill,
            },
        )
    }

    pub fn wall(&mut self, role: Role, from: Vec2, to: Vec2, hatched: Hatched) -> &mut DrawnItem {
        self.add(role, Shape::Wall { from, to, hatched })
    }

    pub fn label(&mut self, role: Role, label: Label) -> &mut DrawnItem {
        self.add(role, Shape::Label(label))
    }

    /// Everything so far, with nothing turned.
    pub fn done(self, description: String) -> Drawing {
        Drawing {
            items: self.items,
            bounds: self.bounds,
            sight: None,
            turn: 0.0,
            description,
        }
    }
}

impl DrawnItem {
    /// Says which part of the job this is.
    pub(super) fn of(&mut self, target: Target) -> &mut Self {
        self.of = Some(target);
        self
    }

    /// Makes it stand out where `chosen`.
    pub(super) fn chosen_if(&mut self, chosen: bool) -> &mut Self {
        if chosen {
            self.stress = Stress::Chosen;
        }
        self
    }
}

impl Label {
    /// A name or figure beside a point, in bold.
    pub(super) fn near(at: Vec2, text: impl Into<String>, toward: Vec2, clear: f64) -> Self {
        Self {
            at,
            sign: None,
            text: text.into(),
            size: Size::Plain,
            bold: true,
            place: WordsPlace::Around { toward, clear },
            rank: Rank::Main,
        }
    }

    /// A figure on a line through the point, turned with it.
    pub(super) fn on(at: Vec2, text: impl Into<String>, along: Vec2, reach: f64) -> Self {
        Self {
            at,
            sign: None,
            text: text.into(),
            size: Size::Plain,
            bold: true,
            place: WordsPlace::Along { along, reach },
            rank: Rank::Main,
        }
    }

    pub(super) fn rank(mut self, rank: Rank) -> Self {
        self.rank = rank;
        self
    }

    /// Points from a laser line to a height, both mm.
    pub(super) fn pointing(mut self, height: f64, line: f64) -> Self {
        self.sign = Some(if height > line { Sign::Up } else { Sign::Down });
        self
    }

    pub(super) fn small(mut self) -> Self {
        self.size = Size::Small;
        self.bold = false;
        self
    }

    pub(super) fn large(mut self) -> Self {
        self.size = Size::Large;
        self
    }
}

/// An upright rectangle.
pub(super) fn upright(left: f64, bottom: f64, right: f64, top: f64) -> Vec<Vec2> {
    vec![
        Vec2::new(left, bottom),
        Vec2::new(right, bottom),
        Vec2::new(right, top),
        Vec2::new(left, top),
    ]
}

/// A rectangle around its centre, its width along a bearing in degrees.
pub(super) fn turned(centre: Vec2, size: [f64; 2], bearing: f64) -> Vec<Vec2> {
    let u = toward(bearing) * (size[0] / 2.0);
    let v = left_of(toward(bearing)) * (size[1] / 2.0);
    vec![
        centre - u - v,
        centre + u - v,
        centre + u + v,
        centre - u + v,
    ]
}

/// A circle as a closed path of even steps, the middle of its points its centre.
pub(super) fn circle(centre: Vec2, radius: f64) -> Vec<Vec2> {
    const STEPS: u32 = 32;
    let step = 360.0 / f64::from(STEPS);
    (0..STEPS)
        .map(|i| centre + toward(step * f64::from(i)) * radius)
        .collect()
}

/// Points on an arc from a bearing through a sweep, degrees, positive to the left.
pub(super) fn arc(centre: Vec2, radius: f64, from: f64, sweep: f64) -> Vec<Vec2> {
    let steps = (sweep.abs() / 4.0).ceil().max(2.0) as usize;
    (0..=steps)
        .map(|i| centre + toward(from + sweep * i as f64 / steps as f64) * radius)
        .collect()
}

/// Unit vector in a direction, degrees from +x, positive to the left.
pub(super) fn toward(bearing: f64) -> Vec2 {
    let (sine, cosine) = bearing.to_radians().sin_cos();
    Vec2::new(cosine, sine)
}

/// The same length, a quarter turn to the left.
pub(super) fn left_of(v: Vec2) -> Vec2 {
    Vec2::new(-v.y, v.x)
}

fn reach(shape: &Shape, bounds: &mut Bounds) {
    match shape {
        Shape::Path { points, .. } => points.iter().for_each(|&point| bounds.take_in(point)),
        Shape::Wall { from, to, .. } => {
            bounds.take_in(*from);
            bounds.take_in(*to);
        }
        Shape::Dimension(dimension) => {
            bounds.take_in(dimension.from);
            bounds.take_in(dimension.to);
        }
        Shape::Footprint {
            centre,
            width,
            depth,
            bearing,
        } => turned(*centre, [*width, *depth], *bearing)
            .into_iter()
            .for_each(|corner| bounds.take_in(corner)),
        Shape::Cross(at) | Shape::Dot(at) => bounds.take_in(*at),
        Shape::Ring { at, clear } => {
            bounds.take_in(at.add_scalar(*clear));
            bounds.take_in(at.add_scalar(-*clear));
        }
        Shape::Row(row) => row.figures.iter().for_each(|one| bounds.take_in(one.at)),
        Shape::Label(label) => bounds.take_in(label.at),
    }
}

//! What was pressed?

use super::bounds::Vec2;
use super::model::{Drawing, DrawnItem, Shape, Target};
use super::pencil::turned;
use super::view::{View, ViewPoint};

/// The part of the job nearest to a point of the view, if one is within `radius` view units.
///
/// Things that lie on others win within the radius: a mark or post over a string or wall, and
/// those over a tape.
#[must_use]
pub fn hit<'a>(
    drawing: &'a Drawing,
    view: &View,
    at: ViewPoint,
    radius: f64,
) -> Option<&'a Target> {
    let at = view.find(at);
    let radius = radius / view.scale;
    let near = drawing.items.iter().filter_map(|item| {
        let target = item.of.as_ref()?;
        let away = distance(item, at).filter(|away| *away <= radius)?;
        Some((away + handicap(target) * radius, target))
    });
    let nearest = near.min_by(|a, b| a.0.total_cmp(&b.0));
    nearest.map(|(_, target)| target)
}

/// In radii: small things on which a finger can hardly land come first.
fn handicap(target: &Target) -> f64 {
    match target {
        Target::Mark(_) | Target::Post { .. } | Target::Point(_) => 0.0,
        Target::Corner(_) => 0.5,
        Target::Gate { .. } | Target::Setup(_) => 1.0,
        Target::Wall(_) | Target::Line(_) | Target::Bay { .. } => 1.5,
        Target::Reading(_) => 2.0,
    }
}

/// From a point to a thing, mm; none for what has no place of its own.
fn distance(item: &DrawnItem, at: Vec2) -> Option<f64> {
    match &item.shape {
        Shape::Path { points, closed, .. } => path(points, *closed, at),
        Shape::Footprint {
            centre,
            width,
            depth,
            bearing,
        } => path(&turned(*centre, [*width, *depth], *bearing), true, at),
        Shape::Wall { from, to, .. } => Some(segment(*from, *to, at)),
        Shape::Cross(point) | Shape::Dot(point) | Shape::Ring { at: point, .. } => {
            Some((point - at).norm())
        }
        Shape::Dimension(_) | Shape::Row(_) | Shape::Label(_) => None,
    }
}

fn path(points: &[Vec2], closed: bool, at: Vec2) -> Option<f64> {
    let open = points.windows(2).map(|ends| segment(ends[0], ends[1], at));
    let nearest = open.reduce(f64::min)?;
    if !closed {
        return Some(nearest);
    }
    let (first, last) = (points.first()?, points.last()?);
    if is_inside(points, at) {
        return Some(0.0);
    }
    Some(nearest.min(segment(*last, *first, at)))
}

fn segment(from: Vec2, to: Vec2, at: Vec2) -> f64 {
    let way = to - from;
    let length = way.norm_squared();
    let share = if length > 0.0 {
        ((at - from).dot(&way) / length).clamp(0.0, 1.0)
    } else {
        0.0
    };
    (from + way * share - at).norm()
}

/// An even number of edges lies to the right of a point outside.
fn is_inside(points: &[Vec2], at: Vec2) -> bool {
    let next = points.iter().cycle().skip(1);
    let crossed = points.iter().zip(next).filter(|(from, to)| {
        let straddles = (from.y > at.y) != (to.y > at.y);
        straddles && at.x < from.x + (at.y - from.y) / (to.y - from.y) * (to.x - from.x)
    });
    crossed.count() % 2 == 1
}

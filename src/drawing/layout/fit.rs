//! How large a drawing goes in its room, with its words.

use super::{Laid, LayoutDesk, PlacedLabel, lay_out};
use crate::drawing::bounds::Vec2;
use crate::drawing::model::{Drawing, Rank, Shape};
use crate::drawing::view::{Margins, View, ViewPoint};

/// The view that shows all of a drawing with its words in a room, or the part of it that is seen at
/// first, as large as it goes.
#[must_use]
pub fn fitted(drawing: &Drawing, room: [f64; 2], desk: LayoutDesk<'_>) -> View {
    let edge = desk.hand.gap + desk.hand.thick;
    if let Some(sight) = &drawing.sight {
        // Whatever stands beyond needs no room; words that belong to what is seen do.
        return View::fit(sight, room, Margins::even(edge + desk.hand.text));
    }
    let mut margins = Margins::even(edge + desk.hand.cross);
    let mut view = View::fit(&drawing.bounds, room, margins);
    for _ in 0..2 {
        let reach = reach(drawing, &lay_out(drawing, &view, None, desk));
        let Some([min, max]) = reach else {
            break;
        };
        let (low, high) = (drawing.bounds.min, drawing.bounds.max);
        let top_left = view.place(Vec2::new(low.x, high.y));
        let foot_right = view.place(Vec2::new(high.x, low.y));
        let over = |far: f64| far.max(0.0) + edge;
        let across = [top_left.x - min.x, max.x - foot_right.x].map(over);
        let up = [top_left.y - min.y, max.y - foot_right.y].map(over);
        let ([left, right], [top, bottom]) = (margin(across, room[0]), margin(up, room[1]));
        margins = Margins {
            left,
            top,
            right,
            bottom,
        };
        view = View::fit(&drawing.bounds, room, margins);
    }
    view
}

/// Both margins of a room so wide or high, as near as they go to what is wanted: what is drawn matters
/// more than its names.
fn margin(wanted: [f64; 2], whole: f64) -> [f64; 2] {
    /// Of one side and of both, as shares of the room.
    const ONE: f64 = 0.5;
    const BOTH: f64 = 0.75;
    let each = wanted.map(|side| side.min(ONE * whole));
    let share = (BOTH * whole / (each[0] + each[1])).min(1.0);
    each.map(|side| side * share)
}

/// The corners of the box around everything laid out but what is only nice to have.
fn reach(drawing: &Drawing, laid: &Laid) -> Option<[ViewPoint; 2]> {
    let strokes = laid
        .strokes
        .iter()
        .flat_map(|stroke| stroke.points.iter().copied());
    let wanted = |label: &&PlacedLabel| match drawing.items.get(label.item).map(|item| &item.shape)
    {
        Some(Shape::Label(label)) => label.rank > Rank::Many,
        Some(Shape::Dimension(dimension)) => dimension.rank >= Rank::Many,
        _ => true,
    };
    let labels = laid.labels.iter().filter(wanted);
    let labels = labels.flat_map(|label| label.tile().corners());
    let mut all = strokes
        .chain(labels)
        .filter(|at| at.x.is_finite() && at.y.is_finite());
    let first = all.next()?;
    Some(all.fold([first, first], |[min, max], at| {
        [min.inf(&at), max.sup(&at)]
    }))
}

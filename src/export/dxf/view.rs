//! A drawing put into the file: what has a size in mm as it is, words and dimensions as they stand
//! on paper at a scale, so that none cover each other.

use super::file::File;
use crate::drawing::{
    Bundled, Drawing, DrawnItem, Hand, LayoutDesk, Role, Shape, Tile, Vec2, View, lay_out,
};

/// Where a drawing goes, how large its words are, and the layer of each thing.
pub(super) struct Placing<'a> {
    /// Where the drawing's own zero comes to be, mm.
    pub origin: Vec2,
    /// Millimetres to a pt of paper at the scale that words are sized for.
    pub mm_per_pt: f64,
    pub layer: &'a dyn Fn(Role) -> &'static str,
    /// The layers of dimensions with their figures, and of other words.
    pub figures: &'static str,
    pub words: &'static str,
}

impl Placing<'_> {
    /// Writes all of a drawing.
    pub fn put(&self, drawing: &Drawing, file: &mut File) {
        for item in &drawing.items {
            self.item(item, file);
        }
        self.worded(drawing, file);
    }

    fn moved(&self, points: &[Vec2]) -> Vec<Vec2> {
        points.iter().map(|at| at + self.origin).collect()
    }

    fn item(&self, item: &DrawnItem, file: &mut File) {
        let layer = (self.layer)(item.role);
        match &item.shape {
            Shape::Wall { from, to, .. } => {
                file.line(layer, from + self.origin, to + self.origin);
            }
            Shape::Cross(at) | Shape::Dot(at) => file.dot("MARKS", at + self.origin),
            Shape::Footprint {
                centre,
                width,
                depth,
                bearing,
            } => {
                let tile = Tile::turned(*centre, [width / 2.0, depth / 2.0], *bearing);
                file.polyline(layer, &self.moved(&tile.corners()), true);
            }
            Shape::Path {
                points,
                closed: true,
                ..
            } if item.role == Role::Hole => file.circle(layer, &self.moved(points)),
            Shape::Path { points, closed, .. } => {
                file.polyline(layer, &self.moved(points), *closed);
            }
            Shape::Ring { .. } | Shape::Dimension(_) | Shape::Row(_) | Shape::Label(_) => {}
        }
    }

    fn worded(&self, drawing: &Drawing, file: &mut File) {
        let hand = Hand::paper();
        let desk = LayoutDesk {
            hand: &hand,
            measure: &Bundled,
        };
        let view = View {
            scale: 1.0 / self.mm_per_pt,
            origin: Vec2::zeros(),
        };
        let laid = lay_out(drawing, &view, None, desk);
        let of = |index: usize| drawing.items.get(index).map(|item| &item.shape);
        for stroke in &laid.strokes {
            if let Some(Shape::Dimension(_) | Shape::Row(_) | Shape::Label(_)) = of(stroke.item) {
                let points: Vec<Vec2> = stroke.points.iter().map(|at| view.find(*at)).collect();
                file.polyline(self.figures, &self.moved(&points), stroke.closed);
            }
        }
        for label in &laid.labels {
            let layer = match of(label.item) {
                Some(Shape::Dimension(_) | Shape::Row(_)) => self.figures,
                _ => self.words,
            };
            // The height of capitals, which is what a height of text means here.
            let height = label.size * 0.7 * self.mm_per_pt;
            let start = view.find(label.start()) + self.origin;
            file.words(layer, start, &label.text, height, -label.turn);
        }
    }
}

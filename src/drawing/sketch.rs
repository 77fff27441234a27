//! A sketch of one question: where each figure lies, and which one is asked for.
//!
//! ```text
//!        ╱ second leg        what is asked for stands out; the rest is drawn in the same
//!   ────╱───── first leg     hand as the drawings of a job
//! ```

use super::bounds::Vec2;
use super::model::{
    Dimension, Drawing, Fill, Hatched, Label, LineStyle, Rank, Role, Shape, WordsPlace,
};
use super::pencil::{Pencil, arc, circle, left_of, toward, turned, upright};

/// A figure of a sketch: the key it is asked for by, and the words that stand at it.
#[derive(Clone, Debug, PartialEq)]
pub struct Tag<'a> {
    /// What it is asked for by.
    pub key: &'a str,
    /// What stands at it: its name, or its figure.
    pub text: String,
}

/// A sketch in the making; all places are mm, y up, to any scale.
#[derive(Debug)]
pub struct Sketch<'a> {
    pencil: Pencil,
    /// Key of the figure asked for now.
    asked: Option<&'a str>,
}

impl<'a> Sketch<'a> {
    /// An empty sheet; what belongs to the key `asked` will stand out.
    #[must_use]
    pub fn new(asked: Option<&'a str>) -> Self {
        Self {
            pencil: Pencil::default(),
            asked,
        }
    }

    fn is_asked(&self, tag: &Tag<'_>) -> bool {
        self.asked == Some(tag.key)
    }

    fn rank(&self, tag: &Tag<'_>) -> Rank {
        if self.is_asked(tag) {
            Rank::Now
        } else {
            Rank::Kept
        }
    }

    /// A tape pulled from one point to another, its figure on it.
    pub fn tape(&mut self, tag: &Tag<'_>, from: Vec2, to: Vec2) {
        let asked = self.is_asked(tag);
        let (role, line) = if asked {
            (Role::AskedTape, LineStyle::Thick)
        } else {
            (Role::Dimension, LineStyle::Dashed)
        };
        self.pencil.line(role, line, from, to);
        if asked {
            for at in [from, to] {
                self.pencil.add(Role::Mark, Shape::Ring { at, clear: 0.0 });
            }
        }
        let way = to - from;
        let label = Label::on((from + to) / 2.0, &*tag.text, way, way.norm() / 2.0);
        let label = label.rank(self.rank(tag));
        self.pencil.label(Role::Text, label).chosen_if(asked);
    }

    /// A length between two points, drawn beside them on the `out` side, `clear` mm away.
    pub fn dimension(&mut self, tag: &Tag<'_>, ends: [Vec2; 2], out: Vec2, clear: f64) {
        let asked = self.is_asked(tag);
        let dimension = Dimension {
            from: ends[0],
            to: ends[1],
            out,
            clear,
            name: String::new(),
            text: tag.text.clone(),
            rank: self.rank(tag),
        };
        self.pencil
            .add(Role::Dimension, Shape::Dimension(dimension))
            .chosen_if(asked);
        if asked {
            self.pencil
                .line(Role::AskedTape, LineStyle::Thick, ends[0], ends[1]);
        }
    }

    /// An angle: an arc of `radius` about a point from a bearing through a sweep, degrees.
    pub fn angle(&mut self, tag: &Tag<'_>, at: Vec2, radius: f64, [from, sweep]: [f64; 2]) {
        let asked = self.is_asked(tag);
        let role = if asked {
            Role::AskedTape
        } else {
            Role::Dimension
        };
        let line = if asked {
            LineStyle::Thick
        } else {
            LineStyle::Fine
        };
        self.pencil.path(role, line, arc(at, radius, from, sweep));
        let inward = toward(from + sweep / 2.0);
        let label = Label::near(at + inward * radius, &*tag.text, inward, 0.0).large();
        let label = label.rank(self.rank(tag));
        self.pencil.label(Role::Text, label).chosen_if(asked);
    }

    /// A figure beside a point, on the side `out`.
    pub fn figure(&mut self, tag: &Tag<'_>, at: Vec2, out: Vec2) {
        let asked = self.is_asked(tag);
        if asked {
            self.pencil.add(Role::Mark, Shape::Ring { at, clear: 0.0 });
        }
        let label = Label::near(at, &*tag.text, out, 0.0).rank(self.rank(tag));
        self.pencil.label(Role::Text, label).chosen_if(asked);
    }

    /// A name beside a point.
    pub fn name(&mut self, at: Vec2, text: &str, out: Vec2) {
        let label = Label::near(at, text, out, 0.0).small();
        self.pencil.label(Role::Text, label.rank(Rank::Usual));
    }

    /// What comes out of it all, large beside a point.
    pub fn answer(&mut self, at: Vec2, text: &str, out: Vec2) {
        let label = Label::near(at, text, out, 0.0).large().rank(Rank::Now);
        self.pencil.label(Role::Text, label);
    }

    /// A string line.
    pub fn string(&mut self, from: Vec2, to: Vec2) {
        self.pencil.line(Role::String, LineStyle::Plain, from, to);
    }

    /// A wall's face, hatched to the left of its direction.
    pub fn wall(&mut self, from: Vec2, to: Vec2) {
        self.pencil.wall(Role::Wall, from, to, Hatched::Left);
    }

    /// A mark.
    pub fn mark(&mut self, at: Vec2, name: &str, out: Vec2) {
        self.pencil.add(Role::Mark, Shape::Cross(at));
        let label = Label::near(at, name, out, 0.0).rank(Rank::Kept);
        self.pencil.label(Role::Text, label);
    }

    /// A dot on a string, where a tape is held.
    pub fn dot(&mut self, at: Vec2) {
        self.pencil.add(Role::String, Shape::Dot(at));
    }

    /// The point that all is about.
    pub fn found(&mut self, at: Vec2) {
        self.pencil.add(Role::AskedTape, Shape::Dot(at));
    }

    /// A post from above, its width along `bearing`, degrees.
    pub fn post(&mut self, at: Vec2, size: [f64; 2], bearing: f64) {
        let points = turned(at, size, bearing);
        self.pencil
            .area(Role::Post, LineStyle::Plain, Fill::Plain, points);
    }

    /// Part of a circle about a point: a tape swung, a hole's edge.
    pub fn swing(&mut self, about: Vec2, radius: f64, [from, sweep]: [f64; 2]) {
        let points = arc(about, radius, from, sweep);
        self.pencil.path(Role::Quiet, LineStyle::Dotted, points);
    }

    /// A hole from above.
    pub fn hole(&mut self, at: Vec2, diameter: f64) {
        let points = circle(at, diameter / 2.0);
        self.pencil
            .area(Role::Hole, LineStyle::Dashed, Fill::None, points);
    }

    /// Something with straight edges, filled as what it is.
    pub fn block(&mut self, kind: Solid, points: Vec<Vec2>) {
        let role = match kind {
            Solid::Post => Role::Post,
            Solid::Timber => Role::Rail,
            Solid::Board => Role::GravelBoard,
            Solid::Pale => Role::Pale,
            Solid::Ground => Role::Ground,
        };
        self.pencil.area(role, LineStyle::Fine, Fill::Plain, points);
    }

    /// Something upright with straight edges: left, bottom, right, top.
    pub fn upright(&mut self, kind: Solid, [left, bottom, right, top]: [f64; 4]) {
        self.block(kind, upright(left, bottom, right, top));
    }

    /// The ground along these points, `deep` mm of it drawn.
    pub fn ground(&mut self, points: &[Vec2], deep: f64) {
        let (Some(first), Some(last)) = (points.first(), points.last()) else {
            return;
        };
        let low = points.iter().map(|at| at.y).fold(f64::INFINITY, f64::min) - deep;
        let mut area = points.to_vec();
        area.extend([Vec2::new(last.x, low), Vec2::new(first.x, low)]);
        self.pencil
            .area(Role::Ground, LineStyle::None, Fill::Plain, area);
        self.pencil
            .path(Role::Ground, LineStyle::Plain, points.to_vec());
    }

    /// A laser line, with its name.
    pub fn laser(&mut self, from: Vec2, to: Vec2, name: &str) {
        self.pencil
            .line(Role::LaserLine, LineStyle::Dashed, from, to);
        let label = Label::near((from + to) / 2.0, name, Vec2::new(0.0, 1.0), 0.0);
        self.pencil.label(Role::LaserLine, label);
    }

    /// A tripod under a laser line, its feet `tall` mm below.
    pub fn tripod(&mut self, head: Vec2, tall: f64) {
        let knee = head - Vec2::new(0.0, tall * 0.55);
        let lines = [
            [head, head - Vec2::new(0.0, tall)],
            [knee, head - Vec2::new(tall * 0.16, tall)],
            [knee, head - Vec2::new(-tall * 0.16, tall)],
        ];
        for [from, to] in lines {
            self.pencil.line(Role::Mark, LineStyle::Plain, from, to);
        }
    }

    /// Anything drawn in ink.
    pub fn ink(&mut self, points: Vec<Vec2>) {
        self.pencil.path(Role::Mark, LineStyle::Plain, points);
    }

    /// Where something was, or would be.
    pub fn ghost(&mut self, from: Vec2, to: Vec2) {
        self.pencil.line(Role::Quiet, LineStyle::Dashed, from, to);
    }

    /// A straight arrow: which way something goes.
    pub fn arrow(&mut self, from: Vec2, to: Vec2) {
        let way = to - from;
        let back = way * -0.3;
        let side = left_of(way) * 0.18;
        self.pencil
            .line(Role::AskedTape, LineStyle::Plain, from, to);
        let head = vec![to + back + side, to, to + back - side];
        self.pencil.path(Role::AskedTape, LineStyle::Plain, head);
    }

    /// An upright tape, such as a sight, its figure beside it on the side `out`.
    pub fn sight(&mut self, tag: &Tag<'_>, from: Vec2, to: Vec2, out: Vec2) {
        let asked = self.is_asked(tag);
        let (role, line) = if asked {
            (Role::AskedTape, LineStyle::Thick)
        } else {
            (Role::Dimension, LineStyle::Dashed)
        };
        self.pencil.line(role, line, from, to);
        let label = Label::near((from + to) / 2.0, &*tag.text, out, 0.0);
        let label = label.rank(self.rank(tag));
        self.pencil.label(Role::Text, label).chosen_if(asked);
    }

    /// The sketch, with what it shows in words. Its size in mm means nothing: it comes out as wide
    /// or high as a small plot, so that a view enlarges it as it does a plan.
    #[must_use]
    pub fn done(self, description: &str) -> Drawing {
        /// Mm.
        const PLOT: f64 = 10_000.0;
        let mut drawing = self.pencil.done(description.to_owned());
        let size = drawing.bounds.size();
        let size = size.x.max(size.y);
        if size > 0.0 {
            let factor = PLOT / size;
            drawing.bounds.min *= factor;
            drawing.bounds.max *= factor;
            let shapes = drawing.items.iter_mut().map(|item| &mut item.shape);
            shapes.for_each(|shape| enlarge(shape, factor));
        }
        drawing
    }
}

fn enlarge(shape: &mut Shape, factor: f64) {
    match shape {
        Shape::Path { points, .. } => points.iter_mut().for_each(|at| *at *= factor),
        Shape::Wall { from, to, .. } => {
            *from *= factor;
            *to *= factor;
        }
        Shape::Footprint {
            centre,
            width,
            depth,
            ..
        } => {
            *centre *= factor;
            *width *= factor;
            *depth *= factor;
        }
        Shape::Cross(at) | Shape::Dot(at) => *at *= factor,
        Shape::Ring { at, clear } => {
            *at *= factor;
            *clear *= factor;
        }
        Shape::Dimension(dimension) => {
            dimension.from *= factor;
            dimension.to *= factor;
            dimension.clear *= factor;
        }
        Shape::Row(row) => row.figures.iter_mut().for_each(|one| one.at *= factor),
        Shape::Label(label) => {
            label.at *= factor;
            match &mut label.place {
                WordsPlace::Around { clear, .. } | WordsPlace::Toward { clear, .. } => {
                    *clear *= factor
                }
                WordsPlace::Along { reach, .. }
                | WordsPlace::Beside { reach, .. }
                | WordsPlace::Clear { reach, .. } => *reach *= factor,
            }
        }
    }
}

/// What a block of a sketch is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Solid {
    /// A post.
    Post,
    /// A rail, a stile or another sawn length.
    Timber,
    /// A board seen on its edge, or along the ground.
    Board,
    /// An upright board, or a leaf of them.
    Pale,
    /// The ground.
    Ground,
}

/// Unit vector in a direction, degrees from +x, positive to the left.
#[must_use]
pub fn direction(bearing: f64) -> Vec2 {
    toward(bearing)
}

#[cfg(test)]
mod tests {
    use super::super::model::{DrawnItem, Stress};
    use super::*;

    fn stands_out(item: &DrawnItem) -> bool {
        item.stress == Stress::Chosen || item.role == Role::AskedTape
    }

    #[test]
    fn only_the_figure_asked_for_stands_out() {
        let draw = |asked| {
            let mut sketch = Sketch::new(asked);
            let tag = |key| Tag {
                key,
                text: "2 000".to_owned(),
            };
            let (a, b, c) = (Vec2::zeros(), Vec2::new(4.0, 0.0), Vec2::new(0.0, 3.0));
            sketch.tape(&tag("first"), a, b);
            sketch.tape(&tag("second"), a, c);
            sketch.done("two tapes")
        };
        assert!(!draw(None).items.iter().any(stands_out));
        let asked = draw(Some("second")).items;
        assert_eq!(asked.iter().filter(|item| stands_out(item)).count(), 2);
    }
}

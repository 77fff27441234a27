//! What is near a place: an R-tree over the boxes of what is drawn (Guttman 1984), so that a place
//! for words is weighed against its neighbours and not against the whole drawing.

use super::tile::Tile;
use crate::drawing::bounds::Vec2;
use rstar::primitives::{GeomWithData, Rectangle};
use rstar::{AABB, RTree};

type Boxed = GeomWithData<Rectangle<[f64; 2]>, usize>;

/// Things in the order in which they came, and where each is.
pub(super) struct Near<T> {
    things: Vec<T>,
    /// Not in the tree yet: one that is packed at once is made far sooner than one that grows.
    waiting: Vec<Boxed>,
    tree: RTree<Boxed>,
}

impl<T> Near<T> {
    /// Nothing yet.
    pub fn new() -> Self {
        Self {
            things: Vec::new(),
            waiting: Vec::new(),
            tree: RTree::new(),
        }
    }

    /// Packs everything so far (sort-tile-recursive, Leutenegger 1997); until then none of it is found.
    pub fn pack(&mut self) {
        self.tree = RTree::bulk_load(std::mem::take(&mut self.waiting));
    }

    /// Adds a thing that lies within these boxes, to be packed with others. One with a box that is not
    /// finite is nowhere.
    pub fn prepare(&mut self, thing: T, boxes: impl IntoIterator<Item = [Vec2; 2]>) {
        self.waiting.extend(boxed(self.things.len(), boxes));
        self.things.push(thing);
    }

    /// Adds a thing that is found from now on.
    pub fn add(&mut self, thing: T, boxes: impl IntoIterator<Item = [Vec2; 2]>) {
        for boxed in boxed(self.things.len(), boxes) {
            self.tree.insert(boxed);
        }
        self.things.push(thing);
    }

    /// The things with a box that meets this one, each once or more often, in no order.
    fn places(&self, within: [Vec2; 2]) -> impl Iterator<Item = usize> {
        self.tree
            .locate_in_envelope_intersecting(&envelope(within))
            .map(|one| one.data)
    }

    /// True where any thing near the box passes the test.
    pub fn any(&self, within: [Vec2; 2], mut test: impl FnMut(&T) -> bool) -> bool {
        self.places(within)
            .any(|at| self.things.get(at).is_some_and(&mut test))
    }

    /// Each thing near the box once, in the order in which they came.
    pub fn each(&self, within: [Vec2; 2]) -> impl Iterator<Item = &T> {
        let mut places: Vec<usize> = self.places(within).collect();
        places.sort_unstable();
        places.dedup();
        places.into_iter().filter_map(|at| self.things.get(at))
    }
}

fn boxed(index: usize, boxes: impl IntoIterator<Item = [Vec2; 2]>) -> impl Iterator<Item = Boxed> {
    let finite = |[min, max]: &[Vec2; 2]| {
        let sides = [min.x, min.y, max.x, max.y];
        sides.iter().all(|side| side.is_finite())
    };
    let boxes = boxes.into_iter().filter(finite);
    boxes.map(move |ends| Boxed::new(Rectangle::from_aabb(envelope(ends)), index))
}

fn envelope([min, max]: [Vec2; 2]) -> AABB<[f64; 2]> {
    AABB::from_corners([min.x, min.y], [max.x, max.y])
}

/// The box around a tile.
pub(super) fn around_tile(tile: &Tile) -> [Vec2; 2] {
    let [a, b, c, d] = tile.corners();
    [a.inf(&b).inf(&c).inf(&d), a.sup(&b).sup(&c).sup(&d)]
}

/// The boxes of a line piece by piece: one box around a long slanting line holds half the drawing.
pub(super) fn along_line(from: Vec2, to: Vec2) -> impl Iterator<Item = [Vec2; 2]> {
    /// Length of a piece, in view units, and the most pieces.
    const PIECE: f64 = 40.0;
    const MOST: f64 = 64.0;
    let slant = (to - from).abs().min();
    let pieces = (slant / PIECE).ceil().clamp(1.0, MOST);
    let pieces = if pieces.is_finite() { pieces } else { 1.0 };
    let way = (to - from) / pieces;
    (0..pieces as u32).map(move |nth| {
        let start = from + way * f64::from(nth);
        let end = from + way * f64::from(nth + 1);
        [start.inf(&end), start.sup(&end)]
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn point() -> impl Strategy<Value = Vec2> {
        (-300.0..300.0, -300.0..300.0).prop_map(|(x, y)| Vec2::new(x, y))
    }

    proptest! {
        #[test]
        fn what_crosses_a_tile_is_near_it(
            lines in prop::collection::vec((point(), point()), 1..120),
            middle in point(),
            turn in -90.0..90.0,
        ) {
            let tile = Tile::turned(middle, [30.0, 8.0], turn);
            let mut near = Near::new();
            let packed = lines.len() / 2;
            for (at, &(from, to)) in lines.iter().enumerate().take(packed) {
                near.prepare((at, from, to), along_line(from, to));
            }
            near.pack();
            for (at, &(from, to)) in lines.iter().enumerate().skip(packed) {
                near.add((at, from, to), along_line(from, to));
            }
            let crossed = |from: &Vec2, to: &Vec2| tile.is_crossed(*from, *to);
            let all = lines.iter().enumerate().filter(|(_, (from, to))| crossed(from, to));
            let all: Vec<usize> = all.map(|(at, _)| at).collect();
            let found = near.each(around_tile(&tile)).filter(|(_, from, to)| crossed(from, to));
            let found: Vec<usize> = found.map(|(at, _, _)| *at).collect();
            prop_assert_eq!(found, all);
        }
    }
}

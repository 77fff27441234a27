//! Words that find no place where they belong are led out: to the nearest free place of the whole
//! picture, with a line to their point.

use super::board::{LayoutBoard, Words, Written};
use super::tile::Tile;
use crate::drawing::bounds::Vec2;
use crate::drawing::view::ViewPoint;

/// What it costs where the line to the words runs through a post.
const THROUGH: f64 = 3.0;
/// What it costs where it goes on behind other words and the patch that they stand on.
const BEHIND: f64 = 20.0;
/// How far off a place is looked for before one is looked for farther off, in lines of words.
const RINGS: [f64; 5] = [0.0, 3.0, 8.0, 20.0, 80.0];

/// A place for words, and from their point to them.
pub(super) struct Led {
    pub tile: Tile,
    pub leader: Option<[ViewPoint; 2]>,
}

/// How far words and leaders keep off a point with `clear` mm around it.
pub(super) fn off_point(board: &LayoutBoard, clear: f64) -> f64 {
    let hand = board.desk.hand;
    (clear * board.view.scale).max(hand.cross * 0.7) + hand.gap
}

/// From near a point to just before words.
pub(super) fn leader(
    board: &LayoutBoard,
    at: ViewPoint,
    near: f64,
    tile: &Tile,
) -> Option<[ViewPoint; 2]> {
    let to = tile.nearest(at);
    let way = (to - at).try_normalize(1e-6)?;
    let ends = [at + way * near, to - way * (board.desk.hand.gap / 2.0)];
    ((ends[1] - ends[0]).dot(&way) > 0.0).then_some(ends)
}

/// What a leader costs; none where it would strike other words.
pub(super) fn leader_cost(board: &LayoutBoard, [from, to]: [ViewPoint; 2]) -> Option<f64> {
    if !board.spares_words(from, to) {
        None
    } else if board.is_open(from, to) {
        Some(0.0)
    } else {
        Some(THROUGH)
    }
}

/// The nearest free place to a point, for what is never left out.
pub(super) fn lead_out(
    board: &LayoutBoard,
    at: ViewPoint,
    clear: f64,
    words: &Words,
) -> Option<Led> {
    let near = off_point(board, clear);
    // What is near is found without looking all over the picture.
    let reach = |lines: f64| near + lines * words.size;
    let rings = RINGS
        .windows(2)
        .map(|ring| [reach(ring[0]), reach(ring[1])]);
    let rings = rings.take(if board.room.is_some() { RINGS.len() } else { 2 });
    let within = |behind| {
        let mut rings = rings.clone();
        rings.find_map(|ring| within(board, at, near, ring, words, behind))
    };
    within(None).or_else(|| within(Some(BEHIND)))
}

/// A free place close to a point, for one of many that may be left out.
pub(super) fn lead_close(board: &LayoutBoard, at: ViewPoint, words: &Words) -> Option<Led> {
    let near = off_point(board, 0.0);
    let ring = [RINGS[0], RINGS[1]].map(|lines| near + lines * words.size);
    within(board, at, near, ring, words, None)
}

/// The nearest free place between so near to a point and so far from it; `behind` is what it costs where
/// the leader goes on behind other words, if it may.
fn within(
    board: &LayoutBoard,
    at: ViewPoint,
    near: f64,
    [from, to]: [f64; 2],
    words: &Words,
    behind: Option<f64>,
) -> Option<Led> {
    let mut tried: Vec<(f64, Tile)> = places(board, at, to, words)
        .map(|middle| Tile::level(middle, words.half()))
        .map(|tile| ((tile.nearest(at) - at).norm(), tile))
        .filter(|(off, _)| (from..to).contains(off))
        .collect();
    tried.sort_by(|one, other| one.0.total_cmp(&other.0));
    let mut found: Option<(f64, Led)> = None;
    for (off, tile) in tried {
        let off = off / words.size;
        let least = found.as_ref().map_or(f64::INFINITY, |(cost, _)| *cost);
        if off >= least {
            break;
        }
        if !board.is_free(&tile, words) || board.is_struck(&tile, Written::Beside) {
            continue;
        }
        let leader = leader(board, at, near, &tile);
        let through = leader.map_or(Some(0.0), |ends| leader_cost(board, ends));
        let Some(through) = through.or(behind) else {
            continue;
        };
        let cost = off + through + board.cost(&tile, Written::Beside);
        if cost < least {
            found = Some((cost, Led { tile, leader }));
        }
    }
    found.map(|(_, led)| led)
}

/// Middles of places for words that reach so close to a point, all of them in the room.
fn places(
    board: &LayoutBoard,
    at: ViewPoint,
    reach: f64,
    words: &Words,
) -> impl Iterator<Item = ViewPoint> + use<> {
    let half = Vec2::from(words.half());
    let around = half.add_scalar(reach);
    let (mut low, mut high) = (at - around, at + around);
    if let Some(room) = board.room {
        (low, high) = (low.sup(&half), high.inf(&(Vec2::from(room) - half)));
    }
    let step = Vec2::new((half.x / 3.0).max(words.size * 0.6), words.size * 0.5);
    let count = (high - low).component_div(&step);
    let [across, down] = [count.x, count.y].map(|count| count.clamp(-1.0, 1e3).floor() as i32);
    (0..=down).flat_map(move |row| {
        (0..=across).map(move |column| {
            low + step.component_mul(&Vec2::new(f64::from(column), f64::from(row)))
        })
    })
}

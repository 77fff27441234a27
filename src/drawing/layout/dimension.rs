//! A length: its line beside the points, ticks at its ends, the figure on it.

use super::board::{LayoutBoard, Words, readable};
use super::tile::Tile;
use crate::drawing::bounds::Vec2;
use crate::drawing::model::{Dimension, DrawnItem, LineStyle};
use crate::drawing::tone::outline;
use crate::drawing::view::ViewPoint;

/// Rows that are tried on each side.
const ROWS: usize = 6;

/// A place for the line and its figure.
struct Try {
    ends: [ViewPoint; 2],
    tile: Tile,
    /// Beside the line's end, where it is too short for its figure.
    outside: bool,
    cost: f64,
}

pub(super) fn place(
    board: &mut LayoutBoard,
    index: usize,
    item: &DrawnItem,
    dimension: &Dimension,
) {
    let ends = [dimension.from, dimension.to].map(|at| board.view.place(at));
    let Some(along) = (ends[1] - ends[0]).try_normalize(1e-6) else {
        return;
    };
    if !ends.iter().all(|end| board.sees(*end)) {
        return;
    }
    let words = words(board, dimension, (ends[1] - ends[0]).norm());
    let Some(found) = best(board, dimension, ends, along, &words) else {
        board.laid.dropped += 1;
        return;
    };
    draw(board, index, item, ends, &found);
    board.write(index, item, words, found.tile);
}

/// With the name where the line is long enough for both.
fn words(board: &LayoutBoard, dimension: &Dimension, length: f64) -> Words {
    let hand = board.desk.hand;
    if !dimension.name.is_empty() {
        let both = format!("{} {}", dimension.name, dimension.text);
        let words = board.words(&both, hand.text, true);
        if words.width + 4.0 * hand.gap <= length {
            return words;
        }
    }
    board.words(&dimension.text, hand.text, true)
}

fn best(
    board: &LayoutBoard,
    dimension: &Dimension,
    ends: [ViewPoint; 2],
    along: Vec2,
    words: &Words,
) -> Option<Try> {
    let hand = board.desk.hand;
    let out = board.view.direction(dimension.out);
    let height = words.half()[1] * 2.0;
    let first = dimension.clear * board.view.scale + hand.gap + height * 0.7;
    let mut found: Option<Try> = None;
    for row in 0..ROWS {
        for (side, off_side) in [(1.0, 0.0), (-1.0, 2.5)] {
            let strip = if side < 0.0 { 0.0 } else { hand.strip * 0.5 };
            let off = out * (side * (first + strip + row as f64 * height * 1.15));
            let line = ends.map(|end| end + off);
            let start = off_side + row as f64 * 0.8;
            for try_ in tries(board, line, along, words, start) {
                let least = found.as_ref().map_or(f64::INFINITY, |found| found.cost);
                if try_.cost >= least || !board.is_free(&try_.tile) {
                    continue;
                }
                let blocked = !board.is_open(line[0], line[1]);
                let cost = try_.cost + board.cost(&try_.tile) + if blocked { 4.0 } else { 0.0 };
                if cost < least {
                    found = Some(Try { cost, ..try_ });
                }
            }
        }
    }
    found
}

/// On the line from the middle outwards, or past its ends where it is too short.
fn tries(
    board: &LayoutBoard,
    line: [ViewPoint; 2],
    along: Vec2,
    words: &Words,
    start: f64,
) -> Vec<Try> {
    let gap = board.desk.hand.gap;
    let length = (line[1] - line[0]).norm();
    let middle = (line[0] + line[1]) / 2.0;
    let outside = words.width + 4.0 * gap > length;
    let slides: Vec<f64> = if outside {
        let past = (length + words.width) / 2.0 + 2.0 * gap;
        vec![past, -past]
    } else {
        let room = (length - words.width) / 2.0 - gap;
        [0.0, 0.5, -0.5, 0.95, -0.95]
            .map(|share| share * room)
            .into()
    };
    let each = slides.into_iter().enumerate();
    each.map(|(step, slide)| Try {
        ends: line,
        tile: Tile {
            middle: middle + along * slide,
            half: words.half(),
            along: readable(along),
        },
        outside,
        cost: start + 0.3 * step as f64,
    })
    .collect()
}

fn draw(
    board: &mut LayoutBoard,
    index: usize,
    item: &DrawnItem,
    points: [ViewPoint; 2],
    found: &Try,
) {
    let tone = outline(item.role, item.stress);
    let gap = board.desk.hand.gap;
    let Some(along) = (found.ends[1] - found.ends[0]).try_normalize(1e-6) else {
        return;
    };
    let square = Vec2::new(-along.y, along.x);
    for (point, end) in points.into_iter().zip(found.ends) {
        let way = (end - point).try_normalize(1e-6).unwrap_or(square);
        board.rule(
            index,
            tone,
            LineStyle::Hair,
            [point + way * gap, end + way * gap],
        );
        let tick = square * (gap * 1.2);
        board.rule(index, tone, LineStyle::Fine, [end - tick, end + tick]);
    }
    if found.outside {
        board.rule(index, tone, LineStyle::Fine, found.ends);
        return;
    }
    let half = found.tile.half[0] + gap * 0.6;
    let middle = found.tile.middle;
    board.rule(
        index,
        tone,
        LineStyle::Fine,
        [found.ends[0], middle - along * half],
    );
    board.rule(
        index,
        tone,
        LineStyle::Fine,
        [middle + along * half, found.ends[1]],
    );
}

//! A length: its line beside the points, ticks at its ends, the figure on it; where no line is free, the
//! figure is led out.

use super::board::{LayoutBoard, Words, Written, readable};
use super::lead::lead_out;
use super::tile::Tile;
use crate::drawing::bounds::Vec2;
use crate::drawing::model::{Dimension, DrawnItem, LineStyle, Rank};
use crate::drawing::tone::{Tone, outline};
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
    if !ends.iter().all(|end| board.sees(*end)) {
        return;
    }
    let words = words(board, dimension, (ends[1] - ends[0]).norm());
    if let Some(found) = best(board, dimension, ends, &words) {
        let gap = board.desk.hand.gap * 0.6;
        let middle = (!found.outside).then_some((found.tile.middle, found.tile.half[0] + gap));
        draw(
            board,
            index,
            item,
            &strokes(board, ends, found.ends, middle),
        );
        board.write(index, item, words, found.tile);
    } else if dimension.rank < Rank::Main || !led_out(board, index, item, dimension, ends) {
        board.laid.dropped += 1;
    }
}

/// Draws the line where it spares all words, and writes its figure in the nearest place that is free,
/// that of no length at its point; false where there is none.
fn led_out(
    board: &mut LayoutBoard,
    index: usize,
    item: &DrawnItem,
    dimension: &Dimension,
    ends: [ViewPoint; 2],
) -> bool {
    let words = board.words(&dimension.text, board.desk.hand.text, true);
    let rows = rows(board, dimension, &words);
    let mut lines = rows.map(|(off, _)| strokes(board, ends, ends.map(|end| end + off), None));
    let free = lines.find(|all| {
        all.iter()
            .all(|(_, [from, to])| board.spares_words(*from, *to))
    });
    let line = free.as_ref().and_then(|all| all.first());
    let middle = line.map_or(ends, |(_, ends)| *ends);
    draw(board, index, item, &free.unwrap_or_default());
    let at = (middle[0] + middle[1]) / 2.0;
    let Some(led) = lead_out(board, at, 0.0, &words) else {
        return false;
    };
    if let Some(leader) = led.leader {
        board.rule(index, Tone::Second, LineStyle::Hair, leader);
    }
    board.write(index, item, words, led.tile);
    true
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
    words: &Words,
) -> Option<Try> {
    let along = (ends[1] - ends[0]).try_normalize(1e-6)?;
    let mut found: Option<Try> = None;
    for (off, start) in rows(board, dimension, words) {
        let line = ends.map(|end| end + off);
        let spares = |[from, to]: [ViewPoint; 2]| board.spares_words(from, to);
        let drawn = strokes(board, ends, line, None);
        if !drawn.into_iter().all(|(_, ends)| spares(ends)) {
            continue;
        }
        let blocked = if board.is_open(line[0], line[1]) {
            0.0
        } else {
            4.0
        };
        for try_ in tries(board, line, along, words, start + blocked) {
            let least = found.as_ref().map_or(f64::INFINITY, |found| found.cost);
            if try_.cost >= least || !board.is_free(&try_.tile, words) {
                continue;
            }
            let cost = try_.cost + board.cost(&try_.tile, Written::Beside);
            if cost < least {
                found = Some(Try { cost, ..try_ });
            }
        }
    }
    found
}

/// How far off its points the line may be drawn, and what that costs.
fn rows(
    board: &LayoutBoard,
    dimension: &Dimension,
    words: &Words,
) -> impl Iterator<Item = (Vec2, f64)> + use<> {
    let hand = board.desk.hand;
    let out = board.view.direction(dimension.out);
    let height = words.half()[1] * 2.0;
    let first = dimension.clear * board.view.scale + hand.gap + height * 0.7;
    let strip = hand.strip * 0.5;
    (0..ROWS).flat_map(move |row| {
        [(1.0, strip, 0.0), (-1.0, 0.0, 2.5)].map(|(side, strip, cost)| {
            let off = first + strip + row as f64 * height * 1.15;
            (out * (side * off), cost + row as f64 * 0.8)
        })
    })
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

/// What is drawn of a length between two points with its line so: the line first, in two where its
/// figure stands on it (middle and half width), then what joins it to the points, then its ticks.
fn strokes(
    board: &LayoutBoard,
    points: [ViewPoint; 2],
    ends: [ViewPoint; 2],
    figure: Option<(ViewPoint, f64)>,
) -> Vec<(LineStyle, [ViewPoint; 2])> {
    let gap = board.desk.hand.gap;
    let Some(along) = (ends[1] - ends[0]).try_normalize(1e-6) else {
        return Vec::new();
    };
    let mut drawn = match figure {
        None => vec![(LineStyle::Fine, ends)],
        Some((middle, half)) => vec![
            (LineStyle::Fine, [ends[0], middle - along * half]),
            (LineStyle::Fine, [middle + along * half, ends[1]]),
        ],
    };
    let square = Vec2::new(-along.y, along.x);
    for (point, end) in points.into_iter().zip(ends) {
        let way = (end - point).try_normalize(1e-6).unwrap_or(square);
        drawn.push((LineStyle::Hair, [point + way * gap, end + way * gap]));
        let tick = square * (gap * 1.2);
        drawn.push((LineStyle::Fine, [end - tick, end + tick]));
    }
    drawn
}

fn draw(
    board: &mut LayoutBoard,
    index: usize,
    item: &DrawnItem,
    strokes: &[(LineStyle, [ViewPoint; 2])],
) {
    let tone = outline(item.role, item.stress);
    for (line, ends) in strokes {
        board.rule(index, tone, *line, *ends);
    }
}

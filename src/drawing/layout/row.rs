//! Figures of points along one line: level with it where they have room, else square to it, pushed
//! apart just as far as they must be.

use super::LINE;
use super::board::{LayoutBoard, Words, readable};
use super::tile::Tile;
use crate::drawing::bounds::Vec2;
use crate::drawing::model::{DrawnItem, LineStyle, Row};
use crate::drawing::tone::Tone;
use crate::drawing::view::ViewPoint;

/// Rows that are tried on each side.
const TRIES: usize = 4;

/// One figure in its place.
struct Set {
    tile: Tile,
    leader: [ViewPoint; 2],
}

pub(super) fn place(board: &mut LayoutBoard, index: usize, item: &DrawnItem, row: &Row) {
    let hand = *board.desk.hand;
    let seen = row.figures.iter();
    let seen: Vec<_> = seen
        .filter(|figure| board.sees(board.view.place(figure.at)))
        .collect();
    let points: Vec<ViewPoint> = seen.iter().map(|one| board.view.place(one.at)).collect();
    let (Some(&zero), along) = (points.first(), board.view.direction(row.along)) else {
        return;
    };
    let readings: Vec<f64> = points.iter().map(|at| (at - zero).dot(&along)).collect();
    let length = readings.last().map_or(0.0, |last| last.abs());
    // Smaller where they would not stand side by side otherwise.
    let size = if row.level || hand.text * LINE * seen.len() as f64 > length {
        hand.small_text
    } else {
        hand.text
    };
    let words: Vec<Words> = seen
        .iter()
        .map(|one| board.words(&one.text, size, true))
        .collect();
    let widest = words.iter().map(|one| one.width).fold(0.0, f64::max);
    let apart = readings.windows(2).map(|two| two[1] - two[0]);
    let level = row.level || apart.fold(f64::INFINITY, f64::min) > widest + hand.gap;
    let between = |two: &[Words]| match level {
        true => two[0].half()[0] + two[1].half()[0] + 2.0 * hand.gap,
        false => two[0].half()[1] + two[1].half()[1] + 0.5,
    };
    let pitches: Vec<f64> = words.windows(2).map(between).collect();
    let spread = spread(&readings, &pitches);
    let mut best: Option<(f64, Vec<Set>)> = None;
    for step in 0..TRIES {
        for (side, clear) in [(1.0, row.clear), (-1.0, row.clear_back)] {
            let out = board.view.direction(row.out) * side;
            let off = clear * board.view.scale + hand.gap * 2.0 + step as f64 * size * 1.3;
            let sets: Vec<Set> = (points.iter().zip(&readings))
                .zip(spread.iter().zip(&words))
                .map(|((&at, &reading), (&moved, words))| {
                    let foot = at + along * (moved - reading) + out * off;
                    set(at, foot, along, out, words, level)
                })
                .collect();
            let cost = cost(board, &sets) + step as f64 + if side < 0.0 { 3.0 } else { 0.0 };
            if best.as_ref().is_none_or(|(least, _)| cost < *least) {
                best = Some((cost, sets));
            }
        }
    }
    let Some((_, sets)) = best else { return };
    for (words, set) in words.into_iter().zip(sets) {
        if board.is_free(&set.tile) {
            board.write(index, item, words, set.tile);
            board.rule(index, Tone::Second, LineStyle::Hair, set.leader);
        } else {
            board.laid.dropped += 1;
        }
    }
}

fn set(at: ViewPoint, foot: ViewPoint, along: Vec2, out: Vec2, words: &Words, level: bool) -> Set {
    let [width, height] = words.half();
    let (way, depth) = if level { (along, height) } else { (out, width) };
    Set {
        tile: Tile {
            middle: foot + out * (depth + words.size * 0.15),
            half: [width, height],
            along: readable(way),
        },
        leader: [at, foot],
    }
}

fn cost(board: &LayoutBoard, sets: &[Set]) -> f64 {
    let of = |set: &Set| {
        let hidden = if board.is_free(&set.tile) { 0.0 } else { 12.0 };
        hidden + board.cost(&set.tile)
    };
    sets.iter().map(of).sum()
}

/// Readings in order, moved as little as possible (least squares) to be at least their `pitches`
/// apart, each from one to the next.
///
/// Takes off the pitches so far and pools neighbours that are out of order (isotonic regression by
/// pooling adjacent violators).
fn spread(readings: &[f64], pitches: &[f64]) -> Vec<f64> {
    let mut so_far = 0.0;
    let mut taken = vec![0.0];
    taken.extend(pitches.iter().map(|pitch| {
        so_far += pitch;
        so_far
    }));
    let mut pools: Vec<(f64, usize)> = Vec::new();
    for (reading, taken) in readings.iter().zip(&taken) {
        let mut pool = (reading - taken, 1);
        while let Some(&(mean, count)) = pools.last()
            && mean > pool.0
        {
            let both = count + pool.1;
            pool.0 = (mean * count as f64 + pool.0 * pool.1 as f64) / both as f64;
            pool.1 = both;
            pools.pop();
        }
        pools.push(pool);
    }
    let levels = pools
        .into_iter()
        .flat_map(|(mean, count)| std::iter::repeat_n(mean, count));
    levels
        .zip(taken)
        .map(|(mean, taken)| mean + taken)
        .collect()
}

#[cfg(test)]
mod tests {
    use super::spread;

    #[test]
    fn what_has_room_stays_and_the_rest_is_pushed_apart_evenly() {
        assert_eq!(spread(&[0.0, 20.0, 50.0], &[10.0; 2]), [0.0, 20.0, 50.0]);
        assert_eq!(spread(&[0.0, 2.0, 50.0], &[10.0; 2]), [-4.0, 6.0, 50.0]);
        assert_eq!(spread(&[5.0, 5.0, 5.0], &[4.0; 2]), [1.0, 5.0, 9.0]);
        // A wide figure takes more room than a narrow one.
        assert_eq!(spread(&[0.0, 3.0, 5.0], &[4.0, 12.0]), [-4.0, 0.0, 12.0]);
        assert!(spread(&[], &[]).is_empty());
    }
}

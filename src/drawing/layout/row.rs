//! Figures of points along one line: level with it where they have room, else square to it, pushed
//! apart just as far as they must be, those that find no place there in another row.

use super::LINE;
use super::board::{LayoutBoard, Words, Written, readable};
use super::lead::lead_close;
use super::tile::Tile;
use crate::drawing::bounds::Vec2;
use crate::drawing::model::{DrawnItem, LineStyle, Row, RowFigure};
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
    let (seen, left_out) = thinned(board, row, seen);
    board.laid.dropped += left_out;
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
    let space = words.iter().map(|one| one.space).fold(0.0, f64::max);
    let apart = readings.windows(2).map(|two| two[1] - two[0]);
    let level = row.level || apart.fold(f64::INFINITY, f64::min) > widest + 2.0 * space;
    let between = |two: &[Words]| match level {
        true => two[0].half()[0] + two[1].half()[0] + two[0].space + two[1].space + 0.5,
        false => two[0].half()[1] + two[1].half()[1] + 0.5,
    };
    let pitches: Vec<f64> = words.windows(2).map(between).collect();
    let spread = spread(&readings, &pitches);
    let mut rows: Vec<(f64, Vec<Set>)> = Vec::new();
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
            let other_side = if side < 0.0 { 3.0 } else { 0.0 };
            let cost = cost(board, &sets, &words) + step as f64 + other_side;
            rows.push((cost, sets));
        }
    }
    rows.sort_by(|one, other| one.0.total_cmp(&other.0));
    for (at, words) in words.into_iter().enumerate() {
        // One that has no place in its row stands in the next.
        let mut sets = rows.iter().filter_map(|(_, sets)| sets.get(at));
        let set = sets.find(|set| is_free(board, set, &words));
        let found = match set {
            Some(set) => Some((set.tile, Some(set.leader))),
            None => lead_close(board, points[at], &words).map(|led| (led.tile, led.leader)),
        };
        let Some((tile, leader)) = found else {
            board.laid.dropped += 1;
            continue;
        };
        board.write(index, item, words, tile);
        if let Some(ends) = leader {
            board.rule(index, Tone::Second, LineStyle::Hair, ends);
        }
    }
}

/// Every so many figures of a row, and its last, where they stand so close that the rest would be pushed
/// far off their points; and how many are left out.
fn thinned<'a>(
    board: &LayoutBoard,
    row: &Row,
    figures: Vec<&'a RowFigure>,
) -> (Vec<&'a RowFigure>, usize) {
    /// How far a row may reach beyond its points, in figures.
    const BEYOND: f64 = 4.0;
    let (Some(first), Some(last), false) = (figures.first(), figures.last(), row.level) else {
        return (figures, 0);
    };
    let length = (board.view.place(last.at) - board.view.place(first.at)).norm();
    let room = length / (board.desk.hand.small_text * LINE + 0.5) + BEYOND;
    let every = (figures.len() as f64 / room).ceil().max(1.0) as usize;
    let end = figures.len() - 1;
    let kept = figures.iter().enumerate();
    let kept = kept.filter(|(at, _)| at % every == 0 || *at == end);
    let kept: Vec<_> = kept.map(|(_, figure)| *figure).collect();
    let left_out = figures.len() - kept.len();
    (kept, left_out)
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

fn cost(board: &LayoutBoard, sets: &[Set], words: &[Words]) -> f64 {
    let of = |(set, words): (&Set, &Words)| match is_free(board, set, words) {
        true => board.cost(&set.tile, Written::Beside),
        false => 12.0,
    };
    sets.iter().zip(words).map(of).sum()
}

/// True where the figure can be read and its leader runs through no words.
fn is_free(board: &LayoutBoard, set: &Set, words: &Words) -> bool {
    let [from, to] = set.leader;
    board.is_free(&set.tile, words)
        && !board.is_struck(&set.tile, Written::Beside)
        && board.spares_words(from, to)
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

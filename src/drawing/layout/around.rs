//! A place for words: around their point, on a line, or beside it.
//!
//! ```text
//!   first where they belong; else moved along or to the other side; else led out; else smaller:
//!
//!      ─── 3 412 ───        ──────────────╮
//!                                    3 412
//! ```

use super::board::{LayoutBoard, Words, Written, readable};
use super::lead::{lead_out, leader, leader_cost, off_point};
use super::tile::Tile;
use crate::drawing::bounds::Vec2;
use crate::drawing::model::{DrawnItem, Label, LineStyle, Rank, WordsPlace};
use crate::drawing::tone::Tone;
use crate::drawing::view::ViewPoint;

/// What being one try later costs, in the coin of crossed lines.
const LATER: f64 = 0.12;

/// Directions in which a place around a point is looked for.
const DIRECTIONS: i32 = 16;

/// How far off words may stand that are only nice to have, in lines of words.
const CLOSE: &[f64] = &[0.0, 0.6];
/// The same for most words; from the third on, a line joins them to their point.
const NEAR: &[f64] = &[0.0, 0.6, 1.6, 3.0];
/// The same for a number that belongs just there.
const THERE: &[f64] = &[0.0, 0.6, 1.6, 2.7];
/// A place to try.
struct Try {
    tile: Tile,
    cost: f64,
    /// From the point to the words, where they stand so far off that a line must join them.
    leader: Option<[ViewPoint; 2]>,
}

pub(super) fn place(board: &mut LayoutBoard, index: usize, item: &DrawnItem, label: &Label) {
    let at = board.view.place(label.at);
    if !(board.sees(at) && at.x.is_finite() && at.y.is_finite()) {
        return;
    }
    let size = board.desk.hand.size(label.size);
    let smaller = board.desk.hand.small_text.min(size);
    let mut sizes = vec![size];
    if label.rank >= Rank::Main && smaller < size {
        sizes.push(smaller);
    }
    for size in sizes {
        let words = board.signed(label.sign, &label.text, size, label.bold);
        let found = where_it_belongs(board, label, at, &words);
        if let Some(found) = found.or_else(|| led_out(board, label, at, &words)) {
            if let Some(ends) = found.leader {
                board.rule(index, Tone::Second, LineStyle::Hair, ends);
            }
            board.write(index, item, words, found.tile);
            return;
        }
    }
    board.laid.dropped += 1;
}

fn where_it_belongs(
    board: &LayoutBoard,
    label: &Label,
    at: ViewPoint,
    words: &Words,
) -> Option<Try> {
    let mut written = Written::Beside;
    let tries = match label.place {
        WordsPlace::Around { toward, clear } => {
            let rings = if label.rank >= Rank::Usual {
                NEAR
            } else {
                CLOSE
            };
            around(board, rings, at, toward, clear, words)
        }
        WordsPlace::Toward { toward, clear } => close_by(board, at, toward, clear, words),
        WordsPlace::Along { along, reach } => {
            written = Written::OnLine;
            along_line(board, at, along, reach, words)
        }
        WordsPlace::Beside { along, out, reach } => beside(board, at, along, out, reach, words),
        WordsPlace::Clear { along, out, reach } => {
            clear_of_lines(board, at, along, out, reach, words)
        }
    };
    best(board, tries, words, written)
}

/// The free place that costs least.
fn best(board: &LayoutBoard, tries: Vec<Try>, words: &Words, written: Written) -> Option<Try> {
    let mut found: Option<Try> = None;
    for try_ in tries {
        let least = found.as_ref().map_or(f64::INFINITY, |found| found.cost);
        if try_.cost >= least || !board.is_free(&try_.tile, words) {
            continue;
        }
        let leader = match try_.leader {
            Some(ends) => match leader_cost(board, ends) {
                Some(cost) => cost,
                None => continue,
            },
            None => 0.0,
        };
        let cost = try_.cost + leader + board.cost(&try_.tile, written);
        if cost < least {
            found = Some(Try { cost, ..try_ });
        }
    }
    found
}

/// Out of the way with a line to the point, for what is never left out.
fn led_out(board: &LayoutBoard, label: &Label, at: ViewPoint, words: &Words) -> Option<Try> {
    if label.rank < Rank::Kept {
        return None;
    }
    let clear = match label.place {
        WordsPlace::Around { clear, .. } | WordsPlace::Toward { clear, .. } => clear,
        _ => 0.0,
    };
    let led = lead_out(board, at, clear, words)?;
    Some(Try {
        tile: led.tile,
        cost: 0.0,
        leader: led.leader,
    })
}

fn around(
    board: &LayoutBoard,
    rings: &[f64],
    at: ViewPoint,
    toward: Vec2,
    clear: f64,
    words: &Words,
) -> Vec<Try> {
    let near = off_point(board, clear);
    let way = board.view.direction(toward);
    let start = way.y.atan2(way.x);
    let half = words.half();
    let mut tries = Vec::new();
    for (ring, &lines) in rings.iter().enumerate() {
        for step in 0..DIRECTIONS {
            let side = if step % 2 == 0 { 1 } else { -1 };
            let turn = f64::from(side * ((step + 1) / 2)) / f64::from(DIRECTIONS);
            let (sine, cosine) = (start + turn * std::f64::consts::TAU).sin_cos();
            let out = near + lines * words.size;
            let away = Vec2::new(cosine * (out + half[0]), sine * (out + half[1]));
            let tile = Tile::level(at + away, half);
            let leader = (lines > 1.0).then(|| leader(board, at, near, &tile));
            tries.push(Try {
                tile,
                cost: LATER * f64::from(step) + 2.0 * ring as f64,
                leader: leader.flatten(),
            });
        }
    }
    tries
}

/// Straight on, or a sixteenth of a turn to either side; with a line to the point up to a quarter.
fn close_by(
    board: &LayoutBoard,
    at: ViewPoint,
    toward: Vec2,
    clear: f64,
    words: &Words,
) -> Vec<Try> {
    let all = around(board, THERE, at, toward, clear, words);
    let near = all.into_iter().enumerate().filter(|(step, try_)| {
        let most = if try_.leader.is_some() { 8 } else { 2 };
        step % DIRECTIONS as usize <= most
    });
    near.map(|(_, try_)| try_).collect()
}

/// The middle first, then to and fro.
fn to_and_fro(reach: f64, steps: i32) -> impl Iterator<Item = (f64, f64)> + Clone {
    (0..=2 * steps).map(move |step| {
        let side = if step % 2 == 0 { 1 } else { -1 };
        let share = f64::from(side * ((step + 1) / 2)) / f64::from(steps);
        (share * reach, LATER * f64::from(step))
    })
}

fn direction(board: &LayoutBoard, along: Vec2) -> Vec2 {
    let way = board.view.direction(along).try_normalize(1e-9);
    readable(way.unwrap_or(Vec2::new(1.0, 0.0)))
}

fn along_line(
    board: &LayoutBoard,
    at: ViewPoint,
    along: Vec2,
    reach: f64,
    words: &Words,
) -> Vec<Try> {
    let way = direction(board, along);
    let reach = (reach * board.view.scale - words.width / 2.0).max(0.0);
    to_and_fro(reach, 4)
        .map(|(slide, cost)| Try {
            tile: Tile {
                middle: at + way * slide,
                half: words.half(),
                along: way,
            },
            cost,
            leader: None,
        })
        .collect()
}

fn beside(
    board: &LayoutBoard,
    at: ViewPoint,
    along: Vec2,
    out: Vec2,
    reach: f64,
    words: &Words,
) -> Vec<Try> {
    let hand = board.desk.hand;
    let way = direction(board, along);
    let out = board.view.direction(out);
    let reach = (reach * board.view.scale - words.width / 2.0).max(0.0);
    let half = words.half();
    let off = out * (hand.gap + hand.strip + half[1]);
    let sides = [1.0, -1.0, 1.6, -1.6, 2.4, 3.2].map(|side| off * side);
    in_rows(at, &sides, way, to_and_fro(reach, 3))
        .map(|(middle, cost)| Try {
            tile: Tile {
                middle,
                half,
                along: way,
            },
            cost,
            leader: None,
        })
        .collect()
}

/// Places along each row in turn, each row so far off; those of a later row cost more.
fn in_rows(
    at: ViewPoint,
    rows: &[Vec2],
    way: Vec2,
    slides: impl Iterator<Item = (f64, f64)> + Clone,
) -> impl Iterator<Item = (ViewPoint, f64)> {
    rows.iter().enumerate().flat_map(move |(row, off)| {
        let slides = slides.clone();
        slides.map(move |(slide, cost)| (at + way * slide + off, cost + row as f64))
    })
}

/// Level words close to a line, where they stand on none.
fn clear_of_lines(
    board: &LayoutBoard,
    at: ViewPoint,
    along: Vec2,
    out: Vec2,
    reach: f64,
    words: &Words,
) -> Vec<Try> {
    let way = board.view.direction(along);
    let out = board.view.direction(out);
    let half = words.half();
    let reach = (reach * board.view.scale - half[1]).max(0.0);
    let off = out * (board.desk.hand.gap + half[0]);
    in_rows(at, &[off, -off], way, to_and_fro(reach, 4))
        .map(|(middle, cost)| Try {
            tile: Tile::level(middle, half),
            cost,
            leader: None,
        })
        .filter(|one| board.cost(&one.tile, Written::Beside) == 0.0)
        .collect()
}

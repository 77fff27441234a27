//! Narrow pieces in two columns, as even as they come, page after page.

use super::piece::{Piece, Sheaf, group_end, height};
use std::rc::Rc;

/// Between the columns, pt.
pub(super) const BETWEEN: f64 = 18.0;
/// Less of a page than this is left empty rather than begun, pt.
pub(super) const LEAST: f64 = 60.0;

/// The width of one of two columns, pt.
pub(super) fn width(full: f64) -> f64 {
    (full - BETWEEN) / 2.0
}

/// Fills the rest of the page, and further pages, with narrow pieces.
pub(super) fn fill(pieces: &[Rc<Piece>], sheaf: &mut Sheaf<'_>) {
    let mut rest = pieces;
    while let Some(first) = rest.first() {
        let top = if sheaf.y > 0.0 {
            sheaf.y + first.before
        } else {
            0.0
        };
        let room = sheaf.frame.height - top;
        let most = if room < LEAST { 0 } else { held(rest, room) };
        if most == 0 && sheaf.y > 0.0 {
            sheaf.turn_over();
            continue;
        }
        // A group that no page holds is broken where it must be.
        let taken = if most == 0 { 1 } else { most };
        let (here, after) = rest.split_at(taken);
        let tall = if after.is_empty() {
            even(here, room)
        } else {
            room
        };
        put(here, top, tall, sheaf);
        rest = after;
        if !rest.is_empty() {
            sheaf.turn_over();
        }
    }
}

/// How many pieces two columns of this height hold, whole groups.
fn held(pieces: &[Rc<Piece>], tall: f64) -> usize {
    let first = column(pieces, tall);
    first + column(&pieces[first..], tall)
}

/// How many pieces one column of this height holds, whole groups.
fn column(pieces: &[Rc<Piece>], tall: f64) -> usize {
    let mut at = 0;
    let mut y = 0.0;
    while at < pieces.len() {
        let end = group_end(pieces, at);
        let group = &pieces[at..end];
        let before = if at == 0 {
            group[0].again.as_ref().map_or(0.0, |again| again.height)
        } else {
            group[0].before
        };
        y += before + height(group);
        if y > tall {
            break;
        }
        at = end;
    }
    at
}

/// The least height at which both columns hold all of the pieces, pt.
fn even(pieces: &[Rc<Piece>], most: f64) -> f64 {
    let [mut low, mut high] = [height(pieces) / 2.0 - 1.0, most];
    for _ in 0..24 {
        let middle = f64::midpoint(low, high);
        if held(pieces, middle) == pieces.len() {
            high = middle;
        } else {
            low = middle;
        }
    }
    high
}

fn put(pieces: &[Rc<Piece>], top: f64, tall: f64, sheaf: &mut Sheaf<'_>) {
    let left = column(pieces, tall).max(1).min(pieces.len());
    let (first, second) = pieces.split_at(left);
    let right = width(sheaf.frame.width) + BETWEEN;
    let mut lowest = top;
    for (x, column) in [(0.0, first), (right, second)] {
        let mut y = top;
        for (at, piece) in column.iter().enumerate() {
            if at > 0 {
                y += piece.before;
            } else if let Some(again) = &piece.again {
                sheaf.put([x, y], again);
                y += again.height;
            }
            sheaf.put([x, y], piece);
            y += piece.height;
        }
        lowest = lowest.max(y);
    }
    sheaf.y = lowest;
}

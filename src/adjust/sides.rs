//! On which side of its neighbours each mark lies: the sketch decides.
//!
//! Tapes fit a mark on either side of the line through two others alike; where they hang on marks
//! nearly in one line, a single slip may make the wrong side fit better:
//!
//! ```text
//!              · D as drawn
//!   A──────·──────C          tapes from A, K and C
//!          K   · D as well
//! ```

use super::fit::Fit;
use super::locus::apart;
use super::mark::{At, Param, place, put};
use super::order::Ties;
use super::problem::Prepared;
use arrayvec::ArrayVec;

/// On which side of their neighbours the marks lie.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Sides {
    /// Where the rough positions have them.
    AsSketched,
    /// Where the rough positions have them, and one reading does not fit, or all do but not well: all
    /// would, and better than by chance, with this mark on the other side.
    OrOther(Crossing),
    /// The readings fit only with this mark on the other side of where the rough positions have it.
    OnlyOther(Crossing),
}

/// A mark on the other side of the line from one neighbour to another than the rough positions.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Crossing {
    /// The mark.
    pub mark: At,
    /// Where the line starts.
    pub from: At,
    /// Where it is heading.
    pub to: At,
}

/// A crossing, and how far the three marks are from lying in one line on either side, mm.
#[derive(Clone, Copy, Debug)]
pub(super) struct Crossed {
    pub crossing: Crossing,
    pub by: f64,
}

/// More neighbours than this tell nothing more of where a mark lies.
const MOST_NEIGHBOURS: usize = 8;

/// The mark that is furthest over the line through two neighbours from where the sketch has it.
#[must_use]
pub(super) fn crossed(problem: &Prepared, ties: &Ties, x: &[f64]) -> Option<Crossed> {
    let start = &problem.start;
    let mut most: Option<([At; 3], f64)> = None;
    // By how much each mark is over lines, all lines together.
    let mut over = vec![0.0; ties.marks.len()];
    for (mark, readings) in ties.iter().filter(|(mark, _)| ties.holds(*mark)) {
        let mut neighbours = neighbours(problem, readings, mark);
        neighbours.retain(|other| ties.holds(*other));
        for (at, &a) in neighbours.iter().enumerate() {
            for &b in &neighbours[at + 1..] {
                let of = |x: &[f64]| altitude([mark, a, b].map(|mark| place(x, mark)));
                let (drawn, found) = (of(start), of(x));
                let by = drawn.abs().min(found.abs());
                if drawn * found >= 0.0 {
                    continue;
                }
                for at in [mark, a, b].map(|mark| ties.marks.binary_search(&mark)) {
                    over[at.unwrap_or(0)] += by;
                }
                if most.is_none_or(|(_, most)| by > most) {
                    most = Some(([mark, a, b], by));
                }
            }
        }
    }
    let (mut three, by) = most?;
    // Of the three, the one that is over most lines, or has moved most, is the one that lies elsewhere.
    let lines = |mark: At| over[ties.marks.binary_search(&mark).unwrap_or(0)];
    let pairs = ties.marks.iter();
    let fit = Fit::of(pairs.map(|&mark| (place(start, mark), place(x, mark))));
    let moved = |mark: At| apart(fit.of_point(place(start, mark)), place(x, mark));
    three.sort_by(|a, b| {
        let by_lines = lines(*b).total_cmp(&lines(*a));
        by_lines.then(moved(*b).total_cmp(&moved(*a)))
    });
    let [mark, a, b] = three;
    let crossing = Crossing {
        mark,
        from: a.min(b),
        to: a.max(b),
    };
    Some(Crossed { crossing, by })
}

/// Least altitude of a triangle, positive where its corners go round to the left, mm: how far a
/// corner must move to bring all three into one line.
fn altitude([a, b, c]: [[f64; 2]; 3]) -> f64 {
    let longest = apart(a, b).max(apart(b, c)).max(apart(c, a));
    if longest <= 0.0 {
        return 0.0;
    }
    ((b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])) / longest
}

/// The first few marks that readings tie a mark to.
fn neighbours(problem: &Prepared, readings: &[usize], mark: At) -> ArrayVec<At, MOST_NEIGHBOURS> {
    let mut known = ArrayVec::new();
    let others = readings
        .iter()
        .flat_map(|&index| problem.readings[index].equation.marks());
    for other in others {
        if other != mark && !known.is_full() && !known.contains(&other) {
            known.push(other);
        }
    }
    known
}

/// Of the mirror images of the whole site that fit as well and leave held parameters alone, the
/// one that is the way up that the rough positions are.
///
/// Tapes alone cannot tell a site from its mirror image; the sketch can, even where its own
/// bearing is poor (`a_few_marks` of `tests/adjust_recovery.rs` fails without).
#[must_use]
pub(super) fn right_way_up(problem: &Prepared, marks: &[At], x: Vec<f64>) -> Vec<f64> {
    let chi2 = problem.chi2(&x, None);
    let likeness = |x: &[f64]| {
        (
            turned_likeness(marks, &problem.start, x),
            along(problem, marks, x),
        )
    };
    let mut best = (likeness(&x), x.clone());
    for (flip_x, flip_y) in [(false, true), (true, false), (true, true)] {
        let image = mirrored(marks, &x, flip_x, flip_y);
        let keeps = |param: usize| problem.slot(param).is_some() || image[param] == x[param];
        let as_good = problem.chi2(&image, None) <= chi2 * (1.0 + 1e-9) + 1e-9;
        let like = likeness(&image);
        if (0..x.len()).all(keeps) && as_good && is_more_like(like, best.0) {
            best = (like, image);
        }
    }
    best.1
}

/// Likeness after the best turn decides; where a half turn makes no difference to it, the bearing.
fn is_more_like(a: (f64, f64), b: (f64, f64)) -> bool {
    let close = 1e-9 * a.0.abs().max(b.0.abs());
    if (a.0 - b.0).abs() > close {
        a.0 > b.0
    } else {
        a.1 > b.1
    }
}

fn mirrored(marks: &[At], x: &[f64], flip_x: bool, flip_y: bool) -> Vec<f64> {
    let mut image = x.to_vec();
    for &mark in marks {
        let [px, py] = place(x, mark);
        let turned = |flip: bool, value: f64| if flip { 0.0 - value } else { value };
        put(&mut image, mark, [turned(flip_x, px), turned(flip_y, py)]);
    }
    image
}

/// How alike two sites are after the best shift and turn (not mirrored): |Σ ā b| of the marks as
/// complex numbers about their means.
fn turned_likeness(marks: &[At], a: &[f64], b: &[f64]) -> f64 {
    let mean = |x: &[f64]| {
        let sum = marks.iter().fold([0.0; 2], |sum, &mark| {
            let [px, py] = place(x, mark);
            [sum[0] + px, sum[1] + py]
        });
        sum.map(|part| part / marks.len().max(1) as f64)
    };
    let (mean_a, mean_b) = (mean(a), mean(b));
    let sum = marks.iter().fold([0.0; 2], |sum, &mark| {
        let (p, q) = (place(a, mark), place(b, mark));
        let (px, py) = (p[0] - mean_a[0], p[1] - mean_a[1]);
        let (qx, qy) = (q[0] - mean_b[0], q[1] - mean_b[1]);
        [sum[0] + px * qx + py * qy, sum[1] + px * qy - py * qx]
    });
    sum[0].hypot(sum[1])
}

/// How far the free coordinates of half-held marks agree in sense with the rough ones (those that
/// are roughly 0 with the positive axis): these carry the bearing of the frame.
fn along(problem: &Prepared, marks: &[At], x: &[f64]) -> f64 {
    let is_free = |param: Param| problem.slot(param.0).is_some();
    let half_held = |mark: &&At| is_free(mark.x) != is_free(mark.y);
    marks
        .iter()
        .filter(half_held)
        .map(|&mark| {
            let (p, q) = (place(&problem.start, mark), place(x, mark));
            let sense = |rough: f64| if rough == 0.0 { 1.0 } else { rough };
            sense(p[0]) * q[0] + sense(p[1]) * q[1]
        })
        .sum()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_altitude_has_the_sign_of_the_way_round() {
        let (a, b, c) = ([0.0, 0.0], [4.0, 0.0], [1.0, 2.0]);
        assert_eq!(altitude([a, b, c]), 2.0);
        assert_eq!(altitude([b, a, c]), -2.0);
        assert_eq!(altitude([a, a, a]), 0.0);
    }

    #[test]
    fn a_turned_site_is_alike_and_a_mirrored_one_less_so() {
        let marks = [At::nth(0), At::nth(1), At::nth(2)];
        let site = [0.0, 0.0, 4.0, 0.0, 1.0, 2.0];
        let turned = [7.0, 7.0, 7.0, 11.0, 5.0, 8.0];
        let same = turned_likeness(&marks, &site, &site);
        assert!((turned_likeness(&marks, &site, &turned) - same).abs() < 1e-12);
        let image = mirrored(&marks, &site, false, true);
        assert!(turned_likeness(&marks, &site, &image) < same - 1.0);
    }
}

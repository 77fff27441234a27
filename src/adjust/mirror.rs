//! Mirror images: of single marks, which fit better or not, and of the whole, which fit alike.

use super::equation::{At, Param, place};
use super::order::Ties;
use super::problem::Problem;
use arrayvec::ArrayVec;

fn is_free(problem: &Problem, param: Param) -> bool {
    problem.slot(param.0).is_some()
}

/// More neighbours than this tell nothing more of where a mark may lie.
const MOST_NEIGHBOURS: usize = 8;

/// Places to try for single marks, the most promising first, each as a reading of the mark and all
/// parameters: a mark mirrored in the line through two neighbours, wherever its own readings prefer
/// that.
#[must_use]
pub(super) fn mirrored_marks(problem: &Problem, ties: &Ties, x: &[f64]) -> Vec<(usize, Vec<f64>)> {
    let mut moved = x.to_vec();
    let mut found: Vec<(f64, usize, At, [f64; 2])> = Vec::new();
    for (mark, readings) in ties.free(problem) {
        let here = place(x, mark);
        let mut misfit = |to: [f64; 2], most: f64| {
            put(&mut moved, mark, to);
            let mut sum = 0.0;
            for &index in readings {
                let v = problem.misfit(index, &moved);
                sum += v * v;
                if sum >= most {
                    break;
                }
            }
            sum
        };
        let now = misfit(here, f64::INFINITY);
        let neighbours = neighbours(problem, readings, mark);
        let mut best = (now, here);
        for (at, a) in neighbours.iter().enumerate() {
            for b in &neighbours[at + 1..] {
                if let Some(image) = image(here, place(x, *a), place(x, *b)) {
                    let there = misfit(image, best.0);
                    if there < best.0 {
                        best = (there, image);
                    }
                }
            }
        }
        put(&mut moved, mark, here);
        if let (true, Some(&reading)) = (best.0 < now * BETTER, readings.first()) {
            found.push((best.0 - now, reading, mark, best.1));
        }
    }
    found.sort_by(|a, b| a.0.total_cmp(&b.0));
    let with = |mark: At, image: [f64; 2]| {
        let mut x = x.to_vec();
        put(&mut x, mark, image);
        x
    };
    found
        .into_iter()
        .map(|(_, reading, mark, image)| (reading, with(mark, image)))
        .collect()
}

/// What counts as fitting better, as a share of the misfit: less is only what is left of the way
/// downhill.
const BETTER: f64 = 0.9;

fn neighbours(problem: &Problem, readings: &[usize], mark: At) -> ArrayVec<At, MOST_NEIGHBOURS> {
    let mut known = ArrayVec::new();
    let others = readings
        .iter()
        .flat_map(|&index| problem.readings[index].form.marks());
    for other in others {
        if other != mark && !known.is_full() && !known.contains(&other) {
            known.push(other);
        }
    }
    known
}

/// Puts a mark where told.
pub(super) fn put(x: &mut [f64], mark: At, [px, py]: [f64; 2]) {
    for (param, value) in [(mark.x, px), (mark.y, py)] {
        if let Some(place) = x.get_mut(param.0) {
            *place = value;
        }
    }
}

/// A point mirrored in the line through `a` and `b`; none if these coincide.
pub(super) fn image(
    [px, py]: [f64; 2],
    [ax, ay]: [f64; 2],
    [bx, by]: [f64; 2],
) -> Option<[f64; 2]> {
    let (dx, dy) = (bx - ax, by - ay);
    let square = dx * dx + dy * dy;
    if square <= 0.0 {
        return None;
    }
    let across = 2.0 * (dx * (py - ay) - dy * (px - ax)) / square;
    Some([px + across * dy, py - across * dx])
}

/// Misfits nearer to each other than this are of one fit.
const ALIKE: f64 = 1e-6;

/// Marks that only two tapes hold, each on the side of these tapes' other ends that the sketch has
/// it on: both sides fit alike, and a bad slip elsewhere may have carried it over.
#[must_use]
pub(super) fn on_sketched_sides(problem: &Problem, ties: &Ties, mut x: Vec<f64>) -> Vec<f64> {
    for (mark, readings) in ties.free(problem) {
        let ends = neighbours(problem, readings, mark);
        let (&[a, b], 2) = (&ends[..], readings.len()) else {
            continue;
        };
        let side = |x: &[f64]| side(place(x, mark), place(x, a), place(x, b));
        let here = place(&x, mark);
        if side(&problem.start) * side(&x) < 0.0
            && let Some(image) = image(here, place(&x, a), place(&x, b))
        {
            let misfit = |x: &[f64]| {
                let each = readings
                    .iter()
                    .map(|&index| problem.misfit(index, x).powi(2));
                each.sum::<f64>()
            };
            let before = misfit(&x);
            put(&mut x, mark, image);
            if misfit(&x) > before + ALIKE {
                put(&mut x, mark, here);
            }
        }
    }
    x
}

/// Twice the area of the triangle, positive where `p` is left of the way from `a` to `b`.
fn side([px, py]: [f64; 2], [ax, ay]: [f64; 2], [bx, by]: [f64; 2]) -> f64 {
    (bx - ax) * (py - ay) - (by - ay) * (px - ax)
}

/// Of the mirror images of the whole site that fit as well and leave held parameters alone, the
/// one that is the way up that the rough positions are.
///
/// Tapes alone cannot tell a site from its mirror image; the sketch can, even where its own
/// bearing is poor.
#[must_use]
pub(super) fn right_way_up(problem: &Problem, marks: &[At], x: Vec<f64>) -> Vec<f64> {
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
        let keeps = |param: usize| is_free(problem, Param(param)) || image[param] == x[param];
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
fn along(problem: &Problem, marks: &[At], x: &[f64]) -> f64 {
    let half_held = |mark: &&At| is_free(problem, mark.x) != is_free(problem, mark.y);
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
    fn a_point_mirrored_in_a_line() {
        assert_eq!(image([2.0, 3.0], [0.0, 0.0], [5.0, 0.0]), Some([2.0, -3.0]));
        assert_eq!(image([2.0, 3.0], [0.0, 0.0], [4.0, 4.0]), Some([3.0, 2.0]));
        assert_eq!(image([2.0, 3.0], [1.0, 1.0], [1.0, 1.0]), None);
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

//! Parts of a site that hang on the rest by two marks, as a gate on its hinges.

use super::equation::{At, Param, place};
use super::mirror::{image, put};
use super::problem::Problem;

/// Readings that miss by more than this, in sds, hold nothing in place.
const MISSING: f64 = 3.0;

/// Places to try, each as all parameters, the best fitting first: a part of the site folded over
/// the line through the two marks that alone tie it to the rest, readings that fit badly left
/// aside; and either end of the frame by itself folded over. Only what has less than `most`
/// Σ(v/sd)² as it stands.
#[must_use]
pub(super) fn folded(problem: &Problem, marks: &[At], x: &[f64], most: f64) -> Vec<Vec<f64>> {
    let ties = good_ties(problem, marks, x);
    let framed: Vec<bool> = marks
        .iter()
        .map(|mark| {
            [mark.x, mark.y]
                .iter()
                .any(|&Param(param)| problem.slot(param).is_none())
        })
        .collect();
    let mut found: Vec<(f64, Vec<f64>)> = Vec::new();
    let mut image = x.to_vec();
    for a in 0..marks.len() {
        for b in a + 1..marks.len() {
            for part in parts(&ties, &framed, a, b) {
                image.copy_from_slice(x);
                if !fold(&mut image, marks, &part, a, b) {
                    continue;
                }
                let chi2 = problem.chi2(&image, None);
                if chi2 < most {
                    found.push((chi2, image.clone()));
                }
            }
        }
    }
    found.sort_by(|a, b| a.0.total_cmp(&b.0));
    found.into_iter().map(|(_, x)| x).collect()
}

/// Which marks are tied to which by readings that fit.
fn good_ties(problem: &Problem, marks: &[At], x: &[f64]) -> Vec<Vec<usize>> {
    let mut ties = vec![Vec::new(); marks.len()];
    for (index, reading) in problem.readings.iter().enumerate() {
        if problem.misfit(index, x).abs() > MISSING {
            continue;
        }
        let its: Vec<usize> = reading
            .form
            .marks()
            .filter_map(|mark| marks.binary_search(&mark).ok())
            .collect();
        for &a in &its {
            ties[a].extend(its.iter().copied().filter(|&b| b != a));
        }
    }
    ties
}

/// The parts that come away when `a` and `b` are cut out, but for those with a framed mark; and
/// all but one framed mark, if that leaves no other framed.
fn parts(ties: &[Vec<usize>], framed: &[bool], a: usize, b: usize) -> Vec<Vec<usize>> {
    let mut part_of = vec![0usize; ties.len()];
    (part_of[a], part_of[b]) = (usize::MAX, usize::MAX);
    let mut parts: Vec<Vec<usize>> = Vec::new();
    for seed in 0..ties.len() {
        if part_of[seed] != 0 {
            continue;
        }
        let mut part = vec![seed];
        part_of[seed] = parts.len() + 1;
        let mut at = 0;
        while let Some(&mark) = part.get(at) {
            for &next in &ties[mark] {
                if part_of[next] == 0 {
                    part_of[next] = parts.len() + 1;
                    part.push(next);
                }
            }
            at += 1;
        }
        parts.push(part);
    }
    let rest = || (0..ties.len()).filter(|&mark| mark != a && mark != b);
    let ends: Vec<usize> = rest().filter(|&mark| framed[mark]).collect();
    // All but the hinges is no part: folding it is the mirror image, which fits alike.
    if parts.len() == 1 {
        parts.clear();
    }
    parts.retain(|part| !part.iter().any(|&mark| framed[mark]));
    if let [end] = ends[..] {
        parts.push(rest().filter(|&mark| mark != end).collect());
    }
    parts
}

fn fold(x: &mut [f64], marks: &[At], part: &[usize], a: usize, b: usize) -> bool {
    let (a, b) = (place(x, marks[a]), place(x, marks[b]));
    for &mark in part {
        let Some(folded) = image(place(x, marks[mark]), a, b) else {
            return false;
        };
        put(x, marks[mark], folded);
    }
    !part.is_empty()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_wing_comes_away_at_its_hinges() {
        // 0 1 2 3 form the house, 4 5 the wing on marks 2 and 3.
        let pairs = [
            (0, 1),
            (0, 2),
            (1, 2),
            (1, 3),
            (2, 3),
            (2, 4),
            (3, 4),
            (3, 5),
            (4, 5),
            (2, 5),
        ];
        let mut ties = vec![Vec::new(); 6];
        for (a, b) in pairs {
            ties[a].push(b);
            ties[b].push(a);
        }
        let framed = [true, true, false, false, false, false];
        assert_eq!(parts(&ties, &framed, 2, 3), [vec![4, 5]]);
        // Either end of the frame folds over any line through the other.
        assert_eq!(parts(&ties, &framed, 1, 3), [vec![2, 4, 5]]);
    }

    #[test]
    fn a_part_folds_over_its_hinges() {
        let marks = [At::nth(0), At::nth(1), At::nth(2)];
        let mut x = [0.0, 0.0, 5.0, 0.0, 2.0, 3.0];
        assert!(fold(&mut x, &marks, &[2], 0, 1));
        assert_eq!(x, [0.0, 0.0, 5.0, 0.0, 2.0, -3.0]);
        assert!(!fold(&mut x, &marks, &[2], 0, 0));
    }
}

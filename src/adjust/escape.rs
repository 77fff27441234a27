//! From a valley to the deepest one: what is done when readings fit badly.
//!
//! Walking downhill from a rough sketch may end with a mark, or a part of the site, on the wrong
//! side of its neighbours. Each way out only ever proposes where to walk downhill from again, and
//! only what fits better is kept.

use super::descent::{Descent, descend};
use super::lift::lift;
use super::limit::limit;
use super::mirror::{Tied, mirrored_marks, right_way_up, ties};
use super::problem::Problem;

/// How often the marks are let out of the plane before what is found is taken for the truth.
const TURNS: usize = 8;
/// As many turns are taken even if one slip would explain the misfit.
const SURE_TURNS: usize = 2;
/// Fits this good are beyond improving.
const PERFECT: f64 = 1e-9;

/// The parameters of least Σ(v/sd)² that can be found from the rough positions.
#[must_use]
pub(super) fn settle(problem: &Problem) -> Vec<f64> {
    let ties = ties(problem);
    let limit = limit(problem.readings.len() as i64 - problem.unknowns() as i64);
    let mut best = descend(problem, problem.start.clone(), None);
    for turn in 0..TURNS {
        if best.chi2 <= limit || (turn >= SURE_TURNS && one_slip_explains(problem, &best, limit)) {
            break;
        }
        let from = if turn % 2 == 0 {
            &problem.start
        } else {
            &best.x
        };
        let Some(lifted) = lift(problem, from, turn) else {
            break;
        };
        let again = descend(problem, lifted, None);
        if again.chi2 < best.chi2 {
            best = again;
        }
        if best.chi2 > limit {
            best = flip_marks(problem, &ties, best);
        }
    }
    let best = flip_marks(problem, &ties, best);
    right_way_up(problem, best.x)
}

/// Whether all but the worst fitting reading agree.
fn one_slip_explains(problem: &Problem, best: &Descent, limit: f64) -> bool {
    let misfit = |index: &usize| problem.misfit(*index, &best.x).abs();
    let worst = (0..problem.readings.len()).max_by(|a, b| misfit(a).total_cmp(&misfit(b)));
    descend(problem, best.x.clone(), worst).chi2 <= limit
}

/// Turns single marks over to the other side of two neighbours, as long as that fits better.
fn flip_marks(problem: &Problem, ties: &[Tied], mut best: Descent) -> Descent {
    const MOST: usize = 6;
    let mut tries = 0;
    'again: while best.chi2 > PERFECT {
        for x in mirrored_marks(problem, ties, &best.x) {
            tries += 1;
            if tries > MOST {
                break 'again;
            }
            let flipped = descend(problem, x, None);
            if flipped.chi2 < best.chi2 * (1.0 - 1e-9) {
                best = flipped;
                continue 'again;
            }
        }
        break;
    }
    best
}

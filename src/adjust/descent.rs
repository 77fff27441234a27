//! Safeguarded Gauss–Newton (Levenberg 1944, Marquardt 1963) on the sparse normal equations.

use super::cholesky::Factor;
use super::problem::{Normal, Problem};

/// Where a descent ended.
#[derive(Clone, Debug)]
pub(super) struct Descent {
    pub x: Vec<f64>,
    pub chi2: f64,
}

/// A step this small is rounding, mm.
const STILL: f64 = 1e-9;
/// Below this a step is taken on trust: what it gains in chi2 is lost in rounding, mm.
const ON_TRUST: f64 = 1e-6;
const MOST_STEPS: usize = 200;
const LEAST_DAMPING: f64 = 1e-12;
const MOST_DAMPING: f64 = 1e12;

/// Least Σ(v/sd)² over all readings but `without`, walking downhill from `x`.
#[must_use]
pub(super) fn descend(problem: &Problem, x: Vec<f64>, without: Option<usize>) -> Descent {
    descend_within(problem, x, without, MOST_STEPS)
}

/// As [`descend`], for at most so many steps.
#[must_use]
pub(super) fn descend_within(
    problem: &Problem,
    x: Vec<f64>,
    without: Option<usize>,
    steps: usize,
) -> Descent {
    let mut at = Descent {
        chi2: problem.chi2(&x, without),
        x,
    };
    let mut damping = 1e-3;
    let mut last = f64::INFINITY;
    for _ in 0..steps {
        let normal = problem.normal(&at.x, without);
        let Some(length) = step(problem, &mut at, &normal, &mut damping, without) else {
            break;
        };
        // Steps that no longer shrink near the bottom are rounding too.
        let settled = damping < 1e-6 && (length <= STILL || (length < ON_TRUST && length >= last));
        if settled {
            break;
        }
        last = length;
    }
    at
}

/// Takes one step that does not raise chi2; its largest move in mm, or none if there is no such
/// step.
fn step(
    problem: &Problem,
    at: &mut Descent,
    normal: &Normal,
    damping: &mut f64,
    without: Option<usize>,
) -> Option<f64> {
    let matrix = with_anchors(problem, normal);
    while *damping <= MOST_DAMPING {
        if let Some(factor) = Factor::new(&problem.pattern, &matrix, *damping) {
            let mut x = at.x.clone();
            let mut gradient = normal.gradient.clone();
            factor.solve(&problem.pattern, &mut gradient);
            let mut length = 0.0f64;
            for (&param, step) in problem.params.iter().zip(&gradient) {
                x[param] -= step;
                length = length.max(step.abs());
            }
            let chi2 = problem.chi2(&x, without);
            if length.is_finite() && (chi2 <= at.chi2 || (length < ON_TRUST && *damping < 1e-6)) {
                let gained = at.chi2 - chi2;
                *at = Descent { x, chi2 };
                *damping = if gained >= 0.0 {
                    *damping * 0.1
                } else {
                    *damping
                };
                *damping = damping.max(LEAST_DAMPING);
                return Some(length);
            }
        }
        *damping *= 10.0;
    }
    None
}

/// The normal matrix with a 1 on the diagonal of unknowns that no reading bears on, which then
/// stay where they are.
pub(super) fn with_anchors(problem: &Problem, normal: &Normal) -> Vec<f64> {
    let mut matrix = normal.matrix.clone();
    for slot in 0..problem.unknowns() {
        let diagonal = &mut matrix[problem.pattern.start[slot]];
        if *diagonal == 0.0 {
            *diagonal = 1.0;
        }
    }
    matrix
}

//! Safeguarded Gauss–Newton (Levenberg 1944, Marquardt 1963) on the normal equations.

use super::factor::Factor;
use super::problem::{LARGEST, Normal, Prepared};
use nalgebra::{DMatrix, DVector};

/// Where a descent ended.
#[derive(Clone, Debug)]
pub(super) struct Descent {
    pub x: Vec<f64>,
    pub chi2: f64,
}

/// A step this small is rounding, mm.
pub(super) const STILL: f64 = 1e-9;
/// Below this a step is taken on trust: what it gains in chi2 is lost in rounding, mm.
const ON_TRUST: f64 = 1e-6;
/// With the same factor steps this small are the bottom: what is left of the way is ever less, mm.
pub(super) const SETTLED: f64 = 1e-8;
/// From steps this small on, N is taken not to change much, mm.
const COASTING: f64 = 500.0;
/// How much smaller each step must be than the one before to go on so.
const SHRINKING: f64 = 0.2;
/// What rounding may add to Σ(v/sd)², as a share of it.
const ROUNDING: f64 = 1e-9;
/// Damping below this no longer holds steps back.
const UNDAMPED: f64 = 1e-6;
/// A step that leaves more than this share of Σ(v/sd)² is on the flat.
const FLAT: f64 = 0.9;
/// After so many of those in a row there is nothing more to hope for.
const HOPELESS: usize = 4;
const MOST_STEPS: usize = 200;
const LEAST_DAMPING: f64 = 1e-12;
const MOST_DAMPING: f64 = 1e12;

/// How long to go on downhill.
#[derive(Clone, Copy, Debug)]
pub(super) struct Patience {
    /// For so many steps at most.
    pub steps: usize,
    /// Not if Σ(v/sd)² stays above this.
    pub enough: f64,
}

impl Patience {
    /// Until the bottom is reached.
    pub const FULL: Self = Self {
        steps: MOST_STEPS,
        enough: f64::INFINITY,
    };
}

/// Least Σ(v/sd)² over all readings but `without`, walking downhill from `x`.
#[must_use]
pub(super) fn descend(problem: &Prepared, x: Vec<f64>, without: Option<usize>) -> Descent {
    descend_within(problem, x, without, Patience::FULL)
}

/// As [`descend`], but only as long as patience lasts.
#[must_use]
pub(super) fn descend_within(
    problem: &Prepared,
    x: Vec<f64>,
    without: Option<usize>,
    patience: Patience,
) -> Descent {
    let mut at = Descent {
        chi2: problem.chi2(&x, without),
        x,
    };
    let mut damping = 1e-4;
    let mut last = f64::INFINITY;
    let (mut slow, mut flat) = (false, 0);
    for _ in 0..patience.steps {
        let before = at.chi2;
        let normal = problem.normal(&at.x, without);
        let Some(Step { length, factor }) =
            step(problem, &mut at, &normal, &mut damping, slow, without)
        else {
            break;
        };
        // Steps that no longer shrink near the bottom are rounding too.
        let settled = length <= STILL || (length < ON_TRUST && length >= last);
        if damping < UNDAMPED && (settled || coast(problem, &mut at, &factor, length, without)) {
            break;
        }
        flat = if at.chi2 > patience.enough && at.chi2 > FLAT * before {
            flat + 1
        } else {
            0
        };
        if flat == HOPELESS {
            break;
        }
        // Once the ground is seen to be bent it stays so: straight steps between would only raise
        // the damping for the next bent one.
        slow |= length > SHRINKING * last;
        last = length;
    }
    at
}

/// Goes on with the same factor while that shrinks the steps fast: near the bottom N hardly
/// changes and factorising it is the dear part. Whether the bottom is reached.
fn coast(
    problem: &Prepared,
    at: &mut Descent,
    factor: &Factor,
    mut last: f64,
    without: Option<usize>,
) -> bool {
    if last > COASTING {
        return false;
    }
    let before = at.clone();
    let reached = loop {
        let step = factor.solve(problem.gradient(&at.x, without));
        let length = longest(&step);
        // Written so that a length that is not a number stops it too.
        if !(length <= STILL || length < SHRINKING * last) {
            break length < SETTLED;
        }
        take(problem, &mut at.x, &step);
        last = length;
        if length <= STILL {
            break true;
        }
    };
    at.chi2 = problem.chi2(&at.x, without);
    // Rounding apart, the way leads down: where it does not, each step needs its own factor.
    if at.chi2 > before.chi2 * (1.0 + ROUNDING) + ROUNDING {
        *at = before;
        return false;
    }
    reached
}

/// The largest move of a step, mm; without bound where one of its moves is not a number.
pub(super) fn longest(step: &DVector<f64>) -> f64 {
    if step.iter().any(|step| step.is_nan()) {
        return f64::INFINITY;
    }
    step.iter().fold(0.0, |most, step| most.max(step.abs()))
}

pub(super) fn take(problem: &Prepared, x: &mut [f64], step: &DVector<f64>) {
    for (&param, step) in problem.params.iter().zip(step) {
        x[param] -= step;
    }
}

struct Step {
    /// Largest move, mm.
    length: f64,
    factor: Factor,
}

/// Takes one step that does not raise chi2; none if there is no such step.
fn step(
    problem: &Prepared,
    at: &mut Descent,
    normal: &Normal,
    damping: &mut f64,
    bent: bool,
    without: Option<usize>,
) -> Option<Step> {
    let matrix = with_anchors(normal);
    // With large misfits straight equations creep; bent ones do not, but may point uphill.
    let mut curved = bent.then(|| {
        let mut matrix = matrix.clone();
        problem.add_curvature(&mut matrix, &at.x, without);
        matrix
    });
    while *damping <= MOST_DAMPING {
        let curved = curved
            .take()
            .and_then(|matrix| Factor::of(matrix, *damping));
        if let Some(factor) = curved.or_else(|| Factor::of(matrix.clone(), *damping)) {
            let step = factor.solve(normal.gradient.clone());
            let length = longest(&step);
            let mut x = at.x.clone();
            take(problem, &mut x, &step);
            let chi2 = problem.chi2(&x, without);
            let on_trust = length <= STILL || (length < ON_TRUST && *damping < UNDAMPED);
            // Angles can send a mark ever further off and gain ever less by it.
            if length <= LARGEST && (chi2 <= at.chi2 || on_trust) {
                *damping = (*damping * 0.1).max(LEAST_DAMPING);
                *at = Descent { x, chi2 };
                return Some(Step { length, factor });
            }
        }
        *damping *= 10.0;
    }
    None
}

/// The normal matrix with a 1 on the diagonal of unknowns that no reading bears on, which then
/// stay where they are.
fn with_anchors(normal: &Normal) -> DMatrix<f64> {
    let mut matrix = normal.matrix.clone();
    for slot in 0..matrix.nrows() {
        if matrix[(slot, slot)] == 0.0 {
            matrix[(slot, slot)] = 1.0;
        }
    }
    matrix
}

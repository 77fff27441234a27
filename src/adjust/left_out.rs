//! What becomes of the marks when one reading is left out.

use super::cofactors::Cofactors;
use super::descent::{Descent, Patience, SETTLED, STILL, descend_within, longest, take};
use super::limit::CHECKED;
use super::problem::Prepared;
use nalgebra::DVector;

/// Each step is so much smaller than the one before, or N has changed too much to go on with.
const SHRINKING: f64 = 0.5;

/// Q of all readings but one, from Q of all: Q + q qᵀ/(sd² − aQaᵀ), q = Q aᵀ (Sherman and Morrison
/// 1950).
pub(super) struct LeftOut<'a> {
    problem: &'a Prepared,
    index: usize,
    cofactors: &'a Cofactors,
    q: DVector<f64>,
    /// sd² − aQaᵀ; none where nothing is left that checks the reading.
    variance: Option<f64>,
}

impl<'a> LeftOut<'a> {
    /// Leaving out reading `index` at `x`, where Q is `cofactors`.
    pub fn at(problem: &'a Prepared, x: &[f64], index: usize, cofactors: &'a Cofactors) -> Self {
        let reading = &problem.readings[index];
        let linear = reading.equation.linear(x);
        let row: Vec<(usize, f64)> = problem.row(&linear).collect();
        let q = cofactors.column(&row);
        let known: f64 = row.iter().map(|&(slot, slope)| slope * q[slot]).sum();
        let square = reading.sd * reading.sd;
        Self {
            problem,
            index,
            cofactors,
            variance: Some(square - known).filter(|left| *left > CHECKED * square),
            q,
        }
    }

    /// The adjustment of the rest, walking downhill from `x`.
    ///
    /// Nearly always the marks move so little that N stays what it is, and each step costs next to
    /// nothing; where they do not, each has its own.
    pub fn descend(&self, x: &[f64], patience: Patience) -> Descent {
        let chi2 = |x: &[f64]| self.problem.chi2(x, Some(self.index));
        let (mut there, mut last) = (x.to_vec(), f64::INFINITY);
        while let Some(step) = self.step(&there) {
            let length = longest(&step);
            // Written so that a length that is not a number ends it too.
            if !(length <= STILL || length < SHRINKING * last) {
                break;
            }
            take(self.problem, &mut there, &step);
            last = length;
            if length <= STILL {
                break;
            }
        }
        let (found, before) = (chi2(&there), chi2(x));
        if last < SETTLED && found <= before {
            return Descent {
                x: there,
                chi2: found,
            };
        }
        let start = if found < before { there } else { x.to_vec() };
        descend_within(self.problem, start, Some(self.index), patience)
    }

    fn step(&self, x: &[f64]) -> Option<DVector<f64>> {
        let variance = self.variance?;
        let gradient = self.problem.gradient(x, Some(self.index));
        let mut step = self.cofactors.times(&gradient);
        step.axpy(self.q.dot(&gradient) / variance, &self.q, 1.0);
        Some(step)
    }
}

//! What becomes of the marks when one reading is left out.

use super::cofactors::Cofactors;
use super::descent::{Descent, Patience, descend_within};
use super::limit::CHECKED;
use super::problem::Prepared;

/// What straight equations say of leaving one reading out.
pub(super) struct LeftOut {
    index: usize,
    /// Where the marks go: every parameter.
    foreseen: Vec<f64>,
}

impl LeftOut {
    /// Leaving out reading `index` at `x`, where Σ(v/sd)² is least and Q is `cofactors`.
    pub fn foresee(problem: &Prepared, x: &[f64], index: usize, cofactors: &Cofactors) -> Self {
        let reading = &problem.readings[index];
        let linear = reading.equation.linear(x);
        let row: Vec<(usize, f64)> = problem.row(&linear).collect();
        let column = cofactors.column(&row);
        let known: f64 = row.iter().map(|&(slot, slope)| slope * column[slot]).sum();
        let weight = 1.0 / (reading.sd * reading.sd);
        let redundancy = 1.0 - known * weight;
        let residual = linear.value - reading.value;
        let mut foreseen = x.to_vec();
        // Written so that a redundancy that is not a number counts as none.
        if redundancy <= CHECKED || redundancy.is_nan() {
            return Self { index, foreseen };
        }
        let scale = residual * weight / redundancy;
        for (&param, move_by) in problem.params.iter().zip(&column) {
            foreseen[param] += move_by * scale;
        }
        Self { index, foreseen }
    }

    /// The adjustment of the rest, started from what is foreseen.
    pub fn descend(self, problem: &Prepared, x: &[f64], patience: Patience) -> Descent {
        let chi2 = |x: &[f64]| problem.chi2(x, Some(self.index));
        let start = if chi2(&self.foreseen) < chi2(x) {
            self.foreseen
        } else {
            x.to_vec()
        };
        descend_within(problem, start, Some(self.index), patience)
    }
}

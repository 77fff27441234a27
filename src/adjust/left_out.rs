//! What becomes of the marks when one reading is left out.

use super::descent::{Descent, Patience, descend_within};
use super::problem::Problem;

/// What straight equations say of leaving one reading out.
pub(super) struct LeftOut {
    pub index: usize,
    /// By how much Σ(v/sd)² falls: v²/(sd² r).
    pub gain: f64,
    /// Where the marks go: every parameter.
    foreseen: Vec<f64>,
}

/// Least redundancy that a gain can be worked out from.
const CHECKED: f64 = 1e-6;

impl LeftOut {
    /// Leaving out reading `index` at `x`, where Σ(v/sd)² is least; `column` is N⁻¹ times its row.
    pub fn foresee(problem: &Problem, x: &[f64], index: usize, column: &[f64]) -> Self {
        let reading = &problem.readings[index];
        let linear = reading.form.linear(x);
        let known: f64 = problem
            .row(&linear)
            .map(|(slot, slope)| slope * column[slot])
            .sum();
        let redundancy = 1.0 - known / (reading.sd * reading.sd);
        let residual = linear.value - reading.value;
        let mut foreseen = x.to_vec();
        if redundancy <= CHECKED {
            return Self {
                index,
                gain: 0.0,
                foreseen,
            };
        }
        let scale = residual / (reading.sd * reading.sd * redundancy);
        for (&param, move_by) in problem.params.iter().zip(column) {
            foreseen[param] += move_by * scale;
        }
        let gain = (residual / reading.sd).powi(2) / redundancy;
        Self {
            index,
            gain,
            foreseen,
        }
    }

    /// The adjustment of the rest, started from what is foreseen.
    pub fn descend(self, problem: &Problem, x: &[f64], patience: Patience) -> Descent {
        let chi2 = |x: &[f64]| problem.chi2(x, Some(self.index));
        let start = if chi2(&self.foreseen) < chi2(x) {
            self.foreseen
        } else {
            x.to_vec()
        };
        descend_within(problem, start, Some(self.index), patience)
    }
}

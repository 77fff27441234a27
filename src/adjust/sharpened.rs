//! What one more tape would leave of the ± of the marks.

use super::adjustment::{Adjustment, pm};
use super::mark::{At, Param};
use super::problem::Prepared;
use super::system::Observation;
use nalgebra::DVector;

/// The row of A for a reading at `x`, by slot.
pub(super) fn row(problem: &Prepared, x: &[f64], reading: &Observation) -> Vec<(usize, f64)> {
    problem.row(&reading.equation.linear(x)).collect()
}

/// The marks that cannot move.
pub(super) fn fixed<'a>(
    adjustment: &'a Adjustment,
    marks: &'a [At],
) -> impl Iterator<Item = &'a At> {
    let moves = |param: Param| adjustment.loose.get(param.0).copied().unwrap_or(true);
    marks
        .iter()
        .filter(move |mark| !moves(mark.x) && !moves(mark.y))
}

/// Q with one more tape: Q − q qᵀ/(sd² + aQaᵀ), q = Q aᵀ (Sherman and Morrison 1950).
pub(super) struct Sharpened<'a> {
    adjustment: &'a Adjustment,
    q: DVector<f64>,
    variance: f64,
}

impl<'a> Sharpened<'a> {
    pub fn new(adjustment: &'a Adjustment, tape: &Observation) -> Self {
        let problem = &adjustment.problem;
        let row = row(problem, &adjustment.x, tape);
        let q = adjustment.cofactors.column(&row);
        let of_tape: f64 = row.iter().map(|&(slot, slope)| slope * q[slot]).sum();
        Self {
            adjustment,
            q,
            variance: tape.sd * tape.sd + of_tape,
        }
    }

    pub fn largest_pm(&self, marks: &[At]) -> f64 {
        let q = |param: Param| {
            self.adjustment
                .problem
                .slot(param.0)
                .map_or(0.0, |slot| self.q[slot])
        };
        let covariance =
            |a: Param, b: Param| self.adjustment.covariance(a, b) - q(a) * q(b) / self.variance;
        fixed(self.adjustment, marks)
            .map(|&At { x, y }| pm([covariance(x, x), covariance(x, y), covariance(y, y)]))
            .fold(0.0, f64::max)
    }
}

/// The least that a tape can leave of the ± of one mark, found without solving for the tape:
/// aQaᵀ ≥ (a·q)²/Q_mm for either coordinate m of the mark (Cauchy and Schwarz).
pub(super) struct Bound {
    block: [f64; 3],
    columns: [DVector<f64>; 2],
}

impl Bound {
    pub fn new(adjustment: &Adjustment, mark: At) -> Self {
        let problem = &adjustment.problem;
        let column = |param: Param| {
            let unit: Vec<(usize, f64)> = problem
                .slot(param.0)
                .map(|slot| (slot, 1.0))
                .into_iter()
                .collect();
            adjustment.cofactors.column(&unit)
        };
        let q = |a, b| adjustment.covariance(a, b);
        Self {
            block: [q(mark.x, mark.x), q(mark.x, mark.y), q(mark.y, mark.y)],
            columns: [column(mark.x), column(mark.y)],
        }
    }

    pub fn of(&self, adjustment: &Adjustment, tape: &Observation) -> f64 {
        let row = row(&adjustment.problem, &adjustment.x, tape);
        let [qx, qy] = [0, 1].map(|axis: usize| -> f64 {
            row.iter()
                .map(|&(slot, slope)| slope * self.columns[axis][slot])
                .sum()
        });
        let [xx, xy, yy] = self.block;
        let share = |q: f64, variance: f64| {
            if variance > 0.0 {
                q * q / variance
            } else {
                0.0
            }
        };
        let variance = tape.sd * tape.sd + share(qx, xx).max(share(qy, yy));
        pm([
            xx - qx * qx / variance,
            xy - qx * qy / variance,
            yy - qy * qy / variance,
        ])
    }
}

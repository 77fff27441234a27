//! What each reading is worth, and whether all of them agree.

use super::cofactors::Cofactors;
use super::limit::{CHECKED, FINDABLE, SUSPICIOUS, limit};
use super::problem::Prepared;
use super::system::Observation;

/// What one reading is worth.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ReadingWorth {
    /// What the adjusted parameters make it, in the unit of the reading.
    pub computed: f64,
    /// v: computed less observed.
    pub residual: f64,
    /// r, 0 to 1: the share of a slip in this reading that shows up in its residual.
    pub redundancy: f64,
    /// w = |v| / (sd √r); 0 where nothing checks the reading.
    pub standardised: f64,
    /// 4.13 sd/√r: a smaller slip in this reading would not show; none where nothing checks it.
    pub least_slip: Option<f64>,
}

/// Whether readings agree: none stands out, and all together scatter no more than they may.
pub(super) fn agree(rows: &[ReadingWorth], chi2: f64, redundancy: i64) -> bool {
    rows.iter().all(|row| row.standardised <= SUSPICIOUS) && fit(chi2, redundancy)
}

/// Whether readings all together scatter no more than they do in 999 of 1000 jobs.
pub(super) fn fit(chi2: f64, redundancy: i64) -> bool {
    chi2 <= limit(redundancy)
}

/// Which parameters can move without any reading noticing.
pub(super) fn loose(problem: &Prepared, cofactors: &Cofactors) -> Vec<bool> {
    let slots = (0..problem.start.len()).map(|param| problem.slot(param));
    slots
        .map(|slot| slot.is_some_and(|slot| cofactors.null.moves(slot)))
        .collect()
}

/// Readings less the rank of N.
pub(super) fn redundancy(problem: &Prepared, cofactors: &Cofactors) -> i64 {
    let rank = problem.unknowns() - cofactors.null.dimension();
    problem.readings.len() as i64 - rank as i64
}

/// What each reading is worth at `x`, where Q is `cofactors`.
pub(super) fn rows(problem: &Prepared, x: &[f64], cofactors: &Cofactors) -> Vec<ReadingWorth> {
    let readings = problem.readings.iter();
    readings
        .map(|reading| row(problem, x, cofactors, reading))
        .collect()
}

fn row(
    problem: &Prepared,
    x: &[f64],
    cofactors: &Cofactors,
    reading: &Observation,
) -> ReadingWorth {
    let linear = reading.equation.linear(x);
    let residual = linear.value - reading.value;
    let share = cofactors.variance(problem, &linear) / (reading.sd * reading.sd);
    // A reading that says nothing of its marks is checked by nothing.
    let redundancy = if share.is_finite() {
        (1.0 - share).clamp(0.0, 1.0)
    } else {
        0.0
    };
    let root = (redundancy > CHECKED).then(|| redundancy.sqrt());
    ReadingWorth {
        computed: linear.value,
        residual,
        redundancy,
        standardised: root.map_or(0.0, |root| residual.abs() / (reading.sd * root)),
        least_slip: root.map(|root| FINDABLE * reading.sd / root),
    }
}

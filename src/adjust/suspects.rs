use super::adjustment::{Adjustment, CHECKED, Cofactors};
use super::descent::{Descent, descend};
use super::limit::limit;
use super::system::System;

/// A standardised residual beyond this is 1 in 1000 by chance (normal, two-sided).
const SUSPICIOUS: f64 = 3.29;
/// What one more parameter may gain in chi2 by chance, 95 %.
const AS_GOOD: f64 = 3.84;
/// With more readings than this only those that stand out are tried.
const TRY_ALL: usize = 60;

/// What is known of a misread reading.
#[derive(Clone, Debug, PartialEq)]
pub struct Suspicion {
    /// Least Σ(v/sd)² that leaving out one reading gives.
    pub chi2_without: f64,
    /// The readings whose leaving out explains the misfit about as well as any, in file order.
    pub suspects: Vec<Suspect>,
    /// Whether even the best leaving out is beyond the 99.9 % limit.
    pub more_than_one_wrong: bool,
}

/// A reading that may be the misread one.
#[derive(Clone, Debug, PartialEq)]
pub struct Suspect {
    /// Its place among the observations.
    pub index: usize,
    /// What all the others make it, in its own unit.
    pub predicted: f64,
    /// Standard deviation of that.
    pub predicted_sd: f64,
    /// Observed less predicted.
    pub slip: f64,
    /// Every parameter as adjusted without it, mm.
    pub x: Vec<f64>,
}

/// The readings that may be misread: none if no standardised residual is beyond 3.29.
///
/// Each checked reading is left out in turn and the rest adjusted again; suspects are those whose
/// leaving out brings Σ(v/sd)² within 3.84 of the least.
#[must_use]
pub fn suspects(system: &System, adjustment: &Adjustment) -> Option<Suspicion> {
    let rows = &adjustment.rows;
    let largest = rows
        .iter()
        .fold(0.0f64, |most, row| most.max(row.standardised));
    if largest <= SUSPICIOUS {
        return None;
    }
    let least = if rows.len() > TRY_ALL {
        largest / 2.0
    } else {
        0.0
    };
    let mut trials: Vec<(usize, Descent)> = rows
        .iter()
        .enumerate()
        .filter(|(_, row)| row.redundancy > CHECKED && row.standardised >= least)
        .map(|(index, _)| (index, without(adjustment, index)))
        .collect();
    trials.sort_by(|a, b| a.1.chi2.total_cmp(&b.1.chi2));
    let mut chi2_without = None;
    let mut found: Vec<Suspect> = Vec::new();
    for (index, descent) in trials {
        if chi2_without.is_some_and(|least| descent.chi2 > least + AS_GOOD) {
            break;
        }
        let chi2 = descent.chi2;
        if let Some(suspect) = suspect(system, adjustment, index, descent) {
            chi2_without.get_or_insert(chi2);
            found.push(suspect);
        }
    }
    found.sort_by_key(|suspect| suspect.index);
    let chi2_without = chi2_without.unwrap_or(adjustment.chi2);
    Some(Suspicion {
        chi2_without,
        more_than_one_wrong: chi2_without > limit(adjustment.checks() - 1),
        suspects: found,
    })
}

/// The adjustment of all readings but one, started from what straight equations would give.
fn without(adjustment: &Adjustment, index: usize) -> Descent {
    let problem = &adjustment.problem;
    let reading = &problem.readings[index];
    let row = adjustment.rows[index];
    let linear = reading.form.linear(&adjustment.x);
    let terms: Vec<(usize, f64)> = problem.row(&linear).collect();
    let column = adjustment.cofactors.column(problem, &terms);
    let scale = row.residual / (reading.sd * reading.sd * row.redundancy);
    let mut foreseen = adjustment.x.clone();
    for (&param, move_by) in problem.params.iter().zip(&column) {
        foreseen[param] += move_by * scale;
    }
    let chi2 = |x: &[f64]| problem.chi2(x, Some(index));
    let start = if chi2(&foreseen) < chi2(&adjustment.x) {
        foreseen
    } else {
        adjustment.x.clone()
    };
    descend(problem, start, Some(index))
}

/// The suspect, unless leaving it out leaves more loose than before.
fn suspect(
    system: &System,
    adjustment: &Adjustment,
    index: usize,
    descent: Descent,
) -> Option<Suspect> {
    let problem = &adjustment.problem;
    let cofactors = Cofactors::at(problem, &descent.x, Some(index));
    if cofactors.null.dimension() > adjustment.cofactors.null.dimension() {
        return None;
    }
    let linear = system.observations.get(index)?.equation.linear(&descent.x);
    let terms: Vec<(usize, f64)> = problem.row(&linear).collect();
    Some(Suspect {
        index,
        predicted: linear.value,
        predicted_sd: cofactors.variance(problem, &terms).max(0.0).sqrt(),
        slip: problem.readings[index].value - linear.value,
        x: descent.x,
    })
}

impl Adjustment {
    /// Readings beyond what it takes to fix all that is fixed: the degrees of freedom of `chi2`.
    pub(super) fn checks(&self) -> i64 {
        self.redundancy + self.cofactors.null.dimension() as i64
    }
}

use super::adjustment::{Adjustment, CHECKED, Cofactors};
use super::descent::{Descent, Patience, descend};
use super::left_out::LeftOut;
use super::limit::limit;
use super::system::System;

/// A standardised residual beyond this is 1 in 1000 by chance (normal, two-sided).
const SUSPICIOUS: f64 = 3.29;
/// What one more parameter may gain in chi2 by chance, 95 %.
const AS_GOOD: f64 = 3.84;
/// Sums nearer to each other than this are of one fit.
const ALIKE: f64 = 1e-6;
/// A reading whose w² is below this share of chi2 cannot be all that is wrong.
const OUT_OF_THE_QUESTION: f64 = 0.5;
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
    let mut likeliest: Vec<(f64, usize)> = rows
        .iter()
        .enumerate()
        .filter(|(_, row)| row.redundancy > CHECKED && row.standardised >= least)
        .map(|(index, row)| (row.standardised, index))
        .collect();
    likeliest.sort_by(|a, b| b.0.total_cmp(&a.0));
    let mut found: Vec<(f64, Suspect)> = Vec::new();
    let mut best = f64::INFINITY;
    for (w, index) in likeliest {
        // Straight equations foresee that chi2 falls by w². Bent ones may differ, but not so far
        // where many readings hold each other.
        if rows.len() > TRY_ALL
            && adjustment.chi2 - w * w > best + AS_GOOD
            && w * w < adjustment.chi2 * OUT_OF_THE_QUESTION
        {
            continue;
        }
        let descent = without(adjustment, index, best + AS_GOOD);
        let chi2 = descent.chi2;
        if chi2 <= best + AS_GOOD
            && let Some(suspect) = suspect(system, adjustment, index, descent)
        {
            best = best.min(chi2);
            found.push((chi2, suspect));
        }
    }
    let chi2_without = if found.is_empty() {
        adjustment.chi2
    } else {
        best
    };
    let mut found: Vec<Suspect> = found
        .into_iter()
        .filter(|(chi2, _)| *chi2 <= best + AS_GOOD)
        .map(|(_, suspect)| suspect)
        .collect();
    found.sort_by_key(|suspect| suspect.index);
    Some(Suspicion {
        chi2_without,
        more_than_one_wrong: chi2_without > limit(adjustment.checks() - 1),
        suspects: found,
    })
}

/// The adjustment of all readings but one, as far as it may come to `enough`.
///
/// A bad slip bends the whole site, and from there the rest may not find back: it is adjusted from
/// the sketch too, unless many readings that agree show that it has.
fn without(adjustment: &Adjustment, index: usize, enough: f64) -> Descent {
    let Adjustment { problem, x, .. } = adjustment;
    let linear = problem.readings[index].form.linear(x);
    let terms: Vec<(usize, f64)> = problem.row(&linear).collect();
    let column = adjustment.cofactors.column(problem, &terms);
    let patience = Patience {
        enough,
        ..Patience::FULL
    };
    let bent = LeftOut::foresee(problem, x, index, &column).descend(problem, x, patience);
    let agrees = bent.chi2 <= limit(adjustment.checks() - 1);
    if agrees && problem.readings.len() > TRY_ALL {
        return bent;
    }
    let sketched = descend(problem, problem.start.clone(), Some(index));
    if sketched.chi2 < bent.chi2 - ALIKE {
        sketched
    } else {
        bent
    }
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
    Some(Suspect {
        index,
        predicted: linear.value,
        predicted_sd: cofactors.variance(problem, &linear).max(0.0).sqrt(),
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

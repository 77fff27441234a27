use super::adjustment::Adjustment;
use super::cofactors::Cofactors;
use super::descent::{Descent, Patience, descend_within};
use super::left_out::LeftOut;
use super::limit::{AS_GOOD, CHECKED, limit};
use super::mark::Param;
use super::system::System;
use super::worth::{loose, redundancy};

/// Sums nearer to each other than this are of one fit.
const ALIKE: f64 = 1e-6;
/// With more readings than this only those that stand out are tried.
const TRY_ALL: usize = 60;
/// Of a network with more parameters than this only the few that stand out most are tried: each costs
/// a factorisation.
const LARGE: usize = 200;
const FEW: usize = 6;

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
    /// What the others say it should have been; none where something it holds is loose without it.
    pub prediction: Option<Prediction>,
    /// Every parameter as adjusted without it, mm.
    pub x: Vec<f64>,
    /// Which parameters can move without it.
    loose: Vec<bool>,
    /// Readings less the rank of N without it.
    redundancy: i64,
}

impl Suspect {
    /// Whether a mark can move without it.
    pub(super) fn loosens(&self, params: [Param; 2]) -> bool {
        let loose = |param: Param| self.loose.get(param.0).copied().unwrap_or(true);
        params.into_iter().any(loose)
    }
}

/// What all the others make a reading, in its own unit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Prediction {
    /// What it should have been.
    pub value: f64,
    /// Standard deviation of that.
    pub sd: f64,
    /// Observed less predicted.
    pub slip: f64,
}

/// The readings that may be misread: none if the readings agree.
///
/// Each checked reading is left out in turn and the rest adjusted again; suspects are those whose
/// leaving out brings Σ(v/sd)² within 3.84 of the least.
#[must_use]
pub fn suspects(system: &System, adjustment: &Adjustment) -> Option<Suspicion> {
    if adjustment.agrees {
        return None;
    }
    let mut found: Vec<(f64, Suspect)> = Vec::new();
    let mut least = f64::INFINITY;
    for index in likeliest(adjustment) {
        let descent = without(adjustment, index, least + AS_GOOD);
        if descent.chi2 <= least + AS_GOOD {
            least = least.min(descent.chi2);
            found.push((descent.chi2, suspect(system, adjustment, index, descent)));
        }
    }
    found.retain(|(chi2, _)| *chi2 <= least + AS_GOOD);
    let best = found.iter().min_by(|a, b| a.0.total_cmp(&b.0));
    let (chi2_without, checks) = best.map_or(
        (adjustment.chi2, adjustment.redundancy - 1),
        |(chi2, suspect)| (*chi2, suspect.redundancy),
    );
    let mut suspects: Vec<Suspect> = found.into_iter().map(|(_, suspect)| suspect).collect();
    suspects.sort_by_key(|suspect| suspect.index);
    Some(Suspicion {
        chi2_without,
        more_than_one_wrong: chi2_without > limit(checks),
        suspects,
    })
}

/// The readings to leave out in turn, the likeliest first.
fn likeliest(adjustment: &Adjustment) -> Vec<usize> {
    let rows = &adjustment.rows;
    let largest = rows.iter().map(|row| row.standardised).fold(0.0, f64::max);
    let least = if rows.len() > TRY_ALL {
        largest / 2.0
    } else {
        0.0
    };
    let mut likeliest: Vec<usize> = (0..rows.len())
        .filter(|&index| rows[index].redundancy > CHECKED && rows[index].standardised >= least)
        .collect();
    let w = |index: usize| rows[index].standardised;
    likeliest.sort_by(|&a, &b| w(b).total_cmp(&w(a)));
    let is_large = adjustment.x.len() > LARGE;
    likeliest.truncate(if is_large { FEW } else { TRY_ALL });
    likeliest
}

/// The adjustment of all readings but one, as far as it may come to `enough`.
///
/// A bad slip bends the whole site, and from there the rest may not find back: it is adjusted from
/// the sketch too, unless many readings that agree show that it has.
fn without(adjustment: &Adjustment, index: usize, enough: f64) -> Descent {
    let Adjustment { problem, x, .. } = adjustment;
    let patience = Patience {
        enough,
        ..Patience::FULL
    };
    let left_out = LeftOut::at(problem, x, index, &adjustment.cofactors);
    let bent = left_out.descend(x, patience);
    if bent.chi2 <= limit(adjustment.redundancy - 1) && problem.readings.len() > TRY_ALL {
        return bent;
    }
    let sketched = descend_within(problem, problem.start.clone(), Some(index), patience);
    if sketched.chi2 < bent.chi2 - ALIKE {
        sketched
    } else {
        bent
    }
}

fn suspect(system: &System, adjustment: &Adjustment, index: usize, descent: Descent) -> Suspect {
    let problem = &adjustment.problem;
    let cofactors = Cofactors::at(problem, &descent.x, Some(index));
    let loosens = cofactors.null.dimension() > adjustment.cofactors.null.dimension();
    let linear = system.observations[index].equation.linear(&descent.x);
    Suspect {
        index,
        prediction: (!loosens).then(|| Prediction {
            value: linear.value,
            sd: cofactors.variance(problem, &linear).max(0.0).sqrt(),
            slip: problem.readings[index].value - linear.value,
        }),
        redundancy: redundancy(problem, &cofactors) - 1,
        loose: loose(problem, &cofactors),
        x: descent.x,
    }
}

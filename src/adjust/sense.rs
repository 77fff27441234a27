//! How much sense an arrangement of the marks makes of the readings.

use super::cofactors::Cofactors;
use super::descent::Patience;
use super::left_out::LeftOut;
use super::limit::limit;
use super::problem::Prepared;
use super::worth::{fit, redundancy, rows};

/// How many of the readings whose leaving out helps most are left out for good.
const LIKELIEST: usize = 3;

/// Of which each explains this share of the misfit at least.
const EXPLAINS: f64 = 0.4;

/// How far an arrangement makes sense of the readings.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Sense {
    /// All together scatter no more than by chance. That one stands out a little does not count: of
    /// many sound ones some always do.
    Fits,
    /// All but one do.
    OneSlip,
    /// More than one would have to be wrong.
    None,
}

/// The sense that the bottom of a valley makes, where Q is `cofactors`, and Σ(v/sd)² of what is not
/// misread.
#[must_use]
pub(super) fn sense(problem: &Prepared, x: &[f64], cofactors: &Cofactors) -> (Sense, f64) {
    let chi2 = problem.chi2(x, None);
    let checks = redundancy(problem, cofactors);
    if fit(chi2, checks) {
        return (Sense::Fits, chi2);
    }
    let rows = rows(problem, x, cofactors);
    let limit = limit(checks - 1);
    // Straight equations foresee that chi2 falls by w²: what is not seen to explain a good part of
    // the misfit is not all that is wrong.
    let foreseen = |&index: &usize| rows[index].standardised.powi(2) > EXPLAINS * chi2;
    let mut likeliest: Vec<usize> = (0..rows.len()).filter(foreseen).collect();
    likeliest.sort_by(|&a, &b| rows[b].standardised.total_cmp(&rows[a].standardised));
    let patience = Patience {
        enough: limit,
        ..Patience::FULL
    };
    let mut least = f64::INFINITY;
    for index in likeliest.into_iter().take(LIKELIEST) {
        let left_out = LeftOut::at(problem, x, index, cofactors);
        least = least.min(left_out.descend(x, patience).chi2);
        if least <= limit {
            return (Sense::OneSlip, least);
        }
    }
    (Sense::None, chi2)
}

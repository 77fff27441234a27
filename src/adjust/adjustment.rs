use super::cofactors::Cofactors;
use super::limit::BAND_95;
use super::mark::{At, Param};
use super::problem::Prepared;
use super::search::{Settled, settle};
use super::sides::Sides;
use super::system::System;
use super::worth::{ReadingWorth, agree, loose, redundancy, rows};

/// Whether the readings fix every parameter.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Fixity {
    /// Every parameter is fixed.
    Fixed,
    /// Some can move without any reading noticing.
    Loose,
}

/// The adjusted parameters and how far to trust them.
#[derive(Clone, Debug)]
pub struct Adjustment {
    /// Every parameter, mm; held ones as they were.
    pub x: Vec<f64>,
    /// Which parameters can move without any reading noticing; held ones cannot.
    pub loose: Vec<bool>,
    /// Whether any parameter is loose.
    pub status: Fixity,
    /// What each reading is worth, in the order given.
    pub rows: Vec<ReadingWorth>,
    /// Readings less the rank of N: the degrees of freedom of `chi2`.
    pub redundancy: i64,
    /// Σ(v/sd)².
    pub chi2: f64,
    /// Whether the readings agree: none stands out (w over 3.29), and together they scatter no more
    /// than they do in 999 of 1000 jobs.
    pub agrees: bool,
    /// On which side of their neighbours the marks lie.
    pub sides: Sides,
    pub(super) problem: Prepared,
    pub(super) cofactors: Cofactors,
}

/// Least-squares adjustment of a system: of the places where Σ(v/sd)² is least, the one that the
/// rough values and the readings together speak for.
///
/// Never fails: what the readings leave loose stays near its rough value and is marked so.
#[must_use]
pub fn adjust(system: &System) -> Adjustment {
    let problem = Prepared::of(system);
    let settled = settle(&problem);
    Adjustment::at(problem, settled)
}

impl Adjustment {
    fn at(problem: Prepared, settled: Settled) -> Self {
        let Settled {
            x,
            cofactors,
            sides,
        } = settled;
        let rows = rows(&problem, &x, &cofactors);
        let redundancy = redundancy(&problem, &cofactors);
        let chi2 = problem.chi2(&x, None);
        Self {
            status: if cofactors.null.dimension() > 0 {
                Fixity::Loose
            } else {
                Fixity::Fixed
            },
            loose: loose(&problem, &cofactors),
            agrees: agree(&rows, chi2, redundancy),
            rows,
            redundancy,
            chi2,
            sides,
            x,
            problem,
            cofactors,
        }
    }

    /// Covariance of two parameters, mm²; 0 if either is held. Of no meaning for loose ones.
    #[must_use]
    pub fn covariance(&self, a: Param, b: Param) -> f64 {
        match (self.problem.slot(a.0), self.problem.slot(b.0)) {
            (Some(a), Some(b)) => self.cofactors.covariance(a, b),
            _ => 0.0,
        }
    }

    /// Whether a parameter is held, and so in no doubt.
    #[must_use]
    pub fn is_held(&self, param: Param) -> bool {
        self.problem.slot(param.0).is_none()
    }

    /// Covariances of K figures computed from the parameters, by their slopes in each parameter.
    /// Held parameters add nothing.
    #[must_use]
    pub fn covariances<const K: usize>(&self, slopes: &[(Param, [f64; K])]) -> [[f64; K]; K] {
        let rows: Vec<(usize, [f64; K])> = slopes
            .iter()
            .filter_map(|&(param, slopes)| Some((self.problem.slot(param.0)?, slopes)))
            .collect();
        self.cofactors.covariances(&rows)
    }

    /// Standard deviation of the sum of the parameters, each times its factor. Held parameters
    /// add nothing.
    ///
    /// For a small change of anything computed from the parameters, the factors are its slopes.
    #[must_use]
    pub fn spread(&self, combination: &[(Param, f64)]) -> f64 {
        let slopes: Vec<(Param, [f64; 1])> = combination
            .iter()
            .map(|&(param, factor)| (param, [factor]))
            .collect();
        let [[variance]] = self.covariances(&slopes);
        variance.max(0.0).sqrt()
    }
}

impl Adjustment {
    /// Half-width of the 95 % band of a mark, mm: 1.96 √(larger eigenvalue of its block of Q).
    #[must_use]
    pub fn mark_pm(&self, mark: At) -> f64 {
        let q = |a, b| self.covariance(a, b);
        pm([q(mark.x, mark.x), q(mark.x, mark.y), q(mark.y, mark.y)])
    }
}

/// 1.96 √(larger eigenvalue) of the covariance xx, xy, yy of a mark.
pub(super) fn pm([xx, xy, yy]: [f64; 3]) -> f64 {
    let larger = f64::midpoint(xx, yy) + (0.5 * (xx - yy)).hypot(xy);
    BAND_95 * larger.max(0.0).sqrt()
}

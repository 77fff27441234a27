use super::cholesky::Factor;
use super::descent::with_anchors;
use super::equation::{At, Linear, Param};
use super::escape::settle;
use super::limit::BAND_95;
use super::null_space::{NullSpace, is_regular};
use super::problem::Problem;
use super::system::System;
use arrayvec::ArrayVec;

/// Whether the readings fix every parameter.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Status {
    /// Every parameter is fixed.
    Fixed,
    /// Some can move without any reading noticing.
    Loose,
}

/// What one reading is worth.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Row {
    /// What the adjusted parameters make it, in the unit of the reading.
    pub computed: f64,
    /// v: computed less observed.
    pub residual: f64,
    /// r, 0 to 1: the share of a slip in this reading that shows up in its residual.
    pub redundancy: f64,
    /// w = |v| / (sd √r); 0 where nothing checks the reading.
    pub standardised: f64,
}

/// Least redundancy of a reading that anything checks.
pub(super) const CHECKED: f64 = 1e-6;

/// The adjusted parameters and how far to trust them.
#[derive(Clone, Debug)]
pub struct Adjustment {
    /// Every parameter, mm; held ones as they were.
    pub x: Vec<f64>,
    /// Which parameters can move without any reading noticing; held ones cannot.
    pub loose: Vec<bool>,
    /// Whether any parameter is loose.
    pub status: Status,
    /// What each reading is worth, in the order given.
    pub rows: Vec<Row>,
    /// Readings less unknowns.
    pub redundancy: i64,
    /// Σ(v/sd)².
    pub chi2: f64,
    pub(super) problem: Problem,
    pub(super) cofactors: Cofactors,
}

/// Least-squares adjustment of a system by safeguarded Gauss–Newton from its rough values.
///
/// Never fails: what the readings leave loose stays near its rough value and is marked so.
#[must_use]
pub fn adjust(system: &System) -> Adjustment {
    let problem = Problem::of(system);
    let x = settle(&problem);
    Adjustment::at(problem, x)
}

impl Adjustment {
    fn at(problem: Problem, x: Vec<f64>) -> Self {
        let cofactors = Cofactors::at(&problem, &x, None);
        let rows: Vec<Row> = problem
            .readings
            .iter()
            .map(|reading| {
                let linear = reading.form.linear(&x);
                let residual = linear.value - reading.value;
                let share = cofactors.variance(&problem, &linear) / (reading.sd * reading.sd);
                // A reading that says nothing of its marks is checked by nothing.
                let redundancy = if share.is_finite() {
                    (1.0 - share).clamp(0.0, 1.0)
                } else {
                    0.0
                };
                let standardised = if redundancy < CHECKED {
                    0.0
                } else {
                    residual.abs() / (reading.sd * redundancy.sqrt())
                };
                Row {
                    computed: linear.value,
                    residual,
                    redundancy,
                    standardised,
                }
            })
            .collect();
        let loose: Vec<bool> = (0..x.len())
            .map(|param| {
                problem
                    .slot(param)
                    .is_some_and(|slot| cofactors.null.moves(slot))
            })
            .collect();
        Self {
            status: if cofactors.null.dimension() > 0 {
                Status::Loose
            } else {
                Status::Fixed
            },
            loose,
            rows,
            redundancy: problem.readings.len() as i64 - problem.unknowns() as i64,
            chi2: problem.chi2(&x, None),
            x,
            problem,
            cofactors,
        }
    }

    /// Covariance of two parameters, mm²; 0 if either is held. Of no meaning for loose ones.
    #[must_use]
    pub fn covariance(&self, a: Param, b: Param) -> f64 {
        match (self.problem.slot(a.0), self.problem.slot(b.0)) {
            (Some(a), Some(b)) => self.cofactors.covariance(&self.problem, a, b),
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
        self.cofactors.covariances(&self.problem, &rows)
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

/// Q = N⁻¹: its factor, and those of its entries that a reading ties.
#[derive(Clone, Debug)]
pub(super) struct Cofactors {
    factor: Factor,
    on_pattern: Vec<f64>,
    /// Held for the sake of the factor, so that the rest is regular.
    pinned: Vec<bool>,
    pub null: NullSpace,
}

impl Cofactors {
    /// Q at `x` from all readings but `without`.
    pub fn at(problem: &Problem, x: &[f64], without: Option<usize>) -> Self {
        let normal = problem.normal(x, without);
        let pattern = &problem.pattern;
        if let Some(factor) = Factor::new(pattern, &normal.matrix, 0.0) {
            let on_pattern = factor.inverse_on_pattern(pattern);
            if is_regular(pattern, &normal.matrix, &on_pattern) {
                return Self {
                    factor,
                    on_pattern,
                    pinned: vec![false; problem.unknowns()],
                    null: NullSpace::none(problem.unknowns()),
                };
            }
        }
        let null = NullSpace::of(pattern, &normal.matrix);
        let mut pinned = vec![false; problem.unknowns()];
        for slot in null.pins() {
            pinned[slot] = true;
        }
        let matrix = with_pins(problem, with_anchors(problem, &normal), &pinned);
        // A factor may exist and its inverse still run past what a number holds.
        let bounded = |factor: Factor| {
            let inverse = factor.inverse_on_pattern(pattern);
            let finite = inverse.iter().all(|entry| entry.is_finite());
            finite.then_some((factor, inverse))
        };
        let (factor, mut on_pattern) = (0..)
            .map(|power| 1e-14 * 10f64.powi(power) - 1e-14)
            .take(16)
            .find_map(|damping| Factor::new(pattern, &matrix, damping).and_then(bounded))
            .unwrap_or_else(|| {
                let factor = Factor::identity(pattern);
                let inverse = factor.inverse_on_pattern(pattern);
                (factor, inverse)
            });
        for (slot, _) in pinned.iter().enumerate().filter(|(_, pinned)| **pinned) {
            on_pattern[pattern.start[slot]] = 0.0;
        }
        Self {
            factor,
            on_pattern,
            pinned,
            null,
        }
    }

    pub fn covariance(&self, problem: &Problem, a: usize, b: usize) -> f64 {
        if let Some(entry) = problem.pattern.entry(a, b) {
            return self.on_pattern[entry];
        }
        self.column(problem, &[(a, 1.0)])[b]
    }

    /// Q times a combination given by slot.
    pub fn column(&self, problem: &Problem, combination: &[(usize, f64)]) -> Vec<f64> {
        let mut column = self.unpinned(combination.iter().copied());
        self.factor.solve(&problem.pattern, &mut column);
        column
    }

    /// Variance of one figure, by its slopes in a reading's parameters.
    pub fn variance(&self, problem: &Problem, linear: &Linear) -> f64 {
        let slopes: ArrayVec<(usize, [f64; 1]), 6> = problem
            .row(linear)
            .map(|(slot, slope)| (slot, [slope]))
            .collect();
        let [[variance]] = self.covariances(problem, &slopes);
        variance
    }

    /// Covariances of K figures, by their slopes in each slot.
    pub fn covariances<const K: usize>(
        &self,
        problem: &Problem,
        slopes: &[(usize, [f64; K])],
    ) -> [[f64; K]; K] {
        self.by_entries(problem, slopes)
            .unwrap_or_else(|| self.by_factor(problem, slopes))
    }

    /// GᵀQG from the entries of Q; none if the pattern lacks one of them.
    fn by_entries<const K: usize>(
        &self,
        problem: &Problem,
        slopes: &[(usize, [f64; K])],
    ) -> Option<[[f64; K]; K]> {
        let mut sums = [[0.0; K]; K];
        for (at, (a, of_a)) in slopes.iter().enumerate() {
            for (after, (b, of_b)) in slopes[at..].iter().enumerate() {
                let q = self.on_pattern[problem.pattern.entry(*a, *b)?];
                for (i, row) in sums.iter_mut().enumerate() {
                    for (j, sum) in row.iter_mut().enumerate() {
                        let both = of_a[i] * of_b[j] + of_b[i] * of_a[j];
                        *sum += q * if after == 0 { 0.5 * both } else { both };
                    }
                }
            }
        }
        Some(sums)
    }

    /// GᵀN⁻¹G = (L⁻¹G)ᵀ(L⁻¹G).
    fn by_factor<const K: usize>(
        &self,
        problem: &Problem,
        slopes: &[(usize, [f64; K])],
    ) -> [[f64; K]; K] {
        let columns: [Vec<f64>; K] = std::array::from_fn(|k| {
            let mut column = self.unpinned(slopes.iter().map(|(slot, slopes)| (*slot, slopes[k])));
            self.factor.forward(&problem.pattern, &mut column);
            column
        });
        let product = |i: usize, j: usize| columns[i].iter().zip(&columns[j]).map(|(a, b)| a * b);
        std::array::from_fn(|i| std::array::from_fn(|j| product(i, j).sum()))
    }

    fn unpinned(&self, combination: impl Iterator<Item = (usize, f64)>) -> Vec<f64> {
        let mut column = vec![0.0; self.pinned.len()];
        for (slot, factor) in combination {
            if !self.pinned[slot] {
                column[slot] += factor;
            }
        }
        column
    }
}

fn with_pins(problem: &Problem, mut matrix: Vec<f64>, pinned: &[bool]) -> Vec<f64> {
    for (entry, row, column) in problem.pattern.entries() {
        if pinned[row] || pinned[column] {
            matrix[entry] = if row == column { 1.0 } else { 0.0 };
        }
    }
    matrix
}

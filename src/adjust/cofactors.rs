use super::equation::Linear;
use super::factor::Factor;
use super::null_space::{NullSpace, is_regular, largest};
use super::problem::Prepared;
use nalgebra::{DMatrix, DVector};

/// Q = N⁻¹, as R with Q = RᵀR: from N = L Lᵀ it is R = L⁻¹.
///
/// Where something is loose its null vectors V are stiffened, N + s V Vᵀ: that changes no covariance
/// of what does not move, and keeps the rest finite.
#[derive(Clone, Debug)]
pub(super) struct Cofactors {
    /// R, lower triangle, n × n.
    root: DMatrix<f64>,
    pub null: NullSpace,
}

impl Cofactors {
    /// Q at `x` from all readings but `without`.
    pub fn at(problem: &Prepared, x: &[f64], without: Option<usize>) -> Self {
        let mut normal = problem.normal(x, without).matrix;
        if let Some(root) = inverse_root(&normal)
            && is_regular(row_sum(&normal), root.norm_squared())
        {
            return Self {
                root,
                null: NullSpace::none(problem.unknowns()),
            };
        }
        normal.fill_upper_triangle_with_lower_triangle();
        let null = NullSpace::of(&normal);
        let stiff = Some(largest(&normal))
            .filter(|most| *most > 0.0)
            .unwrap_or(1.0);
        normal += &null.vectors * null.vectors.transpose() * stiff;
        let n = problem.unknowns();
        // Figures beyond reason may leave a pivot that is only rounding.
        let root = (0..16).find_map(|power| {
            let damped = damped(&normal, 1e-14 * 10f64.powi(power) - 1e-14);
            inverse_root(&damped)
        });
        Self {
            root: root.unwrap_or_else(|| DMatrix::identity(n, n)),
            null,
        }
    }

    /// Covariance of the unknowns in two slots.
    pub fn covariance(&self, a: usize, b: usize) -> f64 {
        let from = a.max(b);
        let length = self.root.nrows() - from;
        let column = |slot: usize| self.root.view((from, slot), (length, 1));
        column(a).dot(&column(b))
    }

    /// Q times a combination given by slot.
    pub fn column(&self, combination: &[(usize, f64)]) -> DVector<f64> {
        self.root.tr_mul(&self.rooted(combination.iter().copied()))
    }

    /// Q times a vector.
    pub fn times(&self, vector: &DVector<f64>) -> DVector<f64> {
        self.root.tr_mul(&(&self.root * vector))
    }

    /// Variance of one figure, by its slopes in a reading's parameters.
    pub fn variance(&self, problem: &Prepared, linear: &Linear) -> f64 {
        self.rooted(problem.row(linear)).norm_squared()
    }

    /// Covariances of K figures, by their slopes in each slot: GᵀQG = (RG)ᵀ(RG).
    pub fn covariances<const K: usize>(&self, slopes: &[(usize, [f64; K])]) -> [[f64; K]; K] {
        let rooted: [DVector<f64>; K] = std::array::from_fn(|k| {
            self.rooted(slopes.iter().map(|(slot, slopes)| (*slot, slopes[k])))
        });
        std::array::from_fn(|i| std::array::from_fn(|j| rooted[i].dot(&rooted[j])))
    }

    /// R times a combination given by slot.
    fn rooted(&self, combination: impl Iterator<Item = (usize, f64)>) -> DVector<f64> {
        let n = self.root.nrows();
        let mut rooted = DVector::zeros(n);
        for (slot, factor) in combination {
            let below = self.root.view((slot, slot), (n - slot, 1));
            rooted
                .rows_mut(slot, n - slot)
                .axpy(factor, &below.column(0), 1.0);
        }
        rooted
    }
}

/// Largest sum of a row's absolute values, from the lower triangle: no eigenvalue is larger (Gershgorin).
fn row_sum(lower: &DMatrix<f64>) -> f64 {
    let mut sums = vec![0.0; lower.nrows()];
    for column in 0..lower.ncols() {
        for row in column..lower.nrows() {
            let value = lower[(row, column)].abs();
            sums[row] += value;
            if row != column {
                sums[column] += value;
            }
        }
    }
    sums.into_iter().fold(0.0, f64::max)
}

fn damped(normal: &DMatrix<f64>, damping: f64) -> DMatrix<f64> {
    let mut damped = normal.clone();
    for at in 0..damped.nrows() {
        damped[(at, at)] *= 1.0 + damping;
    }
    damped
}

/// L⁻¹ of the matrix whose lower triangle is given; none if it is not safely positive definite.
fn inverse_root(matrix: &DMatrix<f64>) -> Option<DMatrix<f64>> {
    let root = Factor::of(matrix.clone(), 0.0)?.inverse();
    root.norm_squared().is_finite().then_some(root)
}

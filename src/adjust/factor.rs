//! N = L Lᵀ (Cholesky), block by block, so that nearly all of it is multiplying matrices.

use nalgebra::{Cholesky, DMatrix, DVector};

/// Rows and columns of a block: as many as stay close to the processor.
const BLOCK: usize = 32;
/// Pivots smaller than this share of their diagonal are rounding, not information.
const PIVOT: f64 = 1e-14;

/// L of N = L Lᵀ; above its diagonal there is nothing of meaning.
pub(super) struct Factor {
    lower: DMatrix<f64>,
}

impl Factor {
    /// The factor of a matrix (its lower triangle) with `damping` times its diagonal added; none if
    /// it is not safely positive definite.
    pub fn of(mut matrix: DMatrix<f64>, damping: f64) -> Option<Self> {
        let n = matrix.nrows();
        for at in 0..n {
            matrix[(at, at)] *= 1.0 + damping;
        }
        let diagonal = matrix.diagonal();
        for from in (0..n).step_by(BLOCK) {
            let to = n.min(from + BLOCK);
            factorise(&mut matrix, from, to)?;
            let safe = |at: usize| {
                let pivot = matrix[(at, at)] * matrix[(at, at)];
                // Written so that a pivot that is not a number fails too.
                pivot > PIVOT * diagonal[at] && pivot.is_finite()
            };
            if !(from..to).all(safe) {
                return None;
            }
        }
        Some(Self { lower: matrix })
    }

    /// N⁻¹ times a vector.
    pub fn solve(&self, mut vector: DVector<f64>) -> DVector<f64> {
        self.lower.solve_lower_triangular_mut(&mut vector);
        self.lower.tr_solve_lower_triangular_mut(&mut vector);
        vector
    }

    /// L⁻¹, lower triangle.
    pub fn inverse(&self) -> DMatrix<f64> {
        let n = self.lower.nrows();
        let mut inverse = DMatrix::zeros(n, n);
        for from in (0..n).step_by(BLOCK) {
            let size = BLOCK.min(n - from);
            let diagonal = inverse_of(&self.lower.view((from, from), (size, size)).into_owned());
            // Of L L⁻¹ = 1 these rows: what is left of the diagonal, then the diagonal itself.
            let left = self.lower.view((from, 0), (size, from));
            let left = left * inverse.view((0, 0), (from, from));
            let mut rows = inverse.view_mut((from, 0), (size, from));
            rows.gemm(-1.0, &diagonal, &left, 0.0);
            let mut block = inverse.view_mut((from, from), (size, size));
            block.copy_from(&diagonal);
        }
        inverse
    }
}

/// Turns a block's columns into those of L, and takes what they explain off the columns after them.
fn factorise(matrix: &mut DMatrix<f64>, from: usize, to: usize) -> Option<()> {
    let (size, below) = (to - from, matrix.nrows() - to);
    let diagonal = matrix.view((from, from), (size, size)).into_owned();
    let diagonal = Cholesky::new(diagonal)?.unpack_dirty();
    matrix
        .view_mut((from, from), (size, size))
        .copy_from(&diagonal);
    if below == 0 {
        return Some(());
    }
    let left = matrix.view((to, from), (below, size));
    let columns = left * inverse_of(&diagonal).transpose();
    let across = columns.transpose();
    matrix
        .view_mut((to, from), (below, size))
        .copy_from(&columns);
    for at in (0..below).step_by(BLOCK) {
        let width = BLOCK.min(below - at);
        let mut rest = matrix.view_mut((to + at, to + at), (below - at, width));
        let rows = columns.rows(at, below - at);
        rest.gemm(-1.0, &rows, &across.columns(at, width), 1.0);
    }
    Some(())
}

/// The inverse of a block's lower triangle.
fn inverse_of(lower: &DMatrix<f64>) -> DMatrix<f64> {
    let n = lower.nrows();
    let mut inverse = DMatrix::identity(n, n);
    lower.solve_lower_triangular_mut(&mut inverse);
    inverse
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Sizes about a block, and two: a matrix with a known factor.
    fn known(n: usize) -> (DMatrix<f64>, DMatrix<f64>) {
        let entry = |row: usize, column: usize| match row.cmp(&column) {
            std::cmp::Ordering::Less => 0.0,
            std::cmp::Ordering::Equal => 2.0 + (row % 3) as f64,
            std::cmp::Ordering::Greater => ((row * 7 + column * 3) % 11) as f64 / 50.0 - 0.1,
        };
        let lower = DMatrix::from_fn(n, n, entry);
        (&lower * lower.transpose(), lower)
    }

    #[test]
    fn it_is_the_root_of_the_matrix_and_solves() {
        for n in [0, 1, 5, BLOCK - 1, BLOCK, BLOCK + 1, 2 * BLOCK + 7] {
            let (matrix, lower) = known(n);
            let factor = Factor::of(matrix.clone(), 0.0).expect("positive definite");
            let close = |a: &DMatrix<f64>, b: &DMatrix<f64>| (a - b).norm() < 1e-9;
            assert!(close(&factor.lower.lower_triangle(), &lower), "{n}");
            assert!(close(
                &(&lower * factor.inverse()),
                &DMatrix::identity(n, n)
            ));
            let x = DVector::from_fn(n, |at, _| (at as f64).cos());
            assert!((factor.solve(&matrix * &x) - x).norm() < 1e-9);
        }
    }

    #[test]
    fn what_is_not_definite_has_none() {
        let (mut matrix, _) = known(BLOCK + 4);
        let last = BLOCK + 3;
        matrix[(last, last)] -= 30.0;
        assert!(Factor::of(matrix, 0.0).is_none());
        assert!(Factor::of(DMatrix::zeros(2, 2), 0.0).is_none());
        assert!(Factor::of(DMatrix::from_element(1, 1, f64::NAN), 0.0).is_none());
    }
}

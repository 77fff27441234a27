//! Which ways a network can move without any reading noticing.

use nalgebra::{DMatrix, DVector, SymmetricEigen};

/// Eigenvalues of N up to this share of the largest count as nothing.
const NOTHING: f64 = 1e-9;
/// Pivots up to this share of the largest may belong to such an eigenvalue.
const PIVOT: f64 = 1e-6;
/// A parameter whose share in every null vector is below this does not move.
const UNMOVED: f64 = 1e-6;

/// The null space of a normal matrix.
#[derive(Clone, Debug)]
pub(super) struct NullSpace {
    /// Orthonormal null vectors, one a column, by slot: n × d.
    pub vectors: DMatrix<f64>,
}

impl NullSpace {
    /// The null space of N (n × n, both triangles): of the space that its smallest pivots leave, the
    /// eigenvectors of N within it (Rayleigh and Ritz) with next to no eigenvalue.
    #[must_use]
    pub fn of(normal: &DMatrix<f64>) -> Self {
        let n = normal.nrows();
        let Pivoted { order, rank, lower } = Pivoted::of(normal);
        if rank == n {
            return Self::none(n);
        }
        // N x = 0 leaves the last n − rank unknowns free; L says what the others then are.
        let mut bound = lower.view((rank, 0), (n - rank, rank)).transpose();
        bound.neg_mut();
        let bound_lower = lower.view((0, 0), (rank, rank));
        if !bound_lower.tr_solve_lower_triangular_mut(&mut bound) {
            return Self::none(n);
        }
        let mut free = DMatrix::zeros(n, n - rank);
        for (at, &slot) in order.iter().enumerate() {
            if at < rank {
                free.row_mut(slot).copy_from(&bound.row(at));
            } else {
                free[(slot, at - rank)] = 1.0;
            }
        }
        let basis = free.qr().q();
        let ritz = SymmetricEigen::new(basis.transpose() * (normal * &basis));
        let least = NOTHING * largest(normal);
        let null: Vec<usize> = (0..n - rank)
            .filter(|&at| ritz.eigenvalues[at] <= least)
            .collect();
        Self {
            vectors: basis * ritz.eigenvectors.select_columns(&null),
        }
    }

    /// A null space of nothing, for `n` unknowns.
    #[must_use]
    pub fn none(n: usize) -> Self {
        Self {
            vectors: DMatrix::zeros(n, 0),
        }
    }

    /// In how many independent ways the network can move.
    #[must_use]
    pub fn dimension(&self) -> usize {
        self.vectors.ncols()
    }

    /// Whether the unknown in a slot moves.
    #[must_use]
    pub fn moves(&self, slot: usize) -> bool {
        self.vectors.row(slot).norm() > UNMOVED
    }

    /// How far each null vector moves along a row of A given by slot.
    #[must_use]
    pub fn along(&self, row: impl Iterator<Item = (usize, f64)>) -> DVector<f64> {
        let mut along = DVector::zeros(self.dimension());
        for (slot, slope) in row {
            along += self.vectors.row(slot).transpose() * slope;
        }
        along
    }

    /// Whether the unknown in a slot still moves once a reading stops all movement that is
    /// `along` it.
    #[must_use]
    pub fn moves_despite(&self, slot: usize, along: &DVector<f64>) -> bool {
        let square = along.norm_squared();
        let row = self.vectors.row(slot).transpose();
        let stopped = if square > 0.0 {
            along * (row.dot(along) / square)
        } else {
            DVector::zeros(self.dimension())
        };
        (row - stopped).norm() > UNMOVED
    }
}

/// N = L Lᵀ as far as it goes, the largest pivot first (Higham 1990).
struct Pivoted {
    /// The slot in each row of L.
    order: Vec<usize>,
    rank: usize,
    lower: DMatrix<f64>,
}

impl Pivoted {
    fn of(normal: &DMatrix<f64>) -> Self {
        let n = normal.nrows();
        let mut order: Vec<usize> = (0..n).collect();
        let mut lower = normal.clone();
        let mut left = normal.diagonal();
        let most = left.max();
        for at in 0..n {
            let (next, pivot) = left.rows_range(at..).argmax();
            if pivot.is_nan() || pivot <= PIVOT * most {
                return Self {
                    order,
                    rank: at,
                    lower,
                };
            }
            lower.swap_rows(at, at + next);
            lower.swap_columns(at, at + next);
            left.swap_rows(at, at + next);
            order.swap(at, at + next);
            let root = pivot.sqrt();
            lower[(at, at)] = root;
            let (known, mut rest) = lower.columns_range_pair_mut(..at, at);
            let mut column = rest.rows_range_mut(at + 1..);
            let row = known.row(at).transpose();
            column.gemv(-1.0, &known.rows_range(at + 1..), &row, 1.0);
            column /= root;
            for (below, entry) in column.iter().enumerate() {
                left[at + 1 + below] -= entry * entry;
            }
        }
        Self {
            order,
            rank: n,
            lower,
        }
    }
}

/// Largest eigenvalue of N, by power iteration.
pub(super) fn largest(normal: &DMatrix<f64>) -> f64 {
    // Uneven, so that it is square to no eigenvector that matters.
    let mut x = DVector::from_fn(normal.nrows(), |at, _| 1.0 + (at as f64).sin() * 0.5);
    let mut value = 0.0;
    for _ in 0..100 {
        x /= x.norm();
        let next = normal * &x;
        let norm = next.norm();
        if norm <= value * (1.0 + 1e-6) || !norm.is_finite() {
            break;
        }
        value = norm;
        x = next;
    }
    value
}

/// Whether there can be no null space: no eigenvalue of N is over `most`, and none under 1/tr N⁻¹.
#[must_use]
pub(super) fn is_regular(most: f64, trace_of_inverse: f64) -> bool {
    most * trace_of_inverse * NOTHING < 1.0
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Two chains of springs hang together only within themselves; one end is held.
    fn chains() -> DMatrix<f64> {
        let mut normal = DMatrix::zeros(6, 6);
        for (a, b) in [(0, 1), (1, 2), (3, 4), (4, 5)] {
            for (i, j, sign) in [(a, a, 1.0), (b, b, 1.0), (a, b, -1.0), (b, a, -1.0)] {
                normal[(i, j)] += sign;
            }
        }
        normal[(0, 0)] += 1.0;
        normal
    }

    #[test]
    fn what_hangs_on_nothing_moves_as_one() {
        let null = NullSpace::of(&chains());
        assert_eq!(null.dimension(), 1);
        let moves: Vec<bool> = (0..6).map(|slot| null.moves(slot)).collect();
        assert_eq!(moves, [false, false, false, true, true, true]);
        let along = null.along([(4, 1.0)].into_iter());
        assert!(!null.moves_despite(5, &along));
    }

    #[test]
    fn its_vectors_are_those_of_the_whole_decomposition() {
        let eigen = SymmetricEigen::new(chains());
        let least = eigen.eigenvalues.iter().filter(|value| value.abs() < 1e-9);
        assert_eq!(least.count(), NullSpace::of(&chains()).dimension());
        assert!((largest(&chains()) - eigen.eigenvalues.max()).abs() < 0.05);
        assert!((chains() * NullSpace::of(&chains()).vectors).norm() < 1e-12);
    }

    #[test]
    fn nothing_moves_and_everything_moves() {
        assert_eq!(NullSpace::of(&DMatrix::identity(3, 3)).dimension(), 0);
        assert_eq!(NullSpace::of(&DMatrix::zeros(3, 3)).dimension(), 3);
        assert_eq!(NullSpace::of(&DMatrix::zeros(0, 0)).dimension(), 0);
    }
}

//! Which ways a network can move without any reading noticing.

use super::cholesky::Factor;
use super::pattern::Pattern;
use nalgebra::{DMatrix, DVector, SymmetricEigen};

/// Eigenvalues of N up to this share of the largest count as nothing.
const NOTHING: f64 = 1e-9;
/// Up to this many unknowns the whole eigen-decomposition is quick.
const SMALL: usize = 80;
/// A parameter whose share in every null vector is below this does not move.
const UNMOVED: f64 = 1e-6;

/// The null space of a normal matrix.
#[derive(Clone, Debug)]
pub(super) struct NullSpace {
    /// Orthonormal null vectors, one a column, by slot.
    vectors: DMatrix<f64>,
}

impl NullSpace {
    /// The null space of the matrix whose lower triangle `normal` holds on `pattern`.
    #[must_use]
    pub fn of(pattern: &Pattern, normal: &[f64]) -> Self {
        let vectors = if pattern.len() <= SMALL {
            whole(pattern, normal)
        } else {
            smallest(pattern, normal)
        };
        Self { vectors }
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

    /// As many slots as there are ways to move, such that holding these leaves none
    /// (Gaussian elimination with full pivoting).
    #[must_use]
    pub fn pins(&self) -> Vec<usize> {
        let mut left = self.vectors.clone();
        let mut pins = Vec::new();
        for way in 0..left.ncols() {
            let rest = left.columns(way, left.ncols() - way).into_owned();
            let (slot, column) = rest.iamax_full();
            left.swap_columns(way, way + column);
            let pivot = left[(slot, way)];
            if pivot == 0.0 {
                break;
            }
            let direction = left.column(way).into_owned();
            for other in way + 1..left.ncols() {
                let share = left[(slot, other)] / pivot;
                left.column_mut(other).axpy(-share, &direction, 1.0);
            }
            pins.push(slot);
        }
        pins
    }
}

/// Whether the trace of N and that of its inverse already rule out a null space: the eigenvalue
/// ratio is at least 1/(tr N · tr N⁻¹).
#[must_use]
pub(super) fn is_regular(pattern: &Pattern, normal: &[f64], inverse: &[f64]) -> bool {
    let trace = |values: &[f64]| -> f64 {
        let diagonal = &pattern.start[..pattern.len()];
        diagonal.iter().map(|&at| values[at]).sum()
    };
    trace(normal) * trace(inverse) * NOTHING < 1.0
}

fn dense(pattern: &Pattern, normal: &[f64]) -> DMatrix<f64> {
    let n = pattern.len();
    let mut matrix = DMatrix::zeros(n, n);
    for (entry, row, column) in pattern.entries() {
        matrix[(row, column)] = normal[entry];
        matrix[(column, row)] = normal[entry];
    }
    matrix
}

fn whole(pattern: &Pattern, normal: &[f64]) -> DMatrix<f64> {
    let eigen = SymmetricEigen::new(dense(pattern, normal));
    let largest = eigen.eigenvalues.iter().fold(0.0f64, |a, &b| a.max(b));
    let null: Vec<usize> = (0..pattern.len())
        .filter(|&at| eigen.eigenvalues[at] <= NOTHING * largest)
        .collect();
    eigen.eigenvectors.select_columns(&null)
}

fn times(pattern: &Pattern, normal: &[f64], x: &DVector<f64>) -> DVector<f64> {
    let mut product = DVector::zeros(pattern.len());
    for (entry, row, column) in pattern.entries() {
        product[row] += normal[entry] * x[column];
        if row != column {
            product[column] += normal[entry] * x[row];
        }
    }
    product
}

/// Largest eigenvalue by power iteration.
fn largest(pattern: &Pattern, normal: &[f64]) -> f64 {
    let n = pattern.len();
    // Uneven, so that it is square to no eigenvector that matters.
    let mut x = DVector::from_fn(n, |at, _| 1.0 + (at as f64).sin() * 0.5).normalize();
    let mut value = 0.0;
    for _ in 0..100 {
        let next = times(pattern, normal, &x);
        let norm = next.norm();
        if norm <= value * (1.0 + 1e-6) || !norm.is_finite() {
            break;
        }
        value = norm;
        x = next / norm;
    }
    value
}

/// Null vectors by inverse iteration on a block that grows until it holds more than them.
fn smallest(pattern: &Pattern, normal: &[f64]) -> DMatrix<f64> {
    let n = pattern.len();
    let largest = largest(pattern, normal);
    // Far below what counts as nothing, far above rounding.
    let shift = largest * NOTHING * 1e-2;
    let mut shifted = normal.to_vec();
    for &at in &pattern.start[..n] {
        shifted[at] += shift;
    }
    let Some(factor) = Factor::new(pattern, &shifted, 0.0) else {
        return whole(pattern, normal);
    };
    let mut width = 8;
    while 2 * width < n {
        let mut block = DMatrix::from_fn(n, width, |row, column| {
            ((row * (2 * column + 1)) as f64 * 0.618 + column as f64).sin()
        });
        for _ in 0..12 {
            for mut column in block.column_iter_mut() {
                factor.solve(pattern, column.as_mut_slice());
            }
            block = block.qr().q();
        }
        let mut image = DMatrix::zeros(n, width);
        for column in 0..width {
            let product = times(pattern, normal, &block.column(column).into_owned());
            image.set_column(column, &product);
        }
        let ritz = SymmetricEigen::new(block.transpose() * image);
        let null: Vec<usize> = (0..width)
            .filter(|&at| ritz.eigenvalues[at] <= NOTHING * largest)
            .collect();
        if null.len() < width {
            return block * ritz.eigenvectors.select_columns(&null);
        }
        width *= 2;
    }
    whole(pattern, normal)
}

//! Sparse Cholesky factor of the normal matrix, N = L Lᵀ, on a fixed [`Pattern`].

use super::pattern::Pattern;

/// The factor L, entries laid out as [`Pattern::rows`].
#[derive(Clone, Debug)]
pub(super) struct Factor {
    values: Vec<f64>,
}

/// Pivots smaller than this share of their diagonal are rounding, not information.
const PIVOT: f64 = 1e-14;

impl Factor {
    /// Factorises the matrix whose lower triangle `normal` holds (laid out as `pattern.rows`),
    /// with `damping` times its diagonal added; none if it is not safely positive definite.
    #[must_use]
    pub fn new(pattern: &Pattern, normal: &[f64], damping: f64) -> Option<Self> {
        let mut values = normal.to_vec();
        let mut column = vec![0.0; pattern.len()];
        for at in 0..pattern.len() {
            let (from, to) = (pattern.start[at], pattern.start[at + 1]);
            for (&row, &value) in pattern.rows[from..to].iter().zip(&values[from..to]) {
                column[row] = value;
            }
            let diagonal = column[at] * (1.0 + damping);
            column[at] = diagonal;
            for &(earlier, entry) in row(pattern, at) {
                let end = pattern.start[earlier + 1];
                let share = values[entry];
                subtract(
                    &mut column,
                    share,
                    &pattern.rows[entry..end],
                    &values[entry..end],
                );
            }
            let pivot = column[at];
            // Written so that a pivot that is not a number fails too.
            if !(pivot > PIVOT * diagonal && pivot.is_finite()) {
                return None;
            }
            let root = pivot.sqrt();
            values[from] = root;
            for (&row, value) in pattern.rows[from + 1..to]
                .iter()
                .zip(&mut values[from + 1..to])
            {
                *value = column[row] / root;
            }
        }
        Some(Self { values })
    }

    /// The factor of the identity.
    #[must_use]
    pub fn identity(pattern: &Pattern) -> Self {
        let mut values = vec![0.0; pattern.rows.len()];
        for &diagonal in &pattern.start[..pattern.len()] {
            values[diagonal] = 1.0;
        }
        Self { values }
    }

    /// Solves L y = b in place.
    pub fn forward(&self, pattern: &Pattern, b: &mut [f64]) {
        for at in 0..pattern.len() {
            let (from, to) = (pattern.start[at], pattern.start[at + 1]);
            let y = b[at] / self.values[from];
            b[at] = y;
            if y != 0.0 {
                let below = from + 1..to;
                subtract(b, y, &pattern.rows[below.clone()], &self.values[below]);
            }
        }
    }

    /// Solves Lᵀ x = y in place.
    pub fn backward(&self, pattern: &Pattern, y: &mut [f64]) {
        for at in (0..pattern.len()).rev() {
            let (from, to) = (pattern.start[at], pattern.start[at + 1]);
            let below = from + 1..to;
            let known = product(y, &pattern.rows[below.clone()], &self.values[below]);
            y[at] = (y[at] - known) / self.values[from];
        }
    }

    /// Solves N x = b in place.
    pub fn solve(&self, pattern: &Pattern, b: &mut [f64]) {
        self.forward(pattern, b);
        self.backward(pattern, b);
    }

    /// The entries of N⁻¹ that lie on the pattern, laid out as `pattern.rows`
    /// (Takahashi, Fagan and Chen 1973).
    #[must_use]
    pub fn inverse_on_pattern(&self, pattern: &Pattern) -> Vec<f64> {
        let mut inverse = vec![0.0; self.values.len()];
        let mut sums = vec![0.0; pattern.len()];
        let mut share = vec![0.0; pattern.len()];
        for at in (0..pattern.len()).rev() {
            let (from, to) = (pattern.start[at], pattern.start[at + 1]);
            let root = self.values[from];
            let below = &pattern.rows[from + 1..to];
            for (&row, &value) in below.iter().zip(&self.values[from + 1..to]) {
                share[row] = value / root;
            }
            for &k in below {
                let (k_from, k_to) = (pattern.start[k], pattern.start[k + 1]);
                let of_k = share[k];
                // Rows outside this column have no share, so they add nothing to the product, and
                // what they gather in `sums` is cleared below without being read.
                let (rows, values) = (&pattern.rows[k_from + 1..k_to], &inverse[k_from + 1..k_to]);
                sums[k] += of_k * inverse[k_from] + product(&share, rows, values);
                subtract(&mut sums, -of_k, rows, values);
            }
            let mut diagonal = 1.0 / (root * root);
            for (&row, value) in below.iter().zip(&mut inverse[from + 1..to]) {
                *value = -sums[row];
                diagonal += share[row] * sums[row];
            }
            inverse[from] = diagonal;
            for &k in below {
                for &row in &pattern.rows[pattern.start[k]..pattern.start[k + 1]] {
                    sums[row] = 0.0;
                }
            }
            for &row in below {
                share[row] = 0.0;
            }
        }
        inverse
    }
}

/// Where in `dense` the rows lie, if they follow each other without a gap: then no row needs to be
/// looked up, and several are worked out at a time.
fn run(dense: usize, rows: &[usize]) -> Option<std::ops::Range<usize>> {
    let (first, last) = (*rows.first()?, *rows.last()?);
    (last - first + 1 == rows.len() && last < dense).then_some(first..last + 1)
}

/// Takes `share` times a sparse column off a dense one.
fn subtract(dense: &mut [f64], share: f64, rows: &[usize], values: &[f64]) {
    if let Some(run) = run(dense.len(), rows) {
        for (to, value) in dense[run].iter_mut().zip(values) {
            *to -= share * value;
        }
        return;
    }
    for (&row, value) in rows.iter().zip(values) {
        dense[row] -= share * value;
    }
}

/// A sparse column times a dense one.
fn product(dense: &[f64], rows: &[usize], values: &[f64]) -> f64 {
    if let Some(run) = run(dense.len(), rows) {
        // Four sums side by side are worked out together.
        let mut sums = [0.0; 4];
        let (dense, rest) = dense[run].as_chunks::<4>();
        let (values, of_rest) = values.as_chunks::<4>();
        for (a, b) in dense.iter().zip(values) {
            for (sum, (a, b)) in sums.iter_mut().zip(a.iter().zip(b)) {
                *sum += a * b;
            }
        }
        let last: f64 = rest.iter().zip(of_rest).map(|(a, b)| a * b).sum();
        return sums.iter().sum::<f64>() + last;
    }
    let terms = rows.iter().zip(values);
    terms.map(|(&row, value)| dense[row] * value).sum()
}

fn row(pattern: &Pattern, at: usize) -> &[(usize, usize)] {
    &pattern.row_entries[pattern.row_start[at]..pattern.row_start[at + 1]]
}

#[cfg(test)]
mod tests {
    use super::*;
    use nalgebra::{DMatrix, DVector};
    use rand::{RngExt, SeedableRng, rngs::StdRng};

    fn sample(n: usize, ties: usize, seed: u64) -> (Pattern, Vec<f64>, DMatrix<f64>) {
        let mut rng = StdRng::seed_from_u64(seed);
        let links: Vec<[usize; 3]> = (0..ties)
            .map(|_| [0; 3].map(|_: usize| rng.random_range(0..n)))
            .collect();
        let pattern = Pattern::new(n, links.iter().map(|link| &link[..]));
        let mut dense = DMatrix::<f64>::identity(n, n) * 0.1;
        let slot = |v: usize| pattern.order.iter().position(|&o| o == v).unwrap_or(0);
        for link in &links {
            let mut a = DVector::<f64>::zeros(n);
            for &v in link {
                a[slot(v)] += rng.random_range(-1.0..1.0);
            }
            dense += &a * a.transpose();
        }
        let mut normal = vec![0.0; pattern.rows.len()];
        for column in 0..n {
            for at in pattern.start[column]..pattern.start[column + 1] {
                normal[at] = dense[(pattern.rows[at], column)];
            }
        }
        (pattern, normal, dense)
    }

    #[test]
    fn agrees_with_the_dense_inverse() {
        for seed in 0..20 {
            let n = 1 + seed as usize * 2;
            let (pattern, normal, dense) = sample(n, 2 * n, seed);
            let factor = Factor::new(&pattern, &normal, 0.0).expect("positive definite");
            let inverse = dense.try_inverse().expect("regular");
            let on_pattern = factor.inverse_on_pattern(&pattern);
            for column in 0..n {
                for at in pattern.start[column]..pattern.start[column + 1] {
                    let exact = inverse[(pattern.rows[at], column)];
                    assert!((on_pattern[at] - exact).abs() < 1e-9, "{seed}");
                }
                let mut unit = vec![0.0; n];
                unit[column] = 1.0;
                factor.solve(&pattern, &mut unit);
                for row in 0..n {
                    assert!((unit[row] - inverse[(row, column)]).abs() < 1e-9);
                }
            }
        }
    }

    #[test]
    fn refuses_what_is_not_positive_definite() {
        let pattern = Pattern::new(2, [[0, 1]].iter().map(|link| &link[..]));
        assert!(Factor::new(&pattern, &[1.0, 1.0, 1.0], 0.0).is_none());
        assert!(Factor::new(&pattern, &[1.0, 1.0, 1.0], 1e-6).is_some());
        assert!(Factor::new(&pattern, &[0.0, 0.0, 1.0], 1.0).is_none());
        assert!(Factor::new(&pattern, &[f64::NAN, 0.0, 1.0], 0.0).is_none());
        assert!(Factor::new(&pattern, &[f64::INFINITY, 0.0, 1.0], 0.0).is_none());
    }
}

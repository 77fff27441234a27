//! Where the factor of N has entries, and in which order to eliminate so that there are few.
//!
//! A reading ties a handful of parameters, so N is nearly empty. Eliminating the least tied
//! parameter first (minimum degree: Tinney and Walker 1967) keeps its Cholesky factor so.

/// The lower triangle of the factor by columns, in elimination order.
#[derive(Clone, Debug)]
pub(super) struct Pattern {
    /// Variable eliminated at each slot.
    pub order: Vec<usize>,
    /// Where the column of each slot starts in `rows`, and one past the last.
    pub start: Vec<usize>,
    /// Slots of the entries of each column, ascending; the diagonal comes first.
    pub rows: Vec<usize>,
    /// For each slot, the earlier columns with an entry in that row, and where that entry is.
    pub row_start: Vec<usize>,
    pub row_entries: Vec<(usize, usize)>,
}

impl Pattern {
    /// Pattern for `n` variables where each of `cliques` ties its variables to each other.
    #[must_use]
    pub fn new<C: AsRef<[usize]>>(n: usize, cliques: impl Iterator<Item = C>) -> Self {
        let mut ties = Ties::new(n);
        for clique in cliques {
            for &a in clique.as_ref() {
                for &b in clique.as_ref() {
                    ties.tie(a, b);
                }
            }
        }
        let (order, start, mut rows) = eliminate(ties);
        let mut slot = vec![0; n];
        for (at, &variable) in order.iter().enumerate() {
            slot[variable] = at;
        }
        for row in &mut rows {
            *row = slot[*row];
        }
        for column in start.windows(2) {
            rows[column[0]..column[1]].sort_unstable();
        }
        let (row_start, row_entries) = by_rows(n, &start, &rows);
        Self {
            order,
            start,
            rows,
            row_start,
            row_entries,
        }
    }

    /// Number of variables.
    pub fn len(&self) -> usize {
        self.order.len()
    }

    /// Every entry: its place in `rows`, its row and its column.
    pub fn entries(&self) -> impl Iterator<Item = (usize, usize, usize)> {
        (0..self.len()).flat_map(move |column| {
            (self.start[column]..self.start[column + 1])
                .map(move |entry| (entry, self.rows[entry], column))
        })
    }

    /// Where in `rows` the entry of two slots is, if the pattern has it.
    pub fn entry(&self, a: usize, b: usize) -> Option<usize> {
        let (column, row) = (a.min(b), a.max(b));
        let from = self.start[column];
        self.rows[from..self.start[column + 1]]
            .binary_search(&row)
            .ok()
            .map(|at| from + at)
    }
}

fn by_rows(n: usize, start: &[usize], rows: &[usize]) -> (Vec<usize>, Vec<(usize, usize)>) {
    let mut row_start = vec![0; n + 1];
    for column in 0..n {
        for &row in &rows[start[column] + 1..start[column + 1]] {
            row_start[row + 1] += 1;
        }
    }
    for row in 0..n {
        row_start[row + 1] += row_start[row];
    }
    let mut next = row_start.clone();
    let mut entries = vec![(0, 0); row_start[n]];
    for column in 0..n {
        let below = start[column] + 1..start[column + 1];
        for (entry, &row) in below.clone().zip(&rows[below]) {
            entries[next[row]] = (column, entry);
            next[row] += 1;
        }
    }
    (row_start, entries)
}

/// Which variables are tied to which: a square of bits.
struct Ties {
    words: usize,
    bits: Vec<u64>,
    degree: Vec<u32>,
}

impl Ties {
    fn new(n: usize) -> Self {
        let words = n.div_ceil(64);
        Self {
            words,
            bits: vec![0; n * words],
            degree: vec![0; n],
        }
    }

    fn tie(&mut self, a: usize, b: usize) {
        let word = &mut self.bits[a * self.words + b / 64];
        let bit = 1 << (b % 64);
        if a != b && *word & bit == 0 {
            *word |= bit;
            self.degree[a] += 1;
        }
    }

    /// Puts what `a` is tied to behind what is in `rows`.
    fn of(&self, a: usize, rows: &mut Vec<usize>) {
        let words = &self.bits[a * self.words..(a + 1) * self.words];
        for (at, &word) in words.iter().enumerate() {
            let mut word = word;
            while word != 0 {
                rows.push(at * 64 + word.trailing_zeros() as usize);
                word &= word - 1;
            }
        }
    }

    /// Ties everything that `a` is tied to together, and takes `a` away.
    fn eliminate(&mut self, a: usize, tied: &[usize], clique: &mut [u64]) {
        clique.copy_from_slice(&self.bits[a * self.words..(a + 1) * self.words]);
        clique[a / 64] |= 1 << (a % 64);
        for &b in tied {
            let words = &mut self.bits[b * self.words..(b + 1) * self.words];
            for (word, more) in words.iter_mut().zip(&*clique) {
                *word |= more;
            }
            words[a / 64] &= !(1 << (a % 64));
            words[b / 64] &= !(1 << (b % 64));
            self.degree[b] = words.iter().map(|word| word.count_ones()).sum();
        }
    }
}

/// The order, where each column starts, and its variables, its own first.
fn eliminate(mut ties: Ties) -> (Vec<usize>, Vec<usize>, Vec<usize>) {
    let n = ties.degree.len();
    let (mut order, mut start) = (Vec::with_capacity(n), Vec::with_capacity(n + 1));
    let mut rows = Vec::with_capacity(8 * n);
    let mut clique = vec![0; ties.words];
    let mut left: Vec<usize> = (0..n).collect();
    start.push(0);
    while let Some(at) = (0..left.len()).min_by_key(|&at| ties.degree[left[at]]) {
        let variable = left.remove(at);
        let from = rows.len();
        rows.push(variable);
        ties.of(variable, &mut rows);
        ties.eliminate(variable, &rows[from + 1..], &mut clique);
        order.push(variable);
        start.push(rows.len());
    }
    (order, start, rows)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_chain_fills_nothing_in() {
        let links: Vec<[usize; 2]> = (0..9).map(|i| [i, i + 1]).collect();
        let pattern = Pattern::new(10, links.iter().map(|link| &link[..]));
        assert_eq!(pattern.rows.len(), 10 + 9);
        assert_eq!(pattern.start.len(), 11);
    }

    #[test]
    fn a_hub_goes_last() {
        let spokes: Vec<[usize; 2]> = (1..6).map(|i| [0, i]).collect();
        let pattern = Pattern::new(6, spokes.iter().map(|spoke| &spoke[..]));
        assert!(pattern.order.iter().position(|&v| v == 0) >= Some(4));
        assert_eq!(pattern.rows.len(), 6 + 5);
    }

    #[test]
    fn a_ring_closes_with_fill() {
        let ring: Vec<[usize; 2]> = (0..5).map(|i| [i, (i + 1) % 5]).collect();
        let pattern = Pattern::new(5, ring.iter().map(|link| &link[..]));
        // Each of the first two eliminations ties its two neighbours: 5 + 5 ties + 2 of fill.
        assert_eq!(pattern.rows.len(), 12);
        let slots: Vec<usize> = (0..5)
            .map(|v| pattern.order.iter().position(|&o| o == v).unwrap_or(9))
            .collect();
        for [a, b] in ring {
            assert!(pattern.entry(slots[a], slots[b]).is_some());
        }
    }

    #[test]
    fn nothing() {
        let pattern = Pattern::new(0, std::iter::empty::<[usize; 0]>());
        assert_eq!(pattern.len(), 0);
        assert_eq!(pattern.start, [0]);
    }
}

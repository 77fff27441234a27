//! Shifting and turning one site onto another.

use super::locus::{apart, unit};
use super::mark::{At, Param, place, put};
use super::problem::Prepared;

/// A shift and a turn.
pub(super) struct Fit {
    from: [f64; 2],
    to: [f64; 2],
    turn: [f64; 2],
}

/// What it takes to fit points onto others, gathered pair by pair.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Sums {
    count: f64,
    from: [f64; 2],
    to: [f64; 2],
    dot: f64,
    cross: f64,
}

impl Sums {
    pub fn add(&mut self, a: [f64; 2], b: [f64; 2]) {
        self.count += 1.0;
        self.from = [self.from[0] + a[0], self.from[1] + a[1]];
        self.to = [self.to[0] + b[0], self.to[1] + b[1]];
        self.dot += a[0] * b[0] + a[1] * b[1];
        self.cross += a[0] * b[1] - a[1] * b[0];
    }

    /// The shift and turn that bring the points nearest to the others.
    pub fn fit(&self) -> Fit {
        let mean = |sum: [f64; 2]| sum.map(|part| part / self.count.max(1.0));
        let (from, to) = (mean(self.from), mean(self.to));
        let dot = self.dot - self.count * (from[0] * to[0] + from[1] * to[1]);
        let cross = self.cross - self.count * (from[0] * to[1] - from[1] * to[0]);
        let turn = unit([0.0; 2], [dot, cross]).unwrap_or([1.0, 0.0]);
        Fit { from, to, turn }
    }
}

impl Fit {
    /// The one that brings points nearest to others.
    pub fn of(pairs: impl Iterator<Item = ([f64; 2], [f64; 2])>) -> Self {
        let mut sums = Sums::default();
        for (a, b) in pairs {
            sums.add(a, b);
        }
        sums.fit()
    }

    pub fn of_point(&self, [x, y]: [f64; 2]) -> [f64; 2] {
        let (dx, dy) = (x - self.from[0], y - self.from[1]);
        let [cos, sin] = self.turn;
        [
            self.to[0] + dx * cos - dy * sin,
            self.to[1] + dx * sin + dy * cos,
        ]
    }
}

/// The site shifted and turned so that what is held is where it is held.
pub(super) fn in_frame(problem: &Prepared, marks: &[At], mut x: Vec<f64>) -> Option<Vec<f64>> {
    let held = |mark: &At| [mark.x, mark.y].map(|Param(param)| problem.slot(param).is_none());
    let whole: Vec<At> = marks
        .iter()
        .copied()
        .filter(|mark| held(mark) == [true; 2])
        .collect();
    let half: Vec<At> = marks
        .iter()
        .copied()
        .filter(|mark| matches!(held(mark), [true, false] | [false, true]))
        .collect();
    let start = &problem.start;
    let (from, to, turn) = match (&whole[..], &half[..]) {
        ([], []) => return Some(x),
        (&[o], []) => (place(&x, o), place(start, o), [1.0, 0.0]),
        (&[o], &[e]) => {
            let (from, to, end) = (place(&x, o), place(start, o), place(start, e));
            let reach = apart(from, place(&x, e));
            let mut way = [end[0] - to[0], end[1] - to[1]];
            let axis = usize::from(held(&e) == [false, true]);
            let along = (reach * reach - way[axis] * way[axis]).max(0.0).sqrt();
            way[1 - axis] = if way[1 - axis] < 0.0 { -along } else { along };
            let (u, w) = (unit(from, place(&x, e))?, unit([0.0; 2], way)?);
            (
                from,
                to,
                [u[0] * w[0] + u[1] * w[1], u[0] * w[1] - u[1] * w[0]],
            )
        }
        (&[_, _, ..], []) => return Some(x),
        _ => return None,
    };
    let fit = Fit { from, to, turn };
    for &mark in marks {
        let moved = fit.of_point(place(&x, mark));
        put(&mut x, mark, moved);
    }
    for mark in whole.iter().chain(&half) {
        for Param(param) in [mark.x, mark.y] {
            // A held coordinate stays what it is to the last digit.
            if let (None, Some(moved), Some(&held)) =
                (problem.slot(param), x.get_mut(param), start.get(param))
            {
                *moved = held;
            }
        }
    }
    Some(x)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_turned_and_shifted_site_fits_to_the_last_digit() {
        let (sin, cos) = 0.7f64.sin_cos();
        let moved = |[x, y]: [f64; 2]| [x * cos - y * sin + 300.0, x * sin + y * cos - 40.0];
        let marks = [[0.0, 0.0], [4000.0, 10.0], [900.0, 2500.0]];
        let fit = Fit::of(marks.iter().map(|&mark| (mark, moved(mark))));
        for mark in [[0.0, 0.0], [-700.0, 1200.0]] {
            assert!(apart(fit.of_point(mark), moved(mark)) < 1e-9);
        }
    }
}

//! A part of a site, around the reading that fits worst.

use super::descent::descend;
use super::equation::At;
use super::lift::part;
use super::problem::Problem;

/// How many marks are looked at together; on larger sites those near the worst reading.
pub(super) const TOGETHER: usize = 40;
/// What counts as fitting better.
const BETTER: f64 = 1.0 - 1e-9;

/// The marks around a reading, in order.
pub(super) struct Region {
    pub marks: Vec<At>,
}

impl Region {
    /// The marks nearest to a reading, by readings; all of them, on a site small enough.
    pub fn around(problem: &Problem, marks: &[At], seed: usize) -> Self {
        if marks.len() <= TOGETHER {
            return Self {
                marks: marks.to_vec(),
            };
        }
        let mut near = vec![false; marks.len()];
        let mut count = 0;
        let mut ring = vec![seed];
        while count < TOGETHER && !ring.is_empty() {
            for mark in ring
                .iter()
                .flat_map(|&index| problem.readings[index].form.marks())
            {
                if let Ok(at) = marks.binary_search(&mark)
                    && !near[at]
                    && count < TOGETHER
                {
                    near[at] = true;
                    count += 1;
                }
            }
            ring = rim(problem, marks, &near);
        }
        let near = marks.iter().zip(&near).filter(|(_, near)| **near);
        Self {
            marks: near.map(|(&mark, _)| mark).collect(),
        }
    }

    /// Where `moved` settles while all but the region stays put, if that fits better than `x`: else
    /// it is back in the same valley and there is no need to ask the whole site.
    pub fn better(&self, problem: &Problem, x: &[f64], moved: Vec<f64>) -> Option<Vec<f64>> {
        let part = part(problem, x, &self.marks);
        let settled = descend(&part, moved, None);
        (settled.chi2 < part.chi2(x, None) * BETTER).then_some(settled.x)
    }
}

/// The readings that tie what is near to what is not.
fn rim(problem: &Problem, marks: &[At], near: &[bool]) -> Vec<usize> {
    let is_near = |mark: At| marks.binary_search(&mark).is_ok_and(|at| near[at]);
    let on_rim = |index: &usize| {
        let its = || problem.readings[*index].form.marks();
        its().any(is_near) && !its().all(is_near)
    };
    (0..problem.readings.len()).filter(on_rim).collect()
}

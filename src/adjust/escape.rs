//! From a valley to the deepest one: what is done when readings fit badly.
//!
//! Walking downhill from a rough sketch may end with a mark, or a part of the site, on the wrong
//! side of its neighbours. Each way out only ever proposes where to walk downhill from again, and
//! only what fits better is kept.

use super::descent::{Descent, descend};
use super::equation::At;
use super::lift::{lift, part};
use super::limit::limit;
use super::mirror::{Tied, mirrored_marks, right_way_up, ties};
use super::problem::Problem;

/// How often in a row the marks are let out of the plane in vain before what is found is taken for
/// the truth.
const TURNS: usize = 8;
/// As many turns are taken even if one slip would explain the misfit.
const SURE_TURNS: usize = 2;
/// How many marks are let out together; on larger sites those near the worst reading.
const TOGETHER: usize = 40;
/// Fits this good are beyond improving.
const PERFECT: f64 = 1e-9;
/// What counts as fitting better.
const BETTER: f64 = 1.0 - 1e-9;

/// The parameters of least Σ(v/sd)² that can be found from the rough positions.
#[must_use]
pub(super) fn settle(problem: &Problem) -> Vec<f64> {
    let ties = ties(problem);
    let marks = problem.marks();
    let limit = limit(problem.readings.len() as i64 - problem.unknowns() as i64);
    let mut best = descend(problem, problem.start.clone(), None);
    let mut vain = Vain::default();
    // Each part of a large site may take its turns.
    for turn in 0..TURNS + marks.len() / 4 {
        let explained = || vain.turns == SURE_TURNS && one_slip_explains(problem, &best, limit);
        if best.chi2 <= limit || vain.turns == TURNS || explained() {
            break;
        }
        let Some(seed) = vain.seed(problem, &best.x) else {
            break;
        };
        let region = region(problem, &marks, seed);
        match turned(problem, &best, &region, turn, region.len() == marks.len()) {
            Some(again) => {
                best = again;
                vain = Vain::default();
            }
            None => vain.again(problem, seed),
        }
        if best.chi2 > limit && marks.len() <= TOGETHER {
            best = flip_marks(problem, &ties, best);
        }
    }
    let best = flip_marks(problem, &ties, best);
    right_way_up(problem, best.x)
}

/// What has been tried since anything got better.
#[derive(Default)]
struct Vain {
    turns: usize,
    tried: Vec<At>,
}

impl Vain {
    /// The worst fitting reading whose marks have not had their turns yet, on a site so large that
    /// it takes turns; else the worst of all.
    fn seed(&self, problem: &Problem, x: &[f64]) -> Option<usize> {
        let fresh = |index: &usize| {
            let mut marks = problem.readings[*index].form.marks();
            !marks.any(|mark| self.tried.contains(&mark))
        };
        let misfit = |index: &usize| problem.misfit(*index, x).abs();
        (0..problem.readings.len())
            .filter(|index| problem.readings[*index].form.marks().next().is_some())
            .filter(fresh)
            .max_by(|a, b| misfit(a).total_cmp(&misfit(b)))
    }

    fn again(&mut self, problem: &Problem, seed: usize) {
        self.turns += 1;
        if problem.marks().len() > TOGETHER && self.turns.is_multiple_of(SURE_TURNS) {
            self.tried.extend(problem.readings[seed].form.marks());
        }
    }
}

/// The marks around a reading, nearest by readings first, in order.
fn region(problem: &Problem, marks: &[At], seed: usize) -> Vec<At> {
    let mut near = vec![false; marks.len()];
    let mut count = 0;
    let mut ring = vec![seed];
    while count < TOGETHER.min(marks.len()) && !ring.is_empty() {
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
        let is_near = |mark: At| marks.binary_search(&mark).is_ok_and(|at| near[at]);
        ring = (0..problem.readings.len())
            .filter(|&index| {
                let mut its = problem.readings[index].form.marks();
                let (mut near, mut far) = (false, false);
                its.by_ref().for_each(|mark| {
                    near |= is_near(mark);
                    far |= !is_near(mark);
                });
                near && far
            })
            .collect();
    }
    let near = marks.iter().zip(&near).filter(|(_, near)| **near);
    near.map(|(&mark, _)| mark).collect()
}

/// What comes of letting a region out of the plane, if it fits better.
fn turned(
    problem: &Problem,
    best: &Descent,
    region: &[At],
    turn: usize,
    whole: bool,
) -> Option<Descent> {
    let start = if whole && turn.is_multiple_of(2) {
        lift(problem, &problem.start, region, turn)
    } else {
        let lifted = lift(problem, &best.x, region, turn);
        let part = part(problem, &best.x, region);
        let settled = descend(&part, lifted, None);
        // Back in the same valley: no need to ask the whole site.
        if settled.chi2 >= part.chi2(&best.x, None) * BETTER {
            return None;
        }
        settled.x
    };
    let again = descend(problem, start, None);
    (again.chi2 < best.chi2 * BETTER).then_some(again)
}

/// Whether all but the worst fitting reading agree.
fn one_slip_explains(problem: &Problem, best: &Descent, limit: f64) -> bool {
    let misfit = |index: &usize| problem.misfit(*index, &best.x).abs();
    let worst = (0..problem.readings.len()).max_by(|a, b| misfit(a).total_cmp(&misfit(b)));
    descend(problem, best.x.clone(), worst).chi2 <= limit
}

/// Turns single marks over to the other side of two neighbours, as long as that fits better.
fn flip_marks(problem: &Problem, ties: &[Tied], mut best: Descent) -> Descent {
    const MOST: usize = 6;
    let mut tries = 0;
    'again: while best.chi2 > PERFECT {
        for x in mirrored_marks(problem, ties, &best.x) {
            tries += 1;
            if tries > MOST {
                break 'again;
            }
            let flipped = descend(problem, x, None);
            if flipped.chi2 < best.chi2 * BETTER {
                best = flipped;
                continue 'again;
            }
        }
        break;
    }
    best
}

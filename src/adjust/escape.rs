//! From a valley to the deepest one: what is done when readings fit badly.
//!
//! Walking downhill from a rough sketch may end with a mark, or a part of the site, on the wrong
//! side of its neighbours. Each way out only ever proposes where to walk downhill from again, and
//! only what fits better is kept.

use super::descent::{Descent, descend};
use super::equation::At;
use super::hinge::folded;
use super::lift::{lift, part};
use super::limit::limit;
use super::mirror::{Tied, mirrored_marks, right_way_up, ties};
use super::problem::Problem;

/// How often in a row the marks are let out of the plane in vain before what is found is taken for
/// the truth.
const TURNS: usize = 12;
/// As many turns are taken even if one slip would explain the misfit.
const SURE_TURNS: usize = 3;
/// How many marks are let out together; on larger sites those near the worst reading.
const TOGETHER: usize = 40;
/// Fits this good are beyond improving.
const PERFECT: f64 = 1e-9;
/// What counts as fitting better.
const BETTER: f64 = 1.0 - 1e-9;
/// What counts as fitting better out of comparison.
const INCOMPARABLY: f64 = 0.1;
/// How many folds are tried at a time.
const FOLDS: usize = 6;
/// On sites of so many marks all folds are looked at even if the readings agree.
const QUICK: usize = 6;
/// How many of the worst fitting readings are tried for the one slip.
const LIKELIEST: usize = 3;

/// The parameters that make most sense of the readings, nearest to the rough positions.
///
/// That is the valley where Σ(v/sd)² is least, but for one thing: with a slip among the readings
/// some odd arrangement may happen to fit the slip a little better than the truth does, so what
/// one slip explains is only left for what fits out of comparison better.
#[must_use]
pub(super) fn settle(problem: &Problem) -> Vec<f64> {
    let ties = ties(problem);
    let marks = problem.marks();
    let mut best = Candidate::new(problem, descend(problem, problem.start.clone(), None));
    let mut vain = Vain::default();
    // Each part of a large site may take its turns.
    for turn in 0..TURNS + marks.len() / 4 {
        let enough = match best.sense {
            Sense::Agrees => true,
            Sense::OneSlip => vain.turns == SURE_TURNS,
            Sense::None => vain.turns == TURNS,
        };
        if enough {
            break;
        }
        let Some(seed) = vain.seed(problem, &best.descent.x) else {
            break;
        };
        let region = region(problem, &marks, seed);
        let again = turned(
            problem,
            &best.descent,
            &region,
            turn,
            region.len() == marks.len(),
        )
        .map(|descent| Candidate::new(problem, descent))
        .filter(|again| again.beats(&best));
        match again {
            Some(again) => {
                best = again;
                vain = Vain::default();
            }
            None => vain.again(problem, seed),
        }
        if best.sense == Sense::None && marks.len() <= TOGETHER {
            best = fold_over(problem, &ties, &marks, best);
        }
    }
    let best = fold_over(problem, &ties, &marks, best);
    right_way_up(problem, best.descent.x)
}

/// How far an arrangement makes sense of the readings.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Sense {
    /// All agree.
    Agrees,
    /// All but one agree.
    OneSlip,
    /// More than one would have to be wrong.
    None,
}

struct Candidate {
    descent: Descent,
    sense: Sense,
}

impl Candidate {
    fn new(problem: &Problem, descent: Descent) -> Self {
        let checks = problem.readings.len() as i64 - problem.unknowns() as i64;
        let sense = if descent.chi2 <= limit(checks) {
            Sense::Agrees
        } else if one_slip_explains(problem, &descent, limit(checks - 1)) {
            Sense::OneSlip
        } else {
            Sense::None
        };
        Self { descent, sense }
    }

    fn beats(&self, other: &Self) -> bool {
        let margin = match (self.sense, other.sense) {
            (Sense::OneSlip, Sense::OneSlip) => INCOMPARABLY,
            _ => BETTER,
        };
        self.sense <= other.sense && self.descent.chi2 < other.descent.chi2 * margin
    }
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
        better_there(problem, &best.x, lifted, region)?
    };
    let again = descend(problem, start, None);
    (again.chi2 < best.chi2 * BETTER).then_some(again)
}

/// Where `moved` settles while all but the region stays put, if that fits better than `x`: else it
/// is back in the same valley and there is no need to ask the whole site.
fn better_there(problem: &Problem, x: &[f64], moved: Vec<f64>, region: &[At]) -> Option<Vec<f64>> {
    let part = part(problem, x, region);
    let settled = descend(&part, moved, None);
    (settled.chi2 < part.chi2(x, None) * BETTER).then_some(settled.x)
}

/// Whether all agree but one of the worst fitting.
fn one_slip_explains(problem: &Problem, at: &Descent, limit: f64) -> bool {
    let misfit = |index: usize| problem.misfit(index, &at.x).abs();
    let mut worst: Vec<usize> = (0..problem.readings.len()).collect();
    worst.sort_by(|&a, &b| misfit(b).total_cmp(&misfit(a)));
    if worst
        .first()
        .is_some_and(|&worst| beyond(problem, &at.x, worst) > limit)
    {
        return false;
    }
    let mut tried = worst.into_iter().take(LIKELIEST);
    tried.any(|index| descend(problem, at.x.clone(), Some(index)).chi2 <= limit)
}

/// Σ(v/sd)² of the readings so far from a slip that it cannot be to blame; nothing is, on a site
/// small enough.
fn beyond(problem: &Problem, x: &[f64], slip: usize) -> f64 {
    let marks = problem.marks();
    if marks.len() <= TOGETHER {
        return 0.0;
    }
    let near = part(problem, x, &region(problem, &marks, slip));
    problem.chi2(x, None) - near.chi2(x, None)
}

/// Folds single marks, and where that is quick or the readings make no sense parts of the site,
/// over the line through two others, as long as that fits better.
fn fold_over(problem: &Problem, ties: &[Tied], marks: &[At], mut best: Candidate) -> Candidate {
    let mut tries = 0;
    while best.descent.chi2 > PERFECT && tries < FOLDS {
        let x = &best.descent.x;
        let mut proposals: Vec<Vec<f64>> = mirrored_marks(problem, ties, x)
            .into_iter()
            .take(FOLDS)
            .filter_map(|(reading, moved)| {
                let region = region(problem, marks, reading);
                // On a larger site the neighbourhood is asked first.
                let whole = region.len() == marks.len();
                if whole {
                    Some(moved)
                } else {
                    better_there(problem, x, moved, &region)
                }
            })
            .collect();
        // Where the readings agree only a fold that they hardly notice can be better.
        let (size, most) = match best.sense {
            Sense::Agrees => (QUICK, 2.0 * best.descent.chi2 + 1.0),
            Sense::OneSlip | Sense::None => (TOGETHER, f64::INFINITY),
        };
        if marks.len() <= size {
            proposals.extend(folded(problem, marks, x, most).into_iter().take(FOLDS / 2));
        }
        let better = proposals.into_iter().take(FOLDS).find_map(|x| {
            tries += 1;
            let descent = descend(problem, x, None);
            let fits = descent.chi2 < best.descent.chi2 * BETTER;
            fits.then(|| Candidate::new(problem, descent))
                .filter(|found| found.beats(&best))
        });
        match better {
            Some(better) => best = better,
            None => break,
        }
    }
    best
}

//! From a valley to the right one: what is done when readings fit badly.
//!
//! Walking downhill from a rough sketch may end with a mark, or a part of the site, on the wrong
//! side of its neighbours. Each way out only ever proposes where to walk downhill from again, and
//! only what makes more sense is kept:
//!
//! - the site put together afresh, mark by mark ([`super::grow`]);
//! - single marks mirrored in the line through two neighbours, and parts of the site folded over
//!   the line through the two marks they hang on ([`super::mirror`], [`super::hinge`]);
//! - on the rare site that makes no sense yet, marks let out of the plane ([`super::lift`]).

use super::arrangement::{Arrangement, Sense};
use super::descent::{Patience, descend, descend_within};
use super::equation::{At, place};
use super::grow::{departures, grown};
use super::hinge::folded;
use super::lift::{lift, part};
use super::locus::apart;
use super::mirror::{mirrored_marks, on_sketched_sides, right_way_up};
use super::order::{Ties, order};
use super::problem::Problem;
use super::region::{Region, TOGETHER};

/// How often in a row the marks are let out of the plane in vain before what is found is taken for
/// the truth.
const TURNS: usize = 12;
/// So many steps show where a proposal is heading,
const FIRST_STEPS: usize = 2;
/// and so many whether it is any good.
const STEPS: usize = 20;
/// Two walks downhill that come so near to each other end in one place, mm.
const SAME: f64 = 1.0;
/// Moving their neighbours too will not make up for more than this much Σ(v/sd)².
const TO_CLOSE: f64 = 200.0;
/// How many folds are tried at a time.
const FOLDS: usize = 6;
/// From how many starts a site is put together afresh that makes no sense,
const STARTS: usize = 3;
/// and how many of the sites found from each are tried.
const SITES: usize = 4;

/// The parameters that make most sense of the readings, nearest to the rough positions.
#[must_use]
pub(super) fn settle(problem: &Problem) -> Vec<f64> {
    let ties = Ties::of(problem);
    let first = descend(problem, problem.start.clone(), None);
    if ties.marks.is_empty() {
        return first.x;
    }
    let search = Search {
        problem,
        ties: &ties,
    };
    let best = search.best(Arrangement::of_sketch(problem, &ties.marks, first));
    let x = right_way_up(problem, &ties.marks, best.descent.x);
    on_sketched_sides(problem, &ties, x)
}

struct Search<'a> {
    problem: &'a Problem,
    ties: &'a Ties,
}

impl Search<'_> {
    fn best(&self, mut best: Arrangement) -> Arrangement {
        if best.is_perfect() {
            return best;
        }
        if self.ties.marks.len() <= TOGETHER {
            best = self.afresh(best);
        }
        best = self.fold_over(best);
        if best.sense == Sense::None {
            best = self.lifted(best);
        }
        best
    }

    /// Puts the site together afresh; where the readings agree, only as far as they might as well
    /// agree on something else.
    fn afresh(&self, mut best: Arrangement) -> Arrangement {
        let Self { problem, ties, .. } = *self;
        let mut spent = Vec::new();
        for start in 0..STARTS {
            let enough = match best.sense {
                _ if best.is_plausible() => 1,
                Sense::OneSlip => 2,
                Sense::Agrees | Sense::None => STARTS,
            };
            if start >= enough || best.is_perfect() {
                break;
            }
            let Some(order) = order(problem, ties, &mut spent) else {
                break;
            };
            let proposals = if enough == 1 {
                let x = &best.descent.x;
                let away = departures(problem, ties, &order, x).into_iter();
                away.filter(|away| self.stays_away(away, x)).collect()
            } else {
                let mut proposals = grown(problem, ties, &order);
                proposals.truncate(SITES);
                proposals
            };
            for x in proposals {
                if let Some(better) = self.tried(x, &best) {
                    best = better;
                }
            }
        }
        best
    }

    /// Whether the marks that are elsewhere fit there about as well, and do not just come back, while
    /// the others stay put.
    fn stays_away(&self, away: &[f64], x: &[f64]) -> bool {
        let marks = &self.ties.marks;
        let elsewhere = |mark: &&At| apart(place(away, **mark), place(x, **mark)) > SAME;
        let moved: Vec<At> = marks.iter().filter(elsewhere).copied().collect();
        if 2 * moved.len() > marks.len() {
            return true;
        }
        let part = part(self.problem, x, &moved);
        let patience = Patience {
            steps: STEPS,
            enough: f64::INFINITY,
        };
        let settled = descend_within(&part, away.to_vec(), None, patience);
        let gap = settled.chi2 - part.chi2(x, None);
        gap < TO_CLOSE && !self.is_same(&settled.x, x)
    }

    /// Where a proposal settles, if that makes more sense.
    fn tried(&self, x: Vec<f64>, best: &Arrangement) -> Option<Arrangement> {
        let problem = self.problem;
        let walk = |x: Vec<f64>, steps: usize| {
            let enough = best.descent.chi2;
            descend_within(problem, x, None, Patience { steps, enough })
        };
        let heading = walk(x, FIRST_STEPS);
        if !best.is_too_good() && self.is_same(&heading.x, &best.descent.x) {
            return None;
        }
        let there = walk(heading.x, STEPS);
        if !best.is_too_good() && self.is_same(&there.x, &best.descent.x) {
            return None;
        }
        let found = Arrangement::new(problem, &self.ties.marks, there);
        found.beats(best).then(|| {
            let settled = descend(problem, found.descent.x, None);
            Arrangement::new(problem, &self.ties.marks, settled)
        })
    }

    /// Whether two arrangements are the same but for what is left of the way downhill.
    fn is_same(&self, a: &[f64], b: &[f64]) -> bool {
        let near = |mark: &At| apart(place(a, *mark), place(b, *mark)) < SAME;
        self.ties.marks.iter().all(near)
    }

    /// Folds single marks, and where the readings make no sense parts of the site, over the line
    /// through two others, as long as that makes more sense.
    fn fold_over(&self, mut best: Arrangement) -> Arrangement {
        let mut tries = 0;
        while !best.is_perfect() && tries < FOLDS {
            let better = self.folds(&best).into_iter().take(FOLDS).find_map(|x| {
                tries += 1;
                self.tried(x, &best)
            });
            match better {
                Some(better) => best = better,
                None => break,
            }
        }
        best
    }

    fn folds(&self, best: &Arrangement) -> Vec<Vec<f64>> {
        let Self { problem, ties, .. } = *self;
        let x = &best.descent.x;
        let marks = &ties.marks;
        let mut proposals: Vec<Vec<f64>> = mirrored_marks(problem, ties, x)
            .into_iter()
            .take(FOLDS)
            .filter_map(|(reading, moved)| {
                // On a larger site the neighbourhood is asked first.
                if marks.len() <= TOGETHER {
                    return Some(moved);
                }
                Region::around(problem, marks, reading).better(problem, x, moved)
            })
            .collect();
        let puzzling = best.sense == Sense::None || best.is_too_good();
        if marks.len() <= TOGETHER && puzzling {
            let parts = folded(problem, marks, x, f64::INFINITY);
            proposals.extend(parts.into_iter().take(FOLDS / 2));
        }
        proposals
    }

    /// Lets marks out of the plane, those around the worst readings first.
    fn lifted(&self, mut best: Arrangement) -> Arrangement {
        let Self { problem, ties, .. } = *self;
        let marks = &ties.marks;
        let mut vain = Vain::default();
        // Each part of a large site may take its turns.
        for turn in 0..TURNS + marks.len() / 4 {
            if best.sense < Sense::None || vain.turns == TURNS {
                break;
            }
            let Some(seed) = vain.seed(problem, &best.descent.x) else {
                break;
            };
            let region = Region::around(problem, marks, seed);
            let whole = region.marks.len() == marks.len();
            let proposal = if whole && turn.is_multiple_of(2) {
                Some(lift(problem, &problem.start, &region.marks, turn))
            } else {
                let x = &best.descent.x;
                let lifted = lift(problem, x, &region.marks, turn);
                region.better(problem, x, lifted)
            };
            match proposal.and_then(|x| self.tried(x, &best)) {
                Some(better) => {
                    best = better;
                    vain = Vain::default();
                }
                None => vain.again(problem, marks, seed),
            }
            if whole {
                best = self.fold_over(best);
            }
        }
        best
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

    fn again(&mut self, problem: &Problem, marks: &[At], seed: usize) {
        self.turns += 1;
        if marks.len() > TOGETHER && self.turns.is_multiple_of(STARTS) {
            self.tried.extend(problem.readings[seed].form.marks());
        }
    }
}

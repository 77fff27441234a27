//! From a rough sketch to the one arrangement of the marks that the readings speak for.
//!
//! Walking downhill from a rough sketch may end with a mark, or a part of the site, on the wrong
//! side of its neighbours: a valley of Σ(v/sd)² that is not the right one. So, at every size:
//!
//! 1. Walk downhill from the sketch. Where the readings fit there as well as in 95 of 100 jobs, and
//!    every mark has stayed on the side it is clearly drawn on, that is it: most jobs end here.
//! 2. Else put the site together afresh, mark by mark, from each of three tapes ([`super::grow`], a
//!    beam search), and walk downhill from the likeliest sites of each, until that has led to four new
//!    valleys (two of a large site), or twice as many walks have been taken, or all readings fit on the
//!    drawn sides. A site that could not beat what is found already is passed
//!    over, and a valley that stays flat above what chance explains is left: its bottom is gone to only
//!    if it is taken in the end.
//! 3. Of each valley found, ask whether all readings fit, or all but one ([`super::sense`]).
//! 4. Of mirror images that fit alike, take the one that is the way up of the sketch.
//!
//! Of what is found, the sketch decides first: an arrangement with every mark on the side it is
//! drawn on is taken if all its readings fit, else if all but one do. Only then comes one with a
//! mark on the other side ([`super::sides`]), again before one that makes no sense at all. Among
//! alike ones the least Σ(v/sd)² wins, with the distance from the sketch as one more reading. Where all
//! fit as drawn, and better than by chance with a mark on the other side, that is said.

use super::cofactors::Cofactors;
use super::descent::{Descent, Patience, descend, descend_within};
use super::fit::Fit;
use super::grow::grown;
use super::limit::{AS_GOOD, limit, usual};
use super::locus::apart;
use super::mark::{At, place};
use super::order::{Ties, order};
use super::problem::Prepared;
use super::sense::{Sense, sense};
use super::sides::{Crossed, Sides, crossed, right_way_up};
use super::worth::redundancy;

/// From how many tapes a site is put together afresh,
const SEEDS: usize = 3;
/// and how many new valleys are looked for from each: several sites may lead to one valley
/// (`a_side_that_fits_better_than_by_chance_is_said` of `tests/adjust_findings.rs`).
const VALLEYS: usize = 4;
/// Of a site with more unknowns only so many: each step takes long.
const LARGE: usize = 200;
const VALLEYS_OF_LARGE: usize = 2;
/// Sites no further apart than this share of their size are walked downhill from once.
const ALIKE: f64 = 5e-4;
/// Two walks downhill that come so near to each other end in one place, mm.
const SAME: f64 = 1.0;
/// A mark over a line by less than this share of the site's size might be drawn there by a careless
/// hand.
const DECIDED: f64 = 0.05;
/// How far a mark on the sketch may be out, one sd, as a share of the site's size.
const SKETCHED: f64 = 0.1;
/// Nobody draws better than this.
const DRAWN_WELL: f64 = 0.01;
/// −2 ln 0.01.
const ONE_IN_A_HUNDRED: f64 = 9.21;

/// Where the marks are, how sure that is, and on which sides they lie.
pub(super) struct Settled {
    pub x: Vec<f64>,
    pub cofactors: Cofactors,
    pub sides: Sides,
}

/// The parameters that the readings and the rough positions speak for.
#[must_use]
pub(super) fn settle(problem: &Prepared) -> Settled {
    let ties = Ties::of(problem);
    let start = problem.start.clone();
    if ties.marks.is_empty() {
        let x = descend(problem, start, None).x;
        return Settled {
            cofactors: Cofactors::at(problem, &x, None),
            x,
            sides: Sides::AsSketched,
        };
    }
    let checks = problem.readings.len() as i64 - problem.unknowns() as i64;
    let patience = Patience {
        enough: limit(checks),
        ..Patience::FULL
    };
    let first = descend_within(problem, start, None, patience);
    let search = Search {
        size: problem.size(),
        patience,
        problem,
        ties,
    };
    search.settle(first)
}

/// A valley, and what speaks for it.
struct Arrangement {
    x: Vec<f64>,
    cofactors: Cofactors,
    sense: Sense,
    crossed: Option<Crossed>,
    /// Whether the sketch says clearly that the marks do not lie so.
    contradicts: bool,
    chi2: f64,
    /// Σ(v/sd)² of what is not misread, and the distance from the sketch.
    cost: f64,
}

impl Arrangement {
    fn settled(self, sides: Sides) -> Settled {
        Settled {
            x: self.x,
            cofactors: self.cofactors,
            sides,
        }
    }

    /// Whether all readings fit, and every mark is on the side it is clearly drawn on.
    fn is_right(&self) -> bool {
        self.sense == Sense::Fits && !self.contradicts
    }

    /// What is better comes first.
    fn rank(&self) -> (bool, bool, Sense) {
        let sensible = self.sense != Sense::None;
        (!sensible, sensible && self.contradicts, self.sense)
    }

    fn beats(&self, other: &Self) -> bool {
        let by_cost = self.cost.total_cmp(&other.cost);
        self.rank().cmp(&other.rank()).then(by_cost).is_lt()
    }
}

/// Of the arrangements that count, the one that beats all others.
fn least(found: &[Arrangement], counts: impl Fn(&Arrangement) -> bool) -> Option<usize> {
    (0..found.len())
        .filter(|&at| counts(&found[at]))
        .reduce(|best, at| {
            if found[at].beats(&found[best]) {
                at
            } else {
                best
            }
        })
}

struct Search<'a> {
    problem: &'a Prepared,
    ties: Ties,
    size: f64,
    /// How long a valley is walked down that may not be the right one.
    patience: Patience,
}

impl Search<'_> {
    fn settle(&self, first: Descent) -> Settled {
        let first = self.judged(first);
        if first.is_right() && first.chi2 <= usual(redundancy(self.problem, &first.cofactors)) {
            return first.settled(Sides::AsSketched);
        }
        let mut found = self.grown_others(&first);
        found.push(first);
        let best = least(&found, |_| true).unwrap_or(0);
        let other = least(&found, |one| one.sense == Sense::Fits && one.contradicts);
        let (taken, sides) = self.decide(&found, best, other);
        self.walked_down(found.swap_remove(taken)).settled(sides)
    }

    /// The bottom of a valley that was only walked down until it was known for what it is.
    fn walked_down(&self, there: Arrangement) -> Arrangement {
        if there.sense == Sense::Fits {
            return there;
        }
        let x = descend(self.problem, there.x, None).x;
        Arrangement {
            cofactors: Cofactors::at(self.problem, &x, None),
            x,
            ..there
        }
    }

    /// The arrangement taken, where `best` is by what it makes of sketch and readings, and all the
    /// readings fit in `other`, against the sketch.
    fn decide(&self, found: &[Arrangement], best: usize, other: Option<usize>) -> (usize, Sides) {
        let crossing = |at: usize| found[at].crossed.map(|crossed| crossed.crossing);
        let taken = match other {
            Some(other)
                if found[best].sense == Sense::OneSlip
                    && self.is_drawn_roughly(&found[best].x, &found[other].x) =>
            {
                other
            }
            _ => best,
        };
        let sense = found[taken].sense;
        // Not by chance alone, though all readings fit as drawn.
        let is_better = |other: Option<usize>| {
            other.is_some_and(|other| found[other].chi2 < found[taken].chi2 - AS_GOOD)
        };
        let sides = match (crossing(taken), other.and_then(crossing)) {
            (Some(crossing), _) if found[taken].contradicts && sense != Sense::None => {
                Sides::OnlyOther(crossing)
            }
            (_, Some(crossing)) if sense == Sense::OneSlip || is_better(other) => {
                Sides::OrOther(crossing)
            }
            _ => Sides::AsSketched,
        };
        (taken, sides)
    }

    /// Whether the sketch is so rough all over that it speaks less for the sides that it shows than a
    /// misread reading, one in a hundred, speaks against them: −2 ln of the likelihood ratio, for marks
    /// drawn with one unknown sd.
    fn is_drawn_roughly(&self, as_drawn: &[f64], other: &[f64]) -> bool {
        let marks = self.ties.marks.len() as f64;
        let least = marks * (DRAWN_WELL / SKETCHED).powi(2);
        let [near, far] = [as_drawn, other].map(|x| self.off_sketch(x).max(least));
        2.0 * marks * (far / near).ln() < ONE_IN_A_HUNDRED
    }

    /// The site put together afresh from a few tapes, wherever that leads elsewhere.
    fn grown_others(&self, first: &Arrangement) -> Vec<Arrangement> {
        let Self { problem, ties, .. } = self;
        let mut others: Vec<Arrangement> = Vec::new();
        let mut spent = Vec::new();
        let is_large = problem.unknowns() > LARGE;
        let valleys = if is_large { VALLEYS_OF_LARGE } else { VALLEYS };
        for _ in 0..SEEDS {
            let Some(order) = order(problem, ties, &mut spent) else {
                break;
            };
            let (mut walked, mut fresh) = (0, 0);
            for site in grown(problem, ties, &order) {
                if walked == 2 * valleys || fresh == valleys {
                    break;
                }
                let is_known = |x: &[f64], within: f64| {
                    let mut known = [first].into_iter().chain(&others);
                    known.any(|one| self.apart(x, &one.x) < within)
                };
                if site.misread > self.of_interest(first, &others)
                    || is_known(&site.x, ALIKE * self.size)
                {
                    continue;
                }
                let there = descend_within(problem, site.x, None, self.patience);
                walked += 1;
                if is_known(&there.x, SAME) {
                    continue;
                }
                fresh += 1;
                others.push(self.judged(there));
                // Where all readings fit what is drawn, another start would only lead there again.
                if others.iter().any(Arrangement::is_right) {
                    return others;
                }
            }
        }
        others
    }

    /// How many readings may be far out in another site for it to be of any interest.
    fn of_interest(&self, first: &Arrangement, others: &[Arrangement]) -> usize {
        if first.sense != Sense::None && !first.contradicts {
            0
        } else if others.iter().any(|one| one.sense == Sense::Fits) {
            1
        } else {
            usize::MAX
        }
    }

    fn judged(&self, there: Descent) -> Arrangement {
        let Self {
            problem,
            ties,
            size,
            ..
        } = self;
        let x = right_way_up(problem, &ties.marks, there.x);
        let cofactors = Cofactors::at(problem, &x, None);
        let (sense, rest) = sense(problem, &x, &cofactors);
        let crossed = crossed(problem, ties, &x);
        Arrangement {
            sense,
            chi2: self.problem.chi2(&x, None),
            cost: rest + self.off_sketch(&x),
            contradicts: crossed.is_some_and(|crossed| crossed.by > DECIDED * size),
            crossed,
            cofactors,
            x,
        }
    }

    /// How far the marks are from the sketch, shifted and turned to fit, in sds squared.
    fn off_sketch(&self, x: &[f64]) -> f64 {
        let marks = &self.ties.marks;
        let start = &self.problem.start;
        let pairs = || {
            marks
                .iter()
                .map(|&mark| (place(start, mark), place(x, mark)))
        };
        let fit = Fit::of(pairs());
        let sd = SKETCHED * self.size;
        pairs()
            .map(|(a, b)| (apart(fit.of_point(a), b) / sd).powi(2))
            .sum()
    }

    /// The furthest that a mark of one arrangement is from where it is in the other, mm.
    fn apart(&self, a: &[f64], b: &[f64]) -> f64 {
        let far = |mark: &At| apart(place(a, *mark), place(b, *mark));
        self.ties.marks.iter().map(far).fold(0.0, f64::max)
    }
}

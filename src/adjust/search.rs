//! From a rough sketch to the one arrangement of the marks that the readings speak for.
//!
//! Walking downhill from a rough sketch may end with a mark, or a part of the site, on the wrong
//! side of its neighbours: a valley of Σ(v/sd)² that is not the right one. So, at every size:
//!
//! 1. Walk downhill from the sketch. Where the readings fit there, all together (chi² test), and every
//!    mark has stayed on the side it is clearly drawn on, that is it: most jobs end here.
//! 2. Else put the site together afresh, mark by mark, from each of three tapes ([`super::grow`], a
//!    beam search), and walk downhill from the four likeliest sites of each.
//! 3. Where no arrangement on the drawn sides makes sense yet, walk downhill from the sketch with
//!    each reading left out in turn: a bad slip bends the whole site, so that leaving it out may only
//!    be seen to help from there.
//!
//! Of what is found, the sketch decides first: an arrangement with every mark on the side it is
//! drawn on is taken if all its readings fit, else if all but one do. Only then comes one with a
//! mark on the other side ([`super::sides`]), again before one that makes no sense at all. Among
//! alike ones the least Σ(v/sd)² wins, with the distance from the sketch as one more reading.

use super::cofactors::Cofactors;
use super::descent::{Descent, descend};
use super::fit::Fit;
use super::grow::grown;
use super::limit::limit;
use super::locus::apart;
use super::mark::{At, place};
use super::order::{Ties, order};
use super::problem::Prepared;
use super::sense::{Sense, sense};
use super::sides::{Crossed, Sides, crossed, right_way_up};
use super::worth::redundancy;

/// From how many tapes a site is put together afresh,
const SEEDS: usize = 3;
/// and how many of the sites found from each are walked downhill from.
const SITES: usize = 4;
/// With more readings than this only the worst fitting are left out of the sketch in turn.
const TRY_ALL: usize = 60;
const WORST: usize = 8;
/// Sites no further apart than this share of their size are walked downhill from once: what
/// is put together afresh is not nearer.
const ALIKE: f64 = 2e-3;
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
    let first = descend(problem, problem.start.clone(), None);
    if ties.marks.is_empty() {
        return Settled {
            cofactors: Cofactors::at(problem, &first.x, None),
            x: first.x,
            sides: Sides::AsSketched,
        };
    }
    let search = Search {
        size: problem.size(),
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
}

impl Search<'_> {
    fn settle(&self, first: Descent) -> Settled {
        let first = self.judged(first);
        if first.is_right() {
            return first.settled(Sides::AsSketched);
        }
        let mut found = self.others(&first);
        found.push(first);
        let best = least(&found, |_| true).unwrap_or(0);
        let other = least(&found, |one| one.sense == Sense::Fits && one.contradicts);
        let (taken, sides) = self.decide(&found, best, other);
        found.swap_remove(taken).settled(sides)
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
        let sides = match (crossing(taken), other.and_then(crossing)) {
            (Some(crossing), _) if found[taken].contradicts && sense != Sense::None => {
                Sides::OnlyOther(crossing)
            }
            (_, Some(other)) if sense == Sense::OneSlip => Sides::OrOther(other),
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

    /// Whatever else than the first arrangement may be right.
    fn others(&self, first: &Arrangement) -> Vec<Arrangement> {
        let mut others = self.grown_others(first);
        let senseless = |one: &Arrangement| one.sense == Sense::None || one.contradicts;
        if senseless(first) && others.iter().all(senseless) {
            let checks = redundancy(self.problem, &first.cofactors) - 1;
            others.extend(self.with_one_left_out(limit(checks)));
        }
        others
    }

    /// The site put together afresh from a few tapes, wherever that leads elsewhere.
    fn grown_others(&self, first: &Arrangement) -> Vec<Arrangement> {
        let Self { problem, ties, .. } = self;
        // Beside a drawn arrangement with one slip only one without any is of interest.
        let flawless = first.sense == Sense::OneSlip && !first.contradicts;
        let mut others: Vec<Arrangement> = Vec::new();
        let mut spent = Vec::new();
        for _ in 0..SEEDS {
            let Some(order) = order(problem, ties, &mut spent) else {
                break;
            };
            for site in grown(problem, ties, &order).into_iter().take(SITES) {
                let is_known = |x: &[f64], within: f64| {
                    let mut known = [first].into_iter().chain(&others);
                    known.any(|one| self.apart(x, &one.x) < within)
                };
                if (flawless && site.misread > 0) || is_known(&site.x, ALIKE * self.size) {
                    continue;
                }
                let there = descend(problem, site.x, None);
                if !is_known(&there.x, SAME) {
                    others.push(self.judged(there));
                }
            }
            // Where all readings fit what is drawn, another start would only lead there again.
            if others.iter().any(Arrangement::is_right) {
                break;
            }
        }
        others
    }

    /// The valleys nearest to the sketch without one reading, where all the others agree.
    fn with_one_left_out(&self, limit: f64) -> Vec<Arrangement> {
        let problem = self.problem;
        let tried = if problem.readings.len() > TRY_ALL {
            WORST
        } else {
            TRY_ALL
        };
        let mut worst: Vec<usize> = (0..problem.readings.len()).collect();
        let misfit = |index: usize| problem.misfit(index, &problem.start).abs();
        worst.sort_by(|&a, &b| misfit(b).total_cmp(&misfit(a)));
        let bent = worst.into_iter().take(tried).filter_map(|index| {
            let rest = descend(problem, problem.start.clone(), Some(index));
            (rest.chi2 <= limit).then(|| {
                let whole = self.judged(descend(problem, rest.x, None));
                Arrangement {
                    sense: whole.sense.min(Sense::OneSlip),
                    cost: rest.chi2 + self.off_sketch(&whole.x),
                    ..whole
                }
            })
        });
        bent.collect()
    }

    fn judged(&self, there: Descent) -> Arrangement {
        let Self {
            problem,
            ties,
            size,
        } = self;
        let x = right_way_up(problem, &ties.marks, there.x);
        let cofactors = Cofactors::at(problem, &x, None);
        let (sense, rest) = sense(problem, &x, &cofactors);
        let crossed = crossed(problem, ties, &x);
        Arrangement {
            sense,
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

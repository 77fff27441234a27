//! Putting a site together afresh, mark by mark, as with a pair of compasses.
//!
//! Two marks with a tape between them start it. Each next mark is the one that most readings tie
//! to those already down; it goes where two of these readings cross. Two crossings mostly remain,
//! so the likeliest few sites are carried on side by side (beam search) until later readings, or
//! failing these the sketch, tell them apart:
//!
//! ```text
//!        ·  c?                c        d        The tape from d tells which c it was.
//!   A────────B      ──►    A────────B ·
//!        ·  c?
//! ```

use super::equation::Equation;
use super::fit::{Sums, in_frame};
use super::locus::{Locus, apart, loci, unit};
use super::mark::{At, place, put};
use super::order::{Order, Ties};
use super::problem::Prepared;

/// So many marks are put down side by side: sites of few marks are quick, so more of those,
const BEAM_MARKS: usize = 480;
/// but of any so many at most
const WIDEST: usize = 40;
/// and so many at least,
const NARROWEST: usize = 12;
/// each with so many places for the next mark.
const PLACES: usize = 4;
/// More readings than this tell nothing more of where a mark may lie.
const MOST_LOCI: usize = 5;
/// What the places of marks already down may be wrong by, as a share of the site's size.
const GIVE: f64 = 1e-3;
/// The same for an angle, degrees.
const GIVE_DEGREES: f64 = 0.3;
/// Places no further apart than this share of the site's size are one, for the readings to settle.
const ONE_PLACE: f64 = 1.2 * GIVE;
/// A reading that misses by more, in sds squared, may be misread and says no more against a place.
const MISREAD: f64 = 40.0;
/// A site that costs so much more than the likeliest is given up.
const HOPELESS: f64 = 100.0;
/// How far a sketch may be wrong, as a share of the site's size.
const SKETCHED: f64 = 0.15;

/// A site half put together.
#[derive(Clone)]
struct Half {
    x: Vec<f64>,
    cost: f64,
    /// Readings that miss by so much that they say no more.
    misread: usize,
    /// The sketch onto the marks already down.
    fit: Sums,
}

/// A site put together: every parameter, and how many readings are far out in it.
pub(super) struct Grown {
    pub x: Vec<f64>,
    pub misread: usize,
}

/// Sites put together in the given order, the likeliest first.
#[must_use]
pub(super) fn grown(problem: &Prepared, ties: &Ties, order: &Order) -> Vec<Grown> {
    let mut start = problem.start.clone();
    if let (&[a, b, ..], Some(apart)) = (&order.marks[..], order.apart) {
        let (a, b) = (ties.marks[a], ties.marks[b]);
        let [px, py] = place(&start, a);
        let [ux, uy] = unit([px, py], place(&start, b)).unwrap_or([1.0, 0.0]);
        put(&mut start, b, [px + apart * ux, py + apart * uy]);
    }
    let size = problem.size();
    let site = Site {
        problem,
        ties,
        size,
    };
    site.carried_on(order, start)
}

struct Site<'a> {
    problem: &'a Prepared,
    ties: &'a Ties,
    size: f64,
}

/// A place for the next mark of one of the sites.
struct Step {
    cost: f64,
    misread: usize,
    site: usize,
    to: [f64; 2],
}

impl Site<'_> {
    fn carried_on(&self, order: &Order, start: Vec<f64>) -> Vec<Grown> {
        let Self { problem, ties, .. } = *self;
        let mut down = vec![false; ties.marks.len()];
        let mut fit = Sums::default();
        for &mark in &order.marks[..order.given] {
            let at = ties.marks[mark];
            fit.add(place(&problem.start, at), place(&start, at));
            down[mark] = true;
        }
        let mut beam = vec![Half {
            x: start,
            cost: 0.0,
            misread: 0,
            fit,
        }];
        for &mark in &order.marks[order.given..] {
            let telling: Vec<usize> = ties.telling(mark, &down).collect();
            beam = self.with_one_more(beam, ties.marks[mark], &telling);
            down[mark] = true;
        }
        beam.into_iter()
            .filter_map(|Half { x, misread, .. }| {
                let x = in_frame(problem, &ties.marks, x)?;
                Some(Grown { x, misread })
            })
            .collect()
    }

    /// The likeliest sites with one more mark down.
    fn with_one_more(&self, mut beam: Vec<Half>, at: At, telling: &[usize]) -> Vec<Half> {
        let mut steps: Vec<Step> = Vec::new();
        let mut least = f64::INFINITY;
        for (site, half) in beam.iter_mut().enumerate() {
            let sketched = half.fit.fit().of_point(place(&self.problem.start, at));
            let here = place(&half.x, at);
            let mut found = Vec::new();
            for to in self.crossings(half, at, telling, sketched) {
                put(&mut half.x, at, to);
                let step = self.step(half, site, to, sketched, telling, least + HOPELESS);
                if step.cost <= least + HOPELESS {
                    least = least.min(step.cost);
                    found.push(step);
                }
            }
            put(&mut half.x, at, here);
            steps.extend(self.distinct(found));
        }
        steps.retain(|step| step.cost <= least + HOPELESS);
        steps.sort_by(|a, b| a.cost.total_cmp(&b.cost));
        let marks = self.ties.marks.len().max(1);
        steps.truncate((BEAM_MARKS / marks).clamp(NARROWEST, WIDEST));
        let sketched = place(&self.problem.start, at);
        let carry_on = |step: &Step, mut half: Half| {
            put(&mut half.x, at, step.to);
            half.fit.add(sketched, step.to);
            (half.cost, half.misread) = (step.cost, step.misread);
            half
        };
        if let ([step], 1) = (&steps[..], beam.len()) {
            return beam
                .pop()
                .map(|half| carry_on(step, half))
                .into_iter()
                .collect();
        }
        steps
            .iter()
            .map(|step| carry_on(step, beam[step.site].clone()))
            .collect()
    }

    /// The likeliest few of the places found that are apart from each other.
    fn distinct(&self, mut found: Vec<Step>) -> Vec<Step> {
        found.sort_by(|a, b| a.cost.total_cmp(&b.cost));
        let mut kept: Vec<Step> = Vec::with_capacity(PLACES);
        for step in found {
            if kept.len() == PLACES {
                break;
            }
            let away = |known: &Step| apart(known.to, step.to) > ONE_PLACE * self.size;
            if kept.iter().all(away) {
                kept.push(step);
            }
        }
        kept
    }

    /// What the site costs with the mark put there, or something over `most`.
    fn step(
        &self,
        half: &Half,
        site: usize,
        to: [f64; 2],
        sketched: [f64; 2],
        telling: &[usize],
        most: f64,
    ) -> Step {
        let off = apart(to, sketched) / (SKETCHED * self.size);
        let (mut cost, mut misread) = (half.cost + off * off, half.misread);
        for &index in telling {
            if cost > most {
                break;
            }
            let miss = self.miss(index, &half.x);
            cost += miss;
            misread += usize::from(miss >= MISREAD);
        }
        Step {
            cost,
            misread,
            site,
            to,
        }
    }

    /// Where the loci of a mark cross; where nothing crosses, the places on them nearest to the
    /// sketch.
    fn crossings(
        &self,
        half: &Half,
        at: At,
        telling: &[usize],
        sketched: [f64; 2],
    ) -> Vec<[f64; 2]> {
        let mut all: Vec<(usize, Locus)> = Vec::with_capacity(2 * MOST_LOCI);
        for &index in telling.iter().take(MOST_LOCI) {
            let its = loci(&self.problem.readings[index], at, &half.x);
            all.extend(its.map(|locus| (index, locus)));
        }
        let mut places = Vec::with_capacity(all.len() * all.len());
        for (n, (reading, one)) in all.iter().enumerate() {
            for (other, two) in &all[n + 1..] {
                if other != reading {
                    places.extend(one.crossings(*two));
                }
            }
        }
        if places.is_empty() {
            places.extend(all.iter().map(|(_, locus)| locus.nearest(sketched)));
            places.push(sketched);
        }
        places
    }

    /// (v/sd)², allowing for marks that are not quite where they should be.
    fn miss(&self, index: usize, x: &[f64]) -> f64 {
        let reading = &self.problem.readings[index];
        let give = match reading.equation {
            Equation::Angle { .. } => GIVE_DEGREES,
            _ => GIVE * self.size,
        };
        let miss = reading.equation.value(x) - reading.value;
        (miss * miss / (reading.sd * reading.sd + give * give)).min(MISREAD)
    }
}

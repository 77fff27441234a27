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

use super::arrangement::size;
use super::equation::{At, Equation, place};
use super::fit::{Sums, in_frame};
use super::locus::{Locus, apart, loci, unit};
use super::mirror::put;
use super::order::{Order, Ties};
use super::problem::Problem;
use super::reading::Form;

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
/// A site that costs so much more than the likeliest is given up,
const HOPELESS: f64 = 100.0;
/// or so much more than one in which nothing is misread.
const UNLIKELY: f64 = 20.0;
/// How far a sketch may be wrong, as a share of the site's size.
const SKETCHED: f64 = 0.15;

/// A site half put together.
#[derive(Clone)]
struct Half {
    x: Vec<f64>,
    cost: f64,
    /// The sketch onto the marks already down.
    fit: Sums,
    /// Whether it is still the arrangement that is already known.
    known: bool,
}

/// Sites put together in the given order, the likeliest first, each as all parameters.
#[must_use]
pub(super) fn grown(problem: &Problem, ties: &Ties, order: &Order) -> Vec<Vec<f64>> {
    let mut start = problem.start.clone();
    if let (&[a, b, ..], Some(apart)) = (&order.marks[..], order.apart) {
        let (a, b) = (ties.marks[a], ties.marks[b]);
        let [px, py] = place(&start, a);
        let [ux, uy] = unit([px, py], place(&start, b)).unwrap_or([1.0, 0.0]);
        put(&mut start, b, [px + apart * ux, py + apart * uy]);
    }
    Site::new(problem, ties, false).carried_on(order, start)
}

/// Sites that fit about as well as the arrangement `x` does and differ from it in more than the
/// readings will settle. The mirror image of the whole is not among them.
#[must_use]
pub(super) fn departures(
    problem: &Problem,
    ties: &Ties,
    order: &Order,
    x: &[f64],
) -> Vec<Vec<f64>> {
    Site::new(problem, ties, true).carried_on(order, x.to_vec())
}

struct Site<'a> {
    problem: &'a Problem,
    ties: &'a Ties,
    size: f64,
    hopeless: f64,
    /// Whether it starts from an arrangement that is already known.
    from_known: bool,
}

/// A place for the next mark of one of the sites.
struct Step {
    cost: f64,
    site: usize,
    to: [f64; 2],
    known: bool,
}

impl<'a> Site<'a> {
    fn new(problem: &'a Problem, ties: &'a Ties, from_known: bool) -> Self {
        let size = size(problem);
        Self {
            problem,
            ties,
            size,
            hopeless: if from_known { UNLIKELY } else { HOPELESS },
            from_known,
        }
    }

    fn carried_on(&self, order: &Order, start: Vec<f64>) -> Vec<Vec<f64>> {
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
            fit,
            known: self.from_known,
        }];
        for &mark in &order.marks[order.given..] {
            let telling: Vec<usize> = ties.telling(mark, &down).collect();
            let first = order.apart.is_some() && order.marks.get(order.given) == Some(&mark);
            beam = self.with_one_more(beam, ties.marks[mark], &telling, first);
            down[mark] = true;
        }
        beam.into_iter()
            .filter(|half| !half.known)
            .filter_map(|half| in_frame(problem, &ties.marks, half.x))
            .collect()
    }

    /// The likeliest sites with one more mark down.
    fn with_one_more(
        &self,
        mut beam: Vec<Half>,
        at: At,
        telling: &[usize],
        first: bool,
    ) -> Vec<Half> {
        let mut steps: Vec<Step> = Vec::new();
        let mut least = f64::INFINITY;
        for (site, half) in beam.iter_mut().enumerate() {
            for (cost, to, known) in self.places(half, at, telling, first, least + self.hopeless) {
                least = least.min(cost);
                steps.push(Step {
                    cost,
                    site,
                    to,
                    known,
                });
            }
        }
        steps.retain(|step| step.cost <= least + self.hopeless);
        steps.sort_by(|a, b| a.cost.total_cmp(&b.cost));
        let marks = self.ties.marks.len().max(1);
        steps.truncate((BEAM_MARKS / marks).clamp(NARROWEST, WIDEST));
        let sketched = place(&self.problem.start, at);
        let carry_on = |step: Step, mut half: Half| {
            put(&mut half.x, at, step.to);
            half.fit.add(sketched, step.to);
            Half {
                cost: step.cost,
                known: step.known,
                ..half
            }
        };
        if let (1, &[_]) = (steps.len(), &beam[..]) {
            return steps
                .pop()
                .zip(beam.pop())
                .map(|(step, half)| carry_on(step, half))
                .into_iter()
                .collect();
        }
        steps
            .into_iter()
            .map(|step| {
                let half = beam[step.site].clone();
                carry_on(step, half)
            })
            .collect()
    }

    /// The likely places for one more mark, each with what the site costs with it and whether it is
    /// where the known arrangement has it.
    fn places(
        &self,
        half: &mut Half,
        at: At,
        telling: &[usize],
        first: bool,
        most: f64,
    ) -> Vec<(f64, [f64; 2], bool)> {
        let here = place(&half.x, at);
        let sketched = half.fit.fit().of_point(place(&self.problem.start, at));
        let mut kept: Vec<(f64, [f64; 2], bool)> = Vec::with_capacity(PLACES);
        let mut most = most;
        if self.from_known {
            let cost = self.cost(half, at, here, sketched, telling, most);
            if cost <= most || half.known {
                most = most.min(cost + self.hopeless);
                kept.push((cost, here, half.known));
            }
            if first {
                return kept;
            }
        }
        let one_place = ONE_PLACE * self.size;
        let mut found: Vec<(f64, [f64; 2])> = Vec::new();
        for to in self.crossings(half, at, telling, sketched) {
            if self.from_known && apart(to, here) <= one_place {
                continue;
            }
            let cost = self.cost(half, at, to, sketched, telling, most);
            if cost <= most && cost.is_finite() {
                most = most.min(cost + self.hopeless);
                found.push((cost, to));
            }
        }
        put(&mut half.x, at, here);
        found.sort_by(|a, b| a.0.total_cmp(&b.0));
        for (cost, to) in found {
            if kept.len() == PLACES {
                break;
            }
            if kept
                .iter()
                .all(|(_, known, _)| apart(*known, to) > one_place)
            {
                kept.push((cost, to, false));
            }
        }
        kept
    }

    /// What the site costs with the mark put there, or something over `most`.
    fn cost(
        &self,
        half: &mut Half,
        at: At,
        to: [f64; 2],
        sketched: [f64; 2],
        telling: &[usize],
        most: f64,
    ) -> f64 {
        let off = apart(to, sketched) / (SKETCHED * self.size);
        let mut cost = half.cost + off * off;
        put(&mut half.x, at, to);
        for &index in telling {
            if cost > most {
                break;
            }
            cost += self.miss(index, &half.x);
        }
        cost
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
        if places.is_empty() && !self.from_known {
            places.extend(all.iter().map(|(_, locus)| locus.nearest(sketched)));
            places.push(sketched);
        }
        places
    }

    /// (v/sd)², allowing for marks that are not quite where they should be.
    fn miss(&self, index: usize, x: &[f64]) -> f64 {
        let reading = &self.problem.readings[index];
        let give = match reading.form {
            Form::Plane(Equation::Angle { .. }) => GIVE_DEGREES,
            _ => GIVE * self.size,
        };
        let miss = reading.form.value(x) - reading.value;
        (miss * miss / (reading.sd * reading.sd + give * give)).min(MISREAD)
    }
}

//! Which tape to take next?

use super::adjustment::{Adjustment, Fixity, pm};
use super::cofactors::Cofactors;
use super::equation::Equation;
use super::mark::{At, Param};
use super::problem::Prepared;
use super::sharpened::{Bound, Sharpened, fixed, row};
use super::suspects::Suspicion;
use super::system::Observation;

/// The tape most worth taking next.
#[derive(Clone, Debug, PartialEq)]
pub struct Advice {
    /// One end: a place among the marks given.
    pub from: usize,
    /// The other end.
    pub to: usize,
    /// Largest ± of a mark now, mm; none while marks are loose.
    pub before: Option<f64>,
    /// Largest ± of a mark (that is not loose) with the new tape, mm.
    pub after: f64,
    /// Marks that are loose now and are not with the new tape, by their places.
    pub settles: Vec<usize>,
}

/// No tape is longer, mm.
const LONGEST: f64 = 30_000.0;
/// A tape that does not bring the largest ± down to this share is not worth the walk.
const WORTH: f64 = 0.9;
/// Suspects whose predictions are so many sds apart are told apart; further is no better.
const TOLD_APART: f64 = 10.0;
/// So many of the likeliest tapes to fix loose marks are worked out in full.
const SHORTLIST: usize = 32;

/// The tape between two of `marks`, not yet taped and under 30 m, that
/// - best separates the suspects, if `suspicion` has several: their predictions of it differ most, in
///   sds of the tape;
/// - else fixes most loose marks, if any are loose;
/// - else brings the largest ± of a mark down most, if by a tenth or more.
///
/// `sd` is the standard deviation of a tape of a given length, both mm; no tape goes between two marks
/// (by their places) that are `hidden` from each other.
#[must_use]
pub fn advise(
    adjustment: &Adjustment,
    suspicion: Option<&Suspicion>,
    marks: &[At],
    sd: impl Fn(f64) -> f64,
    hidden: impl Fn(usize, usize) -> bool,
) -> Option<Advice> {
    let mut tapes = candidates(adjustment, marks, sd);
    tapes.retain(|tape| !hidden(tape.from, tape.to));
    let several = suspicion.filter(|suspicion| suspicion.suspects.len() > 1);
    let telling = several.and_then(|several| separating(adjustment, several, marks, &tapes));
    match (telling, adjustment.status, several) {
        (Some(telling), ..) => Some(telling),
        (None, Fixity::Loose, _) => fixing(adjustment, marks, &tapes),
        (None, Fixity::Fixed, None) => sharpening(adjustment, marks, &tapes),
        (None, Fixity::Fixed, Some(_)) => None,
    }
}

/// A tape that might be taken.
#[derive(Clone, Copy)]
struct Tape {
    from: usize,
    to: usize,
    length: f64,
    reading: Observation,
}

fn candidates(adjustment: &Adjustment, marks: &[At], sd: impl Fn(f64) -> f64) -> Vec<Tape> {
    let mut taped: Vec<[At; 2]> = adjustment
        .problem
        .readings
        .iter()
        .filter_map(|reading| match reading.equation {
            Equation::Distance { from, to } => Some(ordered(from, to)),
            _ => None,
        })
        .collect();
    taped.sort_unstable();
    let mut tapes = Vec::new();
    for (from, &a) in marks.iter().enumerate() {
        for (to, &b) in marks.iter().enumerate().skip(from + 1) {
            let equation = Equation::Distance { from: a, to: b };
            let length = equation.value(&adjustment.x);
            let new = a != b && taped.binary_search(&ordered(a, b)).is_err();
            if new && length > 0.0 && length < LONGEST {
                let reading = Observation {
                    equation,
                    value: length,
                    sd: sd(length),
                };
                tapes.push(Tape {
                    from,
                    to,
                    length,
                    reading,
                });
            }
        }
    }
    tapes.retain(|tape| tape.reading.sd > 0.0 && tape.reading.sd.is_finite());
    tapes
}

fn ordered(a: At, b: At) -> [At; 2] {
    [a.min(b), a.max(b)]
}

impl Tape {
    fn advice(&self, before: Option<f64>, after: f64) -> Advice {
        Advice {
            from: self.from,
            to: self.to,
            before,
            after,
            settles: Vec::new(),
        }
    }
}

fn largest_pm(adjustment: &Adjustment, marks: &[At]) -> f64 {
    let pms = fixed(adjustment, marks).map(|&mark| adjustment.mark_pm(mark));
    pms.fold(0.0, f64::max)
}

fn slots(problem: &Prepared, mark: At) -> impl Iterator<Item = usize> {
    [problem.slot(mark.x.0), problem.slot(mark.y.0)]
        .into_iter()
        .flatten()
}

fn fixing(adjustment: &Adjustment, marks: &[At], tapes: &[Tape]) -> Option<Advice> {
    let (problem, null) = (&adjustment.problem, &adjustment.cofactors.null);
    let mut ranked: Vec<(usize, f64, &Tape)> = tapes
        .iter()
        .filter_map(|tape| {
            let along = null.along(row(problem, &adjustment.x, &tape.reading).into_iter());
            let stops = along.norm();
            // A tape square to every movement stops none.
            (stops > 1e-3).then(|| {
                let moves = |mark: &&At| {
                    slots(problem, **mark).any(|slot| null.moves_despite(slot, &along))
                };
                (marks.iter().filter(moves).count(), stops, tape)
            })
        })
        .collect();
    // Fewest left loose; then what meets the movement squarest; then the shortest.
    ranked.sort_by(|a, b| {
        let squarest = b.1.total_cmp(&a.1);
        a.0.cmp(&b.0)
            .then(squarest)
            .then(a.2.length.total_cmp(&b.2.length))
    });
    let fewest = ranked.first()?.0;
    ranked
        .into_iter()
        .take_while(|(loose, ..)| *loose == fewest)
        .take(SHORTLIST)
        .map(|(_, _, tape)| (largest_pm_with(adjustment, marks, tape), tape))
        .min_by(|a, b| a.0.total_cmp(&b.0))
        .map(|(after, tape)| Advice {
            settles: settled(adjustment, marks, tape),
            ..tape.advice(None, after)
        })
}

/// Marks that move now and stand still once a tape stops what it meets.
fn settled(adjustment: &Adjustment, marks: &[At], tape: &Tape) -> Vec<usize> {
    let (problem, null) = (&adjustment.problem, &adjustment.cofactors.null);
    let along = null.along(row(problem, &adjustment.x, &tape.reading).into_iter());
    let mut places = 0..marks.len();
    let settled = |&at: &usize| {
        let moved = slots(problem, marks[at]).any(|slot| null.moves(slot));
        moved && !slots(problem, marks[at]).any(|slot| null.moves_despite(slot, &along))
    };
    places.by_ref().filter(settled).collect()
}

/// Largest ± of the marks that are not loose once a tape that stops some movement is taken.
fn largest_pm_with(adjustment: &Adjustment, marks: &[At], tape: &Tape) -> f64 {
    let old = &adjustment.problem;
    let held: Vec<bool> = (0..old.start.len())
        .map(|param| old.slot(param).is_none())
        .collect();
    let readings = [&old.readings[..], &[tape.reading]].concat();
    let problem = Prepared::new(&adjustment.x, &held, &readings);
    let cofactors = Cofactors::at(&problem, &adjustment.x, None);
    let q = |a: Param, b: Param| match (problem.slot(a.0), problem.slot(b.0)) {
        (Some(a), Some(b)) => cofactors.covariance(a, b),
        _ => 0.0,
    };
    marks
        .iter()
        .filter(|&&mark| !slots(&problem, mark).any(|slot| cofactors.null.moves(slot)))
        .map(|mark| pm([q(mark.x, mark.x), q(mark.x, mark.y), q(mark.y, mark.y)]))
        .fold(0.0, f64::max)
}

fn separating(
    adjustment: &Adjustment,
    suspicion: &Suspicion,
    marks: &[At],
    tapes: &[Tape],
) -> Option<Advice> {
    let apart = |tape: &Tape| -> f64 {
        let predictions: Vec<f64> = suspicion
            .suspects
            .iter()
            .map(|suspect| tape.reading.equation.value(&suspect.x) / tape.reading.sd)
            .collect();
        let mut sum = 0.0;
        for (at, a) in predictions.iter().enumerate() {
            for b in &predictions[at + 1..] {
                sum += (a - b).abs().min(TOLD_APART);
            }
        }
        sum
    };
    // A mark that can move, as it is or without a suspect, is nowhere to tape to.
    let moves = |mark: usize| {
        let params = [marks[mark].x, marks[mark].y];
        fixed(adjustment, &[marks[mark]]).next().is_none()
            || suspicion.suspects.iter().any(|one| one.loosens(params))
    };
    let (apart, tape) = tapes
        .iter()
        .filter(|tape| !moves(tape.from) && !moves(tape.to))
        .map(|tape| (apart(tape), tape))
        .max_by(|a, b| a.0.total_cmp(&b.0).then(b.1.length.total_cmp(&a.1.length)))?;
    // Less than one sd would only add to the muddle.
    (apart > 1.0).then(|| {
        let after = Sharpened::new(adjustment, &tape.reading).largest_pm(marks);
        tape.advice(Some(largest_pm(adjustment, marks)), after)
    })
}

fn sharpening(adjustment: &Adjustment, marks: &[At], tapes: &[Tape]) -> Option<Advice> {
    let worst = *marks
        .iter()
        .max_by(|a, b| adjustment.mark_pm(**a).total_cmp(&adjustment.mark_pm(**b)))?;
    let before = adjustment.mark_pm(worst);
    let bound = Bound::new(adjustment, worst);
    let mut ranked: Vec<(f64, &Tape)> = tapes
        .iter()
        .map(|tape| (bound.of(adjustment, &tape.reading), tape))
        .filter(|(least, _)| *least <= WORTH * before)
        .collect();
    ranked.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut best: Option<(f64, &Tape)> = None;
    for (least, tape) in ranked {
        if best.is_some_and(|(after, _)| least >= after) {
            break;
        }
        let after = Sharpened::new(adjustment, &tape.reading).largest_pm(marks);
        if after <= WORTH * before && best.is_none_or(|(least, _)| after < least) {
            best = Some((after, tape));
        }
    }
    best.map(|(after, tape)| tape.advice(Some(before), after))
}

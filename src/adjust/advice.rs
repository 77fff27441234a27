//! Which tape to take next?

use super::adjustment::{Adjustment, Cofactors, Status, pm};
use super::equation::{At, Equation, Param};
use super::problem::Problem;
use super::reading::{Form, Reading};
use super::suspects::Suspicion;

/// The tape most worth taking next.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Advice {
    /// One end: a place among the marks given.
    pub from: usize,
    /// The other end.
    pub to: usize,
    /// Largest ± of a mark now, mm; none while marks are loose.
    pub before: Option<f64>,
    /// Largest ± of a mark (that is not loose) with the new tape, mm.
    pub after: f64,
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
/// - fixes most loose marks, if any are loose;
/// - else best separates the suspects, if `suspicion` has several: their predictions of it differ
///   most, in sds of the tape;
/// - else brings the largest ± of a mark down most, if by a tenth or more.
///
/// `sd` is the standard deviation of a tape of a given length, both mm.
#[must_use]
pub fn advise(
    adjustment: &Adjustment,
    suspicion: Option<&Suspicion>,
    marks: &[At],
    sd: impl Fn(f64) -> f64,
) -> Option<Advice> {
    let tapes = candidates(adjustment, marks, sd);
    let several = suspicion.filter(|suspicion| suspicion.suspects.len() > 1);
    match (adjustment.status, several) {
        (Status::Loose, _) => fixing(adjustment, marks, &tapes),
        (Status::Fixed, Some(suspicion)) => separating(adjustment, suspicion, marks, &tapes),
        (Status::Fixed, None) => sharpening(adjustment, marks, &tapes),
    }
}

/// A tape that might be taken.
#[derive(Clone, Copy)]
struct Tape {
    from: usize,
    to: usize,
    length: f64,
    reading: Reading,
}

fn candidates(adjustment: &Adjustment, marks: &[At], sd: impl Fn(f64) -> f64) -> Vec<Tape> {
    let mut taped: Vec<[At; 2]> = adjustment
        .problem
        .readings
        .iter()
        .filter_map(|reading| match reading.form {
            Form::Plane(Equation::Distance { from, to }) => Some(ordered(from, to)),
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
                let reading = Reading {
                    form: Form::Plane(equation),
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
    /// The row of A for it, by slot.
    fn row(&self, problem: &Problem, x: &[f64]) -> Vec<(usize, f64)> {
        problem.row(&self.reading.form.linear(x)).collect()
    }

    fn advice(&self, before: Option<f64>, after: f64) -> Advice {
        Advice {
            from: self.from,
            to: self.to,
            before,
            after,
        }
    }
}

fn largest_pm(adjustment: &Adjustment, marks: &[At]) -> f64 {
    let pms = marks.iter().map(|&mark| adjustment.mark_pm(mark));
    pms.fold(0.0, f64::max)
}

fn slots(problem: &Problem, mark: At) -> impl Iterator<Item = usize> {
    [problem.slot(mark.x.0), problem.slot(mark.y.0)]
        .into_iter()
        .flatten()
}

fn fixing(adjustment: &Adjustment, marks: &[At], tapes: &[Tape]) -> Option<Advice> {
    let (problem, null) = (&adjustment.problem, &adjustment.cofactors.null);
    let mut ranked: Vec<(usize, f64, &Tape)> = tapes
        .iter()
        .filter_map(|tape| {
            let along = null.along(tape.row(problem, &adjustment.x).into_iter());
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
        .map(|(after, tape)| tape.advice(None, after))
}

/// Largest ± of the marks that are not loose once a tape that stops some movement is taken.
fn largest_pm_with(adjustment: &Adjustment, marks: &[At], tape: &Tape) -> f64 {
    let old = &adjustment.problem;
    let held: Vec<bool> = (0..old.start.len())
        .map(|param| old.slot(param).is_none())
        .collect();
    let readings = old.readings.iter().copied().chain([tape.reading]).collect();
    let problem = Problem::new(&adjustment.x, &held, readings);
    let cofactors = Cofactors::at(&problem, &adjustment.x, None);
    let q = |a: Param, b: Param| match (problem.slot(a.0), problem.slot(b.0)) {
        (Some(a), Some(b)) => cofactors.covariance(&problem, a, b),
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
            .map(|suspect| tape.reading.form.value(&suspect.x) / tape.reading.sd)
            .collect();
        let mut sum = 0.0;
        for (at, a) in predictions.iter().enumerate() {
            for b in &predictions[at + 1..] {
                sum += (a - b).abs().min(TOLD_APART);
            }
        }
        sum
    };
    let (apart, tape) = tapes
        .iter()
        .map(|tape| (apart(tape), tape))
        .max_by(|a, b| a.0.total_cmp(&b.0).then(b.1.length.total_cmp(&a.1.length)))?;
    // Less than one sd would only add to the muddle.
    (apart > 1.0).then(|| {
        let after = Sharpened::new(adjustment, tape).largest_pm(marks);
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
        .map(|tape| (bound.of(adjustment, tape), tape))
        .filter(|(least, _)| *least <= WORTH * before)
        .collect();
    ranked.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut best: Option<(f64, &Tape)> = None;
    for (least, tape) in ranked {
        if best.is_some_and(|(after, _)| least >= after) {
            break;
        }
        let after = Sharpened::new(adjustment, tape).largest_pm(marks);
        if after <= WORTH * before && best.is_none_or(|(least, _)| after < least) {
            best = Some((after, tape));
        }
    }
    best.map(|(after, tape)| tape.advice(Some(before), after))
}

/// Q with one more tape: Q − q qᵀ/(sd² + aQaᵀ), q = Q aᵀ (Sherman and Morrison 1950).
struct Sharpened<'a> {
    adjustment: &'a Adjustment,
    q: Vec<f64>,
    variance: f64,
}

impl<'a> Sharpened<'a> {
    fn new(adjustment: &'a Adjustment, tape: &Tape) -> Self {
        let problem = &adjustment.problem;
        let row = tape.row(problem, &adjustment.x);
        let q = adjustment.cofactors.column(problem, &row);
        let of_tape: f64 = row.iter().map(|&(slot, slope)| slope * q[slot]).sum();
        Self {
            adjustment,
            q,
            variance: tape.reading.sd * tape.reading.sd + of_tape,
        }
    }

    fn largest_pm(&self, marks: &[At]) -> f64 {
        let q = |param: Param| {
            self.adjustment
                .problem
                .slot(param.0)
                .map_or(0.0, |slot| self.q[slot])
        };
        let covariance =
            |a: Param, b: Param| self.adjustment.covariance(a, b) - q(a) * q(b) / self.variance;
        marks
            .iter()
            .map(|&At { x, y }| pm([covariance(x, x), covariance(x, y), covariance(y, y)]))
            .fold(0.0, f64::max)
    }
}

/// The least that a tape can leave of the ± of one mark, found without solving for the tape:
/// aQaᵀ ≥ (a·q)²/Q_mm for either coordinate m of the mark (Cauchy and Schwarz).
struct Bound {
    block: [f64; 3],
    columns: [Vec<f64>; 2],
}

impl Bound {
    fn new(adjustment: &Adjustment, mark: At) -> Self {
        let problem = &adjustment.problem;
        let column = |param: Param| {
            let unit: Vec<(usize, f64)> = problem
                .slot(param.0)
                .map(|slot| (slot, 1.0))
                .into_iter()
                .collect();
            adjustment.cofactors.column(problem, &unit)
        };
        let q = |a, b| adjustment.covariance(a, b);
        Self {
            block: [q(mark.x, mark.x), q(mark.x, mark.y), q(mark.y, mark.y)],
            columns: [column(mark.x), column(mark.y)],
        }
    }

    fn of(&self, adjustment: &Adjustment, tape: &Tape) -> f64 {
        let row = tape.row(&adjustment.problem, &adjustment.x);
        let [qx, qy] = [0, 1].map(|axis: usize| -> f64 {
            row.iter()
                .map(|&(slot, slope)| slope * self.columns[axis][slot])
                .sum()
        });
        let [xx, xy, yy] = self.block;
        let share = |q: f64, variance: f64| {
            if variance > 0.0 {
                q * q / variance
            } else {
                0.0
            }
        };
        let variance = tape.reading.sd * tape.reading.sd + share(qx, xx).max(share(qy, yy));
        pm([
            xx - qx * qx / variance,
            xy - qx * qy / variance,
            yy - qy * qy / variance,
        ])
    }
}

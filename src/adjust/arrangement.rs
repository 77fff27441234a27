//! How much sense an arrangement of the marks makes of the readings and of the sketch.

use super::cholesky::Factor;
use super::descent::{Descent, Patience, descend, with_anchors};
use super::equation::{At, Equation, place};
use super::fit::Fit;
use super::left_out::LeftOut;
use super::limit::limit;
use super::locus::apart;
use super::problem::Problem;
use super::reading::Form;

/// Fits this good are beyond improving: no chance agrees so well.
const PERFECT: f64 = 1e-9;
/// An arrangement takes over from one nearer to the sketch only if it makes so much more sense:
/// what one parameter may gain in chi2 by chance, 95 %.
const BETTER: f64 = 3.84;
/// How far a mark on the sketch may be out, one sd, as a share of the site's size.
const SKETCHED: f64 = 0.1;
/// With more readings than this only the worst fitting are tried.
const TRY_ALL: usize = 60;
/// How many of the worst fitting readings are looked at for the one slip,
const WORST: usize = 8;
/// and how many of the likeliest of these left out for good.
const LIKELIEST: usize = 3;
/// Where straight equations leave so much more misfit than there may be, and most of what there was,
/// curved ones do too.
const HOPELESS: f64 = 10.0;
const HALF: f64 = 0.5;
/// So little damping changes no figure, and keeps the factor of a loose network finite.
const SAFE: f64 = 1e-12;

/// How far an arrangement makes sense of the readings.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Sense {
    /// All agree.
    Agrees,
    /// All but one agree.
    OneSlip,
    /// More than one would have to be wrong.
    None,
}

/// Where a walk downhill ended, and what sense it makes.
#[derive(Clone, Debug)]
pub(super) struct Arrangement {
    pub descent: Descent,
    pub sense: Sense,
    /// Readings beyond what it takes to fix the marks.
    pub checks: i64,
    /// Σ(v/sd)² of what is not misread, and how far it is from the sketch, in sds squared.
    cost: f64,
}

impl Arrangement {
    /// The sense that the bottom of a valley makes.
    pub fn new(problem: &Problem, marks: &[At], descent: Descent) -> Self {
        let checks = problem.readings.len() as i64 - problem.unknowns() as i64;
        let (sense, cost) = if descent.chi2 <= limit(checks) {
            (Sense::Agrees, descent.chi2)
        } else {
            match one_slip(problem, &descent, limit(checks - 1)) {
                Some(rest) if rest <= limit(checks - 1) => (Sense::OneSlip, rest),
                _ => (Sense::None, descent.chi2),
            }
        };
        let cost = cost + from_sketch(problem, marks, &descent.x);
        Self {
            descent,
            sense,
            checks,
            cost,
        }
    }

    /// The sense that the walk from the sketch makes.
    ///
    /// A bad slip bends the whole site, so that leaving it out may only be seen to help from the
    /// sketch. Where it does, the sketch is right and the reading wrong: no other arrangement with a
    /// slip of its own takes over.
    pub fn of_sketch(problem: &Problem, marks: &[At], descent: Descent) -> Self {
        let mut sketched = Self::new(problem, marks, descent);
        let limit = limit(sketched.checks - 1);
        let slips = || {
            let readings = by_misfit(problem, &sketched.descent.x);
            let tried = if readings.len() > TRY_ALL {
                WORST
            } else {
                TRY_ALL
            };
            readings.into_iter().take(tried).any(|(_, index)| {
                descend(problem, problem.start.clone(), Some(index)).chi2 <= limit
            })
        };
        if sketched.sense == Sense::OneSlip || (sketched.sense == Sense::None && slips()) {
            sketched.sense = Sense::OneSlip;
            sketched.cost = 0.0;
        }
        sketched
    }

    /// Whether the fit is so good that chance has no part in it.
    pub fn is_perfect(&self) -> bool {
        self.descent.chi2 <= PERFECT
    }

    /// Whether the readings agree as well as readings do: neither so badly that few jobs are like
    /// that, nor so well that they are not from a tape and what is left is the arrangement's.
    pub fn is_plausible(&self) -> bool {
        let checks = self.checks as f64;
        let usual = 0.2 * (checks - 2.0)..=checks + 2.0 * (2.0 * checks).sqrt();
        self.sense == Sense::Agrees && usual.contains(&self.descent.chi2)
    }

    /// Whether so little misfit is left that chance is not all of it.
    pub fn is_too_good(&self) -> bool {
        self.descent.chi2 < 0.2 * (self.checks as f64 - 2.0)
    }

    /// Whether it makes more sense than one that was found before.
    pub fn beats(&self, other: &Self) -> bool {
        if self.is_perfect() != other.is_perfect() {
            return self.is_perfect();
        }
        self.sense < other.sense || (self.sense == other.sense && self.cost < other.cost - BETTER)
    }
}

/// Misfits and places of the readings, the worst fitting first.
fn by_misfit(problem: &Problem, x: &[f64]) -> Vec<(f64, usize)> {
    let misfit = |index: usize| (problem.misfit(index, x).abs(), index);
    let mut worst: Vec<(f64, usize)> = (0..problem.readings.len()).map(misfit).collect();
    worst.sort_by(|a, b| b.0.total_cmp(&a.0));
    worst
}

/// Σ(v/sd)² without the reading that brings it down most; none if that is out of the question.
fn one_slip(problem: &Problem, at: &Descent, limit: f64) -> Option<f64> {
    let mut worst = by_misfit(problem, &at.x);
    worst.truncate(WORST);
    let normal = problem.normal(&at.x, None);
    let factor = Factor::new(&problem.pattern, &with_anchors(problem, &normal), SAFE)?;
    let without = |&(_, index): &(f64, usize)| {
        let mut column = vec![0.0; problem.unknowns()];
        for (slot, slope) in problem.row(&problem.readings[index].form.linear(&at.x)) {
            column[slot] += slope;
        }
        factor.solve(&problem.pattern, &mut column);
        LeftOut::foresee(problem, &at.x, index, &column)
    };
    let mut likeliest: Vec<LeftOut> = worst.iter().map(without).collect();
    likeliest.sort_by(|a, b| b.gain.total_cmp(&a.gain));
    let patience = Patience {
        enough: limit,
        ..Patience::FULL
    };
    let mut least: Option<f64> = None;
    for left_out in likeliest.into_iter().take(LIKELIEST) {
        let little = left_out.gain < HALF * at.chi2;
        let hopeless = little && at.chi2 - left_out.gain > HOPELESS * limit;
        if hopeless || least.is_some_and(|least| least <= limit) {
            break;
        }
        let rest = left_out.descend(problem, &at.x, patience).chi2;
        least = Some(least.map_or(rest, |least| least.min(rest)));
    }
    least
}

/// How far the marks are from the sketch, shifted and turned to fit, in sds squared.
fn from_sketch(problem: &Problem, marks: &[At], x: &[f64]) -> f64 {
    let pairs = || {
        marks
            .iter()
            .map(|&mark| (place(&problem.start, mark), place(x, mark)))
    };
    let fit = Fit::of(pairs());
    let sd = SKETCHED * size(problem);
    pairs()
        .map(|(a, b)| (apart(fit.of_point(a), b) / sd).powi(2))
        .sum()
}

/// How large the site is: its longest tape, mm.
pub(super) fn size(problem: &Problem) -> f64 {
    let taped = problem
        .readings
        .iter()
        .filter_map(|reading| match reading.form {
            Form::Plane(Equation::Distance { .. }) => Some(reading.value),
            _ => None,
        });
    taped.fold(1.0, f64::max)
}

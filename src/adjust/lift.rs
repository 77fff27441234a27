//! Out of the plane and back: how a mark gets over a line that it lies on the wrong side of.
//!
//! A sketch may put a mark on the wrong side of its neighbours. Within the plane its tapes then
//! hold it there; through space it can swing over, as a gate on its hinges:
//!
//! ```text
//!        ·  wrong side              tapes only          pressed flat
//!   A────────B        ──►      swings up and over   ──►   A────────B
//!                                                              ·
//! ```
//!
//! So the marks are let out of the plane, the tapes pulled straight, and the whole pressed flat
//! again little by little (relaxation by one more dimension).

use super::descent::{Patience, descend_within};
use super::equation::{At, Equation, Param, coordinate};
use super::problem::Problem;
use super::reading::{Aloft, Form, Reading};

/// How much softer than the site is large the tapes are while aloft.
const SOFTNESS: f64 = 0.005;
/// How far marks leave the plane, and aside, in site sizes.
const UP: f64 = 0.15;
const ASIDE: f64 = 0.01;
/// How hard the marks are pressed, softest first, as an sd in site sizes.
const PRESSES: [f64; 6] = [1.0, 0.1, 0.03, 0.01, 0.003, 0.0005];
/// Steps taken under each.
const PATIENCE: Patience = Patience {
    steps: 12,
    enough: f64::INFINITY,
};

/// Where the `leaving` marks at `x` come to lie after a turn out of the plane while the others
/// stay where they are; `turn` picks how they leave.
#[must_use]
pub(super) fn lift(problem: &Problem, x: &[f64], leaving: &[At], turn: usize) -> Vec<f64> {
    let size = size(problem, leaving, x).max(1.0);
    let mut start = x.to_vec();
    let mut held = held_but(problem, leaving);
    for (at, &mark) in leaving.iter().enumerate() {
        let framed = !(is_free(problem, mark.x) && is_free(problem, mark.y));
        // Uneven ways, different every turn.
        let way = ((at + 1) * (2 * turn + 1)) as f64 * 2.399_963;
        start.push(if framed { 0.0 } else { UP * size * way.sin() });
        held.push(framed);
        // Marks on one spot or in one line would go up in step for ever.
        for (param, aside) in [(mark.x, (1.3 * way).sin()), (mark.y, (1.7 * way).cos())] {
            if is_free(problem, param) {
                start[param.0] += ASIDE * size * aside;
            }
        }
    }
    // What stays in the plane has its height in common.
    start.push(0.0);
    held.push(true);
    let mut lifted = Problem::new(&start, &held, aloft(problem, leaving, x.len(), size));
    let mut x = start;
    for press in PRESSES {
        for reading in &mut lifted.readings {
            if let Form::Height(_) = reading.form {
                reading.sd = press * size;
            }
        }
        x = descend_within(&lifted, x, None, PATIENCE).x;
    }
    x.truncate(problem.start.len());
    x
}

/// The part of a problem in which only the given marks (in order) can move.
#[must_use]
pub(super) fn part(problem: &Problem, x: &[f64], marks: &[At]) -> Problem {
    Problem::new(
        x,
        &held_but(problem, marks),
        touching(problem, marks).copied().collect(),
    )
}

fn held_but(problem: &Problem, marks: &[At]) -> Vec<bool> {
    let mut held = vec![true; problem.start.len()];
    for param in marks.iter().flat_map(|mark| [mark.x, mark.y]) {
        if is_free(problem, param) {
            held[param.0] = false;
        }
    }
    held
}

fn touching<'a>(problem: &'a Problem, marks: &'a [At]) -> impl Iterator<Item = &'a Reading> {
    let moves = |mark: At| marks.binary_search(&mark).is_ok();
    problem
        .readings
        .iter()
        .filter(move |reading| reading.form.marks().any(moves))
}

fn is_free(problem: &Problem, param: Param) -> bool {
    problem.slot(param.0).is_some()
}

/// The readings of the `leaving` marks, tapes going through space, and a height to be pressed down
/// for each of these marks; `flat` is the first parameter for heights.
fn aloft(problem: &Problem, leaving: &[At], flat: usize, size: f64) -> Vec<Reading> {
    let up = |at: At| Aloft {
        at,
        up: Param(flat + leaving.binary_search(&at).unwrap_or(leaving.len())),
    };
    let heights = (0..leaving.len()).map(|mark| Reading {
        form: Form::Height(Param(flat + mark)),
        value: 0.0,
        sd: size,
    });
    let readings = touching(problem, leaving);
    readings
        .map(|reading| soften(reading, size, up))
        .chain(heights)
        .collect()
}

fn soften(reading: &Reading, size: f64, aloft: impl Fn(At) -> Aloft) -> Reading {
    let soft = size * SOFTNESS;
    match reading.form {
        Form::Plane(Equation::Distance { from, to }) => Reading {
            form: Form::Space {
                from: aloft(from),
                to: aloft(to),
            },
            sd: reading.sd.max(soft),
            ..*reading
        },
        Form::Plane(Equation::Offset { .. }) => Reading {
            sd: reading.sd.max(soft),
            ..*reading
        },
        _ => *reading,
    }
}

/// How large the part of the site is: from where its marks are, or its longest tape if that says
/// more.
fn size(problem: &Problem, marks: &[At], x: &[f64]) -> f64 {
    let span = |param: fn(&At) -> Param| {
        let along = || marks.iter().map(|mark| coordinate(x, param(mark)));
        along().fold(f64::NEG_INFINITY, f64::max) - along().fold(f64::INFINITY, f64::min)
    };
    let longest = touching(problem, marks)
        .filter(|reading| matches!(reading.form, Form::Plane(Equation::Distance { .. })))
        .map(|reading| reading.value)
        .fold(0.0, f64::max);
    span(|mark| mark.x).hypot(span(|mark| mark.y)).max(longest)
}

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

use super::descent::descend_within;
use super::equation::{At, Equation, Param};
use super::problem::Problem;
use super::reading::{Aloft, Form, Reading};

/// How much softer than the site is large the tapes are while aloft.
const SOFTNESS: f64 = 0.005;
/// How hard the marks are pressed, softest first, as an sd in site sizes.
const PRESSES: [f64; 6] = [1.0, 0.1, 0.03, 0.01, 0.003, 0.0005];
/// Steps taken under each.
const STEPS: usize = 12;

/// Readings that miss by more than this, in sds, may be pulling at a mark on the wrong side.
const BAD: f64 = 3.0;
/// How many readings away from a bad one marks may still be in each other's way.
const RINGS: usize = 3;

/// Where the marks at `x` come to lie after a turn out of the plane; `turn` picks how they leave.
/// None if none is near a badly fitting reading.
#[must_use]
pub(super) fn lift(problem: &Problem, x: &[f64], turn: usize) -> Option<Vec<f64>> {
    let marks = problem.marks();
    let near = near_bad(problem, &marks, x);
    if !near.contains(&true) {
        return None;
    }
    let size = size(&marks, x).max(1.0);
    let mut start = x.to_vec();
    let mut held: Vec<bool> = (0..x.len())
        .map(|param| problem.slot(param).is_none())
        .collect();
    for (at, &mark) in marks.iter().enumerate() {
        let params = [mark.x.0, mark.y.0];
        let leaves = near[at] && params.iter().all(|&param| held.get(param) == Some(&false));
        // Uneven heights, different every turn.
        let way = ((at + 1) * (2 * turn + 1)) as f64 * 2.399_963;
        start.push(if leaves { 0.15 * size * way.sin() } else { 0.0 });
        held.push(!leaves);
        if !near[at] {
            for param in params {
                if let Some(held) = held.get_mut(param) {
                    *held = true;
                }
            }
        }
    }
    let mut lifted = Problem::new(&start, &held, aloft(problem, &marks, x.len(), size));
    let mut x = start;
    for press in PRESSES {
        for reading in &mut lifted.readings {
            if let Form::Height(_) = reading.form {
                reading.sd = press * size;
            }
        }
        x = descend_within(&lifted, x, None, STEPS).x;
    }
    x.truncate(problem.start.len());
    Some(x)
}

/// Which marks are near a badly fitting reading.
fn near_bad(problem: &Problem, marks: &[At], x: &[f64]) -> Vec<bool> {
    let mut near = vec![false; marks.len()];
    let readings = || problem.readings.iter().enumerate();
    let spread = |near: &mut Vec<bool>, reading: &Reading| {
        for mark in reading.form.marks() {
            if let Ok(at) = marks.binary_search(&mark) {
                near[at] = true;
            }
        }
    };
    for (_, reading) in readings().filter(|(index, _)| problem.misfit(*index, x).abs() > BAD) {
        spread(&mut near, reading);
    }
    for _ in 0..RINGS {
        let before = near.clone();
        let touches = |mark: At| marks.binary_search(&mark).is_ok_and(|at| before[at]);
        for (_, reading) in readings().filter(|(_, reading)| reading.form.marks().any(touches)) {
            spread(&mut near, reading);
        }
    }
    near
}

/// The readings with tapes through space, `flat` being the first parameter for heights, and a
/// height to be pressed down for every mark.
fn aloft(problem: &Problem, marks: &[At], flat: usize, size: f64) -> Vec<Reading> {
    let up = |at: At| Aloft {
        at,
        up: Param(flat + marks.binary_search(&at).unwrap_or(0)),
    };
    let heights = (0..marks.len()).map(|mark| Reading {
        form: Form::Height(Param(flat + mark)),
        value: 0.0,
        sd: size,
    });
    let readings = problem.readings.iter();
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

fn size(marks: &[At], x: &[f64]) -> f64 {
    let span = |param: fn(&At) -> Param| {
        let along = || {
            marks
                .iter()
                .map(|mark| x.get(param(mark).0).copied().unwrap_or(0.0))
        };
        along().fold(f64::NEG_INFINITY, f64::max) - along().fold(f64::INFINITY, f64::min)
    };
    span(|mark| mark.x).hypot(span(|mark| mark.y))
}

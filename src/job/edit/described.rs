//! Things of a job in a person's words, with the figure that tells one from another.

use crate::job::model::{Corner, Gate, Line, Mark, Marked, Pin, Point, Run, Setup, Sight, Wall};
use crate::job::reading::{Measure, Reading};
use crate::length::{Unit, show};

pub(super) fn mark(mark: &Mark) -> String {
    format!("mark {}", mark.id)
}

pub(super) fn wall(wall: &Wall) -> String {
    named("wall", wall.id.as_str(), &wall.name)
}

pub(super) fn line(line: &Line) -> String {
    named("string", line.id.as_str(), &line.name)
}

pub(super) fn corner(corner: &Corner) -> String {
    format!("corner {}", corner.id)
}

pub(super) fn run(run: &Run) -> String {
    named("run", run.id.as_str(), &run.name)
}

pub(super) fn point(point: &Point) -> String {
    format!("point {}", point.id)
}

pub(super) fn setup(setup: &Setup) -> String {
    format!("set-up {}", setup.id)
}

pub(super) fn marked(marked: &Marked) -> String {
    format!("post {} of run {}", marked.post, marked.run)
}

pub(super) fn sight(sight: &Sight, from: &Setup, unit: Unit) -> String {
    let down = figure(sight.down, unit);
    format!("sight {} from {}{down}", sight.point, from.id)
}

pub(super) fn reading(reading: &Reading, unit: Unit) -> String {
    match &reading.what {
        Measure::Tape {
            from, to, length, ..
        } => {
            format!("tape {from} to {to}{}", figure(*length, unit))
        }
        Measure::Offset {
            mark, wall, length, ..
        } => {
            format!("offset {mark} off {wall}{}", figure(*length, unit))
        }
        Measure::Inline {
            mark, with: [a, b], ..
        } => format!("{mark} on the string {a} to {b}"),
        Measure::Angle {
            from,
            at,
            to,
            degrees,
            ..
        } => match degrees {
            Some(degrees) => format!("angle {from} {at} {to} {degrees}°"),
            None => format!("angle {from} {at} {to}"),
        },
        Measure::Other { kind } => format!("reading “{kind}”"),
    }
}

pub(super) fn gate(gate: &Gate, unit: Unit) -> String {
    format!("gate{}", at(gate.at, unit))
}

pub(super) fn pin(pin: &Pin, unit: Unit) -> String {
    format!("pin{}", at(pin.at, unit))
}

fn at(mm: Option<f64>, unit: Unit) -> String {
    mm.map_or_else(String::new, |mm| format!(" at {}", show(mm, unit)))
}

fn figure(mm: Option<f64>, unit: Unit) -> String {
    mm.map_or_else(String::new, |mm| format!(" {}", show(mm, unit)))
}

fn named(kind: &str, id: &str, name: &str) -> String {
    format!("{kind} {}", if name.is_empty() { id } else { name })
}

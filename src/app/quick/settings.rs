//! What every quick sum counts on: the unit, the tape and the laser; the open job's until another
//! is chosen here.

use crate::app::desk::entry::plain;
use crate::app::desk::{Desk, Entered, FigureKind, Then};
use crate::app::kit::{FormRow, KeypadFigure, class_row, heading, unit_rows};
use crate::job::model::Tape;
use crate::laser::LaserWorth;
use crate::length::{InchPart, Unit, show_spread};
use crate::tape::TapeClass;

const UNIT: &str = "quick unit";
const PART: &str = "quick smallest part";
const CLASS: &str = "quick tape class";
const READING: &str = "quick tape reading";
const ACCURACY: &str = "quick laser accuracy";
const SIGHT: &str = "quick laser reading";
const CLASSES: [TapeClass; 3] = [TapeClass::I, TapeClass::II, TapeClass::III];

fn place(desk: &Desk, key: &str) -> Option<usize> {
    let at = desk.figures.get(key)?;
    (0.0..10.0).contains(at).then_some(*at as usize)
}

/// What a sum counts on.
#[derive(Clone)]
pub struct Counts {
    /// The unit that lengths are typed and shown in.
    pub unit: Unit,
    /// The tape's class and how well it is read.
    pub tape: Tape,
    /// The laser's accuracy and how well it is read.
    pub laser: LaserWorth,
}

impl Counts {
    /// What the open job has.
    #[must_use]
    pub fn of_job(desk: &Desk) -> Self {
        let job = desk.saved();
        Self {
            unit: job.show.lengths,
            tape: job.tape.clone(),
            laser: LaserWorth {
                accuracy: job.level.accuracy,
                reading: job.level.reading,
            },
        }
    }

    /// What is chosen for the quick sums, and of the rest what the open job has.
    #[must_use]
    pub fn of_quick(desk: &Desk) -> Self {
        let mut own = Self::of_job(desk);
        if let Some(unit) = place(desk, UNIT).and_then(|at| Unit::ALL.get(at)) {
            own.unit = desk.saved().show.turned_to(*unit).lengths;
        }
        if let Some(part) = place(desk, PART).and_then(|at| InchPart::ALL.get(at)) {
            own.unit = own.unit.to_part(*part);
        }
        if let Some(class) = place(desk, CLASS).and_then(|at| CLASSES.get(at)) {
            own.tape.class = *class;
        }
        let figures = [
            (READING, &mut own.tape.reading),
            (ACCURACY, &mut own.laser.accuracy),
            (SIGHT, &mut own.laser.reading),
        ];
        for (key, figure) in figures {
            *figure = *desk.figures.get(key).unwrap_or(figure);
        }
        own
    }
}

/// Counts on another accuracy of the laser from now on, mm per m.
pub fn count_on(desk: &mut Desk, accuracy: f64) {
    keep(desk, ACCURACY, accuracy);
}

fn keep(desk: &mut Desk, key: &str, value: f64) -> Then {
    desk.figures.insert(key.to_owned(), value);
    Then::Stay
}

/// Keeps the place of what was picked among all there are.
fn keep_place<T: PartialEq>(desk: &mut Desk, key: &str, all: &[T], picked: T) -> Then {
    let at = all.iter().position(|one| *one == picked);
    let at = at.and_then(|at| u32::try_from(at).ok());
    keep(desk, key, at.map_or(0.0, f64::from))
}

/// The rows that change them.
#[must_use]
pub fn rows(desk: &Desk) -> Vec<FormRow> {
    let Counts { unit, tape, laser } = Counts::of_quick(desk);
    let mut rows = vec![heading("Tape and laser")];
    rows.extend(unit_rows(
        unit,
        |desk, unit| keep_place(desk, UNIT, &Unit::ALL, unit),
        |desk, part| keep_place(desk, PART, &InchPart::ALL, part),
    ));
    rows.push(class_row(tape.class, |desk, class| {
        keep_place(desk, CLASS, &CLASSES, class)
    }));
    let reading = figure(READING, "Typical error of a tape reading", tape.reading)
        .in_unit(unit)
        .titled(|_| "**Typical error** of a tape reading".to_owned());
    let reading = reading.row_showing(&show_spread(tape.reading, unit));
    rows.push(reading.noted(if unit.is_feet() {
        "a pencil mark 1/32, a nail in a peg 3/32, rough brick 3/32 to 1/8 in"
    } else {
        "a pencil mark 0.5 to 1, a nail in a peg 2, rough brick 2 to 3 mm"
    }));
    let label = "Laser's stated accuracy, mm per m";
    let accuracy = figure(ACCURACY, label, laser.accuracy)
        .of_kind(FigureKind::Number("mm per m"))
        .titled(|_| "Laser, **stated accuracy**".to_owned());
    let accuracy = accuracy.row_showing(&plain(laser.accuracy));
    rows.push(accuracy.noted("the limit on its data sheet"));
    let sight = figure(SIGHT, "Typical error of a sight", laser.reading)
        .in_unit(unit)
        .titled(|_| "**Typical error** of a sight".to_owned());
    rows.push(sight.row_showing(&show_spread(laser.reading, unit)));
    rows
}

/// A figure that is kept for every sum, and what is there now.
fn figure(key: &'static str, label: &str, there: f64) -> KeypadFigure {
    let figure = KeypadFigure::entering(
        label,
        move |_| Some(there),
        move |_, value| {
            Entered::Desk(Box::new(move |desk| {
                keep(desk, key, value);
            }))
        },
    );
    figure.keyed(key)
}

//! What lengths are shown in and how good tape and laser are, as rows of a form: of a job, and of the
//! quick sums.

use super::fields::{FormRow, choice};
use super::keypad_figure::KeypadFigure;
use crate::app::desk::{Desk, FigureKind, Then};
use crate::job::edit::{Edit, Setting};
use crate::length::{InchPart, Unit};
use crate::tape::TapeClass;

/// The unit, and in feet and inches the smallest part that is shown.
#[must_use]
pub fn unit_rows(
    unit: Unit,
    turn: fn(&mut Desk, Unit) -> Then,
    divide: fn(&mut Desk, InchPart) -> Then,
) -> Vec<FormRow> {
    let there = Unit::ALL.get(unit.place()).copied();
    let units = ["mm", "m", "ft in"].into_iter().zip(Unit::ALL);
    let turned = choice("Lengths in", units, there, turn);
    let divided = unit.part().map(|part| {
        let parts = InchPart::ALL.map(|part| (part.name(), part));
        choice("Smallest part of an inch", parts, Some(part), divide)
    });
    [turned].into_iter().chain(divided).collect()
}

/// The tape's class.
#[must_use]
pub fn class_row(class: TapeClass, pick: fn(&mut Desk, TapeClass) -> Then) -> FormRow {
    let classes = [
        ("I", TapeClass::I),
        ("II", TapeClass::II),
        ("III", TapeClass::III),
    ];
    let label = "Accuracy class, printed on the tape";
    choice(label, classes, Some(class), pick)
}

/// The laser's accuracy as the job has it, mm per m.
#[must_use]
pub fn laser_accuracy(label: &str) -> KeypadFigure {
    KeypadFigure::kept(
        label,
        |job| Some(job.level.clone()),
        |laser| Some(&mut laser.accuracy),
        |laser| Edit::Set(Setting::Laser(laser)),
    )
    .of_kind(FigureKind::Number("mm per m"))
}

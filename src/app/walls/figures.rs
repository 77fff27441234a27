//! The figure of a reading: its length or angle, and how much higher one end of a tape was.

use super::standing::{misfitting, several_in_doubt};
use crate::app::desk::{Desk, FigureKind, FigureOf, Focus};
use crate::app::kit::{KeypadFigure, Misfits, problem_in, status};
use crate::app::names::{is_missing, reading_title};
use crate::job::edit::{Change, Edit};
use crate::job::reading::{Measure, Reading};
use crate::job::{Job, Severity};
use crate::length;
use crate::site::SuspectFix;
use tautmark_ui::{Status, Verdict};

/// The change that gives a reading this figure.
pub fn with_length(job: &Job, index: usize, value: f64) -> Option<Edit> {
    let mut reading = job.readings.get(index)?.clone();
    match &mut reading.what {
        Measure::Tape { length, .. } | Measure::Offset { length, .. } => *length = Some(value),
        Measure::Angle { degrees, .. } => *degrees = Some(value),
        Measure::Inline { .. } | Measure::Other { .. } => return None,
    }
    Some(Edit::Reading(Change::Replace {
        at: index,
        value: reading,
    }))
}

/// What is said of a checked figure while something does not fit; `None` where all do.
fn doubt(desk: &Desk, suspect: Option<&SuspectFix>) -> Option<Status> {
    if desk.solution.network.suspects.is_empty() {
        return None;
    }
    let (job, unit) = (desk.job(), desk.job().show.lengths);
    let wrong = misfitting(desk).and_then(|wrong| job.readings.get(wrong));
    let misfits = Misfits {
        of: "readings",
        place: "Walls",
        only: wrong.map(|wrong| format!("**{}**", reading_title(wrong))),
        several: several_in_doubt(desk),
    };
    let predicted = suspect.map(|suspect| {
        let predicted = length::show(suspect.predicted, unit);
        format!(
            "{predicted} {}",
            length::show_pm_with_unit(suspect.predicted_pm, unit)
        )
    });
    Some(misfits.doubt(predicted))
}

/// The figure of the reading at this place of the list; the next one that has none comes after it.
#[must_use]
pub fn figure_of(job: &Job, index: usize) -> KeypadFigure {
    let what = job.readings.get(index).map(|reading| &reading.what);
    let there = move |job: &Job| match job.readings.get(index)?.what {
        Measure::Tape { length, .. } | Measure::Offset { length, .. } => length,
        Measure::Angle { degrees, .. } => degrees,
        Measure::Inline { .. } | Measure::Other { .. } => None,
    };
    let figure = KeypadFigure::new("reading", there, move |job, value| {
        with_length(job, index, value)
    });
    figure
        .of(FigureOf::Reading(index))
        .questioned(move |desk, value| far_longer(desk, index, value))
        .of_kind(match what {
            Some(Measure::Angle { .. }) => FigureKind::Degrees,
            _ => FigureKind::Length,
        })
        .titled(move |job| {
            let reading = job.readings.get(index);
            reading.map_or_else(String::new, title)
        })
        .progress(move |job| Some((index + 1, job.readings.len())))
        .then(|job| {
            let next = job.readings.iter().position(is_missing)?;
            Some(figure_of(job, next))
        })
        .judged(move |desk, _| fits(desk, index))
        .with_key(move |job| {
            let tape = matches!(job.readings.get(index)?.what, Measure::Tape { .. });
            tape.then(|| ("Slope", slope_of(index)))
        })
        .stressing(Focus::Reading(index))
}

/// A tape ten times as long as any other is asked about before it is entered.
fn far_longer(desk: &Desk, index: usize, value: f64) -> Option<String> {
    let job = desk.saved();
    if !matches!(job.readings.get(index)?.what, Measure::Tape { .. }) {
        return None;
    }
    let others = job.readings.iter().enumerate();
    let others = others.filter_map(|(at, other)| match other.what {
        Measure::Tape { length, .. } if at != index && other.used => length,
        _ => None,
    });
    let longest = others.reduce(f64::max)?;
    let said = |mm: f64| length::show_with_unit(mm, job.show.lengths);
    (value > 10.0 * longest).then(|| {
        format!(
            "**{}** is more than ten times the longest other tape, {}. Was every figure meant?",
            said(value),
            said(longest)
        )
    })
}

fn title(reading: &Reading) -> String {
    let kind = match &reading.what {
        Measure::Tape { .. } => "Tape",
        Measure::Offset { .. } => "Offset",
        _ => "Measure",
    };
    format!("{kind}, **{}**", reading_title(reading))
}

/// Whether a reading fits the others.
fn fits(desk: &Desk, index: usize) -> Option<Status> {
    let mut fixes = desk.solution.readings.iter();
    let Some(fix) = fixes.find(|fix| fix.index == index) else {
        let place = format!("readings[{index}]");
        return problem_in(desk, &place, Severity::Note);
    };
    if fix.suspect.is_none() && fix.least_slip.is_none() {
        return Some(status(Verdict::Note, "Nothing checks this reading yet."));
    }
    if let Some(doubt) = doubt(desk, fix.suspect.as_ref()) {
        return Some(doubt);
    }
    let what = &desk.job().readings.get(index)?.what;
    let text = format!(
        "It fits the other readings: together they make it **{}**.",
        length::show(what.as_read(fix.adjusted), desk.job().show.lengths)
    );
    Some(status(Verdict::Good, &text))
}

/// How much higher one end of a tape was than the other.
#[must_use]
pub fn slope_of(index: usize) -> KeypadFigure {
    KeypadFigure::kept(
        "slope",
        move |job| job.readings.get(index).cloned(),
        |reading| match &mut reading.what {
            Measure::Tape { drop, .. } => Some(drop),
            _ => None,
        },
        move |value| Edit::Reading(Change::Replace { at: index, value }),
    )
    .titled(move |job| {
        let name = job.readings.get(index).map(reading_title);
        let name = name.unwrap_or_default();
        format!("Tape {name}, **one end higher by**")
    })
    .of(FigureOf::Reading(index))
    .stressing(Focus::Reading(index))
}

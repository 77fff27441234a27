//! The figure of a reading: its length or angle, and how much higher one end of a tape was.

use super::standing::{misfitting, several_in_doubt};
use crate::app::desk::{Desk, FigureKind, Focus, Prompt};
use crate::app::kit::words::{Misfits, status};
use crate::app::names::readings::{is_missing, reading_title};
use crate::job::Job;
use crate::job::edit::{Change, Edit};
use crate::job::reading::Measure;
use crate::length::{self, Unit};
use crate::site::{SuspectFix, is_checked};
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

/// The figure of a reading that is in the list.
pub struct ReadingFigure {
    index: usize,
    measure: FigureKind,
}

impl ReadingFigure {
    /// The figure of the reading at this place of the list.
    #[must_use]
    pub fn of(job: &Job, index: usize) -> Self {
        let angle = matches!(
            job.readings.get(index).map(|r| &r.what),
            Some(Measure::Angle { .. })
        );
        Self {
            index,
            measure: if angle {
                FigureKind::Degrees
            } else {
                FigureKind::Length
            },
        }
    }
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
            length::show_pm(suspect.predicted_pm, unit)
        )
    });
    Some(misfits.doubt(predicted))
}

impl Prompt for ReadingFigure {
    fn key(&self) -> String {
        format!("reading {}", self.index)
    }

    fn title(&self, job: &Job) -> String {
        let Some(reading) = job.readings.get(self.index) else {
            return String::new();
        };
        let kind = match &reading.what {
            Measure::Tape { .. } => "Tape",
            Measure::Offset { .. } => "Offset",
            _ => "Measure",
        };
        format!("{kind}, **{}**", reading_title(reading))
    }

    fn measure(&self) -> FigureKind {
        self.measure
    }

    fn value(&self, job: &Job) -> Option<f64> {
        match &job.readings.get(self.index)?.what {
            Measure::Tape { length, .. } | Measure::Offset { length, .. } => *length,
            Measure::Angle { degrees, .. } => *degrees,
            _ => None,
        }
    }

    fn edit(&self, job: &Job, value: f64) -> Option<Edit> {
        with_length(job, self.index, value)
    }

    fn progress(&self, job: &Job) -> Option<(usize, usize)> {
        Some((self.index + 1, job.readings.len()))
    }

    /// The next reading of the list that has no figure yet.
    fn next(&self, job: &Job) -> Option<Box<dyn Prompt>> {
        let missing = |&index: &usize| job.readings.get(index).is_some_and(is_missing);
        let index = (0..job.readings.len()).find(missing)?;
        Some(Box::new(ReadingFigure::of(job, index)))
    }

    fn verdict(&self, desk: &Desk, typed: Option<f64>) -> Option<Status> {
        typed?;
        let unit: Unit = desk.job().show.lengths;
        let fix = desk
            .solution
            .readings
            .iter()
            .find(|fix| fix.index == self.index);
        let Some(fix) = fix else {
            let place = format!("readings[{}]", self.index);
            let problem = desk
                .solution
                .problems
                .iter()
                .find(|p| p.place.is_in(&place))?;
            let text = format!("{} {}", problem.text, problem.remedy);
            return Some(status(Verdict::Attention, &text));
        };
        if fix.suspect.is_none() && !is_checked(fix.redundancy) {
            return Some(status(Verdict::Note, "Nothing checks this reading yet."));
        }
        if let Some(doubt) = doubt(desk, fix.suspect.as_ref()) {
            return Some(doubt);
        }
        let text = format!(
            "It fits the other readings: together they make it **{}**.",
            length::show(fix.adjusted, unit)
        );
        Some(status(Verdict::Good, &text))
    }

    fn extra(&self, job: &Job) -> Option<(String, Box<dyn Prompt>)> {
        let tape = matches!(job.readings.get(self.index)?.what, Measure::Tape { .. });
        tape.then(|| -> (String, Box<dyn Prompt>) {
            (
                "Slope".to_owned(),
                Box::new(SlopeFigure { index: self.index }),
            )
        })
    }

    fn focus(&self, _job: &Job) -> Focus {
        Focus::Reading(self.index)
    }
}

/// How much higher one end of a tape was than the other.
pub struct SlopeFigure {
    pub index: usize,
}

impl Prompt for SlopeFigure {
    fn key(&self) -> String {
        format!("slope {}", self.index)
    }

    fn title(&self, job: &Job) -> String {
        let name = job
            .readings
            .get(self.index)
            .map(reading_title)
            .unwrap_or_default();
        format!("Tape {name}, **one end higher by**")
    }

    fn measure(&self) -> FigureKind {
        FigureKind::Length
    }

    fn value(&self, job: &Job) -> Option<f64> {
        match job.readings.get(self.index)?.what {
            Measure::Tape { drop, .. } => Some(drop),
            _ => None,
        }
    }

    fn edit(&self, job: &Job, value: f64) -> Option<Edit> {
        let mut reading = job.readings.get(self.index)?.clone();
        let Measure::Tape { drop, .. } = &mut reading.what else {
            return None;
        };
        *drop = value;
        Some(Edit::Reading(Change::Replace {
            at: self.index,
            value: reading,
        }))
    }

    fn focus(&self, _job: &Job) -> Focus {
        Focus::Reading(self.index)
    }
}

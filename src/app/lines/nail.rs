//! A nail's two figures: how far along the wall it is, and how far off.

use crate::app::desk::{Desk, FigureKind, Focus, Prompt};
use crate::app::kit::words::status;
use crate::app::names::things::along;
use crate::job::Job;
use crate::job::edit::{Change, Edit};
use crate::job::model::{Line, Station};
use tautmark_ui::{Status, Verdict};

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NailPart {
    At,
    Off,
}

/// One of a nail's two figures.
pub struct NailFigure {
    pub line: usize,
    pub nail: usize,
    pub part: NailPart,
}

impl NailFigure {
    fn station<'a>(&self, job: &'a Job) -> Option<&'a Station> {
        job.lines.get(self.line)?.offsets.as_ref()?.get(self.nail)
    }
}

impl Prompt for NailFigure {
    fn key(&self) -> String {
        format!("nail {} {} {:?}", self.line, self.nail, self.part)
    }

    fn title(&self, job: &Job) -> String {
        let line = job
            .lines
            .get(self.line)
            .map(Line::called)
            .unwrap_or_default();
        match self.part {
            NailPart::At => format!("Nail {} of {line}, **along the wall**", self.nail + 1),
            NailPart::Off => format!("Nail {} of {line}, **off the wall**", self.nail + 1),
        }
    }

    fn measure(&self) -> FigureKind {
        FigureKind::Length
    }

    fn value(&self, job: &Job) -> Option<f64> {
        let station = self.station(job)?;
        match self.part {
            NailPart::At => station.at,
            NailPart::Off => station.off,
        }
    }

    fn edit(&self, job: &Job, value: f64) -> Option<Edit> {
        let mut line = job.lines.get(self.line)?.clone();
        let station = line.offsets.as_mut()?.get_mut(self.nail)?;
        match self.part {
            NailPart::At => station.at = Some(value),
            NailPart::Off => station.off = Some(value),
        }
        Some(Edit::Line(Change::Replace {
            at: self.line,
            value: line,
        }))
    }

    fn next(&self, job: &Job) -> Option<Box<dyn Prompt>> {
        let station = self.station(job)?;
        let part = match self.part {
            NailPart::At => NailPart::Off,
            NailPart::Off if station.at.is_none() => NailPart::At,
            NailPart::Off => return None,
        };
        Some(Box::new(NailFigure {
            line: self.line,
            nail: self.nail,
            part,
        }))
    }

    fn verdict(&self, desk: &Desk, typed: Option<f64>) -> Option<Status> {
        if typed.is_some() {
            return None;
        }
        let job = desk.job();
        let line = job.lines.get(self.line)?;
        let wall = job
            .walls
            .iter()
            .find(|one| Some(&one.id) == line.wall.as_ref())?;
        let (from, to) = (&wall.from, &wall.to);
        let text = match self.part {
            NailPart::At => format!("Along the wall's face from mark {from} to the nail."),
            NailPart::Off => format!(
                "Square off the wall's face to the string, **{}** looking from {from} to {to}. \
                 **Enough for the posts to pass** what sticks out of the wall.",
                along(job, line)
            ),
        };
        Some(status(Verdict::Note, &text))
    }

    fn focus(&self, _job: &Job) -> Focus {
        Focus::Line(self.line)
    }
}

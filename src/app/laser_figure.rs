//! The figures of a laser check, and the laser's stated accuracy.

use crate::app::desk::{Desk, Entered, FigureKind, Prompt};
use crate::app::kit::words::status;
use crate::job::edit::{Edit, Setting};
use crate::job::model::Job;
use tautmark_ui::{KeySigns, Status, Verdict};

/// A figure of the check, in the order in which they are read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Part {
    Base,
    MiddleA,
    MiddleB,
    DistA,
    DistB,
    SecondA,
    SecondB,
}

/// All of them.
pub(super) const PARTS: [Part; 7] = [
    Part::Base,
    Part::MiddleA,
    Part::MiddleB,
    Part::DistA,
    Part::DistB,
    Part::SecondA,
    Part::SecondB,
];

impl Part {
    /// Its name among the figures on the desk.
    pub(super) fn name(self) -> &'static str {
        match self {
            Self::Base => "laser base",
            Self::MiddleA => "laser middle a",
            Self::MiddleB => "laser middle b",
            Self::DistA => "laser distance a",
            Self::DistB => "laser distance b",
            Self::SecondA => "laser second a",
            Self::SecondB => "laser second b",
        }
    }

    /// What it is called.
    pub(super) fn label(self) -> &'static str {
        match self {
            Self::Base => "Between the pegs",
            Self::MiddleA => "Peg A from the middle",
            Self::MiddleB => "Peg B from the middle",
            Self::DistA => "Laser to peg A",
            Self::DistB => "Laser to peg B",
            Self::SecondA => "Peg A from there",
            Self::SecondB => "Peg B from there",
        }
    }

    /// How it is taken.
    pub(super) fn how(self) -> &'static str {
        match self {
            Self::Base => "Drive two pegs 15 m apart or more, about level.",
            Self::MiddleA | Self::MiddleB => "Laser midway; down from its line to the peg's top.",
            Self::DistA | Self::DistB => "Laser beside one peg, or just beyond it.",
            Self::SecondA | Self::SecondB => "Down from its line again, from the second place.",
        }
    }

    /// Read from the line, not taped along the ground.
    pub(super) fn is_sight(self) -> bool {
        !matches!(self, Self::Base | Self::DistA | Self::DistB)
    }
}

/// One figure of the check, kept on the desk.
pub(super) struct LaserFigure {
    pub part: Part,
    /// What is there of all the figures.
    pub known: [Option<f64>; 7],
}

impl LaserFigure {
    fn at(&self) -> usize {
        PARTS
            .iter()
            .position(|part| *part == self.part)
            .unwrap_or(0)
    }
}

impl Prompt for LaserFigure {
    fn key(&self) -> String {
        self.part.name().to_owned()
    }

    fn title(&self, _job: &Job) -> String {
        format!("**{}**", self.part.label())
    }

    fn measure(&self) -> FigureKind {
        if self.part.is_sight() {
            FigureKind::Signed(KeySigns::UpDown)
        } else {
            FigureKind::Length
        }
    }

    fn value(&self, _job: &Job) -> Option<f64> {
        let there = self.known.get(self.at()).copied().flatten();
        if self.part.is_sight() {
            return there.map(|down| -down);
        }
        there
    }

    fn usually_negative(&self) -> bool {
        self.part.is_sight()
    }

    fn enter(&self, _job: &Job, _value: f64) -> Entered {
        Entered::Desk
    }

    fn entered(&self, desk: &mut Desk, value: f64) {
        let value = if self.part.is_sight() { -value } else { value };
        desk.figures.insert(self.part.name().to_owned(), value);
    }

    fn progress(&self, _job: &Job) -> Option<(usize, usize)> {
        Some((self.at() + 1, PARTS.len()))
    }

    fn next(&self, _job: &Job) -> Option<Box<dyn Prompt>> {
        let later = PARTS.into_iter().zip(self.known).skip(self.at() + 1);
        let (part, _) = later.into_iter().find(|(_, known)| known.is_none())?;
        let known = self.known;
        Some(Box::new(Self { part, known }))
    }

    fn verdict(&self, _desk: &Desk, typed: Option<f64>) -> Option<Status> {
        typed
            .is_none()
            .then(|| status(Verdict::Note, self.part.how()))
    }
}

/// The laser's stated accuracy.
pub(super) struct Accuracy;

impl Prompt for Accuracy {
    fn key(&self) -> String {
        "laser accuracy".to_owned()
    }

    fn title(&self, _job: &Job) -> String {
        "**Stated accuracy** of the laser".to_owned()
    }

    fn measure(&self) -> FigureKind {
        FigureKind::Number("mm per m")
    }

    fn value(&self, job: &Job) -> Option<f64> {
        Some(job.level.accuracy)
    }

    fn edit(&self, job: &Job, value: f64) -> Option<Edit> {
        let level = crate::job::model::Laser {
            accuracy: value,
            ..job.level.clone()
        };
        Some(Edit::Set(Setting::Laser(level)))
    }
}

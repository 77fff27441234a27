//! A figure among the job's settings, as data: what it is called, how it is read, where it is kept.

use super::fields::figure;
use super::words::status;
use crate::app::desk::entry::plain;
use crate::app::desk::{Desk, FigureKind, Prompt};
use crate::job::edit::{Edit, Setting};
use crate::job::model::{Boards, Hole, Laser, Stock, Tape, Tolerance};
use crate::job::{Job, Severity};
use crate::length;
use tautmark_ui::{Field as Row, Status, Verdict};

/// A figure that every run of a job goes by.
pub struct SettingFigure {
    /// Tells it from every other: the id of its row, and what is typed is kept under it.
    pub key: &'static str,
    /// Stands over the keypad; where it is empty, the label does.
    pub title: &'static str,
    pub label: &'static str,
    /// How it is taken, or what follows where it is not given; empty where its name says it.
    pub note: &'static str,
    pub kind: FigureKind,
    /// What the job has, mm or a number.
    pub get: fn(&Job) -> Option<f64>,
    pub set: Set,
    /// Where a problem with it stands in the file; empty where none is told beside it.
    pub place: &'static str,
}

/// Where a figure is kept, and how it is put there.
pub enum Set {
    Boards(fn(&mut Boards, f64)),
    Stock(fn(&mut Stock, f64)),
    Hole(fn(&mut Hole, f64)),
    Tolerance(fn(&mut Tolerance, f64)),
    Tape(fn(&mut Tape, f64)),
    Laser(fn(&mut Laser, f64)),
}

fn with<T: Clone>(there: &T, set: fn(&mut T, f64), value: f64) -> T {
    let mut changed = there.clone();
    set(&mut changed, value);
    changed
}

impl SettingFigure {
    /// Its row on a form.
    #[must_use]
    pub fn row(&self, job: &Job) -> Row {
        let value = (self.get)(job).map(|value| match self.kind {
            FigureKind::Count => format!("{value:.0}"),
            FigureKind::Degrees | FigureKind::Number(_) => plain(value),
            FigureKind::FineLength => length::show_fine(value, job.show.lengths, 1),
            FigureKind::Length | FigureKind::Signed(_) => length::show(value, job.show.lengths),
        });
        let value = value.unwrap_or_else(|| "—".to_owned());
        figure(self.key, self.label, self.note, &value)
    }
}

impl Prompt for &'static SettingFigure {
    fn key(&self) -> String {
        self.key.to_owned()
    }

    fn title(&self, _job: &Job) -> String {
        match self.title {
            "" => format!("**{}**", self.label),
            title => title.to_owned(),
        }
    }

    fn measure(&self) -> FigureKind {
        self.kind
    }

    fn value(&self, job: &Job) -> Option<f64> {
        (self.get)(job)
    }

    fn edit(&self, job: &Job, value: f64) -> Option<Edit> {
        Some(Edit::Set(match self.set {
            Set::Boards(set) => Setting::Boards(with(&job.boards, set, value)),
            Set::Stock(set) => Setting::Stock(with(&job.stock, set, value)),
            Set::Hole(set) => Setting::Hole(with(&job.hole, set, value)),
            Set::Tolerance(set) => Setting::Tolerance(with(&job.tolerance, set, value)),
            Set::Tape(set) => Setting::Tape(with(&job.tape, set, value)),
            Set::Laser(set) => Setting::Laser(with(&job.level, set, value)),
        }))
    }

    fn verdict(&self, desk: &Desk, typed: Option<f64>) -> Option<Status> {
        if typed.is_none() {
            return (!self.note.is_empty()).then(|| status(Verdict::Note, self.note));
        }
        problem_in(desk, self.place)
    }
}

/// What is wrong, and more than worth knowing, in this place of the file; none in an empty place.
#[must_use]
pub fn problem_in(desk: &Desk, place: &str) -> Option<Status> {
    let mut problems = desk.solution.problems.iter();
    let problem = problems.find(|one| {
        one.severity != Severity::Note && !place.is_empty() && one.place.is_in(place)
    })?;
    let text = format!("{} {}", problem.text, problem.remedy);
    Some(status(Verdict::Attention, &text))
}

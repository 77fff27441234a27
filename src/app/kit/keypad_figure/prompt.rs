//! A figure on the keypad.

use super::KeypadFigure;
use crate::app::desk::{Desk, Entered, FigureKind, Focus, Prompt};
use crate::job::Job;
use crate::length::Unit;
use tautmark_ui::Status;

impl Prompt for KeypadFigure {
    fn key(&self, job: &Job) -> String {
        match self.of {
            Some(of) => of.figure(job, &self.key),
            None => self.key.clone(),
        }
    }

    fn title(&self, job: &Job) -> String {
        (self.title)(job)
    }

    fn measure(&self) -> FigureKind {
        self.kind
    }

    fn value(&self, job: &Job) -> Option<f64> {
        (self.get)(job)
    }

    fn unit(&self, job: &Job) -> Unit {
        self.unit.unwrap_or(job.show.lengths)
    }

    fn usually_negative(&self) -> bool {
        self.negative_at_first
    }

    fn enter(&self, job: &Job, value: f64) -> Entered {
        (self.enter)(job, value)
    }

    fn progress(&self, job: &Job) -> Option<(usize, usize)> {
        (self.progress)(job)
    }

    fn next(&self, job: &Job) -> Option<Box<dyn Prompt>> {
        (self.next)(job).map(|figure| Box::new(figure) as Box<dyn Prompt>)
    }

    fn verdict(&self, desk: &Desk, typed: Option<f64>) -> Option<Status> {
        match typed {
            Some(value) => (self.judge)(desk, value),
            None => (self.hint)(desk),
        }
    }

    fn question(&self, desk: &Desk, value: f64) -> Option<String> {
        (self.question)(desk, value)
    }

    fn confirms(&self) -> bool {
        self.confirms
    }

    fn emptied(&mut self, desk: &mut Desk) {
        if let Some(edit) = (self.empty)(desk.saved()) {
            desk.change(edit);
        }
    }

    fn extra(&self, job: &Job) -> Option<(String, Box<dyn Prompt>)> {
        let (name, figure) = (self.extra)(job)?;
        Some((name.to_owned(), Box::new(figure)))
    }

    fn focus(&self, _job: &Job) -> Focus {
        self.focus
    }
}

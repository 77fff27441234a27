//! One figure that the keypad asks for: what it is, what it changes, and which one comes next.

use super::Desk;
use crate::job::Job;
use crate::job::edit::Edit;
use crate::length::Unit;
use tautmark_ui::{KeySigns, Status};

/// What kind of figure it is: how it is read from the keys and shown.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum FigureKind {
    /// A length, in the job's own unit; mm inside.
    Length,
    /// A length of a tenth of a mm or so.
    FineLength,
    /// A length whose sign has a direction of its own, on two keys: the first is positive.
    Signed(KeySigns),
    /// Degrees.
    Degrees,
    /// A whole number.
    Count,
    /// A plain number with a unit of its own, such as “mm per m” or “litres”.
    Number(&'static str),
}

/// A figure of the job (or of a calculation) that can be typed.
pub trait Prompt {
    /// Tells this figure from every other: what was typed and not entered is kept under it.
    fn key(&self, job: &Job) -> String;

    /// “Tape, **A to C**”.
    fn title(&self, job: &Job) -> String;

    /// How it is typed.
    fn measure(&self) -> FigureKind;

    /// What the job has now.
    fn value(&self, job: &Job) -> Option<f64>;

    /// The unit that a length is typed in.
    fn unit(&self, job: &Job) -> Unit {
        job.show.lengths
    }

    /// Where nothing is there yet, the second sign key counts as pressed.
    fn usually_negative(&self) -> bool {
        false
    }

    /// What entering a figure does.
    fn enter(&self, job: &Job, value: f64) -> Entered;

    /// “9 of 13”: which of how many this one is.
    fn progress(&self, _job: &Job) -> Option<(usize, usize)> {
        None
    }

    /// The figure asked for after this one has been entered.
    fn next(&self, _job: &Job) -> Option<Box<dyn Prompt>> {
        None
    }

    /// What to say beside the figure: with nothing typed yet (`None`), how to take it; else
    /// whether it fits. `desk.solution` already has the figure in it.
    fn verdict(&self, _desk: &Desk, _typed: Option<f64>) -> Option<Status> {
        None
    }

    /// What is asked before a figure is entered that can hardly be meant; `None` for any other.
    fn question(&self, _desk: &Desk, _value: f64) -> Option<String> {
        None
    }

    /// Next, with nothing typed, says that what is shown is meant: a usual figure is then the job's own.
    fn confirms(&self) -> bool {
        false
    }

    /// A further key of this figure's own, such as “Slope”: its name and the figure it asks for.
    fn extra(&self, _job: &Job) -> Option<(String, Box<dyn Prompt>)> {
        None
    }

    /// Told when the figure that is there is taken away, with nothing typed: one that can be done
    /// without is empty then.
    fn emptied(&mut self, _desk: &mut Desk) {}

    /// What the drawing stresses while this figure is asked for.
    fn focus(&self, _job: &Job) -> Focus {
        Focus::Nothing
    }
}

/// What entering a figure does.
pub enum Entered {
    /// It changes the job.
    Edit(Box<Edit>),
    /// It is of a calculation, and kept on the desk.
    Desk(Box<dyn FnOnce(&mut Desk)>),
    /// It cannot be entered; the words say why, and what was typed stays.
    Refused(String),
}

/// What the drawing stresses.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Focus {
    /// Nothing of it.
    #[default]
    Nothing,
    /// A reading, by its place in the file.
    Reading(usize),
    /// A line, by its place in the file.
    Line(usize),
    /// A corner, by its place in the file.
    Corner(usize),
    /// A post: run by place in the file, post from 1.
    Post(usize, usize),
}

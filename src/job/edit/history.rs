//! What was done, and what was taken back.

use super::{Change, Edit, EditError, Setting, apply, label};
use crate::job::model::Job;
use serde::{Deserialize, Serialize};

/// One step, to be taken back or made again.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Step {
    /// What it was for a person, as a short line: “Tape A to C 10 881”.
    pub label: String,
    /// What does it.
    pub forward: Edit,
    /// What takes it back, exactly.
    pub back: Edit,
}

/// Every step of a job since it was first opened here, the latest last.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct History {
    done: Vec<Step>,
    undone: Vec<Step>,
    /// The latest step may still grow: nothing was undone or redone since it was made.
    open: bool,
}

impl History {
    /// A history as it was kept: the steps done, and those undone (the next to redo last).
    #[must_use]
    pub fn new(done: Vec<Step>, undone: Vec<Step>) -> Self {
        Self {
            done,
            undone,
            open: false,
        }
    }

    /// Steps done, the latest last.
    #[must_use]
    pub fn done(&self) -> &[Step] {
        &self.done
    }

    /// Steps undone, the next to redo last.
    #[must_use]
    pub fn undone(&self) -> &[Step] {
        &self.undone
    }

    /// Makes an edit as a step of its own.
    ///
    /// # Errors
    /// As [`apply`]; job and history are then as they were.
    pub fn push(&mut self, job: &mut Job, edit: Edit) -> Result<(), EditError> {
        let label = label(job, &edit);
        let back = apply(job, &edit)?;
        let forward = edit;
        self.keep(Step {
            label,
            forward,
            back,
        });
        Ok(())
    }

    /// Makes an edit as part of the latest step: the keystrokes of one figure are undone at once.
    /// After an undo, a redo or [`History::close`] it is a step of its own.
    ///
    /// # Errors
    /// As [`apply`]; job and history are then as they were.
    pub fn amend(&mut self, job: &mut Job, edit: Edit) -> Result<(), EditError> {
        if !self.open || self.done.is_empty() {
            return self.push(job, edit);
        }
        let label = label(job, &edit);
        let back = apply(job, &edit)?;
        if let Some(last) = self.done.pop() {
            let step = joined(last, label, edit, back);
            self.keep(step);
        }
        Ok(())
    }

    /// Ends the latest step: the next [`History::amend`] starts another.
    pub fn close(&mut self) {
        self.open = false;
    }

    /// Takes the latest step back and gives it; `None` where nothing is left to undo.
    ///
    /// # Errors
    /// As [`apply`], which happens only if the job was changed past this history.
    pub fn undo(&mut self, job: &mut Job) -> Result<Option<&Step>, EditError> {
        let Some(step) = self.done.last() else {
            return Ok(None);
        };
        apply(job, &step.back)?;
        self.undone.extend(self.done.pop());
        self.open = false;
        Ok(self.undone.last())
    }

    /// Makes the step last undone again and gives it; `None` where there is none.
    ///
    /// # Errors
    /// As [`apply`], which happens only if the job was changed past this history.
    pub fn redo(&mut self, job: &mut Job) -> Result<Option<&Step>, EditError> {
        let Some(step) = self.undone.last() else {
            return Ok(None);
        };
        apply(job, &step.forward)?;
        self.done.extend(self.undone.pop());
        self.open = false;
        Ok(self.done.last())
    }

    /// Forgets the oldest steps, keeping at most so many that can be undone.
    pub fn shorten(&mut self, most: usize) {
        let over = self.done.len().saturating_sub(most);
        self.done.drain(..over);
    }

    fn keep(&mut self, step: Step) {
        self.done.push(step);
        self.undone.clear();
        self.open = true;
    }
}

/// The latest step grown by one edit; an edit that overwrites the one before takes its place.
fn joined(last: Step, label: String, edit: Edit, back: Edit) -> Step {
    if let Some(forward) = overwritten(&last.forward, &edit) {
        let label = if matches!(forward, Edit::Reading(_)) || forward == edit {
            label
        } else {
            last.label
        };
        return Step {
            label,
            forward,
            back: last.back,
        };
    }
    let forward = match last.forward {
        Edit::Many(mut edits) => {
            edits.push(edit);
            Edit::Many(edits)
        }
        first => Edit::Many(vec![first, edit]),
    };
    Step {
        label: last.label,
        forward,
        back: both(back, last.back),
    }
}

/// Two ways back as one, the later first. They lie side by side: in each other they would lie as
/// deep as the step has keystrokes, deeper than the history's reader goes.
fn both(later: Edit, earlier: Edit) -> Edit {
    let edits = |edit| match edit {
        Edit::Restore(edits) => edits,
        one => vec![one],
    };
    let mut all = edits(later);
    all.extend(edits(earlier));
    Edit::Restore(all)
}

/// The single edit that stands for two, where the second sets the same thing again.
fn overwritten(first: &Edit, second: &Edit) -> Option<Edit> {
    let same = match (first, second) {
        (Edit::Set(a), Edit::Set(b)) => return same_setting(a, b).then(|| second.clone()),
        (Edit::Mark(a), Edit::Mark(b)) => Edit::Mark(later(a, b)?),
        (Edit::Wall(a), Edit::Wall(b)) => Edit::Wall(later(a, b)?),
        (Edit::Reading(a), Edit::Reading(b)) => Edit::Reading(later(a, b)?),
        (Edit::Line(a), Edit::Line(b)) => Edit::Line(later(a, b)?),
        (Edit::Corner(a), Edit::Corner(b)) => Edit::Corner(later(a, b)?),
        (Edit::Run(a), Edit::Run(b)) => Edit::Run(later(a, b)?),
        (Edit::Point(a), Edit::Point(b)) => Edit::Point(later(a, b)?),
        (Edit::Setup(a), Edit::Setup(b)) => Edit::Setup(later(a, b)?),
        (Edit::Marked(a), Edit::Marked(b)) => Edit::Marked(later(a, b)?),
        (Edit::Gate { run: r, change: a }, Edit::Gate { run, change: b }) if r == run => {
            let change = later(a, b)?;
            Edit::Gate { run: *run, change }
        }
        (Edit::Pin { run: r, change: a }, Edit::Pin { run, change: b }) if r == run => {
            let change = later(a, b)?;
            Edit::Pin { run: *run, change }
        }
        (
            Edit::Sight {
                setup: s,
                change: a,
            },
            Edit::Sight { setup, change: b },
        ) if s == setup => {
            let change = later(a, b)?;
            Edit::Sight {
                setup: *setup,
                change,
            }
        }
        _ => return None,
    };
    Some(same)
}

fn same_setting(a: &Setting, b: &Setting) -> bool {
    std::mem::discriminant(a) == std::mem::discriminant(b)
}

/// A value put in or replaced, and replaced again at the same place, is the later value.
fn later<T: Clone>(first: &Change<T>, second: &Change<T>) -> Option<Change<T>> {
    match (first, second) {
        (Change::Insert { at, .. }, Change::Replace { at: same, value }) if at == same => {
            let (at, value) = (*at, value.clone());
            Some(Change::Insert { at, value })
        }
        (Change::Replace { at, .. }, Change::Replace { at: same, .. }) if at == same => {
            Some(second.clone())
        }
        _ => None,
    }
}

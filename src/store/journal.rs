//! The history file: one line a change, each with a checksum of its own.
//!
//! ```text
//!   done   …        steps that can be undone, as they stood when the file was last put together
//!   undone …        steps that can be redone
//!   now    …        the whole job at that moment
//!   did    …        then one line for each change since
//!   grew   …
//!   undid  …
//! ```
//!
//! The lines after `now` bring the job forward without its own file, so a change is safe as soon
//! as its line is on the medium. A line that is torn or damaged ends the history there; what
//! comes after it serves a job's file that was written later.

use super::line::{HistoryLine, Print};
use crate::job::edit::{Edit, History, Step, apply};
use crate::job::{Job, read, write};

/// A history file as it was read.
#[derive(Debug, Default)]
pub(super) struct Journal {
    pub(super) history: History,
    /// Everything in the file was whole.
    pub(super) whole: bool,
    /// What the job's own file may hold for this history to be its own.
    known: Vec<Print>,
    /// The job's text at `now`, and the edits since.
    start: String,
    since: Vec<Edit>,
    /// The job's text after so many of those edits.
    stations: Vec<(Print, usize)>,
    /// Fingerprint of the job's text at the end.
    end: Option<Print>,
    /// What follows a damaged line: worth something to a job's file that was written after it.
    later: Option<Box<Journal>>,
}

impl Journal {
    /// Reads what is whole. Up to the first damaged line after `now` the history stands by itself; what
    /// comes later is kept for [`Journal::for_file`].
    pub(super) fn read(bytes: &[u8]) -> Self {
        let mut lines = bytes.split_inclusive(|&b| b == b'\n').peekable();
        let mut journal = Self::stretch(&mut lines);
        while lines.peek().is_some() {
            let next = Self::stretch(&mut lines);
            if next.end.is_none() {
                continue;
            }
            if journal.end.is_none() {
                // Only steps from before `now` were lost.
                journal = next;
            } else {
                journal.later = Some(Box::new(next));
            }
            journal.whole = false;
        }
        journal
    }

    /// Reads up to the next damaged line, and past it.
    fn stretch<'a>(lines: &mut impl Iterator<Item = &'a [u8]>) -> Self {
        let mut stacks = Stacks::default();
        let mut journal = Journal {
            whole: true,
            ..Journal::default()
        };
        for line in lines {
            let text = line
                .strip_suffix(b"\n")
                .and_then(|l| str::from_utf8(l).ok());
            let taken = text
                .and_then(HistoryLine::of)
                .and_then(|line| journal.take(line, &mut stacks));
            if taken.is_none() {
                journal.whole = false;
                break;
            }
        }
        journal.history = History::new(stacks.done, stacks.undone);
        journal
    }

    /// The part of the history that a job's file of this fingerprint belongs to.
    pub(super) fn for_file(mut self, print: Print) -> Self {
        match self.later.take() {
            Some(later) if later.knows(print) => Journal {
                whole: false,
                ..*later
            },
            _ => self,
        }
    }

    fn take(&mut self, line: HistoryLine, stacks: &mut Stacks) -> Option<()> {
        let after = match line {
            HistoryLine::Done(step) => {
                stacks.done.push(step);
                return Some(());
            }
            HistoryLine::Undone(step) => {
                stacks.undone.push(step);
                return Some(());
            }
            HistoryLine::Now { job, over } => {
                self.known = over;
                self.since.clear();
                self.stations.clear();
                let after = Print::of(job.as_bytes());
                self.start = job;
                after
            }
            HistoryLine::Did { step, after } => {
                self.since.push(step.forward.clone());
                stacks.done.push(step);
                stacks.undone.clear();
                after
            }
            HistoryLine::Grew { step, after } => {
                let last = stacks.done.pop()?;
                self.since.push(last.back);
                self.since.push(step.forward.clone());
                stacks.done.push(step);
                stacks.undone.clear();
                after
            }
            HistoryLine::Undid { after } => {
                let step = stacks.done.pop()?;
                self.since.push(step.back.clone());
                stacks.undone.push(step);
                after
            }
            HistoryLine::Redid { after } => {
                let step = stacks.undone.pop()?;
                self.since.push(step.forward.clone());
                stacks.done.push(step);
                after
            }
        };
        self.known.push(after);
        self.stations.push((after, self.since.len()));
        self.end = Some(after);
        Some(())
    }

    /// True where the last line of a history file says that it ends with this text.
    pub(super) fn file_ends_with(bytes: &[u8], print: Print) -> bool {
        let lines = bytes.strip_suffix(b"\n").unwrap_or_default();
        let last = lines.rsplit(|&b| b == b'\n').next();
        let line = last.and_then(|l| HistoryLine::of(str::from_utf8(l).ok()?));
        let mut journal = Journal::default();
        line.is_some_and(|line| match line {
            HistoryLine::Did { after, .. }
            | HistoryLine::Grew { after, .. }
            | HistoryLine::Undid { after }
            | HistoryLine::Redid { after } => after == print,
            now => journal.take(now, &mut Stacks::default()).is_some() && journal.ends_with(print),
        })
    }

    /// True where the history ends with exactly this text.
    pub(super) fn ends_with(&self, print: Print) -> bool {
        self.end == Some(print)
    }

    /// True where the text was this job's at some point of the history.
    pub(super) fn knows(&self, print: Print) -> bool {
        self.known.contains(&print)
    }

    /// The job the history ends with; `None` where its edits do not lead to what they say.
    pub(super) fn job(&self) -> Option<Job> {
        let start = read(&self.start).ok()?.job;
        self.led_to(start, &self.since)
    }

    /// The job the history ends with, from a job that it says was there on the way.
    pub(super) fn job_after(&self, job: &Job, print: Print) -> Option<Job> {
        let mut stations = self.stations.iter().rev();
        let (_, from) = stations.find(|(station, _)| *station == print)?;
        self.led_to(job.clone(), self.since.get(*from..)?)
    }

    fn led_to(&self, mut job: Job, edits: &[Edit]) -> Option<Job> {
        for edit in edits {
            apply(&mut job, edit).ok()?;
        }
        let text = write(&job).ok()?;
        self.ends_with(Print::of(text.as_bytes())).then_some(job)
    }
}

#[derive(Default)]
struct Stacks {
    done: Vec<Step>,
    undone: Vec<Step>,
}

/// The text of a history file put together afresh: the steps, then the job as it is. `over` is
/// what the job's own file may hold.
pub(super) fn afresh(
    history: &History,
    job: &str,
    over: &[Print],
) -> Result<String, serde_json::Error> {
    let mut text = String::new();
    for step in history.done() {
        text.push_str(&HistoryLine::Done(step.clone()).text()?);
    }
    for step in history.undone() {
        text.push_str(&HistoryLine::Undone(step.clone()).text()?);
    }
    let now = HistoryLine::Now {
        job: job.to_owned(),
        over: over.to_vec(),
    };
    text.push_str(&now.text()?);
    Ok(text)
}

/// How many of the latest steps fit in so many bytes of a history file.
pub(super) fn fitting(history: &History, bytes: usize) -> usize {
    let mut left = bytes;
    let sizes = history
        .done()
        .iter()
        .rev()
        .map(|step| serde_json::to_string(step).map_or(0, |s| s.len()));
    sizes
        .take_while(|size| match left.checked_sub(*size) {
            Some(rest) => {
                left = rest;
                true
            }
            None => false,
        })
        .count()
}

#[cfg(test)]
mod tests;

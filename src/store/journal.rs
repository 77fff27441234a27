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
//! as its line is on the medium. A line that is torn or damaged ends the history there.

use crate::job::edit::{Edit, History, Step, apply};
use crate::job::{Job, read, write};
use serde::{Deserialize, Serialize};

/// Fingerprint of a job file's text: its checksum and its length.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(transparent)]
pub(super) struct Print(u64);

impl Print {
    pub(super) fn of(text: &[u8]) -> Self {
        let length = text.len() as u64 & 0xffff_ffff;
        Self(u64::from(crc32fast::hash(text)) << 32 | length)
    }
}

/// One line of the history file.
#[derive(Debug, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub(super) enum Line {
    Done(Step),
    Undone(Step),
    /// The job's text, and what its own file may hold at this moment.
    Now {
        job: String,
        over: Vec<Print>,
    },
    Did {
        step: Step,
        after: Print,
    },
    /// The latest step has grown to this one.
    Grew {
        step: Step,
        after: Print,
    },
    Undid {
        after: Print,
    },
    Redid {
        after: Print,
    },
}

const HEAD: &str = "{\"sum\":\"";
const MIDDLE: &str = "\",\"is\":";
const TAIL: &str = "}";

impl Line {
    /// The line with its checksum, ending in a line break.
    pub(super) fn text(&self) -> Result<String, serde_json::Error> {
        let body = serde_json::to_string(self)?;
        let sum = crc32fast::hash(body.as_bytes());
        Ok(format!("{HEAD}{sum:08x}{MIDDLE}{body}{TAIL}\n"))
    }

    /// The line, if it is whole.
    fn of(text: &str) -> Option<Self> {
        let rest = text.strip_prefix(HEAD)?;
        let (sum, rest) = rest.split_once(MIDDLE)?;
        let body = rest.strip_suffix(TAIL)?;
        let right = u32::from_str_radix(sum, 16) == Ok(crc32fast::hash(body.as_bytes()));
        right.then(|| serde_json::from_str(body).ok())?
    }
}

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
    /// Fingerprint of the job's text at the end.
    end: Option<Print>,
}

impl Journal {
    /// Reads as far as the lines are whole.
    pub(super) fn read(bytes: &[u8]) -> Self {
        let mut stacks = Stacks::default();
        let mut journal = Journal {
            whole: true,
            ..Journal::default()
        };
        for line in bytes.split_inclusive(|&b| b == b'\n') {
            let text = line
                .strip_suffix(b"\n")
                .and_then(|l| str::from_utf8(l).ok());
            let taken = text
                .and_then(Line::of)
                .and_then(|line| journal.take(line, &mut stacks));
            if taken.is_none() {
                journal.whole = false;
                break;
            }
        }
        journal.history = History::new(stacks.done, stacks.undone);
        journal
    }

    fn take(&mut self, line: Line, stacks: &mut Stacks) -> Option<()> {
        let after = match line {
            Line::Done(step) => {
                stacks.done.push(step);
                return Some(());
            }
            Line::Undone(step) => {
                stacks.undone.push(step);
                return Some(());
            }
            Line::Now { job, over } => {
                self.known = over;
                self.since.clear();
                let after = Print::of(job.as_bytes());
                self.start = job;
                after
            }
            Line::Did { step, after } => {
                self.since.push(step.forward.clone());
                stacks.done.push(step);
                stacks.undone.clear();
                after
            }
            Line::Grew { step, after } => {
                let last = stacks.done.pop()?;
                self.since.push(last.back);
                self.since.push(step.forward.clone());
                stacks.done.push(step);
                stacks.undone.clear();
                after
            }
            Line::Undid { after } => {
                let step = stacks.done.pop()?;
                self.since.push(step.back.clone());
                stacks.undone.push(step);
                after
            }
            Line::Redid { after } => {
                let step = stacks.undone.pop()?;
                self.since.push(step.forward.clone());
                stacks.done.push(step);
                after
            }
        };
        self.known.push(after);
        self.end = Some(after);
        Some(())
    }

    /// True where the last line of a history file says that it ends with this text.
    pub(super) fn file_ends_with(bytes: &[u8], print: Print) -> bool {
        let lines = bytes.strip_suffix(b"\n").unwrap_or_default();
        let last = lines.rsplit(|&b| b == b'\n').next();
        let line = last.and_then(|l| Line::of(str::from_utf8(l).ok()?));
        let mut journal = Journal::default();
        line.is_some_and(|line| match line {
            Line::Did { after, .. }
            | Line::Grew { after, .. }
            | Line::Undid { after }
            | Line::Redid { after } => after == print,
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
        let mut job = read(&self.start).ok()?.job;
        for edit in &self.since {
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
        text.push_str(&Line::Done(step.clone()).text()?);
    }
    for step in history.undone() {
        text.push_str(&Line::Undone(step.clone()).text()?);
    }
    let now = Line::Now {
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
mod tests {
    use super::*;
    use crate::job::edit::Setting;

    fn title(text: &str) -> Edit {
        Edit::Set(Setting::Title(text.to_owned()))
    }

    /// A history of one title after another, undone once, as a file, with the job at its end.
    fn file() -> (Vec<u8>, Job) {
        let mut job = Job::new("start");
        let mut history = History::default();
        let text = |job: &Job| write(job).expect("a job can be written");
        let mut file = afresh(&history, &text(&job), &[]).expect("a history can be written");
        let mut add = |line: Line| file.push_str(&line.text().expect("a line can be written"));
        for name in ["one", "two", "three"] {
            history.push(&mut job, title(name)).expect("a title");
            let step = history.done().last().expect("a step").clone();
            let after = Print::of(text(&job).as_bytes());
            add(Line::Did { step, after });
        }
        history.undo(&mut job).expect("undo");
        let after = Print::of(text(&job).as_bytes());
        add(Line::Undid { after });
        (file.into_bytes(), job)
    }

    #[test]
    fn a_history_leads_to_its_job() {
        let (bytes, job) = file();
        let journal = Journal::read(&bytes);
        assert!(journal.whole);
        assert_eq!(journal.job(), Some(job));
        assert_eq!(journal.history.done().len(), 2);
        assert_eq!(journal.history.undone().len(), 1);
    }

    #[test]
    fn a_history_cut_anywhere_holds_up_to_its_last_whole_line() {
        let (bytes, _) = file();
        let titles = ["start", "one", "two", "three", "two"];
        for cut in 0..bytes.len() {
            let lines = bytes[..cut].iter().filter(|&&b| b == b'\n').count();
            let job = Journal::read(&bytes[..cut]).job();
            let expected = lines.checked_sub(1).map(|n| titles[n].to_owned());
            assert_eq!(job.map(|j| j.title), expected, "cut at {cut}");
        }
    }

    #[test]
    fn a_damaged_byte_is_never_taken_for_a_change() {
        let (bytes, _) = file();
        for place in 0..bytes.len() {
            let mut damaged = bytes.clone();
            damaged[place] ^= 1;
            let journal = Journal::read(&damaged);
            assert!(!journal.whole, "byte {place}");
            let said = journal.job().map(|job| job.title);
            let said = said.as_deref();
            assert!(matches!(
                said,
                None | Some("start" | "one" | "two" | "three")
            ));
        }
    }
}

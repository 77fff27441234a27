//! What the desk holds until it is on the disk: the open job, and those put aside; tried again while
//! they cannot be written, and never let go of before that.

use super::{Desk, Then};
use crate::job::model::VERSION;
use crate::store::{Access, Cause, JobKey, OpenError, OpenJob, Trouble, ViewOnly};
use tautmark_ui::Place;

/// What is said over every page until it is no longer so: in words, and what can be done.
pub(crate) struct Warning {
    /// The words.
    pub text: String,
    /// The name of what can be done; empty where there is nothing.
    pub action: &'static str,
}

impl Desk {
    /// What is changed next is a step of its own.
    pub(crate) fn close_step(&mut self) {
        if let Some(open) = &mut self.open {
            open.close_step();
        }
    }

    /// True where this job is the one on the desk.
    #[must_use]
    pub fn is_open(&self, key: &JobKey) -> bool {
        self.open().is_some_and(|open| open.key() == key)
    }

    /// Opens a job of the list and puts it on the desk. While it is read and solved there is a note of
    /// it: a job that ends the program is left alone at the next start.
    ///
    /// # Errors
    /// Where it cannot be opened; what was on the desk stays there.
    pub fn open_key(&mut self, key: &JobKey) -> Result<(), OpenError> {
        let open = match self.out_of_aside(key) {
            Some(open) => open,
            None => {
                // Without a note it can be opened all the same.
                let _ = self.jobs.note_opening(key);
                self.jobs
                    .open(key)
                    .inspect_err(|_| self.jobs.note_opened(key))?
            }
        };
        self.take(open);
        self.jobs.note_opened(key);
        self.not_opened.remove(key);
        Ok(())
    }

    /// Puts a job on the desk in place of the one that is there.
    pub fn take(&mut self, open: OpenJob) {
        self.put_away();
        self.open = Some(open);
        self.told.clear();
        self.chosen = Default::default();
        self.view.whole();
        self.sheet = Default::default();
        self.hear();
        self.solve();
    }

    /// Takes the job off the desk. What of it cannot be written is kept aside until it can.
    pub fn put_away(&mut self) {
        self.leave_entry();
        if let Some(mut open) = self.open.take() {
            open.settle();
            self.aside.push(open);
            self.hear();
            self.aside.retain(|open| open.trouble().is_some());
        }
        self.solve();
    }

    /// The job of this key that is in memory only since it could not be written.
    pub(crate) fn out_of_aside(&mut self, key: &JobKey) -> Option<OpenJob> {
        let at = self.aside.iter().position(|open| open.key() == key)?;
        Some(self.aside.remove(at))
    }

    /// Brings the files of what is on the desk up to date; true where the store had something to tell.
    pub fn settle(&mut self) -> bool {
        self.each(OpenJob::settle)
    }

    /// Tries again to write what could not be written.
    pub fn retry(&mut self) -> Then {
        if self.trouble().is_some() {
            self.each(|open| {
                open.retry();
            });
        }
        Then::Stay
    }

    fn each(&mut self, what: impl FnMut(&mut OpenJob)) -> bool {
        let was_in_trouble = self.trouble().is_some();
        self.open.iter_mut().chain(&mut self.aside).for_each(what);
        let told = self.hear();
        self.aside.retain(|open| open.trouble().is_some());
        if was_in_trouble && self.trouble().is_none() {
            self.say("Everything is saved.");
        }
        told
    }

    /// Says what the store has to tell; true where that is something.
    pub(crate) fn hear(&mut self) -> bool {
        const TITLE: &str = "About this job";
        let all = self.open.iter_mut().chain(&mut self.aside);
        let said: Vec<String> = all
            .flat_map(OpenJob::take_notices)
            .map(|notice| notice.to_string())
            .collect();
        if said.is_empty() {
            return false;
        }
        let before = self.notice.take().filter(|notice| notice.title == TITLE);
        let words = before.into_iter().map(|notice| notice.text).chain(said);
        let words: Vec<String> = words.collect();
        self.explain(TITLE, &words.join("\n\n"));
        true
    }

    /// Why something is in memory only; `None` where everything is on the disk.
    #[must_use]
    pub fn trouble(&self) -> Option<&Trouble> {
        let mut all = self.open.iter().chain(&self.aside);
        all.find_map(OpenJob::trouble)
    }

    /// The same in words, naming the job where it is not the one on the desk.
    #[must_use]
    pub fn unsaved(&self) -> Option<String> {
        if let Some(trouble) = self.open.as_ref().and_then(OpenJob::trouble) {
            return Some(trouble.unsaved());
        }
        let open = self.aside.first()?;
        let words = open.trouble()?.unsaved();
        Some(format!("“{}” is not saved. {words}", open.job().title))
    }

    fn view_only(&self) -> Option<ViewOnly> {
        match self.open.as_ref()?.access() {
            Access::View(why) => Some(why),
            Access::Change => None,
        }
    }

    /// What is to be said over every page now.
    pub(crate) fn warning(&self) -> Option<Warning> {
        if let Some(text) = self.unsaved() {
            let elsewhere = self.elsewhere();
            let action = if elsewhere { "Copy it" } else { "Try now" };
            return Some(Warning { text, action });
        }
        self.view_only().map(|why| Warning {
            text: why.to_string(),
            action: "Copy it",
        })
    }

    /// The job on the desk cannot be written since another window has it.
    fn elsewhere(&self) -> bool {
        let trouble = self.open.as_ref().and_then(OpenJob::trouble);
        trouble.is_some_and(|trouble| trouble.cause == Cause::OpenElsewhere)
    }

    /// The whole of the warning, over the page.
    pub(crate) fn explain_warning(&mut self) -> Then {
        if let Some(warning) = self.warning() {
            let title = match self.trouble() {
                Some(_) => "Not saved yet",
                None => "For viewing only",
            };
            self.explain(title, &warning.text);
        }
        Then::Stay
    }

    /// Does what the warning offers.
    pub(crate) fn answer_warning(&mut self) -> Then {
        match self.view_only() {
            Some(ViewOnly::NewerVersion) => self.ask_first(
                "A copy for this version",
                "The copy can be changed here. It keeps what this version understands; what only the newer program knows may be missing from its figures. Compare the two before you build.",
                "Make the copy",
                |desk| {
                    desk.copy_open();
                    Then::Stay
                },
            ),
            Some(ViewOnly::OpenElsewhere) => self.go_on_with_copy(),
            None if self.elsewhere() => self.go_on_with_copy(),
            None => self.retry(),
        }
    }

    fn go_on_with_copy(&mut self) -> Then {
        self.copy_open();
        Then::Go(Place::Walls)
    }

    /// Puts a copy of the job that is on the desk in its place.
    pub(crate) fn copy_open(&mut self) {
        let mut job = self.saved().clone();
        job.title = format!("{} (copy)", job.title);
        job.version = job.version.min(VERSION);
        let copy = self.jobs.start(job);
        if copy.trouble().is_none() && self.elsewhere() {
            // All of it is in the copy: nothing waits to be written any more.
            self.leave_entry();
            self.open = None;
        }
        self.take(copy);
        self.say("This is the copy.");
    }
}

//! Keeping what is on the desk: brought up to date on the disk when nobody is typing, tried again
//! while it cannot be written, and never let go of before that.

use super::{Bridge, Desk, Notice, Then, left, retitle};
use crate::job::model::VERSION;
use crate::store::{Access, Cause, JobKey, OpenJob, Trouble, ViewOnly};
use slint::{CloseRequestResponse, ComponentHandle, Timer, TimerMode};
use std::cell::RefCell;
use std::rc::Rc;
use std::time::Duration;
use tautmark_ui::{App, Page, Place};

/// So long after the last change or move everything is brought up to date.
const QUIET: Duration = Duration::from_secs(1);
/// So often is tried again to write what could not be written.
const AGAIN: Duration = Duration::from_secs(3);

/// When to save, and what was noted last of where the person is.
#[derive(Default)]
pub(super) struct Keeping {
    quiet: Timer,
    again: Timer,
    filling: Timer,
    pub(super) noted: RefCell<String>,
}

/// What is said over every page until it is no longer so: in words, and what can be done.
pub(super) struct Warning {
    pub text: String,
    pub action: &'static str,
}

pub(super) fn wire(app: &App, bridge: &Rc<Bridge>) {
    // A window may outlive the screens in it.
    let me = Rc::downgrade(bridge);
    app.window().on_close_requested(move || {
        let bridge = me.upgrade();
        bridge.map_or(CloseRequestResponse::HideWindow, |bridge| bridge.closing())
    });
}

impl Bridge {
    /// Brings everything up to date on the disk, and notes where the person is: when nobody is
    /// typing, before a system may end the program without a word, and at the end.
    pub fn pause(&self) {
        let Ok(mut desk) = self.desk.try_borrow_mut() else {
            return;
        };
        let before = desk.trouble().cloned();
        desk.settle();
        let told = desk.notice.is_some() || desk.trouble() != before.as_ref();
        drop(desk);
        self.note_where();
        if told {
            self.show();
        }
    }

    /// Sees to it that what has changed is brought up to date soon.
    pub(super) fn keep(&self) {
        let me = self.me.clone();
        let quiet = move || {
            if let Some(bridge) = me.upgrade() {
                bridge.pause();
            }
        };
        self.keeping
            .quiet
            .start(TimerMode::SingleShot, QUIET, quiet);
        let again = &self.keeping.again;
        if self.look(|desk| desk.trouble().is_none()) {
            again.stop();
        } else if !again.running() {
            let me = self.me.clone();
            again.start(TimerMode::Repeated, AGAIN, move || {
                if let Some(bridge) = me.upgrade() {
                    bridge.act(Desk::retry);
                }
            });
        }
    }

    /// Fills the rest of a long list once the window has answered.
    pub(super) fn go_on_filling(&self) {
        let me = self.me.clone();
        let filling = &self.keeping.filling;
        filling.start(TimerMode::SingleShot, Duration::ZERO, move || {
            if let Some(bridge) = me.upgrade() {
                bridge.refresh();
            }
        });
    }

    fn note_where(&self) {
        let Some(app) = self.app.upgrade() else {
            return;
        };
        let text = self.look(|desk| left::text(&app, desk));
        if *self.keeping.noted.borrow() == text {
            return;
        }
        // Where the person is can be noted the next time; it is no reason to speak.
        if self.look(|desk| desk.jobs.remember(&text)).is_ok() {
            self.keeping.noted.replace(text);
        }
    }

    /// The window is asked to close: not before everything is on the disk, or the person says so.
    fn closing(&self) -> CloseRequestResponse {
        self.pause();
        let Some(words) = self.look(Desk::unsaved) else {
            return CloseRequestResponse::HideWindow;
        };
        self.act(|desk| {
            desk.notice = Some(Notice {
                title: "Not everything is saved".to_owned(),
                text: words,
                action: Some((
                    "Close all the same".to_owned(),
                    Box::new(|desk| desk.leaving = true),
                )),
            });
            Then::Stay
        });
        CloseRequestResponse::KeepWindowShown
    }
}

impl Desk {
    /// What was begun on a page ends as it is left.
    pub(super) fn arrive(&mut self, page: Page) {
        if self.page.replace(page) == Some(page) {
            return;
        }
        if let Some(open) = &mut self.open {
            open.close_step();
        }
        if page != Page::Settings {
            self.renaming = None;
        }
        if page != Page::Rename {
            retitle::done(self);
        }
    }

    /// Puts a job on the desk in place of the one that is there.
    pub fn take(&mut self, open: OpenJob) {
        self.put_away();
        self.open = Some(open);
        self.told.clear();
        self.chosen = Default::default();
        self.view.refit();
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
    pub(super) fn out_of_aside(&mut self, key: &JobKey) -> Option<OpenJob> {
        let at = self.aside.iter().position(|open| open.key() == key)?;
        Some(self.aside.remove(at))
    }

    /// Brings the files of what is on the desk up to date.
    pub fn settle(&mut self) {
        self.each(OpenJob::settle);
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

    fn each(&mut self, what: impl FnMut(&mut OpenJob)) {
        let was_in_trouble = self.trouble().is_some();
        self.open.iter_mut().chain(&mut self.aside).for_each(what);
        self.hear();
        self.aside.retain(|open| open.trouble().is_some());
        if was_in_trouble && self.trouble().is_none() {
            self.say("Everything is saved.");
        }
    }

    /// Says what the store has to tell.
    pub(super) fn hear(&mut self) {
        let all = self.open.iter_mut().chain(&mut self.aside);
        let said: Vec<String> = all
            .flat_map(OpenJob::take_notices)
            .map(|notice| notice.to_string())
            .collect();
        if said.is_empty() {
            return;
        }
        let before = self.notice.take();
        let words = before.into_iter().map(|notice| notice.text).chain(said);
        self.notice = Some(Notice {
            title: "About this job".to_owned(),
            text: words.collect::<Vec<_>>().join("\n\n"),
            action: None,
        });
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
    pub(super) fn warning(&self) -> Option<Warning> {
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
    pub(super) fn explain_warning(&mut self) -> Then {
        if let Some(warning) = self.warning() {
            let title = match self.trouble() {
                Some(_) => "Not saved yet",
                None => "Shown, not changed",
            };
            self.explain(title, &warning.text);
        }
        Then::Stay
    }

    /// Does what the warning offers.
    pub(super) fn answer_warning(&mut self) -> Then {
        match self.view_only() {
            Some(ViewOnly::NewerVersion) => {
                self.notice = Some(Notice {
                    title: "A copy for this version".to_owned(),
                    text: "The copy can be changed here. It keeps what this version understands; what only the newer program knows may be missing from its figures. Compare the two before you build.".to_owned(),
                    action: Some(("Make the copy".to_owned(), Box::new(|desk| desk.copy_open()))),
                });
                Then::Stay
            }
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
    pub(super) fn copy_open(&mut self) {
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

//! Saving what is on the desk: what is entered at once, what is being typed once a second, again while
//! it cannot be written, and before the window closes.

use super::{Bridge, left};
use crate::app::desk::{Desk, Then};
use slint::{CloseRequestResponse, ComponentHandle, Timer, TimerMode};
use std::cell::RefCell;
use std::collections::BTreeMap;
use std::rc::Rc;
use std::time::Duration;
use tautmark_ui::App;

/// No change or move waits longer than this until everything is brought up to date.
const SOON: Duration = Duration::from_secs(1);
/// So often is tried again to write what could not be written.
const AGAIN: Duration = Duration::from_secs(3);

/// When to save, and what was noted last of where the person is.
#[derive(Default)]
pub struct Saving {
    soon: Timer,
    again: Timer,
    filling: Timer,
    noted: RefCell<String>,
    /// The figures of no job, as they were when they were last looked at.
    figures: RefCell<BTreeMap<String, f64>>,
}

pub fn wire(app: &App, bridge: &Rc<Bridge>) {
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
        let told = desk.settle() || desk.trouble() != before.as_ref();
        drop(desk);
        self.note_where();
        if told {
            self.show();
        }
    }

    /// Sees to it that what has changed is brought up to date soon. The job's own figures are on the
    /// disk as soon as they are entered; so are those that belong to no job.
    pub(super) fn keep(&self) {
        let entered = self.look(|desk| {
            let mut known = self.saving.figures.borrow_mut();
            let entered = *known != desk.figures;
            if entered {
                known.clone_from(&desk.figures);
            }
            entered
        });
        if entered {
            self.note_where();
        }
        let soon = &self.saving.soon;
        // A timer that began again at every key would never end for someone who types on.
        if !soon.running() {
            let me = self.me.clone();
            soon.start(TimerMode::SingleShot, SOON, move || {
                if let Some(bridge) = me.upgrade() {
                    bridge.pause();
                }
            });
        }
        let again = &self.saving.again;
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
        let filling = &self.saving.filling;
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
        let text = self.look(|desk| left::text(&app, desk, self.house.screens));
        if *self.saving.noted.borrow() == text {
            return;
        }
        // Where the person is can be noted the next time; it is no reason to speak.
        if self.look(|desk| desk.jobs.remember(&text)).is_ok() {
            self.saving.noted.replace(text);
        }
    }

    /// The window is asked to close: not before everything is on the disk, or the person says so.
    fn closing(&self) -> CloseRequestResponse {
        self.pause();
        let Some(words) = self.look(Desk::unsaved) else {
            return CloseRequestResponse::HideWindow;
        };
        self.act(|desk| {
            desk.ask_first(
                "Not everything is saved",
                words,
                "Close all the same",
                |desk| {
                    desk.leaving = true;
                    Then::Stay
                },
            )
        });
        CloseRequestResponse::KeepWindowShown
    }
}

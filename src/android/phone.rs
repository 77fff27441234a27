//! What a phone can do with a file and with its screen.

use super::activity::{Activity, Came};
use crate::app::Bridge;
use crate::app::device::{Brought, Device, Handed, Picked, Way};
use slint::android::AndroidApp;
use slint::android::android_activity::WindowManagerFlags;
use std::cell::{Cell, RefCell};

/// The phone the app runs on.
pub(super) struct Phone {
    activity: Activity,
    app: AndroidApp,
    /// To be told what was picked.
    asked: RefCell<Option<Box<dyn FnOnce(Picked)>>>,
    awake: Cell<bool>,
}

impl Phone {
    pub(super) fn new(activity: Activity, app: AndroidApp) -> Self {
        Self {
            activity,
            app,
            asked: RefCell::default(),
            awake: Cell::default(),
        }
    }

    /// Brings in what was picked, or what another program handed over, while the app was behind.
    pub(super) fn look_for_file(&self, bridge: &Bridge) {
        let answered = self.activity.answered().unwrap_or_default();
        let asked = if answered {
            self.asked.borrow_mut().take()
        } else {
            None
        };
        let picked = match self.activity.take_brought() {
            Ok(came) => came.map(read).transpose(),
            Err(error) => Err(format!(
                "The file cannot be taken over ({error}). Try again."
            )),
        };
        match (asked, picked) {
            (Some(then), picked) => then(picked),
            (None, Ok(None)) => {}
            (None, picked) => bridge.bring_in(picked),
        }
    }
}

fn read((name, bytes): Came) -> Result<Brought, String> {
    match bytes {
        Some(bytes) => Ok(Brought { name, bytes }),
        None => Err(format!(
            "{name} cannot be read. See that it is still there, and open it again."
        )),
    }
}

impl Device for Phone {
    fn hand_over(&self, file: &Handed, way: Way) -> Result<String, String> {
        let Handed {
            name,
            media_type,
            bytes,
        } = file;
        let share = way == Way::Share;
        let wrong = match self.activity.hand_over(name, media_type, bytes, share) {
            Ok(None) => return Ok(format!("{name} is in Downloads, in the folder Tautmark.")),
            Ok(Some(wrong)) => wrong,
            Err(error) => error.to_string(),
        };
        Err(format!(
            "{name} cannot be saved ({wrong}). Free some space and try again."
        ))
    }

    fn ways(&self) -> &'static [Way] {
        &[Way::Share, Way::Save]
    }

    fn pick(&self, then: Box<dyn FnOnce(Picked)>) {
        match self.activity.pick() {
            Ok(()) => _ = self.asked.replace(Some(then)),
            Err(error) => then(Err(format!(
                "The phone's files cannot be shown ({error}). Open the job file from there with Tautmark instead."
            ))),
        }
    }

    fn keep_awake(&self, awake: bool) {
        if self.awake.replace(awake) == awake {
            return;
        }
        let (on, none) = (
            WindowManagerFlags::KEEP_SCREEN_ON,
            WindowManagerFlags::empty(),
        );
        let (add, remove) = if awake { (on, none) } else { (none, on) };
        self.app.set_window_flags(add, remove);
    }
}

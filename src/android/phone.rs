//! What a phone can do with a file, with its screen and with its voice.

use super::activity::{Activity, Came};
use crate::app::Bridge;
use crate::app::device::{Brought, Device, Handed, Picked, Voice, Way};
use slint::android::AndroidApp;
use slint::android::android_activity::WindowManagerFlags;
use std::cell::{Cell, OnceCell, RefCell};

/// No job is nearly as long, bytes.
const LONGEST: i32 = 16 << 20;

/// The phone the app runs on.
pub(super) struct Phone {
    activity: Activity,
    app: AndroidApp,
    /// To be told what was picked.
    asked: RefCell<Option<Box<dyn FnOnce(Picked)>>>,
    awake: Cell<bool>,
    /// Whether it can read aloud, once that was asked.
    speaks: OnceCell<bool>,
}

impl Phone {
    pub(super) fn new(activity: Activity, app: AndroidApp) -> Self {
        Self {
            activity,
            app,
            asked: RefCell::default(),
            awake: Cell::default(),
            speaks: OnceCell::new(),
        }
    }

    /// Looks for a file that was picked, or that another program handed over, while the app was
    /// behind; it is brought in once it is read. The window goes on meanwhile.
    pub(super) fn look_for_file(&self) {
        let activity = self.activity.clone();
        let reading = std::thread::Builder::new().spawn(move || {
            let came = activity
                .take_brought(LONGEST)
                .map_err(|error| format!("The file cannot be taken over ({error}). Try again."));
            // Where the window is gone by now the file is still where it was.
            _ = slint::invoke_from_event_loop(move || {
                if let Some(open) = super::open() {
                    open.phone.bring_in(&open.bridge, came);
                }
            });
        });
        if let Err(error) = reading {
            self.say(format!(
                "The phone has no room to look for a file ({error}). Close other programs and try again."
            ));
        }
    }

    fn bring_in(&self, bridge: &Bridge, came: Result<Option<Came>, String>) {
        let picked = match came {
            Ok(None) => return,
            Ok(Some(Came::Nothing)) => Ok(None),
            Ok(Some(Came::File(name, bytes))) => read(name, bytes).map(Some),
            Err(words) => Err(words),
        };
        match self.asked.take() {
            Some(then) => then(picked),
            None => bridge.bring_in(picked),
        }
    }

    /// Says what is wrong to whoever waits for a file.
    fn say(&self, words: String) {
        if let Some(then) = self.asked.take() {
            then(Err(words));
        }
    }
}

fn read(name: String, bytes: Option<Vec<u8>>) -> Result<Brought, String> {
    match bytes {
        Some(bytes) if bytes.len() > LONGEST as usize => Err(format!(
            "{name} is longer than a job can be ({} MB). Open a job file: its name ends in .job.json.",
            LONGEST >> 20
        )),
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
        let handed = match way {
            Way::Share => self.activity.share(name, media_type, bytes),
            Way::Save => self.activity.save(name, media_type, bytes),
        };
        let wrong = match (handed, way) {
            (Ok(None), Way::Share) => return Ok(format!("{name} is ready to be sent.")),
            (Ok(None), Way::Save) => {
                return Ok(format!("{name} is in Downloads, in the folder Tautmark."));
            }
            (Ok(Some(wrong)), _) => wrong,
            (Err(error), _) => error.to_string(),
        };
        let done = match way {
            Way::Share => "shared",
            Way::Save => "saved",
        };
        Err(format!(
            "{name} cannot be {done} ({wrong}). Free some space and try again."
        ))
    }

    fn ways(&self) -> &'static [Way] {
        &[Way::Share, Way::Save]
    }

    fn pick(&self, then: Box<dyn FnOnce(Picked)>) {
        match self.activity.pick() {
            Ok(()) => _ = self.asked.replace(Some(then)),
            Err(error) => then(Err(format!(
                "The phone's files cannot be shown ({error}). Find the job file in the phone’s own files and open it with Tautmark."
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

    fn voice(&self) -> Option<&dyn Voice> {
        let ask = || self.activity.has_voice().unwrap_or(false);
        self.speaks.get_or_init(ask).then_some(self)
    }
}

impl Voice for Phone {
    fn say(&self, words: &str) {
        told(self.activity.say(words));
    }

    fn hush(&self) {
        told(self.activity.hush());
    }
}

/// What a voice cannot do is seen on the screen as well; it goes into the system's log.
fn told(done: jni::errors::Result<()>) {
    if let Err(error) = done {
        eprintln!("Nothing can be read aloud: {error}");
    }
}

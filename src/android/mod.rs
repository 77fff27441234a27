//! The app on an Android phone: started by the system, in the folder it keeps for the app.

mod activity;
mod phone;
#[cfg(no_unwinder)]
mod unwind;
mod wheel;

use crate::app::{self, Bridge};
use crate::store::Jobs;
use activity::Activity;
use phone::Phone;
use slint::ComponentHandle;
use slint::android::AndroidApp;
use slint::android::android_activity::{MainEvent, PollEvent};
use std::cell::RefCell;
use std::error::Error;
use std::rc::Rc;
use tautmark_ui::App;

/// The app while it is open.
struct Open {
    window: App,
    bridge: Rc<Bridge>,
    phone: Rc<Phone>,
}

thread_local! {
    /// One to a thread: the system starts the app on a new one each time.
    static OPEN: RefCell<Option<Rc<Open>>> = const { RefCell::new(None) };
}

/// The app, where it is open on this thread.
fn open() -> Option<Rc<Open>> {
    OPEN.with_borrow(Clone::clone)
}

/// Called by the system on a thread of its own for every window it makes of the app.
#[unsafe(no_mangle)]
fn android_main(app: AndroidApp) {
    if let Err(error) = run(app) {
        // Standard error is the system's log.
        eprintln!("Tautmark cannot be shown: {error}");
    }
    OPEN.take();
}

fn run(app: AndroidApp) -> Result<(), Box<dyn Error>> {
    let folder = app.internal_data_path();
    let folder = folder.ok_or("the system names no folder for the app")?;
    let phone = Rc::new(Phone::new(Activity::of(&app), app.clone()));
    slint::android::init_with_event_listener(app, |event| {
        if let (PollEvent::Main(event), Some(open)) = (event, open()) {
            hear(event, &open);
        }
    })?;
    let (window, bridge) = app::open(Jobs::in_folder(folder), phone.clone())?;
    let open = Rc::new(Open {
        window,
        bridge,
        phone,
    });
    OPEN.set(Some(open.clone()));
    open.phone.look_for_file();
    open.window.run()?;
    open.bridge.pause();
    Ok(())
}

/// The system may end the program without a word at any time after it has gone out of sight.
fn hear(event: &MainEvent<'_>, open: &Open) {
    match event {
        MainEvent::Pause | MainEvent::SaveState { .. } | MainEvent::Stop | MainEvent::LowMemory => {
            open.bridge.pause();
        }
        MainEvent::Resume { .. } => open.phone.look_for_file(),
        MainEvent::InputAvailable => wheel::tell(open.window.window()),
        _ => {}
    }
}

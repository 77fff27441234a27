//! The app on an Android phone: started by the system, in the folder it keeps for the app.

mod activity;
mod phone;

use crate::app::{self, Bridge};
use crate::store::Jobs;
use activity::Activity;
use phone::Phone;
use slint::ComponentHandle;
use slint::android::AndroidApp;
use slint::android::android_activity::{MainEvent, PollEvent};
use std::cell::OnceCell;
use std::error::Error;
use std::rc::Rc;

/// Called by the system on a thread of its own for every window it makes of the app.
#[unsafe(no_mangle)]
fn android_main(app: AndroidApp) {
    if let Err(error) = run(app) {
        // Standard error is the system's log.
        eprintln!("Tautmark cannot be shown: {error}");
    }
}

fn run(app: AndroidApp) -> Result<(), Box<dyn Error>> {
    let folder = app.internal_data_path();
    let folder = folder.ok_or("the system names no folder for the app")?;
    let phone = Rc::new(Phone::new(Activity::of(&app), app.clone()));
    let bridge: Rc<OnceCell<Rc<Bridge>>> = Rc::default();
    let (heard, hearing) = (bridge.clone(), phone.clone());
    slint::android::init_with_event_listener(app, move |event| {
        if let (PollEvent::Main(event), Some(bridge)) = (event, heard.get()) {
            hear(event, bridge, &hearing);
        }
    })?;
    let (window, made) = app::open(Jobs::in_folder(folder), phone.clone())?;
    let bridge = bridge.get_or_init(|| made);
    phone.look_for_file(bridge);
    window.run()?;
    bridge.pause();
    Ok(())
}

/// The system may end the program without a word at any time after it has gone out of sight.
fn hear(event: &MainEvent<'_>, bridge: &Bridge, phone: &Phone) {
    match event {
        MainEvent::Pause | MainEvent::SaveState { .. } | MainEvent::Stop | MainEvent::LowMemory => {
            bridge.pause();
        }
        MainEvent::Resume { .. } => phone.look_for_file(bridge),
        _ => {}
    }
}

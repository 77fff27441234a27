//! The app in a browser: started by `ui/web/start.js`, once it has fetched the jobs.

mod back;
mod device;
mod frames;
mod screen;
mod storage;

use crate::app::{self, Bridge};
use crate::store::Jobs;
use crate::store::slow::{Alarm, SlowDisk};
use device::Browser;
use slint::ComponentHandle;
use std::io::ErrorKind;
use std::rc::Rc;
use storage::Pieces;
use wasm_bindgen::prelude::*;

/// Opens the app on the pieces that the browser's storage holds. It goes on when this returns,
/// which it does by an exception of the event loop's own.
///
/// # Errors
/// Where the browser gives no canvas to draw on.
#[wasm_bindgen]
pub fn start(kept: &js_sys::Array) -> Result<(), String> {
    std::panic::set_hook(Box::new(|fault| device::stopped(&fault.to_string())));
    let disk = SlowDisk::of(storage::read(kept), Pieces);
    let alarm = disk.alarm();
    let words = |error: slint::PlatformError| error.to_string();
    let (window, bridge) = app::open(Jobs::on(disk), Rc::new(Browser)).map_err(words)?;
    frames::watch(&window);
    screen::show(&window);
    let leaving = bridge.clone();
    let pause = Closure::<dyn Fn()>::new(move || {
        leaving.pause();
        device::wake();
    });
    device::when_left(&pause);
    pause.forget();
    hear_of_storage(&bridge, alarm);
    back::take(&window);
    window.run().map_err(words)
}

/// Sees to it that all is kept again where the browser has emptied its storage.
fn hear_of_storage(bridge: &Rc<Bridge>, alarm: Alarm) {
    let at = bridge.clone();
    let lost = Closure::<dyn Fn()>::new(move || {
        alarm.storage_lost(ErrorKind::ConnectionReset);
        at.pause();
        device::wake();
    });
    device::when_storage_lost(&lost);
    lost.forget();
}

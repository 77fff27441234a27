//! The system's way back, as the app's own.

use super::device;
use slint::{ComponentHandle, Global};
use tautmark_ui::{App, FrameVm, Nav};
use wasm_bindgen::prelude::*;

/// Lets the browser's Back go one step back in the app, and leave it where there is none.
pub(super) fn take(window: &App) {
    let app = window.as_weak();
    let back =
        Closure::<dyn Fn() -> bool>::new(move || app.upgrade().is_some_and(|app| step(&app)));
    device::when_back(&back);
    back.forget();
}

/// True where there was something to go back from.
fn step(app: &App) -> bool {
    let (words, nav) = (FrameVm::get(app), Nav::get(app));
    if words.get_menu_open() {
        words.invoke_menu_closed();
    } else if words.get_notice_open() {
        words.invoke_notice_closed();
    } else if nav.get_can_go_back() {
        nav.invoke_back();
    } else {
        return false;
    }
    device::wake();
    true
}

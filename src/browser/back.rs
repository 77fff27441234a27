//! The system's way back, as the app's own.

use super::device;
use slint::platform::{Key, WindowEvent};
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

fn step(app: &App) -> bool {
    let words = FrameVm::get(app);
    let inside = Nav::get(app).invoke_can_go_back();
    let somewhere = inside || words.get_menu_open() || words.get_notice_open();
    if somewhere {
        let text: slint::SharedString = Key::Back.into();
        let window = app.window();
        window.dispatch_event(WindowEvent::KeyPressed { text: text.clone() });
        window.dispatch_event(WindowEvent::KeyReleased { text });
        device::wake();
    }
    somewhere
}

//! What the page around the canvas must know of the frames: the first one, and day or night.

use slint::{ComponentHandle, Global, RenderingState};
use std::cell::Cell;
use tautmark_ui::{App, Theme};
use wasm_bindgen::prelude::*;

#[wasm_bindgen(raw_module = "./device.js")]
extern "C" {
    fn drawn(night: bool);
}

/// Tells the page when the first frame has been drawn, and when day turns to night.
pub(super) fn watch(window: &App) {
    let told = Cell::new(None);
    let app = window.as_weak();
    let notice = move |state, _: &slint::GraphicsAPI<'_>| {
        if !matches!(state, RenderingState::AfterRendering) {
            return;
        }
        let night = app.upgrade().map(|app| Theme::get(&app).get_night());
        if let Some(night) = night
            && told.replace(Some(night)) != Some(night)
        {
            drawn(night);
        }
    };
    // A renderer that tells nothing leaves the page's own words standing; there is only one here.
    let _ = window.window().set_rendering_notifier(notice);
}

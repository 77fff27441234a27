//! What a browser can do with a file, with the screen and with its voice.

use crate::app::device::{Brought, Device, Handed, Picked, Voice, Way};
use wasm_bindgen::prelude::*;

#[wasm_bindgen(raw_module = "./device.js")]
extern "C" {
    fn save(name: &str, media_type: &str, bytes: &[u8]);
    #[wasm_bindgen(js_name = canShare)]
    fn can_share(name: &str, media_type: &str) -> bool;
    fn share(name: &str, media_type: &str, bytes: &[u8]);
    #[wasm_bindgen(js_name = inTheHand)]
    fn in_the_hand() -> bool;
    fn pick(then: JsValue);
    #[wasm_bindgen(js_name = keepAwake)]
    fn keep_awake(awake: bool);
    #[wasm_bindgen(js_name = hasVoice)]
    fn has_voice() -> bool;
    fn say(words: &str);
    fn hush();
    #[wasm_bindgen(js_name = whenLeft)]
    pub(super) fn when_left(pause: &Closure<dyn Fn()>);
    #[wasm_bindgen(js_name = whenStorageLost)]
    pub(super) fn when_storage_lost(lost: &Closure<dyn Fn()>);
    #[wasm_bindgen(js_name = whenBack)]
    pub(super) fn when_back(back: &Closure<dyn Fn() -> bool>);
    pub(super) fn stopped(fault: &str);
}

/// What is changed outside the event loop is drawn once that has something to do.
pub(super) fn wake() {
    // While the page stands the loop goes on; there is nothing to draw otherwise.
    let _ = slint::invoke_from_event_loop(|| {});
}

/// The browser the app runs in.
pub(super) struct Browser;

impl Device for Browser {
    fn hand_over(&self, file: &Handed, way: Way) -> Result<String, String> {
        let Handed {
            name,
            media_type,
            bytes,
        } = file;
        if way == Way::Share && can_share(name, media_type) {
            share(name, media_type, bytes);
            return Ok(format!("Choose where {name} goes."));
        }
        save(name, media_type, bytes);
        Ok(format!("{name} is among the browser's downloads."))
    }

    fn ways(&self) -> &'static [Way] {
        match (can_share("sheet.txt", "text/plain"), in_the_hand()) {
            (false, _) => &[Way::Save],
            (true, true) => &[Way::Share, Way::Save],
            (true, false) => &[Way::Save, Way::Share],
        }
    }

    fn pick(&self, then: Box<dyn FnOnce(Picked)>) {
        let told = move |name: Option<String>, bytes: Option<Vec<u8>>| {
            let picked = match (name, bytes) {
                (Some(name), Some(bytes)) => Ok(Some(Brought { name, bytes })),
                (Some(name), None) => Err(format!(
                    "{name} cannot be read. See that it is still there, and pick it again."
                )),
                (None, _) => Ok(None),
            };
            then(picked);
            wake();
        };
        pick(Closure::once_into_js(told));
    }

    fn keep_awake(&self, awake: bool) {
        keep_awake(awake);
    }

    fn voice(&self) -> Option<&dyn Voice> {
        has_voice().then_some(self)
    }
}

impl Voice for Browser {
    fn say(&self, words: &str) {
        say(words);
    }

    fn hush(&self) {
        hush();
    }
}

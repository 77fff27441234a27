//! What is on the screen, as a list of accessible labels with their places. A canvas shows nothing
//! of itself to a program; this lets one press by name and read what is shown.

use i_slint_core::accessibility::AccessibleStringProperty;
use i_slint_core::item_tree::ItemRc;
use i_slint_core::window::WindowInner;
use js_sys::Array;
use slint::ComponentHandle;
use std::cell::RefCell;
use tautmark_ui::App;
use wasm_bindgen::prelude::*;

thread_local! {
    static WINDOW: RefCell<slint::Weak<App>> = RefCell::default();
}

/// Makes this window the one that [`on_screen`] looks at.
pub(super) fn show(window: &App) {
    WINDOW.with(|shown| *shown.borrow_mut() = window.as_weak());
}

/// Everything with a label that is in sight: label, role, value, left, top, width, height; lengths
/// in the page's pixels from the canvas's corner.
#[wasm_bindgen(js_name = onScreen)]
#[must_use]
pub fn on_screen() -> Array {
    let rows = Array::new();
    let window = WINDOW.with(|shown| shown.borrow().upgrade());
    if let Some(window) = window {
        let component = WindowInner::from_pub(window.window()).component();
        list(&ItemRc::new_root(component), &rows);
    }
    rows
}

fn list(item: &ItemRc, rows: &Array) {
    if let Some(label) = text(item, AccessibleStringProperty::Label)
        && item.is_visible()
    {
        let place = item.geometry();
        let (at, size) = (item.map_to_window(place.origin), place.size);
        let value = text(item, AccessibleStringProperty::Value);
        let row: [JsValue; 7] = [
            label.into(),
            item.accessible_role().to_string().into(),
            value.into(),
            at.x.into(),
            at.y.into(),
            size.width.into(),
            size.height.into(),
        ];
        rows.push(&row.iter().collect::<Array>());
    }
    let mut child = item.first_child();
    while let Some(one) = child {
        list(&one, rows);
        child = one.next_sibling();
    }
}

fn text(item: &ItemRc, what: AccessibleStringProperty) -> Option<String> {
    let text = item.accessible_string_property(what)?;
    (!text.is_empty()).then(|| text.to_string())
}

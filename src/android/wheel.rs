//! A mouse's wheel over the window.
//!
//! Slint 1.18.1 has no way with a wheel on Android: its backend ends the program at the first turn. So
//! the linker leads its question for a touch's kind to here (`--wrap` in `android/build`), where a turn
//! of the wheel is kept and called a pointer that leaves, which Slint passes over. The turn is given to
//! the window afterwards, as on the desktop.

use slint::platform::WindowEvent;
use slint::{LogicalPosition, Window};
use std::cell::Cell;
use std::ffi::c_void;

/// What has been turned since the window was last told.
#[derive(Clone, Copy)]
struct Turn {
    /// Physical pixels from the window's left and top.
    at: (f32, f32),
    /// Notches to the right and up.
    by: (f32, f32),
}

thread_local! {
    static TURNED: Cell<Option<Turn>> = const { Cell::new(None) };
}

/// Logical pixels to a notch, as on the desktop.
const NOTCH: f32 = 60.0;

// Of Android's `input.h`.
const ACTION_MASK: i32 = 0xff;
const ACTION_SCROLL: i32 = 8;
const ACTION_HOVER_EXIT: i32 = 10;
const AXIS_X: i32 = 0;
const AXIS_Y: i32 = 1;
const AXIS_VSCROLL: i32 = 9;
const AXIS_HSCROLL: i32 = 10;

unsafe extern "C" {
    fn __real_AMotionEvent_getAction(event: *const c_void) -> i32;
    fn AMotionEvent_getAxisValue(event: *const c_void, axis: i32, pointer: usize) -> f32;
}

/// The kind of a touch, with a wheel's turn kept and hidden.
///
/// # Safety
/// As Android's own: the event is alive.
#[unsafe(no_mangle)]
unsafe extern "C" fn __wrap_AMotionEvent_getAction(event: *const c_void) -> i32 {
    // Safety: the caller's event, as it came.
    let action = unsafe { __real_AMotionEvent_getAction(event) };
    if action & ACTION_MASK != ACTION_SCROLL {
        return action;
    }
    let value = |axis| {
        // Safety: as above; every event has a first pointer.
        unsafe { AMotionEvent_getAxisValue(event, axis, 0) }
    };
    let before = TURNED.get().map_or((0.0, 0.0), |turn| turn.by);
    TURNED.set(Some(Turn {
        at: (value(AXIS_X), value(AXIS_Y)),
        by: (
            before.0 + value(AXIS_HSCROLL),
            before.1 + value(AXIS_VSCROLL),
        ),
    }));
    ACTION_HOVER_EXIT
}

/// Tells the window of what has been turned.
pub(super) fn tell(window: &Window) {
    let Some(Turn { at, by }) = TURNED.take() else {
        return;
    };
    let scale = window.scale_factor();
    window.dispatch_event(WindowEvent::PointerScrolled {
        position: LogicalPosition::new(at.0 / scale, at.1 / scale),
        delta_x: -by.0 * NOTCH,
        delta_y: by.1 * NOTCH,
    });
}

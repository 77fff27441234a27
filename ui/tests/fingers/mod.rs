//! Two fingers on the glass: the one place that knows how the toolkit is told of them.

use i_slint_core::{input::TouchPhase, lengths::LogicalPoint, platform::InternalEvent};
use slint::{Window, platform::WindowEvent};

/// Puts down two fingers and moves each away from the other by `by` px, then lifts both.
pub fn spread(window: &Window, left: (f32, f32), right: (f32, f32), by: f32) {
    let touch = |id, (x, y): (f32, f32), phase| {
        window.dispatch_event(WindowEvent::internal(InternalEvent::Touch {
            id,
            position: LogicalPoint::new(x, y),
            phase,
        }));
    };
    touch(1, left, TouchPhase::Started);
    touch(2, right, TouchPhase::Started);
    for step in 1..=8 {
        let out = by * step as f32 / 8.0;
        touch(1, (left.0 - out, left.1), TouchPhase::Moved);
        touch(2, (right.0 + out, right.1), TouchPhase::Moved);
    }
    touch(2, (right.0 + by, right.1), TouchPhase::Ended);
    touch(1, (left.0 - by, left.1), TouchPhase::Ended);
}

//! What readings are called.

use crate::job::reading::{Measure, Reading};

/// What a reading is of: “A to C”.
#[must_use]
pub fn reading_title(reading: &Reading) -> String {
    match &reading.what {
        Measure::Tape { from, to, .. } => format!("{from} to {to}"),
        Measure::Offset { mark, wall, .. } => format!("{mark} off {wall}"),
        Measure::Inline { mark, with, .. } => format!("{mark} on {} to {}", with[0], with[1]),
        Measure::Angle { from, at, to, .. } => format!("angle at {at}, {from} to {to}"),
        Measure::Other { kind } => kind.clone(),
    }
}

/// True where its figure has not been read yet.
#[must_use]
pub fn is_missing(reading: &Reading) -> bool {
    matches!(
        &reading.what,
        Measure::Tape { length: None, .. }
            | Measure::Offset { length: None, .. }
            | Measure::Angle { degrees: None, .. }
    )
}

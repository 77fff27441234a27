//! Figures as they are written on drawings.

use crate::length::{Unit, show};

/// How far a height is from a laser line, both mm; which way is told by a
/// [`Sign`](super::Sign) before it.
#[must_use]
pub fn from_laser(height: f64, line: f64, unit: Unit) -> String {
    show((height - line).abs(), unit)
}

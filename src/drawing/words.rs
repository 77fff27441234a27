//! Figures as they are written on drawings.

use crate::length::{Unit, show};

/// How far a height is from a laser line, both mm: `▲ 855` up, `▼ 585` down.
#[must_use]
pub fn from_laser(height: f64, line: f64, unit: Unit) -> String {
    let sign = if height > line { '▲' } else { '▼' };
    format!("{sign}\u{a0}{}", show((height - line).abs(), unit))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn up_and_down_are_told_by_their_sign() {
        assert_eq!(from_laser(1268.0, 413.0, Unit::Mm), "▲\u{a0}855");
        assert_eq!(from_laser(-172.0, 413.0, Unit::Mm), "▼\u{a0}585");
    }
}

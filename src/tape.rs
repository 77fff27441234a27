//! How good is one reading of a tape?
//!
//! A tape's accuracy class limits how long or short the tape itself may be; the hand, the mark and
//! the eye add the rest.
//!
//! ```text
//!   |0        |1        |2        |3        |4 m
//!   +---------+---------+---------+---------+
//!   class I   0.2       0.3       0.4       0.5 mm either way
//!   class II  0.5       0.7       0.9       1.1
//!   class III 1.0       1.4       1.8       2.2
//! ```

use serde::{Deserialize, Serialize};

/// Accuracy class printed on a tape's first length, as in the Measuring Instruments Directive,
/// annex MI-008.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum TapeClass {
    /// The best tapes: 0.1 + 0.1 L mm.
    I,
    /// The usual good tape: 0.3 + 0.2 L mm.
    #[default]
    II,
    /// The rest: 0.6 + 0.4 L mm.
    III,
}

impl std::fmt::Display for TapeClass {
    /// As it is printed on the tape.
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(match self {
            TapeClass::I => "I",
            TapeClass::II => "II",
            TapeClass::III => "III",
        })
    }
}

impl TapeClass {
    /// Largest permitted error, mm either way, of this class over `length_mm`: a + b L, with L the
    /// length in metres rounded up to a whole one (MI-008).
    ///
    /// ```
    /// use tautmark::tape::TapeClass;
    /// assert!((TapeClass::II.mpe(9_200.0) - 2.3).abs() < 1e-12);
    /// ```
    #[must_use]
    pub fn mpe(self, length_mm: f64) -> f64 {
        let (fixed, per_metre) = match self {
            Self::I => (0.1, 0.1),
            Self::II => (0.3, 0.2),
            Self::III => (0.6, 0.4),
        };
        fixed + per_metre * (length_mm.abs() / 1000.0).ceil()
    }

    /// Standard deviation, mm, of one tape reading of `length_mm` by someone whose single reading
    /// is good to `reading_sd_mm` (1 s.d.): √(reading² + (mpe/√3)²). The permitted error counts as
    /// equally likely anywhere between its limits, hence √3.
    ///
    /// ```
    /// use tautmark::tape::TapeClass;
    /// let sd = TapeClass::II.sd(1.0, 10_000.0);
    /// assert!((sd - 1.6623).abs() < 1e-4);
    /// ```
    #[must_use]
    pub fn sd(self, reading_sd_mm: f64, length_mm: f64) -> f64 {
        reading_sd_mm.hypot(self.mpe(length_mm) / 3f64.sqrt())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn permitted_errors_at_ten_metres() {
        let at_ten = [TapeClass::I, TapeClass::II, TapeClass::III].map(|class| class.mpe(10_000.0));
        for (found, known) in at_ten.into_iter().zip([1.1, 2.3, 4.6]) {
            assert!((found - known).abs() < 1e-12, "{found} against {known}");
        }
    }

    #[test]
    fn part_metres_count_as_whole_ones() {
        assert_eq!(TapeClass::II.mpe(3_001.0), TapeClass::II.mpe(4_000.0));
        assert!(TapeClass::II.mpe(3_000.0) < TapeClass::II.mpe(3_001.0));
        assert_eq!(TapeClass::III.mpe(0.0), 0.6);
    }

    #[test]
    fn a_perfect_hand_still_has_the_tape() {
        assert!((TapeClass::I.sd(0.0, 10_000.0) - 1.1 / 3f64.sqrt()).abs() < 1e-12);
    }

    #[test]
    fn classes_are_written_as_roman_numerals() {
        let text = serde_json::to_string(&[TapeClass::I, TapeClass::II, TapeClass::III]);
        assert_eq!(text.ok().as_deref(), Some(r#"["I","II","III"]"#));
        assert!(serde_json::from_str::<TapeClass>("\"IV\"").is_err());
    }
}

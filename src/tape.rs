//! How far may one tape differ from another?
//!
//! A tape's accuracy class limits how long or short the tape itself may be. That is the same in
//! every reading of one tape: it cannot show in how readings close, and cancels where the same tape
//! sets out again. So it is in no ±, and is said once, beside the longest length. How well a tape is
//! read is [`crate::job::model::Tape::sd`].
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
    fn classes_are_written_as_roman_numerals() {
        let text = serde_json::to_string(&[TapeClass::I, TapeClass::II, TapeClass::III]);
        assert_eq!(text.ok().as_deref(), Some(r#"["I","II","III"]"#));
        assert!(serde_json::from_str::<TapeClass>("\"IV\"").is_err());
    }
}

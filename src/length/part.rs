//! The smallest part of an inch that a person reads, cuts and is shown.

use super::fraction::MM_PER_INCH;
use serde::{Deserialize, Serialize};

/// The smallest part of an inch that figures are rounded to.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default, Serialize, Deserialize)]
pub enum InchPart {
    /// Eighths of an inch.
    #[serde(rename = "1/8")]
    Eighth,
    /// Sixteenths of an inch, as most tapes are divided.
    #[serde(rename = "1/16")]
    #[default]
    Sixteenth,
    /// Thirty-seconds of an inch.
    #[serde(rename = "1/32")]
    ThirtySecond,
}

impl InchPart {
    /// Every part, the coarsest first.
    pub const ALL: [Self; 3] = [Self::Eighth, Self::Sixteenth, Self::ThirtySecond];

    /// How many of it make an inch.
    #[must_use]
    pub const fn per_inch(self) -> u64 {
        match self {
            Self::Eighth => 8,
            Self::Sixteenth => 16,
            Self::ThirtySecond => 32,
        }
    }

    /// Its size, mm.
    #[must_use]
    pub fn mm(self) -> f64 {
        MM_PER_INCH / self.per_inch() as f64
    }

    /// As it is written, `1/16`.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Eighth => "1/8",
            Self::Sixteenth => "1/16",
            Self::ThirtySecond => "1/32",
        }
    }
}

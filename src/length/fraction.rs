//! Millimetres as feet, inches and a fraction of an inch.

use super::InchPart;
use super::digits::{NO_BREAK_SPACE, grouped};

/// Millimetres in an inch, exactly (international yard and pound agreement, 1959).
pub(super) const MM_PER_INCH: f64 = 25.4;

/// Millimetres in a foot, exactly.
pub(super) const MM_PER_FOOT: f64 = 304.8;

/// Inches in a foot.
pub(super) const INCHES_PER_FOOT: f64 = 12.0;

/// How finely an inch is divided; every one is a power of two, as on a tape.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Division {
    Eighths,
    Sixteenths,
    ThirtySeconds,
    SixtyFourths,
}

impl Division {
    pub(super) const fn per_inch(self) -> u64 {
        match self {
            Self::Eighths => 8,
            Self::Sixteenths => 16,
            Self::ThirtySeconds => 32,
            Self::SixtyFourths => 64,
        }
    }
}

impl From<InchPart> for Division {
    fn from(part: InchPart) -> Self {
        match part {
            InchPart::Eighth => Self::Eighths,
            InchPart::Sixteenth => Self::Sixteenths,
            InchPart::ThirtySecond => Self::ThirtySeconds,
        }
    }
}

/// The signs a length is written with.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum FractionMarks {
    /// ′ and ″ with spaces that do not break: for reading.
    Primes,
    /// ' and " with plain spaces: for typing.
    Keys,
}

/// The size of a length, without its sign, in feet, inches under 12 and a fraction in lowest terms.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) struct FeetInches {
    pub feet: u64,
    pub inches: u64,
    pub numerator: u64,
    pub denominator: u64,
}

impl FeetInches {
    /// The nearest division to `mm`, halves away from zero; the sign is dropped.
    pub(super) fn nearest(mm: f64, division: Division) -> Self {
        let per_inch = division.per_inch();
        // A float to integer cast saturates, so no value can panic here.
        let parts = (mm.abs() / MM_PER_INCH * per_inch as f64).round() as u64;
        Self::from_parts(parts, per_inch)
    }

    /// `parts` of an inch, each 1/`per_inch`, a power of two.
    pub(super) fn from_parts(parts: u64, per_inch: u64) -> Self {
        let whole_inches = parts / per_inch;
        let numerator = parts % per_inch;
        let shift = numerator.trailing_zeros().min(per_inch.trailing_zeros());
        Self {
            feet: whole_inches / 12,
            inches: whole_inches % 12,
            numerator: numerator >> shift,
            denominator: per_inch >> shift,
        }
    }

    /// As in `11′ 9 5/16″`, `9″`, `5/16″`; whole feet keep their inches, `11′ 0″`, so that none
    /// seem to be missing.
    pub(super) fn write(self, marks: FractionMarks) -> String {
        let (foot, inch, space) = match marks {
            FractionMarks::Primes => ('′', '″', NO_BREAK_SPACE),
            FractionMarks::Keys => ('\'', '"', ' '),
        };
        let mut text = String::new();
        if self.feet > 0 {
            text = match marks {
                FractionMarks::Primes => grouped(&self.feet.to_string()),
                FractionMarks::Keys => self.feet.to_string(),
            };
            text.push(foot);
            text.push(space);
        }
        if self.inches > 0 || self.feet > 0 || self.numerator == 0 {
            text.push_str(&self.inches.to_string());
            if self.numerator > 0 {
                text.push(space);
            }
        }
        if self.numerator > 0 {
            text.push_str(&format!("{}/{}", self.numerator, self.denominator));
        }
        text.push(inch);
        text
    }
}

/// The ways in which digits with a fraction key behind them are inches and a numerator: `21` and
/// halves are 2 and 1. Of several only those in lowest terms count, where there are any.
pub(super) fn splits(digits: &str, denominator: u32) -> Vec<(&str, &str)> {
    let on_tape = denominator.is_power_of_two() && (2..=64).contains(&denominator);
    let mut found: Vec<(&str, &str)> = (1..digits.len())
        .filter_map(|at| digits.split_at_checked(at))
        .filter(|(_, part)| !part.starts_with('0'))
        .filter(|(_, part)| on_tape && part.parse().is_ok_and(|part: u32| part < denominator))
        .collect();
    let lowest = |(_, part): &(&str, &str)| part.ends_with(['1', '3', '5', '7', '9']);
    if found.iter().any(lowest) {
        found.retain(lowest);
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;

    fn keys(mm: f64, division: Division) -> String {
        FeetInches::nearest(mm, division).write(FractionMarks::Keys)
    }

    #[test]
    fn writes_feet_inches_and_fractions_in_lowest_terms() {
        // 141 5/16 in = 141.3125 × 25.4 = 3589.3375 mm.
        assert_eq!(keys(3589.3375, Division::Sixteenths), "11' 9 5/16\"");
        assert_eq!(keys(12.7, Division::SixtyFourths), "1/2\"");
        assert_eq!(keys(228.6, Division::Sixteenths), "9\"");
        assert_eq!(keys(0.0, Division::Sixteenths), "0\"");
        assert_eq!(keys(3352.8, Division::Sixteenths), "11' 0\"");
    }

    #[test]
    fn carries_up_to_the_next_inch_and_foot() {
        // 11.99 in is nearer to 12 than to 11 15/16.
        assert_eq!(keys(11.99 * 25.4, Division::Sixteenths), "1' 0\"");
        assert_eq!(
            keys(304.8 + 0.5 / 16.0 * 25.4, Division::Sixteenths),
            "1' 0 1/16\""
        );
    }

    #[test]
    fn takes_any_float() {
        for mm in [f64::NAN, f64::INFINITY, f64::MAX, -f64::MIN_POSITIVE] {
            assert!(keys(mm, Division::SixtyFourths).ends_with('"'));
        }
    }
}

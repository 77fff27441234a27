//! What to type instead of a fraction that is not on a tape.

use super::error::ParseErrorKind;
use super::fraction::{Division, FeetInches, FractionMarks, splits};

/// What a fraction of one or more may be meant for: `21/2` is 2 1/2 with its space left out, or 21
/// halves.
pub(super) fn improper(after_whole: bool, numerator: u32, denominator: u32) -> ParseErrorKind {
    let digits = numerator.to_string();
    let splits = match after_whole {
        true => Vec::new(),
        false => splits(&digits, denominator),
    };
    let mut readings = splits
        .into_iter()
        .map(|(whole, part)| format!("{whole} {part}/{denominator}\""));
    let Some(one) = readings.next() else {
        return ParseErrorKind::Improper;
    };
    let parts = FeetInches::from_parts(u64::from(numerator), u64::from(denominator));
    let other = readings
        .next()
        .unwrap_or_else(|| parts.write(FractionMarks::Keys));
    ParseErrorKind::Ambiguous { one, other }
}

/// The nearest sixteenth above nothing and below one, or 64th for a finer division.
pub(super) fn nearest_on_tape(numerator: u32, denominator: u32) -> String {
    let division = if denominator > 64 {
        Division::SixtyFourths
    } else {
        Division::Sixteenths
    }
    .per_inch();
    let ratio = f64::from(numerator) / f64::from(denominator.max(1));
    let parts = ((ratio * division as f64).round() as u64).clamp(1, division - 1);
    let written = FeetInches::from_parts(parts, division).write(FractionMarks::Keys);
    written.trim_end_matches('"').to_owned()
}

//! A length as it is read aloud, typed again, or shown with its ±.

use super::Unit;
use super::fraction::{Division, FeetInches, MM_PER_INCH, Marks};
use super::groups::{NO_BREAK_SPACE, grouped};

/// The true minus sign, as wide as +.
const MINUS: char = '−';

/// Stands where there is no figure to read: the value is not a finite number.
const NO_FIGURE: &str = "—";

/// A length for reading aloud: whole millimetres, metres to three decimals, or the nearest
/// sixteenth of an inch; no unit name.
///
/// Thousands are grouped with a no-break space (U+00A0), a value below zero has a true minus sign
/// (U+2212), and what is not finite is a dash.
///
/// ```
/// use tautmark::length::{Unit, show};
/// assert_eq!(show(3590.2, Unit::Mm), "3\u{a0}590");
/// assert_eq!(show(3590.2, Unit::M), "3.590");
/// assert_eq!(show(3589.3375, Unit::FtIn), "11′\u{a0}9\u{a0}5/16″");
/// assert_eq!(show(-12.0, Unit::Mm), "−12");
/// ```
#[must_use]
pub fn show(mm: f64, unit: Unit) -> String {
    show_fine(mm, unit, 0)
}

/// As [`show`], with `decimals` more places than whole millimetres (six at most); each halves the
/// division of an inch, down to 1/64.
///
/// ```
/// use tautmark::length::{Unit, show_fine};
/// assert_eq!(show_fine(0.42, Unit::Mm, 1), "0.4");
/// assert_eq!(show_fine(0.42, Unit::M, 1), "0.0004");
/// assert_eq!(show_fine(0.8, Unit::FtIn, 1), "1/32″");
/// ```
#[must_use]
pub fn show_fine(mm: f64, unit: Unit, decimals: usize) -> String {
    with_sign(mm, unit, decimals, "")
}

/// As [`show`], followed by the unit's name where the figure does not carry its own.
///
/// ```
/// use tautmark::length::{Unit, show_with_unit};
/// assert_eq!(show_with_unit(1040.0, Unit::Mm), "1\u{a0}040\u{a0}mm");
/// assert_eq!(show_with_unit(1040.0, Unit::M), "1.040\u{a0}m");
/// assert_eq!(show_with_unit(304.8, Unit::FtIn), "1′\u{a0}0″");
/// ```
#[must_use]
pub fn show_with_unit(mm: f64, unit: Unit) -> String {
    let figure = show(mm, unit);
    match unit {
        Unit::Mm => format!("{figure}{NO_BREAK_SPACE}mm"),
        Unit::M => format!("{figure}{NO_BREAK_SPACE}m"),
        Unit::FtIn => figure,
    }
}

/// As [`show`], with + before a value above zero: for residuals, slips and heights, where the sign
/// says which way.
///
/// ```
/// use tautmark::length::{Unit, signed};
/// assert_eq!(signed(12.0, Unit::Mm), "+12");
/// assert_eq!(signed(-12.0, Unit::Mm), "−12");
/// assert_eq!(signed(-0.2, Unit::Mm), "0");
/// ```
#[must_use]
pub fn signed(mm: f64, unit: Unit) -> String {
    signed_fine(mm, unit, 0)
}

/// As [`signed`], with `decimals` more places as in [`show_fine`].
///
/// ```
/// use tautmark::length::{Unit, signed_fine};
/// assert_eq!(signed_fine(0.42, Unit::Mm, 1), "+0.4");
/// ```
#[must_use]
pub fn signed_fine(mm: f64, unit: Unit, decimals: usize) -> String {
    with_sign(mm, unit, decimals, "+")
}

/// The half-width of a band, as in `± 6`: whole millimetres, the nearest sixteenth of an inch, and
/// finer below one of them.
///
/// It is never rounded down to nothing: under a millimetre one more decimal is shown and under a
/// sixteenth the next 1/64 up. The space after ± is U+00A0; the sign of `mm` is dropped; what is
/// not finite is `± —`.
///
/// ```
/// use tautmark::length::{Unit, show_pm};
/// assert_eq!(show_pm(5.9, Unit::Mm), "±\u{a0}6");
/// assert_eq!(show_pm(5.9, Unit::M), "±\u{a0}0.006");
/// assert_eq!(show_pm(5.9, Unit::FtIn), "±\u{a0}1/4″");
/// assert_eq!(show_pm(0.3, Unit::Mm), "±\u{a0}0.3");
/// ```
#[must_use]
pub fn show_pm(mm: f64, unit: Unit) -> String {
    let size = mm.abs();
    let figure = match unit {
        _ if !size.is_finite() => NO_FIGURE.to_owned(),
        _ if size == 0.0 => show(0.0, unit),
        Unit::FtIn if size < MM_PER_INCH / 16.0 => {
            let parts = (size / MM_PER_INCH * 64.0).ceil() as u64;
            FeetInches::from_parts(parts, 64).write(Marks::Primes)
        }
        Unit::FtIn => show(size, unit),
        Unit::Mm | Unit::M if size < 0.95 => show_fine(size.max(0.1), unit, 1),
        Unit::Mm | Unit::M => show(size, unit),
    };
    format!("±{NO_BREAK_SPACE}{figure}")
}

/// A length as text to edit on the keypad: [`parse`](super::parse) with the same unit gives it back
/// within 0.05 mm (mm, m) or 1/64 in (ft-in, which is written to the nearest 1/32). Empty for what
/// is not finite.
///
/// Holds within ±[`LARGEST_MM`](super::LARGEST_MM), and has no group spaces and only marks that are
/// on the keys, besides the minus sign.
///
/// ```
/// use tautmark::length::{Unit, show_typed};
/// assert_eq!(show_typed(3412.5, Unit::Mm), "3412.5");
/// assert_eq!(show_typed(3412.5, Unit::M), "3.4125");
/// assert_eq!(show_typed(3589.3375, Unit::FtIn), "11' 9 5/16\"");
/// ```
#[must_use]
pub fn show_typed(mm: f64, unit: Unit) -> String {
    if !mm.is_finite() {
        return String::new();
    }
    let figure = match unit {
        Unit::Mm => trimmed(&decimal(mm, 2)),
        Unit::M => trimmed(&decimal(mm / 1000.0, 5)),
        Unit::FtIn => FeetInches::nearest(mm, Division::ThirtySeconds).write(Marks::Keys),
    };
    with_minus(mm, figure)
}

/// The size of an entered length with nothing of what was typed lost, to 0.01 mm or 1/64 in, for reading.
pub(super) fn entered(mm: f64, unit: Unit) -> String {
    if !mm.is_finite() {
        return NO_FIGURE.to_owned();
    }
    match unit {
        Unit::Mm => grouped(&trimmed(&decimal(mm, 2))),
        Unit::M => {
            let millimetres = decimal(mm / 1000.0, 3);
            let hundredths = trimmed(&decimal(mm / 1000.0, 5));
            grouped(if hundredths.len() > millimetres.len() {
                &hundredths
            } else {
                &millimetres
            })
        }
        Unit::FtIn => FeetInches::nearest(mm, Division::SixtyFourths).write(Marks::Primes),
    }
}

/// As [`entered`], with a minus sign below zero.
pub(super) fn entered_signed(mm: f64, unit: Unit) -> String {
    with_minus(mm, entered(mm, unit))
}

fn with_sign(mm: f64, unit: Unit, decimals: usize, plus: &str) -> String {
    if !mm.is_finite() {
        return NO_FIGURE.to_owned();
    }
    let decimals = decimals.min(6);
    let figure = match unit {
        Unit::Mm => grouped(&decimal(mm, decimals)),
        Unit::M => grouped(&decimal(mm / 1000.0, decimals + 3)),
        Unit::FtIn => {
            let division = match decimals {
                0 => Division::Sixteenths,
                1 => Division::ThirtySeconds,
                _ => Division::SixtyFourths,
            };
            FeetInches::nearest(mm, division).write(Marks::Primes)
        }
    };
    if mm > 0.0 && !is_zero(&figure) {
        format!("{plus}{figure}")
    } else {
        with_minus(mm, figure)
    }
}

/// `figure` with a minus sign where `mm` is below zero, unless it has been rounded to nothing.
fn with_minus(mm: f64, figure: String) -> String {
    if mm < 0.0 && !is_zero(&figure) {
        format!("{MINUS}{figure}")
    } else {
        figure
    }
}

fn is_zero(figure: &str) -> bool {
    !figure.contains(|c: char| c.is_ascii_digit() && c != '0')
}

/// The size of `value` to `decimals` places, halves away from zero as people round.
fn decimal(value: f64, decimals: usize) -> String {
    // `decimals` is nine at most: both factors are exact.
    let scale = 10_f64.powi(decimals as i32);
    let scaled = (value.abs() * scale).round();
    // A whole number of the last place is written digit by digit: quicker, and the same.
    if scaled < 1e15 {
        let (scaled, scale) = (scaled as u64, scale as u64);
        let (whole, rest) = (scaled / scale, scaled % scale);
        return match decimals {
            0 => whole.to_string(),
            _ => format!("{whole}.{rest:0decimals$}"),
        };
    }
    let rounded = if scaled.is_finite() {
        scaled / scale
    } else {
        value.abs()
    };
    format!("{rounded:.decimals$}")
}

/// Without the zeros, and the point, that end a decimal figure.
fn trimmed(figure: &str) -> String {
    if figure.contains('.') {
        figure
            .trim_end_matches('0')
            .trim_end_matches('.')
            .to_owned()
    } else {
        figure.to_owned()
    }
}

#[cfg(test)]
mod tests;

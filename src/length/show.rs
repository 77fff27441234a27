//! A length as it is shown, typed again, or shown with its ±.

use super::Unit;
use super::digits::{NO_BREAK_SPACE, decimal, grouped, trimmed};
use super::fraction::{Division, FeetInches, FractionMarks, MM_PER_FOOT, MM_PER_INCH};

/// The true minus sign, as wide as +.
const MINUS: char = '−';

/// Stands where there is no figure to read: the value is not a finite number.
const NO_FIGURE: &str = "—";

/// A length for reading: whole millimetres, metres to three decimals, or feet and inches to the
/// nearest of the person's smallest part of an inch; no unit name.
///
/// Thousands are grouped with a no-break space (U+00A0), a value below zero has a true minus sign
/// (U+2212), and what is not finite is a dash.
///
/// ```
/// use tautmark::length::{InchPart, Unit, show};
/// assert_eq!(show(3590.2, Unit::Mm), "3\u{a0}590");
/// assert_eq!(show(3590.2, Unit::M), "3.590");
/// assert_eq!(show(3589.3375, Unit::FEET), "11′\u{a0}9\u{a0}5/16″");
/// assert_eq!(show(3589.3375, Unit::FtIn(InchPart::Eighth)), "11′\u{a0}9\u{a0}3/8″");
/// assert_eq!(show(-12.0, Unit::Mm), "−12");
/// ```
#[must_use]
pub fn show(mm: f64, unit: Unit) -> String {
    show_fine(mm, unit, 0)
}

/// As [`show`], with `decimals` more places than whole millimetres (six at most). Feet and inches stay
/// at the smallest part, so that figures side by side add up.
///
/// ```
/// use tautmark::length::{Unit, show_fine};
/// assert_eq!(show_fine(0.42, Unit::Mm, 1), "0.4");
/// assert_eq!(show_fine(0.42, Unit::M, 1), "0.0004");
/// assert_eq!(show_fine(8.7, Unit::FEET, 1), "5/16″");
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
/// assert_eq!(show_with_unit(304.8, Unit::FEET), "1′\u{a0}0″");
/// ```
#[must_use]
pub fn show_with_unit(mm: f64, unit: Unit) -> String {
    fine_with_unit(mm, unit, 0)
}

/// As [`show_fine`], followed by the unit's name where the figure does not carry its own.
///
/// ```
/// use tautmark::length::{Unit, fine_with_unit};
/// assert_eq!(fine_with_unit(4.5, Unit::Mm, 1), "4.5\u{a0}mm");
/// ```
#[must_use]
pub fn fine_with_unit(mm: f64, unit: Unit, decimals: usize) -> String {
    with_unit(show_fine(mm, unit, decimals), unit)
}

/// How far something is, where its millimetres do not matter: metres to a tenth, or whole feet.
///
/// ```
/// use tautmark::length::{Unit, distance};
/// assert_eq!(distance(5000.0, Unit::Mm), "5.0\u{a0}m");
/// assert_eq!(distance(5000.0, Unit::FEET), "16\u{a0}ft");
/// ```
#[must_use]
pub fn distance(mm: f64, unit: Unit) -> String {
    if !mm.is_finite() {
        return NO_FIGURE.to_owned();
    }
    let figure = match unit {
        Unit::Mm | Unit::M => format!("{}{NO_BREAK_SPACE}m", grouped(&decimal(mm / 1000.0, 1))),
        Unit::FtIn(_) => format!(
            "{}{NO_BREAK_SPACE}ft",
            grouped(&decimal(mm / MM_PER_FOOT, 0))
        ),
    };
    with_minus(mm, figure)
}

/// A length as large as the figure that [`show_fine`] shows for it, in mm: what a person who steps or
/// cuts the shown figure really gets.
///
/// ```
/// use tautmark::length::{Unit, rounded};
/// assert_eq!(rounded(1828.6, Unit::Mm, 0), 1829.0);
/// assert_eq!(rounded(42.0, Unit::FEET, 1), 26.0 / 16.0 * 25.4);
/// ```
#[must_use]
pub fn rounded(mm: f64, unit: Unit, decimals: usize) -> f64 {
    let step = match unit {
        Unit::Mm | Unit::M => 0.1_f64.powi(decimals.min(6) as i32),
        Unit::FtIn(part) => part.mm(),
    };
    (mm / step).round() * step
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

/// The half-width of a band, as in `± 6`: whole millimetres, the smallest part of an inch, and finer
/// below one of them.
///
/// It is never rounded down to nothing: under a millimetre one more decimal is shown and under the
/// smallest part the next 1/64 up. The space after ± is U+00A0; the sign of `mm` is dropped; what is
/// not finite is `± —`.
///
/// ```
/// use tautmark::length::{Unit, show_pm};
/// assert_eq!(show_pm(5.9, Unit::Mm), "±\u{a0}6");
/// assert_eq!(show_pm(5.9, Unit::M), "±\u{a0}0.006");
/// assert_eq!(show_pm(5.9, Unit::FEET), "±\u{a0}1/4″");
/// assert_eq!(show_pm(0.3, Unit::Mm), "±\u{a0}0.3");
/// ```
#[must_use]
pub fn show_pm(mm: f64, unit: Unit) -> String {
    format!("±{NO_BREAK_SPACE}{}", show_spread(mm, unit))
}

/// The same with its unit, as it stands alone: `± 6 mm`.
///
/// ```
/// use tautmark::length::{Unit, show_pm_with_unit};
/// assert_eq!(show_pm_with_unit(5.9, Unit::Mm), "±\u{a0}6\u{a0}mm");
/// assert_eq!(show_pm_with_unit(5.9, Unit::FEET), "±\u{a0}1/4″");
/// ```
#[must_use]
pub fn show_pm_with_unit(mm: f64, unit: Unit) -> String {
    with_unit(show_pm(mm, unit), unit)
}

fn with_unit(figure: String, unit: Unit) -> String {
    match unit.name() {
        "" => figure,
        name => format!("{figure}{NO_BREAK_SPACE}{name}"),
    }
}

/// How well something is read, such as a standard deviation: as [`show_pm`] without its sign.
///
/// ```
/// use tautmark::length::{Unit, show_spread};
/// assert_eq!(show_spread(0.5, Unit::Mm), "0.5");
/// assert_eq!(show_spread(0.5, Unit::FEET), "1/32″");
/// ```
#[must_use]
pub fn show_spread(mm: f64, unit: Unit) -> String {
    let size = mm.abs();
    match unit {
        _ if !size.is_finite() => NO_FIGURE.to_owned(),
        _ if size == 0.0 => show(0.0, unit),
        Unit::FtIn(part) if size < part.mm() => {
            let parts = (size / MM_PER_INCH * 64.0).ceil() as u64;
            FeetInches::from_parts(parts, 64).write(FractionMarks::Primes)
        }
        Unit::FtIn(_) => show(size, unit),
        Unit::Mm | Unit::M if size < 0.95 => show_fine(size.max(0.1), unit, 1),
        Unit::Mm | Unit::M => show(size, unit),
    }
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
/// assert_eq!(show_typed(3589.3375, Unit::FEET), "11' 9 5/16\"");
/// ```
#[must_use]
pub fn show_typed(mm: f64, unit: Unit) -> String {
    if !mm.is_finite() {
        return String::new();
    }
    let figure = match unit {
        Unit::Mm => trimmed(&decimal(mm, 2)),
        Unit::M => trimmed(&decimal(mm / 1000.0, 5)),
        Unit::FtIn(_) => {
            FeetInches::nearest(mm, Division::ThirtySeconds).write(FractionMarks::Keys)
        }
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
        Unit::FtIn(_) => {
            FeetInches::nearest(mm, Division::SixtyFourths).write(FractionMarks::Primes)
        }
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
        Unit::FtIn(part) => FeetInches::nearest(mm, part.into()).write(FractionMarks::Primes),
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

#[cfg(test)]
mod tests;

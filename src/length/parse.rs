//! Text to millimetres.

use super::error::{ParseError, ParseErrorKind};
use super::scan::{Refused, scan};
use super::sum::{Sum, Term};
use super::term::Terms;
use super::{LARGEST_MM, LONGEST_TEXT, Unit};

/// The length or sum in `text`, in millimetres; `unit` is what a bare figure means (see the
/// [module](super) for every form).
///
/// # Errors
///
/// Says what was not understood, where, and what to type instead; a text that is right so far is
/// [`Unfinished`](ParseErrorKind::Unfinished). The result is finite and within ±[`LARGEST_MM`].
///
/// ```
/// use tautmark::length::{ParseErrorKind, Unit, parse};
/// assert_eq!(parse("3412 + 76", Unit::Mm), Ok(3488.0));
/// assert_eq!(parse("3.4 m + 76", Unit::Mm), Ok(3476.0));
/// assert_eq!(parse("140 1/2", Unit::FEET), Ok(140.5 * 25.4));
/// assert_eq!(parse("3412 +", Unit::Mm).unwrap_err().kind, ParseErrorKind::Unfinished);
/// assert_eq!(
///     parse("1,250", Unit::Mm).unwrap_err().to_string(),
///     "“1,250” can be read two ways. Type 1250 mm or 1.250 mm."
/// );
/// ```
pub fn parse(text: &str, unit: Unit) -> Result<f64, ParseError> {
    parse_sum(text, unit).map(|sum| sum.total())
}

/// As [`parse`], in its parts.
///
/// # Errors
///
/// As [`parse`].
///
/// ```
/// use tautmark::length::{Unit, parse_sum};
/// let sum = parse_sum("3412 - 12.5", Unit::Mm).unwrap();
/// let parts: Vec<f64> = sum.terms().map(|term| term.mm).collect();
/// assert_eq!(parts, [3412.0, -12.5]);
/// assert_eq!(sum.total(), 3399.5);
/// ```
pub fn parse_sum(text: &str, unit: Unit) -> Result<Sum, ParseError> {
    read(text, unit).map_err(|(kind, at, end)| ParseError {
        at,
        len: end.saturating_sub(at),
        kind,
        found: text.get(at..end).unwrap_or_default().to_owned(),
        unit,
    })
}

/// Whether typing on can still make a length of `text`: for saying "go on" instead of "wrong" while
/// keys are pressed.
///
/// True for every length, for no text at all, and for a text with a figure, fraction, unit or term
/// begun at its end.
///
/// ```
/// use tautmark::length::{Unit, prefix_ok};
/// assert!(prefix_ok("3412 +", Unit::Mm));
/// assert!(prefix_ok("3 4", Unit::Mm));
/// assert!(prefix_ok("11' 9 5/", Unit::FEET));
/// assert!(!prefix_ok("3412 + + 76", Unit::Mm));
/// ```
#[must_use]
pub fn prefix_ok(text: &str, unit: Unit) -> bool {
    // One of these finishes whatever can be finished: a group of three, a fraction's stroke or
    // denominator, a begun unit.
    const ENDINGS: [&str; 10] = [
        "0", "00", "/64\"", "2\"", "4\"", "6\"", "8\"", "\"", " m", "m",
    ];
    match parse_sum(text, unit) {
        Ok(_) => true,
        Err(error) if error.is_unfinished() => true,
        Err(error) if error.at + error.len < text.trim_end().len() => false,
        Err(_) => ENDINGS
            .iter()
            .any(|ending| parse_sum(&format!("{text}{ending}"), unit).is_ok()),
    }
}

fn read(text: &str, unit: Unit) -> Result<Sum, Refused> {
    if let Some((at, _)) = text.char_indices().nth(LONGEST_TEXT) {
        return Err((ParseErrorKind::TooLong, at, text.len()));
    }
    let tokens = scan(text)?;
    if tokens.is_empty() {
        return Err((ParseErrorKind::Empty, 0, text.len()));
    }
    let mut terms = Terms::new(tokens, unit);
    let first = placed_term(text, &mut terms)?;
    let mut rest: Vec<Term> = Vec::new();
    while !terms.at_end() {
        terms.require_sign()?;
        rest.push(placed_term(text, &mut terms)?);
    }
    let sum = Sum::new(first, rest);
    if sum.total().abs() > LARGEST_MM {
        return Err((ParseErrorKind::TooLarge, 0, text.len()));
    }
    Ok(sum)
}

fn placed_term(text: &str, terms: &mut Terms) -> Result<Term, Refused> {
    let (mm, at, end) = terms.signed_term()?;
    if mm.abs() <= LARGEST_MM {
        let text = text.get(at..end).unwrap_or_default().to_owned();
        Ok(Term { mm, text })
    } else {
        Err((ParseErrorKind::TooLarge, at, end))
    }
}

#[cfg(test)]
mod refusals;
#[cfg(test)]
mod tests;

//! What could not be read, where, and what to type instead.

use std::fmt;

use super::{LONGEST_TEXT, Unit};

/// Why a text is not a length. The texts it carries are remedies that can be typed as they stand.
#[derive(Clone, PartialEq, Eq, Debug)]
#[non_exhaustive]
pub enum ParseErrorKind {
    /// There is nothing but space.
    Empty,
    /// Right so far, but something must follow, as after `3412 +`: say "go on", not "wrong".
    Unfinished,
    /// More than [`LONGEST_TEXT`] characters.
    TooLong,
    /// The value is beyond ±[`LARGEST_MM`](super::LARGEST_MM).
    TooLarge,
    /// A character or word that is no part of a length.
    Unknown,
    /// Two figures with no sign between them.
    NoSign,
    /// Two signs with no figure between them.
    TwoSigns,
    /// A unit or a fraction stroke with no figure before it, or a stroke with none after it.
    NoFigure,
    /// More than one decimal mark, or a comma and a point, in one figure.
    DecimalMarks,
    /// Two readings are possible.
    Ambiguous {
        /// One reading, spelt out.
        one: String,
        /// The other.
        other: String,
    },
    /// A fraction with no inch mark where figures are not inches.
    FractionNeedsInches {
        /// The same figure with its inch mark.
        instead: String,
    },
    /// A fraction of something that is not divided that way, or of a figure with decimals.
    FractionMisplaced,
    /// A fraction that is not halves, quarters … sixty-fourths.
    Denominator {
        /// The nearest fraction on a tape.
        instead: String,
    },
    /// A fraction of one or more.
    Improper,
    /// Twelve inches or more after feet.
    Inches {
        /// The same length with its inches under twelve.
        instead: String,
    },
    /// Inches after feet that are not whole.
    FeetNotWhole {
        /// The same length in whole feet and inches, to the nearest 1/32.
        instead: String,
    },
}

/// A text that is not a length; its `Display` is a sentence for a person.
///
/// ```
/// use tautmark::length::{Unit, parse};
/// let error = parse("11' 14\"", Unit::FEET).unwrap_err();
/// assert_eq!((error.at, error.len), (4, 3));
/// assert_eq!(error.to_string(), "“14\"” is a foot or more after feet. Type 12' 2\" instead.");
/// ```
#[derive(Clone, PartialEq, Eq, Debug)]
#[non_exhaustive]
pub struct ParseError {
    /// Where it starts in the text, in bytes, on a character boundary; at most the length of the text.
    pub at: usize,
    /// How many bytes it covers, up to a character boundary; may be none.
    pub len: usize,
    /// What is wrong.
    pub kind: ParseErrorKind,
    /// The part of the text that is meant.
    pub found: String,
    /// What a bare figure was taken to be.
    pub unit: Unit,
}

impl ParseError {
    /// Whether the text may yet become a length by typing on, as far as the kind alone tells; see
    /// [`prefix_ok`](super::prefix_ok) for the whole answer.
    #[must_use]
    pub const fn is_unfinished(&self) -> bool {
        matches!(
            self.kind,
            ParseErrorKind::Empty | ParseErrorKind::Unfinished
        )
    }
}

impl std::error::Error for ParseError {}

impl fmt::Display for ParseError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let found = self.found.trim();
        let example = match self.unit {
            Unit::Mm => "3412 or 3412 + 76",
            Unit::M => "3.412 or 3.412 + 0.076",
            Unit::FtIn(_) => "11' 9 5/16\" or 141 5/16",
        };
        match &self.kind {
            ParseErrorKind::Empty => {
                write!(f, "There is no length yet. Type one such as {example}.")
            }
            ParseErrorKind::Unfinished => {
                write!(f, "Go on: “{found}” needs more after it.")
            }
            ParseErrorKind::TooLong => write!(
                f,
                "This is longer than {LONGEST_TEXT} characters. Type one length, such as {example}."
            ),
            ParseErrorKind::TooLarge => write!(
                f,
                "“{found}” is over 1000 km. Check the figure and its unit."
            ),
            ParseErrorKind::Unknown => write!(
                f,
                "“{found}” is no part of a length. Use figures, + and −, and mm, cm, m, ft or in."
            ),
            ParseErrorKind::NoSign => write!(
                f,
                "“{found}” follows another figure with no sign between. Put + or − between them, or write one length, such as {example}."
            ),
            ParseErrorKind::TwoSigns => write!(
                f,
                "“{found}” is a second sign in a row. Keep one sign between two figures."
            ),
            ParseErrorKind::NoFigure => write!(
                f,
                "“{found}” has a figure missing beside it. Write the figure first, as in 76 mm or 5/16\"."
            ),
            ParseErrorKind::DecimalMarks => write!(
                f,
                "“{found}” has more than one decimal mark. Keep one, and write thousands without a mark, as in 1250.5."
            ),
            ParseErrorKind::Ambiguous { one, other } => {
                write!(f, "“{found}” can be read two ways. Type {one} or {other}.")
            }
            ParseErrorKind::FractionNeedsInches { instead } => write!(
                f,
                "“{found}” is a fraction without its unit. For inches type {instead}; otherwise use decimals, as in 12.5."
            ),
            ParseErrorKind::FractionMisplaced => write!(
                f,
                "“{found}” mixes a fraction with decimals or metric units. Use decimals, as in 12.5 mm, or inches, as in 12 1/2\"."
            ),
            ParseErrorKind::Denominator { instead } => write!(
                f,
                "“{found}” is not on a tape, which has halves down to 64ths. Type {instead}, the nearest, instead."
            ),
            ParseErrorKind::Improper => write!(
                f,
                "“{found}” is not less than one. Write the whole inches first, as in 1 1/16\"."
            ),
            ParseErrorKind::Inches { instead } => write!(
                f,
                "“{found}” is a foot or more after feet. Type {instead} instead."
            ),
            ParseErrorKind::FeetNotWhole { instead } => write!(
                f,
                "“{found}” has part of a foot and inches as well. Type {instead} instead."
            ),
        }
    }
}

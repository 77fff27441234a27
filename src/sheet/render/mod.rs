//! The sheet shown: each file turns the same value into one kind of output.

mod csv;
mod html;
mod layout;
mod text;

pub use csv::csv;
pub use html::html;
pub use text::text;

use crate::cautions::Caution;
use crate::job::Severity;
use crate::length::{InchPart, Unit};

/// What lengths are in, for the top of a sheet.
pub fn unit_words(unit: Unit) -> &'static str {
    match unit {
        Unit::Mm => "millimetres",
        Unit::M => "metres",
        Unit::FtIn(InchPart::Eighth) => "feet, inches and eighths",
        Unit::FtIn(InchPart::Sixteenth) => "feet, inches and sixteenths",
        Unit::FtIn(InchPart::ThirtySecond) => "feet, inches and thirty-seconds",
    }
}

pub fn severity_word(severity: Severity) -> &'static str {
    match severity {
        Severity::Error => "Error",
        Severity::Warning => "Look",
        Severity::Note => "Note",
    }
}

/// The caution's short form without its full stop, as a heading for the full one.
pub fn caution_heading(caution: &Caution) -> &'static str {
    caution.short.trim_end_matches('.')
}

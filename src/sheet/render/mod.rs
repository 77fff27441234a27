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
use crate::length::Unit;

/// What lengths are in, for the top of a sheet.
pub fn unit_words(unit: Unit) -> &'static str {
    match unit {
        Unit::Mm => "millimetres",
        Unit::M => "metres",
        Unit::FtIn => "feet, inches and sixteenths",
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

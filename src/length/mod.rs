//! Lengths as people write them, in and out: what does this text mean, how is a figure shown, and in what
//! words is it called?
//!
//! ```text
//!   3412 + 76      11′ 9 5/16″      3.4 m + 76
//!      └──────────────┼────────────────┘
//!            scan → terms → millimetres → show, or spoken
//! ```
//!
//! Inside the program a length is always millimetres, as an `f64`. Only here does it meet text.
//!
//! # What is read
//!
//! - **Figures** `3412`, `3412.5`, `3412,5`, `3 412`; with a unit `3412 mm`, `341.2 cm`, `3.412 m`.
//! - **Feet and inches** `11'`, `11 ft`, `11' 9 5/16"`, `11'-9 5/16"`, `9 in`, `5/16"`, `9½"`; the
//!   fraction may follow its inches by a hyphen, `9-5/16"`, or their mark, `9 in 5/16`. Straight,
//!   curly and true prime marks all count. Fractions are halves down to sixty-fourths.
//! - **Sums** of any of these with `+`, `-` and `−`, such as `3412 + 76`: the tape's reading and its case.
//!
//! # What a bare figure means
//!
//! The [`Unit`] decides: millimetres, metres, or (feet and inches) **inches**, as on a tape that
//! numbers its inches right through: `140 1/2` is 11′ 8 1/2″. After feet a bare figure is inches
//! too: `11' 9`.
//!
//! # Where two readings are possible
//!
//! A wrong guess here is a post in the wrong hole, so what cannot be told apart is refused, with
//! both readings offered.
//!
//! | text | reading |
//! | --- | --- |
//! | `1,250` | refused: 1250 or 1.250? In metres it is 1.250, the only one that a tape can read |
//! | `3.412` where millimetres are meant | refused: 3.412 m or 3.412 mm? (three decimals or more, fewer than four figures before) |
//! | `1,250.5` | refused: one decimal mark only |
//! | `11-9` in feet and inches | 11′ 9″: a hyphen with no space on either side, whole feet, inches under 12 |
//! | `140-12` in feet and inches | 140″ − 12″, since 12 cannot be the inches after feet |
//! | `11 - 9`, `11−9` in feet and inches | 11″ − 9″: spaces, or the true minus sign, always take away |
//! | `11-9-2` in feet and inches | refused: feet and inches, or a sum? |
//! | `2-1/2` in feet and inches | 2 1/2″: a hyphen between inches and their fraction joins them |
//! | `9 - 5/16` in feet and inches | 9″ − 5/16″: spaces, or the true minus sign, always take away |
//! | `11-9"` in millimetres or metres | refused: 11′ 9″ or a sum? |
//! | `12 1/2` in millimetres or metres | refused: a fraction needs its inch mark |
//! | `3412 -- 76` | refused: one sign between two figures |

mod amount;
mod digits;
mod error;
mod fraction;
pub mod keys;
mod measure;
mod parse;
mod part;
mod remedy;
mod scan;
mod show;
mod spoken;
mod sum;
mod term;
mod tokens;
mod unit;

pub use error::{ParseError, ParseErrorKind};
pub use parse::{parse, parse_sum, prefix_ok};
pub use part::InchPart;
pub use show::{
    distance, fine_with_unit, rounded, show, show_fine, show_pm, show_pm_with_unit, show_spread,
    show_typed, show_with_unit, signed, signed_fine,
};
pub use spoken::{number_spoken, spoken};
pub use sum::{Sum, Term};
pub use unit::Unit;

/// A length of so many inches, mm: for figures that are native to feet and inches.
#[must_use]
pub const fn inches(inches: f64) -> f64 {
    inches * fraction::MM_PER_INCH
}

/// The largest length that is read, in millimetres either way: a thousand kilometres.
pub const LARGEST_MM: f64 = 1e9;

/// The most characters that are read as one length or sum.
pub const LONGEST_TEXT: usize = 200;

//! The set-out sheet as pages: the sheet's own blocks, its drawings as vectors, the typeface
//! embedded, every word searchable.

mod flow;
mod ink;
mod set;
mod table;

use crate::Solution;
use crate::drawing::Weight;
use crate::job::Job;
use crate::sheet::Sheet;
use flow::{Frame, flow};
use thiserror::Error;

/// The size of a page, upright.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Paper {
    #[default]
    A4,
    Letter,
}

impl Paper {
    /// Width and height, pt.
    #[must_use]
    pub fn size(self) -> [f64; 2] {
        match self {
            Self::A4 => [595.28, 841.89],
            Self::Letter => [612.0, 792.0],
        }
    }
}

/// Why no PDF could be made.
#[derive(Debug, Error)]
#[error("The pages cannot be written ({0}).")]
pub struct PdfError(String);

/// The sheet of a job and what it came to, as a PDF. The same job gives the same bytes.
///
/// # Errors
/// The bundled typeface cannot be embedded; a build with a whole typeface never gives one.
pub fn pdf(job: &Job, solution: &Solution, paper: Paper) -> Result<Vec<u8>, PdfError> {
    let sheet = Sheet::new(job, solution);
    let frame = Frame::of(paper);
    let pages = flow(&set::pieces(&sheet, frame.width), &frame);
    ink::write(&sheet, &pages, &frame)
}

/// Size of the running text, pt.
const TEXT: f64 = 9.5;
/// From one line of text to the next, in font sizes.
const LEADING: f64 = 1.35;

/// Words with their place on the page, pt from the top left.
#[derive(Clone, Debug, PartialEq)]
struct Words {
    x: f64,
    /// The line that they stand on.
    y: f64,
    text: String,
    size: f64,
    weight: Weight,
}

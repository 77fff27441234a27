//! The set-out sheet: everything a person takes to the plot, in the order of the work.
//!
//! ```text
//!   Job ─┐                       ┌─ text      for a screen, a printer, a pocket
//!        ├─▶ Sheet (sections ────┼─ csv       for a spreadsheet
//!   Solution  of blocks)         ├─ html      for a browser, printed from there
//!                                ├─ message   short, for a text message
//!                                └─ pdf       pages, with its drawings (see `export`)
//! ```
//!
//! The sheet is made once, as a plain value; every renderer shows that same value, so they cannot
//! disagree. Figures stay millimetres until a renderer shows them in the sheet's unit.

mod columns;
mod document;
mod parts;
mod phrase;
mod picture;
mod render;

pub use document::{Align, Block, BlocksStand, Cell, Column, Section, Sheet, Table};
pub use picture::{Picture, Room};

pub(crate) use columns::{Columns, TypeSetting};
pub(crate) use render::{caution_heading, severity_word, unit_words};

use crate::Solution;
use crate::job::{Job, visible};
use std::borrow::Cow;

impl Sheet {
    /// The sheet of a job and what it came to, in the job's own unit of length.
    ///
    /// ```
    /// let job = tautmark::job::example();
    /// let sheet = tautmark::sheet::Sheet::new(&job, &tautmark::solve(&job));
    /// assert_eq!(sheet.title, "Orchard corner screen");
    /// assert!(sheet.text().contains("5\u{a0}402\u{a0}±\u{a0}9\u{a0}mm"));
    /// ```
    #[must_use]
    pub fn new(job: &Job, solution: &Solution) -> Self {
        let desk = parts::SheetDesk::new(job, solution);
        Self {
            title: job.title.clone(),
            notes: job.notes.clone(),
            unit: job.show.lengths,
            plan: parts::plan(&desk),
            sections: parts::sections(&desk),
            message: parts::message(&desk),
        }
    }

    /// The sheet as plain text, 100 columns wide at most.
    #[must_use]
    pub fn text(&self) -> String {
        shown(render::text(self))
    }

    /// The sheet as comma-separated rows, figures to 0.01 mm without group spaces.
    #[must_use]
    pub fn csv(&self) -> String {
        shown(render::csv(self))
    }

    /// The sheet as one page that a browser shows and prints, with nothing to fetch.
    #[must_use]
    pub fn html(&self) -> String {
        shown(render::html(self))
    }

    /// The running readings, corners and gates in a few lines, for a text message.
    #[must_use]
    pub fn message(&self) -> String {
        shown(self.message.clone())
    }
}

/// Names as they are: nothing in them turns the letters round.
fn shown(text: String) -> String {
    match visible(&text) {
        Cow::Borrowed(_) => text,
        Cow::Owned(shown) => shown,
    }
}

/// A place in the file, such as `runs[0].gates[1].at`, in a person's words.
///
/// ```
/// let job = tautmark::job::example();
/// assert_eq!(tautmark::sheet::place(&job, "runs[0].gates[0].clear"), "Run R1, gate 1, clear width");
/// ```
#[must_use]
pub fn place(job: &Job, place: &str) -> String {
    parts::place(job, place)
}

/// All results as JSON, unrounded, with a line end.
///
/// # Errors
/// A figure that JSON cannot hold; a solution has none.
pub fn json(solution: &Solution) -> Result<String, serde_json::Error> {
    let mut text = serde_json::to_string_pretty(solution)?;
    text.push('\n');
    Ok(text)
}

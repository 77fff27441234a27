//! Every form in which a set-out leaves the program, by name, so that the command line and the app
//! give the very same files.

use super::{Paper, PdfError, dxf, pdf, svg_corner, svg_gate, svg_plan, svg_run, svg_trestles};
use crate::Solution;
use crate::job::{CornerId, Job, RunId};
use crate::sheet::{Sheet, json};
use thiserror::Error;

/// A form of the set-out.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Form {
    /// The sheet as pages, with drawings.
    Pdf(Paper),
    /// The sheet as a page for a browser, with drawings.
    Html,
    /// The sheet as plain text.
    Text,
    /// The sheet's tables for a spreadsheet.
    Csv,
    /// A few lines for a text message.
    Message,
    /// Every result, unrounded.
    Json,
    /// One drawing.
    Svg(Subject),
    /// The plan in mm, for drawing programs.
    Dxf,
}

/// What a drawing shows.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Subject {
    /// The whole site from above.
    Plan,
    /// A run from the side, with the heights that are known.
    Run(RunId),
    /// A corner with its check diagonal.
    Corner(CornerId),
    /// The posts that are cut together with this one, on trestles.
    Posts(RunId, usize),
    /// The leaf of a run's gate, by its place in the run's list.
    Gate(RunId, usize),
}

/// Why a form cannot be made.
#[derive(Debug, Error)]
pub enum FormError {
    /// The sheet's pages cannot be written.
    #[error(transparent)]
    Pdf(#[from] PdfError),
    /// A figure in the results is not a number.
    #[error("The results cannot be written as JSON: {0}.")]
    Json(#[from] serde_json::Error),
    /// The job has nothing yet of what is named.
    #[error(
        "There is nothing to draw of {0} yet. See what is missing for it with “tautmark check”, or on its own page."
    )]
    Nothing(String),
}

impl Form {
    /// The form's bytes. The same job gives the same bytes.
    ///
    /// # Errors
    /// Where there is nothing to draw, or a figure or typeface cannot be written.
    pub fn make(&self, job: &Job, solution: &Solution) -> Result<Vec<u8>, FormError> {
        let sheet = || Sheet::new(job, solution);
        Ok(match self {
            Self::Pdf(paper) => pdf(job, solution, *paper)?,
            Self::Html => sheet().html().into_bytes(),
            Self::Text => sheet().text().into_bytes(),
            Self::Csv => sheet().csv().into_bytes(),
            Self::Message => sheet().message().into_bytes(),
            Self::Json => json(solution)?.into_bytes(),
            Self::Dxf => dxf(job, solution).into_bytes(),
            Self::Svg(subject) => subject.svg(job, solution)?.into_bytes(),
        })
    }

    /// How the name of such a file ends, without the dot.
    #[must_use]
    pub fn ending(&self) -> &'static str {
        match self {
            Self::Pdf(_) => "pdf",
            Self::Html => "html",
            Self::Text | Self::Message => "txt",
            Self::Csv => "csv",
            Self::Json => "json",
            Self::Svg(_) => "svg",
            Self::Dxf => "dxf",
        }
    }

    /// Its media type, as the Internet Assigned Numbers Authority registers it.
    #[must_use]
    pub fn media_type(&self) -> &'static str {
        match self {
            Self::Pdf(_) => "application/pdf",
            Self::Html => "text/html",
            Self::Text | Self::Message => "text/plain",
            Self::Csv => "text/csv",
            Self::Json => "application/json",
            Self::Svg(_) => "image/svg+xml",
            Self::Dxf => "image/vnd.dxf",
        }
    }
}

impl Subject {
    /// The subject of this name: `plan`, the name of a run or corner of the job, or of a run's post
    /// or gate: `R1 post 2`, `R1 gate 1`.
    #[must_use]
    pub fn named(job: &Job, name: &str) -> Option<Self> {
        if name == "plan" {
            return Some(Self::Plan);
        }
        let run = job.runs.iter().find(|run| run.id.as_str() == name);
        let corner = || job.corners.iter().find(|one| one.id.as_str() == name);
        run.map(|run| Self::Run(run.id.clone()))
            .or_else(|| Some(Self::Corner(corner()?.id.clone())))
            .or_else(|| part_of_run(job, name))
    }

    fn svg(&self, job: &Job, solution: &Solution) -> Result<String, FormError> {
        let nothing = |kind: &str, name: &str| FormError::Nothing(format!("{kind} {name}"));
        match self {
            Self::Plan => Ok(svg_plan(job, solution)),
            Self::Run(id) => svg_run(job, solution, id).ok_or_else(|| nothing("run", id.as_str())),
            Self::Posts(run, n) => svg_trestles(job, solution, run, *n)
                .ok_or_else(|| nothing("post", &format!("{n} of run {run}"))),
            Self::Gate(run, index) => svg_gate(job, solution, run, *index)
                .ok_or_else(|| nothing("gate", &format!("{} of run {run}", index + 1))),
            Self::Corner(id) => {
                svg_corner(job, solution, id).ok_or_else(|| nothing("corner", id.as_str()))
            }
        }
    }
}

/// `R1 post 2`, `R1 gate 1`: counted as a person does.
fn part_of_run(job: &Job, name: &str) -> Option<Subject> {
    let (rest, number) = name.trim().rsplit_once(' ')?;
    let number: usize = number.parse().ok()?;
    let (run, part) = rest.rsplit_once(' ')?;
    let run = job.runs.iter().find(|one| one.id.as_str() == run)?;
    match part {
        "post" => Some(Subject::Posts(run.id.clone(), number)),
        "gate" => {
            let index = number.checked_sub(1).filter(|at| *at < run.gates.len())?;
            Some(Subject::Gate(run.id.clone(), index))
        }
        _ => None,
    }
}

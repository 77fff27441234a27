//! Every form in which a set-out leaves the program, by name, so that the command line and the app
//! give the very same files.

use super::{Paper, PdfError, dxf, pdf, svg_corner, svg_plan, svg_run};
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
    Plan,
    /// A run from the side, with the heights that are known.
    Run(RunId),
    /// A corner with its check diagonal.
    Corner(CornerId),
}

/// Why a form cannot be made.
#[derive(Debug, Error)]
pub enum FormError {
    #[error(transparent)]
    Pdf(#[from] PdfError),
    #[error("The results cannot be written as JSON: {0}.")]
    Json(#[from] serde_json::Error),
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
    /// The subject of this name: `plan`, or the name of a run or corner of the job.
    #[must_use]
    pub fn named(job: &Job, name: &str) -> Option<Self> {
        if name == "plan" {
            return Some(Self::Plan);
        }
        let run = job.runs.iter().find(|run| run.id.as_str() == name);
        let corner = || job.corners.iter().find(|one| one.id.as_str() == name);
        run.map(|run| Self::Run(run.id.clone()))
            .or_else(|| Some(Self::Corner(corner()?.id.clone())))
    }

    fn svg(&self, job: &Job, solution: &Solution) -> Result<String, FormError> {
        let nothing = |kind: &str, name: &str| FormError::Nothing(format!("{kind} {name}"));
        match self {
            Self::Plan => Ok(svg_plan(job, solution)),
            Self::Run(id) => svg_run(job, solution, id).ok_or_else(|| nothing("run", id.as_str())),
            Self::Corner(id) => {
                svg_corner(job, solution, id).ok_or_else(|| nothing("corner", id.as_str()))
            }
        }
    }
}

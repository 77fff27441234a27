//! What is wrong, missing or worth knowing in a job: where, what, and what to do about it.

use serde::Serialize;

/// How much a problem matters.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Severity {
    /// The file says something that cannot be; that part is left out.
    Error,
    /// Solved, or not solvable yet, and somebody should look.
    Warning,
    /// Worth knowing.
    Note,
}

/// One problem.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Problem {
    pub severity: Severity,
    /// Place in the file, such as `runs[0].gates[1].at`.
    #[serde(rename = "where")]
    pub place: String,
    /// What is wrong, in a person's words.
    pub text: String,
    /// What to do about it.
    pub remedy: String,
}

/// Problems as they are found.
#[derive(Clone, Debug, Default)]
pub struct Problems(pub Vec<Problem>);

impl Problems {
    /// Adds an error.
    pub fn error(
        &mut self,
        place: impl Into<String>,
        text: impl Into<String>,
        remedy: impl Into<String>,
    ) {
        self.add(Severity::Error, place, text, remedy);
    }

    /// Adds a warning.
    pub fn warning(
        &mut self,
        place: impl Into<String>,
        text: impl Into<String>,
        remedy: impl Into<String>,
    ) {
        self.add(Severity::Warning, place, text, remedy);
    }

    /// Adds a note.
    pub fn note(
        &mut self,
        place: impl Into<String>,
        text: impl Into<String>,
        remedy: impl Into<String>,
    ) {
        self.add(Severity::Note, place, text, remedy);
    }

    fn add(
        &mut self,
        severity: Severity,
        place: impl Into<String>,
        text: impl Into<String>,
        remedy: impl Into<String>,
    ) {
        let (place, text, remedy) = (place.into(), text.into(), remedy.into());
        self.0.push(Problem {
            severity,
            place,
            text,
            remedy,
        });
    }
}

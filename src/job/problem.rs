//! What is wrong, missing or worth knowing in a job: where, what, and what to do about it.

use super::RunId;
use serde::{Serialize, Serializer};
use std::fmt;
use std::ops::Deref;

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
    /// How much it matters.
    pub severity: Severity,
    /// What it is about.
    #[serde(rename = "where")]
    pub place: Where,
    /// What is wrong, in a person's words.
    pub text: String,
    /// What to do about it.
    pub remedy: String,
}

/// Where a problem is: the place in the file, such as `runs[0].gates[1].at`, and the runs and posts that
/// it concerns. It reads, compares and is written as the place.
///
/// ```
/// use tautmark::job::Where;
///
/// let place = Where::from("boards.gravel.gap").of_run(&"R1".into());
/// assert!(place.is_in("boards") && !place.is_in("boards.gravel.ga"));
/// assert!(place.concerns_run(&"R1".into()) && !place.concerns_run(&"R2".into()));
/// assert_eq!(Where::from("runs[2].end").entry_of("runs"), Some(2));
/// ```
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Where {
    place: String,
    runs: Vec<RunId>,
    posts: Vec<(RunId, usize)>,
}

impl Where {
    /// With a run that it concerns.
    #[must_use]
    pub fn of_run(mut self, run: &RunId) -> Self {
        self.runs.push(run.clone());
        self
    }

    /// With a post that it concerns, counted from 1.
    #[must_use]
    pub fn of_post(mut self, run: &RunId, post: usize) -> Self {
        self.posts.push((run.clone(), post));
        self
    }

    /// The place in the file.
    #[must_use]
    pub fn as_str(&self) -> &str {
        &self.place
    }

    /// True for this place of the file, and for all inside it.
    #[must_use]
    pub fn is_in(&self, place: &str) -> bool {
        let rest = self.place.strip_prefix(place);
        rest.is_some_and(|rest| rest.is_empty() || rest.starts_with(['.', '[']))
    }

    /// Which entry of a list of the file it is in, from 0.
    #[must_use]
    pub fn entry_of(&self, list: &str) -> Option<usize> {
        let rest = self.place.strip_prefix(list)?.strip_prefix('[')?;
        rest.split_once(']')?.0.parse().ok()
    }

    /// True where it concerns no run more than another.
    #[must_use]
    pub fn concerns_all_runs(&self) -> bool {
        self.runs.is_empty() && self.posts.is_empty()
    }

    /// True where it concerns this run.
    #[must_use]
    pub fn concerns_run(&self, run: &RunId) -> bool {
        self.runs.contains(run) || self.posts.iter().any(|(of, _)| of == run)
    }

    /// True where it concerns this post, counted from 1.
    #[must_use]
    pub fn concerns_post(&self, run: &RunId, post: usize) -> bool {
        self.posts.iter().any(|(of, n)| of == run && *n == post)
    }
}

impl From<String> for Where {
    fn from(place: String) -> Self {
        Self {
            place,
            ..Self::default()
        }
    }
}

impl From<&str> for Where {
    fn from(place: &str) -> Self {
        Self::from(place.to_owned())
    }
}

impl Deref for Where {
    type Target = str;

    fn deref(&self) -> &str {
        &self.place
    }
}

impl fmt::Display for Where {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(&self.place)
    }
}

impl Serialize for Where {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.serialize_str(&self.place)
    }
}

impl PartialEq<str> for Where {
    fn eq(&self, place: &str) -> bool {
        self.place == place
    }
}

impl PartialEq<&str> for Where {
    fn eq(&self, place: &&str) -> bool {
        self.place == *place
    }
}

impl PartialEq<String> for Where {
    fn eq(&self, place: &String) -> bool {
        self.place == *place
    }
}

/// Problems as they are found.
#[derive(Clone, Debug, Default)]
pub struct Problems(pub Vec<Problem>);

impl Problems {
    /// Adds an error.
    pub fn error(
        &mut self,
        place: impl Into<Where>,
        text: impl Into<String>,
        remedy: impl Into<String>,
    ) {
        self.add(Severity::Error, place, text, remedy);
    }

    /// Adds a warning.
    pub fn warning(
        &mut self,
        place: impl Into<Where>,
        text: impl Into<String>,
        remedy: impl Into<String>,
    ) {
        self.add(Severity::Warning, place, text, remedy);
    }

    /// Adds a note.
    pub fn note(
        &mut self,
        place: impl Into<Where>,
        text: impl Into<String>,
        remedy: impl Into<String>,
    ) {
        self.add(Severity::Note, place, text, remedy);
    }

    fn add(
        &mut self,
        severity: Severity,
        place: impl Into<Where>,
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

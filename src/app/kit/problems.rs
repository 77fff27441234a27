//! Problems as the screens say them.

use super::words::status;
use crate::app::desk::Desk;
use crate::job::{Problem, Severity};
use tautmark_ui::{Status, Verdict};

/// How grave a problem is, as a mark.
#[must_use]
pub fn verdict_of(severity: Severity) -> Verdict {
    match severity {
        Severity::Error => Verdict::Bad,
        Severity::Warning => Verdict::Attention,
        Severity::Note => Verdict::Note,
    }
}

/// A problem in bold with what to do about it.
#[must_use]
pub fn told(problem: &Problem, verdict: Verdict) -> Status {
    let text = format!("**{}** {}", problem.text, problem.remedy);
    status(verdict, &text)
}

/// A problem beside the figure that it is of.
#[must_use]
pub fn beside(problem: &Problem) -> Status {
    let text = format!("{} {}", problem.text, problem.remedy);
    status(Verdict::Attention, &text)
}

/// What is wrong, and at least so grave, in this place of the file.
#[must_use]
pub fn problem_in(desk: &Desk, place: &str, least: Severity) -> Option<Status> {
    let mut problems = desk.solution.problems.iter();
    let problem = problems.find(|one| one.severity <= least && one.place.is_in(place))?;
    Some(beside(problem))
}

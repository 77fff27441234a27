//! What is wrong or missing, before anything is cut or dug.

use super::super::document::{Block, Section};
use super::super::phrase::{count, count_in_words};
use super::{Desk, names};
use crate::job::Severity;

/// Every problem, the worst first; or that there is none.
pub fn section(desk: &Desk<'_>) -> Section {
    let problems = &desk.solution.problems;
    let of = |severity| problems.iter().filter(move |p| p.severity == severity);
    let mut section = Section::new("Look at this first");
    if problems.is_empty() {
        section.say("Nothing is wrong, and nothing is missing that the job asks for.");
        return section;
    }
    section.say(format!(
        "{}, {} to look at, {}.",
        count_in_words(of(Severity::Error).count(), "error"),
        count(of(Severity::Warning).count(), "thing"),
        count(of(Severity::Note).count(), "note"),
    ));
    for severity in [Severity::Error, Severity::Warning, Severity::Note] {
        section.blocks.extend(
            of(severity).map(|p| Block::Problem(names::place(desk.job, &p.place), p.clone())),
        );
    }
    section
}

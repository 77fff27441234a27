//! What is wrong or missing, before anything is cut or dug.

use super::super::document::{Block, Section};
use super::super::phrase::{count, count_in_words};
use super::{SheetDesk, names};
use crate::job::{Problem, Severity};
use crate::listed::and;

/// Every problem, the worst first; or that there is none.
pub fn section(desk: &SheetDesk<'_>) -> Section {
    let problems = &desk.solution.problems;
    let of = |severity| problems.iter().filter(move |p| p.severity == severity);
    let mut section = Section::new("Look at this first");
    if problems.is_empty() {
        section.say(if desk.job.marks.is_empty() {
            "Nothing is measured yet. Put a mark at each end of every wall, and tape between them."
        } else {
            "Nothing is wrong, and nothing that the job needs is missing."
        });
        return section;
    }
    section.say(format!(
        "{}, {} to look at, {}.",
        count_in_words(of(Severity::Error).count(), "error"),
        count(of(Severity::Warning).count(), "thing"),
        count(of(Severity::Note).count(), "note"),
    ));
    if disagrees(desk) {
        section.say(STOP);
    }
    for severity in [Severity::Error, Severity::Warning, Severity::Note] {
        let named = of(severity).map(|p| Block::Problem(place(desk, p), p.clone()));
        section.blocks.extend(named);
    }
    section
}

const STOP: &str = "Stop: readings do not agree. Every figure on this sheet that rests on them is \
                    off; find the wrong one before anything is stretched, dug or cut.";

/// How many things to look at before anything is dug, for the first page; nothing where there are
/// none.
pub fn in_short(desk: &SheetDesk<'_>) -> String {
    let problems = &desk.solution.problems;
    let of = |severity| problems.iter().filter(|p| p.severity == severity).count();
    let counts = [
        (of(Severity::Error), "error"),
        (of(Severity::Warning), "thing"),
    ];
    let said: Vec<String> = counts
        .into_iter()
        .filter(|(n, _)| *n > 0)
        .map(|(n, what)| count(n, what))
        .collect();
    match said.as_slice() {
        [] => String::new(),
        said => format!("{} to look at first: see below.", and(said)),
    }
}

/// Whether tapes or sights contradict each other.
fn disagrees(desk: &SheetDesk<'_>) -> bool {
    let network = &desk.solution.network;
    let levels = desk.solution.levels.as_ref();
    !network.suspects.is_empty()
        || network.more_than_one_wrong
        || levels.is_some_and(|levels| !levels.suspects.is_empty() || levels.more_than_one_wrong)
}

/// A reminder where figures are about to be used, while the tapes contradict each other.
pub fn tapes_disagree(desk: &SheetDesk<'_>) -> &'static str {
    let network = &desk.solution.network;
    if network.suspects.is_empty() && !network.more_than_one_wrong {
        ""
    } else {
        "Not yet: the readings do not agree, so these figures are off. See above."
    }
}

/// Where the problem is, without what its own text starts with.
fn place(desk: &SheetDesk<'_>, problem: &Problem) -> String {
    let place = names::place(desk.job, &problem.place);
    let bare = |text: &str| text.replace(['“', '”'], "").to_lowercase();
    let text = bare(&problem.text);
    let mut parts: Vec<&str> = place.split(", ").collect();
    if parts
        .last()
        .is_some_and(|last| text.starts_with(&bare(last)))
    {
        parts.pop();
    }
    parts.join(", ")
}

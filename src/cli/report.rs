//! What a person is told beside the sheet.

use super::input::OpenedJob;
use std::fmt::Write as _;
use std::io::Write as _;
use tautmark::Solution;
use tautmark::job::{Problem, Severity, visible};
use tautmark::sheet::place;

/// Says something on standard error.
pub fn say(words: &str) {
    // Where there is nobody to tell, the exit code still says it.
    let _ = writeln!(std::io::stderr(), "{}", visible(words));
}

/// Names each error of the job on standard error.
pub fn warn_of_errors(opened: &OpenedJob, solution: &Solution) {
    if opened.newer {
        say(&newer(opened));
    }
    let problems = solution.problems.iter();
    for problem in problems.filter(|problem| problem.severity == Severity::Error) {
        say(&format!(
            "{}: {} {}",
            opened.name,
            in_words(opened, problem),
            problem.remedy
        ));
    }
}

fn newer(opened: &OpenedJob) -> String {
    format!(
        "{}: this job is of version {}, newer than this program knows. What it does not know is left out; \
         open it with a newer program to change it.",
        opened.name, opened.job.version
    )
}

/// Its place twice over: as the file has it, and as a person says it.
fn in_words(opened: &OpenedJob, problem: &Problem) -> String {
    let said = place(&opened.job, &problem.place);
    if said.is_empty() {
        format!("{} {}", problem.place, problem.text)
    } else {
        format!("{} ({said}): {}", problem.place, problem.text)
    }
}

/// One paragraph on the whole job, then everything that is wrong, missing or worth knowing.
pub fn verdict(opened: &OpenedJob, solution: &Solution) -> String {
    let mut text = format!("{}: {}\n", opened.name, paragraph(opened, solution));
    if opened.newer {
        let _ = writeln!(text, "\n{}", newer(opened));
    }
    for severity in [Severity::Error, Severity::Warning, Severity::Note] {
        for problem in solution.problems.iter().filter(|p| p.severity == severity) {
            let word = match severity {
                Severity::Error => "error",
                Severity::Warning => "look",
                Severity::Note => "note",
            };
            let _ = write!(
                text,
                "\n{word}: {}\n    {}\n",
                in_words(opened, problem),
                problem.remedy
            );
        }
    }
    visible(&text).into_owned()
}

fn paragraph(opened: &OpenedJob, solution: &Solution) -> String {
    let of = |severity| {
        let problems = solution.problems.iter();
        problems.filter(|p| p.severity == severity).count()
    };
    let (errors, looks, notes) = (
        of(Severity::Error),
        of(Severity::Warning),
        of(Severity::Note),
    );
    let good = match (errors, looks) {
        (0, 0) => "all is well.".to_owned(),
        (0, n) => format!("no errors, {n} to look at."),
        (1, _) => "1 error.".to_owned(),
        (n, _) => format!("{n} errors."),
    };
    // A corner post that two runs share is one post.
    let posts = solution.buy.post_count;
    let more = if notes > 0 {
        format!(" Notes: {notes}.")
    } else {
        String::new()
    };
    format!(
        "{good} “{}”: {} of {} marks, {} of {} strings, {} of {} corners and {} of {} runs are settled, with {posts} posts.{more}",
        opened.job.title,
        solution.marks.len(),
        opened.job.marks.len(),
        solution.lines.len(),
        opened.job.lines.len(),
        solution.corners.len(),
        opened.job.corners.len(),
        solution.runs.len(),
        opened.job.runs.len(),
    )
}

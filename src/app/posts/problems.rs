//! What is wrong with a run: told over its posts, or listed under them.

use crate::app::desk::{Desk, Rows};
use crate::app::kit::{capital, counted, row, status, verdict_of};
use crate::job::{Problem, Severity};
use crate::sheet;
use tautmark_ui::{RowItem, Status};

/// At most so many problems are told over the list; the others stand under it.
const MOST_TOLD: usize = 4;

/// What stands in the way of a run, of its problems: the gravest; none where its posts are settled and
/// nothing is wrong that would change them.
fn in_the_way<'a, 'p>(problems: &'a [&'p Problem], settled: bool) -> &'a [&'p Problem] {
    let gravest = problems.first().map(|problem| problem.severity);
    if settled && gravest != Some(Severity::Error) {
        return &[];
    }
    let alike = problems.partition_point(|problem| Some(problem.severity) == gravest);
    &problems[..alike.min(MOST_TOLD)]
}

/// What stands in the way of a run in full; `None` where nothing does.
#[must_use]
pub fn told(desk: &Desk, problems: &[&Problem], settled: bool) -> Option<Status> {
    let told = in_the_way(problems, settled);
    let gravest = told.first()?.severity;
    let text = told.iter().map(|problem| {
        let place = sheet::place(desk.job(), &problem.place);
        format!("**{place}:** {} {}", problem.text, problem.remedy)
    });
    let text: Vec<String> = text.collect();
    Some(status(verdict_of(gravest), &text.join("\n\n")))
}

/// “Two things to look at”; `None` where nothing is more than a note.
#[must_use]
pub fn to_look_at(problems: &[&Problem]) -> Option<String> {
    let count = problems
        .iter()
        .filter(|problem| problem.severity != Severity::Note)
        .count();
    (count > 0).then(|| {
        let things = counted(count, "thing", "things");
        format!("{} to look at", capital(&things))
    })
}

/// Lists the problems of a run that are not told over its posts, as rows under them; what to do comes
/// with a press.
pub fn list_problems(desk: &Desk, rows: &mut Rows, problems: &[&Problem], settled: bool) {
    let told = in_the_way(problems, settled).len();
    for problem in problems.iter().skip(told) {
        let place = sheet::place(desk.job(), &problem.place);
        let item = RowItem {
            verdict: verdict_of(problem.severity),
            ..row("", &place, &problem.text, "", "")
        };
        let text = format!("{}\n\n{}", problem.text, problem.remedy);
        rows.push(item, move |desk| desk.explain(&place, &text));
    }
}

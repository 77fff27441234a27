//! The run in sight, what it comes to, and what is wrong with it.

use super::Desk;
use crate::job::model::Run;
use crate::job::{Job, Problem};
use crate::setout::RunFix;

/// The run that is looked at, by its place in the file; `None` where the job has no run.
#[must_use]
pub fn run_in_sight(desk: &Desk) -> Option<(usize, &Run)> {
    let runs = &desk.job().runs;
    let at = desk.chosen.run.min(runs.len().checked_sub(1)?);
    Some((at, runs.get(at)?))
}

/// What the run comes to; `None` while the job does not settle it.
#[must_use]
pub fn run_fix<'a>(desk: &'a Desk, run: &Run) -> Option<&'a RunFix> {
    desk.solution.runs.get(&run.id)
}

/// Problems of the run at this place in the file and of its posts as marked, the gravest first.
#[must_use]
pub fn problems_of(desk: &Desk, run: usize) -> Vec<&Problem> {
    let all = desk.solution.problems.iter();
    let mut own: Vec<&Problem> = all
        .filter(|problem| run_of(desk.job(), problem) == Some(run))
        .collect();
    own.sort_by_key(|problem| problem.severity);
    own
}

/// The run that a problem is of: that of its place in the file, or that of a post as marked.
fn run_of(job: &Job, problem: &Problem) -> Option<usize> {
    let place = &problem.place;
    place.entry_of("runs").or_else(|| {
        let marked = job.marked.get(place.entry_of("marked")?)?;
        job.runs.iter().position(|run| run.id == marked.run)
    })
}

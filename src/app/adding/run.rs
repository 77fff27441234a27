//! A new run: along a string that has none, from where to where a fence usually goes.

use crate::app::desk::{Desk, Then};
use crate::job::edit::{Change, Edit};
use crate::job::model::{Job, Line, Run, Side};
use crate::job::{LineId, free_name};
use crate::setout::usual_ends;
use tautmark_ui::Page;

/// Adds a run along the first string that no run follows yet, else along the first.
pub fn add(desk: &mut Desk) -> Then {
    let job = desk.saved();
    let Some(line) = without_run(job).or(job.lines.first()) else {
        return desk.explain(
            "A run follows a string",
            "There is no string in this job yet. Stretch one in **Strings**, then set up the run.",
        );
    };
    let line = line.id.clone();
    along(desk, &line)
}

/// Adds a run along this string, and looks at it.
pub fn along(desk: &mut Desk, line: &LineId) -> Then {
    let job = desk.saved();
    let Some(line) = job.lines.iter().find(|one| one.id == *line) else {
        return Then::Stay;
    };
    let value = new_run(desk, line);
    let at = job.runs.len();
    if !desk.change(Edit::Run(Change::Insert { at, value })) {
        return Then::Stay;
    }
    (desk.chosen.run, desk.chosen.post) = (at, 1);
    Then::Open(Page::Run)
}

/// The first string that no run follows yet.
#[must_use]
pub fn without_run(job: &Job) -> Option<&Line> {
    let has_run = |line: &Line| job.runs.iter().any(|run| run.line == line.id);
    job.lines.iter().find(|line| !has_run(line))
}

/// A run with the posts and bays of the one before it, on the wall's side of its string.
fn new_run(desk: &Desk, line: &Line) -> Run {
    let job = desk.saved();
    let runs = job.runs.iter();
    let id = free_name("R", runs.map(|run| run.id.as_str()));
    let like = job.runs.last().cloned().unwrap_or_default();
    let [start, end] = usual_ends(job, desk.solution.known(), line);
    Run {
        id: id.into(),
        line: line.id.clone(),
        start,
        end,
        side: walls_side(line).or(like.side).or(Some(Side::Left)),
        gap: like.gap,
        post: like.post,
        bays: like.bays,
        ..Run::default()
    }
}

/// The side of a string, looking along it, that its wall is on.
fn walls_side(line: &Line) -> Option<Side> {
    line.wall.as_ref()?;
    let string = line.side?;
    Some(if line.reverse { string } else { string.other() })
}

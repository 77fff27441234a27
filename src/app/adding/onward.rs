//! What comes next on the way from walls to posts, for a person to press or to leave.

use super::{corner, run, string};
use crate::app::desk::{Desk, Menu, Then};
use crate::app::names::{string_name, the, wall_name};
use crate::job::model::Line;
use crate::job::{LineId, WallId};
use crate::setout::usual_ends;

/// Strings that cross at less than this make no corner, degrees.
const SLANT: f64 = 10.0;

/// What comes next.
enum Step {
    /// A string in front of a wall.
    String(WallId),
    /// A string through two marks.
    Through,
    /// The corner of two strings that cross.
    Corner([LineId; 2]),
    /// A run along a string.
    Run(LineId),
}

/// What comes next, said as a button; empty once every string has its run, and while marks are loose
/// or a reading does not fit.
#[must_use]
pub fn said(desk: &Desk) -> String {
    let job = desk.saved();
    match next(desk) {
        Some(Step::String(id)) => {
            format!("Next: a string along {}", the(&wall_name(job, &id)))
        }
        Some(Step::Through) => "Next: a string through two marks".to_owned(),
        Some(Step::Corner(_)) => "Next: the corner".to_owned(),
        Some(Step::Run(line)) => format!("Next: the run along {}", string_name(job, &line)),
        None => String::new(),
    }
}

/// Goes there.
pub fn go(desk: &mut Desk) -> Then {
    match next(desk) {
        Some(Step::String(wall)) => string::off_wall(desk, wall, None),
        Some(Step::Through) => string::from_mark(desk),
        Some(Step::Corner(lines)) => is_it_the_corner(desk, lines),
        Some(Step::Run(line)) => run::along(desk, &line),
        None => Then::Stay,
    }
}

fn next(desk: &Desk) -> Option<Step> {
    let (job, network) = (desk.saved(), &desk.solution.network);
    if !network.loose.is_empty() || !network.suspects.is_empty() || job.marks.len() < 2 {
        return None;
    }
    if job.lines.is_empty() {
        let wall = job.walls.first();
        return Some(wall.map_or(Step::Through, |wall| Step::String(wall.id.clone())));
    }
    if let Some(lines) = crossing(desk) {
        return Some(Step::Corner(lines));
    }
    if let (true, Some(wall)) = (job.runs.is_empty(), second_wall(desk)) {
        return Some(Step::String(wall));
    }
    run::without_run(job).map(|line| Step::Run(line.id.clone()))
}

/// The wall for the second string: one at which the first does not end, across the gap; else the one
/// that meets the first wall.
fn second_wall(desk: &Desk) -> Option<WallId> {
    let job = desk.saved();
    let [only] = job.lines.as_slice() else {
        return None;
    };
    let ends = usual_ends(job, desk.solution.known(), only);
    let its_end = |id: &WallId| {
        let mut ends = ends.iter().flatten();
        ends.any(|end| end.wall.as_ref() == Some(id))
    };
    let walls = job.walls.iter().map(|wall| &wall.id);
    let free = || walls.clone().filter(|id| only.wall.as_ref() != Some(id));
    free().find(|id| !its_end(id)).or(free().next()).cloned()
}

/// Two strings, one after the other in the list, that cross where no corner is said to be, and of
/// which one has no run yet.
fn crossing(desk: &Desk) -> Option<[LineId; 2]> {
    let job = desk.saved();
    let bearing = |line: &Line| Some(desk.solution.lines.get(&line.id)?.bearing);
    let across = |pair: &[Line]| {
        let across = bearing(&pair[0])? - bearing(&pair[1])?;
        Some(across.to_radians().sin().abs() > SLANT.to_radians().sin())
    };
    let has_run = |line: &Line| job.runs.iter().any(|run| run.line == line.id);
    let is_corner = |pair: &[Line]| {
        let both = |lines: &[LineId; 2]| pair.iter().all(|line| lines.contains(&line.id));
        job.corners.iter().any(|corner| both(&corner.lines))
    };
    let mut pairs = job.lines.windows(2);
    let pair = pairs
        .find(|pair| across(pair) == Some(true) && !is_corner(pair) && !pair.iter().all(has_run))?;
    Some([pair[0].id.clone(), pair[1].id.clone()])
}

fn is_it_the_corner(desk: &mut Desk, lines: [LineId; 2]) -> Then {
    let job = desk.saved();
    let [first, second] = lines.each_ref().map(|id| string_name(job, id));
    let crossing = format!("where {first} and {second} cross");
    let menu = Menu::new("Does the fence turn there?")
        .row("Yes, this is the corner", &crossing, |desk| {
            corner::put(desk, lines)
        })
        .row("No corner", "go on to the runs", run::add);
    desk.offer(menu)
}

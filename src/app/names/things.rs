//! What walls, strings, corners, runs, their ends and their posts are called.

use crate::app::desk::{Desk, run_in_sight};
use crate::job::edit::Thing;
use crate::job::model::{Corner, End, Job, Line, Marked, PostSet, Run, Side, Wall};
use crate::job::{CornerId, LineId, RunId, WallId, with_kind};
use crate::setout::{Post, PostKind, RunFix};
use slint::SharedString;

/// The run's own name, or “Run R1”.
#[must_use]
pub fn run_name(run: &Run) -> String {
    if run.name.is_empty() {
        format!("Run {}", run.id)
    } else {
        run.name.clone()
    }
}

/// “the Front string”; one called “string 1” is just that.
#[must_use]
pub fn string_name(job: &Job, id: &LineId) -> String {
    let line = job.lines.iter().find(|line| line.id == *id);
    let name = line.map_or(id.as_str(), |line| line.called());
    if with_kind("string", name) == name {
        name.to_owned()
    } else if name.to_lowercase().contains("string") {
        the(name)
    } else {
        format!("the {name} string")
    }
}

/// “Potting shed end wall”, or “wall W1” where it has no name; one called “wall 3” is just that.
#[must_use]
pub fn wall_name(job: &Job, id: &WallId) -> String {
    let wall = job.walls.iter().find(|wall| wall.id == *id);
    match wall {
        Some(wall) if !wall.name.is_empty() => wall.name.clone(),
        _ => with_kind("wall", id.as_str()),
    }
}

/// Where a run starts or ends: “Potting shed end wall”, “corner X”, “mark A”; `None` where it says
/// nothing of the kind.
#[must_use]
pub fn end_name(job: &Job, end: Option<&End>) -> Option<String> {
    let end = end?;
    let wall = end.wall.as_ref().map(|id| wall_name(job, id));
    let corner = || end.corner.as_ref().map(|id| format!("corner {id}"));
    let mark = || end.mark.as_ref().map(|id| format!("mark {id}"));
    wall.or_else(corner).or_else(mark)
}

/// Where the tape of a run is held: the name of its start, or “the start of the run”.
#[must_use]
pub fn zero_name(job: &Job, run: &Run) -> String {
    end_name(job, run.start.as_ref()).unwrap_or_else(|| "start of the run".to_owned())
}

/// “the Potting shed end wall”, but “corner X” and “mark A”.
#[must_use]
pub fn the(name: &str) -> String {
    let proper = ["corner ", "mark ", "wall "];
    if let Some(rest) = name.strip_prefix("The ") {
        format!("the {rest}")
    } else if proper.iter().any(|kind| name.starts_with(kind)) || name.starts_with("the ") {
        name.to_owned()
    } else {
        format!("the {name}")
    }
}

/// The side as a word.
#[must_use]
pub fn side_name(side: Side) -> &'static str {
    match side {
        Side::Left => "left",
        Side::Right => "right",
    }
}

/// Why a post stands where it does: “on the Potting shed end wall”, “gate post”, “line post”.
#[must_use]
pub fn post_name(job: &Job, run: &Run, fix: &RunFix, post: &Post) -> String {
    let end = if post.n == 1 { &run.start } else { &run.end };
    match post.kind {
        PostKind::Wall => match end_name(job, end.as_ref()) {
            Some(wall) => format!("on {}", the(&wall)),
            None => "on the wall".to_owned(),
        },
        PostKind::Gate => "gate post".to_owned(),
        PostKind::Line if is_pinned(run, post) => "line post, pinned".to_owned(),
        PostKind::Line => "line post".to_owned(),
        PostKind::Corner => {
            let corner = end.as_ref().and_then(|end| end.corner.as_ref());
            let how = corner.and_then(|id| corner_set(job, id));
            how.map_or_else(
                || "corner post".to_owned(),
                |how| format!("corner post, {how}"),
            )
        }
        PostKind::End => match end_name(job, end.as_ref()) {
            Some(mark) => format!("end post, on {}", the(&mark)),
            None if post.n == fix.posts.len() => "end post".to_owned(),
            None => "first post".to_owned(),
        },
    }
}

/// True where the run says that a post is held at this reading.
#[must_use]
pub fn is_pinned(run: &Run, post: &Post) -> bool {
    let at = |at: f64| (at - post.centre).abs() < 0.5;
    run.pins.iter().any(|pin| pin.at.is_some_and(at))
}

/// How the corner's post is turned: “on the bisector”, “square to the front string”.
#[must_use]
pub fn corner_set(job: &Job, id: &CornerId) -> Option<String> {
    let corner = job.corners.iter().find(|corner| corner.id == *id)?;
    let set = corner
        .post
        .as_ref()
        .map_or(PostSet::default(), |post| post.set);
    let [first, second] = &corner.lines;
    Some(match set {
        PostSet::Bisect => "on the bisector".to_owned(),
        PostSet::First => format!("square to {}", string_name(job, first)),
        PostSet::Second => format!("square to {}", string_name(job, second)),
    })
}

/// What is known of a post as built; `None` where nothing is.
#[must_use]
pub fn marked<'a>(job: &'a Job, run: &Run, n: usize) -> Option<&'a Marked> {
    job.marked
        .iter()
        .find(|one| one.run == run.id && usize::try_from(one.post).is_ok_and(|post| post == n))
}

/// The side of a wall that its first string says is its front, looking from its first mark to its
/// second; `None` before there is one.
#[must_use]
pub fn front_of(job: &Job, id: &WallId) -> Option<Side> {
    let mut lines = job.lines.iter();
    let first = lines.find(|line| line.wall.as_ref() == Some(id));
    first.map(|line| line.side.unwrap_or(Side::Left))
}

/// A side of a wall: “in front of Potting shed”, “behind Potting shed”.
#[must_use]
pub fn side_of(job: &Job, wall: &Wall, side: Side) -> String {
    let front = front_of(job, &wall.id).is_none_or(|front| front == side);
    let name = the(&wall_name(job, &wall.id));
    if front {
        format!("in front of {name}")
    } else {
        format!("behind {name}")
    }
}

/// What a string is stretched along: “in front of the Potting shed”, “through A and C”.
#[must_use]
pub fn along(job: &Job, line: &Line) -> String {
    match (&line.wall, &line.marks) {
        (Some(id), _) => {
            let wall = job.walls.iter().find(|wall| wall.id == *id);
            let side = line.side.unwrap_or(Side::Left);
            wall.map_or_else(
                || format!("along wall {id}"),
                |wall| side_of(job, wall, side),
            )
        }
        (None, Some([from, to])) => format!("through {from} and {to}"),
        (None, None) => "not placed yet".to_owned(),
    }
}

/// What the two strings of a corner are called.
#[must_use]
pub fn string_names(job: &Job, corner: &Corner) -> [String; 2] {
    corner.lines.each_ref().map(|id| {
        let line = job.lines.iter().find(|line| line.id == *id);
        line.map_or(id.as_str(), Line::called).to_owned()
    })
}

/// A run by its id: “Front run”; the id alone where there is no such run.
#[must_use]
pub fn run_called(job: &Job, id: &RunId) -> String {
    let run = job.runs.iter().find(|run| run.id == *id);
    run.map_or_else(|| id.to_string(), run_name)
}

/// What people call a thing: a wall or a string by its name where it has one.
#[must_use]
pub fn thing_called(job: &Job, thing: &Thing) -> String {
    let name = match thing {
        Thing::Wall(id) => job
            .walls
            .iter()
            .find(|wall| wall.id == *id)
            .map(|wall| &wall.name),
        Thing::Line(id) => job
            .lines
            .iter()
            .find(|line| line.id == *id)
            .map(|line| &line.name),
        _ => None,
    };
    match name {
        Some(name) if !name.is_empty() => name.clone(),
        _ => thing.name().to_owned(),
    }
}

/// A running reading of a post: 0 its near face, 1 its centre, 2 its far face. Mm.
#[must_use]
pub fn face_reading(post: &Post, face: usize) -> f64 {
    match face {
        0 => post.near,
        1 => post.centre,
        _ => post.far,
    }
}

/// What the runs of the job are called, to choose from, and the place of the one in sight.
#[must_use]
pub fn runs_to_choose(desk: &Desk) -> (Vec<SharedString>, i32) {
    let names = desk.job().runs.iter().map(|run| run_name(run).into());
    let at = run_in_sight(desk).and_then(|(at, _)| i32::try_from(at).ok());
    (names.collect(), at.unwrap_or(0))
}

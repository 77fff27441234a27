//! How the plan is turned: never mirrored, the longest run along the longer side.

use crate::Solution;
use crate::drawing::bounds::{Bounds, Vec2};
use crate::drawing::plan::rotate;
use crate::job::Job;

/// What decides how the plan is turned.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Turn {
    /// The longest run lies along the longer side of a room of this width and height, from left to
    /// right or upwards. Without a run the first wall lies square to the room, the wider extent of
    /// the marks along its longer side.
    Along([f64; 2]),
    /// As the job's own frame: the first wall to the right.
    Site,
    /// This bearing of the job's frame, degrees from +x, points up.
    Up(f64),
}

/// Degrees to turn the job's frame by, positive to the left.
pub(super) fn turn(job: &Job, solution: &Solution, how: Turn) -> f64 {
    match how {
        Turn::Site => 0.0,
        Turn::Up(bearing) => 90.0 - bearing,
        Turn::Along(room) => {
            let along = if room[0] >= room[1] { 0.0 } else { 90.0 };
            let turn = match longest_run(solution) {
                Some(bearing) => along - bearing,
                None => without_runs(job, solution, along),
            };
            steady(turn)
        }
    }
}

fn longest_run(solution: &Solution) -> Option<f64> {
    let runs = solution.runs.values();
    let longest = runs.max_by(|a, b| a.length.total_cmp(&b.length))?;
    Some(longest.bearing)
}

fn without_runs(job: &Job, solution: &Solution, along: f64) -> f64 {
    let marks: Vec<Vec2> = solution.sketch.values().map(|&at| at.into()).collect();
    let wall = job.walls.iter().find_map(|wall| {
        let end = |id| solution.sketch.get(id).copied().map(Vec2::from);
        bearing(end(&wall.from)?, end(&wall.to)?)
    });
    let Some(base) = wall else {
        return farthest(&marks).map_or(0.0, |bearing| along - bearing);
    };
    let extent = |turn: f64| Bounds::around(marks.iter().map(|&at| rotate(at, turn))).size();
    let level = extent(-base);
    let wide = level.x >= level.y;
    if wide == (along == 0.0) {
        -base
    } else {
        90.0 - base
    }
}

/// Bearing from one to the other of the two marks that are farthest apart.
fn farthest(marks: &[Vec2]) -> Option<f64> {
    let pairs = marks
        .iter()
        .enumerate()
        .flat_map(|(i, &from)| marks[i + 1..].iter().map(move |&to| (from, to)));
    let (from, to) = pairs.max_by(|(a, b), (c, d)| (b - a).norm().total_cmp(&(d - c).norm()))?;
    bearing(from, to)
}

fn bearing(from: Vec2, to: Vec2) -> Option<f64> {
    let way = (to - from).try_normalize(1e-6)?;
    Some(way.y.atan2(way.x).to_degrees())
}

/// Between −180 and 180, and without the last digits that change from one solution to the next.
fn steady(turn: f64) -> f64 {
    if turn.is_finite() {
        (turn + 180.0).rem_euclid(360.0) - 180.0
    } else {
        0.0
    }
}

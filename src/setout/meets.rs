//! Which walls does a string run into?

use crate::job::model::{Job, Wall};
use crate::job::{ByName, MarkId};
use crate::site::{LineFix, MarkFix, Ray};
use nalgebra::Vector2;

/// A string that leaves a wall at less than this never runs into it, degrees.
const SLANT: f64 = 10.0;
/// A wall whose face would have to be so much longer is not met, mm.
const BEYOND: f64 = 3000.0;

/// The walls that a string runs into, those first whose own face it meets; every wall while the
/// string (`None`) or its marks are not settled, in the order of the file.
///
/// ```
/// use tautmark::setout::walls_met;
///
/// let job = tautmark::job::example();
/// let solution = tautmark::solve(&job);
/// let met = walls_met(&job, &solution.marks, solution.lines.get("front"));
/// // It runs along the shed's front, and into the shed's end wall.
/// assert_eq!(met[0].id.as_str(), "shed-end");
/// assert!(met.iter().all(|wall| wall.id.as_str() != "shed"));
/// ```
#[must_use]
pub fn walls_met<'a>(
    job: &'a Job,
    marks: &ByName<MarkId, MarkFix>,
    string: Option<&LineFix>,
) -> Vec<&'a Wall> {
    let Some(string) = string else {
        return job.walls.iter().collect();
    };
    let string = string.ray();
    // How far past its ends the wall's face is met.
    let beyond = |wall: &Wall| {
        let (from, to) = (place(marks, &wall.from)?, place(marks, &wall.to)?);
        let face = Ray::between(from, to)?;
        let slant = string.along.perp(&face.along).abs();
        let length = (to - from).norm();
        if length < 1.0 || slant < SLANT.to_radians().sin() {
            return None;
        }
        let at = face.running(string.crossing(&face)?);
        let past = (-at).max(at - length).max(0.0);
        (past <= BEYOND).then_some(past)
    };
    let known = |wall: &Wall| marks.contains_key(&wall.from) && marks.contains_key(&wall.to);
    let mut met: Vec<(f64, &Wall)> = job
        .walls
        .iter()
        .filter_map(|wall| match known(wall) {
            true => Some((beyond(wall)?, wall)),
            false => Some((BEYOND, wall)),
        })
        .collect();
    met.sort_by(|a, b| a.0.total_cmp(&b.0));
    met.into_iter().map(|(_, wall)| wall).collect()
}

/// Where a settled mark is.
pub(super) fn place(marks: &ByName<MarkId, MarkFix>, id: &MarkId) -> Option<Vector2<f64>> {
    marks.get(id).map(|fix| Vector2::new(fix.x, fix.y))
}

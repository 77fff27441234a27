//! Where a fence usually goes, for a person to agree to: on which side of a wall, and from where to
//! where along a string.

use super::meets::{place, walls_met};
use crate::job::model::{End, Job, Line, Side, Wall};
use crate::job::{ByName, CornerId, LineId, MarkId};
use crate::site::{CornerFix, LineFix, MarkFix, Ray};
use nalgebra::Vector2;
use std::cmp::Ordering;

/// A wall that the string meets no farther than this from the end of its own is where the run ends, mm.
const NEAR: f64 = 1000.0;

/// The side of a wall where most of the other settled marks are, looking from its first mark to its
/// second; `None` where as many are on either.
///
/// ```
/// use tautmark::job::model::Side;
/// use tautmark::setout::usual_side;
///
/// let job = tautmark::job::example();
/// let marks = tautmark::solve(&job).marks;
/// // Seen along the shed's front, the ends of the other walls are all on its left.
/// assert_eq!(usual_side(&marks, &job.walls[0]), Some(Side::Left));
/// ```
#[must_use]
pub fn usual_side(marks: &ByName<MarkId, MarkFix>, wall: &Wall) -> Option<Side> {
    let [left, right] = [Side::Left, Side::Right].map(|side| marks_beside(marks, wall, side).len());
    match left.cmp(&right) {
        Ordering::Greater => Some(Side::Left),
        Ordering::Less => Some(Side::Right),
        Ordering::Equal => None,
    }
}

/// The settled marks on one side of a wall; those on its face are on neither.
#[must_use]
pub fn marks_beside<'a>(
    marks: &'a ByName<MarkId, MarkFix>,
    wall: &Wall,
    side: Side,
) -> Vec<&'a MarkId> {
    /// Nearer than this a mark is on the face, mm.
    const ON_IT: f64 = 100.0;
    let Some(face) = face(marks, wall) else {
        return Vec::new();
    };
    let beside = |at: &MarkFix| side.sign() * face.off(Vector2::new(at.x, at.y)) > ON_IT;
    let found = marks.iter().filter(|(_, at)| beside(at));
    found.map(|(id, _)| id).collect()
}

/// What a job settles of its marks, strings and corners.
#[derive(Clone, Copy, Debug)]
pub struct Known<'a> {
    /// Where the settled marks are.
    pub marks: &'a ByName<MarkId, MarkFix>,
    /// Where the settled strings run.
    pub lines: &'a ByName<LineId, LineFix>,
    /// Where they cross.
    pub corners: &'a ByName<CornerId, CornerFix>,
}

/// Where a run along a string usually starts and ends: at the corner that the string has, and at the
/// other end where its own wall ends, hard against the wall it meets there, if any. `None` for an end
/// that nothing tells.
///
/// ```
/// use tautmark::setout::usual_ends;
///
/// let job = tautmark::job::example();
/// let solution = tautmark::solve(&job);
/// let [start, end] = usual_ends(&job, solution.known(), &job.lines[0]);
/// assert_eq!(start.and_then(|start| start.wall), Some("shed-end".into()));
/// assert_eq!(end.and_then(|end| end.corner), Some("X".into()));
/// ```
#[must_use]
pub fn usual_ends(
    job: &Job,
    Known {
        marks,
        lines,
        corners,
    }: Known<'_>,
    line: &Line,
) -> [Option<End>; 2] {
    let Some(fix) = lines.get(&line.id) else {
        return [None, None];
    };
    let string = fix.ray();
    // The corners of the string, and the ends of what it is stretched along.
    let mut turns: Vec<(f64, End)> = (job.corners.iter())
        .filter(|corner| corner.lines.contains(&line.id))
        .filter_map(|corner| {
            let at = corners.get(&corner.id)?;
            let running = string.running(Vector2::new(at.x, at.y));
            Some((running, at_corner(corner.id.clone())))
        })
        .collect();
    turns.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut own: Vec<(f64, &MarkId)> = (own_marks(job, line).into_iter())
        .filter_map(|id| Some((string.running(place(marks, id)?), id)))
        .collect();
    own.sort_by(|a, b| a.0.total_cmp(&b.0));
    let met: Vec<(f64, &Wall)> = walls_met(job, marks, Some(fix))
        .into_iter()
        .filter(|wall| line.wall.as_ref() != Some(&wall.id))
        .filter_map(|wall| {
            let met = string.crossing(&face(marks, wall)?)?;
            Some((string.running(met), wall))
        })
        .collect();
    // Hard against the wall that is met there, or at the mark.
    let there = |at: f64, id: &MarkId| {
        let near = met.iter().filter(|(met, _)| (met - at).abs() <= NEAR);
        let nearest = near.min_by(|a, b| (a.0 - at).abs().total_cmp(&(b.0 - at).abs()));
        match nearest {
            Some((at, wall)) => (*at, at_wall(wall)),
            None => (at, at_mark(id.clone())),
        }
    };
    let [first, last] = match (own.as_slice(), turns.len()) {
        (_, 2..) => {
            let last = turns.pop().map(|(_, end)| end);
            return [turns.swap_remove(0).1.into(), last];
        }
        ([first, .., last], _) => [first, last].map(|(at, id)| there(*at, id)),
        _ => return [turns.pop().map(|(_, end)| end), None],
    };
    let Some((turn, corner)) = turns.pop() else {
        return [Some(first.1), Some(last.1)];
    };
    // Beyond the wall: from the wall's nearer end. Before it: to its farther one.
    let beyond = turn < first.0 || turn > last.0;
    let nearer_is_first = (turn - first.0).abs() < (turn - last.0).abs();
    let other = if beyond == nearer_is_first {
        first
    } else {
        last
    };
    if other.0 < turn {
        [Some(other.1), Some(corner)]
    } else {
        [Some(corner), Some(other.1)]
    }
}

/// The marks that a string is measured from: its wall's, or its own two.
fn own_marks<'a>(job: &'a Job, line: &'a Line) -> Vec<&'a MarkId> {
    if let Some(marks) = &line.marks {
        return marks.iter().collect();
    }
    let wall = job
        .walls
        .iter()
        .find(|wall| Some(&wall.id) == line.wall.as_ref());
    wall.map_or_else(Vec::new, |wall| vec![&wall.from, &wall.to])
}

/// From a wall's first mark to its second; `None` while they are not settled, or are one place.
fn face(marks: &ByName<MarkId, MarkFix>, wall: &Wall) -> Option<Ray> {
    Ray::between(place(marks, &wall.from)?, place(marks, &wall.to)?)
}

fn at_corner(id: CornerId) -> End {
    End {
        corner: Some(id),
        ..End::default()
    }
}

fn at_wall(wall: &Wall) -> End {
    End {
        wall: Some(wall.id.clone()),
        ..End::default()
    }
}

fn at_mark(id: MarkId) -> End {
    End {
        mark: Some(id),
        ..End::default()
    }
}

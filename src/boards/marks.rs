use super::PostHeights;
use serde::Serialize;

/// What a height on a post is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum MarkedThing {
    /// Top of the gravel board.
    Gravel,
    /// Centre of a rail, counted from 1 at the lowest.
    Rail(usize),
    /// Top of the post.
    Top,
}

/// The side of a post that a height belongs to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum MarkSide {
    /// Towards the run's start.
    Before,
    /// Towards the run's end.
    After,
    /// The post itself.
    Both,
}

/// Which way to measure from the laser line.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum UpOrDown {
    /// The mark is above the laser line.
    Up,
    /// The mark is below the laser line.
    Down,
}

/// A height to mark on a post, measured from a laser line, mm.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct HeightMark {
    /// What is marked there.
    pub what: MarkedThing,
    /// The side of the post that it is for.
    pub side: MarkSide,
    /// Up or down from the laser line.
    pub way: UpOrDown,
    /// How far, never negative.
    pub by: f64,
}

/// Every height to mark on a post, top first, from a laser line at height `line` (mm): any
/// set-up's line will do.
///
/// ```
/// use tautmark::boards::height_marks;
///
/// let solution = tautmark::solve(&tautmark::job::example());
/// let line = solution.levels.as_ref().map_or(0.0, |levels| levels.setups["S1"].line);
/// let marks = height_marks(&solution.boards["R1"].posts[3], line);
/// // Top of the post, then three rails and a gravel board on either side.
/// assert_eq!(marks.len(), 9);
/// ```
#[must_use]
pub fn height_marks(post: &PostHeights, line: f64) -> Vec<HeightMark> {
    let mut marks = Vec::new();
    let mut mark = |what, side, height: f64| {
        let way = if height > line {
            UpOrDown::Up
        } else {
            UpOrDown::Down
        };
        let by = (height - line).abs();
        marks.push(HeightMark {
            what,
            side,
            way,
            by,
        });
    };
    if let Some(top) = post.top {
        mark(MarkedThing::Top, MarkSide::Both, top);
    }
    for (side, bay) in [
        (MarkSide::Before, &post.before),
        (MarkSide::After, &post.after),
    ] {
        let Some(bay) = bay else { continue };
        for (at, &rail) in bay.rails.iter().enumerate().rev() {
            mark(MarkedThing::Rail(at + 1), side, rail);
        }
        mark(MarkedThing::Gravel, side, bay.top);
    }
    marks
}

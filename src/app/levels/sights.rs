//! A sight by its place in the file, what became of it, and its change.

use crate::app::desk::Desk;
use crate::job::PointId;
use crate::job::edit::{Change, Edit};
use crate::job::model::{Job, Sight};
use crate::levels::SightFix;

/// The sight at a place of the file.
#[must_use]
pub fn sight(job: &Job, setup: usize, at: usize) -> Option<&Sight> {
    job.levels.setups.get(setup)?.sights.get(at)
}

/// What became of it; `None` where it is not used.
#[must_use]
pub fn sight_fix(desk: &Desk, setup: usize, at: usize) -> Option<&SightFix> {
    let fixes = &desk.solution.levels.as_ref()?.sights;
    fixes.iter().find(|fix| fix.place == (setup, at))
}

/// The change that adds a sight of a point, so far down from the set-up's line, mm, as its last.
pub fn add_sight(job: &Job, setup: usize, point: PointId, down: f64) -> Option<Edit> {
    let at = job.levels.setups.get(setup)?.sights.len();
    let value = Sight {
        point,
        down: Some(down),
        ..Sight::default()
    };
    let change = Change::Insert { at, value };
    Some(Edit::Sight { setup, change })
}

/// The change of one sight.
pub fn with_sight(
    job: &Job,
    setup: usize,
    at: usize,
    how: impl FnOnce(&mut Sight),
) -> Option<Edit> {
    let mut value = sight(job, setup, at)?.clone();
    how(&mut value);
    let change = Change::Replace { at, value };
    Some(Edit::Sight { setup, change })
}

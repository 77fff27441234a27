//! A job on its adjusted marks, turned for the plan.

use super::{Asked, PlanShow, rotate, turn};
use crate::Solution;
use crate::drawing::bounds::{Bounds, Vec2};
use crate::drawing::model::Target;
use crate::job::model::Wall;
use crate::job::reading::Measure;
use crate::job::{Job, LineId, MarkId, RunId, WallId};
use crate::setout::RunFix;
use crate::site::Ray;

/// What the parts of the plan draw from.
pub(super) struct Site<'a> {
    pub job: &'a Job,
    pub solution: &'a Solution,
    pub show: &'a PlanShow,
    /// Degrees, positive to the left.
    pub turn: f64,
}

impl<'a> Site<'a> {
    pub fn new(job: &'a Job, solution: &'a Solution, show: &'a PlanShow) -> Self {
        Self {
            job,
            solution,
            show,
            turn: turn::turn(job, solution, show.turn),
        }
    }

    /// A point of the job's frame as the plan has it.
    pub fn place(&self, at: [f64; 2]) -> Vec2 {
        rotate(Vec2::from(at), self.turn)
    }

    pub fn mark(&self, id: &MarkId) -> Option<Vec2> {
        let at = *self.solution.sketch.get(id)?;
        at.iter()
            .all(|value| value.is_finite())
            .then(|| self.place(at))
    }

    pub fn wall(&self, id: &WallId) -> Option<Ray> {
        self.wall_ray(self.job.walls.iter().find(|wall| wall.id == *id)?)
    }

    /// From a wall's first mark towards its second.
    pub fn wall_ray(&self, wall: &Wall) -> Option<Ray> {
        Ray::between(self.mark(&wall.from)?, self.mark(&wall.to)?)
    }

    /// A string in its own direction.
    pub fn string(&self, id: &LineId) -> Option<Ray> {
        let fix = self.solution.lines.get(id)?;
        let bearing = (fix.bearing + self.turn).to_radians();
        Some(Ray {
            through: self.place([fix.x, fix.y]),
            along: Vec2::new(bearing.cos(), bearing.sin()),
        })
    }

    /// A run from its zero in its direction.
    pub fn track(&self, fix: &RunFix) -> Ray {
        let bearing = (fix.bearing + self.turn).to_radians();
        Ray {
            through: self.place(fix.zero),
            along: Vec2::new(bearing.cos(), bearing.sin()),
        }
    }

    /// The middle of everything measured.
    pub fn middle(&self) -> Vec2 {
        let marks = self.solution.sketch.values().copied();
        Bounds::around(marks.map(|at| self.place(at))).middle()
    }

    pub fn is_chosen(&self, target: &Target) -> bool {
        self.show.chosen.as_ref() == Some(target)
    }

    /// The marks that the reading asked for runs between.
    pub fn is_asked_end(&self, id: &MarkId) -> bool {
        match &self.show.asked {
            None => false,
            Some(Asked::Tape(ends)) => ends.contains(id),
            Some(Asked::Reading(index)) => self.ends_of(*index).contains(&id),
        }
    }

    /// Marks that a reading is about.
    pub fn ends_of(&self, index: usize) -> Vec<&'a MarkId> {
        let Some(reading) = self.job.readings.get(index) else {
            return Vec::new();
        };
        match &reading.what {
            Measure::Tape { from, to, .. } => vec![from, to],
            Measure::Offset { mark, .. } => vec![mark],
            Measure::Inline { mark, with, .. } => vec![mark, &with[0], &with[1]],
            Measure::Angle { from, at, to, .. } => vec![from, at, to],
            Measure::Other { .. } => Vec::new(),
        }
    }

    /// The runs that are set out, the one at hand first.
    pub fn runs(&self) -> Vec<(&'a RunId, &'a RunFix)> {
        let mut runs: Vec<_> = self.solution.runs.iter().collect();
        runs.sort_by_key(|(id, _)| self.show.run.as_ref() != Some(*id));
        runs
    }
}

//! The plan as a page shows it, with what is asked for stressed; and small drawings in lists.

use super::painted::laid;
use crate::Solution;
use crate::app::desk::{Desk, Focus};
use crate::drawing::{
    self, Asked, Bundled, Detail, Hand, PlanShow, Seen, Target, Turn, fitted, plan,
};
use crate::job::Job;
use crate::job::model::Line;
use tautmark_ui::PaintedDrawing;

/// The plan turned for its room on the screen; `how` says what of it this page shows.
#[must_use]
pub fn plan_of(desk: &Desk, how: impl FnOnce(&mut PlanShow)) -> drawing::Drawing {
    let job = desk.job();
    let mut show = PlanShow {
        turn: Turn::Along(desk.view.room().map(|side| side.max(1.0))),
        ..PlanShow::default()
    };
    how(&mut show);
    match desk.focus() {
        Focus::Reading(index) => show.asked = Some(Asked::Reading(index)),
        Focus::Line(at) => show.chosen = job.lines.get(at).map(|line| string(desk, line)),
        Focus::Corner(at) => {
            show.chosen = job.corners.get(at).map(|c| Target::Corner(c.id.clone()));
        }
        Focus::Post(..) | Focus::Nothing => {}
    }
    plan(job, &desk.solution, &show)
}

/// The plan with the posts of the run in sight, which fills it.
#[must_use]
pub fn plan_of_run(desk: &Desk, how: impl FnOnce(&mut PlanShow)) -> drawing::Drawing {
    plan_of(desk, |show| {
        show.readings = Seen::Hidden;
        let run = desk.job().runs.get(desk.chosen.run);
        show.run = run.map(|run| run.id.clone());
        show.close = true;
        how(show);
    })
}

/// A string, or the wall it is going to be measured from.
fn string(desk: &Desk, line: &Line) -> Target {
    match &line.wall {
        Some(wall) if !desk.solution.lines.contains_key(&line.id) => Target::Wall(wall.clone()),
        _ => Target::Line(line.id.clone()),
    }
}

/// Room for the picture of one of a few to choose from, logical px.
const OPTION: [f64; 2] = [104.0, 76.0];

/// The picture of one of a few to choose from.
#[must_use]
pub fn small(drawing: &drawing::Drawing) -> PaintedDrawing {
    in_room(drawing, OPTION)
}

/// A drawing as large as it goes in a small room, logical px.
fn in_room(drawing: &drawing::Drawing, room: [f64; 2]) -> PaintedDrawing {
    let hand = Hand::screen(0.8);
    let measure = &Bundled;
    let desk = drawing::LayoutDesk {
        hand: &hand,
        measure,
    };
    laid(drawing, &fitted(drawing, room, desk), room, 0.8)
}

/// A small plan of a job, for the list of jobs.
#[must_use]
pub fn thumbnail(job: &Job, solution: &Solution, room: [f64; 2]) -> PaintedDrawing {
    let show = PlanShow {
        turn: Turn::Along(room),
        detail: Detail::Small,
        posts: Seen::Hidden,
        ..PlanShow::default()
    };
    in_room(&plan(job, solution, &show), room)
}

//! How a job begins: what is there settles its marks, its walls and the tapes to ask for.
//!
//! A start lays out marks on the sketch and readings without figures; the keypad then walks
//! through what is still missing, and goes on from there whenever it is opened again.

use super::reading_figure::ReadingFigure;
use super::{Bridge, Desk, Then};
use crate::job::edit::{Change, Edit};
use crate::job::model::{Line, Mark, Side, Station, Wall};
use crate::job::reading::{Measure, Reading};
use crate::job::{Job, MarkId};
use slint::Global;
use std::rc::Rc;
use tautmark_ui::{App, Place, StartKind, StartVm};

pub(super) fn wire(app: &App, bridge: &Rc<Bridge>) {
    let at = bridge.clone();
    StartVm::get(app).on_begun(move |kind| {
        at.act(|desk| {
            begin(desk, kind);
            ask_first(desk)
        });
    });
}

/// Puts a new job on the desk and lays it out as its first step, so that undoing it all leads back to
/// a job with nothing in it.
fn begin(desk: &mut Desk, kind: StartKind) {
    let laid_out = job(kind);
    super::jobs::begin(desk, Job::new(&laid_out.title));
    desk.change(Edit::Many(steps(laid_out)));
}

/// What puts everything of a job into an empty one.
fn steps(job: Job) -> Vec<Edit> {
    let mut steps = Vec::new();
    for (at, value) in job.marks.into_iter().enumerate() {
        steps.push(Edit::Mark(Change::Insert { at, value }));
    }
    for (at, value) in job.walls.into_iter().enumerate() {
        steps.push(Edit::Wall(Change::Insert { at, value }));
    }
    for (at, value) in job.readings.into_iter().enumerate() {
        steps.push(Edit::Reading(Change::Insert { at, value }));
    }
    for (at, value) in job.lines.into_iter().enumerate() {
        steps.push(Edit::Line(Change::Insert { at, value }));
    }
    steps
}

fn ask_first(desk: &mut Desk) -> Then {
    let field = ReadingFigure::of(desk.saved(), 0);
    desk.ask(Box::new(field));
    Then::Ask(Place::Walls)
}

/// The job that a start lays out: marks on a sketch, walls, and readings to be taken.
#[must_use]
pub fn job(kind: StartKind) -> Job {
    match kind {
        StartKind::Gap => laid_out(
            "Two walls, a gap between",
            &[
                ("A", [0.0, 0.0]),
                ("B", [4000.0, 0.0]),
                ("C", [9000.0, 3500.0]),
                ("D", [10_000.0, 7000.0]),
            ],
            &[
                ("first", "First wall", "A", "B"),
                ("second", "Second wall", "C", "D"),
            ],
            &[
                ("A", "B"),
                ("C", "D"),
                ("B", "C"),
                ("A", "C"),
                ("B", "D"),
                ("A", "D"),
            ],
        ),
        StartKind::Corner => laid_out(
            "Two walls that meet",
            &[
                ("A", [0.0, 0.0]),
                ("B", [4000.0, 0.0]),
                ("C", [0.0, 3000.0]),
            ],
            &[
                ("first", "First wall", "A", "B"),
                ("second", "Second wall", "A", "C"),
            ],
            &[("A", "B"), ("A", "C"), ("B", "C")],
        ),
        StartKind::Wall => {
            let mut job = laid_out(
                "One wall",
                &[("A", [0.0, 0.0]), ("B", [4000.0, 0.0])],
                &[("wall", "The wall", "A", "B")],
                &[("A", "B")],
            );
            job.lines.push(Line {
                id: "string".into(),
                name: "String along the wall".to_owned(),
                wall: Some("wall".into()),
                side: Some(Side::Right),
                offsets: Some(vec![Station {
                    at: Some(0.0),
                    off: Some(50.0),
                    ..Station::default()
                }]),
                ..Line::default()
            });
            job
        }
        StartKind::Marks => laid_out(
            "Pegs and marks",
            &[
                ("A", [0.0, 0.0]),
                ("B", [4000.0, 0.0]),
                ("C", [2000.0, 3000.0]),
            ],
            &[],
            &[("A", "B"), ("B", "C"), ("A", "C")],
        ),
    }
}

fn laid_out(
    title: &str,
    marks: &[(&str, [f64; 2])],
    walls: &[(&str, &str, &str, &str)],
    tapes: &[(&str, &str)],
) -> Job {
    let mut job = Job::new(title);
    for &(id, rough) in marks {
        job.marks.push(Mark {
            id: id.into(),
            rough: Some(rough),
            ..Mark::default()
        });
    }
    for &(id, name, from, to) in walls {
        job.walls.push(Wall {
            id: id.into(),
            name: name.to_owned(),
            from: from.into(),
            to: to.into(),
            ..Wall::default()
        });
    }
    for &(from, to) in tapes {
        let (from, to): (MarkId, MarkId) = (from.into(), to.into());
        job.readings.push(Reading::from(Measure::Tape {
            from,
            to,
            length: None,
            drop: 0.0,
        }));
    }
    job
}

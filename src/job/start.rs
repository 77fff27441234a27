//! How a job begins: what is there settles its marks, its walls and the tapes to ask for.
//!
//! A start lays out marks on the sketch and readings without figures; they are filled in from there.

use super::edit::{Change, Edit};
use super::model::{Mark, Wall};
use super::reading::{Measure, Reading};
use super::{Job, MarkId};

/// What is there on the ground.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Start {
    /// Two walls with a gap between.
    Gap,
    /// Two walls that meet.
    Corner,
    /// One wall.
    Wall,
    /// Pegs and marks.
    Marks,
}

/// The job that a start lays out: marks on a sketch, walls, and readings to be taken.
#[must_use]
pub fn start(kind: Start) -> Job {
    match kind {
        Start::Gap => laid_out(
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
        Start::Corner => laid_out(
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
        Start::Wall => laid_out(
            "One wall",
            &[("A", [0.0, 0.0]), ("B", [4000.0, 0.0])],
            &[("wall", "The wall", "A", "B")],
            &[("A", "B")],
        ),
        Start::Marks => laid_out(
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

/// The one change that puts the marks, walls and readings of a job into an empty one.
#[must_use]
pub fn lay_out(job: Job) -> Edit {
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
    Edit::Many(steps)
}

//! A nail's two figures: how far along the wall it is, and how far off.

use crate::app::desk::{Desk, FigureOf, Focus};
use crate::app::kit::{KeypadFigure, Slot};
use crate::app::names::along;
use crate::job::Job;
use crate::job::edit::{Change, Edit};
use crate::job::model::{Line, Station, Wall};

fn of_nail(
    at: usize,
    nail: usize,
    label: &'static str,
    slot: fn(&mut Station) -> &mut Option<f64>,
) -> KeypadFigure {
    KeypadFigure::kept(
        label,
        move |job| job.lines.get(at).cloned(),
        move |line: &mut Line| Some(slot(line.offsets.as_mut()?.get_mut(nail)?) as &mut dyn Slot),
        move |value| Edit::Line(Change::Replace { at, value }),
    )
    .of(FigureOf::Nail(at, nail))
    .titled(move |job| {
        let line = job.lines.get(at).map(Line::called).unwrap_or_default();
        format!("Nail {} of {line}, **{label}**", nail + 1)
    })
    .stressing(Focus::Line(at))
}

/// How far along the wall a nail is, and nothing after it.
pub fn place(line: usize, nail: usize) -> KeypadFigure {
    const NAMES: [&str; 2] = ["First nail, along the wall", "Second nail, along the wall"];
    let label = NAMES.get(nail).copied().unwrap_or("Nail, along the wall");
    of_nail(line, nail, label, |nail| &mut nail.at).hinted(move |desk| along_from(desk, line))
}

/// How far along the wall a nail is; how far off it comes next.
pub fn along_wall(line: usize, nail: usize) -> KeypadFigure {
    of_nail(line, nail, "along the wall", |nail| &mut nail.at)
        .hinted(move |desk| along_from(desk, line))
        .then(move |_| Some(off_wall(line, nail)))
}

fn along_from(desk: &Desk, line: usize) -> String {
    let from = wall_of(desk, line).map(|(_, wall)| &wall.from);
    from.map_or_else(String::new, |from| {
        format!("Along the wall's face from mark {from} to the nail.")
    })
}

/// How far off the wall a nail is, and then how far along it where that is missing.
pub fn off_wall(line: usize, nail: usize) -> KeypadFigure {
    of_nail(line, nail, "off the wall", |nail| &mut nail.off)
        .hinted(move |desk| {
            wall_of(desk, line).map_or_else(String::new, |(line, _)| {
                format!(
                    "Square off the wall's face to the string, **{}**. \
                     **Enough for the posts to pass** what sticks out of the wall.",
                    along(desk.job(), line)
                )
            })
        })
        .then(move |job| {
            let nail_there = nail_of(job, line, nail)?;
            nail_there.at.is_none().then(|| along_wall(line, nail))
        })
}

fn nail_of(job: &Job, line: usize, nail: usize) -> Option<&Station> {
    job.lines.get(line)?.offsets.as_ref()?.get(nail)
}

/// A string and the wall that it is measured off.
pub fn wall_of(desk: &Desk, line: usize) -> Option<(&Line, &Wall)> {
    let job = desk.job();
    let line = job.lines.get(line)?;
    let mut walls = job.walls.iter();
    let wall = walls.find(|one| Some(&one.id) == line.wall.as_ref())?;
    Some((line, wall))
}

//! Where a new ground point is, and the height of the datum, as they are typed.

use super::figures::new_sight;
use crate::app::desk::FigureKind;
use crate::app::kit::KeypadFigure;
use crate::app::names::run_called;
use crate::job::edit::{Change, Edit, Setting};
use crate::job::model::{Job, Point};
use crate::job::{PointId, RunId};
use tautmark_ui::KeySigns;

/// The change that adds a ground point at a running reading of a run, mm.
pub fn add_ground(job: &Job, id: PointId, run: RunId, at: f64) -> Edit {
    let value = Point {
        id,
        run: Some(run),
        at: Some(at),
        ..Point::default()
    };
    let at = job.levels.points.len();
    Edit::Point(Change::Insert { at, value })
}

/// Where on its run a new ground point is; it is sighted from a set-up next.
pub fn new_ground(run: RunId, point: PointId, setup: usize) -> KeypadFigure {
    let (key, of, new) = (format!("new ground {run}"), run.clone(), point.clone());
    let figure = KeypadFigure::new(
        key,
        |_| None,
        move |job, at| Some(add_ground(job, new.clone(), of.clone(), at)),
    );
    let named = point.clone();
    figure
        .titled(move |job| {
            let run = run_called(job, &run);
            format!("Ground point **{named}**, running reading on **{run}**")
        })
        .hinted(|_| {
            "Where on the run's tape the ground is sighted, from the run's zero.".to_owned()
        })
        .then(move |job| {
            let there = job.levels.points.iter().any(|one| one.id == point);
            there.then(|| new_sight(setup, point.clone()))
        })
}

/// The height of the datum.
pub fn datum_height() -> KeypadFigure {
    KeypadFigure::kept(
        "datum",
        |job: &Job| job.levels.datum.clone(),
        |datum| Some(&mut datum.height),
        |datum| Edit::Set(Setting::Datum(Some(datum))),
    )
    .of_kind(FigureKind::Signed(KeySigns::UpDown))
    .titled(|job| {
        let datum = job.levels.datum.as_ref();
        let point = datum.map(|datum| datum.point.to_string());
        format!("Height of the datum, **{}**", point.unwrap_or_default())
    })
    .hinted(|_| "Every height is counted from here; 0 will do.".to_owned())
}

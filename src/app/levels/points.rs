//! Where a new ground point is, and the height of the datum, as they are typed.

use super::datum::new_point_name;
use super::figures::{down, new_sight, sight_dist};
use crate::app::desk::{FigureKind, FigureOf};
use crate::app::kit::KeypadFigure;
use crate::app::names::run_called;
use crate::job::edit::{Change, Edit, Setting};
use crate::job::model::{Job, Point, Sight};
use crate::job::{PointId, RunId};
use crate::length;
use std::rc::Rc;
use tautmark_ui::KeySigns;

/// Where on its run a new ground point is; it is sighted from a set-up next.
pub fn new_ground(run: RunId, point: PointId, setup: usize) -> KeypadFigure {
    let (key, of, new) = (format!("new ground {run}"), run.clone(), point.clone());
    let figure = KeypadFigure::new(
        key,
        |_| None,
        move |job, value| {
            let at = job.levels.points.len();
            let value = Point {
                id: new.clone(),
                run: Some(of.clone()),
                at: Some(value),
                ..Point::default()
            };
            Some(Edit::Point(Change::Insert { at, value }))
        },
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

/// The ground at one post after the other, from where it is marked on the run's tape: each is a new
/// point, sighted from one set-up.
#[derive(Clone)]
pub struct AtPosts {
    pub run: RunId,
    pub setup: usize,
    /// Number of each post, and its centre's running reading, mm.
    pub posts: Rc<[(usize, f64)]>,
}

impl AtPosts {
    /// Asks for the ground at the post of this place in the list; the next one comes after it.
    #[must_use]
    pub fn ask(&self, k: usize) -> Option<KeypadFigure> {
        let (n, at) = *self.posts.get(k)?;
        let (setup, run, of) = (self.setup, self.run.clone(), self.run.clone());
        let figure = KeypadFigure::new(
            format!("ground at post {n} of {run}"),
            |_| None,
            move |job, value| {
                let id = new_point_name(job, "g");
                let point = Point {
                    id: id.clone(),
                    run: Some(run.clone()),
                    at: Some(at),
                    ..Point::default()
                };
                let sight = Sight {
                    point: id,
                    down: Some(-value),
                    ..Sight::default()
                };
                let points = Change::Insert {
                    at: job.levels.points.len(),
                    value: point,
                };
                let change = Change::Insert {
                    at: job.levels.setups.get(setup)?.sights.len(),
                    value: sight,
                };
                let sighted = Edit::Sight { setup, change };
                Some(Edit::Many(vec![Edit::Point(points), sighted]))
            },
        );
        let (posts, rest) = (self.posts.len(), self.clone());
        let figure = down(figure)
            .of(FigureOf::Setup(setup))
            .titled(move |job| format!("Ground at **post {n}**, {}", run_called(job, &of)))
            .hinted(move |desk| {
                let at = length::show_with_unit(at, desk.job().show.lengths);
                format!("Measure from the laser line down to the ground at {at} on the run's tape.")
            })
            .progress(move |_| Some((k + 1, posts)))
            .then(move |job| {
                let sights = job.levels.setups.get(setup)?.sights.len();
                let rest = rest.clone();
                let distance = sight_dist(setup, sights.checked_sub(1)?);
                Some(distance.then(move |_| rest.ask(k + 1)))
            });
        Some(figure)
    }
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

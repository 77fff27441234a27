//! Where a new ground point is, and the height of the datum, as they are typed.

use super::figures::NewSight;
use crate::app::desk::{Desk, FigureKind, Prompt};
use crate::app::kit::words::status;
use crate::app::names::things::run_called;
use crate::job::edit::{Change, Edit, Setting};
use crate::job::model::{Datum, Job, Point};
use crate::job::{PointId, RunId};
use tautmark_ui::{KeySigns, Status, Verdict};

/// Where on its run a new ground point is; it is sighted from a set-up next.
pub struct NewGround {
    pub run: RunId,
    pub point: PointId,
    pub setup: usize,
}

/// The height of the datum.
pub struct DatumHeight;

impl Prompt for NewGround {
    fn key(&self) -> String {
        format!("new ground {}", self.run)
    }

    fn title(&self, job: &Job) -> String {
        let run = run_called(job, &self.run);
        format!(
            "Ground point **{}**, running reading on **{run}**",
            self.point
        )
    }

    fn measure(&self) -> FigureKind {
        FigureKind::Length
    }

    fn value(&self, _job: &Job) -> Option<f64> {
        None
    }

    fn edit(&self, job: &Job, value: f64) -> Option<Edit> {
        let at = job.levels.points.len();
        let value = Point {
            id: self.point.clone(),
            run: Some(self.run.clone()),
            at: Some(value),
            ..Point::default()
        };
        Some(Edit::Point(Change::Insert { at, value }))
    }

    fn next(&self, job: &Job) -> Option<Box<dyn Prompt>> {
        let there = job.levels.points.iter().any(|one| one.id == self.point);
        there.then(|| {
            Box::new(NewSight {
                setup: self.setup,
                point: self.point.clone(),
            }) as Box<dyn Prompt>
        })
    }

    fn verdict(&self, _desk: &Desk, typed: Option<f64>) -> Option<Status> {
        let text = "Where on the run's tape the ground is sighted, from the run's zero.";
        typed.is_none().then(|| status(Verdict::Note, text))
    }
}

impl Prompt for DatumHeight {
    fn key(&self) -> String {
        "datum".to_owned()
    }

    fn title(&self, job: &Job) -> String {
        let datum = job.levels.datum.as_ref();
        let point = datum.map(|datum| datum.point.to_string());
        format!("Height of the datum, **{}**", point.unwrap_or_default())
    }

    fn measure(&self) -> FigureKind {
        FigureKind::Signed(KeySigns::UpDown)
    }

    fn value(&self, job: &Job) -> Option<f64> {
        Some(job.levels.datum.as_ref()?.height)
    }

    fn edit(&self, job: &Job, value: f64) -> Option<Edit> {
        let datum = job.levels.datum.clone()?;
        let datum = Datum {
            height: value,
            ..datum
        };
        Some(Edit::Set(Setting::Datum(Some(datum))))
    }

    fn verdict(&self, _desk: &Desk, typed: Option<f64>) -> Option<Status> {
        let text = "Every height is counted from here; 0 will do.";
        typed.is_none().then(|| status(Verdict::Note, text))
    }
}

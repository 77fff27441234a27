//! Where a carry round a corner stands, and what comes next.

use crate::app::desk::Desk;
use crate::job::PointId;
use crate::job::model::{Job, Setup};
use crate::levels::SetupFix;

/// What is to be done next.
pub enum Next {
    ChooseDatum,
    SetUp,
    SightDatum(PointId),
    ChoosePoint,
    Sight(PointId),
    Move,
    SightAgain(PointId),
    Done,
}

/// Where the guide stands.
pub struct Guide<'a> {
    pub from: usize,
    pub first: Option<&'a Setup>,
    pub second: Option<&'a Setup>,
    pub datum: Option<&'a PointId>,
    /// The point that carries the level, once one is sighted from the first set-up.
    pub point: Option<&'a PointId>,
}

/// What a set-up has read to a point, mm down.
pub fn sees(setup: &Setup, point: &PointId) -> Option<f64> {
    let sights = setup.sights.iter();
    let sight = sights
        .filter(|sight| sight.used)
        .find(|sight| sight.point == *point);
    sight?.down
}

impl<'a> Guide<'a> {
    /// Goes from the set-up in sight.
    pub fn of(desk: &'a Desk) -> Self {
        let levels = &desk.job().levels;
        let from = desk.chosen.setup.min(levels.setups.len().saturating_sub(1));
        let first = levels.setups.get(from);
        let second = levels.setups.get(from + 1);
        let datum = levels.datum.as_ref().map(|datum| &datum.point);
        let point = first.and_then(|first| change_point(desk.job(), first, second, datum));
        Self {
            from,
            first,
            second,
            datum,
            point,
        }
    }

    /// What is to be done next.
    pub fn next(&self, desk: &Desk) -> Next {
        let Some(datum) = self.datum else {
            return Next::ChooseDatum;
        };
        let Some(first) = self.first else {
            return Next::SetUp;
        };
        if line(desk, first).is_none() && sees(first, datum).is_none() {
            return Next::SightDatum(datum.clone());
        }
        let Some(point) = self.point else {
            // The datum alone may be seen from both.
            let carried = self.second.and_then(|second| line(desk, second));
            return carried.map_or(Next::ChoosePoint, |_| Next::Done);
        };
        if sees(first, point).is_none() {
            return Next::Sight(point.clone());
        }
        match self.second {
            None => Next::Move,
            Some(second) if sees(second, point).is_none() => Next::SightAgain(point.clone()),
            Some(_) => Next::Done,
        }
    }
}

/// A set-up's line, where it is known.
pub fn line<'a>(desk: &'a Desk, setup: &Setup) -> Option<&'a SetupFix> {
    desk.solution.levels.as_ref()?.setups.get(&setup.id)
}

/// A point that both set-ups see; else the last that the first one saw besides the datum, a free
/// one rather than one that stands on a run.
fn change_point<'a>(
    job: &'a Job,
    first: &'a Setup,
    second: Option<&Setup>,
    datum: Option<&PointId>,
) -> Option<&'a PointId> {
    let points = first.sights.iter().rev().map(|sight| &sight.point);
    let points: Vec<&PointId> = points.filter(|point| Some(*point) != datum).collect();
    let best = |points: &[&'a PointId]| {
        let free = points.iter().find(|point| is_free(job, point));
        free.or(points.first()).copied()
    };
    let shared = second.and_then(|second| {
        let both = points.iter().filter(|point| sees(second, point).is_some());
        best(&both.copied().collect::<Vec<_>>())
    });
    shared.or_else(|| best(&points))
}

fn is_free(job: &Job, id: &PointId) -> bool {
    let point = job.levels.points.iter().find(|point| point.id == *id);
    point.is_none_or(|point| point.run.is_none() && point.mark.is_none())
}

//! Datum, points, set-ups and sights.

use super::plane::Marks;
use super::runs::Runs;
use super::{FilePlace, Ledger, Named};
use crate::job::ids::{PointId, SetupId};
use crate::job::model::{Job, Point, Sight};
use crate::job::sound::{PointIx, SetupIx, Sound, SoundDatum, SoundPoint, SoundSight, Stands};
use crate::laser::LaserWorth;

/// Distance of a sight where none is given, mm.
pub const USUAL_SIGHT: f64 = 5000.0;

type Points = Named<PointId, PointIx>;

pub(super) fn levels(
    job: &Job,
    marks: &Marks,
    runs: &Runs,
    sound: &mut Sound,
    ledger: &mut Ledger,
) {
    let levels = FilePlace::File.key("levels");
    ledger.unknown_keys(levels, &job.levels.extra);
    let mut points = Points::new();
    let list = levels.key("points");
    for (i, point) in job.levels.points.iter().enumerate() {
        let place = list.nth(i);
        ledger.unknown_keys(place, &point.extra);
        if points.claim(&point.id, "point", place, ledger) {
            let stands = stands(point, place, marks, runs, ledger);
            add(&point.id, stands, &mut points, sound);
        }
    }
    if let Some(datum) = &job.levels.datum {
        let place = levels.key("datum");
        ledger.unknown_keys(place, &datum.extra);
        let height = ledger.any(place.key("height"), datum.height, "datum's height");
        let point = seen(&datum.point, place.key("point"), &mut points, sound, ledger);
        if let (Some(height), Some(point)) = (height, point) {
            sound.levels.datum = Some(SoundDatum { point, height });
        }
    }
    let mut setups: Named<SetupId, SetupIx> = Named::new();
    let list = levels.key("setups");
    for (i, setup) in job.levels.setups.iter().enumerate() {
        let place = list.nth(i);
        ledger.unknown_keys(place, &setup.extra);
        if !setups.claim(&setup.id, "set-up", place, ledger) {
            continue;
        }
        let ix = SetupIx(sound.levels.setups.len());
        sound.levels.setups.push(setup.id.clone());
        let sights = place.key("sights");
        for (k, sight) in setup.sights.iter().enumerate() {
            let place = sights.nth(k);
            ledger.unknown_keys(place, &sight.extra);
            let point = seen(&sight.point, place.key("point"), &mut points, sound, ledger);
            if let (Some(point), Some((down, sd))) = (point, figures(sight, place, sound, ledger))
                && sight.used
            {
                let place = (i, k);
                sound.levels.sights.push(SoundSight {
                    setup: ix,
                    point,
                    down,
                    dist: sight.dist,
                    sd,
                    place,
                });
            }
        }
    }
}

fn stands(
    point: &Point,
    place: FilePlace<'_>,
    marks: &Marks,
    runs: &Runs,
    ledger: &mut Ledger,
) -> Stands {
    if let Some(run) = &point.run {
        let run = runs.find(run, "run", place.key("run"), ledger);
        let at = ledger.given(place.key("at"), point.at, "running reading");
        let at = at.and_then(|at| ledger.any(place.key("at"), at, "running reading"));
        if let (Some(run), Some(at)) = (run, at) {
            return Stands::Ground { run, at };
        }
    } else if let Some(mark) = &point.mark
        && let Some(mark) = marks.find(mark, "mark", place.key("mark"), ledger)
    {
        return Stands::Mark(mark);
    }
    Stands::Anywhere
}

/// A point may be listed, or simply be sighted.
fn seen(
    id: &PointId,
    place: FilePlace<'_>,
    points: &mut Points,
    sound: &mut Sound,
    ledger: &mut Ledger,
) -> Option<PointIx> {
    if id.is_empty() {
        ledger.problems.error(
            place,
            "No point is named here.",
            "Name the point that was sighted.",
        );
        return None;
    }
    if let Some(at) = points.found.get(id) {
        return *at;
    }
    Some(add(id, Stands::Anywhere, points, sound))
}

fn add(id: &PointId, stands: Stands, points: &mut Points, sound: &mut Sound) -> PointIx {
    let ix = PointIx(sound.levels.points.len());
    sound.levels.points.push(SoundPoint {
        id: id.clone(),
        stands,
    });
    points.settle(id, ix);
    ix
}

/// The reading and its standard deviation, mm.
fn figures(
    sight: &Sight,
    place: FilePlace<'_>,
    sound: &Sound,
    ledger: &mut Ledger,
) -> Option<(f64, f64)> {
    let down = ledger.given(
        place.key("down"),
        sight.down,
        "reading down from the laser line",
    )?;
    let down = ledger.any(place.key("down"), down, "reading down from the laser line")?;
    let dist = ledger.not_negative(
        place.key("dist"),
        sight.dist.unwrap_or(USUAL_SIGHT),
        "distance from the laser",
    )?;
    Some((down, LaserWorth::from(&sound.laser).sd(dist)))
}

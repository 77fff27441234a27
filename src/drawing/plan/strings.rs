//! Strings, from a bit beyond the first thing on them to a bit beyond the last.

use super::Detail;
use super::site::Site;
use crate::drawing::bounds::{Bounds, Vec2};
use crate::drawing::model::{Label, LineStyle as Stroke, Rank, Role, Shape, Target, WordsPlace};
use crate::drawing::pencil::Pencil;
use crate::job::model::Line;
use crate::job::with_kind;
use crate::site::Ray;

pub(super) fn draw(site: &Site, pencil: &mut Pencil) {
    for line in &site.job.lines {
        let Some(ray) = site.string(&line.id) else {
            continue;
        };
        let nails = nails(site, line);
        let Some([first, last]) = reach(site, line, &ray, &nails) else {
            continue;
        };
        let target = Target::Line(line.id.clone());
        let chosen = site.is_chosen(&target);
        let weight = if chosen { Stroke::Thick } else { Stroke::Plain };
        pencil
            .line(Role::String, weight, ray.at(first, 0.0), ray.at(last, 0.0))
            .of(target.clone())
            .chosen_if(chosen);
        if chosen {
            for nail in nails {
                let on = ray.at(ray.running(nail), 0.0);
                pencil.add(Role::String, Shape::Dot(on)).of(target.clone());
            }
        }
        if site.show.detail == Detail::Sheet {
            pencil
                .label(Role::String, name(line, &ray, last))
                .of(target);
        }
    }
}

fn name(line: &Line, ray: &Ray, last: f64) -> Label {
    let called = line.called();
    let at = ray.at(last, 0.0);
    Label {
        place: WordsPlace::Around {
            toward: ray.along,
            clear: 0.0,
        },
        ..Label::near(at, with_kind("string", called), ray.along, 0.0)
            .small()
            .rank(Rank::Extra)
    }
}

/// Where the nails of a string off a wall go.
fn nails(site: &Site, line: &Line) -> Vec<Vec2> {
    let Some(wall) = line.wall.as_ref().and_then(|id| site.wall(id)) else {
        return Vec::new();
    };
    let Some(side) = line.side else {
        return Vec::new();
    };
    let stations = line.offsets.iter().flatten();
    let nail = |at: Option<f64>, off: Option<f64>| Some(wall.at(at?, side.sign() * off?));
    stations
        .filter_map(|station| nail(station.at, station.off))
        .collect()
}

/// The readings along the string between which it is drawn.
fn reach(site: &Site, line: &Line, ray: &Ray, nails: &[Vec2]) -> Option<[f64; 2]> {
    let mut on = nails.to_vec();
    // One nail alone has no length; its string runs beside the whole wall.
    if let ([_], Some(id)) = (nails, &line.wall) {
        let wall = site.job.walls.iter().find(|wall| wall.id == *id);
        let ends = wall.into_iter().flat_map(|wall| [&wall.from, &wall.to]);
        on.extend(ends.filter_map(|id| site.mark(id)));
    }
    let marks = line.marks.iter().flatten();
    on.extend(marks.filter_map(|id| site.mark(id)));
    for corner in site
        .job
        .corners
        .iter()
        .filter(|c| c.lines.contains(&line.id))
    {
        let fix = site.solution.corners.get(&corner.id);
        on.extend(fix.map(|fix| site.place([fix.x, fix.y])));
    }
    for run in site.job.runs.iter().filter(|run| run.line == line.id) {
        let fix = site.solution.runs.get(&run.id);
        let track = fix.map(|fix| (site.track(fix), fix.length));
        on.extend(
            track
                .into_iter()
                .flat_map(|(track, length)| [track.at(0.0, 0.0), track.at(length, 0.0)]),
        );
    }
    let along = on.iter().map(|&at| Vec2::new(ray.running(at), 0.0));
    let along = Bounds::around(along);
    if along.is_empty() {
        return None;
    }
    let beyond = (along.size().x * 0.04).clamp(100.0, 500.0);
    Some([along.min.x - beyond, along.max.x + beyond])
}

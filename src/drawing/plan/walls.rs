//! Walls, hatched on the side that nothing stands on.

use super::site::Site;
use super::{Detail, Seen};
use crate::drawing::model::{Hatched, Label, Rank, Role, Target, WordsPlace};
use crate::drawing::pencil::{Pencil, left_of};
use crate::job::MarkId;
use crate::job::model::Wall;
use crate::job::reading::Measure;
use crate::site::Ray;

pub(super) fn draw(site: &Site, pencil: &mut Pencil) {
    for wall in &site.job.walls {
        let Some(ray) = site.wall_ray(wall) else {
            continue;
        };
        let (Some(from), Some(to)) = (site.mark(&wall.from), site.mark(&wall.to)) else {
            continue;
        };
        let fixed = [&wall.from, &wall.to]
            .iter()
            .all(|id| site.solution.marks.contains_key(*id));
        let role = if fixed { Role::Wall } else { Role::Sketch };
        let target = Target::Wall(wall.id.clone());
        let chosen = site.is_chosen(&target);
        let side = hatched(site, wall, &ray);
        pencil
            .wall(role, from, to, side)
            .of(target.clone())
            .chosen_if(chosen);
        if chosen && site.show.detail == Detail::Screen {
            let out = left_of(ray.along) * if side == Hatched::Right { -1.0 } else { 1.0 };
            let name = Label {
                place: WordsPlace::Beside {
                    along: ray.along,
                    out,
                    reach: (to - from).norm() / 2.0,
                },
                ..Label::near((from + to) / 2.0, wall.called(), out, 0.0)
            };
            pencil
                .label(Role::Quiet, name.small().rank(Rank::Now))
                .of(target);
        }
    }
}

/// The side away from the strings, the fence and, with the least weight, the tapes.
pub(super) fn hatched(site: &Site, wall: &Wall, ray: &Ray) -> Hatched {
    let weight = strings(site, wall) + fence(site, wall, ray) + readings(site, wall, ray);
    if weight > 0.0 {
        Hatched::Right
    } else if weight < 0.0 {
        Hatched::Left
    } else {
        Hatched::Neither
    }
}

fn strings(site: &Site, wall: &Wall) -> f64 {
    let lines = site.job.lines.iter();
    let off_it = lines.filter(|line| line.wall.as_ref() == Some(&wall.id));
    let sides = off_it.filter_map(|line| line.side);
    sides.map(|side| 1000.0 * side.sign()).sum()
}

/// Posts of the runs that start or end at the wall.
fn fence(site: &Site, wall: &Wall, ray: &Ray) -> f64 {
    let mut weight = 0.0;
    for run in &site.job.runs {
        let ends = [&run.start, &run.end].into_iter().flatten();
        let meets = ends
            .filter(|end| end.wall.as_ref() == Some(&wall.id))
            .count();
        if meets == 0 || site.show.posts == Seen::Hidden && site.show.strings == Seen::Hidden {
            continue;
        }
        let Some(fix) = site.solution.runs.get(&run.id) else {
            continue;
        };
        let middle = site.track(fix).at(fix.length / 2.0, 0.0);
        weight += 100.0 * ray.off(middle).signum();
    }
    weight
}

/// The mean side of the marks taped from its ends, and the sides of square offsets.
fn readings(site: &Site, wall: &Wall, ray: &Ray) -> f64 {
    let side_of = |id: &MarkId| {
        let off = site.mark(id).map_or(0.0, |at| ray.off(at));
        if off.abs() < 1.0 { 0.0 } else { off.signum() }
    };
    let ends = [&wall.from, &wall.to];
    let weigh = |what: &Measure| match what {
        Measure::Offset {
            wall: on,
            side: Some(side),
            ..
        } if *on == wall.id => side.sign(),
        Measure::Tape { from, to, .. } if ends.contains(&from) => side_of(to),
        Measure::Tape { from, to, .. } if ends.contains(&to) => side_of(from),
        _ => 0.0,
    };
    let used = site.job.readings.iter().filter(|reading| reading.used);
    used.map(|reading| weigh(&reading.what)).sum()
}
